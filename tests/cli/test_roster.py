"""`awlwright roster`: one set a row, or nothing; every message of its catalogue, shown."""

from __future__ import annotations

import csv
import re
from io import StringIO
from pathlib import Path

import pytest

import drafting
from drafting.proof.disagreement import Disagreement
from drafting.text.catalogue import entries_of
from drafting.text.catalogue import roster as says
from tests.cli.conftest import Run
from tests.cli.patterns import TAG
from tests.drawing.rosters import CHOIR, FOLDER

Patch = pytest.MonkeyPatch


@pytest.fixture(autouse=True)
def files(folder: Path) -> None:
    (folder / "folder.draft").write_text(FOLDER, encoding="utf-8")
    (folder / "tag.draft").write_text(TAG, encoding="utf-8")
    (folder / "choir.csv").write_text(CHOIR, encoding="utf-8")


def found_in(folder: Path) -> list[str]:
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())


def test_a_set_is_made_for_each_row(run: Run, folder: Path) -> None:
    ran = run("roster", "folder.draft", "choir.csv", "--out", "deep/sets")
    told = "deep/sets/engraving: 2 engravings\ndeep/sets/cards.pdf: 2 cards on 1 sheet\ndeep/sets/roster.csv: 2 rows\n"
    assert (ran.code, ran.out, ran.err) == (0, told, "")
    names = ["cards.pdf", "engraving/001-Ona Vale.svg", "engraving/002-Tam Redwick.svg", "roster.csv"]
    assert found_in(folder / "deep/sets") == names


def test_the_work_list_says_what_is_whose(run: Run, folder: Path) -> None:
    run("roster", "folder.draft", "choir.csv", "--out", "sets")
    listed = list(csv.DictReader(StringIO((folder / "sets/roster.csv").read_text(encoding="utf-8-sig"))))
    assert [row["engraving"] for row in listed] == [
        "engraving/001-Ona Vale.svg",
        "engraving/002-Tam Redwick.svg",
    ]
    assert [(row["line"], row["size"], row["card_sheet"], row["card_place"]) for row in listed] == [
        ("2", "slim", "1", "1"),
        ("3", "broad", "1", "2"),
    ]
    assert listed[0]["words"] == "front.owner: Ona Vale; front.house: BELLS; tab.voice: alto"


def test_the_same_roster_gives_the_same_bytes(run: Run, folder: Path) -> None:
    for out in ("one", "two"):
        run("roster", "folder.draft", "choir.csv", "--out", out, "--qr", "{name}")
    for name in found_in(folder / "one"):
        assert (folder / "one" / name).read_bytes() == (folder / "two" / name).read_bytes()


def test_names_of_files_are_safe_and_unlike_in_any_script(run: Run, folder: Path) -> None:
    people = ["../up", "Ona/Vale", "ona:vale", "宮本 結", "שרה", "x" * 300, "  .", "CON", "a\u202eb"]
    rows = "".join(f'"{name}",alto,slim\n' for name in people)
    (folder / "any.csv").write_text("name,voice,size\n" + rows, encoding="utf-8")
    words = ("--column", "owner=voice", "--no-cards")
    assert run("roster", "folder.draft", "any.csv", "--out", "sets", *words).code == 0
    names = [path.name for path in (folder / "sets/engraving").iterdir()]
    assert len(names) == len({name.casefold() for name in names}) == len(people)
    assert all(re.fullmatch(r'00\d-[^/\\:*?"<>|\x00-\x1f\u202e]{1,40}\.svg', name) for name in names)
    assert found_in(folder / "sets")[-1] == "roster.csv" and not list(folder.glob("up*"))


def test_a_spreadsheet_of_another_encoding(run: Run, folder: Path) -> None:
    (folder / "old.csv").write_bytes("name;voice;size\nJosé;alto;slim\n".encode("cp1252"))
    ran = run("roster", "folder.draft", "old.csv", "--out", "sets")
    assert ran.code == 1 and "C131" in ran.err and not (folder / "sets").exists()
    assert run("roster", "folder.draft", "old.csv", "--out", "sets", "--encoding", "cp1252").code == 0
    assert (folder / "sets/engraving/001-José.svg").is_file()


def test_files_of_an_earlier_roster_are_named(run: Run, folder: Path) -> None:
    run("roster", "folder.draft", "choir.csv", "--out", "sets")
    (folder / "choir.csv").write_text(CHOIR.replace("Tam", "Ida"), encoding="utf-8")
    ran = run("roster", "folder.draft", "choir.csv", "--out", "sets")
    assert (ran.code, ran.err.count("002-Tam Redwick.svg")) == (0, 1)


def test_warnings_do_not_keep_it_from_being_made(run: Run, folder: Path) -> None:
    (folder / "twice.csv").write_text(CHOIR + ",,\nOna Vale,alto,slim\n", encoding="utf-8")
    ran = run("roster", "folder.draft", "twice.csv", "--out", "sets")
    assert ran.code == 0 and ran.out.endswith("3 rows\n")
    assert "C147" in ran.err and "C148" in ran.err


def test_of_very_many_faults_the_first_are_told_and_the_rest_counted(run: Run, folder: Path) -> None:
    rows = "".join(f"Ona {number},alto,huge\n" for number in range(60))
    (folder / "many.csv").write_text("name,voice,size\n" + rows, encoding="utf-8")
    ran = run("roster", "folder.draft", "many.csv", "--out", "sets")
    assert (ran.code, ran.err.count("error C144")) == (1, 40)
    assert ran.err.endswith("40 faults\nand 20 more that are not shown here\n")


def test_nothing_is_written_when_a_file_is_untrue(run: Run, folder: Path, monkeypatch: Patch) -> None:
    wrong = Disagreement("sheet 1", "what is written on it", "Ona", "Oma")
    monkeypatch.setattr("drafting.proof.cards.check_cards", lambda data, sheets: [wrong])
    before = found_in(folder)
    ran = run("roster", "folder.draft", "choir.csv", "--out", "sets")
    assert ran.code == 3 and "C15" in ran.err
    assert found_in(folder) == before


def test_a_faulty_pattern_makes_nothing(run: Run, folder: Path) -> None:
    (folder / "folder.draft").write_text(FOLDER.replace("lying 20 deg", ""), encoding="utf-8")
    ran = run("roster", "folder.draft", "choir.csv", "--out", "sets")
    assert ran.code == 1 and not (folder / "sets").exists()


def test_rows_of_another_form_hide_no_fault_of_the_others(run: Run, folder: Path) -> None:
    (folder / "choir.csv").write_text(
        'name,voice,size\nIda\nOna,alto,slimm\n"Tam,bass,slim\n', encoding="utf-8"
    )
    ran = run("roster", "folder.draft", "choir.csv", "--out", "sets")
    found = [line.rpartition(" ")[2] for line in ran.err.splitlines() if line.startswith("choir.csv:")]
    assert (found, ran.code) == (["C135", "C144", "C137"], 1)
    assert not (folder / "sets").exists()
    with pytest.raises(drafting.Faults):
        drafting.load("folder.draft").roster("choir.csv")


def test_a_word_for_a_measure_asks_for_an_amount(run: Run, folder: Path) -> None:
    (folder / "choir.csv").write_text("name,voice,wide\nOna,alto,broad\nTam,bass,\n", encoding="utf-8")
    ran = run(
        "roster", "folder.draft", "choir.csv", "--out", "sets", "--size", "slim", "--column", "wide=wide"
    )
    assert "Write an amount with its unit, such as `12 mm`." in ran.err
    assert "Line 3: there is nothing under `wide`, which tells the measure `wide`." in ran.err


def test_from_python(folder: Path) -> None:
    roster = drafting.load("folder.draft").roster("choir.csv")
    assert [person.title for person in roster.people] == ["Ona Vale", "Tam Redwick"]
    assert roster.engraving(roster.people[0]).to_svg().startswith(b"<?xml")
    assert roster.cards_pdf().startswith(b"%PDF")
    (folder / "choir.csv").write_text("nam,voice,size\nOna,alto,slim\n", encoding="utf-8")
    with pytest.raises(drafting.Faults, match="takes its text from the column `name`"):
        drafting.load("folder.draft").roster("choir.csv")


# Every message

TOO_LARGE = FOLDER.replace("85 mm by 54 mm", "300 mm by 200 mm")
WITHOUT_CONTENT = re.sub(r"content .*\n", "", FOLDER)
SHOWN: dict[str, tuple[str | bytes, str]] = {
    "C171": (CHOIR + "Ida,alto,\n", ""),
    "C130": (CHOIR, "--encoding utf8x"),
    "C131": (b"name\n\xff\n", ""),
    "C217": (b"PK\x03\x04\x14\x00", ""),
    "C132": ("name,a;b\nx,y;z\n", ""),
    "C133": ("", ""),
    "C134": ("name,voice,size\n", ""),
    "C135": (CHOIR + "Ida\n", ""),
    "C136": ("name,name\nOna,x\n", ""),
    "C137": ('name,voice,size\n"Ona,alto,slim\n', ""),
    "C138": (CHOIR, "--column owner=nam"),
    "C139": (CHOIR, "--column wonor=name"),
    "C140": (CHOIR, "--column owner"),
    "C141": (CHOIR, "tag.draft"),
    "C142": (CHOIR, "--card crad"),
    "C143": (CHOIR, "--line {nmae}"),
    "C200": (CHOIR, "--qr name}"),
    "C216": (CHOIR, "bare.draft --line {name}"),
    "C144": ("name,voice,size\nOna,alto,slimm\n", ""),
    "C145": ("name,voice,size\n鶴,alto,slim\n", "--no-cards"),
    "C146": (CHOIR, "--least 20mm"),
    "C147": (CHOIR + "Ona Vale,alto,slim\n", ""),
    "C148": (CHOIR + ",,\n", ""),
    "C149": (CHOIR + "Ida,,slim\n", ""),
    "H80": ("name,voice,belt\nOna,alto,9\n", "--size slim --column wide=belt"),
    "H81": (f"name,voice,size\nOna,{'alto' * 12},slim\n", "--no-cards"),
    "H82": (f"name,voice,size\n{'Ona ' * 700},,slim\n", "--qr {name} --line {size} --column owner=size"),
    "H83": (CHOIR, "large.draft"),
}
WORDS = {"C130", "C138", "C139", "C140", "C142", "C143", "C200", "C216", "H83"}
"""What is wrong with the words of the command, and not with the pattern or the table."""
MENDS = {
    "C138": "such as `--column owner=name`. Did you mean `name`?",
    "C139": "Did you mean `owner`?",
    "C142": "Contents are card. Did you mean `card`?",
    "C143": "Did you mean `name`?",
    "C144": "Sizes are `slim`, `broad`. Did you mean `slim`? Or leave this column aside: say one for everybody, such as "
    "`--size slim`.",
    "H80": "Write `9 mm`",
}


def test_a_pattern_and_a_table_that_are_not_there_are_told_in_one_run(run: Run, folder: Path) -> None:
    ran = run("roster", "none.draft", "none.csv", "--out", "sets")
    assert [line.split("`")[1] for line in ran.err.splitlines() if "cannot be read" in line] == [
        "none.draft",
        "none.csv",
    ]
    assert ran.code == 2 and not (folder / "sets").exists()


def test_all_names_that_are_not_there_are_told_in_one_run(run: Run, folder: Path) -> None:
    """Whether or not other words are wrong, too."""
    words = (
        "--column",
        "wonor=name",
        "--column",
        "owner=nam",
        "--card",
        "crad",
        "--line",
        "{nmae}",
        "--qr",
        "name}",
    )
    codes = {"C139", "C138", "C142", "C143", "C200"}
    for more, others in (
        ((), set()),
        (("--encoding", "utf8x", "--size", "huge", "--least", "0"), {"C130", "C221", "C222"}),
    ):
        ran = run("roster", "folder.draft", "choir.csv", "--out", "sets", *words, *more)
        told = re.findall(r"error (\w+)$", ran.err, re.M)
        assert ran.code == 2 and set(told) == codes | others and len(told) == len(set(told))
        assert "choir.csv:1:1" in ran.err and not (folder / "sets").exists()


def test_a_mend_can_be_typed_whatever_the_heading_is(run: Run, folder: Path) -> None:
    (folder / "choir.csv").write_text("Sung by,voice,size\nOna,alto,slim\n", encoding="utf-8")
    ran = run("roster", "folder.draft", "choir.csv", "--out", "sets")
    assert ran.code == 1 and "such as `--column 'owner=Sung by'`" in ran.err
    assert run("roster", "folder.draft", "choir.csv", "--out", "sets", "--column", "owner=Sung by").code == 0


@pytest.mark.parametrize("code", SHOWN)
def test_a_message_is_shown_with_its_mend(run: Run, folder: Path, code: str) -> None:
    (folder / "large.draft").write_text(TOO_LARGE, encoding="utf-8")
    (folder / "bare.draft").write_text(WITHOUT_CONTENT, encoding="utf-8")
    text, words = SHOWN[code]
    (folder / "people.csv").write_bytes(text if isinstance(text, bytes) else text.encode())
    first, *rest = words.split() or ["folder.draft"]
    pattern, options = (first, rest) if first.endswith(".draft") else ("folder.draft", [first, *rest])
    ran = run("roster", pattern, "people.csv", "--out", "sets", *options)
    severity = "warning" if code in ("C147", "C148", "C149") else "error"
    assert f"{severity} {code}\n" in ran.err
    assert MENDS.get(code, "mend: ") in ran.err
    assert "{" not in ran.err.replace("{name}", "").replace("{nmae}", "").replace("{voice}", "").replace(
        "{size}", ""
    )
    assert ran.code == (0 if severity == "warning" else 2 if code in WORDS else 1)
    assert (folder / "sets").exists() == (ran.code == 0)


def test_every_entry_is_shown_here() -> None:
    assert {entry.code for entry in entries_of(says)} == {*SHOWN, "C170"}


@pytest.mark.parametrize(
    ("words", "code"),
    [
        ("--letters script", "C221"),
        ("--separator dot", "C221"),
        ("--size huge", "C221"),
        ("--paper a9", "C40"),
        ("--colum owner=name", "C05"),
    ],
)
def test_wrong_words(run: Run, folder: Path, words: str, code: str) -> None:
    ran = run("roster", "folder.draft", "choir.csv", "--out", "sets", *words.split())
    assert ran.code == 2 and code in ran.err
    assert not (folder / "sets").exists()


def test_a_table_that_is_not_there(run: Run) -> None:
    ran = run("roster", "folder.draft", "crew.csv", "--out", "sets")
    assert ran.code == 2 and "C170" in ran.err and "there is no such file" in ran.err
