"""`awlwright list`: a batch on one page, or for other programs."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import pytest

import drafting
from drafting.cli.list import Wanted, wanted_of
from drafting.cli.words import WrongUse
from tests.cli.conftest import Run
from tests.cli.patterns import LOOSE, TAG, TWO_SIZES

STOCKED = TAG.replace("piece tag:", "stock body: leather; 2 mm thick\npiece tag: cut 2 from body;")
PRICES = 'currency = "EUR"\n[body]\nprice = "100"\nper = "m2"\nweight = "2000 g/m2"\n'


@pytest.fixture
def tag(folder: Path) -> str:
    (folder / "tag.draft").write_text(STOCKED, encoding="utf-8")
    (folder / "sizes.draft").write_text(TWO_SIZES, encoding="utf-8")
    (folder / "prices.toml").write_text(PRICES, encoding="utf-8")
    return "tag.draft"


def test_a_batch_on_a_page(run: Run, tag: str) -> None:
    """Two tags of 35.69 cm² a copy: 24 copies take 48, 17.13 dm²; at 70 % 24.47 dm² for 24.47 EUR at 1 EUR a dm²."""
    ran = run("list", "tag.draft:24", "--yield", "70%", "--prices", "prices.toml")
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.startswith(
        "Tool library tag: 24 copies\n"
        "  part  stock  each  in all  size                                 area of one, dm²    ft²\n"
        "  tag   body      2      48  40 mm × 90 mm [1.575 in × 3.543 in]              0.36  0.038\n"
    )
    assert "17.13  1.844         24.47  2.634                343 g" in ran.out
    assert "24.47 dm² (2.634 ft²)  24.47 EUR" in ran.out


def test_two_patterns_in_one_order(run: Run, tag: str) -> None:
    ran = run("list", "tag.draft:2", 'sizes.draft:3/"broad"', "sizes.draft/slim", "--format", "json")
    record = json.loads(ran.out)
    assert [(one["pattern"], one["size"], one["copies"]) for one in record["patterns"]] == [
        ("tag", None, 2),
        ("sizes", "broad", 3),
        ("sizes", "slim", 1),
    ]
    widths = [one["parts"][0]["width"] for one in record["patterns"]]
    assert widths == pytest.approx([40, 60, 40])


def test_copies_and_size_hold_for_whoever_says_none(run: Run, tag: str) -> None:
    ran = run(
        "list", "sizes.draft", "sizes.draft:2/slim", "--copies", "5", "--size", "broad", "--format", "csv"
    )
    rows = [row for row in csv.DictReader(io.StringIO(ran.out)) if row["kind"] == "part"]
    assert list(dict.fromkeys((row["size"], row["in_all"]) for row in rows)) == [
        ("broad", "5"),
        ("slim", "2"),
    ]


def test_it_may_go_to_a_file(run: Run, tag: str, folder: Path) -> None:
    ran = run("list", tag, "--format", "md", "--out", "lists/tag.md")
    assert (ran.code, ran.out) == (0, "")
    assert (folder / "lists/tag.md").read_text(encoding="utf-8").startswith("## Tool library tag: 1 copy\n")


def test_from_python_it_is_the_same(run: Run, tag: str) -> None:
    ran = run("list", "tag.draft:24", "--format", "json", "--prices", "prices.toml", "--with", "wide=5 cm")
    placed = drafting.load(tag).place(wide="5 cm")
    listed = drafting.list_order([(placed, 24)], prices=drafting.read_prices("prices.toml"))
    assert json.loads(ran.out) == listed.record()


@pytest.mark.parametrize("wrong", [{"fraction": 0}, {"fraction": 1.5}, {"tail": -1}])
def test_python_refuses_what_is_no_batch(folder: Path, tag: str, wrong: dict[str, float]) -> None:
    with pytest.raises(ValueError):
        drafting.list_order([(drafting.load(tag).place(), 1)], **wrong)  # type: ignore[arg-type]


@pytest.mark.parametrize("copies", [0, -3, 1.5, True, "12", float("nan")])
def test_python_refuses_what_is_no_number_of_copies(folder: Path, tag: str, copies: int) -> None:
    order = [(drafting.load(tag).place(), copies)]
    with pytest.raises(ValueError, match="is no number of copies"):
        drafting.list_order(order)
    with pytest.raises(ValueError, match="is no number of copies"):
        drafting.lay_order(order, panel=(600.0, 400.0, None))


def test_a_pattern_with_faults_is_not_listed(run: Run, tag: str, folder: Path) -> None:
    (folder / "loose.draft").write_text(LOOSE, encoding="utf-8")
    ran = run("list", "loose.draft", tag, "--out", "list.txt")
    assert ran.code == 1 and "S01" in ran.err
    assert not (folder / "list.txt").exists()


def test_every_size_that_is_not_there_is_told_with_its_pattern(run: Run, tag: str, folder: Path) -> None:
    ran = run("list", "sizes.draft/brod", "sizes.draft:2/huge", "tag.draft/slim", tag, "--out", "list.txt")
    told = [line.strip() for line in ran.err.splitlines() if "size" in line]
    assert told == [
        "`sizes.draft` is not made in the size `brod`.",
        "mend: Its sizes are `slim`, `broad`. Did you mean `broad`?",
        "`sizes.draft` is not made in the size `huge`.",
        "mend: Its sizes are `slim`, `broad`.",
        "`tag.draft` is not made in the size `slim`.",
        "mend: It has none: leave the size out.",
    ]
    assert ran.code == 2 and not (folder / "list.txt").exists()


def test_all_that_is_wrong_with_the_words_is_told_in_one_run(run: Run, tag: str, folder: Path) -> None:
    words = (
        "a.draft:12",
        "b.draft:6",
        "sizes.draft/brod",
        "tag.draft:0",
        "a.draft:2",
        "--prices",
        "none.toml",
    )
    ran = run("list", *words, "--out", "list.txt")
    told = [line.strip() for line in ran.err.splitlines() if "`" in line and "mend:" not in line]
    assert sorted(told) == [
        "`--prices none.toml` names no price list: there is no such file.",
        "`a.draft` cannot be read: there is no such file.",
        "`b.draft` cannot be read: there is no such file.",
        "`sizes.draft` is not made in the size `brod`.",
        "`tag.draft:0` asks for `0` copies, and a batch is from 1 to 1,000,000.",
    ]
    assert ran.code == 2 and not (folder / "list.txt").exists()


def test_a_fault_of_the_price_list_is_told_at_its_row(run: Run, tag: str, folder: Path) -> None:
    (folder / "p.csv").write_text("name,price,currency\nbody,1,EUR\nfilm,2,GBP\n", encoding="utf-8")
    ran = run("list", tag, "--prices", "p.csv")
    assert ran.code == 1 and ran.err.startswith("p.csv:3:1  error C94\n")


@pytest.mark.parametrize(
    ("other", "code", "told"),
    [("none.draft", 2, "C01"), ("loose.draft", 1, "S01"), ("sizes.draft/brod", 2, "C172")],
)
def test_a_fault_of_the_price_list_hides_nothing(
    run: Run, tag: str, folder: Path, other: str, code: int, told: str
) -> None:
    (folder / "loose.draft").write_text(LOOSE, encoding="utf-8")
    (folder / "p.csv").write_text("name,price,currency\nbody,1,EUR\nfilm,2,GBP\n", encoding="utf-8")
    ran = run("list", tag, other, "--prices", "p.csv", "--out", "list.txt")
    assert ran.code == code and told in ran.err and ran.err.count("p.csv:3:1  error C94") == 1
    assert not (folder / "list.txt").exists()


def test_a_price_list_in_another_encoding_is_told(run: Run, tag: str, folder: Path) -> None:
    (folder / "p.csv").write_bytes("name,price,currency\nbody,1,EUR\nboîte,2,EUR\n".encode("latin-1"))
    ran = run("list", tag, "--prices", "p.csv", "--out", "list.txt")
    assert ran.code == 2 and "C108" in ran.err and "line 3 is not UTF-8 text" in ran.err
    assert not (folder / "list.txt").exists()


def test_what_has_no_price_is_told(run: Run, tag: str, folder: Path) -> None:
    (folder / "p.toml").write_text('currency = "EUR"\n[bodi]\nprice = 1\nper = "dm2"\n', encoding="utf-8")
    ran = run("list", tag, "--prices", "p.toml")
    assert ran.code == 0 and "warning K56" in ran.err and "Did you mean `bodi`?" in ran.err


@pytest.mark.parametrize(
    ("file", "text", "mend"),
    [
        ("p.toml", 'currency = "EUR"\n', '`[body]` and under it `price = "1.20"` and `per = "m2"`.'),
        ("p.csv", "currency;name;weight;per;price\nEUR;film;;dm2;1\n", "the row `EUR;body;;m2;1.20`."),
        ("p.toml", 'currency = "EUR"\n[body]\nprice = 1\n', '`per = "m2"`.'),
        ("p.csv", "name,price,currency,per\nbody,1,EUR,\n", "`m2` in its column `per`."),
    ],
)
def test_a_price_is_mended_in_the_form_of_its_list(
    run: Run, tag: str, folder: Path, file: str, text: str, mend: str
) -> None:
    (folder / file).write_text(text, encoding="utf-8")
    ran = run("list", tag, "--prices", file)
    assert ran.code == 0 and f"such as {mend}\n" in ran.err


@pytest.mark.parametrize(
    ("word", "wanted"),
    [
        ("tag.draft", Wanted("tag.draft", None, None)),
        ("tag.draft:12", Wanted("tag.draft", 12, None)),
        ('tag.draft:12/"A5"', Wanted("tag.draft", 12, "A5")),
        ("tag.draft:12/A5", Wanted("tag.draft", 12, "A5")),
        ('tag.draft/"1:5 / 2"', Wanted("tag.draft", None, "1:5 / 2")),
        ("a:3.draft", Wanted("a:3.draft", None, None)),
        ("a:3.draft:4/wide", Wanted("a:3.draft", 4, "wide")),
        ("in/tag.draft:2", Wanted("in/tag.draft", 2, None)),
        ("in/tag.draft", Wanted("in/tag.draft", None, None)),
        ("-:3", Wanted("-", 3, None)),
        ("C:\\tags\\tag.draft", Wanted("C:\\tags\\tag.draft", None, None)),
        ("C:\\tags\\tag.draft:12/A5", Wanted("C:\\tags\\tag.draft", 12, "A5")),
        ("C:/tags/tag.draft:12", Wanted("C:/tags/tag.draft", 12, None)),
        ("nowhere/tag.draft", Wanted("nowhere/tag.draft", None, None)),
    ],
)
def test_a_word_names_a_file_copies_and_a_size(folder: Path, word: str, wanted: Wanted) -> None:
    (folder / "in").mkdir()
    for name in ("tag.draft", "a:3.draft", "in/tag.draft"):
        (folder / name).touch()
    assert wanted_of(word) == wanted


@pytest.mark.parametrize("copies", ["0", "-1", "10000000", "1.5", "twelve", "٣", "1e3"])
def test_what_is_no_number_of_copies_is_refused(folder: Path, copies: str) -> None:
    (folder / "tag.draft").touch()
    with pytest.raises(WrongUse) as caught:
        wanted_of(f"tag.draft:{copies}")
    assert caught.value.message.code == "C101"


def test_the_sizes_of_a_buckle_are_told_in_both_units(run: Run, folder: Path) -> None:
    buckle = "hardware buckle: need 1; 16 mm inside; 2 mm prong; 3 mm bar\npiece tag:"
    (folder / "strap.draft").write_text(TAG.replace("piece tag:", buckle), encoding="utf-8")
    ran = run("list", "strap.draft")
    assert "buckle: 16 mm inside [0.63 in], prong 2 mm [0.079 in], bar 3 mm [0.118 in]" in ran.out


def test_the_name_of_a_file_says_its_format_where_no_other_is_said(run: Run, tag: str, folder: Path) -> None:
    for words, head in (
        (("--out", "list.csv"), "kind,pattern,"),
        (("--out", "list.JSON"), "{"),
        (("--out", "list.md"), "## "),
        (("--out", "list.txt"), "Tool library tag"),
        (("--out", "told.csv", "--format", "table"), "Tool library tag"),
    ):
        assert run("list", tag, *words).code == 0
        assert (folder / words[1]).read_text(encoding="utf-8").startswith(head)
    assert run("sizes", tag, "--out", "sizes.svg").code == 0
    assert (folder / "sizes.svg").read_text(encoding="utf-8").startswith("<?xml")
