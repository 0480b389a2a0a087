"""What is told of a long run: how far it has come and, of even steps, how long the rest will take."""

from __future__ import annotations

import pytest

from drafting.cli.progress import Progress


@pytest.mark.parametrize(
    ("n_begun", "passed", "told"),
    [
        (1, 5.0, ""),
        (2, 3.0, ", about 27 s left"),
        (6, 50.0, ", about 50 s left"),
        (2, 60.0, ", about 9 min left"),
        (10, 0.9, ", about 1 s left"),
    ],
)
def test_the_rest_is_told_by_the_steps_that_are_done(n_begun: int, passed: float, told: str) -> None:
    progress = Progress(10, is_even=True)
    progress.n_begun = n_begun
    assert progress.rest(passed) == told


def test_of_uneven_steps_no_rest_is_told() -> None:
    progress = Progress(10)
    progress.n_begun = 5
    assert progress.rest(10.0) == ""
