"""Every message is marked and every mark comes true; `pytest --update` writes the marks anew."""

from __future__ import annotations

import difflib
import re

import pytest

from drafting import face
from drafting.craft.rules.table import RULES
from drafting.text.catalogue import entries_of, model, shapes, solve
from drafting.text.messages import Messages
from drafting.text.source import Source
from tests.messages.marked import USED, Case, all_cases, write_cases

CASES = all_cases()


def check(source: Source) -> Messages:
    """All that is said of a pattern, in every size."""
    return face.read(source, folder=USED).check()


@pytest.fixture(scope="module", autouse=True)
def update(request: pytest.FixtureRequest) -> None:
    """With `--update` the marks are written before they are compared."""
    if request.config.getoption("--update"):
        write_cases([marked_anew(case) for case in CASES])
        CASES[:] = all_cases()


def marked_anew(case: Case) -> Case:
    """A case that brings the tool down keeps its marks, and its own test shows the fall."""
    try:
        return case.marked(check(case.source))
    except Exception:
        return case


@pytest.mark.parametrize("index", range(len(CASES)), ids=[case.name for case in CASES])
def test_every_message_is_marked_and_every_mark_comes_true(index: int) -> None:
    case = CASES[index]
    found = case.marked(check(case.source))
    changes = "\n".join(
        difflib.unified_diff(case.written.split("\n"), found.written.split("\n"), "marked", "said")
    )
    assert case.written == found.written, changes


@pytest.mark.parametrize("case", [case for case in CASES if case.has_mend], ids=lambda case: case.name)
def test_the_mend_when_typed_mends(case: Case) -> None:
    """What the workshop would say of it besides is told in the cases of the workshop alone."""
    left = [
        f"{message.code} {message.says}"
        for message in check(case.mended_source)
        if message.code[0] != "R" or case.file.stem == "workshop"
    ]
    assert left == []


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_no_message_shows_what_goes_on_inside(case: Case) -> None:
    """No key of the solver, no name of a type, no endless decimals: only what stands in the pattern, and amounts."""
    for message in check(case.source):
        text = " ".join([message.says, message.mend, *(related.says for related in message.related)])
        assert not re.search(INSIDE, strip_quotes(text, case))


INSIDE = r"[^\W\d]\w*/[^\W\d]\w*[:.@]|@\d|:line|:path|None|Traceback|<class|\de-\d\d|\d\.\d{7}"
"""Keys of the solver, places in the text by number, what Python says for itself, endless numbers."""


def strip_quotes(text: str, case: Case) -> str:
    """A message without what it quotes from the pattern."""
    written = " ".join(case.source.text.split())
    return re.sub(r"`([^`]*)`", lambda match: "" if match[1] in written else match[1], text)


def test_every_entry_of_the_catalogue_has_a_case() -> None:
    """An entry that nothing brings out is dead: it goes, or its way in is mended."""
    entries = {entry.code for room in ROOMS for entry in entries_of(room)} | {rule.code for rule in RULES}
    shown = {
        mark
        for case in CASES
        for line in case.lines
        for row in line.marks
        for mark in re.findall(r" ([A-Z]\d\d\d?) ", row)
    }
    assert sorted(entries - shown) == []


ROOMS = (model, shapes, solve)
"""The slips of the text are shown case by case in tests/syntax, what the trade cannot do in tests/craft."""


def test_no_message_is_said_twice_of_one_place() -> None:
    for case in CASES:
        said = [(message.at, message.says) for message in check(case.source)]
        assert len(said) == len(set(said)), case.name
