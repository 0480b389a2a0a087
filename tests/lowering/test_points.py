"""Points: every clause that places, against places worked out by hand."""

from __future__ import annotations

import math

import pytest

from tests.lowering.drafted import CARD, HALF, check, codes, drafted, near

# The card: foot (0, 0), heel (40, 0), brow (40, 60), tip (0, 60).
PLACES = [
    ("12 mm right of foot; level with foot", (12, 0)),
    ("12 mm left of heel; 5 mm above foot", (28, 5)),
    ("12 mm below tip; plumb with heel", (40, 48)),
    ("0 right of foot; 0 mm above foot", (0, 0)),
    ("0 - 3 mm right of foot; level with foot", (-3, 0)),
    ("30 mm from foot; 50 mm from heel; above foot; left of heel", (0, 30)),
    ("30 mm from foot; 50 mm from heel; below foot..heel", (0, -30)),
    ("25 mm from foot; level with heel; right of foot", (25, 0)),
    ("10 mm from foot..brow; level with foot; right of foot", (10 * math.sqrt(5200) / 60, 0)),
    ("10 mm from foot..brow; level with foot; left of foot..brow", (-10 * math.sqrt(5200) / 60, 0)),
    ("on foot..brow; 30 mm above foot", (20, 30)),
    ("on foot..brow extended; 90 mm above foot", (60, 90)),
    ("on foot..brow extended; 30 mm below foot", (-20, -30)),
    ("square off foot..brow at brow; plumb with tip", (0, 60 + 40 * 40 / 60)),
    ("square off foot..heel at heel; 7 mm above foot", (40, 7)),
    ("at 30 deg from foot; 20 mm from foot", (20 * math.cos(math.pi / 6), 10)),
    ("at 210 deg from brow; 20 mm from brow", (40 - 20 * math.cos(math.pi / 6), 50)),
    ("at 0 deg from foot; plumb with heel", (40, 0)),
    ("at 90 deg from foot; level with tip", (0, 60)),
    ("at 0 from foot; 6 mm from foot", (6, 0)),
    ("at 450 deg from foot; 6 mm from foot", (0, 6)),
    ("at (12 mm, -5 mm)", (12, -5)),
    ("at (1 in, 0)", (25.4, 0)),
    ("at (0, 5 mm) from brow", (40, 65)),
    ("at brow", (40, 60)),
    ("midway foot..brow", (20, 30)),
    ("midway wall", (40, 30)),
    ("midway bend", (20, 40)),
    ("1/4 along foot..brow", (10, 15)),
    ("10 mm along heel..brow", (40, 10)),
    ("50 mm along foot..heel extended", (50, 0)),
    ("3/2 along foot..heel extended", (60, 0)),
    ("0 - 10 mm along foot..heel extended", (-10, 0)),
    ("0 along foot..heel", (0, 0)),
    ("1 along foot..heel", (40, 0)),
    ("15 mm along wall", (40, 15)),
    ("1/3 along wall", (40, 20)),
    ("10 mm along from heel round brow to tip", (40, 10)),
    ("70 mm along from heel round brow to tip", (30, 60)),
    ("1/2 along bend", (20, 40)),
    ("5/6 along bend", (20 + 20 * math.cos(math.pi / 6), 30)),
    ("mirror of heel over foot..brow", (40 * (1600 - 3600) / 5200, 40 * 2 * 2400 / 5200)),
    ("mirror of foot over wall", (80, 0)),
    ("mirror of foot over foot..heel", (0, 0)),
    ("touching ring from out; above out", (20 + 100 / 20, 20 + math.sqrt(300) / 2)),
    ("touching ring from out; below out", (20 + 100 / 20, 20 - math.sqrt(300) / 2)),
    ("on ring; plumb with mid; above mid", (20, 30)),
    ("on ring; level with mid; left of mid", (10, 20)),
    ("on wall; 25 mm above foot", (40, 25)),
    ("on outline; level with mid; nearest heel", (40, 20)),
    ("on outline; level with mid; farthest from heel", (0, 20)),
    ("on bend; plumb with mid", (20, 40)),
    ("level with mid; 30 mm from heel; inside outline", (40 - math.sqrt(500), 20)),
    ("level with mid; 30 mm from heel; outside outline", (40 + math.sqrt(500), 20)),
    ("level with ring.top; plumb with ring.left", (10, 30)),
    ("at ring.centre", (20, 20)),
    ("at wall.mid", (40, 30)),
    ("at wall.end", (40, 60)),
    ("at outline.top", (20, 60)),
    ("at outline.right", (40, 30)),
    ("level with mid; plumb with mid; right of foot", (20, 20)),
]
SCENE = (
    CARD
    + """  point mid: at (20 mm, 20 mm)
  point out: at (40 mm, 20 mm)
  run wall: from heel to brow
  guide ring: 20 mm across; at mid
  point one: at (0, 20 mm)
  point two: at (40 mm, 20 mm)
  guide bend: one to two bowed up 20 mm
"""
)


@pytest.mark.parametrize(("clauses", "place"), PLACES, ids=[clauses for clauses, _ in PLACES])
def test_a_point_comes_where_its_facts_say(clauses: str, place: tuple[float, float]) -> None:
    knot = drafted(f"{SCENE}  point knot: {clauses}\n").pieces["back"].points["knot"]
    assert near(knot, *place)


@pytest.mark.parametrize(("clauses", "place"), PLACES[:20], ids=[clauses for clauses, _ in PLACES[:20]])
def test_clauses_come_in_any_order(clauses: str, place: tuple[float, float]) -> None:
    turned = "; ".join(reversed(clauses.split("; ")))
    head, _, tail = SCENE.partition("  point mid")
    knot = drafted(f"piece back:\n  point knot: {turned}\n" + head.partition("\n")[2] + "  point mid" + tail)
    assert near(knot.pieces["back"].points["knot"], *place)


HOLDS = [
    ("knot: level with foot", "foot..knot = 30 mm", "right of foot", (30, 0)),
    ("knot: level with tip", "foot..knot = foot..brow", "left of foot", (-40, 60)),
    ("knot: 20 mm above foot", "foot..knot parallel foot..brow", "", (40 / 3, 20)),
    ("knot: 20 mm above foot", "foot..knot square to foot..brow", "", (-30, 20)),
    ("knot: 20 mm above foot", "tip..knot plumb", "", (0, 20)),
    ("knot: 20 mm right of foot", "tip..knot level", "", (20, 60)),
    ("knot: plumb with heel", "angle heel..foot..knot = 45 deg", "above foot", (40, 40)),
    ("knot: level with foot", "foot..knot + knot..tip = 100 mm", "right of foot", (32, 0)),
    ("knot: plumb with heel", "knot.y = foot..heel + 2 mm", "", (40, 42)),
]


@pytest.mark.parametrize(("point", "hold", "choice", "place"), HOLDS, ids=[hold[1] for hold in HOLDS])
def test_a_hold_is_one_fact(point: str, hold: str, choice: str, place: tuple[float, float]) -> None:
    choices = f"; {choice}" if choice else ""
    text = f"{SCENE}  point {point}{choices}\n  hold {hold}\n"
    assert near(drafted(text).pieces["back"].points["knot"], *place)


def test_a_line_that_touches_a_ring() -> None:
    """The line from foot passes the middle of the ring, (20, 20), by its radius."""
    text = SCENE + "  point knot: level with tip; nearest tip\n  hold foot..knot touches ring\n"
    knot = drafted(text).pieces["back"].points["knot"]
    assert abs(knot.x * 20 - knot.y * 20) / math.hypot(knot.x, knot.y) == pytest.approx(10, abs=1e-9)


def test_what_is_found_is_a_measure() -> None:
    """A 3-4-5 triangle: `reach` makes the long side 50."""
    text = """piece back:
  find reach between 5 mm and 45 mm
  point foot: at (0, 0)
  point heel: level with foot; reach right of foot
  point brow: plumb with heel; 30 mm above heel
  outline: foot to heel to brow
  hold foot..brow = 50 mm
  hole eye: at (reach - 8 mm, 8 mm); reach/10 across
"""
    check(text, {"back.reach": 40, "back.brow.x": 40, "back.eye.across": 4, "back.eye.x": 32})


def test_an_angle_may_be_found() -> None:
    text = (
        CARD
        + "  find turn between 0 and 90 deg\n  point knot: at turn from foot; 20 mm from foot\n  hold knot.y = 10 mm\n"
    )
    check(text, {"back.turn": 30, "back.knot.x": 20 * math.cos(math.pi / 6)})


def test_on_a_stretch_is_checked() -> None:
    assert codes(CARD + "  point knot: on foot..heel; 50 mm right of foot\n") == ["S08"]


def test_a_twin_places_others() -> None:
    text = HALF + "  point knot: midway heel'..brow\n  point bead: 5 mm right of heel'; level with tip\n"
    check(text, {"back.knot.x": 0, "back.knot.y": 30, "back.bead.x": -15})


def test_one_degree_of_a_level_line_is_told_in_sheet_words() -> None:
    """A level line has no left: the choice holds for no place, and says so."""
    assert codes(SCENE + "  point knot: on ring; plumb with mid; left of foot..heel\n") == ["S11"]


def test_points_in_steps_along_a_line() -> None:
    text = "measure widths = 5 mm, 7 mm\n" + SCENE
    text += "  points pleat: along foot..heel; steps widths, 8 mm, 20 mm\n  points rise: along from heel round brow to tip; steps 50 mm, 20 mm\n"
    check(
        text,
        {
            "back.pleat.1.x": 5,
            "back.pleat.2.x": 12,
            "back.pleat.3.x": 20,
            "back.pleat.4.x": 40,
            "back.pleat.count": 4,
        }
        | {"back.rise.1.y": 50, "back.rise.2.x": 30, "back.rise.2.y": 60},
    )


def test_lines_join_two_lists_and_their_twins() -> None:
    text = (
        HALF
        + """  points low: along foot..heel; steps 5 mm, 5 mm
  points high: along tip..brow; steps 5 mm, 10 mm
  crease seams: lines low to high
  crease cross: lines low to high'; once
"""
    )
    placed = drafted(text).pieces["back"]
    paths = {feature.name: feature.paths for feature in placed.features}
    assert [(path.start.x, path.end.x) for path in paths["seams"]] == [(5, 5), (10, 15)]
    assert [(path.start.x, path.end.x) for path in paths["seams'"]] == [(-5, -5), (-10, -15)]
    assert [(path.start.x, path.end.x) for path in paths["cross"]] == [(5, -5), (10, -15)]
    check(text, {"back.seams.2.length": math.hypot(5, 60), "back.seams'.2.length": math.hypot(5, 60)})
