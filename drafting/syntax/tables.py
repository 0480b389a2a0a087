"""The tables that lark makes of pattern.lark.

Takes the grammar and gives Tables: for each state what each terminal does there. Lark needs half a second to
work them out, so they are kept beside the grammar in tables.json, with the grammar's digest. When the digest
does not match, the tables are worked out anew and nothing is written. `python -m drafting.syntax.tables`
writes the file.
"""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Any, cast

from drafting.syntax.grammar import grammar_text, source_folder
from drafting.text.quantities import UNITS

if TYPE_CHECKING:
    from lark.grammar import Rule
    from lark.parsers.lalr_analysis import ParseTableBase

STARTS = ("file", "expression", "setting_value")
END = "$END"

Child = tuple[int, bool]
"""Which symbol of a rule is handed on (-1: an optional one that is absent), and whether its children are,
instead.
"""


@dataclass(frozen=True, slots=True)
class Production:
    """One way to build `origin` from `size` symbols; `name` is what its node is built by."""

    origin: str
    name: str
    size: int
    children: tuple[Child, ...]
    is_transparent: bool
    """The node of a single child is that child itself."""


@dataclass(frozen=True)
class Tables:
    """What to do in each state.

    `actions` say it for a terminal: go to a state (0 and up), or apply the production whose number is `-1 -
    action`. `gotos` say where to go once a rule is finished. A word of the language is its own terminal.
    """

    actions: tuple[dict[str, int], ...]
    gotos: tuple[dict[str, int], ...]
    productions: tuple[Production, ...]
    starts: dict[str, int]
    ends: dict[str, int]
    phrases: frozenset[str]
    """The words and signs of the language: `right of`, `=`, `mm`."""
    reserved: frozenset[str]
    """The words that cannot be names."""


@lru_cache(maxsize=1)
def presume_tables() -> Tables:
    """The tables of pattern.lark, from tables.json when that is of the same grammar."""
    digest = _digest(grammar_text("pattern.lark"))
    try:
        data = json.loads(grammar_text("tables.json"))
    except (OSError, ValueError):
        data = {}
    if data.get("grammar") != digest:
        data = table_data()
    return _tables(data)


def _digest(text: str) -> str:
    return hashlib.sha256(text.encode("utf-8")).hexdigest()


def _tables(data: dict[str, Any]) -> Tables:
    terminals, rules = data["terminals"], data["rules"]
    return Tables(
        tuple({terminals[at]: action for at, action in zip(*row[:2], strict=True)} for row in data["states"]),
        tuple({rules[at]: state for at, state in zip(*row[2:], strict=True)} for row in data["states"]),
        tuple(
            Production(origin, name, size, tuple((at, inline) for at, inline in children), transparent)
            for origin, name, size, children, transparent in data["productions"]
        ),
        data["starts"],
        data["ends"],
        frozenset(data["phrases"]),
        frozenset(data["reserved"]),
    )


def table_data() -> dict[str, Any]:
    """Lark's tables of the grammar, in plain lists for JSON."""
    from lark import Lark
    from lark.parsers.lalr_analysis import Shift
    from lark.parsers.lalr_parser import LALR_Parser

    grammar = grammar_text("pattern.lark")
    lark = Lark(grammar, parser="lalr", lexer="basic", start=list(STARTS), maybe_placeholders=True)
    parser = lark.parser.parser
    assert isinstance(parser, LALR_Parser)
    table = cast("ParseTableBase[int]", parser._parse_table)
    order = _walked(table, list(STARTS))
    number = {state: index for index, state in enumerate(order)}
    phrases = {terminal.name: terminal.pattern.value for terminal in lark.terminals}
    productions = sorted(lark.rules, key=lambda rule: (rule.origin.name, rule.order, str(rule.expansion)))
    numbers = {rule: -1 - index for index, rule in enumerate(productions)}
    origins = {rule.origin.name for rule in lark.rules}
    rows = [
        (
            {
                phrases.get(symbol, symbol): number[arg] if action is Shift else numbers[arg]
                for symbol, (action, arg) in row.items()
                if symbol not in origins
            },
            {symbol: number[arg] for symbol, (_, arg) in row.items() if symbol in origins},
        )
        for row in (table.states[state] for state in order)
    ]
    terminals = sorted({terminal for actions, _ in rows for terminal in actions})
    rules = sorted(origins)
    return {
        "grammar": _digest(grammar),
        "starts": {start: number[state] for start, state in table.start_states.items()},
        "ends": {start: number[state] for start, state in table.end_states.items()},
        "phrases": sorted(phrases.values()),
        "reserved": sorted(_reserved(rows, set(phrases.values()))),
        "terminals": terminals,
        "rules": rules,
        "productions": [_production(rule) for rule in productions],
        "states": [[*_columns(actions, terminals), *_columns(gotos, rules)] for actions, gotos in rows],
    }


def _walked(table: ParseTableBase[int], starts: list[str]) -> list[int]:
    """The states in the order they are met from the starts on: lark numbers them as its hashes fall."""
    from lark.parsers.lalr_analysis import Shift

    order = [table.start_states[start] for start in starts]
    met = set(order)
    for state in order:
        for _, (action, arg) in sorted(table.states[state].items(), key=lambda entry: entry[0]):
            if action is Shift and arg not in met:
                met.add(arg)
                order.append(arg)
    return order


def _reserved(rows: list[tuple[dict[str, int], dict[str, int]]], phrases: set[str]) -> set[str]:
    """The words that may stand where a name may stand, and with them the units and `to`, which begins a line."""
    words = {phrase for phrase in phrases if phrase.isalpha()}
    return {"to", "deg", *UNITS}.union(*(words & actions.keys() for actions, _ in rows if "NAME" in actions))


def _columns(row: dict[str, int], symbols: list[str]) -> tuple[list[int], list[int]]:
    """A row as the numbers of its symbols and what stands under them."""
    places = {symbol: index for index, symbol in enumerate(symbols)}
    listed = sorted((places[symbol], value) for symbol, value in row.items())
    return [place for place, _ in listed], [value for _, value in listed]


def _production(rule: Rule) -> list[Any]:
    """What lark's own tree builder would hand to the node of this rule."""
    children: list[Child] = []
    absent = list(rule.options.empty_indices) or [False] * len(rule.expansion)
    symbols = iter(enumerate(rule.expansion))
    for is_absent in absent:
        if is_absent:
            children.append((-1, False))
            continue
        at, symbol = next(symbols)
        if symbol.is_term and getattr(symbol, "filter_out", False) and not rule.options.keep_all_tokens:
            continue
        children.append((at, not symbol.is_term and symbol.name.startswith("_")))
    name = rule.alias or rule.origin.name
    is_transparent = bool(rule.options.expand1) and not rule.alias
    return [rule.origin.name, name, len(rule.expansion), children, is_transparent]


def tables_text() -> str:
    """tables.json: one line for each state and production, so that changes can be read."""
    data = table_data()
    lines = []
    for key, value in data.items():
        if key in ("states", "productions"):
            rows = ",\n".join(json.dumps(row, separators=(",", ":")) for row in value)
            lines.append(f'"{key}": [\n{rows}\n]')
        else:
            lines.append(f'"{key}": {json.dumps(value, ensure_ascii=False, sort_keys=True)}')
    return "{\n" + ",\n".join(lines) + "\n}\n"


if __name__ == "__main__":
    (source_folder() / "tables.json").write_text(tables_text(), encoding="utf-8")
