"""`awlwright proof`: files that the tool wrote, held against their patterns as those are now."""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Callable
from pathlib import Path

import pytest

import drafting
from tests.cli.conftest import Run
from tests.cli.patterns import HIDE, LOOSE, TAG
from tests.drawing.rosters import CHOIR, FOLDER

WRITE = {
    "tag.pdf": "print tag.draft --out tag.pdf --paper letter --copies 2 --correct 99.2%",
    "drawn/tag.svg": "draw tag.draft --out drawn",
    "drawn/tag-tag.svg": "draw tag.draft --out drawn --piece tag",
    "book.pdf": "booklet tag.draft --out book.pdf --paper a5",
    "book.html": "booklet tag.draft --out book.html",
    "cut/tag-cut.svg": "cut tag.draft --out cut --cutter blade",
    "t/tag-template-tag.svg": "template tag.draft --out t",
    "t/tag-template-tag.dxf": "template tag.draft --out t --format dxf --pin 2mm",
    "t/tag-template-tag.pdf": "template tag.draft --out t --format pdf",
    "cut/tag-cut.dxf": "cut tag.draft --out cut --format dxf --cutter blade",
    "sizes.csv": "sizes tag.draft --format csv --out sizes.csv",
    "sizes.json": "sizes tag.draft --format json --out sizes.json --quick",
    "sizes.md": "sizes tag.draft --format md --out sizes.md",
    "sizes.txt": "sizes tag.draft --out sizes.txt",
    "nest.svg": "sizes tag.draft --format svg --out nest.svg",
    "nest-tag.svg": "sizes tag.draft --format svg --piece tag --out nest-tag.svg",
}
"""A file of each kind, and how it is written."""
OLD = "cut tag.draft --out cut --format dxf --dxf-version r12 --cutter blade"


@pytest.fixture
def tag(folder: Path) -> Path:
    place = folder / "tag.draft"
    place.write_text(TAG, encoding="utf-8")
    return place


@pytest.mark.parametrize("file", WRITE)
def test_a_file_as_it_was_written_is_true(run: Run, tag: Path, file: str) -> None:
    assert run(*WRITE[file].split(), "--with", "wide=42 mm").code == 0
    ran = run("proof", file)
    what = WRITE[file].split()[0].replace("draw", "drawing")
    assert (ran.code, ran.out, ran.err) == (0, f"{file}: {what} true to tag.draft\n", "")


def test_many_files_read_their_pattern_once(
    run: Run, tag: Path, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert run(*WRITE["tag.pdf"].split()).code == 0
    for copy in ("again.pdf", "other.pdf"):
        (folder / copy).write_bytes((folder / "tag.pdf").read_bytes())
    load, loaded = drafting.load, []
    monkeypatch.setattr(drafting, "load", lambda *place: loaded.append(place) or load(*place))
    assert run("proof", "tag.pdf", "again.pdf", "other.pdf").code == 0
    assert loaded == [("tag.draft", None)]


def test_old_dxf_is_proved_too(run: Run, tag: Path) -> None:
    assert run(*OLD.split()).code == 0
    assert run("proof", "cut/tag-cut.dxf").code == 0


@pytest.mark.parametrize("file", WRITE)
def test_a_pattern_that_changed_since_is_told_and_what_differs(run: Run, tag: Path, file: str) -> None:
    assert run(*WRITE[file].split()).code == 0
    tag.write_text(TAG.replace("wide = 40 mm", "wide = 40.1 mm"), encoding="utf-8")
    ran = run("proof", file)
    assert ran.code == 1 and ran.err == ""
    assert "warning C77\n  `tag.draft` has changed since" in ran.out
    assert f"error C78\n  `{file}` is not true to `tag.draft`: " in ran.out


def test_a_change_that_does_not_matter_is_told_alone(run: Run, tag: Path) -> None:
    assert run(*WRITE["tag.pdf"].split()).code == 0
    tag.write_text("# For the choir.\n" + TAG, encoding="utf-8")
    ran = run("proof", "tag.pdf")
    assert ran.code == 0
    assert "C77" in ran.out and "C78" not in ran.out and "true to tag.draft" in ran.out


def test_many_differences_are_counted(run: Run, tag: Path) -> None:
    assert run(*WRITE["drawn/tag-tag.svg"].split()).code == 0
    tag.write_text(TAG.replace("90 mm", "80 mm"), encoding="utf-8")
    assert " more.\n  mend: Do not cut by it" in run("proof", "drawn/tag-tag.svg").out
    (told,) = json.loads(run("proof", "drawn/tag-tag.svg", "--json").out)
    assert told["true"] is False and len(told["differences"]) > 3
    assert set(told["differences"][0]) == {"where", "what", "drafted", "written"}


def test_a_file_that_was_tampered_with_is_found(run: Run, tag: Path) -> None:
    assert run(*WRITE["drawn/tag-tag.svg"].split()).code == 0
    place = tag.parent / "drawn/tag-tag.svg"
    text = place.read_text()
    place.write_text(text.replace('width="210mm"', 'width="208mm"'))
    ran = run("proof", "drawn/tag-tag.svg")
    assert ran.code == 1 and "its size" in ran.out and "C77" not in ran.out


def test_the_pattern_may_lie_elsewhere(run: Run, tag: Path, folder: Path) -> None:
    assert run(*WRITE["tag.pdf"].split()).code == 0
    (folder / "patterns").mkdir()
    tag.rename(folder / "patterns/other.draft")
    ran = run("proof", "tag.pdf")
    assert ran.code == 2
    assert ran.out == (
        "error C76\n  `tag.pdf` was made from `tag.draft`, which is not beside it, above it or here.\n"
        "  mend: Say where it is: `--pattern tag.draft`.\n"
    )
    ran = run("proof", "tag.pdf", "--pattern", "patterns/other.draft")
    assert (ran.code, ran.out) == (0, "tag.pdf: print true to patterns/other.draft\n")


def test_what_cannot_be_proved_is_said_of_each_file(run: Run, tag: Path, folder: Path) -> None:
    (folder / "other.pdf").write_bytes(b"%PDF-1.4 of another program")
    assert run(*WRITE["tag.pdf"].split()).code == 0
    ran = run("proof", "nowhere.pdf", "tag.draft", "other.pdf", "tag.pdf")
    assert ran.code == 2
    assert ran.out == (
        "error C74\n  `nowhere.pdf` cannot be read: there is no such file.\n"
        "  mend: Name a file that this tool wrote and that is there.\n"
        "error C75\n  `tag.draft` does not say that this tool made it, so there is nothing to hold it against.\n"
        "  mend: Name a file as the tool wrote it; what another program saves again has lost that word.\n"
        "error C75\n  `other.pdf` does not say that this tool made it, so there is nothing to hold it against.\n"
        "  mend: Name a file as the tool wrote it; what another program saves again has lost that word.\n"
        "tag.pdf: print true to tag.draft\n"
    )
    told = json.loads(run("proof", "nowhere.pdf", "tag.pdf", "--json").out)
    assert [one["true"] for one in told] == [None, True]
    assert told[0]["messages"][0]["code"] == "C74"


def test_a_table_of_sizes_is_held_cell_by_cell(run: Run, tag: Path) -> None:
    """Swept sizes, too; a row that is gone, a heading that is new, and a file that is no table any more."""
    swept = ("--with", "wide=40mm..44mm/2mm")
    for form in ("csv", "json"):
        assert run("sizes", "tag.draft", "--format", form, "--out", f"sizes.{form}", *swept).code == 0
        assert run("proof", f"sizes.{form}").code == 0
    place = tag.parent / "sizes.csv"
    head, *rows = place.read_text().splitlines()
    place.write_text("\n".join([head, rows[0].replace("40.0", "40.02", 1), *rows[1:]]) + "\n")
    assert "row 1: `wide` is 40.0 as drafted and 40.02 in the file" in run("proof", "sizes.csv").out
    place.write_text("\n".join([head.replace("wide", "width"), *rows[:-1]]) + "\n")
    told = json.loads(run("proof", "sizes.csv", "--json").out)[0]["differences"]
    assert {"row 1 `width`", "row 3 the row"} <= {f"{one['where']} {one['what']}" for one in told}
    (tag.parent / "sizes.json").write_text(
        (tag.parent / "sizes.json").read_text().replace("44.0", "44.02", 1)
    )
    assert "`measures.wide` is 44.0 as drafted and 44.02 in the file" in run("proof", "sizes.json").out


Saved = Callable[[list[list[str]]], bytes]


def saved(
    rows: list[list[str]], separator: str = ",", end: str = "\r\n", quoting: int = csv.QUOTE_MINIMAL
) -> str:
    held = io.StringIO(newline="")
    csv.writer(held, delimiter=separator, lineterminator=end, quoting=quoting).writerows(rows)  # type: ignore[arg-type]
    return held.getvalue()


def with_commas(rows: list[list[str]]) -> list[list[str]]:
    """Numbers as spreadsheets of half of Europe have them, without a nought behind the comma."""
    return [
        [
            cell.removesuffix(".0").replace(".", ",") if re.fullmatch(r"[0-9.]+", cell) else cell
            for cell in row
        ]
        for row in rows
    ]


SPREADSHEETS: dict[str, Saved] = {
    "sorted by another column": lambda rows: saved(
        [rows[0], *sorted(rows[1:], key=lambda row: row[2])]
    ).encode(),
    "sorted backward": lambda rows: saved([rows[0], *reversed(rows[1:])]).encode(),
    "columns backward": lambda rows: saved([row[::-1] for row in rows]).encode(),
    "a byte-order mark": lambda rows: saved(rows).encode("utf-8-sig"),
    "semicolons and commas": lambda rows: saved(with_commas(rows), ";").encode("utf-8-sig"),
    "tabs, as Unicode text": lambda rows: saved(rows, "\t").encode("utf-16"),
    "all in quotes": lambda rows: saved(rows, end="\n", quoting=csv.QUOTE_ALL).encode(),
    "an older encoding": lambda rows: saved(rows, ";").encode("cp1252"),
    "empty rows and columns": lambda rows: saved(
        [[*row, "", ""] for row in (*rows, [""] * len(rows[0]))], ";"
    ).encode(),
}
SIZED = TAG.replace(
    "piece tag",
    'size "schmal": as written\nsize "größer": wide = 50 mm\nsize "am größten": wide = 61.5 mm\npiece tag',
)


@pytest.mark.parametrize("how", SPREADSHEETS)
def test_a_table_that_a_spreadsheet_saved_says_the_same(run: Run, folder: Path, how: str) -> None:
    """Rows are known by their size and its measures; only what differs is told, in its row."""
    (folder / "tag.draft").write_text(SIZED, encoding="utf-8")
    words = ("--with", "high=90mm..92mm/0.5mm", "--format", "csv", "--out", "sizes.csv")
    assert run("sizes", "tag.draft", *words).code == 0
    place = folder / "sizes.csv"
    rows = list(csv.reader(place.open(encoding="utf-8", newline="")))
    place.write_bytes(SPREADSHEETS[how](rows))
    ran = run("proof", "sizes.csv")
    assert (ran.code, ran.out) == (0, "sizes.csv: sizes true to tag.draft\n")
    place.write_bytes(SPREADSHEETS[how](edited(rows)))
    told = json.loads(run("proof", "sizes.csv", "--json").out)[0]["differences"]
    assert sorted((one["where"].partition(", ")[2], one["what"]) for one in told) == [
        ("`am größten`", "`tag.width`"), ("`größer`", "`wide`"), ("`schmal`", "the row"),
    ]  # fmt: skip


def edited(rows: list[list[str]]) -> list[list[str]]:
    """A box of one size and a measure of another changed by hand, and a row of a third gone."""
    head, *sized = (list(row) for row in rows)
    big, bigger = (next(row for row in sized if row[0] == name) for name in ("größer", "am größten"))
    big[head.index("wide")], bigger[head.index("tag.width")] = "51.5", "62.25"
    slim = [row for row in sized if row[0] == "schmal"]
    return [head, *(row for row in sized if row is not slim[2])]


@pytest.fixture
def choir(folder: Path) -> Path:
    (folder / "folder.draft").write_text(FOLDER, encoding="utf-8")
    place = folder / "choir.csv"
    place.write_text(CHOIR, encoding="utf-8")
    return place


def test_a_work_list_that_a_spreadsheet_sorted_says_the_same(run: Run, choir: Path) -> None:
    """Rows are known by their numbers, and files of one person by the row they stand in."""
    assert run("roster", "folder.draft", "choir.csv", "--out", "sets").code == 0
    place = choir.parent / "sets/roster.csv"
    head, *rows = list(csv.reader(place.open(encoding="utf-8-sig", newline="")))
    place.write_bytes(saved([head, *reversed(rows)], ";").encode("utf-8-sig"))
    assert run("proof", "sets/roster.csv").out == "sets/roster.csv: roster true to folder.draft\n"
    rows[0][head.index("words")] = "front.owner: Ona Hill"
    place.write_bytes(saved([head, *reversed(rows)], ";").encode("utf-8-sig"))
    (told,) = json.loads(run("proof", "sets/roster.csv", "--json").out)[0]["differences"]
    assert (told["where"], told["what"]) == ("row 2, `1`", "`words`")


SETS = ("cards.pdf", "roster.csv", "engraving/001-Ona Vale.svg", "engraving/002-Tam Redwick.svg")


@pytest.mark.parametrize(
    ("words", "first_stays"), [("", True), ("--even --letters outline --qr {name}", False)]
)
def test_files_of_a_roster_are_held_against_pattern_and_people(
    run: Run, choir: Path, words: str, first_stays: bool
) -> None:
    """Letters of one height for everybody are other ones where the longest name is another."""
    assert run("roster", "folder.draft", "choir.csv", "--out", "sets", *words.split()).code == 0
    kinds = ("cards", "roster", "engraving", "engraving")
    told = [f"sets/{file}: {kind} true to folder.draft\n" for file, kind in zip(SETS, kinds, strict=True)]
    ran = run("proof", *(f"sets/{file}" for file in SETS))
    assert (ran.code, ran.out) == (0, "".join(told))
    choir.write_text(CHOIR.replace("Tam Redwick", "Tim Redwick"), encoding="utf-8")
    found = json.loads(run("proof", *(f"sets/{file}" for file in SETS), "--json").out)
    assert [one["true"] for one in found] == [False, False, first_stays, False]
    assert (
        "warning C77\n  `choir.csv` has changed since `sets/cards.pdf`" in run("proof", "sets/cards.pdf").out
    )
    choir.rename(choir.with_name("elsewhere.csv"))
    lost = run("proof", "sets/cards.pdf")
    assert lost.code == 2 and "C191" in lost.out and "`choir.csv`" in lost.out


def test_letters_of_one_height_are_fitted_once_for_all_files(
    run: Run, choir: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert run("roster", "folder.draft", "choir.csv", "--out", "sets", "--even").code == 0
    fit, fitted = drafting.Pattern.roster_with, []
    monkeypatch.setattr(
        drafting.Pattern, "roster_with", lambda *asked, **more: fitted.append(asked) or fit(*asked, **more)
    )
    engravings = [str(path) for path in sorted(Path("sets/engraving").iterdir())]
    assert len(engravings) > 1
    assert run("proof", *engravings, "sets/roster.csv").code == 0
    assert len(fitted) == 1


def test_engravings_for_an_engraver_in_dxf_are_held_too(run: Run, choir: Path) -> None:
    assert run("roster", "folder.draft", "choir.csv", "--out", "sets", "--format", "dxf").code == 0
    assert run("proof", "sets/engraving/002-Tam Redwick.dxf").code == 0
    lines = CHOIR.splitlines()
    choir.write_text("\n".join(lines[:-1]) + "\n", encoding="utf-8")
    gone = run("proof", "sets/engraving/002-Tam Redwick.dxf")
    assert gone.code == 1 and "row 2" in gone.out


def test_a_list_is_told_to_be_written_anew(run: Run, tag: Path) -> None:
    assert run("list", "tag.draft", "--out", "list.csv", "--format", "csv").code == 0
    ran = run("proof", "list.csv")
    assert ran.code == 2 and "error C190\n  `list.csv` is of a list" in ran.out


LAID = ("lay.json", "lay.pdf", "sheet-1.svg", "sheet-1.dxf", "leftover-1-1.draft")


@pytest.fixture
def laid(run: Run, tag: Path, folder: Path) -> Path:
    """A lay of two tags on a hide, in the folder `laid`."""
    (folder / "hide.draft").write_text(HIDE, encoding="utf-8")
    asked = (
        "--hide",
        "hide.draft",
        "--steps",
        "1",
        "--paper",
        "a3",
        "--dxf",
        "--gap",
        "3 mm",
        "--grain",
        "tag=any",
    )
    assert run("lay", "tag.draft:2", *asked, "--out", "laid").code == 0
    return folder / "laid"


def test_a_lay_is_held_against_its_patterns_and_its_files_against_it(run: Run, laid: Path) -> None:
    ran = run("proof", *(f"laid/{file}" for file in LAID))
    assert ran.code == 0
    assert ran.out.splitlines() == [
        "laid/lay.json: lay true to tag.draft, hide.draft",
        *(f"laid/{file}: lay true to lay.json" for file in LAID[1:]),
    ]
    assert run("lay", "laid/lay.json", "--out", "again").code == 0
    assert (laid / "lay.json").read_bytes() == (laid.parent / "again/lay.json").read_bytes()


@pytest.mark.parametrize("stock", [("--panel", "100x100"), ("--roll", "120 mm")])
def test_lays_on_panels_and_rolls_are_held_as_well(
    run: Run, tag: Path, stock: tuple[str, str], folder: Path
) -> None:
    """The second order takes more parts than the first, and another length of the roll."""
    assert run("lay", "tag.draft:5", *stock, "--steps", "1", "--out", "o").code == 0
    files = [str(path.relative_to(folder)) for path in sorted((folder / "o").iterdir())]
    assert "o/sheet-1.svg" in files and run("proof", *files).code == 0
    assert run("lay", "tag.draft:7", *stock, "--steps", "1", "--out", "p").code == 0
    (folder / "o/lay.json").write_bytes((folder / "p/lay.json").read_bytes())
    ran = run("proof", "o/sheet-1.svg", "o/lay.json")
    assert "o/lay.json: lay true" in ran.out and "`lay.json` has changed since" in ran.out
    assert ran.code == (1 if stock[0] == "--roll" else 0)


def test_a_pattern_that_changed_since_differs_from_its_lay(run: Run, laid: Path, tag: Path) -> None:
    tag.write_text(TAG.replace("by 6 mm", "by 7 mm"), encoding="utf-8")
    ran = run("proof", "laid/lay.json", "laid/sheet-1.svg")
    assert ran.code == 1
    assert "warning C77\n  `tag.draft` has changed since `laid/lay.json`" in ran.out
    assert "tag: tag: area is" in ran.out and "laid/sheet-1.svg: lay true to lay.json" in ran.out


def test_a_hide_that_changed_or_is_gone_is_told(run: Run, laid: Path, folder: Path) -> None:
    hide = folder / "hide.draft"
    hide.write_text(HIDE.replace("12 mm across", "14 mm across"), encoding="utf-8")
    ran = run("proof", "laid/lay.json")
    assert ran.code == 1 and "shoulder, defect 1: area is" in ran.out
    (folder / "skins").mkdir()
    hide.write_text(HIDE, encoding="utf-8")
    hide.rename(folder / "skins/hide.draft")
    lost = run("proof", "laid/lay.json")
    assert lost.code == 2 and "C76" in lost.out and "`--pattern hide.draft`" in lost.out
    assert run("proof", "laid/lay.json", "--pattern", "skins/hide.draft").code == 0


def test_what_was_altered_in_a_lay_is_told(run: Run, laid: Path) -> None:
    kept = json.loads((laid / "lay.json").read_text(encoding="utf-8"))
    kept["sheets"][0]["parts"][1] = kept["sheets"][0]["parts"][0]
    (laid / "lay.json").write_text(json.dumps(kept, ensure_ascii=False, indent=1) + "\n", encoding="utf-8")
    ran = run("proof", "laid/lay.json")
    assert (
        ran.code == 1
        and "the lay: what its judge finds is nothing as drafted and on sheet 1 parts 1 and 2" in ran.out
    )
    moved = run("proof", "laid/sheet-1.svg", "laid/sheet-1.dxf", "laid/lay.pdf")
    assert moved.code == 1 and moved.out.count("error C78") == 3
    kept["asked"]["patterns"][0]["asked"] = {}
    (laid / "lay.json").write_text(json.dumps(kept, ensure_ascii=False, indent=1) + "\n", encoding="utf-8")
    assert "what it says of its patterns is not as this tool writes it" in run("proof", "laid/lay.json").out


@pytest.mark.parametrize(
    ("file", "pattern", "instead", "told"),
    [
        ("sheet-1.svg", r'<g class="part" id="part-part-2">.*?</g>', "", "the count of its parts is 2 as drafted and 1"),
        ("sheet-1.svg", r'(<g class="part" id="part-part-2">)', r'\1<path class="cut" d="M 50,50 L 60,50" />', "and 3"),
        ("sheet-1.svg", r'(id="part-part-2")', r'\1 transform="translate(0.02)"', "part 2, tag: tag: left edge"),
        ("sheet-1.svg", r'(<g class="part" id="part-part-2">)(.*?)</g>', r'<g class="frame">\2</g>', "a cut line in"),
        ("sheet-1.svg", r'>1:([0-9]+)<', r'>1:100<', "the edge of the stock: length"),
        ("leftover-1-1.draft", r"point e1: at \(", "point e1: at (1", "row"),
    ],
)  # fmt: skip
def test_each_alteration_of_a_file_of_a_lay_is_told(
    file: str, pattern: str, instead: str, told: str, run: Run, laid: Path
) -> None:
    text = (laid / file).read_text(encoding="utf-8")
    altered = re.sub(pattern, instead, text, count=1, flags=re.DOTALL)
    assert altered != text
    (laid / file).write_text(altered, encoding="utf-8")
    ran = run("proof", f"laid/{file}")
    assert ran.code == 1 and told in ran.out, ran.out


def test_a_pattern_with_faults_proves_nothing(run: Run, tag: Path) -> None:
    assert run(*WRITE["tag.pdf"].split()).code == 0
    tag.write_text(LOOSE, encoding="utf-8")
    ran = run("proof", "tag.pdf")
    assert ran.code == 1 and "S01" in ran.out


def test_a_size_that_is_gone_is_a_difference(run: Run, tag: Path) -> None:
    sized = TAG.replace("piece tag", 'size "small": as written\npiece tag', 1)
    tag.write_text(sized, encoding="utf-8")
    assert run(*WRITE["tag.pdf"].split(), "--size", "small").code == 0
    tag.write_text(sized.replace("small", "little"), encoding="utf-8")
    ran = run("proof", "tag.pdf")
    assert ran.code == 1 and "the size `small`" in ran.out
