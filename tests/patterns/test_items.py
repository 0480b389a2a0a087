"""A number of each item that its maker would reckon before cutting, worked out by hand beside it.

Where a line runs at a distance d inside an edge that turns only in curves wider than d, it is shorter by d for each
radian that the edge turns: a ring loses 2 pi d, whatever its shape.
"""

from __future__ import annotations

from itertools import pairwise
from math import acos, atan2, hypot, pi, sqrt, tan

import pytest

from drafting.craft.contents import content_named
from drafting.face import PlacedPattern
from drafting.geometry.point import Point
from tests.patterns.test_measures import INCH, feature, near, place, stitched
from tests.patterns.test_starters import SIZES

FRENCH_INCH = 27.07
"""A twelfth of the pied du roi; `7 iron` has seven teeth to it."""


def amount(placed: PlacedPattern, name: str) -> float:
    return float(placed.measure(name).value)


def rounded_half(corners: list[tuple[float, float]], radii: list[float]) -> float:
    """The length of a path whose corners are rounded: each rounding by r at a turn t saves 2 r tan(t/2) - r t."""
    legs = [(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(corners)]
    length = sum(hypot(*leg) for leg in legs)
    for (one, other), radius in zip(pairwise(legs), radii, strict=True):
        turn = abs(atan2(one[0] * other[1] - one[1] * other[0], one[0] * other[0] + one[1] * other[1]))
        length -= radius * (2 * tan(turn / 2) - turn)
    return length


def tag_seam(by: dict[str, float], radii: list[float], inset: float) -> float:
    """A tag with a tapered nose: round the half, twice, less the inset of a whole turn."""
    side, tip = by["card_w"] / 2 + by["play"] + by["rim"], by["nose_w"] / 2
    top = by["card_h"] + 2 * by["play"] + by["rim"] + by["nose"]
    half = [(0, 0), (side, 0), (side, top - by["nose"]), (tip, top), (0, top)]
    return 2 * rounded_half(half, radii) - 2 * pi * inset


@pytest.mark.parametrize("size", SIZES["badge-holder"])
def test_the_badge_holder_is_sewn_all_round(size: str) -> None:
    """The crew card's holder is 386.95 mm round; 3.5 mm inside that leaves 364.96, 107 pitches of 3.41 mm."""
    placed, by = place("badge-holder", size)
    length = tag_seam(by, [7, 14, 14], 3.5)
    assert amount(placed, "back.edge.length") == near(length)
    assert (
        amount(placed, "front.edge.stitches") == amount(placed, "back.edge.stitches") == round(length / 3.4)
    )
    if size == "crew card":
        assert amount(placed, "back.edge.stitches") == 107


@pytest.mark.parametrize("size", SIZES["hatch-tag"])
def test_the_hatch_tag_has_its_seam_and_its_strap(size: str) -> None:
    """The strap: 40 mm turned back, half a turn round the 3 mm bar, and 185 mm from the bar: 228.85 mm."""
    placed, by = place("hatch-tag", size)
    length = tag_seam(by, [8, 22, 10], 3.7)
    assert amount(placed, "back.edge.length") == near(length)
    assert amount(placed, "back.edge.stitches") == round(length / 3.4)
    turn = pi * (3 / 2 + 1.9 / 2)
    assert placed.pieces["strap"].outline.width == near(40 + turn / 2 + 185) == near(228.848451)
    assert amount(placed, "strap.near_seam.stitches") == 3
    assert placed.pieces["keeper"].outline.width == near(2 * (16 + 3 * 1.9) + pi * 1.9 + 9)


@pytest.mark.parametrize("size", SIZES["hatch-tag"])
def test_the_door_hangs_above_the_card(size: str) -> None:
    """It leaves 6 mm of the card covered at three sides and 10 mm at its hinge, and 14.3 mm from the seam."""
    placed, by = place("hatch-tag", size)
    hinge, sill = (placed.pieces["front"].points[name] for name in ("hinge_end", "sill"))
    card_top = by["rim"] + by["play"] + by["card_h"]
    assert (hinge.x, card_top - hinge.y) == (near(by["card_w"] / 2 - 6), near(10))
    assert sill.y == near(by["rim"] + by["play"] + 6)
    assert amount(placed, "gap(front.door, front.edge)") == near(by["play"] + by["rim"] + 6 - 3.7)


@pytest.mark.parametrize("size", SIZES["card-wallet"])
def test_the_wallet_is_sewn_from_clip_to_clip(size: str) -> None:
    """Half the seam: down from the clip, round the heel by 9 - 3.5 mm, in to the middle.

    The line starts where it meets that beside the clip, 3.5 mm x tan(22.5 deg) lower, and 3 mm short of it.
    """
    placed, by = place("card-wallet", size)
    wide = by["card_w"] + 2 * by["side"]
    high = by["foot_h"] + by["card_h"] + 2 * by["step_h"]
    half = (high - 7 - 3 - 3.5 * tan(pi / 8) - 9) + pi / 2 * 5.5 + (wide / 2 - 9)
    assert amount(placed, "back.seam.length") == near(half)
    assert amount(placed, "back.seam.stitches") == round(half / 3)


@pytest.mark.parametrize("size", SIZES["card-wallet"])
def test_the_pockets_go_up_in_steps(size: str) -> None:
    placed, by = place("card-wallet", size)
    upper, lower = (placed.pieces[name].points["lip"].y for name in ("upper", "lower"))
    assert upper - lower == near(by["step_h"])
    assert placed.pieces["back"].points["top"].y - upper == near(by["step_h"])
    assert placed.pieces["upper"].outline.height == near(by["card_h"] - 2)


@pytest.mark.parametrize("size", SIZES["key-fob"])
def test_the_fob_is_sewn_round_its_upper_face(size: str) -> None:
    """From where the neck's line touches the face to its top, 3.5 mm inside; folded, the holes meet."""
    placed, by = place("key-fob", size)
    radius, away = by["face_d"] / 2, by["face_d"] / 2 + 10
    neck = hypot(by["neck_w"] / 2, away)
    swept = pi / 2 + atan2(away, by["neck_w"] / 2) - acos(radius / neck)
    assert amount(placed, "fob.face_seam.length") == near(swept * (radius - 3.5))
    assert amount(placed, "fob.face_seam.stitches") == round(swept * (radius - 3.5) / 3.8)
    bridge = placed.pieces["fob"].points["bridge"].y
    faces, bowls = (stitched(placed, "fob", name) for name in ("face_seam", "bowl_seam"))
    assert sorted((near_millionth(x), near_millionth(2 * bridge - y)) for x, y in faces) == sorted(
        (near_millionth(x), near_millionth(y)) for x, y in bowls
    )


def near_millionth(value: float) -> float:
    return round(value, 6) + 0.0


@pytest.mark.parametrize("size", SIZES["belt"])
def test_the_belt_is_sewn_across_in_front_of_its_keeper_and_behind(size: str) -> None:
    """Six stitches of 4 mm on 34 mm leave 5 mm at each edge; the keeper, 13 mm, goes between seams 22 mm apart."""
    placed, by = place("belt", size)
    count = by["n_across"]
    assert amount(placed, "belt.near_seam.stitches") == amount(placed, "belt.far_under.stitches") == count
    assert amount(placed, "belt.near_seam.length") == near(4 * count)
    points = placed.pieces["belt"].points
    assert points["far"].x - points["near"].x == near(22)


@pytest.mark.parametrize("size", SIZES["watch-strap"])
def test_the_watch_strap_is_as_long_as_its_turns_ask(size: str) -> None:
    """15 mm of lap, half a turn round a 1.8 mm bar in 1.3 mm leather, and the reach: 139.43 mm for 122."""
    placed, by = place("watch-strap", size)
    turn = pi * (1.8 / 2 + 1.3 / 2)
    assert placed.pieces["long_top"].outline.width == near(15 + turn / 2 + by["long_l"])
    buckle_turn = pi * (2 / 2 + 1.3 / 2)
    tail = 21 + buckle_turn / 2
    assert placed.pieces["short_top"].outline.width == near(15 + turn / 2 + by["short_l"] + tail)
    around = 2 * (by["buckle"] - 1 + 2 * (1.3 + 0.8)) + pi * 1.3
    assert placed.pieces["fixed_keeper"].outline.width == near(around + 6)


@pytest.mark.parametrize("size", SIZES["watch-strap"])
def test_the_watch_strap_has_the_widths_and_lengths_of_the_trade(size: str) -> None:
    """F-20, common practice, no source: lugs of 18, 20 or 22 mm, 2 to 4 mm of taper, 75 to 80 mm beside the buckle
    and 115 to 120 mm beside the tip, longer on a broad strap."""
    _, by = place("watch-strap", size)
    assert by["lug"] in (18, 20, 22) and 2 <= by["lug"] - by["buckle"] <= 4
    assert 75 <= by["short_l"] <= 80 and 115 <= by["long_l"] <= 130


@pytest.mark.parametrize("size", SIZES["coin-pouch"])
def test_the_gusset_goes_round_once(size: str) -> None:
    """104 mm less twice 4 mm: 96 pi = 301.59 mm is 75.4 pitches of 4 mm; the nearest whole ring has 75, 300 mm round, and its
    face is 300 / pi + 8 = 103.493 mm across. 9 mm of the gusset lap over at each end."""
    placed, by = place("coin-pouch", size)
    written = {"matinee": 104, "evening": 4.625 * INCH, "usher": 88}[size]
    stitches = min(range(50, 100), key=lambda count: abs(count * 4 / pi + 8 - written))
    ring = stitches * 4
    assert by["disc_d"] == near(ring / pi + 8)
    assert amount(placed, "back.ring.pitch") == amount(placed, "gusset.near.pitch") == near(4)
    assert amount(placed, "back.ring.stitches") == amount(placed, "gusset.near.stitches") == stitches
    assert placed.pieces["gusset"].outline.width == near(ring + 18)
    assert placed.pieces["gusset"].outline.height == near(by["depth"] + 8)
    assert stitches == {"matinee": 75, "evening": 86, "usher": 63}[size]


@pytest.mark.parametrize("size", SIZES["pitch-pipe-case"])
def test_the_moulded_front_goes_over_its_block(size: str) -> None:
    """The block of the round pipe is 18 mm deep: pi/2 x 3 mm over the edge less the edge's 2 mm, 11 mm of wall, pi/2 x 4 mm out
    at the foot come to 20 mm. The back reaches 2 mm of leather, 3 mm of foot and 12 mm of flange past the block."""
    placed, by = place("pitch-pipe-case", size)
    rise = pi / 2 * 3 - 2 + (by["pipe_t"] + 2 - 2 - 3 - 2) + pi / 2 * 4
    front, back = placed.pieces["front"].outline, placed.pieces["back"].outline
    assert front.width == near(by["pipe_w"] + 2 + 2 * (rise + 12))
    assert (back.width, back.height) == (near(by["pipe_w"] + 2 + 2 * 17), near(by["pipe_h"] + 17))
    if size == "round pipe":
        assert rise == pytest.approx(19.996, abs=5e-4)


@pytest.mark.parametrize("size", SIZES["glasses-case"])
def test_the_case_is_pricked_once_for_both_sides(size: str) -> None:
    placed, by = place("glasses-case", size)
    back, front = (stitched(placed, name, "seam_line") for name in ("back", "front"))
    assert back == front
    outline = placed.pieces["back"].outline
    assert [outline.distance_to_point(Point(x, y)) for x, y in back] == [near(by["seam"])] * len(back)


@pytest.mark.parametrize("size", SIZES["notebook-cover"])
def test_the_cover_goes_round_spine_boards_and_fore_edges(size: str) -> None:
    """A6: half of 12 mm and 1.4 mm of leather, 107 mm of board, half a turn of 6.69 mm round the board, 58 mm of flap."""
    placed, by = place("notebook-cover", size)
    turn = pi * (3 / 2 + 0.45 * 1.4)
    half = by["book_t"] / 2 + 1.4 + by["book_w"] + 2 + turn + by["flap"]
    assert placed.pieces["cover"].points["in_f"].x == near(half)
    assert placed.pieces["cover"].outline.height == near(by["book_h"] + 3 + 8 + 6)
    assert amount(placed, "cover.foot_board.stitches") == amount(placed, "cover.foot_flap.stitches")


def test_the_books_are_the_sizes_of_iso_216() -> None:
    covers = {size: place("notebook-cover", size)[1] for size in SIZES["notebook-cover"]}
    assert {size: (by["book_w"], by["book_h"]) for size, by in covers.items()} == {
        size: (content_named(size).wide, content_named(size).long) for size in covers
    }


def test_a_b_sheet_lies_between_two_a_sheets() -> None:
    """ISO 216: its sides are the mean proportionals, to the whole millimetre below or above."""
    for small, middle, large in (("A6", "B6", "A5"), ("A5", "B5", "A4")):
        sides = [(content_named(name).wide, content_named(name).long) for name in (small, middle, large)]
        for a, b, c in zip(*sides, strict=True):
            assert b == pytest.approx(sqrt(a * c), abs=1)


@pytest.mark.parametrize("size", SIZES["cup-sleeve"])
def test_the_sleeve_is_sewn_up_its_slant(size: str) -> None:
    """Parallel to a radius, half the gap and 4 mm off it, between the circles 4 mm inside both rims, less 5 mm twice."""
    placed, by = place("cup-sleeve", size)
    top, low = (by["top_d"] + 1.8) / 2, (by["low_d"] + 1.8) / 2
    slant = hypot(by["rise"], top - low)
    far, close, off = slant * top / (top - low), slant * low / (top - low), by["gape"] / 2 + by["inset"]
    seam = sqrt((far - 4) ** 2 - off**2) - sqrt((close + 4) ** 2 - off**2) - 10
    for name in ("left_seam", "right_seam"):
        assert amount(placed, f"sleeve.{name}.length") == near(seam)
        assert amount(placed, f"sleeve.{name}.stitches") == round(seam / 5)


@pytest.mark.parametrize("size", SIZES["tool-roll"])
def test_the_roll_has_a_seam_before_and_behind_each_file(size: str) -> None:
    """Seven pockets have eight seams; each is the pocket and half the turn, less 5 mm at both ends, by a No 7 iron."""
    placed, by = place("tool-roll", size)
    turn = pi * (3 / 2 + 1.3 / 2)
    count = round((by["pocket"] + turn / 2 - 10) / (FRENCH_INCH / 7))
    assert amount(placed, "roll.first_seam.stitches") == count
    assert amount(placed, "roll.seams.stitches") == amount(placed, "roll.seams_over.stitches") == 7 * count
    assert placed.pieces["roll"].outline.height == near(by["pocket"] + turn + by["longest"] + 12 + by["flap"])
    assert amount(placed, "roll.cut_height") == near(placed.pieces["roll"].outline.height + 10)


@pytest.mark.parametrize("size", SIZES["blade-sheath"])
def test_the_thread_of_the_sheath_keeps_off_the_edge(size: str) -> None:
    """The rim is room and welt off the edge, the seam 5.2 mm inside the rim."""
    placed, by = place("blade-sheath", size)
    edge = placed.pieces["face"].guides["cutting"]
    off = [edge.distance_to_point(Point(x, y)) for x, y in stitched(placed, "face", "seam")]
    assert min(off) == near(by["room"] + by["welt"] - 5.2)
    assert len(stitched(placed, "strip", "seam")) == len(off) == amount(placed, "face.seam.stitches") + 1
    assert amount(placed, "face.seam.pitch") == pytest.approx(INCH / 6, rel=1 / 40)


@pytest.mark.parametrize("size", SIZES["key-tray"])
def test_the_tray_folds_up_round_its_room(size: str) -> None:
    """Floor and two walls; each fold takes a quarter turn in the middle of the leather, pi t/2, and gives up t.

    190 + 2 x 42 + 2.4 (pi - 2) = 276.74 mm. The long walls run through: 190 + 2 x 2.4 mm.
    """
    placed, by = place("key-tray", size)
    tray, t = placed.pieces["tray"], 2.4
    assert tray.outline.width == near(by["room_l"] + 2 * by["room_h"] + t * (pi - 2))
    assert tray.outline.height == near(by["room_w"] + 2 * by["room_h"] + t * (pi - 2))
    assert tray.points["north_end"].x == near(by["room_l"] / 2 + t)
    assert tray.points["east_n"].y == near(by["room_w"] / 2)


@pytest.mark.parametrize("size", SIZES["belt"])
def test_the_middle_hole_is_the_size(size: str) -> None:
    placed, by = place("belt", size)
    holes = [hole.center.x for hole in feature(placed, "belt", "holes").holes]
    assert holes[len(holes) // 2] == near(by["waist"])
    assert holes[-1] - holes[0] == near((by["n_holes"] - 1) * by["hole_pitch"])
