"""Stitch lines: how many holes, where, and what is refused."""

from __future__ import annotations

from itertools import pairwise
from math import pi, radians

import pytest

from drafting.craft.counting import PitchOff, PitchOffInStretch
from drafting.craft.faults import (
    CannotStep,
    CountsDiffer,
    CraftFault,
    NeedsStart,
    NoOnePlace,
    NoPitch,
    PitchTooLong,
    TooFewStitches,
    TooManyBackStitches,
    TooManyHoles,
)
from drafting.craft.spacing import Apart, AsManyAs, Every, FrenchIron, PerInch, Spacing, Stitches
from drafting.craft.stitches import Layout, Request, lay_out, pricked_through
from drafting.geometry.arc import Arc
from drafting.geometry.curves import box, circle
from drafting.geometry.line import Line
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from tests.craft.samples import chain, hook, straight


def fault_text(fault: CraftFault) -> str:
    return f"{fault.entry.says} {fault.entry.mend}".format(line="edge", **fault.facts)


def refused(line: Path | Ring, request: Request) -> str:
    """The message that a refused stitch line gives."""
    with pytest.raises(CraftFault) as caught:
        lay_out(line, request)
    return fault_text(caught.value)


def laid(line: Path | Ring, spacing: Spacing, **asked: object) -> Layout:
    return lay_out(line, Request(spacing, **asked))  # type: ignore[arg-type]


def test_an_open_line_has_one_hole_more_than_stitches_and_holes_at_both_ends() -> None:
    layout = laid(straight(150), Every(3.85))
    assert (layout.stitches, len(layout.holes)) == (39, 40)
    assert layout.holes[0].point == Point(0, 0)
    assert layout.holes[-1].point == Point(150, 0)


def test_a_ring_has_as_many_holes_as_stitches() -> None:
    layout = laid(circle(Point(0, 0), 40), Every(4), start=Point(0, 50))
    assert layout.stitches == len(layout.holes) == round(80 * pi / 4)
    assert layout.holes[0].point.distance_to(Point(0, 40)) < 1e-9


def test_every_corner_of_thirty_degrees_has_a_hole_and_a_flatter_one_has_none() -> None:
    for turn, counts in ((29.9, 1), (30.0, 2), (-30.0, 2), (90.0, 2)):
        corner = Point(40, 0)
        end = corner + (Point(40, 0) - Point(0, 0)).turned(radians(turn))
        line = Path((Line(Point(0, 0), corner), Line(corner, end)))
        assert len(laid(line, Every(4)).stretches) == counts
        assert len(laid(line, Every(4), corners="round").stretches) == 1


def test_each_stretch_is_evenly_pitched_and_its_share_off_is_told() -> None:
    layout = laid(chain((0, 0), (41, 0), (41, 31)), Every(4))
    assert layout.counts == (10, 8)
    assert layout.pitches == pytest.approx((4.1, 3.875))
    assert [stretch.off for stretch in layout.stretches] == pytest.approx([0.025, -0.03125])


def test_a_point_that_must_have_a_hole_divides_the_line_there() -> None:
    layout = laid(straight(100), Every(4), held=(Point(32, 12),))
    assert [stretch.end for stretch in layout.stretches] == pytest.approx([32, 100])
    assert any(hole.point.distance_to(Point(32, 0)) < 1e-9 for hole in layout.holes)


def test_a_ring_starts_at_its_first_corner_or_where_it_is_said() -> None:
    square = box(Point(0, 0), 40, 40)
    assert laid(square, Every(4)).holes[0].point == square.corners[0]
    layout = laid(square, Every(4), start=Point(20, 0))
    assert layout.holes[0].point.distance_to(Point(20, 0)) < 1e-9
    assert len(layout.stretches) == 5
    assert layout.stitches == 40


def test_stitches_by_count_share_out_to_the_stretches_as_evenly_as_can_be() -> None:
    layout = laid(chain((0, 0), (41, 0), (41, 31), (100, 31)), Stitches(33))
    assert layout.stitches == 33
    assert max(layout.pitches) - min(layout.pitches) < 0.4


def test_as_many_as_copies_counts_stretch_by_stretch() -> None:
    assert laid(chain((0, 0), (41, 0), (41, 31)), AsManyAs((9, 7))).counts == (9, 7)


def test_a_straight_strip_takes_the_shares_of_a_line_with_corners() -> None:
    other = laid(chain((0, 0), (41, 0), (41, 31)), Every(4))
    strip = laid(straight(72), AsManyAs(other.counts, other.lengths))
    assert strip.counts == other.counts
    assert strip.pitches == pytest.approx(other.pitches)


def test_exact_pitch_leaves_a_remainder_at_the_end() -> None:
    layout = laid(straight(50), Apart(3.85))
    assert (len(layout.holes), layout.stitches) == (13, 12)
    assert layout.remainder == pytest.approx(50 - 12 * 3.85)
    assert layout.holes[-1].place == pytest.approx(12 * 3.85)


def test_exact_pitch_that_fits_has_a_hole_on_the_end() -> None:
    layout = laid(straight(38.5), Apart(3.85))
    assert (len(layout.holes), layout.remainder) == (11, 0)


def test_exact_pitch_round_a_ring_closes_with_a_short_stitch() -> None:
    layout = laid(circle(Point(0, 0), 20), Apart(4), start=Point(0, 30))
    assert layout.stitches == len(layout.holes) == int(40 * pi / 4) + 1
    assert layout.remainder == pytest.approx(40 * pi % 4)


def test_irons_and_inches_are_different_words() -> None:
    assert laid(straight(200), PerInch(7)).nominal == pytest.approx(3.6286, abs=5e-5)
    assert laid(straight(200), FrenchIron(7)).nominal == pytest.approx(3.8671, abs=5e-5)


def test_across_the_steps_are_equal_through_the_air_and_end_on_the_end() -> None:
    for corners in ("hole", "round"):
        layout = laid(
            chain((0, 0), (20, 0), (20, 11), (45, 11)), Stitches(14), measured="across", corners=corners
        )
        for stretch_index in range(len(layout.stretches)):
            gaps = [
                a.point.distance_to(b.point) for a, b in pairwise(layout.holes) if a.stretch == stretch_index
            ]
            assert max(gaps) - min(gaps) < 1e-9
        assert layout.holes[-1].point.distance_to(Point(45, 11)) < 1e-9


def test_across_an_arc_the_pitch_is_the_chord() -> None:
    layout = laid(circle(Point(0, 0), 6), Stitches(9), start=Point(0, 9), measured="across")
    assert layout.gaps == pytest.approx([layout.pitch] * 9, abs=1e-9)
    assert layout.pitch < 12 * pi / 9


def test_across_exact_steps_leave_a_straight_remainder() -> None:
    layout = laid(hook(), Apart(4), measured="across")
    assert layout.gaps == pytest.approx([4] * layout.stitches, abs=1e-9)
    assert layout.remainder == pytest.approx(layout.holes[-1].point.distance_to(layout.line.end), abs=1e-9)


def test_directions_follow_the_line() -> None:
    layout = laid(hook(), Every(4))
    assert layout.holes[0].direction.angle == pytest.approx(0)
    assert abs(layout.holes[-1].direction.angle) == pytest.approx(pi)
    for hole in layout.holes[1:-1]:
        assert hole.direction.dot(layout.line.direction_at(hole.place)) == pytest.approx(1)


def test_the_twin_has_its_holes_in_the_same_order() -> None:
    layout = laid(hook(), Every(4))
    twin = layout.mirrored(Point(0, -9), Point(1, -9))
    for hole, other in zip(layout.holes, twin.holes, strict=True):
        assert other.point == hole.point.mirrored(Point(0, -9), Point(1, -9))
        assert other.direction.dot(twin.line.direction_at(other.place)) > 0.99


def test_back_stitches_name_the_holes_that_are_passed_twice() -> None:
    layout = laid(straight(40), Every(4), back=(2, 1))
    assert layout.stitched_twice == (0, 1, 2, 9, 10)
    ring = laid(circle(Point(0, 0), 20), Every(4), start=Point(0, 30), back=(2, 0))
    assert ring.stitched_twice == (0, 1, 2)
    assert laid(straight(40), Every(4)).stitched_twice == ()


def test_back_stitches_of_a_ring_come_round_to_the_start() -> None:
    ring = laid(circle(Point(0, 0), 20), Every(4), start=Point(0, 30), back=(0, 1))
    assert ring.stitched_twice == (0, ring.stitches - 1)


def test_same_holes_are_those_that_fall_on_the_other_piece() -> None:
    layout = laid(straight(100), Every(4))
    assert [hole.place for hole in pricked_through(layout, box(Point(20, 0), 40, 10))] == pytest.approx(
        [4 * number for number in range(11)]
    )


def test_a_pitch_too_far_off_names_its_two_mends() -> None:
    """The words of the language's own example, a strap 15 mm wide stitched 3 mm short at each side."""
    assert refused(straight(9), Request(Every(3.85), short=(3, 3))) == (
        "`edge` is 9 mm: 2.3 pitches of 3.85 mm; 2 stitches would be 4.5 mm each, 17 % off. "
        "Accept with `2 stitches`, or end it `3.65 mm short` for two true pitches."
    )


def test_each_mend_of_a_pitch_mends() -> None:
    with pytest.raises(PitchOff) as caught:
        laid(straight(14.2), Every(4))
    fault = caught.value
    assert laid(straight(14.2), Stitches(fault.count)).stitches == fault.count
    assert laid(straight(14.2 - fault.shorten), Every(4)).pitch == pytest.approx(4)
    assert "short at end" in fault_text(fault)


def test_among_several_stretches_the_pitch_that_all_hold_is_offered() -> None:
    line = chain((0, 0), (41, 0), (41, 14.2))
    with pytest.raises(PitchOffInStretch) as caught:
        laid(line, Every(4))
    fault = caught.value
    assert fault.stretch == 1
    assert fault.fitting is not None
    assert laid(line, Every(fault.fitting)).stitches > 0
    assert f"`every {fault.fitting:g} mm`" in fault_text(fault)


def test_where_no_pitch_suits_all_stretches_the_count_is_offered() -> None:
    lengths = (5.0, 6.1, 7.3, 8.7, 9.9)
    corners = [(0.0, 0.0)]
    for index, length in enumerate(lengths):
        x, y = corners[-1]
        corners.append((x + length, y) if index % 2 == 0 else (x, y + length))
    text = refused(chain(*corners), Request(Every(4)))
    count = int(text.split("Write `")[1].split(" ")[0])
    assert laid(chain(*corners), Stitches(count)).stitches == count


@pytest.mark.parametrize(
    ("line", "request_", "kind"),
    [
        (straight(40), Request(Every(0)), NoPitch),
        (straight(40), Request(Apart(-3)), NoPitch),
        (straight(40), Request(PerInch(0)), NoPitch),
        (straight(40), Request(FrenchIron(-7)), NoPitch),
        (straight(3), Request(Every(4)), PitchTooLong),
        (straight(3), Request(Apart(4)), PitchTooLong),
        (chain((0, 0), (40, 0), (40, 2)), Request(Every(4)), PitchTooLong),
        (chain((0, 0), (40, 0), (40, 20)), Request(Stitches(1)), TooFewStitches),
        (straight(40), Request(Stitches(0)), TooFewStitches),
        (chain((0, 0), (40, 0), (40, 20)), Request(AsManyAs((3, 4, 5))), CountsDiffer),
        (straight(40), Request(AsManyAs((0,))), TooFewStitches),
        (circle(Point(0, 0), 20), Request(Every(4)), NeedsStart),
        (circle(Point(0, 0), 20), Request(Every(4), start=Point(0, 0)), NoOnePlace),
        (chain((0, 0), (40, 0), (40, 20), (0, 20)), Request(Every(4), held=(Point(10, 10),)), NoOnePlace),
        (straight(40), Request(Every(4), back=(0, 11)), TooManyBackStitches),
        (straight(40), Request(Every(1e-6)), TooManyHoles),
        (straight(40), Request(Apart(1e-7)), TooManyHoles),
        (straight(40), Request(Stitches(10**9)), TooManyHoles),
    ],
)
def test_what_cannot_be_stitched_is_refused(
    line: Path | Ring, request_: Request, kind: type[CraftFault]
) -> None:
    with pytest.raises(kind) as caught:
        lay_out(line, request_)
    assert "`edge`" in fault_text(caught.value)


def test_a_line_round_a_slit_starts_beyond_its_end() -> None:
    """The end of the slit is as near to the whole arc round it; the hole stands on its middle, in line with the slit."""
    end = Point(40, 0)
    legs = [
        Line(Point(0, -3), Point(40, -3)),
        Arc(end, 3, -pi / 2, pi),
        Line(Point(40, 3), Point(0, 3)),
        Arc(Point(0, 0), 3, pi / 2, pi),
    ]
    for start, there in ((end, Point(43, 0)), (Point(0, 0), Point(-3, 0))):
        made = lay_out(Ring(legs), Request(Every(4), corners="round", start=start))
        assert made.holes[0].point.distance_to(there) < 1e-9


def test_a_hairpin_narrower_than_the_pitch_cannot_be_stepped_evenly() -> None:
    """Straight across, a step of 9 jumps from one side of the hairpin to the other, so some counts have no step."""
    hairpin = chain((0, 0), (100, 0), (100, 0.5), (0, 0.5))
    refusals = 0
    for count in range(2, 25):
        try:
            layout = laid(hairpin, Stitches(count), measured="across", corners="round")
        except CannotStep as fault:
            refusals += 1
            assert fault.place.x == pytest.approx(100)
        else:
            assert layout.gaps == pytest.approx([layout.pitch] * count, abs=1e-6)
    assert refusals > 0
