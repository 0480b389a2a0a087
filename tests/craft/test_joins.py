"""Seams: which lines can be sewn together, and what is said of those that cannot."""

from __future__ import annotations

import pytest

from drafting.craft.faults import CraftFault
from drafting.craft.joins import JoinReport, LengthsDiffer, Side, StitchesDiffer, StretchesDiffer, compare
from drafting.craft.meeting_holes import HOLES_MEET, HolesApart, expect_holes_meet, holes_meet
from drafting.craft.spacing import AsManyAs, Every
from drafting.craft.stitches import Request, lay_out
from drafting.geometry.curves import circle
from drafting.geometry.point import Point, Vector
from tests.craft.samples import chain, straight


def said(report: JoinReport) -> list[str]:
    return [f"{fault.entry.says} {fault.entry.mend}".format(**fault.facts) for fault in report.faults]


def side(
    name: str, counts: tuple[int, ...], lengths: tuple[float, ...], nominal: float | None = None
) -> Side:
    return Side(name, counts, lengths, nominal)


def test_a_ring_meets_a_strip_with_as_many_stitches() -> None:
    """Stitches are compared, not holes: the ring has 72 holes and the strip 73."""
    ring = lay_out(circle(Point(0, 0), 44), Request(Every(3.85), start=Point(0, 60)))
    strip = lay_out(straight(ring.line.length), Request(AsManyAs(ring.counts, ring.lengths)))
    assert (len(ring.holes), len(strip.holes)) == (72, 73)
    report = compare([Side.of("back.ring", ring), Side.of("gusset.near", strip)])
    assert report.is_sound
    assert report.pairings[0].difference == pytest.approx(0)


def test_two_counts_name_the_line_to_change_and_the_pitch_it_gets() -> None:
    report = compare([side("gusset.near", (70,), (276.46,), 3.95), side("back.ring", (72,), (276.46,), 3.84)])
    assert said(report) == [
        "`gusset.near` has 70 stitches and `back.ring` 72; a seam needs as many. "
        "Say `as many as back.ring` (pitch 3.84 mm)."
    ]


def test_lengths_may_differ_by_two_percent_and_no_more() -> None:
    assert compare([side("a", (25,), (100.0,)), side("b", (25,), (98.0,))]).is_sound
    report = compare([side("a", (25,), (100.0,)), side("b", (25,), (97.9,))])
    (fault,) = report.faults
    assert isinstance(fault, LengthsDiffer)
    assert abs(fault.by) == pytest.approx(2.1)
    assert "2.1 mm apart, and 2 mm is the most" in said(report)[0]


def test_a_length_given_takes_the_place_of_the_two_percent() -> None:
    sides = [side("a", (25,), (100.0,)), side("b", (25,), (97.0,))]
    assert not compare(sides).is_sound
    assert compare(sides, within=3.0).is_sound
    assert not compare(sides, within=2.9).is_sound
    assert not compare([side("a", (25,), (100.0,)), side("b", (25,), (99.0,))], within=0.5).is_sound


def test_reversed_runs_first_to_last() -> None:
    sides = [side("a", (10, 20), (40.0, 80.0)), side("b", (20, 10), (80.0, 40.0))]
    assert compare(sides, reversed=True).is_sound
    report = compare(sides)
    assert {type(fault) for fault in report.faults} == {StitchesDiffer}
    assert all(text.endswith("Or say `reversed`.") for text in said(report))


def test_rings_that_match_from_another_corner_say_so() -> None:
    first = Side("a", (10, 20, 30), (40.0, 80.0, 120.0), None, True)
    second = Side("b", (20, 30, 10), (80.0, 120.0, 40.0), None, True)
    assert all("start one of the rings" in text for text in said(compare([first, second])))


def test_lines_that_fall_into_other_stretches_do_not_match() -> None:
    (fault,) = compare([side("a", (10, 20), (40.0, 80.0)), side("b", (30,), (120.0,))]).faults
    assert isinstance(fault, StretchesDiffer)


def test_three_layers_are_compared_each_with_each() -> None:
    layers = [side("a", (25,), (100.0,)), side("b", (25,), (100.0,)), side("c", (24,), (100.0,))]
    report = compare(layers)
    assert [(pairing.first.name, pairing.second.name) for pairing in report.pairings] == [
        ("a", "b"),
        ("a", "c"),
        ("b", "c"),
    ]
    assert len(report.faults) == 2


def test_a_fault_in_one_of_several_stretches_names_it() -> None:
    report = compare([side("a", (10, 20), (40.0, 80.0)), side("b", (10, 21), (40.0, 80.0))])
    assert " in the second stretch" in said(report)[0]


def test_holes_of_stacked_pieces_meet_on_one_sheet() -> None:
    holes = [hole.point for hole in lay_out(chain((0, 0), (41, 0), (41, 31)), Request(Every(4))).holes]
    assert holes_meet(holes, holes).worst == 0
    near = [point + Vector(HOLES_MEET * 0.7, HOLES_MEET * 0.7) for point in holes]
    assert holes_meet(holes, near).is_sound
    far = [point + Vector(HOLES_MEET * 0.8, HOLES_MEET * 0.8) for point in holes]
    meeting = holes_meet(holes, far)
    assert len(meeting.alone) == 2 * len(holes)
    with pytest.raises(HolesApart) as caught:
        expect_holes_meet(("front.edge", "back.edge"), meeting)
    assert "Holes of `front.edge` and `back.edge` do not meet" in text_of(caught.value)


def test_holes_meet_when_folded_over() -> None:
    layout = lay_out(chain((5, 0), (46, 0), (46, 31)), Request(Every(4)))
    fold = (Point(0, 0), Point(0, 1))
    twin = layout.mirrored(*fold)
    meeting = holes_meet([hole.point for hole in layout.holes], [hole.point for hole in twin.holes], fold)
    assert meeting.worst < 1e-9


def test_a_line_pricked_through_may_have_fewer_holes() -> None:
    holes = [hole.point for hole in lay_out(straight(40), Request(Every(4))).holes]
    assert holes_meet(holes, holes[3:7], second_is_part=True).is_sound
    assert not holes_meet(holes, holes[3:7]).is_sound


def text_of(fault: CraftFault) -> str:
    return fault.entry.says.format(**fault.facts)
