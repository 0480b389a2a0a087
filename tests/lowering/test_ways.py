"""Runs, offsets and bands: which way round, which side, and how long, against amounts worked out by hand."""

from __future__ import annotations

import math

import pytest

from tests.lowering.drafted import CARD, HALF, check, codes, drafted, near

RUNS = [
    ("from heel to brow", 60, "heel", "brow"),
    ("from brow to heel", 60, "brow", "heel"),
    ("from tip to foot", 60, "tip", "foot"),
    ("from foot to tip", 60, "foot", "tip"),
    ("from foot round heel to brow", 100, "foot", "brow"),
    ("from brow round heel to foot", 100, "brow", "foot"),
    ("from foot round tip to brow", 100, "foot", "brow"),
    ("from foot round heel, brow to tip", 140, "foot", "tip"),
    ("from tip round brow, heel to foot", 140, "tip", "foot"),
    ("from heel round brow, tip to foot", 160, "heel", "foot"),
    ("from low to heel", 10, "low", "heel"),
    ("from low round heel, brow, tip to foot", 170, "low", "foot"),
]


@pytest.mark.parametrize(("way", "length", "start", "end"), RUNS, ids=[run[0] for run in RUNS])
def test_a_run_walks_the_outline(way: str, length: float, start: str, end: str) -> None:
    back = drafted(CARD + f"  point low: on foot..heel; 30 mm right of foot\n  run wall: {way}\n").pieces[
        "back"
    ]
    wall = back.runs["wall"]
    assert wall.length == pytest.approx(length, abs=1e-9)
    assert (wall.start.distance_to(back.points[start]), wall.end.distance_to(back.points[end])) == (0, 0)


def test_between_neighbours_round_is_left_out_and_elsewhere_it_must_be_said() -> None:
    assert codes(CARD + "  run wall: from foot to brow\n") == ["P03"]


MIRRORED = [
    ("from heel round foot to heel'", 40),
    ("from heel' round foot to heel", 40),
    ("from brow round heel, foot to heel'", 100),
    ("from heel round brow, tip, brow' to heel'", 160),
    ("from brow round tip to brow'", 40),
    ("from foot to heel", 20),
    ("from foot to heel'", 20),
    ("from heel' to brow'", 60),
]


@pytest.mark.parametrize(("way", "length"), MIRRORED, ids=[way for way, _ in MIRRORED])
def test_a_run_goes_through_the_mirror_line(way: str, length: float) -> None:
    check(HALF + f"  run wall: {way}\n", {"back.wall.length": length})


def test_a_name_means_the_drafted_half_and_its_twin_the_other() -> None:
    text = HALF + "  run wall: from heel round brow to tip\n"
    check(
        text,
        {
            "back.wall.length": 80,
            "back.wall'.length": 80,
            "back.wall'.start.x": -20,
            "back.wall'.end.y": 60,
            "back.wall'.mid.x": -20,
            "back.wall'.mid.y": 40,
        },
    )


def test_runs_begin_and_end_at_the_points_of_rounded_corners() -> None:
    quarter = 5 * math.pi / 2
    text = CARD + "  fillet heel, brow by 5 mm\n"
    text += "  run a: from heel.end to brow.start\n  run b: from heel.mid to brow.mid\n  run c: from heel.start round brow to brow.end\n"
    check(text, {"back.a.length": 50, "back.b.length": 50 + quarter, "back.c.length": 50 + 2 * quarter})


def test_the_twin_of_a_corners_start_is_its_start() -> None:
    """`heel'.start` is the twin of `heel.start`: on the level side, though the outline meets it second."""
    text = HALF + "  fillet heel by 5 mm\n  run floor: from heel.start round foot to heel'.start\n"
    check(text, {"back.floor.length": 30})


def test_a_walk_round_a_ring_and_along_an_open_line() -> None:
    text = (
        CARD
        + """  point hub: at (20 mm, 30 mm)
  guide ring: 20 mm across; at hub
  guide view: box 10 mm by 20 mm; at hub
  guide knife: foot to heel to brow
  point low: midway foot..heel
  run arc: from ring.top round ring.left to ring.bottom of ring
  run side: from view.top_left to view.bottom_left of view
  run most: from view.top_left round view.top_right, view.bottom_right to view.bottom_left of view
  run blade: from low to brow of knife
  run spine: from brow to low of knife
"""
    )
    check(
        text,
        {
            "back.arc.length": 10 * math.pi,
            "back.arc.mid.x": 10,
            "back.side.length": 20,
            "back.most.length": 40,
            "back.blade.length": 80,
            "back.spine.length": 80,
            "back.spine.start.y": 60,
        },
    )


def test_a_run_of_another_piece_gives_its_length() -> None:
    text = CARD + "piece strap:\n  run wall: from back.foot round back.heel to back.brow\n"
    check(text + "  outline: box wall.length by 9 mm\n", {"strap.width": 100})


OFFSETS = [
    ("5 mm inside outline", {"length": 160, "width": 30, "area": 1500}),
    ("5 mm inside ring", {"length": 10 * math.pi, "width": 10}),
    ("5 mm outside ring", {"length": 30 * math.pi, "width": 30}),
    ("5 mm inside view", {"width": 10, "height": 20}),
    ("5 mm outside view", {"width": 30, "height": 40, "area": 1200}),
    ("5 mm inside wall", {"length": 50, "width": 0, "height": 50}),
    ("5 mm inside from foot round heel to brow", {"length": 80, "width": 30, "height": 50}),
    ("5 mm inside from brow round heel to foot", {"length": 80}),
    ("5 mm beside knife; right of knife", {"length": 60}),
    ("5 mm round knife", {"length": 120 + 10 * math.pi}),
    ("along wall", {"length": 60}),
    ("along foot..brow", {"length": math.sqrt(5200)}),
    ("along from foot round heel to brow", {"length": 100}),
    ("level through hub", {"length": 40}),
    ("plumb through hub", {"length": 60}),
    ("5 mm inside wall; 4 mm short", {"length": 42}),
    ("5 mm inside wall; 4 mm short at start", {"length": 46}),
    ("level through hub; 4 mm short at end", {"length": 36}),
    ("level through hub; 4 mm short at end; 3 mm short at start", {"length": 33}),
    ("foot to heel to brow; 4 mm short", {"length": 92}),
]


@pytest.mark.parametrize(("shape", "expected"), OFFSETS, ids=[shape for shape, _ in OFFSETS])
def test_a_guide_lies_in_or_out_or_beside(shape: str, expected: dict[str, float]) -> None:
    text = (
        CARD
        + f"""  point hub: at (20 mm, 30 mm)
  guide ring: 20 mm across; at hub
  guide view: box 20 mm by 30 mm; at hub
  guide knife: hub to brow2
  point brow2: 60 mm above hub; plumb with hub
  run wall: from heel to brow
  guide line: {shape}
"""
    )
    check(text, {f"back.line.{word}": value for word, value in expected.items()})


def test_an_offset_runs_on_at_a_corner_and_ends_square_elsewhere() -> None:
    """At a corner of the outline it goes to where the offset of the next leg is; from a point between, square across."""
    text = (
        CARD
        + """  point low: on heel..brow; 10 mm above heel
  point high: on heel..brow; 40 mm above heel
  crease wall: 5 mm inside from heel to brow
  crease part: 5 mm inside from low to high
  guide wide: 5 mm outside from heel to brow
"""
    )
    back = drafted(text).pieces["back"]
    (wall,), (part,) = (feature.paths for feature in back.features)
    assert near(wall.start, 35, 5) and near(wall.end, 35, 55)
    assert near(part.start, 35, 10) and near(part.end, 35, 40)
    assert near(back.guides["wide"].start, 45, -5) and near(back.guides["wide"].end, 45, 65)


@pytest.mark.parametrize(
    ("choice", "x"),
    [
        ("right of knife", 25),
        ("left of knife", 15),
        ("right of hub", 25),
        ("left of hub", 15),
        ("nearest heel", 25),
        ("farthest from heel", 15),
        ("nearest foot", 15),
        ("inside ring", 15),
        ("outside ring", 25),
        ("right of hub..top", 25),
    ],
)
@pytest.mark.parametrize("path", ["hub to top", "top to hub"])
def test_the_side_of_an_open_line_is_a_choice(choice: str, x: float, path: str) -> None:
    """Whichever way the line is walked."""
    text = (
        CARD
        + f"""  point hub: at (20 mm, 10 mm)
  point top: at (20 mm, 50 mm)
  guide ring: 20 mm across; at (12 mm, 30 mm)
  guide knife: {path}
  crease line: 5 mm beside knife; {choice}
"""
    )
    check(text, {"back.line.mid.x": x, "back.line.length": 40})


def test_an_offset_of_a_bowed_run_keeps_its_center() -> None:
    """Half a circle of radius 30 on the right side of the card; 5 mm inside it is one of radius 25."""
    text = (
        CARD.replace("to brow to", "to brow bowed out 30 mm to")
        + "  crease line: 5 mm inside from heel to brow\n"
    )
    (line,) = drafted(text).pieces["back"].features[0].paths
    assert line.bounds.max_x == pytest.approx(65, abs=1e-9)
    check(text, {"back.width": 70})


BANDS = [
    (
        "band 5 mm inside from low to high",
        150,
        {"near_start": (40, 10), "far_start": (35, 10), "near_end": (40, 40), "far_end": (35, 40)},
    ),
    (
        "band 5 mm inside from high to low",
        150,
        {"near_start": (40, 40), "far_start": (35, 40), "near_end": (40, 10), "far_end": (35, 10)},
    ),
    (
        "band 5 mm outside from low to high",
        150,
        {"near_start": (40, 10), "far_start": (45, 10), "near_end": (40, 40), "far_end": (45, 40)},
    ),
    (
        "band 5 mm inside from low round heel to side",
        5 * (10 + 20) - 25,
        {"near_start": (40, 10), "near_end": (20, 0), "far_end": (20, 5)},
    ),
]


@pytest.mark.parametrize(("shape", "area", "places"), BANDS, ids=[band[0] for band in BANDS])
def test_a_band_has_named_corners(shape: str, area: float, places: dict[str, tuple[float, float]]) -> None:
    text = (
        CARD
        + f"""  point low: on heel..brow; 10 mm above heel
  point high: on heel..brow; 40 mm above heel
  point side: midway foot..heel
  guide strip: {shape}
"""
    )
    asked = {
        f"back.strip.{name}.{axis}": at
        for name, place in places.items()
        for axis, at in zip("xy", place, strict=True)
    }
    check(text, {"back.strip.area": area, **asked})


def test_a_band_all_round_lies_between_two_rings() -> None:
    """The card is 40 by 60 with square corners: 5 mm inside it is 30 by 50. Round an opening the corners stay square."""
    text = (
        CARD
        + """  opening view: box 10 mm by 20 mm; at (20 mm, 25 mm) from foot; lying level
  crease rim: band 5 mm inside outline
  crease frame: band 2 mm outside view
"""
    )
    asked = {
        "back.rim.area": 40 * 60 - 30 * 50,
        "back.rim.length": 200 + 160,
        "back.frame.area": 14 * 24 - 10 * 20,
        "back.frame.width": 14,
        "gap(back.rim, back.frame)": 8,
    }
    check(text, asked)
    rim = next(feature for feature in drafted(text).pieces["back"].features if feature.name == "rim")
    assert [ring.area for ring in rim.rings] == pytest.approx([2400, 1500])


def test_a_band_all_round_a_mirrored_piece_is_its_own_twin() -> None:
    features = drafted(HALF + "  crease rim: band 2 mm inside outline\n").pieces["back"].features
    assert [feature.name for feature in features] == ["rim"]


def test_a_band_goes_through_the_mirror_line_and_its_twin_is_itself() -> None:
    text = HALF + "  crease turn: band 5 mm inside from heel round foot to heel'\n"
    features = drafted(text).pieces["back"].features
    assert [feature.name for feature in features] == ["turn"]


def test_a_line_from_edge_to_edge_stops_at_the_edge_of_its_own_part() -> None:
    """Of a piece with a notch-like gap, the part that the point lies in."""
    text = """piece back:
  point foot: at (0, 0)
  point heel: at (60 mm, 0)
  point brow: at (60 mm, 60 mm)
  point a: at (40 mm, 60 mm)
  point b: at (40 mm, 20 mm)
  point c: at (20 mm, 20 mm)
  point d: at (20 mm, 60 mm)
  point tip: at (0, 60 mm)
  outline: foot to heel to brow to a to b to c to d to tip
  point mid: at (10 mm, 40 mm)
  point mod: at (50 mm, 40 mm)
  crease line: level through mid
  crease other: level through mod
  crease whole: plumb through mid
"""
    check(
        text,
        {"back.line.length": 20, "back.line.end.x": 20, "back.other.start.x": 40, "back.whole.length": 60},
    )


def test_the_gap_between_all_kinds_of_things() -> None:
    text = (
        CARD
        + """  point knot: at (20 mm, 30 mm)
  hole eye: at (10 mm, 30 mm); 4 mm across
  slot strap: at (30 mm, 30 mm); lying plumb; 10 mm long; 4 mm wide
  row pins: at (20 mm, 10 mm); lying level; 3 holes; 8 mm apart; 2 mm across
  opening view: box 10 mm by 10 mm; at (20 mm, 50 mm); lying level
  crease line: level through low
  point low: at (20 mm, 20 mm)
  run wall: from heel to brow
  guide ring: 4 mm across; at knot
  label words: at (30 mm, 50 mm); lying level; 3 mm high; text "up"
"""
    )
    check(
        text,
        {
            "gap(back.knot, back.foot)": math.hypot(20, 30),
            "gap(back.eye, back.knot)": 8,
            "gap(back.strap, back.eye)": 16,
            "gap(back.pins, back.line)": 9,
            "gap(back.pins, back.outline)": 9,
            "gap(back.view, back.wall)": 15,
            "gap(back.wall, back.outline)": 0,
            "gap(back.view, back.outline)": 5,
            "gap(back.ring, back.line)": 8,
            "gap(back.view.bottom_left, back.tip)": 15 * math.sqrt(2),
            "gap(back.heel, back.wall)": 0,
        },
    )
