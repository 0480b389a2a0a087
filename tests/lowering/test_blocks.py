"""Blocks: pieces with arguments, each made with amounts of its own."""

from __future__ import annotations

import pytest

from tests.lowering.drafted import CARD, check, codes, drafted

STRAP = """block strap(wide, far, lap = 16 mm)
  mirrored over root..end
  measure half = wide/2
  point root: at (0, 0)
  point end:  level with root; far right of root
  point low:  plumb with root; half above root
  point high: plumb with end; level with low
  outline: root to low to high to end
  hole eye: level with root; lap right of root; wide/4 across
"""


def test_several_pieces_are_made_from_one_block() -> None:
    text = STRAP + "piece a: like strap(wide = 20 mm, far = 90 mm)\n"
    text += "piece b: like strap(far = 3 in, wide = 1 in, lap = a.lap + 4 mm)\npiece c: like a; without eye\n"
    wanted = {"a.width": 90, "a.height": 20, "b.width": 76.2, "b.height": 25.4, "c.height": 20}
    check(text, {**wanted, "a.eye.x": 16, "b.eye.x": 20, "b.eye.across": 6.35, "a.lap": 16, "b.wide": 25.4})


def test_a_block_is_made_like_a_block() -> None:
    text = """block slim(wide, far)
  like strap(wide = wide - 4 mm, far = 2*far)
  without eye
piece a: like slim(wide = 20 mm, far = 30 mm)
"""
    check(STRAP + text, {"a.height": 16, "a.width": 60, "a.wide": 20, "a.half": 8})
    assert drafted(STRAP + text).pieces["a"].features == ()


def test_arguments_follow_the_size() -> None:
    text = 'measure w = 20 mm\nsize "s": as written\nsize "l": w = 30 mm\n'
    text += STRAP + "piece a: like strap(wide = w + 1 mm, far = 90 mm)\n"
    check(text, {"a.height": 21}, "s")
    check(text, {"a.height": 31}, "l")


def test_an_argument_may_be_called_like_a_measure() -> None:
    """Inside the block the argument is meant, outside of it the measure."""
    text = "measure wide = 50 mm\n" + STRAP + "piece a: like strap(wide = wide/2, far = wide)\n"
    text += "  mark spot: level with root; wide - 1 mm right of root\n"
    check(text, {"a.height": 25, "a.width": 50, "a.spot.x": 49, "wide": 50, "a.wide": 25})


def test_an_argument_may_be_made_from_another_piece() -> None:
    text = STRAP + CARD + "piece a: like strap(wide = 12 mm, far = back.outline.length)\n"
    check(text, {"a.width": 200})


@pytest.mark.parametrize(
    ("clause", "given", "wanted"),
    [
        ("outline: box 2*a by 5 mm", "7 mm", "7 deg"),
        ("outline: box min(a, 9 mm) by 5 mm", "7 mm", "7"),
        ("outline: box sqrt(a*a) by 5 mm", "7 mm", "7 deg"),
        ("outline: box 4 mm*a by 5 mm", "7", "7 mm"),
        ("outline: box 60 mm*mm_less/a by 5 mm", "7", "7 mm"),
        ("outline: box 5 mm by 90 deg*3 mm/a", "7 deg", "7 mm"),
        ("measure half = a/2\n  outline: box half by 5 mm", "7 mm", "7"),
    ],
)
def test_the_kind_of_an_argument_follows_from_its_use(clause: str, given: str, wanted: str) -> None:
    """With the right kind nothing is said, with another one it is told where it is given."""
    block = f"block b(a, mm_less = 1)\n  {clause}\n"
    assert codes(f"{block}piece p: like b(a = {given})\n") == []
    (code,) = codes(f"{block}piece p: like b(a = {wanted})\n")
    assert code in ("M03", "M05")


def test_a_piece_gives_its_block_a_stock_a_mirror_and_an_outline() -> None:
    text = """stock body: leather; 2 mm thick
block end_part(reach)
  point root: at (0, 0)
  point butt: level with root; reach + crook.allowance left of root
  point ear: plumb with butt; 8 mm above butt
  fold crook: plumb through root; bent 180 deg round 3 mm
  crease rim: 2 mm inside from ear' round butt to ear
piece strap: like end_part(reach = 30 mm); cut 1 from body; mirrored over butt..tip
  point tip: level with root; 60 mm right of root
  point brow: plumb with tip; level with ear
  outline: butt to ear to brow to tip
"""
    check(text, {"strap.width": 90 + 3.141592653589793 * (1.5 + 1)})
    assert codes(text.split("piece")[0] + CARD) == []


def test_pairs_are_cut_from_a_block() -> None:
    text = (
        "stock body: leather\n"
        + STRAP
        + "piece a: like strap(wide = 9 mm, far = 90 mm); cut 2 pair from body\n"
    )
    piece = drafted(text).pieces["a"]
    assert (piece.count, piece.pair, piece.stock) == (2, True, "body")


def test_a_fault_in_a_block_spoils_only_the_pieces_made_from_it() -> None:
    loose = "piece lining\n  point k: at (0, 0)\n  point l: level with k\n  outline: 9 mm across; at k\n"
    text = (
        STRAP.replace("wide/4 across", "wide/4 + 1 across") + "piece a: like strap(wide = 9 mm, far = 9 mm)\n"
    )
    assert codes(text + loose + "check a.width > 3 mm\n") == ["M03", *codes(loose)]


def test_what_leans_on_a_piece_with_wrong_arguments_stays_quiet() -> None:
    text = (
        STRAP
        + "piece a: like strap(wide = 20 mm)\npiece b: like a\npiece c\n  outline: box a.width by b.height\n"
    )
    assert codes(text) == ["M90"]
