"""Names: in any script, of any thing, of twins and of pieces that are derived from others."""

from __future__ import annotations

import pytest

from tests.lowering.drafted import CARD, HALF, check, codes, drafted, near

SCRIPTS = [
    "πόδι",
    "пятка",
    "足",
    "قدم",
    "पैर",
    "ขา",
    "é",
    "e\u0301toile",
    "Ferse",
    "foot_2",
    "x9",
    "ñ",
    "가죽",
    "ᚠ",
]


@pytest.mark.parametrize("name", SCRIPTS)
def test_a_name_is_in_any_script(name: str) -> None:
    """As a measure, a point, a piece and in their places; on mirrored pieces with its twin."""
    text = (
        HALF.replace("heel", name).replace("back", f"{name}_b") + f"measure {name}_m = {name}_b.{name}.x/2\n"
    )
    check(text, {f"{name}_m": 10, f"{name}_b.{name}'.x": -20, f"{name}_b.{name}..{name}_b.{name}'": 40})


def test_one_name_in_two_spellings_of_unicode_is_one_name() -> None:
    """An accent typed as a mark of its own or as one letter (Unicode Standard Annex 15)."""
    check(CARD.replace("heel:", "e\u0301toile:").replace("heel", "\u00e9toile"), {"back.\u00e9toile.x": 40})


def test_like_copies_what_is_written_and_shares_the_sheet() -> None:
    text = CARD + "  hole eye: at (20 mm, 30 mm); 4 mm across\npiece front: like back\n"
    placed = drafted(text)
    back, front = placed.pieces["back"], placed.pieces["front"]
    assert (back.outline, back.points, back.corners, back.features) == (
        front.outline,
        front.points,
        front.corners,
        front.features,
    )
    check(text, {"back.foot..front.brow": 5200**0.5, "gap(back.eye, front.eye)": 0})


def test_like_of_like_carries_on() -> None:
    text = (
        CARD
        + "piece front: like back\n  point knot: midway foot..brow\npiece lining: like front; without knot\n"
    )
    assert "knot" in drafted(text).pieces["front"].points
    assert "knot" not in drafted(text).pieces["lining"].points


def test_without_takes_out_and_the_name_is_free_again() -> None:
    text = CARD + "  fillet heel, brow by 6 mm\n  hole eye: at (20 mm, 30 mm); 4 mm across\n"
    text += "piece front: like back; without eye, fillet brow\n  slot eye: at (20 mm, 9 mm); lying level; 9 mm long; 3 mm wide\n"
    front = drafted(text).pieces["front"]
    assert [feature.kind for feature in front.features] == ["slot"]
    assert {corner.name: corner.kind for corner in front.corners} == {
        "foot": "sharp",
        "heel": "fillet",
        "brow": "sharp",
        "tip": "sharp",
    }


def test_cut_grain_and_mirror_are_simply_said_anew() -> None:
    text = "stock body: leather; 2 mm thick\nstock felt: sheet; 1 mm thick\n"
    text += HALF.replace("back:", "back: cut 2 from body; grain level;")
    text += "piece front: like back; cut 1 pair from felt; grain plumb; mirrored over tip..foot\n"
    back, front = drafted(text).pieces["back"], drafted(text).pieces["front"]
    assert (back.count, back.pair, back.stock, back.grain) == (2, False, "body", 0.0)
    assert (front.count, front.pair, front.stock, front.grain) == (1, True, "felt", 90.0)


def test_over_only_shares_the_sheet() -> None:
    text = (
        CARD
        + "piece front: over back\n  point hub: midway back.foot..back.brow\n  outline: 10 mm across; at hub\n"
    )
    placed = drafted(text)
    assert near(placed.pieces["front"].points["hub"], 20, 30)
    assert placed.pieces["front"].features == ()
    check(text, {"gap(back.outline, front.outline)": 15})


def test_over_of_over_is_one_sheet() -> None:
    text = CARD + "piece front: over back\n  outline: 10 mm across; at back.brow\n"
    text += "piece film: over front\n  outline: 4 mm across; at back.foot\n"
    check(text, {"gap(front.outline, film.outline)": 5200**0.5 - 7})


def test_a_base_may_be_written_later() -> None:
    text = "piece front: like back\n" + CARD
    assert drafted(text).pieces["front"].outline.area == pytest.approx(2400)


def test_names_of_one_piece_do_not_reach_another() -> None:
    assert codes(CARD + "piece front:\n  outline: 9 mm across; at foot\n") == ["M01"]


def test_a_statement_with_a_slip_is_told_once_and_what_leans_on_it_stays_quiet() -> None:
    text = CARD.replace("40 mm right of foot", "40 mm rihgt of foot")
    text += "  run wall: from heel.end to brow\n  fillet heel by 4 mm\ncheck back.heel.x > 3 mm\n"
    (code,) = codes(text)
    assert code.startswith("T")


TWINS = (
    HALF
    + """  fillet heel by 5 mm
  run wall: from heel.end to brow
  hole eye: at (12 mm, 30 mm); 4 mm across
  guide ring: 6 mm across; at (8 mm, 10 mm)
  points list: along foot..heel; steps 4 mm, 5 mm
"""
)


@pytest.mark.parametrize(
    ("asked", "value"),
    [
        ("back.brow'.x", -20),
        ("back.heel'.x", -20),
        ("back.heel'.start.x", -15),
        ("back.heel.start.x", 15),
        ("back.heel'.start.y", 0),
        ("back.heel'.end.y", 5),
        ("back.wall'.length", 55),
        ("back.wall'.start.x", -20),
        ("back.wall'.start.y", 5),
        ("back.wall'.end.y", 60),
        ("back.eye'.x", -12),
        ("back.eye'.across", 4),
        ("back.ring'.left.x", -11),
        ("back.ring'.centre.x", -8),
        ("back.list.2.x", 9),
        ("back.list'.2.x", -9),
        ("gap(back.eye, back.eye')", 20),
        ("gap(back.ring', back.ring)", 10),
        ("back.foot'.x", 0),
    ],
)
def test_every_thing_has_its_twin(asked: str, value: float) -> None:
    """Points, runs, features, guides, lists and the points of rounded corners."""
    check(TWINS, {asked: value})


@pytest.mark.parametrize(
    "head",
    [
        "piece front: cut 1 from body; like 5 mm",
        "piece front: cut 1 from body\n  like back front",
        "piece front: like (back)\n  without brow",
        "piece front: cut 1 from body\n  over",
        "block front(wide = 5 mm)\n  like wide mm",
    ],
)
def test_what_a_piece_would_have_copied_is_not_missed(head: str) -> None:
    """Where `like` or `over` stands in a line with a slip, nobody knows which names the piece would have."""
    text = CARD + f"{head}\n  point tip: level with heel; 3 mm right of heel\n  fillet tip by 4 mm\n"
    text += "piece lining: like front; without foot\n  hole eye: at tip; 3 mm across\n"
    assert all(code.startswith("T") for code in codes(text)) and codes(text)
