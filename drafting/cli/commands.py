"""The list of commands, and the help that opens them.

A command is a module of this room with `TELLS`, `EXAMPLES`, `add_arguments` and `run`; only
the one that is asked for is imported.
"""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from importlib import import_module
from typing import Protocol, cast

from drafting.cli.exits import TAUGHT

COMMANDS = {
    "new": "start a pattern from a starter",
    "check": "report every fault of pattern files, each with its mend",
    "draw": "write true-to-size drawings, measured again before they count",
    "print": "write true-size sheets for any printer, as a PDF",
    "template": "write templates of card or acrylic to trace round",
    "cut": "write files for a laser or a drawn blade, layer by layer",
    "booklet": "write what is to be read beside the sheets: lists, steps, sewing, cautions",
    "proof": "hold files that were written against their pattern as it is now",
    "lay": "lay the parts of many copies on panels, rolls and hides",
    "measure": "print what a length, an area or an angle comes to",
    "list": "list the parts, leather, hardware, thread and costs of a batch",
    "sizes": "chart every size, and a sweep of measures, with the rules each keeps",
    "explain": "tell which facts put a point where it is",
    "rules": "teach the rules of the workshop, and how to allow one",
    "roster": "engrave stamps and print cards, one set for each row of a table",
    "tidy": "lay out pattern files the tidy way",
    "completion": "print what lets a shell complete these commands",
}


class Command(Protocol):
    """What a module of a command holds."""

    TELLS: str
    EXAMPLES: tuple[str, ...]

    def add_arguments(self, parser: ArgumentParser) -> None: ...

    def run(self, given: Namespace) -> int: ...


def command_module(name: str) -> Command:
    return cast(Command, import_module(f"drafting.cli.{name}"))


def overview() -> str:
    """What `awlwright --help` prints."""
    rows = "\n".join(f"  {name:<11} {summary}" for name, summary in COMMANDS.items())
    return f"""\
usage: awlwright COMMAND ...

Drafts leather patterns from a text: checks it, places it, draws it true to size.

commands:
{rows}

options:
  --help      this page; `awlwright COMMAND --help` tells about one command
  --version   the version of the tool

example:
  awlwright new tool-roll --from tool-roll
  awlwright draw tool-roll.draft --out drawings

{TAUGHT}"""
