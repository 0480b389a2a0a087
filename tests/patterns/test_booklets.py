"""What booklets tell and show, and that what a booklet lacks is found."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from html.parser import HTMLParser
from io import BytesIO

import pypdf
import pytest

import drafting
from drafting.drawing import collisions
from drafting.drawing.booklet import Picture, Step
from drafting.face import Leaflet, PlacedPattern
from drafting.proof.booklet import check_page, check_pages
from tests.patterns.starters import STARTERS, starter_path


@cache
def placed(name: str) -> PlacedPattern:
    return drafting.load(starter_path(name)).place()


@cache
def leaflet(name: str) -> Leaflet:
    return placed(name).booklet()


@pytest.mark.parametrize("name", STARTERS)
def test_names_in_pictures_lie_on_nothing(name: str) -> None:
    for picture in leaflet(name).booklet.pictures:
        told = [one for one in collisions(picture.drawing) if one.text in placed(name).pieces]
        assert told == [], picture.alt


class Page(HTMLParser):
    """What is open, and what a reader of the screen needs."""

    EMPTY = ("meta", "rect", "path", "circle", "br")

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.heads: list[str] = []
        self.names: list[str] = []
        self.untold = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        if tag not in self.EMPTY:
            self.open.append(tag)
        if tag in ("h1", "h2", "h3"):
            self.heads.append(tag)
        self.names += [given["id"] or ""] if "id" in given else []
        self.untold += tag == "svg" and not (given.get("role") == "img" and given.get("aria-label"))

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.names += [value or "" for key, value in attrs if key == "id"]

    def handle_endtag(self, tag: str) -> None:
        if tag not in self.EMPTY:
            assert self.open.pop() == tag


def test_a_page_is_well_formed_and_can_be_heard() -> None:
    text = leaflet("coin-pouch").to_html()
    page = Page()
    page.feed(text)
    assert page.open == [] and page.untold == 0
    assert page.heads[0] == "h1" and page.heads.count("h1") == 1
    assert len(page.names) == len(set(page.names))
    assert not any(word in text for word in ("<script", "src=", "href=", "url("))


def test_the_same_pattern_gives_the_same_bytes() -> None:
    again = drafting.load(starter_path("coin-pouch")).place().booklet()
    assert leaflet("coin-pouch").to_pdf() == again.to_pdf()
    assert leaflet("coin-pouch").to_html() == again.to_html()


def test_a_booklet_tells_what_it_must() -> None:
    """Measures, parts, hardware, thread, steps, sewing, checks, cautions, author and licence, each in its place."""
    words = "\n".join(
        page.extract_text() for page in pypdf.PdfReader(BytesIO(leaflet("belt").to_pdf())).pages
    )
    order = [
        "Bell tower belt", "The pieces", "Measures", "waist", "What to cut", "keeper", "Hardware", "buckle", "Thread",
        "The work, step by step", "Skive the turn-back", "Sewing", "saddle stitch", "Thread for each seam",
        "Checked", "belt.width <= 150 cm", "With care", "Author: Guild of the Seven Awls.",
        "Licence: CC0-1.0.",
    ]  # fmt: skip
    here = 0
    for word in order:
        here = words.find(word, here)
        assert here >= 0, word


def test_the_lines_of_a_comb_are_told_together() -> None:
    """Those of one stitch that differ in their way to the edge alone; by their names where others differ."""
    page = leaflet("tool-roll").to_html()
    assert "roll.seams_over.1 to roll.seams_over.7 (seams A to G): 7 lines of 31 stitches, " in page
    assert "roll.seams.5, roll.seams.6 (seams A to F): 6 lines of 31 stitches, " in page


def test_what_it_holds_is_counted_only_where_there_are_several() -> None:
    assert "It holds glasses, 138 mm × 35 mm" in leaflet("glasses-case").to_html()
    assert "It holds 3 × ID-1 card, 85.6 mm" in leaflet("card-wallet").to_html()


def test_what_a_step_uses_stands_out() -> None:
    steps = [part for part in leaflet("coin-pouch").booklet.parts if isinstance(part, Step)]
    tinted = [
        [group.name for group in step.picture.drawing.groups if any(one.kind.name == "tint" for one in group.strokes)]
        for step in steps
        if step.picture
    ]  # fmt: skip
    assert tinted == [["front"], ["front"], ["gusset"], ["back", "front", "gusset"]]


def without(picture: Picture, name: str) -> Picture:
    groups = tuple(group for group in picture.drawing.groups if group.name != name)
    return replace(picture, drawing=replace(picture.drawing, groups=groups))


def test_a_picture_that_lacks_a_piece_is_found() -> None:
    book, drafted = leaflet("coin-pouch"), placed("coin-pouch").placed
    first, *rest = book.booklet.sections
    part, *others = first.parts
    assert isinstance(part, Picture)
    lacking = replace(first, parts=(without(part, "gusset"), *others))
    wrong = replace(book, booklet=replace(book.booklet, sections=(lacking, *rest)))
    for found in (
        check_pages(wrong.to_pdf(), drafted, book.booklet),
        check_page(wrong.to_html().encode(), drafted, book.booklet),
    ):
        assert [one.what for one in found] == ["the outline of gusset"]


def test_a_lost_picture_and_a_lost_step_are_found() -> None:
    book, drafted = leaflet("coin-pouch"), placed("coin-pouch").placed
    text = book.to_html()
    cut = text[: text.index("<figure>")] + text[text.index("</figure>") :]
    assert [one.what for one in check_page(cut.encode(), drafted, book.booklet)] == [
        "the count of its pictures"
    ]
    step = next(part for part in book.booklet.parts if isinstance(part, Step))
    told = check_page(text.replace(step.text, "").encode(), drafted, book.booklet)
    assert [one.what for one in told] == ["step 1"]
    assert [one.what for one in check_pages(b"no file", drafted, book.booklet)] == ["its form"]
