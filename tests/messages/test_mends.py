"""What a mend says can be typed as it stands: typed by the test where it can be done without judgement.

Where a mend gives the very words, they are put in place of what was marked, or behind it; then the message is gone.
"""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest

from drafting import face
from drafting.text.messages import Message
from drafting.text.source import Source
from tests.messages.marked import USED, Case, all_cases

Mend = Callable[[str, Message], str]


def quoted(message: Message) -> str:
    """The first thing in the mend that can be typed."""
    found = re.search(r"`([^`]+)`", message.mend)
    assert found, message.mend
    return found[1]


def amounts(message: Message) -> str:
    found = re.search(r"(?:is|Take) (\d[\d.]* mm(?: and \d[\d.]* mm)?)", message.mend)
    assert found, message.mend
    return found[1]


def instead(text: str, message: Message, words: str) -> str:
    """The text with other words where the message points."""
    assert message.at
    return text[: message.at.start] + words + text[message.at.end :]


def in_line(text: str, message: Message, change: Callable[[str], str]) -> str:
    """The text with the line changed that the message points at."""
    assert message.at
    lines = text.split("\n")
    lines[message.at.line - 1] = change(lines[message.at.line - 1])
    return "\n".join(lines)


def put_instead(text: str, message: Message) -> str:
    return instead(text, message, quoted(message))


def add_clause(text: str, message: Message) -> str:
    return in_line(text, message, lambda line: f"{line}; {quoted(message)}")


def take_clause_out(text: str, message: Message) -> str:
    assert message.at
    clause = message.at.text
    return in_line(text, message, lambda line: line.replace(f"; {clause}", "").replace(f"{clause}; ", ""))


def other_size(text: str, message: Message) -> str:
    return in_line(text, message, lambda line: re.sub(r"by \S.*$", f"by {amounts(message)}", line))


def other_bow(text: str, message: Message) -> str:
    assert message.at
    return instead(text, message, re.sub(r"\d[\d.]* mm$", amounts(message), message.at.text))


def other_side(text: str, message: Message) -> str:
    assert message.at
    side = re.search(r"no side `(.+?)`", message.says)
    assert side
    return instead(
        text, message, message.at.text.replace(f" {side[1]} ", f" {quoted(message).removeprefix('bowed ')} ")
    )


def other_names(text: str, message: Message) -> str:
    assert message.at
    return instead(text, message, re.sub(r"naming .*", quoted(message), message.at.text))


def nearest_name(text: str, message: Message) -> str:
    assert message.at
    missing = re.search(r"`([^`]+)`", message.says)
    assert missing
    return instead(text, message, message.at.text.replace(missing[1], quoted(message)))


MENDS: dict[str, Mend] = {
    "M01": nearest_name,
    "M02": put_instead,
    "M03": put_instead,
    "M04": put_instead,
    "M14": take_clause_out,
    "M15": add_clause,
    "M16": take_clause_out,
    "M28": put_instead,
    "M48": take_clause_out,
    "P03": put_instead,
    "P06": other_size,
    "P08": other_bow,
    "P09": other_bow,
    "P10": other_side,
    "P20": add_clause,
    "P32": other_names,
    "P45": put_instead,
    "P47": put_instead,
    "S01": add_clause,
    "S06": take_clause_out,
    "S09": add_clause,
    "S11": take_clause_out,
}
JUDGED = ("Say what", "Add it", "Name", "No size fits", "There are", "Add for instance `to ")
"""Mends that leave the maker a choice, or say to take something away."""


def messages_of(case: Case) -> list[Message]:
    messages = face.read(case.source, folder=USED).check()
    return [m for m in messages if m.code in MENDS and not m.sizes and not m.mend.startswith(JUDGED)]


CASES = [(case, index) for case in all_cases() for index in range(len(messages_of(case)))]


@pytest.mark.parametrize(
    ("case", "index"), CASES, ids=lambda each: each.name if isinstance(each, Case) else str(each)
)
def test_what_the_mend_says_is_typed_and_the_message_is_gone(case: Case, index: int) -> None:
    message = messages_of(case)[index]
    mended = MENDS[message.code](case.source.text, message)
    assert mended != case.source.text
    left = [
        (other.code, other.says) for other in face.read(Source(case.source.name, mended), folder=USED).check()
    ]
    assert (message.code, message.says) not in left
