"""The words of a command line, parsed; what is wrong with them becomes a message of the catalogue.

argparse does the reading. Its own sentences speak of arguments and choices, so every one of them is
turned into what is so and what to write instead; and where it would stop at the first slip, all are told in one run.
A value is read by the `type` of its option, a function of a word that raises WrongUse (see values.py).
"""

from __future__ import annotations

import re
import sys
from argparse import SUPPRESS, Action, ArgumentParser, Namespace, RawDescriptionHelpFormatter
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from shutil import get_terminal_size
from textwrap import fill
from typing import Any, NoReturn, cast

from drafting.cli.commands import Command
from drafting.cli.exits import FINE, TAUGHT
from drafting.text.catalogue.files import (
    LACKING_WORDS,
    NOT_TOGETHER,
    OPTION_WITH_VALUE,
    OPTION_WITHOUT_VALUE,
    SPARE_WORD,
    UNKNOWN_OPTION,
    UNREADABLE_FILE,
)
from drafting.text.messages import Entry, Message, Messages, did_you_mean
from drafting.text.source import UnreadableSource


class WrongUse(Exception):
    """The command was used wrongly; `message` says how."""

    def __init__(self, entry: Entry, **facts: object) -> None:
        self.message = Message(entry, None, entry.says.format(**facts), entry.mend.format(**facts))
        super().__init__(self.message.says)


class WrongWords(Exception):
    """Words on the command line have faults in them; `messages` say which."""

    def __init__(self, messages: Messages) -> None:
        super().__init__("; ".join(message.says for message in messages))
        self.messages = messages


@contextmanager
def told_with(wrong: Messages) -> Iterator[None]:
    """Keep what is wrong with one word of a command, to tell it together with what is wrong with the others."""
    try:
        yield
    except WrongUse as fault:
        wrong.extend([fault.message])
    except WrongWords as faults:
        wrong.extend(faults.messages)
    except UnreadableSource as fault:
        wrong.add(UNREADABLE_FILE, at=None, file=fault.path, reason=fault.reason)


class CommandParser(ArgumentParser):
    """An argument parser that gathers what is wrong with the words instead of leaving the program."""

    def __init__(self, name: str, tells: str, examples: tuple[str, ...]) -> None:
        super().__init__(
            prog=f"awlwright {name}",
            description=fill(tells.replace("\n", " "), max(get_terminal_size().columns - 2, 40)),
            epilog="example:\n" + "\n".join(f"  {line}" for line in examples) + f"\n\n{TAUGHT}",
            formatter_class=RawDescriptionHelpFormatter,
            allow_abbrev=False,
            add_help=False,
        )
        self._positionals.title = "words"
        self.example = examples[0]
        self.excluding: list[tuple[str, ...]] = []
        self.agreements: list[Callable[[Namespace], None]] = []
        self.wrong = Messages()
        self.said: list[str] = []
        self.has_unknown = False
        self.add_argument("-h", "--help", action="help", default=SUPPRESS, help="show this page and stop")

    @property
    def option_actions(self) -> tuple[Action, ...]:
        return tuple(action for action in self._actions if action.option_strings)

    @property
    def option_names(self) -> tuple[str, ...]:
        """Each option in its long spelling."""
        return tuple(action.option_strings[-1] for action in self.option_actions)

    def read(self, words: Sequence[str]) -> Namespace:
        """What the words say. All that is wrong with them comes to stand in `wrong`; such a value is None."""
        given = Namespace()
        required = [action for action in self.option_actions if action.required]
        for action in required:
            action.required = False
        lacking: list[str] = []
        spare: list[str] = []
        try:
            _, spare = self.parse_known_intermixed_args(self.sound(words), given)
        except _Lacking as words_lacking:
            lacking = [str(words_lacking)]
        options = [action.option_strings[-1] for action in required]
        self.tell_lacking([name for name in options if name not in self.said] + lacking)
        self.tell_spare([unshielded(word) for word in spare])
        self.tell_excluding()
        given.said = tuple(self.said)
        for expect in self.agreements:
            with told_with(self.wrong):
                expect(given)
        return given

    def sound(self, words: Sequence[str]) -> list[str]:
        """The words as argparse cannot take them amiss: each value joined to its option, and without what is no
        option or has no value, which is told. A word after a `--` is shielded, for argparse forgets the `--` where
        options may mix in."""
        kept: list[str] = []
        waiting = list(words)
        while waiting:
            word = waiting.pop(0)
            if word == "--":
                return kept + [SHIELD + after for after in waiting]
            kept += self.sound_option(word, waiting) if looks_like_option(word) else [word]
        return kept

    def sound_option(self, word: str, waiting: list[str]) -> list[str]:
        """`word` and its value, which is taken from those `waiting`; nothing where it cannot stand."""
        option, equals, _ = word.partition("=")
        action = self._option_string_actions.get(option)
        self.said.append(option)
        if action is None:
            self.has_unknown = True
            self.tell(self.unknown_option(option))
        elif action.nargs == 0:
            if equals:
                self.tell(WrongUse(OPTION_WITH_VALUE, option=option))
            return [option]
        elif equals:
            return [word]
        elif waiting and is_value(waiting[0]):
            return [f"{option}={waiting.pop(0)}"]
        else:
            self.tell(WrongUse(OPTION_WITHOUT_VALUE, option=option, example=self.example))
        return []

    def _get_value(self, action: Action, arg_string: str) -> Any:
        """argparse asks this for the value of each word. Behind an unknown option nobody knows which word is which."""
        if not callable(action.type) or (self.has_unknown and not action.option_strings):
            return arg_string
        with told_with(self.wrong):
            return action.type(unshielded(arg_string))
        return None

    def error(self, message: str) -> NoReturn:
        """argparse has one complaint left that it could make."""
        found = re.search(r"arguments are required: (.*)", message)
        if found is None:
            raise AssertionError(f"argparse said something new: {message}")
        raise _Lacking(found[1])

    def tell(self, fault: WrongUse) -> None:
        self.wrong.extend([fault.message])

    def tell_lacking(self, lacking: Sequence[str]) -> None:
        if lacking and not self.has_unknown:
            facts = {"command": self.prog, "lacking": ", ".join(lacking), "example": self.example}
            self.tell(WrongUse(LACKING_WORDS, **facts))

    def tell_spare(self, spare: Sequence[str]) -> None:
        for word in () if self.has_unknown else spare:
            self.tell(WrongUse(SPARE_WORD, command=self.prog, word=word, example=self.example))

    def tell_excluding(self) -> None:
        for options in self.excluding:
            first, *others = [option for option in options if option in self.said] or [""]
            for other in others:
                self.tell(WrongUse(NOT_TOGETHER, first=first, second=other))

    def unknown_option(self, option: str) -> WrongUse:
        return WrongUse(
            UNKNOWN_OPTION,
            command=self.prog,
            option=option,
            known=", ".join(self.option_names),
            meant=did_you_mean(option, self.option_names),
        )


class _Lacking(Exception):
    """Names of words that are not there."""


def never_together(parser: ArgumentParser, *options: str) -> None:
    """At most one of `options` may be said."""
    cast(CommandParser, parser).excluding.append(options)


def expect_agreement(parser: ArgumentParser, expect: Callable[[Namespace], None]) -> None:
    """`expect` raises WrongUse where words do not go with each other. A value that could not be read is None to it;
    `said` holds the options that were said."""
    cast(CommandParser, parser).agreements.append(expect)


def looks_like_option(word: str) -> bool:
    """`-` alone, `-3` and `-a + b` are no options."""
    return bool(re.match(r"-(?!$|\d+$|\d*\.\d+$)", word)) and " " not in word.partition("=")[0]


def is_value(word: str) -> bool:
    """An amount below zero is a value, if a wrong one, and not the next option."""
    return not looks_like_option(word) or bool(re.match(r"-[.\d]", word))


def parser_of(name: str, module: Command) -> CommandParser:
    parser = CommandParser(name, module.TELLS, module.EXAMPLES)
    module.add_arguments(parser)
    return parser


def parse_words(name: str, module: Command, words: Sequence[str]) -> Namespace:
    """The words after the command's name. Options may stand before, between and after the others.

    WrongWords tells all that is wrong with them; whoever asks for help is not bothered with it.
    """
    parser = parser_of(name, module)
    if {"-h", "--help"} & set(words):
        parser.print_help()
        sys.exit(FINE)
    given = parser.read(words)
    if parser.wrong.has_errors:
        from drafting.cli.reading import also_wrong

        parser.wrong.extend(also_wrong(given))
        raise WrongWords(parser.wrong)
    return Namespace(**{key: unshielded(value) for key, value in vars(given).items()})


SHIELD = "\0"
"""In front of a word it keeps argparse from taking it for an option; no command line can hold one."""


def unshielded(value: Any) -> Any:
    if isinstance(value, list):
        return [unshielded(item) for item in value]
    return value.removeprefix(SHIELD) if isinstance(value, str) else value
