"""Amounts, names, quotes and blanks are read as makers type them, in any script and from any keyboard."""

from __future__ import annotations

from fractions import Fraction

import pytest

from drafting.syntax import tree
from drafting.syntax.parse import parse
from drafting.text.quantities import ANGLE, LENGTH, NUMBER, Quantity
from drafting.text.source import Source
from tests.syntax.reading import clause, codes, expression, part, read, statement

INCH = Fraction(127, 5)


@pytest.mark.parametrize(
    ("text", "value", "kind", "written"),
    [
        ("12 mm", Fraction(12), LENGTH, "12 mm"),
        ("12mm", Fraction(12), LENGTH, "12 mm"),
        ("12\tmm", Fraction(12), LENGTH, "12 mm"),
        ("12\u00a0mm", Fraction(12), LENGTH, "12 mm"),
        ("3.85 mm", Fraction(77, 20), LENGTH, "3.85 mm"),
        ("2 cm", Fraction(20), LENGTH, "2 cm"),
        ("5/8 in", INCH * Fraction(5, 8), LENGTH, "5/8 in"),
        ("5 1/4 in", INCH * Fraction(21, 4), LENGTH, "5 1/4 in"),
        ("5  1/4in", INCH * Fraction(21, 4), LENGTH, "5 1/4 in"),
        ("0", Fraction(0), NUMBER, "0"),
        ("0 mm", Fraction(0), LENGTH, "0 mm"),
        ("2 1/2", Fraction(5, 2), NUMBER, "2 1/2"),
        ("30 deg", Fraction(30), ANGLE, "30 deg"),
        ("007.50 mm", Fraction(15, 2), LENGTH, "007.50 mm"),
    ],
)
def test_an_amount_is_exact_and_keeps_its_spelling(
    text: str, value: Fraction, kind: object, written: str
) -> None:
    amount = expression(text)
    assert isinstance(amount, tree.Amount)
    assert amount.quantity == Quantity(value, kind)
    assert amount.written == written


def test_ounces_are_read_before_thick() -> None:
    (thick,) = statement("stock hide: leather; 4 oz thick").amounts
    assert thick.amounts[0].quantity == Quantity(INCH / 16, LENGTH)
    assert statement("thread waxed: 1/2 oz thick").thick.written == "1/2 oz"
    assert codes("stock hide: leather; 4 oz + 1 mm thick") == ["T23"]
    assert codes("measure bag = bend(turn = 90 deg, round = 0, thick = 4 oz)") == ["T23"]


def test_a_fraction_without_a_unit_is_a_division() -> None:
    """So that `rim/2/3` is what it looks like."""
    third = expression("1/3")
    assert isinstance(third, tree.Binary)
    assert third.operator == "/"
    nested = expression("rim/2/3")
    assert isinstance(nested, tree.Binary)
    assert isinstance(nested.left, tree.Binary)


def test_a_fraction_with_a_unit_is_one_amount() -> None:
    assert isinstance(expression("rim + 6/2 mm"), tree.Binary)
    scaled = expression("2*5/8 in")
    assert isinstance(scaled, tree.Binary)
    assert isinstance(scaled.right, tree.Amount)
    assert scaled.right.written == "5/8 in"


def test_a_number_behind_a_point_is_a_count() -> None:
    ref = expression("pleat.1.x")
    assert ref == tree.Ref(ref.span, ("pleat", "1", "x"))
    stretch = expression("p.1..p.10")
    assert stretch == tree.Stretch(
        stretch.span, tree.Ref(ref.span, ("p", "1")), tree.Ref(ref.span, ("p", "10"))
    )


@pytest.mark.parametrize(
    "name",
    [
        "brow",
        "Größe",
        "mål_2",
        "つま先",
        "ठेका",
        "كعب",
        "παλάμη",
        "n_2",
        "slits",
        "pointed",
        "inch",
        "mmm",
        "e",
    ],
)
def test_names_come_in_any_script(name: str) -> None:
    assert part(f"point {name}: at (0, 0)").name.text == name
    assert clause(f"start at {name}'.end").line.parts == (f"{name}'", "end")


def test_accents_written_apart_are_the_same_name() -> None:
    """NFC, as two keyboards may send one letter in two ways."""
    apart, joined = "talo\u0308n", "tal\u00f6n"
    assert part(f"point {apart}: at (0, 0)").name.text == joined
    assert part(f"point {apart}: at (0, 0)").name.span.text == apart


def test_curly_quotes_are_quotes_and_a_curly_twin_a_twin() -> None:
    assert part("point brow: at (0, 0)  “the top”").note == "the top"
    assert clause("start at heel’").line.parts == ("heel'",)
    assert clause("start at heel′").line.parts == ("heel'",)


def test_a_minus_sign_is_a_minus() -> None:
    assert expression("rim − 3 mm") == expression("rim - 3 mm")


FREE = [
    "slot",
    "point",
    "piece",
    "start",
    "end",
    "right",
    "of",
    "with",
    "wide",
    "long",
    "hole",
    "mark",
    "round",
    "by",
]


@pytest.mark.parametrize("name", FREE)
def test_a_word_of_the_language_may_be_a_name(name: str) -> None:
    assert part(f"point {name}: level with {name}; {name} right of {name}").name.text == name
    assert part(f"outline: foot to {name} to tip").clauses[0].legs[0].to.text == name
    assert part(f"run wall: from {name} round {name} to {name} of {name}").way.of.text == name


def test_a_property_and_a_measure_may_share_a_word() -> None:
    assert clause("tongue wide").word == "wide"
    assert clause("wide wide").amount == tree.Ref(clause("wide wide").span, ("wide",))
    assert clause("n_holes holes").word == "holes"


def test_pairs_are_one_word_over_any_blank_but_not_over_lines() -> None:
    assert clause("12 mm right \t of p").direction == "right of"
    lines = part("slit s:\n    start\n    at foot").clauses
    assert [type(each).__name__ for each in lines] == ["PathShape", "AtPoint"]


def test_line_ends_of_every_machine_are_line_ends() -> None:
    text = "# top\r\npiece back\r\n  point foot: at (0, 0)  # here\r\n"
    file = read(text)
    assert len(file.items[0].parts) == 1
    assert [(remark.text, remark.own_line) for remark in file.remarks] == [(" top", True), (" here", False)]


def test_a_remark_may_end_the_file_without_a_line_end() -> None:
    assert [remark.text for remark in read("measure a = 1 mm # last").remarks] == [" last"]


def test_a_byte_order_mark_is_no_character() -> None:
    assert len(read("\ufeffmeasure a = 1 mm\n").items) == 1


def test_what_stands_in_quotes_is_only_text() -> None:
    assert (
        statement('step "Cut 5, then # glue; see p.2 – slowly."').text
        == "Cut 5, then # glue; see p.2 – slowly."
    )


def test_places_count_characters_of_the_source() -> None:
    text = 'piece back  "Größe"\n  point つま先: at (0, 0); 3 mm right of foot\n'
    file, _ = parse(Source("places.draft", text))
    point = file.items[0].parts[0]
    assert point.name.span.text == "つま先"
    assert point.clauses[1].span.text == "3 mm right of foot"
    assert point.clauses[1].distance.span.text == "3 mm"
    assert (point.span.line, point.span.column) == (2, 3)


@pytest.mark.parametrize("sign", ["🪡", "½", "€", "\x00", "\u200b", "‽", "💛💛"])
def test_a_character_without_a_meaning_is_told_once(sign: str) -> None:
    file, messages = parse(
        Source("odd.draft", f"measure a = 1 mm\nmeasure {sign}b = 2 mm\nmeasure c = 3 mm\n")
    )
    (message,) = messages
    assert message.code == "T28"
    assert message.at is not None
    assert message.at.text == sign
    assert [item.name.text for item in file.items] == ["a", "c"]
