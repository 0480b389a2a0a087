"""Workshop rules: each fires beyond its limit and is quiet on it; tolerances and allowances."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from math import pi
from string import Formatter

import pytest

from drafting.craft.holding import Held
from drafting.craft.item import Item, PlacedPart, PlacedSlit, PunchedHole, StitchLine
from drafting.craft.rules import (
    RULES,
    Allowance,
    Finding,
    RuleReport,
    check_rules,
    check_sizes,
    rule_with_code,
)
from drafting.craft.rules.allowing import NoReason, UnknownRule
from drafting.craft.rules.engine import NoTolerance
from drafting.craft.rules.shapes import angle_between, leaves_at, lying_of
from drafting.craft.slits import SlitRequest, cut_slit
from drafting.geometry.curves import box, circle
from drafting.geometry.point import Point, Vector
from drafting.text.messages import Severity
from tests.craft import items
from tests.craft.items import BREAKS_AND_KEEPS, hole, inset, plate, rounded_plate, slit, straight, strap_row

CODES = [rule.code for rule in RULES]


def of(report: RuleReport, code: str) -> list[Finding]:
    return [finding for finding in report.findings if finding.code == code]


def test_every_rule_has_a_case_a_code_a_reason_and_a_source() -> None:
    assert list(BREAKS_AND_KEEPS) == CODES == sorted(CODES)
    assert all(rule.reason and rule.source and rule.mark for rule in RULES)


def test_a_range_of_the_trade_is_never_an_error() -> None:
    """Only what follows from the figures alone is, and a strap too wide for its buckle, which cannot go in."""
    errors = {rule.code for rule in RULES if rule.severity is Severity.ERROR}
    assert errors == {"R14", "R16", "R17", "R23", "R25", "R28", "R29"}
    assert all(rule_with_code(code).mark == "derived" for code in errors - {"R14"})  # type: ignore[union-attr]


@pytest.mark.parametrize("code", CODES)
def test_a_rule_fires_beyond_its_limit(code: str) -> None:
    found = of(check_rules(BREAKS_AND_KEEPS[code][0]()), code)
    assert found
    for finding in found:
        text = finding.says + finding.mend
        assert finding.rule.reason in text
        assert "{" not in text and "e-" not in text


@pytest.mark.parametrize("code", CODES)
def test_a_rule_is_quiet_on_its_limit(code: str) -> None:
    assert of(check_rules(BREAKS_AND_KEEPS[code][1]()), code) == []


HAND_CUT = [
    "R01",
    "R02",
    "R03",
    "R04",
    "R07",
    "R08",
    "R09",
    "R10",
    "R12",
    "R14",
    "R16",
    "R17",
    "R18",
    "R20",
]
HAND_CUT += ["R23", "R24", "R25", "R26", "R27", "R29", "R36"]


@pytest.mark.parametrize("code", HAND_CUT)
def test_a_tolerance_makes_a_rule_hold_for_the_worst_edges(code: str) -> None:
    """What keeps its limit when it is cut true breaks it when the edges may be off, and says both figures."""
    keeps = BREAKS_AND_KEEPS[code][1]()
    found = of(check_rules(keeps, tolerance=0.2), code)
    assert found
    assert "with edges 0.2 mm off" in found[0].says
    assert found[0].breach.figure.worst != found[0].breach.figure.measured


def test_a_tolerance_counts_every_edge_that_takes_part() -> None:
    """A slot's bridge has two cut edges, a strap in a slot four."""
    bridge = of(check_rules(BREAKS_AND_KEEPS["R08"][1](), tolerance=0.2), "R08")[0].breach.figure
    assert bridge.measured - bridge.worst == pytest.approx(0.4)
    slot = of(check_rules(BREAKS_AND_KEEPS["R16"][1](), tolerance=0.2), "R16")[0].breach.figure
    assert slot.measured - slot.worst == pytest.approx(0.8)


def test_for_a_strap_cut_by_hand_there_is_a_buckle() -> None:
    """Cut 0.5 mm off at both edges it still goes through a buckle 1 mm wider, and as drawn that is not too slack."""
    found = check_rules(items.buckled(37, 38), tolerance=0.5)
    assert of(found, "R14") == of(found, "R15") == []
    assert of(check_rules(items.buckled(37.1, 38), tolerance=0.5), "R14")
    assert of(check_rules(items.buckled(36.9, 38), tolerance=0.5), "R15")


def test_a_tolerance_moves_the_middle_of_a_strap_and_the_walls_of_a_pocket_that_are_cut() -> None:
    """Punched holes and seams stay where they are; the edges round them do not."""
    row = strap_row(7, y=0.4)
    assert of(check_rules(row), "R22") == []
    assert of(check_rules(row, tolerance=0.2), "R22")[0].breach.figure.worst == pytest.approx(0.6)
    sewn = items.pocket(between=91)
    cut = replace(sewn, pockets=tuple(replace(one, is_cut=True) for one in sewn.pockets))
    assert of(check_rules(sewn, tolerance=0.2), "R28") == []
    assert (
        "is 91 mm (90.6 mm with edges 0.2 mm off) from edge to edge"
        in of(check_rules(cut, 0.2), "R28")[0].says
    )


@pytest.mark.parametrize(
    ("sample", "code", "says"),
    [
        (plate(holes=(hole(0, 0), hole(2, 0, name="stud"))), "R05", "run into each other by 2 mm, and no"),
        (strap_row(5, apart=3), "R05", "Two holes of `belt.holes` run into each other by 1 mm"),
        (strap_row(5, apart=7), "R05", "Between two holes of `belt.holes` 3 mm of leather are left"),
        (items.notched(5, 41), "R07", "`front.middle` cuts 1 mm into `front.seam`; 1 mm is the least"),
        (items.slit_beside(0), "R10", "`front.mouth` cuts into the holes of `front.seam`"),
        (items.turned_back(62, 12), "R18", "`belt.tongue` reaches 2 mm past `belt.sew_1`"),
        (items.backed(110, 60, items.seam(20)), "R27", "`screen` lies over the holes of `front.seam`"),
    ],
)
def test_what_is_less_than_nothing_is_said_in_words(sample: Item, code: str, says: str) -> None:
    (finding,) = of(check_rules(sample), code)[:1]
    assert says in finding.says
    assert " -" not in finding.says


MENDED: dict[str, Callable[[float], Item]] = {
    "R01": lambda to: rounded_plate(StitchLine("edge", inset(to))),
    "R03": lambda to: rounded_plate(StitchLine("edge", inset(to), sewn=7)),
    "R02": lambda to: rounded_plate(StitchLine("edge", inset(to))),
    "R07": lambda to: items.notched(to, 41),
    "R14": lambda to: items.buckled(to),
    "R15": lambda to: items.buckled(to),
    "R16": lambda to: items.through_slot(14.1, 1.4, long=to),
    "R20": lambda to: items.buckled(38, prong=5.1, slot_wide=to),
    "R23": lambda to: items.showing(to, 40),
    "R24": lambda to: items.showing(to, 40),
    "R36": lambda to: items.turned(to, None),
}


@pytest.mark.parametrize("tolerance", [0.0, 0.5])
@pytest.mark.parametrize("code", MENDED)
def test_the_figure_of_a_mend_keeps_the_rule(code: str, tolerance: float) -> None:
    """For edges that far off, too: what is typed as the mend says is not told again."""
    found = of(check_rules(BREAKS_AND_KEEPS[code][0](), tolerance), code)
    figure = re.search(r"(\d[\d.]*) mm", found[0].mend)
    assert figure
    assert of(check_rules(MENDED[code](float(figure[1])), tolerance), code) == []


@pytest.mark.parametrize("tolerance", [0.0, 0.5])
def test_a_hole_set_farther_in_as_its_mend_says_is_not_told_again(tolerance: float) -> None:
    """Nor one that is punched as small as it says."""
    (finding,) = of(check_rules(plate(holes=(hole(56, 0),)), tolerance), "R04")
    by, across = (float(figure) for figure in re.findall(r"(\d[\d.]*) mm", finding.mend))
    for mended in (hole(56 - by, 0), hole(56, 0, across)):
        assert of(check_rules(plate(holes=(mended,)), tolerance), "R04") == []
    assert of(check_rules(plate(holes=(hole(56 - by + 0.01, 0),)), tolerance), "R04")


def test_holes_set_apart_or_punched_smaller_as_their_mend_says_are_not_told_again() -> None:
    (finding,) = of(check_rules(plate(holes=(hole(0, 0), hole(5, 0, 3, "stud")))), "R05")
    apart, across = (float(figure) for figure in re.findall(r"(\d[\d.]*) mm", finding.mend))
    for holes in ((hole(0, 0), hole(apart, 0, 3)), (hole(0, 0, across), hole(5, 0, across))):
        assert of(check_rules(plate(holes=holes)), "R05") == []


def test_no_smaller_punch_is_asked_for_than_there_is() -> None:
    (finding,) = of(check_rules(plate(holes=(hole(0, 0), hole(0.5, 0, name="stud")))), "R05")
    assert "punch" not in finding.mend
    (finding,) = of(check_rules(plate(holes=(hole(59.5, 0),))), "R04")
    assert "punch" not in finding.mend


def test_a_place_is_told_by_its_worst_figures() -> None:
    """So that its mend holds in every size, and for every hole of a row."""
    near, nearer = plate(holes=(hole(55, 0),)), plate(holes=(hole(57, 0),))
    (finding,) = of(check_sizes({"wide": near, "narrow": nearer}), "R04")
    assert finding.sizes == ("wide", "narrow")
    assert finding.breach.figure.measured == pytest.approx(3)
    (finding,) = of(check_sizes({"": plate(holes=(hole(55, 0), hole(57, 0), hole(56, 0)))}), "R04")
    assert finding.breach.figure.measured == pytest.approx(3)


def test_the_end_holes_of_a_slit_are_made_with_a_punch_of_the_shop_too() -> None:
    table = (items.Punch("no_2", 2.5),)
    for across, count in ((2.5, 0), (2.0, 2)):
        sample = replace(plate(slits=(slit(-20, 0, 20, 0, across),)), punches=table)
        assert len(of(check_rules(sample), "R37")) == count


def test_without_a_table_every_size_of_hole_is_made() -> None:
    assert of(check_rules(plate(holes=(hole(0, 0, 4.91),))), "R37") == []


def test_a_tolerance_below_nothing_is_refused() -> None:
    with pytest.raises(NoTolerance):
        check_rules(plate(), tolerance=-0.1)


def test_what_is_allowed_stays_visible_with_its_reason() -> None:
    allowance = Allowance("R11", "it ends under the hem", "front")
    report = check_rules(BREAKS_AND_KEEPS["R11"][0](), allowances=[allowance])
    assert of(report, "R11") == []
    assert [(finding.code, finding.allowed) for finding in report.allowed] == [("R11", allowance)] * 2
    assert report.unused == ()


def test_an_allowance_in_another_piece_allows_nothing_and_is_told() -> None:
    allowance = Allowance("R11", "it ends under the hem", "back")
    report = check_rules(BREAKS_AND_KEEPS["R11"][0](), allowances=[allowance])
    assert len(of(report, "R11")) == 2
    assert report.unused == (allowance,)


def test_an_allowance_for_the_item_covers_every_piece() -> None:
    assert check_rules(BREAKS_AND_KEEPS["R11"][0](), allowances=[Allowance("R11", "tried")]).findings == ()


@pytest.mark.parametrize(
    ("allowance", "kind"),
    [
        (Allowance("R99", "because"), UnknownRule),
        (Allowance("R11", "  "), NoReason),
    ],
)
def test_what_cannot_be_allowed_is_refused(allowance: Allowance, kind: type[Exception]) -> None:
    with pytest.raises(kind):
        check_rules(plate(), allowances=[allowance])


def test_every_size_is_checked_and_one_finding_names_its_sizes() -> None:
    breaks, keeps = BREAKS_AND_KEEPS["R04"]
    report = check_sizes({"small": breaks(), "middle": keeps(), "large": breaks()})
    (finding,) = of(report, "R04")
    assert finding.sizes == ("small", "large")


def test_findings_fill_their_line_of_the_catalogue() -> None:
    for breaks, _ in BREAKS_AND_KEEPS.values():
        for finding in check_rules(breaks()).findings:
            entry = finding.rule.entry
            asked = {
                name for text in (entry.says, entry.mend) for _, name, _, _ in Formatter().parse(text) if name
            }
            assert asked <= set(finding.facts)


def test_the_first_rule_in_words() -> None:
    (finding,) = of(check_rules(rounded_plate(StitchLine("edge", inset(1.5)))), "R01")
    assert finding.says == (
        "`front.edge` comes 1.5 mm from the edge; 2 mm is the least: nearer, the thread pulls through the edge."
    )
    assert finding.mend == "Stitch it `2 mm inside` or more."


def test_a_loaded_hole_keeps_farther_from_the_edge() -> None:
    assert of(check_rules(plate(holes=(hole(53, 0),))), "R04") == []
    assert of(check_rules(plate(holes=(hole(53, 0, loaded=True),))), "R04")


def test_a_slit_may_end_in_a_hole_on_the_edge_or_in_another_cut() -> None:
    bare = cut_slit(straight(-60, 0, 20, 0), SlitRequest())
    item = plate(slits=(PlacedSlit("mouth", bare),), holes=(hole(20, 0),))
    assert of(check_rules(item), "R11") == []


def test_cuts_that_meet_are_one_cut_and_leave_no_bridge() -> None:
    item = plate(slits=(slit(-20, 0, 20, 0),), openings=(items.slot("eye", 20, 0, 14, 4),))
    assert of(check_rules(item), "R12") == []


def test_a_stitch_line_across_an_opening_is_found_however_large_it_is() -> None:
    for opening in (items.slot("eye", 0, 0, 14, 4), items.window(70, 40)):
        (finding,) = of(check_rules(plate(stitches=(items.seam(0),), openings=(opening,))), "R10")
        assert finding.breach.figure.measured == 0


def test_pricked_holes_count_where_their_line_does_not_lie() -> None:
    item = plate(stitches=(StitchLine("edge", items.seam(43.5).layout, pricked=True),))
    assert of(check_rules(item), "R01")


def test_holes_off_the_middle_of_the_strap_are_found() -> None:
    assert of(check_rules(items.strap_row(7, y=0.6)), "R22")
    assert of(check_rules(items.strap_row(7, y=0.5)), "R22") == []


def test_a_thin_strap_too_thick_for_its_slot_is_found() -> None:
    (finding,) = of(check_rules(items.through_slot(12, 4.6)), "R16")
    assert "4.6 mm thick and `front.eye` 4.5 mm wide" in finding.says


def test_a_narrow_strap_has_its_stitching_nearer_to_the_slot() -> None:
    part = PlacedPart(
        "strap", box(Point(0, 0), 200, 12), items.BODY, 0.0, openings=(items.slot("tongue", 0, 0, 13, 3),)
    )
    for distance, count in ((12.4, 1), (12.5, 0)):
        back = items.StrapTurnBack("strap", "strap.fold", 32, (("strap.upper", distance),), "tongue")
        assert len(of(check_rules(items.item(part, turn_backs=(back,))), "R18")) == count


def test_leather_alone_has_a_grain_and_short_pieces_do_not_care() -> None:
    film = PlacedPart("film", box(Point(0, 0), 200, 20), items.FILM)
    short = PlacedPart("loop", box(Point(0, 0), 70, 10), items.BODY)
    for part in (film, short):
        assert of(check_rules(items.item(part)), "R32") == []


def test_a_gentle_fold_may_be_sharp() -> None:
    assert of(check_rules(items.folded(0, pi / 3)), "R34") == []


def test_thread_that_is_too_thick_names_the_range_that_suits() -> None:
    (finding,) = of(check_rules(plate(stitches=(items.seam(0, 4, 1.2),))), "R30")
    assert "Take thread between 0.445 mm and 1 mm" in finding.mend


def test_lines_that_leave_and_come_back_are_found_where_they_are_outside() -> None:
    outline = box(Point(0, 0), 120, 90)
    assert leaves_at(straight(-60, 0, 60, 0), outline) is None
    assert leaves_at(straight(-60, 45, 60, 45), outline) is None
    assert leaves_at(circle(Point(0, 0), 45), outline) is None
    assert leaves_at(circle(Point(0, 0), 45.01), outline)
    by, where = leaves_at(straight(-70, 0, 70, 0), outline) or (0, Point(0, 0))
    assert by == pytest.approx(5)
    assert abs(where.x) == pytest.approx(65)


def test_a_piece_lies_along_its_length_however_it_is_turned() -> None:
    for turn in (0.0, 0.3, pi / 2, 2.0):
        lying = lying_of(box(Point(3, 4), 200, 20, direction=turn))
        assert (lying.long, lying.wide) == pytest.approx((200, 20))
        assert angle_between(lying.direction, Vector.at_angle(turn)) == pytest.approx(0, abs=1e-9)


def test_what_is_named_and_not_there_is_left_to_others() -> None:
    """A wrong name is the language's business; no rule falls over it."""
    report = check_rules(
        items.item(
            PlacedPart("front", items.OUTLINE, items.BODY, "any", holes=(PunchedHole("a", Point(0, 0), 3),)),
            straps_in_slots=(items.StrapThroughSlot("strap", 99, 9, "front.none"),),
            windows=(items.WindowHolds("front.none", Held("card", 80, 50, 1)),),
            inserts=(items.InsertBehind("none", "front.none"),),
            turn_backs=(items.StrapTurnBack("none", "none.fold", 40, (("none.seam", 30),), "none"),),
        )
    )
    assert report.findings == ()
