"""The words of a command line, parsed; what is wrong with them becomes a message of the catalogue.

argparse does the reading. Its own sentences speak of arguments and choices, so every one of them is
turned into what is so and what to write instead.
"""

from __future__ import annotations

import re
from argparse import SUPPRESS, Action, ArgumentParser, Namespace, RawDescriptionHelpFormatter
from collections.abc import Sequence
from itertools import takewhile
from shutil import get_terminal_size
from textwrap import fill
from typing import Any, NoReturn

from drafting.cli.commands import Command
from drafting.cli.exits import TAUGHT
from drafting.text.catalogue.files import (
    LACKING_WORDS,
    NOT_TOGETHER,
    OPTION_WITH_VALUE,
    OPTION_WITHOUT_VALUE,
    SPARE_WORD,
    UNKNOWN_OPTION,
)
from drafting.text.messages import Entry, Message, Messages, did_you_mean


class WrongUse(Exception):
    """The command was used wrongly; `message` says how."""

    def __init__(self, entry: Entry, **facts: object) -> None:
        self.message = Message(entry, None, entry.says.format(**facts), entry.mend.format(**facts))
        super().__init__(self.message.says)


class WrongWords(Exception):
    """An expression or a value on the command line has faults in it; `messages` say which."""

    def __init__(self, messages: Messages) -> None:
        super().__init__("; ".join(message.says for message in messages))
        self.messages = messages


class CommandParser(ArgumentParser):
    """An argument parser that raises WrongUse instead of leaving the program."""

    def __init__(self, name: str, tells: str, examples: tuple[str, ...]) -> None:
        super().__init__(
            prog=f"awlwright {name}",
            description=fill(tells.replace("\n", " "), max(get_terminal_size().columns - 2, 40)),
            epilog="example:\n" + "\n".join(f"  {line}" for line in examples) + f"\n\n{TAUGHT}",
            formatter_class=RawDescriptionHelpFormatter,
            allow_abbrev=False,
            add_help=False,
        )
        self.example = examples[0]
        self.add_argument("-h", "--help", action="help", default=SUPPRESS, help="show this page and stop")

    @property
    def option_actions(self) -> tuple[Action, ...]:
        return tuple(action for action in self._actions if action.option_strings)

    @property
    def option_names(self) -> tuple[str, ...]:
        """Each option in its long spelling."""
        return tuple(action.option_strings[-1] for action in self.option_actions)

    def error(self, message: str) -> NoReturn:
        raise self.wrong_use(message)

    def wrong_use(self, complaint: str) -> WrongUse:
        """What argparse complains of, in our words. Its four forms are matched; there are no others here."""
        if found := re.search(r"arguments are required: (.*)", complaint):
            return WrongUse(LACKING_WORDS, command=self.prog, lacking=found[1], example=self.example)
        if found := re.search(r"argument (\S+?)/?(--\S+)?: not allowed with argument (\S+)", complaint):
            return WrongUse(NOT_TOGETHER, first=found[3], second=found[1])
        if found := re.search(r"argument (\S+): expected", complaint):
            return WrongUse(OPTION_WITHOUT_VALUE, option=found[1], example=self.example)
        if found := re.search(r"argument (\S+): ignored explicit argument", complaint):
            return WrongUse(OPTION_WITH_VALUE, option=found[1].split("/")[-1])
        raise AssertionError(f"argparse said something new: {complaint}")

    def expect_known_options(self, words: Sequence[str]) -> None:
        """Asked first, for a misspelled option soon leaves another one lacking."""
        for word in words:
            option = word.split("=")[0]
            if looks_like_option(word) and option not in self._option_string_actions:
                raise self.unknown_option(option)

    def unknown_option(self, option: str) -> WrongUse:
        return WrongUse(
            UNKNOWN_OPTION,
            command=self.prog,
            option=option,
            known=", ".join(self.option_names),
            meant=did_you_mean(option, self.option_names),
        )

    def spare_word(self, word: str) -> WrongUse:
        return WrongUse(SPARE_WORD, command=self.prog, word=word, example=self.example)


def looks_like_option(word: str) -> bool:
    """As argparse judges it: `-` alone, `-3` and `-a + b` are no options."""
    return bool(re.match(r"-(?!$|\d+$|\d*\.\d+$)", word)) and " " not in word


def parser_of(name: str, module: Command) -> CommandParser:
    parser = CommandParser(name, module.TELLS, module.EXAMPLES)
    module.add_arguments(parser)
    return parser


def parse_words(name: str, module: Command, words: Sequence[str]) -> Namespace:
    """The words after the command's name. Options may stand before, between and after the others."""
    parser = parser_of(name, module)
    words = shielded(words)
    parser.expect_known_options(words)
    given, spare = parser.parse_known_intermixed_args(words)
    if spare:
        raise parser.spare_word(unshielded(spare[0]))
    return Namespace(**{key: unshielded(value) for key, value in vars(given).items()})


SHIELD = "\0"
"""In front of a word it keeps argparse from taking it for an option; no command line can hold one."""


def shielded(words: Sequence[str]) -> list[str]:
    """The words, each one after a `--` shielded: argparse forgets the `--` where options may mix in."""
    before = list(takewhile(lambda word: word != "--", words))
    return before + [SHIELD + word for word in words[len(before) + 1 :]]


def unshielded(value: Any) -> Any:
    if isinstance(value, list):
        return [unshielded(item) for item in value]
    return value.removeprefix(SHIELD) if isinstance(value, str) else value
