"""Wrong use: every way to use a command wrongly is told in a message with a mend, and exits with 2."""

from __future__ import annotations

import shlex
from pathlib import Path

import pytest

from drafting.cli.commands import COMMANDS, command_module
from drafting.cli.exits import TAUGHT
from drafting.cli.new import hides, starters
from drafting.cli.reading import also_wrong
from drafting.cli.words import parse_words
from drafting.version import VERSION
from tests.cli.conftest import Run
from tests.cli.patterns import TWO_SIZES


@pytest.fixture(autouse=True)
def files(folder: Path) -> None:
    for name in ("a.draft", "b.draft"):
        (folder / name).write_text(TWO_SIZES, encoding="utf-8")


def check(run: Run, line: str, code: str, *told: str) -> None:
    """The words of `line` end in exit code 2 and the message `code`, which tells each of `told`."""
    ran = run(*line.split())
    assert ran.code == 2, ran
    assert ran.out == ""
    assert ran.err.startswith(f"awlwright: error {code}\n"), ran.err
    for words in told:
        assert words in ran.err


@pytest.mark.parametrize(
    ("line", "code", "told"),
    [
        ("drw", "C04", ["no command `drw`", "new, check, draw, print", "Did you mean `draw`?"]),
        ("DRAW", "C04", ["no command `DRAW`"]),
        ("--verson", "C05", ["`awlwright` has no option `--verson`", "Did you mean `--version`?"]),
        ("draw a.draft --out o --pice b", "C05", ["no option `--pice`", "Did you mean `--piece`?"]),
        ("draw a.draft --ou o", "C05", ["no option `--ou`"]),
        ("check --jsn a.draft", "C05", ["no option `--jsn`", "`--json`"]),
        ("tidy -w a.draft", "C05", ["no option `-w`", "--check, --write"]),
        ("check", "C06", ["`awlwright check` lacks FILE"]),
        ("draw --out o", "C06", ["`awlwright draw` lacks FILE"]),
        ("draw a.draft", "C06", ["lacks --out", "awlwright draw badge-holder.draft --out drawings"]),
        ("measure a.draft", "C06", ["lacks EXPR"]),
        ("measure", "C06", ["lacks FILE, EXPR"]),
        ("explain a.draft", "C06", ["lacks NAME"]),
        ("tidy", "C06", ["lacks FILE"]),
        ("completion", "C06", ["lacks SHELL"]),
        ("new", "C06", ["lacks NAME"]),
        ("new one two", "C07", ["`awlwright new` has no use for `two`"]),
        ("explain a.draft front.lip back.lip", "C07", ["no use for `back.lip`"]),
        ("explain a.draft front.lip -- -x", "C07", ["no use for `-x`"]),
        ("draw - --out o", "C07", ["`awlwright draw` has no use for `-`"]),
        ("tidy --write -", "C07", ["`awlwright tidy --write` has no use for `-`"]),
        ("tidy a.draft b.draft", "C07", ["no use for `b.draft`"]),
        ("draw a.draft --out", "C08", ["`--out` lacks its value"]),
        ("draw a.draft --out o --size", "C08", ["`--size` lacks its value"]),
        ("draw a.draft --out o --piece --png", "C08", ["`--piece` lacks its value"]),
        ("measure a.draft rim --with", "C08", ["`--with` lacks its value"]),
        ("new tag --from", "C08", ["`--from` lacks its value"]),
        ("check --json=yes a.draft", "C09", ["`--json` takes no value"]),
        ("draw a.draft --out o --png=big", "C09", ["`--png` takes no value"]),
        ("tidy --check --write a.draft", "C13", ["`--check` and `--write` cannot both be said"]),
        ("draw a.draft --out o --size slim --every-size", "C13", ["`--size` and `--every-size`"]),
        ("completion tcsh", "C221", ["`awlwright completion tcsh` names no shell", "`bash`, `zsh`, `fish`"]),
        (
            "new tag --from bdge-holder",
            "C221",
            ["`--from bdge-holder` names no starter", "mean `badge-holder`?"],
        ),
        ("new ...", "C12", ["`...` cannot name a pattern: it has no letter or digit"]),
        ("new -- -tag", "C12", ["it begins with `-`"]),
        ("new .tag", "C12", ["it begins with `.`"]),
        ('new t"ag', "C12", ["it holds a quote"]),
        ("draw nowhere.draft --out o", "C01", ["`nowhere.draft` cannot be read: there is no such file"]),
        ("measure nowhere.draft rim", "C01", ["there is no such file"]),
        ("explain nowhere.draft front.lip", "C01", ["there is no such file"]),
        ("tidy nowhere.draft", "C01", ["there is no such file"]),
        ("tidy .", "C01", ["it is a folder, not a file"]),
    ],
)
def test_wrong_use_is_told_with_a_mend(run: Run, line: str, code: str, told: list[str]) -> None:
    check(run, line, code, *told)


def test_no_word_at_all_shows_the_commands(run: Run) -> None:
    ran = run()
    assert ran.code == 2
    assert all(name in ran.err for name in COMMANDS)


@pytest.mark.parametrize("name", COMMANDS)
def test_help_teaches_by_an_example_and_tells_the_exit_codes(run: Run, name: str) -> None:
    """Help is no wrong use: it exits with 0 and stands on the ordinary output."""
    ran = run(name, "--help")
    assert (ran.code, ran.err) == (0, "")
    assert f"\n  awlwright {name} " in ran.out
    assert TAUGHT in ran.out


@pytest.mark.parametrize("words", [("--help",), ("-h",)])
def test_the_first_help_lists_every_command(run: Run, words: tuple[str, ...]) -> None:
    ran = run(*words)
    assert (ran.code, ran.err) == (0, "")
    assert all(f"\n  {name} " in ran.out for name in COMMANDS)
    assert TAUGHT in ran.out


def test_the_version_is_the_packages(run: Run) -> None:
    assert run("--version").out == f"awlwright {VERSION}\n"


def test_help_is_as_wide_as_the_terminal(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    """Up to the examples, which are never broken."""
    for columns in (60, 100):
        monkeypatch.setenv("COLUMNS", str(columns))
        told = run("draw", "--help").out.split("example:")[0]
        assert columns - 20 < max(len(line) for line in told.splitlines()) <= columns


def test_options_may_stand_anywhere() -> None:
    """Before, between and after the other words, and a word after `--` is never an option."""
    words = ["--size", "s", "a.draft", "--json", "x", "--with=r=1 mm", "y", "--", "-z"]
    given = parse_words("measure", command_module("measure"), words)
    assert (given.file, given.expressions, given.size, given.json) == ("a.draft", ["x", "y", "-z"], "s", True)
    assert given.settings == ["r=1 mm"]


def test_the_examples_of_every_help_are_right_use(run: Run, folder: Path) -> None:
    """What a help shows can be typed beside the starters: the patterns are there, with the pieces, sizes and measures."""
    for starter in (*starters(), *hides()):
        assert run("new", starter, "--from", starter).code == 0
    assert run("new", "tag").code == 0
    for name in ("prices.toml", "cutter.toml", "crew.csv", "choir.csv", "fleet.csv", "lay/lay.json"):
        (folder / name).parent.mkdir(exist_ok=True)
        (folder / name).touch()
    for name in COMMANDS:
        module = command_module(name)
        for example in module.EXAMPLES:
            words = shlex.split(example.split(" > ")[0])
            assert words[:2] == ["awlwright", name]
            given = parse_words(name, module, words[2:])
            assert list(also_wrong(given)) == [], example


def test_a_file_of_nearly_the_same_name_is_named(run: Run) -> None:
    check(run, "measure a wide", "C01", "`a` cannot be read: there is no such file, but there is `a.draft`.")
    check(run, "measure sub/a wide", "C01", "`sub/a` cannot be read: there is no such file.")
