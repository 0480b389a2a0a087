"""`awlwright measure` and `awlwright explain`: numbers and reasons read off a placed pattern."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.conftest import Run
from tests.cli.patterns import LOOSE, TAG


def test_amounts_read_in_the_units_that_the_pattern_shows(run: Run, tag: str) -> None:
    ran = run(
        "measure", tag, "tag.heel..tag.brow", "tag.width/2", "angle tag.foot..tag.heel..tag.brow", "3/4"
    )
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.splitlines() == [
        "tag.heel..tag.brow = 90 mm (3.5433 in)",
        "tag.width/2 = 20 mm (0.7874 in)",
        "angle tag.foot..tag.heel..tag.brow = 90 deg",
        "3/4 = 0.75",
    ]


def test_a_machine_gets_the_numbers_themselves(run: Run, tag: str) -> None:
    ran = run(
        "measure", tag, "wide/3", "tag.outline.area", "angle tag.foot..tag.heel..tag.brow", "1/3", "--json"
    )
    assert ran.code == 0
    records = json.loads(ran.out)
    assert [list(record) for record in records] == [["expr", "value", "unit"]] * 4
    assert [record["expr"] for record in records] == [
        "wide/3",
        "tag.outline.area",
        "angle tag.foot..tag.heel..tag.brow",
        "1/3",
    ]
    assert [record["unit"] for record in records] == ["mm", "mm2", "deg", ""]
    assert all(isinstance(record["value"], float) for record in records)
    area = 40 * 90 - 4 * (36 - 9 * 3.141592653589793)
    assert [record["value"] for record in records] == pytest.approx([40 / 3, area, 90, 1 / 3], abs=1e-9)


def test_a_measure_may_be_tried_at_another_value(run: Run, tag: str) -> None:
    """In any unit, with or without blanks, and the last word on it counts."""
    ran = run("measure", tag, "tag.width", "--with", "wide=1 3/4 in", "--with", "high = 5 cm")
    assert ran.out == "tag.width = 44.45 mm (1 3/4 in)\n"
    assert run("measure", tag, "wide", "--with", "wide=50 mm", "--with", "wide=2 in").out.startswith(
        "wide = 50.8 mm"
    )
    assert run("measure", tag, "wide", "--with", "wide=high/2").out.startswith("wide = 45 mm")


def test_a_size_is_taken_by_its_name(run: Run, sizes: str) -> None:
    """Without one the first that is written."""
    assert run("measure", sizes, "tag.width").out == "tag.width = 40 mm\n"
    assert run("measure", sizes, "tag.width", "--size", "broad").out == "tag.width = 60 mm\n"


def test_an_expression_that_begins_with_a_minus(run: Run, tag: str) -> None:
    assert run("measure", tag, "--", "-wide").out == "-wide = -40 mm (-1.5748 in)\n"
    assert run("measure", tag, "-wide + high").out == "-wide + high = 50 mm (1.9685 in)\n"


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["tag.heel.."], "^"),
        (["wide high"], "^"),
        (["widd"], "^"),
        (["1/0"], "`1/0` cannot be worked out: it divides by nothing."),
        (["wide", "--with", "wide=4"], "`4`: 4 what?"),
        (["wide", "--with", "wide=4 mmm"], "^"),
        (
            ["wide", "--with", "widd=4 mm"],
            "`--with 'widd=4 mm'` names no measure of the pattern.\n  mend: There are `wide`, `high`. Did you mean `wide`?",
        ),
        (["wide", "--with", "wide"], "error C11\n  `--with wide` sets no measure."),
        (["wide", "--with", "=4 mm"], "error C11"),
        (["wide", "--with", "wide="], "error C11"),
        (
            ["wide", "--size", "brod"],
            "`--size brod` names no size of the pattern.\n  mend: There is none: leave `--size` out.",
        ),
    ],
)
def test_wrong_words_are_told_and_exit_with_2(run: Run, tag: str, words: list[str], told: str) -> None:
    ran = run("measure", tag, *words)
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.startswith("awlwright: error ")
    assert told in ran.err


def test_the_nearest_size_is_named(run: Run, sizes: str) -> None:
    ran = run("measure", sizes, "wide", "--size", "brod")
    assert ran.code == 2
    assert (
        "`--size brod` names no size of the pattern.\n  mend: There are `slim`, `broad`. Did you mean `broad`?"
        in ran.err
    )


@pytest.mark.parametrize("command", ["measure", "explain"])
def test_a_faulty_pattern_is_neither_measured_nor_explained(run: Run, folder: Path, command: str) -> None:
    (folder / "loose.draft").write_text(LOOSE, encoding="utf-8")
    ran = run(command, "loose.draft", "tag.heel")
    assert (ran.code, ran.out) == (1, "")
    assert "loose.draft:7:9" in ran.err


def test_a_value_that_breaks_the_pattern_is_a_fault_of_the_pattern(run: Run, tag: str) -> None:
    ran = run("measure", tag, "wide", "--with", "wide=4 mm")
    assert ran.code == 1
    assert "tag.draft:11:10  error" in ran.err


def test_a_point_is_explained_by_its_facts(run: Run, tag: str) -> None:
    ran = run("explain", tag, "tag.brow")
    assert (ran.code, ran.err) == (0, "")
    assert "plumb with heel" in ran.out and "level with top" in ran.out


def test_a_point_that_may_lie_in_two_places_is_explained_with_both(run: Run, folder: Path) -> None:
    text = TAG.replace("plumb with heel; level with top", "wide from heel; wide from foot")
    (folder / "two.draft").write_text(text, encoding="utf-8")
    ran = run("explain", "two.draft", "tag.brow")
    assert (ran.code, ran.err) == (0, "")
    first, *rest = ran.out.splitlines()
    assert first.startswith("`tag.brow` can lie at (") and first.count(") mm or (") == 1
    assert "on the circle round `heel` with radius wide" in rest[0]
    assert rest[-1] == "Nothing picks one of these places: `awlwright check` names a choice that does."
    assert run("explain", "two.draft", "tag.heel").code == 1


def test_an_unknown_point_is_told(run: Run, tag: str) -> None:
    ran = run("explain", tag, "tag.brw")
    assert (ran.code, ran.out) == (2, "")
    assert "Did you mean `tag.brow`?" in ran.err


def test_a_pattern_may_come_in_from_a_pipe(run_real: Run) -> None:
    ran = run_real("measure", "-", "wide", typed=TAG.encode())
    assert (ran.code, ran.out) == (0, "wide = 40 mm (1.5748 in)\n")
