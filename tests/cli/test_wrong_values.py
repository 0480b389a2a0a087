"""Every option of every command, given what it does not take: told with its mend, in one run, and nothing on the disk.

A new option fails here until its wrong values are written down.
"""

from __future__ import annotations

import re
import shlex
from argparse import Action
from pathlib import Path

import pytest

from drafting.cli.commands import COMMANDS, command_module
from drafting.cli.words import parser_of
from tests.cli.conftest import Run
from tests.cli.patterns import TWO_SIZES
from tests.cli.test_together import everything_in
from tests.drawing.rosters import CHOIR, FOLDER

LENGTH = (
    "1m",
    "5",
    "5deg",
    "5mm2",
    "-1mm",
    "-1 mm",
    "nan",
    "inf",
    "1e9mm",
    "99999999 mm",
    "0,2mm",
    "wide",
    "",
    "-",
)
ABOVE_ZERO = (*LENGTH, "0", "0 mm")
COUNT = ("0", "-3", "1.5", "1e3", "many", "nan", "inf", "", "-", "99999999999", "12 mm")
PERCENT = ("0%", "-5%", "200%", "70", "nan%", "inf%", "many", "", "-", "5 mm")
CHOICE = ("nope", "", "-", "svg dxf")
NAME = ("nope", "", " ", "-")
EMPTY = ("", " ")
SETTING = ("wide", "=4 mm", "wide=", "", "nope=4 mm", "wide=1m", "wide=4", "wide=4 deg", "wide=nan", "-")
FILE_THERE = ("nowhere.draft", "holder", "latin.draft", "")
PATTERN_FILE = (*FILE_THERE, "-")
FOLDER_THERE = ("nowhere", "tag.draft", "", "-")
FOLDER_OUT = ("tag.draft", "tag.draft/deep", "", " ", "-")
FILE_OUT = ("holder", "tag.draft", "", " ", "-")
ENDING_OUT = (*FILE_OUT, "tag.txt", "tag", ".pdf/")
PAPER = ("a9", "60x60", "0x0", "-5x300", "nanx300", "99999x300", "320", "", "-")
FLAG = ("yes", "")

PATTERN = {"--size": NAME, "--with": SETTING, "--blocks": FOLDER_THERE}
MACHINE = {
    **PATTERN,
    "FILE": PATTERN_FILE,
    "--out": FOLDER_OUT,
    "--piece": NAME,
    "--kerf": LENGTH,
    "--format": (*CHOICE, "png"),
    "--dxf-version": ("r9", "", "-", "2010"),
    "--layers": ("nowhere.toml", "holder", "latin.draft", "tag.draft", "", "-"),
    "--replace": FLAG,
}
ORDER = {
    **PATTERN,
    "FILE[:COPIES][/SIZE]": (
        *FILE_THERE,
        "tag.draft:0",
        "tag.draft:-1",
        "tag.draft:many",
        "tag.draft:2/nope",
    ),
    "--copies": COUNT,
    "--replace": FLAG,
}
TABLE = {**ORDER, "--format": CHOICE, "--out": FILE_OUT}

WRONG: dict[str, dict[str, tuple[str, ...]]] = {
    "new": {
        "NAME": ("...", "-x.draft", "", ".tag", 'a"b', "tag", "tag.draft", "nowhere/cover"),
        "--from": CHOICE,
        "--list": FLAG,
    },
    "check": {"FILE": FILE_THERE, "--tolerance": LENGTH, "--json": FLAG, "--blocks": FOLDER_THERE},
    "draw": {
        **PATTERN,
        "FILE": PATTERN_FILE,
        "--out": FOLDER_OUT,
        "--piece": NAME,
        "--every-size": FLAG,
        "--draft": FLAG,
        "--replace": FLAG,
        "--png": FLAG,
    },
    "print": {
        **PATTERN,
        "FILE": FILE_THERE,
        "--out": ENDING_OUT,
        "--paper": PAPER,
        "--piece": NAME,
        "--correct": PERCENT,
        "--copies": COUNT,
        "--draft": FLAG,
        "--replace": FLAG,
    },
    "template": {**MACHINE, "--awl-slot": NAME, "--pin": ABOVE_ZERO, "--mirrored": FLAG},
    "cut": {**MACHINE, "--cutter": (*CHOICE, "knife"), "--labels": FLAG},
    "booklet": {
        **PATTERN,
        "FILE": FILE_THERE,
        "--out": ENDING_OUT,
        "--paper": PAPER,
        "--draft": FLAG,
        "--replace": FLAG,
    },
    "proof": {
        "FILE": ("nowhere.pdf", "holder", "tag.draft", "latin.draft", "", "-"),
        "--pattern": FILE_THERE,
        "--blocks": FOLDER_THERE,
        "--json": FLAG,
    },
    "lay": {
        **ORDER,
        "--panel": (
            "600",
            "0x400",
            "-600x400",
            "600x400:0",
            "nanxinf",
            "1e9x1e9",
            "99999x400",
            "6inx4in",
            "",
            "-",
        ),
        "--roll": ABOVE_ZERO,
        "--hide": FILE_THERE,
        "--stock": NAME,
        "--gap": LENGTH,
        "--margin": LENGTH,
        "--across": FLAG,
        "--stray": ("-1", "91", "nan", "inf", "many", "", "-", "5 mm"),
        "--grain": ("tag", "=any", "tag=askew", "tag=91", "tag=-5", "nope=any", "", "-"),
        "--firm": NAME,
        "--poor": NAME,
        "--time": ("0", "-3", "1e3", "many", "nan", "inf", "", "-", "99999999999", "12 mm"),
        "--steps": COUNT,
        "--seed": COUNT[1:],
        "--paper": PAPER,
        "--dxf": FLAG,
        "--png": FLAG,
        "--out": FOLDER_OUT,
    },
    "measure": {
        **PATTERN,
        "FILE": FILE_THERE,
        "EXPR": ("", "wide high", "nope", "1/0", "1m"),
        "--json": FLAG,
    },
    "list": {
        **TABLE,
        "--yield": PERCENT,
        "--prices": ("nowhere.toml", "holder", "latin.draft", "", "-"),
        "--tail": LENGTH,
    },
    "sizes": {
        **PATTERN,
        "FILE": FILE_THERE,
        "--quick": FLAG,
        "--piece": NAME,
        "--format": CHOICE,
        "--out": FILE_OUT,
        "--replace": FLAG,
    },
    "explain": {**PATTERN, "FILE": FILE_THERE, "NAME": ("", "nope", "tag.nope", "tag", "-")},
    "rules": {"CODE": ("R99", "", "8", "-"), "--json": FLAG},
    "roster": {
        **PATTERN,
        "FILE": FILE_THERE,
        "PEOPLE.csv": ("nowhere.csv", "holder", "", "-"),
        "--out": FOLDER_OUT,
        "--column": ("name", "=name", "name=", "", "-"),
        "--encoding": ("", " "),
        "--separator": CHOICE,
        "--letters": CHOICE,
        "--least": ABOVE_ZERO,
        "--even": FLAG,
        "--mirror": FLAG,
        "--format": CHOICE,
        "--dxf-version": ("r9", "", "-"),
        "--layers": ("nowhere.toml", "holder", "latin.draft", "folder.draft", ""),
        "--replace": FLAG,
        "--card": EMPTY,
        "--no-cards": FLAG,
        "--line": EMPTY,
        "--qr": EMPTY,
        "--paper": PAPER,
    },
    "tidy": {"FILE": FILE_THERE, "--check": FLAG, "--write": FLAG},
    "completion": {"SHELL": CHOICE},
}
"""For each command what its options and other words, which are called as its help calls them, do not take."""

RIGHT = {
    "new": "cover",
    "check": "tag.draft",
    "draw": "tag.draft --out o",
    "print": "tag.draft --out o.pdf",
    "template": "tag.draft --out o",
    "cut": "tag.draft --out o",
    "booklet": "tag.draft --out o.pdf",
    "proof": "tag.svg",
    "lay": "tag.draft --panel 600x400 --steps 1 --out o",
    "measure": "tag.draft wide",
    "list": "tag.draft",
    "sizes": "tag.draft --format svg --out o.svg",
    "explain": "tag.draft tag.heel",
    "rules": "R08",
    "roster": "folder.draft choir.csv --out o",
    "tidy": "tag.draft",
    "completion": "bash",
}
"""Words that each command takes, which a wrong one is put into."""


INSTEAD = {("lay", "--roll"): "--panel", ("lay", "--hide"): "--panel"}
"""What goes out of the right words, for it and the option cannot both be said."""


@pytest.fixture(autouse=True)
def files(folder: Path) -> None:
    """Patterns, a table of people, a file that is no UTF-8 text, and a folder with a file in it."""
    for name, text in (("tag.draft", TWO_SIZES), ("folder.draft", FOLDER), ("choir.csv", CHOIR)):
        (folder / name).write_text(text, encoding="utf-8")
    (folder / "latin.draft").write_bytes(b"# \xe9\n")
    (folder / "holder").mkdir()
    (folder / "holder" / "notes.txt").touch()


def words_of(command: str, called: str, value: str) -> list[str]:
    """The right words with a wrong value in the place of one of them."""
    words = shlex.split(RIGHT[command])
    if called.startswith("--"):
        for spare in (called, INSTEAD.get((command, called), "")):
            if spare in words:
                at = words.index(spare)
                del words[at : at + 2]
        return [command, *words, f"{called}={value}"]
    at = [called_so(action) for action in actions_of(command) if not action.option_strings].index(called)
    return (
        [command, *words[:at], *words[at + 1 :], "--", value]
        if at == len(words) - 1
        else [command, *words[:at], value, *words[at + 1 :]]
    )


def actions_of(command: str) -> list[Action]:
    return [
        action for action in parser_of(command, command_module(command))._actions if action.dest != "help"
    ]


def called_so(action: Action) -> str:
    return action.option_strings[-1] if action.option_strings else str(action.metavar)


def is_told(told: str, called: str, value: str) -> bool:
    """Named with what was typed: an option beside its value, any other word by itself."""
    typed = f"{called} {shlex.quote(value) if not value or ' ' in value else value}"
    if not called.startswith("--"):
        return all(part in told for part in re.split("[:/]", value))
    return (
        typed in told
        or f"{called} {value}" in told
        or (value in FLAG and f"`{called}` takes no value" in told)
    )


def test_every_option_has_its_wrong_values() -> None:
    for command in COMMANDS:
        assert {called_so(action) for action in actions_of(command)} == set(WRONG[command]), command


CASES = [(command, called) for command, wrong in WRONG.items() for called in wrong]


@pytest.mark.parametrize(("command", "called"), CASES, ids=[" ".join(case) for case in CASES])
def test_a_wrong_value_is_told_with_a_mend_and_writes_nothing(
    run: Run, folder: Path, command: str, called: str
) -> None:
    before = everything_in(folder)
    for value in WRONG[command][called]:
        ran = run(*words_of(command, called, value))
        told = ran.out + ran.err
        assert ran.code == 2, (value, ran)
        errors = re.findall(r"^(?:awlwright: )?error [CMT]\d+$", told, re.MULTILINE)
        assert len(errors) == 1 or f"`{called}` takes no value" in told, (value, told)
        assert "mend: " in told and "Traceback" not in told
        assert is_told(told, called, value), (value, told)
        assert everything_in(folder) == before


@pytest.mark.parametrize("command", [command for command in WRONG if len(WRONG[command]) > 2])
def test_all_wrong_options_are_told_in_one_run(run: Run, command: str) -> None:
    wrong = {
        called: min(values, key=len) for called, values in WRONG[command].items() if called.startswith("--")
    }
    words = [word for word in shlex.split(RIGHT[command]) if not word.startswith(("--", "o"))]
    ran = run(command, *words, *(f"{called}={value}" for called, value in wrong.items()))
    assert ran.code == 2 and ran.out == ""
    for called, value in wrong.items():
        assert is_told(ran.err, called, value), (called, ran.err)


def test_names_that_the_pattern_has_not_are_told_with_the_values(run: Run, folder: Path) -> None:
    before = everything_in(folder)
    for command, wrong in (
        ("print", "--correct"),
        ("cut", "--kerf"),
        ("draw", "--blocks"),
        ("sizes", "--format"),
    ):
        words = ("--size", "brod", "--piece", "tga", "--with", "widd=4 mm", "--with", "wide=4", wrong, "nope")
        ran = run(command, *shlex.split(RIGHT[command]), *words)
        assert ran.code == 2
        for told in (
            "`--size brod`",
            "`--piece tga`",
            "`--with 'widd=4 mm'`",
            "| --with wide=4",
            f"`{wrong} nope`",
        ):
            assert told in ran.err, (command, told)
    assert everything_in(folder) == before


def test_an_amount_below_zero_is_the_value_of_its_option(run: Run) -> None:
    """And not an option of its own, whether or not an equals sign joins them."""
    for words in (("--kerf", "-1mm"), ("--kerf", "-1 mm"), ("--kerf", "-0.5mm"), ("--kerf=-1mm",)):
        ran = run("cut", "tag.draft", "--out", "o", *words)
        assert ran.code == 2 and "it is below 0" in ran.err and ran.err.count("error") == 1
