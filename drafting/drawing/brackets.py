"""Which way brackets run in a line of words that run both ways: rule N0 of Unicode's UAX 9, which python-bidi's steps
lack.

It comes between the weak and the neutral types. Both brackets of a pair run as what stands between them does if that
runs with the line, else as what stands before them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any
from unicodedata import category

MOST_OPEN = 63
"""Brackets that may be open at a time; with more none is paired (UAX 9, BD16)."""
STRONG = {"L": "L", "R": "R", "EN": "R", "AN": "R"}
"""Numbers count as running to the left here."""

Sign = dict[str, Any]
"""A letter of python-bidi: what it is, its type as resolved so far and as it was, its level."""


def resolve_brackets(storage: Mapping[str, Any]) -> None:
    """Give the brackets of each run the type that rule N0 says."""
    for run in storage["runs"]:
        signs = storage["chars"][run["start"] : run["start"] + run["length"]]
        for opening, closing in sorted(_pairs(signs)):
            _resolve(signs, opening, closing, run["sor"])


def _pairs(signs: Sequence[Sign]) -> list[tuple[int, int]]:
    """Where a bracket opens, and where it is closed by its like."""
    from bidi.mirror import MIRRORED

    waiting: list[tuple[str, int]] = []
    found: list[tuple[int, int]] = []
    for at, sign in enumerate(signs):
        letter = sign["ch"]
        if sign["type"] != "ON" or letter not in MIRRORED:
            continue
        if category(letter) == "Ps":
            waiting.append((MIRRORED[letter], at))
            if len(waiting) > MOST_OPEN:
                return []
        elif category(letter) == "Pe":
            like = [number for number, (wanted, _) in enumerate(waiting) if wanted == letter]
            if like:
                found.append((waiting[like[-1]][1], at))
                del waiting[like[-1] :]
    return found


def _resolve(signs: Sequence[Sign], opening: int, closing: int, before: str) -> None:
    inside = set(_strong(signs[opening + 1 : closing]))
    own = "LR"[signs[opening]["level"] % 2]
    if not inside:
        return
    way = own if own in inside else next(_strong(reversed(signs[:opening])), before)
    for at in (opening, closing):
        signs[at]["type"] = way
        for mark in signs[at + 1 :]:
            if mark["orig"] != "NSM":
                break
            mark["type"] = way


def _strong(signs: Iterable[Sign]) -> Iterator[str]:
    yield from (STRONG[sign["type"]] for sign in signs if sign["type"] in STRONG)
