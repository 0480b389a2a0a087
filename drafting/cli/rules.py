"""`awlwright rules [CODE…]`: what the rules of the workshop ask, why, and how one is allowed."""

from __future__ import annotations

import json
import sys
from argparse import ArgumentParser, Namespace
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any

from drafting.cli.exits import FINE
from drafting.cli.failures import unknown_name
from drafting.cli.terminal import page_of
from drafting.text.excerpt import Page, wrapped

if TYPE_CHECKING:
    from drafting.craft.rules.rule import Rule

TELLS = """\
Teach the rules of the workshop, by which `check` judges every pattern: what each asks, why, what backs it,
and how to allow it where it need not hold. Without a code all are listed."""
EXAMPLES = ("awlwright rules", "awlwright rules R08 R12", "awlwright rules --json")


def add_arguments(parser: ArgumentParser) -> None:
    parser.add_argument(
        "codes", metavar="CODE", nargs="*", type=known_code, help="the code of a rule, such as R08"
    )
    parser.add_argument(
        "--json",
        action="store_true",
        help="print a list of objects: code, severity, title, limit, reason, source, mark and allow",
    )


def run(given: Namespace) -> int:
    rules = chosen(given.codes)
    if given.json:
        print(json.dumps([record_of(rule) for rule in rules], indent=2, ensure_ascii=False))
    elif given.codes:
        print("\n\n".join("\n".join(lesson(rule, page_of(sys.stdout))) for rule in rules))
    else:
        print(overview(rules))
    return FINE


def chosen(codes: Sequence[str]) -> list[Rule]:
    """The rules with these codes; all of them for none."""
    from drafting.craft.rules import RULES

    known = {rule.code: rule for rule in RULES}
    return [known[code] for code in codes] or list(RULES)


def known_code(word: str) -> str:
    """The code of a rule, written in upper or lower case."""
    from drafting.craft.rules import RULES, nearest_code

    known = [rule.code for rule in RULES]
    if word.upper() not in known:
        raise unknown_name("rule", word, known, meant=nearest_code(word, known))
    return word.upper()


def overview(rules: Sequence[Rule]) -> str:
    rows = "\n".join(f"{rule.code}  {rule.severity.value:<7}  {rule.title}" for rule in rules)
    return (
        f"{rows}\n\n`awlwright rules {rules[0].code}` tells of one what it asks, why, and how it is allowed."
    )


def lesson(rule: Rule, page: Page) -> Iterator[str]:
    yield f"{page.paint('place', rule.code)} {page.paint(rule.severity.value, rule.severity.value)}: {rule.title}"
    yield from wrapped(rule.limit, page, lead="limit:  ")
    yield from wrapped(rule.reason, page, lead="reason: ")
    yield from wrapped(backing(rule), page, lead="source: ")
    yield from wrapped(
        f"`{allowing(rule)}` in a piece, or by itself for the whole item", page, lead="allow:  "
    )


def backing(rule: Rule) -> str:
    return f"{rule.source}; {rule.mark}"


def allowing(rule: Rule) -> str:
    return f'allow {rule.code} "the reason"'


def record_of(rule: Rule) -> dict[str, Any]:
    return {
        "code": rule.code,
        "severity": rule.severity.value,
        "title": rule.title,
        "limit": rule.limit,
        "reason": rule.reason,
        "source": rule.source,
        "mark": rule.mark,
        "allow": allowing(rule),
    }
