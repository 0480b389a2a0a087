"""Where `awlwright` starts: finds the command, runs it, and gives its exit code.

Nothing passes through here as a traceback. What went wrong with the words, the files or the pattern is a
message of the catalogue; what went wrong with the tool is one too, and says what to report.
"""

from __future__ import annotations

import gc
import os
import signal
import sys
from collections.abc import Sequence
from contextlib import suppress
from typing import NoReturn

from drafting.cli import terminal
from drafting.cli.commands import COMMANDS, command_module, overview
from drafting.cli.exits import BROKEN_PIPE, FINE, INTERRUPTED, WRONG_USE
from drafting.cli.failures import report_failure
from drafting.cli.words import WrongUse, parse_words
from drafting.text.catalogue.files import UNKNOWN_COMMAND, UNKNOWN_OPTION
from drafting.text.messages import did_you_mean
from drafting.version import VERSION

SELDOM = 50_000
"""So many things are made and kept before garbage is looked for. A command runs once and throws little away: with the
700 of the standard library it would look through all it holds again and again."""


def command() -> None:
    """The installed command; `python -m drafting` too."""
    gc.set_threshold(SELDOM)
    code = main(sys.argv[1:])
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # All is done or undone: a late Ctrl-C changes nothing.
    gc.freeze()  # What is held now goes with the process; it need not be looked through once more.
    if code == INTERRUPTED:
        leave_as_stopped()
    sys.exit(code)


def main(words: Sequence[str]) -> int:
    """Run one command line and give its exit code; whatever happens, no traceback is shown."""
    terminal.accept_any_character()
    try:
        code = run(words)
        sys.stdout.flush()
        return code
    except SystemExit as help_shown:
        return int(help_shown.code or FINE)
    except KeyboardInterrupt:
        print("\nawlwright: stopped; no file was changed", file=sys.stderr)
        return INTERRUPTED
    except BrokenPipeError:
        return leave_quietly()
    except Exception as failure:
        return report_failure(failure)


def run(words: Sequence[str]) -> int:
    if not words:
        print(overview(), file=sys.stderr)
        return WRONG_USE
    first, *rest = words
    if first in ("-h", "--help"):
        print(overview())
    elif first == "--version":
        print(f"awlwright {VERSION}")
    elif first in COMMANDS:
        module = command_module(first)
        return module.run(parse_words(first, module, rest))
    else:
        raise unknown_first_word(first)
    return FINE


def unknown_first_word(name: str) -> WrongUse:
    if name.startswith("-"):
        known = ("--help", "--version")
        option = name.split("=")[0]
        return WrongUse(
            UNKNOWN_OPTION,
            command="awlwright",
            option=option,
            known=", ".join(known),
            meant=did_you_mean(option, known),
        )
    return WrongUse(UNKNOWN_COMMAND, name=name, known=", ".join(COMMANDS), meant=did_you_mean(name, COMMANDS))


def leave_as_stopped() -> NoReturn:
    """Python kills itself at its end, so that the exit code is another one, where Ctrl-C came while some library ran a
    text of Python's."""
    for stream in (sys.stdout, sys.stderr):
        with suppress(OSError):
            stream.flush()
    os._exit(INTERRUPTED)


def leave_quietly() -> int:
    """The reader of a pipe went away: say nothing more, not even at the interpreter's end."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, sys.stdout.fileno())
    return BROKEN_PIPE
