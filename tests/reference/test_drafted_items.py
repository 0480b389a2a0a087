"""Three whole items in every size, against figures worked out by hand from what their texts say.

Plane geometry only: a rounding of radius r at a corner that turns by t takes r tan(t/2) off each leg and puts an arc of
r t there; an inset by d of an outline without sharp corners is 2 pi d shorter; a fold takes its angle times the radius
of the neutral line.
"""

from __future__ import annotations

from math import atan2, dist, pi, tan
from pathlib import Path

import pytest

from drafting import face

FOLDER = Path(__file__).parent / "drafted"
INCH = 25.4
TAG_SIZES = {"crew card": (55.0, 86.0, 28.0), "dock pass": (70.0, 100.0, 34.0), "visitor": (50.8, 88.9, 28.0)}
WAISTS = {f"{waist} cm": (10.0 * waist, 38.0, 5.0) for waist in range(80, 111, 5)}
BELT_SIZES = {**WAISTS, "34 inch, narrow": (34 * INCH, 1.25 * INCH, 4.0)}


def near(value: float) -> object:
    return pytest.approx(value, abs=1e-9)


def sized(item: str, size: str | None = None) -> face.PlacedPattern:
    """In a size, whatever is to be said of it."""
    return face.load(FOLDER / f"{item}.draft").place_draft(size, {})


def measured(placed: face.PlacedPattern, *names: str) -> list[float]:
    return [placed.measure(name).value for name in names]


def rounded(corners: list[tuple[float, float]], radii: dict[int, float]) -> tuple[float, float]:
    """Length and area of a polygon, walked anticlockwise, with some of its corners rounded."""
    count = len(corners)
    pairs = [(corners[index], corners[(index + 1) % count]) for index in range(count)]
    length = sum(dist(a, b) for a, b in pairs)
    area = sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs) / 2
    for index, radius in radii.items():
        before, here, after = corners[index - 1], corners[index], corners[(index + 1) % count]
        turn = atan2(after[1] - here[1], after[0] - here[0]) - atan2(here[1] - before[1], here[0] - before[0])
        turn %= 2 * pi
        length -= 2 * radius * tan(turn / 2) - radius * turn
        area -= radius**2 * (tan(turn / 2) - turn / 2)
    return length, area


@pytest.mark.parametrize("size", TAG_SIZES)
def test_the_tag(size: str) -> None:
    card_w, card_h, tip_w = TAG_SIZES[size]
    half, high = card_w / 2 + 1.5 + 8, 2 * 8 + 2 * 1.5 + card_h + 36
    right = [(half, 0.0), (half, high - 36), (tip_w / 2, high)]
    corners = [*right, *((-x, y) for x, y in reversed(right))]
    length, area = rounded(corners, {0: 6, 1: 12, 2: 12, 3: 12, 4: 12, 5: 6})
    tag = sized("locker-tag", size)
    assert measured(tag, "back.width", "back.height") == [near(2 * half), near(high)]
    assert measured(tag, "back.outline.length", "back.outline.area") == [near(length), near(area)]
    seam = length - 2 * pi * 3.5
    stitches = round(seam / 3.38)
    assert measured(tag, "back.edge.length", "back.edge.stitches") == [near(seam), stitches]
    assert measured(tag, "back.edge.pitch", "front.edge.pitch") == [near(seam / stitches)] * 2
    door = 2 * (card_w - 8) + card_h - 14 - 2 * 5 * (2 - pi / 2)
    assert measured(tag, "front.door.length") == [near(door)]


def test_the_strap_and_the_keeper_of_the_tag() -> None:
    """Leather 1.8 mm thick round a bar of 2.5 mm, its middle neutral; three layers go through the keeper."""
    tag = sized("locker-tag")
    allowance = pi * (2.5 / 2 + 1.8 / 2)
    assert measured(tag, "strap.round_bar.allowance", "strap.width") == [
        near(allowance),
        near(32 + allowance / 2 + 150),
    ]
    assert measured(tag, "strap.upper.stitches", "strap.upper.pitch") == [2, near(3)]
    assert measured(tag, "keeper.width") == [near(2 * (12.5 + 3 * 1.8) + pi * 1.2 + 8)]


@pytest.mark.parametrize("size", BELT_SIZES)
def test_the_belt(size: str) -> None:
    """What the fold takes moves the bar and the seam with it: folded, the two seams meet 14 mm from the bend."""
    waist, _, bar = BELT_SIZES[size]
    allowance = pi * (bar / 2 + 0.4 * 3.6)
    belt = sized("deck-belt", size)
    assert measured(belt, "belt.crook.allowance") == [near(allowance)]
    assert measured(belt, "belt.at_bar..belt.middle") == [near(waist)]
    at_bar = 80 + allowance / 2
    assert measured(belt, "belt.at_bar.x", "belt.width") == [near(at_bar), near(at_bar + waist + 120 + 75)]


def test_the_seams_of_the_belt_meet_where_the_leather_is_folded() -> None:
    belt = sized("deck-belt", "95 cm")
    lines = {one.name: one.stitches[0].layout.holes for one in belt.pieces["belt"].features if one.stitches}
    assert len(lines["top_seam"]) == len(lines["under_seam"]) == 8
    for upper, under in zip(lines["top_seam"], lines["under_seam"], strict=True):
        assert under.point.x == near(80 - 14)
        assert upper.point.y == near(under.point.y)


def test_the_narrow_belt_has_a_seam_that_holds_no_whole_number_of_stitches() -> None:
    """1 1/4 in less 5 mm at each end are 21.75 mm: 5 stitches of 4.35 mm, 8.75 % off, where 5 % are allowed."""
    (fault,) = [one for one in face.load(FOLDER / "deck-belt.draft").check() if one.code == "K03"]
    assert fault.sizes == ("34 inch, narrow",)
    assert "is 21.75 mm: 5.4 pitches of 4 mm; 5 stitches would be 4.35 mm each" in fault.says


def test_the_pouch() -> None:
    """A ring 4 mm inside a disc 96 mm across, stitched every 3.85 mm, and a strip that is as long with a lap of 12 mm."""
    pouch = sized("coin-pouch")
    ring = 2 * pi * (96 / 2 - 4)
    stitches = round(ring / 3.85)
    assert stitches == 72
    for line in ("back.ring", "front.ring", "gusset.near", "gusset.near'"):
        assert measured(pouch, f"{line}.stitches", f"{line}.pitch", f"{line}.length") == [
            stitches,
            near(ring / stitches),
            near(ring),
        ]
    assert measured(pouch, "gusset.width", "gusset.height") == [near(ring + 12), near(28 + 2 * 4)]
    assert list(face.load(FOLDER / "coin-pouch.draft").check()) == []
