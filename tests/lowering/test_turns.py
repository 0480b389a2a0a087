"""Turned edges: where a piece is cut when its outline is the finished edge."""

from __future__ import annotations

import math

import pytest

from drafting.solve.placed import PlacedFeature, PlacedTurn
from tests.lowering.drafted import CARD, HALF, check, codes, drafted

STOCK = "stock body: leather; 1 mm thick\n"
LEATHER = STOCK + CARD.replace("piece back:", "piece back: cut 1 from body")
HALF_LEATHER = STOCK + HALF.replace("piece back:", "piece back: cut 1 from body;")
DISC = STOCK + "piece back: cut 1 from body\n  outline: 50 mm across\n"


def turns(text: str) -> list[PlacedFeature]:
    return [feature for feature in drafted(text).pieces["back"].features if feature.kind == "turn"]


def test_without_a_turn_a_piece_is_cut_along_its_outline() -> None:
    check(LEATHER, {"back.cut_width": 40, "back.cut_height": 60, "back.cut_area": 2400})
    piece = drafted(LEATHER).pieces["back"]
    assert piece.turned is None
    assert piece.cutting is piece.outline


def test_a_straight_turn_moves_one_side_out() -> None:
    text = LEATHER + "  turn hem: 9 mm outside from heel to brow\n"
    check(
        text,
        {
            "back.cut_width": 49,
            "back.width": 40,
            "back.cut_area": 2400 + 9 * 60,
            "back.area": 2400,
            "back.hem.length": 60,
        },
    )
    (turn,) = turns(text)
    assert isinstance(turn.work, PlacedTurn)
    assert turn.work.width == 9
    assert turn.work.shown == pytest.approx(9 - math.pi / 2)
    assert turn.work.thick == 1


@pytest.mark.parametrize(
    ("corners", "at_corner"),
    [
        (
            "pleated",
            [(0, 9), *((9 * math.sin(a / 500), 9 * math.cos(a / 500)) for a in range(1, 785)), (9, 0)],
        ),
        ("cut", [(0, 9), (1.5 * math.sqrt(0.5), 1.5 * math.sqrt(0.5)), (9, 0)]),
        ("mitred", [(3 * math.sqrt(0.5) - 9, 9), (9, 3 * math.sqrt(0.5) - 9)]),
    ],
    ids=["pleated", "cut", "mitred"],
)
def test_corners_all_round(corners: str, at_corner: list[tuple[float, float]]) -> None:
    """Seen from a finished corner whose legs run left and down: pleated, the cut is a quarter of a circle; cut, it runs
    to a tip 1.5 thicknesses outside the corner; mitred, it goes straight through that tip at 45 deg."""
    ring = [(-20.0, 0.0), (-20.0, 9.0), *at_corner, (9.0, -20.0), (0.0, -20.0), (0.0, 0.0)]
    pairs = zip(ring, [*ring[1:], ring[0]], strict=True)
    ground = abs(sum(x * v - u * y for (x, y), (u, v) in pairs)) / 2
    added = 2 * (40 + 60) * 9 + 4 * (ground - 2 * 20 * 9)
    piece = drafted(LEATHER + f"  turn hem: 9 mm outside outline; corners {corners}\n").pieces["back"]
    assert piece.cutting.area == pytest.approx(2400 + added, abs=0.01)
    assert (piece.cutting.bounds.width, piece.cutting.bounds.height) == pytest.approx((58, 78))


def test_a_turn_all_round_a_disc() -> None:
    check(
        DISC + "  turn hem: 8 mm outside outline\n",
        {"back.cut_width": 66, "back.cut_area": math.pi * 33**2, "back.hem.length": 50 * math.pi},
    )


def test_a_turn_ending_on_the_mirror_line_is_one_with_its_twin() -> None:
    text = HALF_LEATHER + "  turn hem: 9 mm outside from brow round heel to foot; corners pleated\n"
    (turn,) = turns(text)
    assert turn.paths[0].length == pytest.approx(160)
    check(text, {"back.hem.length": 80, "back.cut_width": 58, "back.cut_height": 69})


@pytest.mark.parametrize("way", ["outline", "from tip round brow, heel to foot"])
def test_a_turn_all_round_a_mirrored_piece_is_one_ring(way: str) -> None:
    text = HALF_LEATHER + f"  turn hem: 9 mm outside {way}; corners pleated\n"
    (turn,) = turns(text)
    assert len(turn.rings) == 1
    check(text, {"back.cut_area": 2400 + 200 * 9 + math.pi * 81})


def test_a_turn_off_the_mirror_line_has_a_twin_and_once_has_none() -> None:
    side = HALF_LEATHER + "  turn hem: 9 mm outside from heel to brow"
    assert [turn.name for turn in turns(side + "\n")] == ["hem", "hem'"]
    check(side + "\n", {"back.cut_width": 58})
    assert [turn.name for turn in turns(side + "; once\n")] == ["hem"]
    check(side + "; once\n", {"back.cut_width": 49})


def test_several_turns_of_one_piece() -> None:
    text = (
        LEATHER + "  turn low: 6 mm outside from foot to heel\n  turn high: 9 mm outside from brow to tip\n"
    )
    check(text, {"back.cut_height": 75, "back.cut_width": 40, "back.cut_area": 2400 + 40 * 15})


def test_an_outline_walked_the_other_way_is_turned_out_as_well() -> None:
    text = LEATHER.replace("foot to heel to brow to tip", "tip to brow to heel to foot")
    text += "  turn low: 6 mm outside from foot to heel\n  turn high: 9 mm outside from brow to tip\n"
    check(text, {"back.cut_height": 75, "back.cut_area": 2400 + 40 * 15})


def test_a_corner_that_goes_in_is_snipped() -> None:
    text = LEATHER.replace("to brow to tip", "to brow to notch to tip") + "  point notch: at (20 mm, 40 mm)\n"
    text += "  turn top: 7 mm outside from brow round notch to tip; corners mitred\n"
    kinds = [(feature.kind, feature.name) for feature in drafted(text).pieces["back"].features]
    assert kinds == [("turn", "top"), ("snip", "top snip")]


def test_skived_leather_is_turned_as_thin_as_it_is() -> None:
    """2 mm of leather takes 3.14 mm into a turn; skived to 0.5 mm it takes 0.79 mm."""
    thick = LEATHER.replace("1 mm thick", "2 mm thick") + "  turn hem: 3 mm outside from heel to brow\n"
    assert codes(thick) == ["K23"]
    thin = thick + "  skive thin: band 5 mm outside from heel to brow; down to 0.5 mm\n"
    (turn,) = turns(thin)
    assert isinstance(turn.work, PlacedTurn)
    assert turn.work.thick == 0.5
    half = thick + "  skive thin: 8 mm across; at (40 mm, 30 mm); down to 0.5 mm\n"
    assert "K23" in codes(half)


def test_a_notch_stays_in_the_edge_that_is_not_turned() -> None:
    text = LEATHER + "  turn hem: 9 mm outside from heel to brow\n"
    text += "  notch nick: 1/2 along foot..tip; 3 mm deep; 4 mm wide\n"
    piece = drafted(text).pieces["back"]
    assert piece.outline.area == pytest.approx(2400 - 6, abs=0.1)
    assert piece.cutting.area == pytest.approx(2400 + 540 - 6, abs=0.1)


def test_what_lies_on_the_turn_lies_on_the_leather() -> None:
    hole = "  hole tack: at (44 mm, 30 mm); 2 mm across\n"
    assert codes(LEATHER + hole) == ["P37"]
    assert codes(LEATHER + "  turn hem: 9 mm outside from heel to brow\n" + hole) == []


@pytest.mark.parametrize(
    ("turn", "code"),
    [
        ("turn hem: 9 mm inside outline", "M72"),
        ("turn hem: 9 mm outside outline", "K25"),
        ("turn hem: 1 mm outside from heel to brow", "K23"),
        ("turn hem: 9 mm outside view; corners cut", "P77"),
        ("turn hem: 0 mm outside from heel to brow", "P23"),
        ("turn one: 9 mm outside outline; corners cut\n  turn two: 9 mm outside from heel to brow", "P78"),
        ("turn hem: 9 mm outside outline; corners cut; corners pleated", "M16"),
        ("turn hem: corners cut", "M15"),
    ],
)
def test_a_turn_that_cannot_be_is_told(turn: str, code: str) -> None:
    text = LEATHER + "  guide view: box 10 mm by 10 mm; at (20 mm, 30 mm)\n"
    assert codes(text + f"  {turn}\n") == [code]


def test_a_turn_sharper_than_the_leather_is_thick_is_told() -> None:
    text = LEATHER.replace("1 mm thick", "3 mm thick") + "  fillet heel by 2 mm\n"
    assert codes(text + "  turn hem: 12 mm outside from foot round heel to brow\n") == ["K24"]


def test_a_turn_needs_to_know_how_thick_the_leather_is() -> None:
    turn = "  turn hem: 9 mm outside from heel to brow\n"
    assert codes(CARD + turn) == ["M70"]
    assert codes(LEATHER.replace("; 1 mm thick", "") + turn) == ["M70"]
