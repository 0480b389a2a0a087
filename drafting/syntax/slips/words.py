"""Slips with words and names."""

from __future__ import annotations

import re

from drafting.syntax.marks import Mark
from drafting.syntax.reading import phrases_by_word, read_mark
from drafting.syntax.slips.amounts import owner_of
from drafting.syntax.slips.trouble import (
    PASS_OVER,
    Repair,
    Trouble,
    is_sign,
    near_word,
    tell_hyphened,
    touching,
)
from drafting.syntax.tables import presume_tables
from drafting.syntax.vocabulary import CLAUSE_WORDS, INSTEAD
from drafting.text.catalogue import syntax as says

BOWS = ("bowed", "through", "about", "tangent", "along", "smooth")
SMALL_WORDS = ("of", "to", "the", "an", "with", "from", "is", "at", "by", "and", "in", "on", "for", "equals")
INSERTED = (
    "=",
    ":",
    ",",
    "by",
    "from",
    "to",
    "with",
    "and",
    "over",
    "of",
    "between",
    "round",
    "need",
    "at",
    "thick",
    "so",
    "uses",
    "as",
    "..",
)
"""What a statement may lack, where one of them alone makes it whole."""
QUOTED = {
    "size": "The title of a size",
    "pattern": "The title of a pattern",
    "use": "The name of a file",
    "step": "The text of a step",
    "allow": "The reason",
    "text": "What stands on the leather",
    "roster": "The column of a roster",
}
NAMED = {"fit": "measure", "find": "measure", "edition": "", "outline": ""}


def tell_reserved(trouble: Trouble) -> Repair | None:
    """`point above: …`."""
    found = trouble.found
    if found is None or found.kind != "word" or "NAME" not in trouble.accepted:
        return None
    word = found.text.rstrip("'")
    if word not in presume_tables().reserved:
        return None
    before = trouble.before
    is_named_here = trouble.at == 1 or (before is not None and before.text in ("as", "naming"))
    kind = NAMED.get(trouble.word, trouble.word)
    what = f"a {kind}".replace("a opening", "an opening") if is_named_here and kind else "anything"
    instead = INSTEAD.get(word, f"{word}_1")
    trouble.tell(says.RESERVED, word=word, what=what, instead=instead)
    return Repair((("NAME", found),), 1) if trouble.can_read(["NAME"], 1) else PASS_OVER


def tell_quoted_name(trouble: Trouble) -> Repair | None:
    """`point "brow": …`."""
    found = trouble.found
    if found is None or found.kind != "quote" or "NAME" not in trouble.accepted:
        return None
    if not trouble.can_read(["NAME"], 1):
        return None
    name = "_".join(re.findall(r"\w+", found.text)) or "name_1"
    trouble.tell(says.QUOTED_NAME, name=name)
    return Repair((("NAME", Mark("word", name, found.start, found.end)),), 1)


def tell_no_quotes(trouble: Trouble) -> Repair | None:
    """`size large: …`, `text FERRY`."""
    found = trouble.found
    if found is None or "STRING" not in trouble.accepted or found.kind not in ("word", "number"):
        return None
    end = trouble.at
    while end < trouble.clause_end and trouble.marks[end].text not in (":", "uses", "as"):
        end += 1
    text = trouble.text(trouble.at, end)
    before = trouble.before.text if trouble.before else ""
    what = QUOTED.get(before, f"What follows `{before}`")
    trouble.tell(
        says.NO_QUOTES,
        trouble.span(trouble.at, end),
        what=what,
        mended=trouble.mended(f'"{text}"', end - trouble.at),
    )
    quote = Mark("quote", text, found.start, trouble.marks[end - 1].end)
    return Repair((("STRING", quote),), end - trouble.at)


def tell_digit_first(trouble: Trouble) -> Repair | None:
    """`point 2nd: …`, `point 1: …`."""
    found = trouble.found
    if found is None or found.kind != "number" or "NAME" not in trouble.accepted or found.unit:
        return None
    taken = 1
    while trouble.at + taken < len(trouble.marks) and touching(
        trouble.marks[trouble.at : trouble.at + taken + 1]
    ):
        if trouble.marks[trouble.at + taken].kind not in ("word", "number"):
            break
        taken += 1
    text = trouble.text(trouble.at, trouble.at + taken)
    name = f"{trouble.word[:1]}{text}" if trouble.at == 1 else f"p{text}"
    place = trouble.span(trouble.at, trouble.at + taken)
    trouble.tell(says.DIGIT_FIRST, place, text=text, name=name)
    if not trouble.can_read(["NAME"], taken):
        return PASS_OVER
    return Repair((("NAME", Mark("word", name, place.start, place.end)),), taken)


def tell_hyphen_name(trouble: Trouble) -> Repair | None:
    """`measure turn-back = 32 mm`, `level with turn-back`."""
    at, marks = trouble.at, trouble.marks
    for hyphen in range(min(at, len(marks) - 2), max(at - 3, 0), -1):
        if not is_sign(marks[hyphen], "-") or not touching(marks[hyphen - 1 : hyphen + 2]):
            continue
        left, right = marks[hyphen - 1], marks[hyphen + 1]
        if left.kind == "word" and right.kind in ("word", "number"):
            start, end = hyphen - 1, hyphen + 2
            while end + 1 < len(marks) and is_sign(marks[end], "-") and touching(marks[end - 1 : end + 2]):
                end += 2
            tell_hyphened(trouble.messages, trouble.span(start, end))
            return Repair(taken=end - at) if hyphen == at and trouble.can_read([], end - at) else PASS_OVER
    return None


def tell_two_words(trouble: Trouble) -> Repair | None:
    """`point left heel: …`."""
    before, found = trouble.before, trouble.found
    if before is None or found is None or before.kind != "word" or found.kind != "word" or trouble.at < 2:
        return None
    end = trouble.at
    while end < len(trouble.marks) and trouble.marks[end].kind in ("word", "number"):
        end += 1
    if (
        end == len(trouble.marks)
        or not is_sign(trouble.marks[end], ":=")
        or not trouble.can_read([], end - trouble.at)
    ):
        return None
    text = trouble.text(trouble.at - 1, end)
    place = trouble.span(trouble.at - 1, end)
    trouble.tell(says.TWO_WORDS, place, text=text, joined="_".join(text.split()))
    return Repair(taken=end - trouble.at)


def tell_two_bows(trouble: Trouble) -> Repair | None:
    """`to b smooth through c bowed out 3 mm`."""
    found = trouble.found
    if found is None or found.text not in BOWS or "to" not in trouble.accepted:
        return None
    if "smooth" not in [mark.text for mark in trouble.marks[trouble.clause_start : trouble.at]]:
        return None
    trouble.tell(says.TWO_BOWS, bow=found.text)
    return PASS_OVER


def tell_lacking_along(trouble: Trouble) -> Repair | None:
    """`crease line: from heel round foot to brow`."""
    found = trouble.found
    if found is None or found.text != "from" or trouble.at != trouble.clause_start or not trouble.at:
        return None
    if "along" not in trouble.accepted or "to" not in [mark.text for mark in trouble.clause]:
        return None
    tell_lacks(trouble, "along")
    return Repair((("along", found),))


def tell_half_a_pair(trouble: Trouble) -> Repair | None:
    """`12 mm right heel`, `12 mm right from heel`, `level wiht foot`: a pair of which one word stands."""
    found = trouble.found
    if found is None or found.kind != "word":
        return None
    pairs = [words for words in phrases_by_word().get(found.text, ()) if " ".join(words) in trouble.accepted]
    seconds = [tuple(words.split()) for words in trouble.accepted if words.split()[1:2] == [found.text]]
    if not pairs and len(seconds) == 1 and trouble.at + 1 < len(trouble.marks):
        pairs = seconds
    for words in sorted(pairs, key=lambda words: words[-1] not in ("with", "of")):
        phrase = " ".join(words)
        taken = 2 if _is_second(trouble.marks[trouble.at + 1 : trouble.at + 2], words) else 1
        if len(words) > 1 and trouble.can_read([phrase], taken):
            tell_lacks(trouble, phrase, taken)
            return Repair(((phrase, found),), taken)
    return None


def _is_second(marks: list[Mark], words: tuple[str, ...]) -> bool:
    """Whether the mark stands where the pair's second word should: another small word, or that word
    misspelled.
    """
    if not marks or marks[0].kind != "word":
        return False
    return marks[0].text in SMALL_WORDS or near_word(marks[0].text, [words[1]]) is not None


def tell_half_a_pair_before(trouble: Trouble) -> Repair | None:
    """`level foot`, `plumb to foot`: the first word of a pair was taken for a name or for another word."""
    before, found = trouble.before, trouble.found
    start = trouble.clause_start
    if before is None or not start or trouble.at != start + 1 or before.kind != "word":
        return None
    for words in phrases_by_word().get(before.text, ()):
        if len(words) == 1 or found is None or " ".join(words) not in trouble.clause_words:
            continue
        taken = 1 if _is_second([found], words) else 0
        is_whole = bool(taken) and found.text not in SMALL_WORDS
        follows = trouble.marks[trouble.at + taken : trouble.at + taken + 1]
        if is_whole or (follows and follows[0].kind == "word"):
            mended = trouble.mended(" ".join(words), taken, back=1)
            place = trouble.span(start, trouble.clause_end)
            trouble.tell(
                says.LACKS, place, text=trouble.text(start, trouble.clause_end), what="a word", mended=mended
            )
            return PASS_OVER
    return None


def tell_misspelled(trouble: Trouble) -> Repair | None:
    """`12 mm abvoe heel`, `14 mm length`: no such word here, but one that is near."""
    found = trouble.found
    if found is None or found.kind != "word":
        return None
    known = [word for word in trouble.accepted if word[:1].islower()]
    meant = CLAUSE_WORDS.get(found.text)
    near = meant if meant in known else near_word(found.text, known)
    if near is None or near.split()[0] == found.text:
        return None
    taken = 2 if trouble.marks[trouble.at + 1 : trouble.at + 2] and stands_second(trouble, near) else 1
    trouble.tell(says.MISSPELLED, word=found.text, near=trouble.mended(near, taken))
    return Repair(((near, found),), taken) if trouble.can_read([near], taken) else PASS_OVER


def stands_second(trouble: Trouble, phrase: str) -> bool:
    return phrase.split()[1:2] == [trouble.marks[trouble.at + 1].text]


def tell_misspelled_before(trouble: Trouble) -> Repair | None:
    """`levle with heel`: the first word of the clause was taken for a name."""
    start = trouble.clause_start
    before = trouble.before
    if (
        start == 0
        or trouble.at != start + 1
        or before is None
        or before.kind != "word"
        or trouble.found is None
    ):
        return None
    known = trouble.clause_words
    meant = CLAUSE_WORDS.get(before.text)
    pairs = [phrase for phrase in known if phrase.split()[1:2] == [trouble.found.text]]
    near = near_word(before.text, pairs)
    near = near or (meant if meant in known else near_word(before.text, known))
    if near is None or near.split()[0] == before.text:
        return None
    taken = 1 if near.split()[1:2] == [trouble.found.text] else 0
    mended = trouble.mended(near, taken, back=1)
    trouble.tell(says.MISSPELLED, trouble.span(start, start + 1), word=before.text, near=mended)
    return PASS_OVER


SIDES = ("right of", "left of", "above", "below", "from")


def tell_capitals(trouble: Trouble) -> Repair | None:
    """`AT (0, 0)`, `12 mm Above foot`."""
    for at in range(trouble.clause_start, min(trouble.at + 1, len(trouble.marks))):
        mark = trouble.marks[at]
        small = mark.text.casefold()
        words = {phrase.split()[0] for phrase in (*trouble.clause_words, *trouble.accepted)}
        if mark.kind == "word" and small != mark.text and small in words:
            trouble.tell(says.CAPITALS, trouble.span(at, at + 1), small=small)
            return PASS_OVER
    return None


def tell_to_the_side(trouble: Trouble) -> Repair | None:
    """`12 mm to the right of heel`."""
    text = trouble.text(trouble.clause_start, trouble.clause_end)
    found = re.search(r" (to the|to|on the) (?=(?:right|left) of )", text)
    if (
        found is None
        or trouble.found is None
        or trouble.found.text not in ("the", "to", "on", "right", "left")
    ):
        return None
    mended = f"{text[: found.start()]} {text[found.end() :]}"
    place = trouble.span(trouble.clause_start, trouble.clause_end)
    trouble.tell(says.TOO_MANY, place, text=text, word=found[1], mended=mended)
    return PASS_OVER


def tell_amount_behind(trouble: Trouble) -> Repair | None:
    """`right of foot 12 mm`, `above heel rim`."""
    start, at, end = trouble.clause_start, trouble.at, trouble.clause_end
    side = next((side for side in SIDES if trouble.text(start, at).startswith(side + " ")), None)
    is_amount = trouble.found is not None and trouble.found.kind in ("number", "word") and at < end
    if side is None or not is_amount or at != start + len(side.split()) + 1:
        return None
    if trouble.found and trouble.found.text in (*SMALL_WORDS, *CLAUSE_WORDS):
        return None
    text = trouble.text(start, end)
    mended = f"{trouble.text(at, end)} {trouble.text(start, at)}"
    trouble.tell(
        says.AMOUNT_FIRST, trouble.span(start, end), owner=owner_of(trouble.word), text=text, mended=mended
    )
    return PASS_OVER


CENTRE = re.compile(r"(?:in|at|on) (?:the )?(?:centre|center|middle)(?: of (?:the )?([^\W\d][\w.]*))?")


def tell_in_the_centre(trouble: Trouble) -> Repair | None:
    """`hole eye: in the centre`, `at the middle of view`."""
    start, end = trouble.clause_start, trouble.clause_end
    text = trouble.text(start, end)
    found = CENTRE.fullmatch(text)
    if found is None:
        return None
    what = "in the words of the language which centre" if found[1] else "of what"
    trouble.tell(says.NO_CENTRE, trouble.span(start, end), text=text, what=what, of=found[1] or "outline")
    return PASS_OVER


def tell_word_too_many(trouble: Trouble) -> Repair | None:
    """`hold a..b parallel to c..d`."""
    found = trouble.found
    if found is None or found.text not in SMALL_WORDS or trouble.at + 1 >= len(trouble.marks):
        return None
    if not trouble.can_read([], 1):
        return None
    text = trouble.text(trouble.clause_start, trouble.clause_end)
    trouble.tell(says.TOO_MANY, text=text, word=found.text, mended=trouble.mended("", 1))
    return Repair(taken=1)


def tell_name_too_many(trouble: Trouble) -> Repair | None:
    """`12 mm above of heel`, `at the heel`: the small word was taken for a name."""
    name = trouble.name_before
    if name is None or name not in (*SMALL_WORDS, "point") or trouble.found is None:
        return None
    text = trouble.text(trouble.clause_start, trouble.clause_end)
    place = trouble.span(trouble.at - 1, trouble.at)
    trouble.tell(says.TOO_MANY, place, text=text, word=name, mended=trouble.mended("", 0, back=1))
    return PASS_OVER


RUN_NAME = r"[^\W\d][\w.']*"
RUN_NAMES = rf"{RUN_NAME}(?:, {RUN_NAME})*"
RUN = re.compile(rf"from (?P<start>{RUN_NAME})(?P<ways>(?: (?:to|round) {RUN_NAMES}){{2,}})")


def tell_run_order(trouble: Trouble) -> Repair | None:
    """`from a to b to c`, `from a to c round b`, `from a to b round c to d`: what is passed comes before the end."""
    text = trouble.text(trouble.clause_start, trouble.clause_end)
    run = RUN.search(text)
    if trouble.found is None or trouble.found.text not in ("to", "round") or run is None:
        return None
    if not trouble.text(trouble.clause_start, trouble.at).startswith(text[: run.start("ways")] + " to "):
        return None
    ways = re.findall(rf"(to|round) ({RUN_NAMES})", run["ways"])
    last = max(index for index, (word, _) in enumerate(ways) if word == "to")
    passed = ", ".join(names for index, (_, names) in enumerate(ways) if index != last)
    mended = f"from {run['start']} round {passed} to {ways[last][1]}{text[run.end() :]}"
    trouble.tell(
        says.WRONG_SIGN,
        trouble.span(trouble.clause_start, trouble.clause_end),
        before=f"from {run['start']}",
        right="round",
        found="to",
        mended=text[: run.start()] + mended,
    )
    return PASS_OVER


def tell_wrong_word(trouble: Trouble) -> Repair | None:
    """`between 6 mm to 10 mm`, `join a and b`: another word stands where only one would do."""
    found = trouble.found
    if found is None or found.kind != "word" or trouble.at < 2:
        return None
    fitting = [word for word in trouble.accepted if word in INSERTED and trouble.can_read([word], 1)]
    if len(fitting) != 1 or (found.text not in (*SMALL_WORDS, "x") and not _is_stray(trouble)):
        return None
    if fitting == [":"] and trouble.can_read([":"]) and not _is_name_in(trouble, [":"]):
        tell_lacks(trouble, ":")
        return Repair(((":", found),))
    before = trouble.text(trouble.clause_start, trouble.at)
    mended = trouble.mended(fitting[0], 1)
    trouble.tell(says.WRONG_SIGN, before=before, right=fitting[0], found=found.text, mended=mended)
    return Repair(((fitting[0], found),), 1)


def _is_stray(trouble: Trouble) -> bool:
    """Whether the word found cannot be what comes behind a lacking one."""
    found = trouble.found
    return found is not None and trouble.at + 1 < trouble.clause_end and found.text in CLAUSE_WORDS


def tell_lacking(trouble: Trouble) -> Repair | None:
    """One word or sign is missing, and only one would do: `fillet heel 6 mm`, `point brow level with heel`."""
    found = trouble.found
    if found is None or found.text in SMALL_WORDS or (trouble.at < 2 and trouble.word != "outline"):
        return None
    fitting = [word for word in trouble.accepted if word in INSERTED and trouble.can_read([word])]
    if not fitting and trouble.can_read_clause(["_SEP"]) and not _is_name_in(trouble, ["_SEP"]):
        fitting = ["_SEP"]
    is_first = trouble.at == trouble.clause_start
    if fitting == [","] and _is_bare_before_word(trouble):
        return None
    if len(fitting) != 1 or (is_first and fitting[0] != "need"):
        return None
    tell_lacks(trouble, ";" if fitting == ["_SEP"] else fitting[0])
    return Repair(((fitting[0], found),))


def _is_bare_before_word(trouble: Trouble) -> bool:
    """`3 mm, 3 mn`: what lacks is a unit, not a comma."""
    before, found = trouble.before, trouble.found
    if before is None or found is None or before.kind != "number" or before.unit:
        return False
    return found.kind == "word"


def _is_name_in(trouble: Trouble, terminals: list[str]) -> bool:
    """Whether the mark would be read as a name once `terminals` are read."""
    accepts = trouble.machine.ahead(terminals).accepts
    return read_mark(trouble.marks, trouble.at, accepts)[0] == "NAME"


def tell_lacking_from(trouble: Trouble) -> Repair | None:
    """`run wall: brow to heel`, `3 mm inside brow round foot to heel`."""
    name, found = trouble.name_before, trouble.found
    if name is None or found is None or found.text not in ("to", "round") or trouble.at < 2:
        return None
    if trouble.word != "run" and trouble.marks[trouble.at - 2].text not in ("inside", "outside", "along"):
        return None
    mended = trouble.mended(f"from {name}", 0, back=1)
    place = trouble.span(trouble.at - 1, trouble.at + 1)
    text = trouble.text(trouble.clause_start, trouble.clause_end)
    trouble.tell(says.LACKS, place, text=text, what="a word", mended=mended)
    return PASS_OVER


def tell_lacks(trouble: Trouble, words: str, taken: int = 0) -> None:
    what = {":": "its colon", "=": "its `=`", ",": "a comma"}.get(
        words, "a word" if words.isalpha() else f"a `{words}`"
    )
    what = "a word" if " " in words else what
    start = trouble.clause_start
    place = trouble.span(start, min(trouble.at + max(taken, 1), len(trouble.marks)))
    text = trouble.text(start, trouble.clause_end)
    trouble.tell(says.LACKS, place, text=text, what=what, mended=trouble.mended(words, taken))
