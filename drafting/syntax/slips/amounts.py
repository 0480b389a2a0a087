"""Slips with numbers and units."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from drafting.syntax.marks import Mark
from drafting.syntax.slips.trouble import PASS_OVER, Repair, Trouble, is_sign, near_word, touching
from drafting.syntax.vocabulary import CLAUSE_WORDS, PROPERTIES, UNITS_ELSEWHERE, UNITS_UNKNOWN
from drafting.text.catalogue import syntax as says
from drafting.text.quantities import UNITS

FEATURE_NAMES = {"outline": "An outline", "opening": "An opening"}


def has_comma_inside(marks: list[Mark], at: int) -> bool:
    """Whether `marks[at]` is a comma right between two numbers, such as in `3,85 mm`."""
    if not 0 < at < len(marks) - 1 or not is_sign(marks[at], ","):
        return False
    left, comma, right = marks[at - 1 : at + 2]
    are_numbers = left.kind == right.kind == "number" and not left.unit and left.text.isdigit()
    return are_numbers and touching([left, comma, right])


def tell_decimal_comma(trouble: Trouble) -> Repair | None:
    """`at (3,85 mm, 12 mm)`: three amounts where two belong. Outside of brackets it is told beforehand."""
    for at in range(trouble.at, max(trouble.at - 4, trouble.clause_start), -1):
        if has_comma_inside(trouble.marks, at):
            text = trouble.text(at - 1, at + 2)
            place = trouble.span(at - 1, at + 2)
            trouble.tell(says.DECIMAL_COMMA, place, text=text, mended=text.replace(",", ".", 1))
            return PASS_OVER
    return None


def tell_ounces(trouble: Trouble) -> Repair | None:
    """`measure t = 4 oz`."""
    found = trouble.found
    if found is None or found.kind != "number" or found.unit != "oz":
        return None
    trouble.tell(says.OUNCES, text=found.text, mended=f"{plain(found.number * UNITS['oz'])} mm")
    return Repair((("LENGTH", found),), 1) if "LENGTH" in trouble.accepted else PASS_OVER


def tell_ounces_before(trouble: Trouble) -> Repair | None:
    """`stock hide: 4 oz` without `thick`, or ounces in a sum."""
    before = trouble.before
    if before is None or before.kind != "number" or before.unit != "oz" or "thick" not in trouble.accepted:
        return None
    place = trouble.span(trouble.at - 1, trouble.at)
    if trouble.found is None or trouble.at == trouble.clause_end:
        trouble.tell(says.LACKS, place, text=before.text, what="a word", mended=f"{before.text} thick")
    else:
        mended = f"{plain(before.number * UNITS['oz'])} mm"
        trouble.tell(says.OUNCES, place, text=before.text, mended=mended)
    return PASS_OVER


def unit_meant(number: Mark, word: Mark) -> Mark | None:
    """A bare number and the word behind it as one amount: `12 inches`, `12 MM`, `1.2 m`."""
    name = word.text.casefold()
    if number.unit or word.kind != "word" or number.line != word.line:
        return None
    factor, unit = (1, UNITS_ELSEWHERE[name]) if name in UNITS_ELSEWHERE else UNITS_UNKNOWN.get(name, (0, ""))
    if not factor:
        return None
    written = number.text if factor == 1 else plain(number.number * factor)
    return replace(number, text=f"{written} {unit}", end=word.end, unit=unit, number=number.number * factor)


def tell_no_unit(trouble: Trouble) -> Repair | None:
    """`300 mn` and `2 rim`: a number and behind it a word that is neither a unit nor any other word."""
    before, found = trouble.before, trouble.found
    if before is None or found is None or before.kind != "number" or before.unit or found.kind != "word":
        return None
    if "*" not in trouble.accepted or near_word(found.text, trouble.accepted) or found.text in CLAUSE_WORDS:
        return None
    mend = f"Write `{before.text} mm`, or `{before.text}*{found.text}` for so many times `{found.text}`."
    place = trouble.span(trouble.at - 1, trouble.at + 1)
    trouble.tell(says.NO_UNIT, place, number=before.text, found=found.text, mend=mend)
    return PASS_OVER


def tell_amount_first(trouble: Trouble) -> Repair | None:
    """`length 14 mm` for `14 mm long`, and `length = 14 mm`."""
    start, at, end = trouble.clause_start, trouble.at, trouble.clause_end
    if start >= len(trouble.marks) or start == 0 or at > start + 2:
        return None
    wanted = PROPERTIES.get(trouble.marks[start].text)
    first = start + 1
    if first < end and is_sign(trouble.marks[first], ":="):
        first += 1
    if wanted is None or first >= end or trouble.marks[first].kind not in ("number", "word"):
        return None
    if trouble.marks[first].kind == "word" and first + 1 != end:
        return None
    amount = trouble.text(first, end)
    trouble.tell(
        says.AMOUNT_FIRST,
        trouble.span(start, end),
        owner=owner_of(trouble.word),
        text=trouble.text(start, end),
        mended=wanted.format(amount=amount),
    )
    return PASS_OVER


def owner_of(word: str) -> str:
    """`A slot`, `An opening`: what the statement makes."""
    return FEATURE_NAMES.get(word, f"A {word}")


def plain(number: Fraction) -> str:
    """Two digits behind the point at most, none that say nothing."""
    return f"{float(number):.2f}".rstrip("0").rstrip(".")
