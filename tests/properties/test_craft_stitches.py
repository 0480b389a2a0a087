"""Properties of stitch lines, seams and bends, whatever their figures."""

from __future__ import annotations

from itertools import pairwise
from math import pi

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from drafting.craft.bends import bend_allowance, round_stack
from drafting.craft.counting import PitchOff, PitchOffInStretch, nearest_fitting_pitch, share_out
from drafting.craft.faults import CannotStep, CraftFault, PitchTooLong
from drafting.craft.joins import Side, compare
from drafting.craft.meeting_holes import holes_meet
from drafting.craft.spacing import AsManyAs, Every, Stitches
from drafting.craft.stitches import Layout, Request, lay_out
from drafting.geometry.curves import arc_bowed, smooth_legs
from drafting.geometry.faults import GeometryFault
from drafting.geometry.leg import Leg
from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point

EVEN = 1e-6
"""How even a pitch must be, in mm (the project's own promise)."""

coordinates = st.floats(-200, 200, allow_nan=False)
points = st.builds(Point, coordinates, coordinates)
pitches = st.floats(2, 8)


@st.composite
def legs_between(draw: st.DrawFn, start: Point, end: Point) -> Leg:
    bow = draw(st.floats(0, 0.45)) * start.distance_to(end)
    return arc_bowed(start, end, bow, draw(st.booleans())) if bow > 0.01 else Line(start, end)


@st.composite
def lines(draw: st.DrawFn) -> Path | Ring:
    corners = draw(st.lists(points, min_size=2, max_size=6))
    assume(all(a.distance_to(b) > 20 for a, b in pairwise([*corners, corners[0]])))
    legs = [draw(legs_between(a, b)) for a, b in pairwise(corners)]
    if len(corners) > 2 and draw(st.booleans()):
        return Ring([*legs, draw(legs_between(corners[-1], corners[0]))])
    return Path(legs)


def steps_along(layout: Layout, index: int) -> list[float]:
    """Lengths along the line between the holes of one stretch and the first hole of the next."""
    stretch = layout.stretches[index]
    places = [hole.place for hole in layout.holes if hole.stretch == index]
    unrolled = [place if place >= stretch.start - EVEN else place + layout.line.length for place in places]
    is_last_open = isinstance(layout.line, Path) and index == len(layout.stretches) - 1
    return [b - a for a, b in pairwise(unrolled if is_last_open else [*unrolled, stretch.end])]


@given(line=lines(), count=st.integers(1, 60), corners=st.sampled_from(["hole", "round"]))
def test_the_pitch_is_even_along_every_stretch(line: Path | Ring, count: int, corners: str) -> None:
    request = Request(Stitches(count + 12), corners=corners, start=line.start)  # type: ignore[arg-type]
    layout = lay_out(line, request)
    assert layout.stitches == count + 12
    assert len(layout.holes) == layout.stitches + (0 if layout.is_ring else 1)
    for index, stretch in enumerate(layout.stretches):
        steps = steps_along(layout, index)
        assert len(steps) == stretch.stitches
        assert max(abs(step - stretch.pitch) for step in steps) < EVEN


@given(line=lines(), count=st.integers(12, 80))
def test_steps_across_are_even_and_end_on_the_end(line: Path | Ring, count: int) -> None:
    try:
        layout = lay_out(line, Request(Stitches(count), measured="across", start=line.start))
    except CannotStep:
        assume(False)
    for index, stretch in enumerate(layout.stretches):
        holes = [hole.point for hole in layout.holes if hole.stretch == index]
        is_last_open = isinstance(line, Path) and index == len(layout.stretches) - 1
        holes = (
            holes
            if is_last_open
            else [
                *holes,
                line.point_at(line.within(stretch.end % line.length if layout.is_ring else stretch.end)),
            ]
        )
        assert len(holes) == stretch.stitches + 1
        assert max(abs(a.distance_to(b) - stretch.pitch) for a, b in pairwise(holes)) < EVEN
        assert stretch.pitch <= stretch.length / stretch.stitches + EVEN


@given(line=lines(), pitch=pitches)
@example(line=Path([Line(Point(0, 0), Point(26.5, 0))]), pitch=5)  # 6 % off, which must be refused
@example(line=Path([Line(Point(0, 0), Point(23.4, 0))]), pitch=5)
@example(line=Path([Line(Point(0, 0), Point(26.2, 0))]), pitch=5)
def test_a_line_that_is_accepted_is_within_a_twentieth_and_one_refused_is_not(
    line: Path | Ring, pitch: float
) -> None:
    try:
        layout = lay_out(line, Request(Every(pitch), start=line.start))
    except (PitchOff, PitchOffInStretch) as fault:
        below, above = int(fault.length / pitch), int(fault.length / pitch) + 1
        assert all(abs(fault.length / count / pitch - 1) > 0.05 for count in (below, above) if count)
    except PitchTooLong as fault:
        assert fault.length < pitch
    else:
        assert all(abs(stretch.off) <= 0.05 + 1e-6 for stretch in layout.stretches)
        assert all(s.stitches == pytest.approx(s.length / pitch, abs=0.5 + 1e-6) for s in layout.stretches)


@given(lengths=st.lists(st.floats(5, 300), min_size=1, max_size=6), pitch=pitches)
def test_the_pitch_offered_is_held_by_every_stretch(lengths: list[float], pitch: float) -> None:
    offered = nearest_fitting_pitch(lengths, pitch)
    if offered is not None:
        assert all(
            any(
                abs(length / count / offered - 1) <= 0.05 + 1e-9
                for count in (int(length / offered), int(length / offered) + 1)
                if count
            )
            for length in lengths
        )


@given(lengths=st.lists(st.floats(1, 300), min_size=1, max_size=8), extra=st.integers(0, 400))
def test_stitches_shared_out_are_all_there_and_no_stretch_could_be_nearer(
    lengths: list[float], extra: int
) -> None:
    """No stitch moved from one stretch to another would bring the two pitches nearer to each other."""
    counts = share_out(len(lengths) + extra, lengths)
    assert sum(counts) == len(lengths) + extra
    assert min(counts) >= 1
    given_next = [length / (count + 0.5) for length, count in zip(lengths, counts, strict=True)]
    given_last = [length / (count - 0.5) for length, count in zip(lengths, counts, strict=True) if count > 1]
    assert not given_last or max(given_next) <= min(given_last) + 1e-9


sides = st.builds(
    lambda name, rows, nominal: Side(name, tuple(r[0] for r in rows), tuple(r[1] for r in rows), nominal),
    st.sampled_from(["rim", "gusset", "front.edge"]),
    st.lists(st.tuples(st.integers(1, 40), st.floats(10, 200)), min_size=1, max_size=3),
    st.one_of(st.none(), pitches),
)


def said(report_sides: list[Side], reversed: bool, within: float | None) -> list[str]:
    report = compare(report_sides, reversed, within)
    return sorted(f"{fault.entry.says} {fault.entry.mend}".format(**fault.facts) for fault in report.faults)


@given(first=sides, second=sides, reversed=st.booleans(), within=st.one_of(st.none(), st.floats(0, 20)))
def test_a_seam_is_the_same_from_either_side(
    first: Side, second: Side, reversed: bool, within: float | None
) -> None:
    assume(first.name != second.name)
    assert said([first, second], reversed, within) == said([second, first], reversed, within)


@given(line=lines(), pitch=pitches)
def test_holes_of_joined_stacked_pieces_coincide(line: Path | Ring, pitch: float) -> None:
    """A line, its twin folded back over the mirror, and a copy of its counts meet hole for hole."""
    try:
        layout = lay_out(line, Request(Every(pitch), start=line.start))
    except CraftFault:
        assume(False)
    fold = (Point(-300, 7), Point(-290, 9))
    twin = layout.mirrored(*fold)
    copied = lay_out(line, Request(AsManyAs(layout.counts, layout.lengths), start=line.start))
    holes = [hole.point for hole in layout.holes]
    assert holes_meet(holes, [hole.point for hole in twin.holes], fold).worst < EVEN
    assert holes_meet(holes, [hole.point for hole in copied.holes]).worst < EVEN
    assert compare([Side.of("a", layout), Side.of("b", twin), Side.of("c", copied)]).is_sound


@given(points=st.lists(points, min_size=3, max_size=6, unique=True), count=st.integers(3, 90))
@example(points=[Point(52.0, 0.00390625), Point(18.0, 0.0), Point(0.0, 0.0)], count=7)
@example(points=[Point(38.0, 0.015625), Point(16.0, 0.0), Point(0.0, 0.0)], count=12)
@example(points=[Point(0.0, 100.0), Point(0.0, 182.0), Point(1e-05, 0.0), Point(0.0, -20.0)], count=31)
@example(points=[Point(0.0, 96.0), Point(0.0, 182.0), Point(1.0, 0.0), Point(0.0, -46.0)], count=80)
def test_smooth_lines_of_many_arcs_are_stepped_evenly(points: list[Point], count: int) -> None:
    assume(all(a.distance_to(b) > 15 for a, b in pairwise(points)))
    try:
        line = Path(smooth_legs(points).legs)
        layout = lay_out(line, Request(Stitches(count), corners="round", measured="across"))
    except (CannotStep, GeometryFault):
        assume(False)
    assert max(abs(gap - layout.pitch) for gap in layout.gaps) < EVEN


@given(
    turns=st.lists(st.floats(0.01, 1), min_size=1, max_size=6),
    radius=st.floats(0, 30),
    thickness=st.floats(0.3, 6),
    neutral=st.floats(0, 1),
)
def test_allowances_of_bends_add_up(
    turns: list[float], radius: float, thickness: float, neutral: float
) -> None:
    """Bent in parts or at once, the same length is taken."""
    parts = sum(bend_allowance(turn, radius, thickness, neutral) for turn in turns)
    assert parts == pytest.approx(bend_allowance(sum(turns), radius, thickness, neutral))


@given(wide=st.floats(1, 60), high=st.floats(1, 20), thickness=st.floats(0.3, 4))
def test_a_keeper_is_its_four_sides_and_four_bends(wide: float, high: float, thickness: float) -> None:
    corners = 4 * bend_allowance(pi / 2, 0, thickness)
    assert round_stack(wide, high, thickness).middle == pytest.approx(2 * (wide + high) + corners)
