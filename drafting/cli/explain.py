"""`awlwright explain FILE NAME`: which facts put a point where it is, and what it depends on."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from drafting.cli.exits import FINE
from drafting.cli.reading import (
    add_blocks,
    add_pattern,
    add_size_and_measures,
    load_asked,
    settings_of,
    told_of_words,
)

TELLS = (
    "Tell which facts put a point where it is, which choice picked among its places, and what it depends on."
)
EXAMPLES = ("awlwright explain badge-holder.draft front.brow",)


def add_arguments(parser: ArgumentParser) -> None:
    add_pattern(parser)
    parser.add_argument("name", metavar="NAME", help="a point with its piece, such as front.brow")
    add_size_and_measures(parser)
    add_blocks(parser)


def run(given: Namespace) -> int:
    pattern = load_asked(given)
    with told_of_words(pattern):
        explained = pattern.explain_with(given.name, given.size, settings_of(given.settings))
    print(explained.rstrip("\n"))
    return FINE
