"""Slips with signs: colons, semicolons, brackets, comparisons, and what joins names."""

from __future__ import annotations

from drafting.syntax.slips.trouble import PASS_OVER, Repair, Trouble, is_sign, shortened, touching
from drafting.syntax.tables import presume_tables
from drafting.text.catalogue import syntax as says

COMPARISONS = {"=>": ">=", "=<": "<=", "==": "=", "<>": ">=", "><": "<="}
COMPARISON_WORDS = {
    "at least": ">=",
    "at most": "<=",
    "more than": ">",
    "less than": "<",
    "greater than": ">",
}
PATH_STATEMENTS = ("outline", "guide", "opening", "slit", "stitch", "crease", "fold", "glue")
"""Statements that may say a path from name to name."""


def tell_odd(trouble: Trouble) -> Repair | None:
    """A character that is told already: its clause is looked at no further."""
    return PASS_OVER if trouble.found and trouble.found.kind == "odd" else None


def tell_nothing_between(trouble: Trouble) -> Repair | None:
    """`point brow:; level with heel`, `32 mm,, 36 mm`."""
    before, found = trouble.before, trouble.found
    if before is None or found is None or not is_sign(before, ":,(") or not is_sign(found, ";,"):
        return None
    trouble.tell(says.NOTHING_BETWEEN, where="before", sign=found.text)
    return Repair(taken=1) if before.text != "," or found.text == "," else PASS_OVER


def tell_dot_behind(trouble: Trouble) -> Repair | None:
    """`measure rim = 8 mm.`"""
    last = len(trouble.marks) - 1
    if (
        last < trouble.at - 1
        or last > trouble.at
        or not trouble.marks
        or not is_sign(trouble.marks[last], ".")
    ):
        return None
    trouble.tell(says.NOTHING_BETWEEN, trouble.span(last, last + 1), where="behind", sign=".")
    return Repair(taken=1) if trouble.at == last else PASS_OVER


def tell_lacking_at(trouble: Trouble) -> Repair | None:
    """`point foot: (0, 0)`, `point foot = (0, 0)`."""
    found, start = trouble.found, trouble.at - 1
    if found is None or not is_sign(found, ","):
        return None
    while start > 0 and not is_sign(trouble.marks[start], "(),"):
        start -= 1
    if start < 1 or not is_sign(trouble.marks[start], "("):
        return None
    if not is_sign(trouble.marks[start - 1], ":;="):
        return None
    text = trouble.text(start, trouble.clause_end)
    place = trouble.span(start, trouble.clause_end)
    trouble.tell(says.LACKS, place, text=text, what="a word", mended=f"at {text}")
    return PASS_OVER


def tell_open_bracket(trouble: Trouble) -> Repair | None:
    """A bracket that is still open where its clause ends."""
    if trouble.at != trouble.clause_end or ")" not in trouble.accepted:
        return None
    opened: list[int] = []
    for index in range(trouble.clause_start, trouble.at):
        if is_sign(trouble.marks[index], "("):
            opened.append(index)
        elif is_sign(trouble.marks[index], ")") and opened:
            opened.pop()
    if not opened:
        return None
    trouble.tell(says.OPEN_BRACKET, trouble.span(opened[-1], opened[-1] + 1))
    closing = tuple((")", trouble.marks[trouble.at - 1]) for _ in opened)
    return Repair(closing) if trouble.can_read([")"] * len(opened)) else PASS_OVER


def tell_comparison(trouble: Trouble) -> Repair | None:
    """`=>`, `==`, `=<` and the like."""
    before, found = trouble.before, trouble.found
    if before is None or found is None or not touching([before, found]):
        return None
    written = before.text + found.text
    if written not in COMPARISONS:
        return None
    place = trouble.span(trouble.at - 1, trouble.at + 1)
    trouble.tell(says.COMPARISON, place, found=written, right=COMPARISONS[written])
    return Repair(taken=1)


def tell_comparison_words(trouble: Trouble) -> Repair | None:
    """`check rim at least 3 mm`."""
    written = trouble.text(trouble.at, trouble.at + 2) if trouble.at + 1 < len(trouble.marks) else ""
    right = COMPARISON_WORDS.get(written)
    if right is None or right not in trouble.accepted:
        return None
    trouble.tell(says.COMPARISON, trouble.span(trouble.at, trouble.at + 2), found=written, right=right)
    return Repair(((right, trouble.marks[trouble.at]),), 2)


def tell_wrong_sign(trouble: Trouble) -> Repair | None:
    """`measure rim: 8 mm`, `point brow = at (0, 0)`, `level with foot, 3 mm above foot`."""
    found = trouble.found
    is_and = found is not None and found.text == "and" and trouble.can_read_after(["_SEP"], 1)
    if found is None or not (is_sign(found, ":=;,") or is_and):
        return None
    for terminal, sign in ((":", ":"), ("=", "="), (",", ","), ("_SEP", ";")):
        if terminal in trouble.accepted and sign != found.text and trouble.can_read([terminal], 1):
            before = trouble.text(trouble.clause_start, trouble.at)
            place = trouble.place
            trouble.tell(
                says.WRONG_SIGN,
                place,
                before=before,
                right=sign,
                found=found.text,
                mended=trouble.mended(sign, 1),
            )
            return Repair(((terminal, found),), 1)
    return None


def tell_bare_coordinates(trouble: Trouble) -> Repair | None:
    """`at 12 mm, 5 mm` for `at (12 mm, 5 mm)`."""
    start, at, end = trouble.clause_start, trouble.at, trouble.clause_end
    if trouble.found is None or not is_sign(trouble.found, ",") or trouble.marks[start].text != "at":
        return None
    if is_sign(trouble.marks[start + 1], "("):
        return None
    last = next((index for index in range(at, end) if trouble.marks[index].text == "from"), end)
    inside = f"{trouble.text(start + 1, at)}, {trouble.text(at + 1, last)}"
    mended = f"at ({inside}) {trouble.text(last, end)}".rstrip()
    trouble.tell(says.BARE_COORDINATES, trouble.span(start + 1, last), mended=mended)
    return PASS_OVER


def tell_one_coordinate(trouble: Trouble) -> Repair | None:
    """`at (12 mm)` for `at (12 mm, 0)`."""
    start, end = trouble.clause_start, trouble.clause_end
    marks = trouble.marks[start:end]
    if trouble.at != end or len(marks) < 4 or marks[0].text != "at" or not is_sign(marks[1], "("):
        return None
    if not is_sign(marks[-1], ")") or sum(is_sign(mark, ")") for mark in marks) != 1:
        return None
    text = trouble.text(start, end)
    trouble.tell(says.ONE_COORDINATE, trouble.span(start, end), text=text, mended=f"{text[:-1]}, 0)")
    return PASS_OVER


def tell_no_to(trouble: Trouble) -> Repair | None:
    """`outline: foot, heel, brow`, `foot - heel - brow`, `foot -> heel`."""
    words = [mark.text for mark in trouble.clause if mark.kind == "word"]
    signs = [mark.text for mark in trouble.clause if mark.kind != "word"]
    if trouble.word not in PATH_STATEMENTS or len(words) < 2 or set(words) & presume_tables().phrases:
        return None
    if signs and len(signs) < len(words) - 1:
        return None
    if not set(signs) <= {",", "-", ">"} or trouble.clause[0].kind != "word":
        return None
    place = trouble.span(trouble.clause_start, trouble.clause_end)
    trouble.tell(says.NO_TO, place, mended=shortened(" to ".join(words)))
    return PASS_OVER


def tell_three_points(trouble: Trouble) -> Repair | None:
    """`a..b..c` without `angle`."""
    start, at = trouble.at, trouble.at
    if trouble.found is None or trouble.found.text != "..":
        return None
    while start > trouble.clause_start and touching(trouble.marks[start - 1 : start + 1]):
        start -= 1
    if ".." not in [mark.text for mark in trouble.marks[start:at]]:
        return None
    end = min(at + 2, len(trouble.marks))
    while end < trouble.clause_end and touching(trouble.marks[end - 1 : end + 1]):
        end += 1
    text = trouble.text(start, end)
    trouble.tell(says.THREE_POINTS, trouble.span(start, end), text=text, mended=f"angle {text}")
    return PASS_OVER
