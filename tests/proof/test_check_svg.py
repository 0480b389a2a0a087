"""A true file passes, and whatever is changed in it is found."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

import pytest

from drafting.drawing import overview, piece_sheet
from drafting.output.svg import to_svg
from drafting.proof import check_svg
from drafting.solve.placed import Placed
from tests.drawing.samples import SAMPLES, badge_holder, choir_folder, deck_belt, key_fob, rigging_strap
from tests.drawing.test_work import pouch


@pytest.mark.parametrize("name", SAMPLES)
def test_written_files_are_true(name: str) -> None:
    placed = SAMPLES[name]()
    assert check_svg(to_svg(overview(placed)), placed) == []
    for piece in list(placed.pieces)[:4]:
        assert check_svg(to_svg(piece_sheet(placed, piece)), placed, piece) == []


def belt_file() -> str:
    return to_svg(piece_sheet(deck_belt(), "belt"))


def swap(old: str, new: str) -> Callable[[str], str]:
    """Changes the first place where `old` matches."""

    def change(svg: str) -> str:
        changed = re.sub(old, new, svg, count=1)
        assert changed != svg
        return changed

    return change


@pytest.mark.parametrize(
    ("change", "where", "what"),
    [
        (swap('r="2"', 'r="2.01"'), "belt.holes line 1", "length"),
        (swap('cx="436"', 'cx="436.02"'), "belt.holes line 2", "left edge"),
        (swap("L 572,149", "L 572,149.05"), "belt.outline", "its course"),
        (swap("A 3 3 0 0 0", "A 3 3 0 0 1"), "belt.outline", "its course"),
        (swap(" Z", ""), "belt.outline", "whether it is closed"),
        (swap('<g class="piece"', '<g transform="scale(1.001)" class="piece"'), "belt.outline", "length"),
        (
            swap('<g class="feature"', '<g transform="translate(0.02,0)" class="feature"'),
            "belt.tongue",
            "left edge",
        ),
        (swap('viewBox="0 0 630 297"', 'viewBox="0 0 630 298"'), "the sheet", "its size"),
        (swap('width="630mm"', 'width="631mm"'), "the sheet", "its size"),
        (swap('width="630mm"', 'width="630px"'), "the file", "its form"),
        (swap(">1:1<", ">1:2<"), "the sheet", "its scale"),
        (swap(">1:1<", "><"), "the sheet", "its scale"),
        (swap("<title>belt</title>", "<title>strap</title>"), "the sheet", "its pieces"),
        (swap('<circle class="cut"[^>]*/>', ""), "belt", "the count of its lines"),
        (swap('class="cut"', 'class="crease"'), "belt.outline", "its line"),
        (swap('<path class="frame"', '<path class="cut"'), "the sheet", "a cut line in `Frame`"),
        (swap("</svg>", ""), "the file", "its form"),
    ],
)
def test_a_change_is_found(change: Callable[[str], str], where: str, what: str) -> None:
    found = check_svg(change(belt_file()), deck_belt(), "belt")
    assert (where, what) in [(one.where, one.what) for one in found], found


def test_a_moved_mark_is_found() -> None:
    placed = key_fob()
    svg = to_svg(piece_sheet(placed, "fob"))
    moved = svg.replace('<g class="mark"', '<g transform="translate(0,0.05)" class="mark"')
    assert [one.what for one in check_svg(moved, placed, "fob")] == ["a mark"]
    gone = re.sub(r'<g class="mark".*?</g>', "", svg, flags=re.DOTALL)
    assert "the count of its marks" in [one.what for one in check_svg(gone, placed, "fob")]


def test_a_piece_moved_as_a_whole_is_still_true() -> None:
    """A sheet may put a piece anywhere."""
    moved = belt_file().replace('<g class="piece"', '<g transform="translate(1,2)" class="piece"')
    assert check_svg(moved, deck_belt(), "belt") == []


def test_a_turned_piece_is_not() -> None:
    turned = belt_file().replace('<g class="piece"', '<g transform="rotate(0.1)" class="piece"')
    assert check_svg(turned, deck_belt(), "belt")


def test_the_printed_scale_is_what_counts() -> None:
    """An overview at 1:10 that says 1:2 tells the maker a wrong size."""
    placed = rigging_strap()
    svg = to_svg(overview(placed))
    assert check_svg(svg, placed) == []
    assert {one.what for one in check_svg(svg.replace(">1:10<", ">1:2<"), placed)} >= {"length", "area"}


def test_another_size_of_the_pattern_is_found() -> None:
    placed = badge_holder()
    other: Placed = replace(placed, pieces={**placed.pieces, "screen": choir_folder().pieces["cover"]})
    assert check_svg(to_svg(overview(other)), placed)


def test_a_disagreement_reads_as_a_sentence() -> None:
    found = check_svg(belt_file().replace('r="2"', 'r="2.5"'), deck_belt(), "belt")
    assert str(found[0]) == "belt.holes line 1: length is 12.5664 mm as drafted and 15.7080 mm in the file"


def test_a_stitch_hole_moved_missing_or_slanted_otherwise_is_found() -> None:
    placed = pouch()
    round_ones, slanted = (to_svg(piece_sheet(placed, name)) for name in ("back", "strap"))
    assert check_svg(round_ones, placed, "back") == check_svg(slanted, placed, "strap") == []

    def found(svg: str, name: str) -> list[tuple[str, str]]:
        return [(one.where, one.what) for one in check_svg(svg, placed, name)]

    moved = re.sub(r'(class="prick" d="M)([0-9.]+)', lambda m: f"{m[1]}{float(m[2]) + 0.02:.4f}", round_ones)
    assert found(moved, "back") == [("back.ring", "a stitch hole")]
    smaller = round_ones.replace("a0.6 0.6 0 0 1 1.2 0", "a0.55 0.55 0 0 1 1.1 0")
    assert found(smaller, "back") == [("back.ring", "a stitch hole")]
    missing = re.sub(r'(class="prick" d=")M[^M]+', r"\1", round_ones)
    assert found(missing, "back") == [("back", "the count of its stitch holes")]
    turned = re.sub(
        r'(<g class="stitches" id="[^"]*seam">.*?d="M)([0-9.,]+)L([0-9.,]+)M',
        r"\1\3L\2M",
        slanted,
        flags=re.DOTALL,
    )
    assert found(turned, "strap") == [("strap.seam", "a stitch hole")]
