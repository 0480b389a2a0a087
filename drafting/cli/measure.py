"""`awlwright measure FILE EXPR…`: what lengths, areas, angles and counts come to."""

from __future__ import annotations

import json
from argparse import ArgumentParser, Namespace
from typing import TYPE_CHECKING

from drafting.cli.amounts import readable
from drafting.cli.exits import FINE
from drafting.cli.reading import add_blocks, add_pattern, add_size_and_measures, load_asked, place_named
from drafting.cli.words import WrongWords, told_with
from drafting.text.messages import Messages

if TYPE_CHECKING:
    from drafting.face import Measured, PlacedPattern

TELLS = """\
Print what expressions of the pattern language come to: `front.heel..front.brow`, `back.outline.area`,
`angle back.a..back.b..back.c`, `2*rim + card_w`. Readable in the units that the pattern shows."""
EXAMPLES = (
    "awlwright measure badge-holder.draft front.width front.heel..front.brow",
    "awlwright measure badge-holder.draft back.outline.area --size visitor --with 'rim=10 mm'",
)


def add_arguments(parser: ArgumentParser) -> None:
    add_pattern(parser)
    parser.add_argument(
        "expressions", metavar="EXPR", nargs="+", help="what to measure, in the pattern language"
    )
    add_size_and_measures(parser)
    add_blocks(parser)
    parser.add_argument(
        "--json",
        action="store_true",
        help="print a list of objects: expr, value and unit, unrounded, in mm, mm2 or deg",
    )


def run(given: Namespace) -> int:
    placed = place_named(load_asked(given), given.size, given.settings)
    wrong, pairs = Messages(), []
    for expression in given.expressions:
        with told_with(wrong):
            pairs.append((expression, measure(placed, expression)))
    if wrong.has_errors:
        raise WrongWords(wrong)
    if given.json:
        print(json.dumps([{"expr": text, "value": m.value, "unit": m.unit} for text, m in pairs], indent=2))
    else:
        for text, m in pairs:
            print(f"{text} = {readable(m.value, m.unit, placed.show)}")
    return FINE


def measure(placed: PlacedPattern, expression: str) -> Measured:
    """The pattern is placed and so without a fault: what is wrong now is wrong with the expression."""
    import drafting

    try:
        return placed.measure(expression)
    except drafting.Faults as faults:
        raise WrongWords(faults.messages) from None
