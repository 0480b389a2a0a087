"""Thread: what a seam takes beyond the even case."""

from __future__ import annotations

import pytest

from drafting.craft.faults import NotPositive
from drafting.craft.spacing import Every
from drafting.craft.stitches import Request, lay_out
from drafting.craft.thread import thread_of_even, thread_of_layout
from drafting.geometry.curves import circle
from drafting.geometry.point import Point
from tests.craft.samples import straight


def test_a_laid_out_seam_takes_what_its_even_pitch_takes() -> None:
    layout = lay_out(straight(200), Request(Every(4)))
    assert thread_of_layout(layout, 3).length == pytest.approx(thread_of_even(4, 50, 3).length)


def test_thread_lies_straight_from_hole_to_hole() -> None:
    """Round a circle it is shorter than the circle itself."""
    layout = lay_out(circle(Point(0, 0), 6), Request(Every(4), start=Point(0, 9)))
    need = thread_of_layout(layout, 3)
    assert need.in_seam == pytest.approx(2 * 9 * layout.gaps[0] + 19 * 3)
    assert need.seam < layout.line.length


def test_needle_tails_and_back_stitches_come_on_top() -> None:
    plain = lay_out(straight(200), Request(Every(4)))
    backed = lay_out(straight(200), Request(Every(4), back=(2, 3)))
    extra = thread_of_layout(backed, 3, tail=150).length - thread_of_layout(plain, 3).length
    assert extra == pytest.approx(2 * 150 + 5 * 2 * (4 + 3))
    assert thread_of_layout(backed, 3, tail=150).length == pytest.approx(
        thread_of_even(4, 50, 3, 150, 5).length
    )


def test_a_thickness_below_nothing_is_refused() -> None:
    with pytest.raises(NotPositive):
        thread_of_even(4, 50, -1)
