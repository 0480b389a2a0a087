"""Every message of files and commands, as it is shown."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from drafting.cli import draw, tidy
from drafting.cli.commands import COMMANDS
from drafting.drawing.fonts import MissingLetters
from drafting.text.catalogue import entries_of, files
from tests.cli.conftest import Run
from tests.cli.patterns import TAG

Patch = pytest.MonkeyPatch


def broken(source: object) -> str:
    return str([][0])


def disagreeing(svg: str, placed: object, piece: str | None) -> list[str]:
    return ["tag.outline: its width is 40 mm as drafted and 39.5 mm in the file"]


def lacking(texts: object) -> None:
    raise MissingLetters("革")


def no_change(patch: Patch) -> None:
    """Nothing has to go wrong inside for most messages."""


SHOWN: dict[str, tuple[str, str]] = {
    "C01": (
        "draw nowhere.draft --out o",
        "`nowhere.draft` cannot be read: there is no such file.\n"
        "  mend: Name a pattern file that is there and saved as UTF-8 text, such as `tag.draft`, or `-` for what "
        "comes in from a pipe.",
    ),
    "C02": (
        "new nowhere/tag",
        "`nowhere/tag.draft` cannot be written: no such file or directory.\n"
        "  mend: Name another place; what was there before is as it was.",
    ),
    "C03": (
        "new tag",
        "`tag.draft` is already there and stays as it is.\n"
        "  mend: Choose another name, or move that file away first.",
    ),
    "C04": (
        "mesure tag.draft wide",
        f"There is no command `mesure`.\n  mend: The commands are {', '.join(COMMANDS)}; `awlwright --help` tells what each does. Did you mean `measure`?",
    ),
    "C05": (
        "measure tag.draft wide --siz slim",
        "`awlwright measure` has no option `--siz`.\n"
        "  mend: Its options are --help, --size, --with, --blocks, --json. Did you mean `--size`?",
    ),
    "C201": (
        "cut tag.draft --out o --dxf-version r12",
        "`--dxf-version r12` says how DXF is written, and what is asked for is SVG.\n"
        "  mend: Write `--format dxf --dxf-version r12`, or leave the version out.",
    ),
    "C20": (
        "check tag.draft --blocks nowhere",
        "`--blocks nowhere` is no folder.\n"
        "  mend: Name a folder that is there, such as `--blocks patterns/blocks`.",
    ),
    "C06": (
        "draw tag.draft",
        "`awlwright draw` lacks --out.\n"
        "  mend: Write for instance `awlwright draw badge-holder.draft --out drawings`.",
    ),
    "C07": (
        "explain tag.draft tag.heel tag.brow",
        "`awlwright explain` has no use for `tag.brow`.\n"
        "  mend: Write for instance `awlwright explain badge-holder.draft front.brow`.",
    ),
    "C08": (
        "draw tag.draft --out",
        "`--out` lacks its value.\n"
        "  mend: Write for instance `awlwright draw badge-holder.draft --out drawings`.",
    ),
    "C09": ("check --json=x tag.draft", "`--json` takes no value.\n  mend: Write `--json` alone."),
    "C10": (
        "explain tag.draft tag.hel",
        "There is no point `tag.hel`.\n"
        "  mend: Known are tag.foot, tag.top, tag.heel, tag.brow. Did you mean `tag.heel`?",
    ),
    "C11": (
        "measure tag.draft wide --with 40",
        "`--with 40` sets no measure.\n"
        "  mend: Write a measure, `=` and its value, such as `--with 'rim = 10 mm'`.",
    ),
    "C12": (
        "new ...",
        "`...` cannot name a pattern: it has no letter or digit.\n"
        "  mend: Give it a plain name in any script, such as `tool-roll`.",
    ),
    "C13": (
        "tidy --check --write tag.draft",
        "`--check` and `--write` cannot both be said.\n  mend: Leave one of them out.",
    ),
    "C15": (
        "draw tag.draft --out o",
        "`o/tag.svg` does not measure as drafted, so no file was kept: "
        "tag.outline: its width is 40 mm as drafted and 39.5 mm in the file.\n"
        "  mend: This is a fault of the tool, not of the pattern: please report it with the pattern file.",
    ),
    "C40": (
        "print tag.draft --out tag.pdf --paper a9",
        "`--paper a9` is nothing to print on: that is neither the name of a paper nor a size.\n"
        "  mend: Name one of a4, a3, a5, letter, legal, or a size such as `--paper 320x450` in mm.",
    ),
    "C41": (
        "print tag.draft --out tag.pdf --correct 99.2",
        "`--correct 99.2` is no scale of a printer.\n"
        "  mend: Measure the 100 mm scale on a printed sheet: of 99.2 mm say `--correct 99.2%`. "
        "From 90 % to 110 % will do.",
    ),
    "C42": (
        "print tag.draft --out theirs.pdf",
        "`theirs.pdf` is already there and was not written by this tool, so it stays as it is.\n"
        "  mend: Choose another name, or say `--replace` to write over it.",
    ),
    "C101": (
        "list tag.draft:0",
        "`tag.draft:0` asks for `0` copies, and a batch is from 1 to 1,000,000.\n"
        "  mend: Write a whole number, such as `--copies 24` or `tag.draft:24`.",
    ),
    "C102": (
        "list tag.draft --yield 0%",
        "`--yield 0%` is no part of a hide.\n"
        "  mend: Say how much of a hide becomes parts, more than 0 and up to 100 %, such as `--yield 70%`.",
    ),
    "C70": (
        "print tag.draft --out tag.pdf --with wide=9000mm --with high=9000mm",
        "`tag` would be spread over at least 1,788 tiles of a4, too many to find one's way through.\n"
        "  mend: Take a larger paper, such as `--paper 914x1200`, or leave that piece out by `--piece`.",
    ),
    "C71": (
        "print tag.draft --out tag.pdf --copies 0",
        "`--copies 0` is no count of items to print at once.\n"
        "  mend: Give a whole number from 1 to 1000, such as `--copies 12`.",
    ),
    "C72": (
        "print tag.draft --out tag.pdf",
        "No font that is at hand has `革` (CJK UNIFIED IDEOGRAPH-9769).\n"
        "  mend: Write other letters, or install the letters of China, Japan and Korea with "
        "`pip install noto-cjk-sans-jp-regular`.",
    ),
    "C221": (
        "measure tag.draft wide --with high_=3",
        "`--with high_=3` names no measure of the pattern.\n"
        "  mend: There are `wide`, `high`. Did you mean `high`?",
    ),
    "C222": (
        "cut tag.draft --out o --kerf 0,2mm",
        "`--kerf 0,2mm` is not a width that a cutter takes away: `0,2mm` has a comma inside its number.\n"
        "  mend: Give a length of 0 or more and up to 20 mm with its unit, such as `--kerf '0.2 mm'`.",
    ),
    "C223": (
        "booklet tag.draft --out tag.txt",
        "`--out tag.txt` names no file to write: a booklet ends in .pdf or .html.\n"
        "  mend: Name it for instance `--out tag.pdf`.",
    ),
    "C224": (
        "draw tag.draft --out tag.draft",
        "`--out tag.draft` names no folder to write into: a file stands there.\n"
        "  mend: Name one, such as `--out drawings`; it is made if need be.",
    ),
    "C225": (
        "template tag.draft --out o --awl-slot=",
        "`--awl-slot ''` names nothing.\n"
        "  mend: Write for instance `--awl-slot front.edge`, or leave `--awl-slot` out.",
    ),
    "C226": (
        "list tag.draft --prices theirs.csv --out theirs.csv --replace",
        "`theirs.csv` would be written over itself: this command reads it.\n"
        "  mend: Choose another name for what is written.",
    ),
    "C228": (
        "proof theirs.pdf --pattern nowhere.draft",
        "`--pattern nowhere.draft` cannot be read: there is no such file.\n"
        "  mend: Name a file that is there and saved as UTF-8 text, such as `--pattern tag.draft`.",
    ),
    "C227": (
        "sizes tag.draft --piece tag",
        "`--piece` does nothing without `--format svg`.\n"
        "  mend: Add `--format svg`, such as `awlwright sizes badge-holder.draft --format svg --piece front --out front-sizes.svg`; or leave `--piece` out.",
    ),
    "C108": (
        "list tag.draft --prices prices.csv",
        "`--prices prices.csv` names no price list: there is no such file.\n"
        "  mend: Name a `.toml` or `.csv` file that is there and saved as UTF-8 text, such as `--prices prices.toml`.",
    ),
    "C105": (
        "sizes tag.draft --with wide=50mm..40mm/5mm",
        "| --with wide=50mm..40mm/5mm\n"
        "  |             ^^^^^^^^^^^^^^\n"
        "  The sweep `50mm..40mm/5mm` does not come out: steps of 5 mm never lead from 50 mm to 40 mm.\n"
        "  mend: Write for instance `--with wide=40mm..50mm/5mm`.",
    ),
    "C106": (
        "sizes tag.draft --with wide=40mm..59mm/0.1mm --with high=90mm..109mm/0.1mm",
        "The sweeps and sizes make 36,481 sizes together, and 20,000 can be worked out in one run.\n"
        "  mend: Take fewer steps, or one size by `--size`.",
    ),
    "C107": (
        "sizes tag.draft --with wide=40mm..60mm/0.1mm --format svg --out o.svg",
        "201 sizes cannot be told apart when they are drawn over each other.\n"
        "  mend: Draw 100 or fewer: take longer steps, or write a table by `--format csv`.",
    ),
}

SHOWN_ELSEWHERE = {
    *("C14", "C16", "C51", "C52", "C53", "C54", "C55", "C74", "C75", "C76", "C77", "C78", "C172"),
    *("C190", "C191", "C192", "C193"),
}
"""Here below, and those of single commands in test_cut.py, test_list.py, test_print.py, test_template.py and test_proof.py."""

CHANGED: dict[str, Callable[[Patch], None]] = {
    "C15": lambda patch: patch.setattr("drafting.proof.svg.check_svg", disagreeing),
    "C72": lambda patch: patch.setattr("drafting.output.pdf.expect_letters", lacking),
}


@pytest.mark.parametrize("code", SHOWN)
def test_a_message_is_shown_with_its_mend(run: Run, folder: Path, monkeypatch: Patch, code: str) -> None:
    (folder / "tag.draft").write_text(TAG, encoding="utf-8")
    for name in ("theirs.pdf", "theirs.csv"):
        (folder / name).write_text("the accounts of the ferry crew", encoding="utf-8")
    CHANGED.get(code, no_change)(monkeypatch)
    line, block = SHOWN[code]
    ran = run(*line.split())
    assert ran.err == f"awlwright: error {code}\n  {block}\n"
    assert ran.code == (3 if code == "C15" else 2)
    assert ran.out == ""


def test_a_file_that_is_not_tidy(run: Run, folder: Path) -> None:
    """It is what a check was asked for, so it stands on the ordinary output."""
    (folder / "tag.draft").write_text(TAG.replace("point foot", "point   foot"), encoding="utf-8")
    ran = run("tidy", "--check", "tag.draft")
    assert (ran.code, ran.err) == (1, "")
    assert ran.out == (
        "warning C14\n  `tag.draft` is not laid out the tidy way.\n"
        "  mend: Let `awlwright tidy --write` lay it out.\n"
    )


def test_a_fault_of_the_tool(run: Run, folder: Path, monkeypatch: Patch) -> None:
    (folder / "tag.draft").touch()
    monkeypatch.setattr(tidy, "tidied", broken)
    ran = run("tidy", "tag.draft")
    assert ran.code == 3
    assert ran.err.startswith(
        "awlwright: error C16\n  The tool itself has failed: IndexError: list index out of range in "
    )


def test_every_entry_is_shown_here() -> None:
    assert {entry.code for entry in entries_of(files)} == {*SHOWN, *SHOWN_ELSEWHERE}
    assert draw.UNTRUE_FILE.code == "C15"
