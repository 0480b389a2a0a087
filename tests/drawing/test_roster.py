"""Rosters: words fitted to their boxes, cards to their size, each row in its own size, every fault at its line."""

from __future__ import annotations

from math import radians

import pypdfium2
import pytest
import zxingcpp
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.drawing.marks import ORIGIN
from drafting.drawing.prints import paper_called
from drafting.drawing.roster import NoRoom, Roster, blanks_of, card_sheets
from drafting.drawing.roster.engraving import Blank
from drafting.drawing.roster.people import Person
from drafting.geometry.bounds import Bounds
from drafting.geometry.point import Point
from drafting.output.pdf import to_pdf
from tests.drawing.rosters import CHOIR, FOLDER, made, said
from tests.output.conftest import Fonts


def blanks(roster: Roster, person: Person) -> list[Blank]:
    return blanks_of(person, roster.wishes)


def level(blank: Blank, stamp: str, turn: float) -> Bounds:
    """The box about the words of a stamp with the piece turned back, from the middle of the piece."""
    (words,) = [each for each in blank.lettered if each.stamp.name == stamp]
    middle = blank.edge.bounds.center
    turned = [way.moved(ORIGIN - middle).turned(radians(-turn), ORIGIN) for way in words.ways]
    return Bounds.joining(way.bounds for way in turned)


def test_each_row_has_its_size_and_every_copy_of_its_pieces() -> None:
    roster = made()
    assert [person.placed.size for person in roster.people] == ["slim", "broad"]
    fronts = [blank.edge.bounds.width for blank in blanks(roster, roster.people[1]) if blank.name == "front"]
    assert fronts == pytest.approx([120.0, 120.0])
    assert [blank.name for blank in blanks(roster, roster.people[0])] == ["front", "front", "tab", "tab"]


@pytest.mark.parametrize("letters", ["stroke", "outline"])
def test_words_fill_their_box_and_stay_in_it(letters: str) -> None:
    """One of the two sides of the box less its margins is filled, and the words are in its middle."""
    roster = made(letters=letters)
    ink = level(blanks(roster, roster.people[0])[0], "owner", 20)
    assert ink.width <= 40 - 1.8 + 1e-6 and ink.height <= 9 - 1.8 + 1e-6
    assert ink.width == pytest.approx(40 - 1.8) or max(ink.max_y, -ink.min_y) == pytest.approx(3.6)
    assert (ink.min_x + ink.max_x) / 2 == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize("letters", ["stroke", "outline"])
@pytest.mark.parametrize("name", ["Ελένη", "Жанна", "שָׂרָה", "نورة", "मीरा", "สุดา"])
def test_names_of_any_script_are_engraved(name: str, letters: str, machine_has: Fonts) -> None:
    """With no other fonts than the packaged ones; in the box, as all words are."""
    machine_has("")
    rows = f"name,voice,size\n{name},alto,slim\n"
    roster = made(rows, letters=letters)
    assert said(rows, letters=letters) == []
    ink = level(blanks(roster, roster.people[0])[0], "owner", 20)
    assert ink.width > 3 and ink.height > 2
    assert max(-ink.min_x, ink.max_x) <= 20 and max(-ink.min_y, ink.max_y) <= 4.5


@pytest.mark.parametrize("letters", ["stroke", "outline"])
def test_a_font_of_the_machine_is_engraved_where_no_other_has_the_letters(
    letters: str, machine_has: Fonts
) -> None:
    rows = "name,voice,size\n花子,alto,slim\n"
    machine_has("")
    assert [line[:4] for line in said(rows, letters=letters)] == ["C145", "C145"], (
        "on the stamp and on the card"
    )
    machine_has("花子", postscript=True)
    roster = made(rows, letters=letters)
    assert (
        said(rows, letters=letters) == []
        and level(blanks(roster, roster.people[0])[0], "owner", 20).width > 3
    )


@settings(max_examples=25)
@given(st.text("ÅgjQ. Łab—Юω", min_size=1, max_size=9).filter(lambda text: text.strip(" .—")))
def test_no_ink_leaves_the_box(words: str) -> None:
    roster = made(f'name,voice,size\n"{words}",,slim\n', least=0.01)
    ink = level(blanks(roster, roster.people[0])[0], "owner", 20)
    assert max(-ink.min_x, ink.max_x) <= 20 + 1e-6 and max(-ink.min_y, ink.max_y) <= 4.5 + 1e-6


def test_words_are_read_the_same_way_on_a_twin_and_on_the_other_hand() -> None:
    """Mirrored over a plumb line, a rise of 30 degrees becomes a fall: 330, not 150 upside down."""
    roster = made()
    front, hand, tab, _ = blanks(roster, roster.people[0])
    assert level(hand, "owner", -20).width == pytest.approx(level(front, "owner", 20).width)
    right, left = tab.lettered
    first = [way.start - right.ways[0].start for way in right.ways]
    other = [way.start - left.ways[0].start for way in left.ways]
    turned = [move.turned(radians(-60)) for move in first]
    assert all((move - wanted).length < 1e-9 for move, wanted in zip(other, turned, strict=True))


def test_mirrored_boxes_are_alone_and_their_words_run_the_other_way() -> None:
    plain, mirrored = made(), made(is_mirrored=True)
    boxes = blanks(mirrored, mirrored.people[0])
    assert [(blank.name, len(blank.lettered)) for blank in boxes] == [("front owner", 1), ("tab voice", 1)]
    assert (boxes[0].edge.width, boxes[0].edge.height) == pytest.approx((40, 9))
    straight = level(blanks(plain, plain.people[0])[0], "owner", 20)
    back = level(boxes[0], "owner", 0)
    assert (back.min_x, back.width) == pytest.approx((-straight.max_x, straight.width))


def test_even_letters_are_as_high_as_the_longest_needs() -> None:
    text = "name,voice,size\nO,alto,slim\nBrunhilde Saltmarsh-Featherstone,alto,slim\n"
    free, even = made(text), made(text, is_even=True)
    low = min(person.inscriptions[0].height for person in free.people)
    assert [person.inscriptions[0].height for person in even.people] == [low, low]
    assert free.people[0].inscriptions[0].height > low
    assert len({person.card.height for person in even.people if person.card}) == 1


def test_columns_are_fed_as_they_are_said() -> None:
    text = "who,part,n,belt\nOna,alto,7,100 mm\n"
    roster = made(
        text, columns={"owner": "who", "tab.voice": "PART", "house": "n", "wide": "belt"}, size="slim"
    )
    (person,) = roster.people
    assert [each.words for each in person.inscriptions] == [("Ona",), ("7",), ("alto",)]
    assert person.placed.pieces["front"].outline.width == pytest.approx(100.0)


def test_a_column_called_like_the_stamp_will_do() -> None:
    assert made("owner,voice,size\nOna,alto,slim\n").people[0].inscriptions[0].words == ("Ona",)


def test_a_line_end_in_a_cell_is_one_on_the_stamp() -> None:
    roster = made('name,voice,size\n"Ona\nVale",alto,slim\n')
    assert roster.people[0].inscriptions[0].words == ("Ona", "Vale")


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("name,voice,size\nOna,alto,slimm\n", "C144 Line 2: the pattern is not made in the size `slimm`."),
        (
            "name,voice,size\nOna,alto,slim\n,,\n",
            "C148 Line 3 says nobody's name or anything else, and is passed over.",
        ),
        (
            "name,voice,size\nOna,alto,slim\nOna,alto,slim\n",
            "C147 Line 3 says the same as line 2; both are made.",
        ),
        (
            "name,voice,size\n,alto,slim\n",
            "C149 Line 2: there is nothing under `name`, so `front.owner` stays plain.",
        ),
        (
            "name,voice,size\nOna 鶴,alto,slim\n",
            "C145 Line 2: `鶴` cannot be written with the single-stroke letters, which `Ona 鶴` on `front.owner` needs.",
        ),
        (
            f"name,voice,size\n{'Ona' * 30},alto,slim\n",
            f"C146 Line 2: `{('Ona' * 30)[:58]} …` finds no room on `front.owner`: its capitals would be 0.45 mm high; "
            "1.5 mm is the least.",
        ),
        (
            f"name,voice,size\nOna,{'alto' * 12},slim\n",
            f"H81 Line 2: `{'alto' * 12}` with capitals 4 mm high runs off the leather of `tab`.",
        ),
        (
            "voice,size\nalto,slim\n",
            "C138 `front.owner` takes its text from the column `name`, and the table has none of that name.",
        ),
    ],
)
def test_a_fault_is_told_with_its_line(text: str, found: str) -> None:
    assert said(text, has_cards=False) == [found]


def test_faults_of_every_row_are_told_in_one_run() -> None:
    text = "name,voice,size\nOna 鶴,alto,tiny\nTam 鶴,bass,slim\nIda,鶴,slim\n"
    assert [line[:12] for line in said(text, has_cards=False)] == [
        "C144 Line 2:",
        "C145 Line 3:",
        "C145 Line 4:",
    ]


def test_a_measure_that_cannot_be_is_told_at_its_cell() -> None:
    text = "name,voice,belt\nOna,alto,7\nTam,bass,90 mm\n"
    found = said(text, columns={"wide": "belt"}, size="slim", has_cards=False)
    assert len(found) == 1 and found[0].startswith(
        "H80 Line 2: nothing true can be drafted of these measures"
    )


# Cards


def test_cards_are_as_large_as_the_content_and_edge_to_edge() -> None:
    (sheet,) = card_sheets(made())
    assert [laid.box.width for laid in sheet.laid] == pytest.approx([85, 85])
    assert [laid.box.height for laid in sheet.laid] == pytest.approx([54, 54])
    assert sheet.laid[0].box.max_x == pytest.approx(sheet.laid[1].box.min_x)
    for laid in sheet.laid:
        held = [lettering.bounds for lettering in laid.group().letterings]
        assert all(laid.box.grown(-2.9).contains(corner) for box in held for corner in corners(box))


def corners(box: Bounds) -> tuple[Point, Point]:
    return Point(box.min_x, box.min_y), Point(box.max_x, box.max_y)


def test_a_card_says_every_column_but_the_size_unless_lines_are_said() -> None:
    def words(**wishes: object) -> list[tuple[str, ...]]:
        return [person.card.words for person in made(**wishes).people if person.card]

    assert words() == [("Ona Vale", "alto"), ("Tam Redwick", "bass")]
    assert words(lines=("{NAME}, {voice}", "Bells")) == [
        ("Ona Vale, alto", "Bells"),
        ("Tam Redwick, bass", "Bells"),
    ]


def test_as_many_cards_as_fit_share_a_sheet_and_all_are_there() -> None:
    people = "".join(f"Ona {number},alto,slim\n" for number in range(23))
    sheets = card_sheets(made("name,voice,size\n" + people))
    assert [len(sheet.laid) for sheet in sheets] == [8, 8, 7]
    titles = [laid.person.title for sheet in sheets for laid in sheet.laid]
    assert titles == [f"Ona {number}" for number in range(23)]


def test_a_card_that_is_too_large_is_told() -> None:
    large = FOLDER.replace("85 mm by 54 mm", "300 mm by 200 mm")
    with pytest.raises(NoRoom, match="larger than the room"):
        card_sheets(made(pattern=large))
    assert len(card_sheets(made(pattern=large, paper=paper_called("a3")))) == 2


@pytest.mark.parametrize("text", ["17", "Ona Vale, alto", "Łucja 鶴 ö", "x" * 120])
def test_a_code_is_read_back_by_another_library(text: str) -> None:
    roster = made(
        f'name,voice,size\nOna,"{text}",slim\n', qr="{voice}", lines=("{name}",), columns={"voice": "name"}
    )
    pages = pypdfium2.PdfDocument(to_pdf([sheet.drawing for sheet in card_sheets(roster)]))
    (code,) = zxingcpp.read_barcodes(pages[0].render(scale=300 / 72).to_pil())
    assert (code.text, code.format.name) == (text, "QRCode")


def test_a_code_too_fine_to_print_is_told() -> None:
    text = f"name,voice,size\nOna,{'x' * 1300},slim\n"
    assert [line[:3] for line in said(text, qr="{voice}", lines=("{name}",), columns={"voice": "name"})] == [
        "H82"
    ]
    assert [
        line[:3]
        for line in said(
            text.replace("x" * 1300, "x" * 13000), qr="{voice}", lines=("{name}",), columns={"voice": "name"}
        )
    ] == ["H82"]


def test_words_with_no_room_on_a_card_are_told() -> None:
    text = CHOIR + f"Ona,{'x' * 80},slim\n"
    assert [line[:11] for line in said(text, columns={"voice": "name"})] == ["C146 Line 4"]


def test_which_content_a_card_is_for() -> None:
    two = FOLDER.replace("content card", "content pass: 60 mm by 40 mm\ncontent card")
    thick = FOLDER.replace("0.3 mm", "3 mm")
    assert [line[:4] for line in said(pattern=two)] == ["C142"]
    assert made(pattern=two, card="pass").people[0].card is not None
    assert made(pattern=thick).people[0].card is None
    assert [line[:4] for line in said(pattern=thick, card="crad")] == ["C142"]
