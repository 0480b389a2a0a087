"""Properties of what is punched, cut and sewn: marks and their twins, rows, slits, thread, turned strips, pockets."""

from __future__ import annotations

from itertools import pairwise
from math import cos, hypot, pi, radians, sin

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from drafting.craft.bends import Bend, flat_from_outside, flat_from_straights, fold_allowance
from drafting.craft.holding import Held, between_seams, past_opening
from drafting.craft.joins import Side, compare
from drafting.craft.marks import Slanted, slanted_marks
from drafting.craft.rows import RowRequest, row_along
from drafting.craft.slits import SlitRequest, cut_slit
from drafting.craft.spacing import AsManyAs, Stitches
from drafting.craft.stitches import Request, lay_out, pricked_through
from drafting.craft.thread import thread_through
from drafting.geometry.corners import fillet
from drafting.geometry.curves import box, circle
from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point, Vector

NEAR = 1e-6
FEW = settings(max_examples=40)

coordinates = st.floats(-200, 200, allow_nan=False)
points = st.builds(Point, coordinates, coordinates)
lengths = st.floats(1, 300)


@st.composite
def bent_lines(draw: st.DrawFn) -> Path:
    """Straight legs that do not turn back on themselves."""
    corners = [Point(0, 0)]
    way = draw(st.floats(0, 2 * pi))
    for turn, length in draw(
        st.lists(st.tuples(st.floats(-2.0, 2.0), st.floats(20, 90)), min_size=1, max_size=3)
    ):
        way += turn
        corners.append(corners[-1] + Vector(cos(way), sin(way)) * length)
    return Path([Line(a, b) for a, b in pairwise(corners)])


def ends(mark: Line) -> list[tuple[float, float]]:
    """Of a mark, whichever way it is drawn."""
    return sorted((round(point.x, 5), round(point.y, 5)) for point in (mark.start, mark.end))


@FEW
@given(bent_lines(), st.integers(3, 30), st.floats(0.5, 4), st.floats(0.1, 3), points, points)
def test_a_slanted_mark_stands_in_its_hole_and_its_twin_lies_on_it_when_folded(
    line: Path, count: int, long: float, lean: float, a: Point, b: Point
) -> None:
    """On the face it leans anticlockwise off its line by the lean; a folded twin is its picture in the fold."""
    assume(a.distance_to(b) > 1)
    layout, mark = lay_out(line, Request(Stitches(count))), Slanted(long, lean)
    for hole, slit in zip(layout.holes, slanted_marks(layout, mark), strict=True):
        along, aside = hole.direction.dot(slit.end - slit.start), hole.direction.cross(slit.end - slit.start)
        assert slit.start.midway(slit.end).distance_to(hole.point) < NEAR
        assert (along, aside) == (pytest.approx(long * cos(lean)), pytest.approx(long * sin(lean)))
    folded = slanted_marks(layout.mirrored(a, b), mark, meets_face=True)
    for slit, other in zip(slanted_marks(layout, mark), folded, strict=True):
        twin = slit.mirrored(a, b)
        assert (
            min(
                max(twin.start.distance_to(one.start), twin.end.distance_to(one.end))
                for one in (other, other.reversed())
            )
            < NEAR
        )


@FEW
@given(bent_lines(), st.integers(1, 9), st.floats(0.5, 20), st.floats(0, 15))
def test_a_row_is_even_and_stands_by_the_end_that_it_is_placed_by(
    line: Path, count: int, apart: float, first: float
) -> None:
    extent = (count - 1) * apart
    assume(extent + first < line.length)
    from_start, from_end, middle = (
        [line.locate(hole) or 0.0 for hole in row_along(line, RowRequest(count, apart, placed, off))]
        for placed, off in (("start", first), ("end", first), ("middle", 0.0))
    )
    for places in (from_start, from_end, middle):
        assert [b - a for a, b in pairwise(places)] == pytest.approx([apart] * (count - 1), abs=1e-5)
    assert from_start[0] == pytest.approx(first, abs=1e-5)
    assert line.length - from_end[-1] == pytest.approx(first, abs=1e-5)
    assert middle[0] == pytest.approx(line.length - middle[-1], abs=1e-5)


@FEW
@given(st.floats(20, 300), st.floats(0.5, 8), st.floats(0.5, 8), st.floats(0.3, 2.8))
def test_the_knife_goes_from_rim_to_rim_of_the_holes_of_a_slit(
    length: float, end_hole: float, corner_hole: float, turn: float
) -> None:
    corner = Point(length, 0)
    path = Path([Line(Point(0, 0), corner), Line(corner, corner + Vector(cos(turn), sin(turn)) * length)])
    slit = cut_slit(path, SlitRequest(end_hole, corner_hole))
    assert [hole.across for hole in slit.holes] == [end_hole, corner_hole, end_hole]
    for cut, (before, after) in zip(slit.cuts, pairwise(slit.holes), strict=True):
        assert cut.start.distance_to(before.center) == pytest.approx(before.across / 2)
        assert cut.end.distance_to(after.center) == pytest.approx(after.across / 2)
    assert slit.bare_ends == ()


@FEW
@given(bent_lines(), st.integers(4, 30), st.data())
def test_thread_is_what_two_needles_take_walked_stitch_by_stitch(
    line: Path, count: int, data: st.DataObject
) -> None:
    """The thread is drawn to its middle in the first hole; each needle then runs over one face and through every hole.
    Two back-stitches at the end go through the holes again, each as thick as it is."""
    layout = lay_out(line, Request(Stitches(count), back=(0, 2)))
    thicknesses = data.draw(st.lists(st.floats(0.5, 8), min_size=count + 1, max_size=count + 1))
    walked = thicknesses[0]
    for (here, there), thick in zip(pairwise(layout.holes), thicknesses[1:], strict=True):
        walked += 2 * (hypot(there.point.x - here.point.x, there.point.y - here.point.y) + thick)
    for index in (count, count - 1):
        apart = layout.holes[index].point.distance_to(layout.holes[index - 1].point)
        walked += 2 * (apart + thicknesses[index - 1])
    assert thread_through(layout, thicknesses).length == pytest.approx(walked)
    assert layout.stitched_twice == (count - 2, count - 1, count)


@FEW
@given(st.integers(3, 30), st.floats(0.5, 8), lengths)
def test_on_a_ring_the_thread_comes_back_to_its_first_hole(count: int, thick: float, size: float) -> None:
    ring = box(Point(0, 0), size + 20, size + 10)
    layout = lay_out(ring, Request(Stitches(count + 4), back=(3, 0)))
    gaps = sum(a.point.distance_to(b.point) for a, b in pairwise([*layout.holes, layout.holes[0]]))
    again = sum(a.point.distance_to(b.point) for a, b in pairwise(layout.holes[:4])) + 3 * thick
    walked = 2 * gaps + (2 * len(layout.holes) + 1) * thick + 2 * again
    assert thread_through(layout, [thick] * len(layout.holes)).length == pytest.approx(walked)
    assert layout.stitched_twice == (0, 1, 2, 3)


@FEW
@given(st.lists(st.integers(1, 12), min_size=3, max_size=3))
def test_copied_counts_stay_in_their_order(counts: list[int]) -> None:
    line = Path(
        [
            Line(Point(0, 0), Point(50, 0)),
            Line(Point(50, 0), Point(50, 50)),
            Line(Point(50, 50), Point(100, 50)),
        ]
    )
    assert lay_out(line, Request(AsManyAs(tuple(counts)))).counts == tuple(counts)


@FEW
@given(st.floats(10, 120), st.floats(10, 120), st.floats(-60, 60), st.floats(-60, 60))
def test_all_holes_pricked_through_lie_on_the_other_piece_and_none_is_left_out(
    wide: float, high: float, x: float, y: float
) -> None:
    layout = lay_out(box(Point(0, 0), 80, 60), Request(Stitches(40)))
    disc = Ring([Line(a, b) for a, b in pairwise([*_rhomb(x, y, wide, high), _rhomb(x, y, wide, high)[0]])])
    kept = {hole.place for hole in pricked_through(layout, disc)}
    for hole in layout.holes:
        off = abs(hole.point.x - x) / wide + abs(hole.point.y - y) / high
        if abs(off - 1) > 1e-6:
            assert (hole.place in kept) == (off < 1)


def _rhomb(x: float, y: float, wide: float, high: float) -> list[Point]:
    return [Point(x + wide, y), Point(x, y + high), Point(x - wide, y), Point(x, y - high)]


@FEW
@given(st.floats(20, 150), st.floats(5, 100), st.floats(0, 20), st.floats(0, 10), st.floats(0.01, 50))
def test_a_pocket_holds_what_two_flat_walls_close_round(
    wide: float, deep: float, thick: float, ease: float, more: float
) -> None:
    """Twice the room between the seams is the leather of both walls, and the way round a block is 2 (w + c)."""
    held = Held("block", wide, deep, thick, ease)
    needed = 2 * (wide + thick) / 2 + ease
    assert between_seams(held, needed + more).fits and not between_seams(held, needed - more).fits
    shorter = min(wide, deep) + thick
    assert past_opening(held, shorter + more).fits and not past_opening(held, shorter - more).fits


@FEW
@given(
    inside=st.floats(0, 40), thick=st.floats(0.2, 8), neutral=st.floats(0, 1), turn=st.floats(0.01, 2 * pi)
)
def test_a_fold_takes_the_circle_of_its_neutral_layer(
    inside: float, thick: float, neutral: float, turn: float
) -> None:
    """Round a rod of this size, a whole turn is the circle through the layer that keeps its length."""
    assume(inside + neutral * thick > 0.01)
    layer = circle(Point(0, 0), inside / 2 + neutral * thick)
    assert fold_allowance(turn, inside, thick, neutral) == pytest.approx(layer.length * turn / (2 * pi))


@FEW
@given(st.floats(5, 120), st.floats(0.5, 8), st.floats(0.5, 6), st.floats(0.2, 0.8))
def test_a_strip_measured_outside_or_between_its_bends_is_as_long(
    turn_in_degrees: float, radius: float, thick: float, neutral: float
) -> None:
    """What a bend takes off the legs outside is what a rounding of the outer radius takes off them, in geometry."""
    turn = radians(turn_in_degrees)
    corner = Point(200, 0)
    legs = Line(Point(0, 0), corner), Line(corner, corner + Vector(cos(turn), sin(turn)) * 200)
    rounded = fillet(*legs, radius + thick)
    assert rounded.before is not None and rounded.after is not None
    straights = (rounded.before.length, rounded.after.length)
    bends = (Bend(turn, radius),)
    outside = flat_from_outside((200, 200), bends, thick, neutral)
    assert outside == pytest.approx(flat_from_straights(straights, bends, thick, neutral))
    assert flat_from_straights(straights, bends, thick, 0) == pytest.approx(sum(straights) + turn * radius)


@FEW
@given(st.lists(st.integers(1, 9), min_size=1, max_size=5), st.floats(2, 6), st.integers(0, 4))
def test_a_seam_is_sound_in_the_order_that_it_is_said_to_run(
    counts: list[int], pitch: float, at: int
) -> None:
    """Stretch by stretch, first to first or first to last; each within 2 % or the length that is said."""
    there = Side("a", tuple(counts), tuple(count * pitch for count in counts))
    back = Side("b", there.counts[::-1], there.lengths[::-1])
    assert compare([there, back], reversed=True).is_sound
    assert compare([there, back]).is_sound == (counts == counts[::-1])
    index = at % len(counts)
    for share, is_sound in ((1.0199, True), (1.0206, False)):
        lengths = [length * (share if place == index else 1) for place, length in enumerate(there.lengths)]
        longer = Side("b", there.counts, tuple(lengths))
        assert compare([there, longer]).is_sound == is_sound
        apart = lengths[index] - there.lengths[index]
        assert compare([there, longer], within=apart + 0.001).is_sound
        assert not compare([there, longer], within=apart - 0.001).is_sound
