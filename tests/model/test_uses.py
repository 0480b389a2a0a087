"""Files that are used: what they bring, from where they may come, and whose faults are told."""

from __future__ import annotations

from pathlib import Path

import pytest

import drafting

STRAPS = """measure bar = 3 mm
measure widths = 5 mm, 7 mm
stock bridle: leather; 3 mm thick
hardware ring: need 1; 20 mm inside
block strap(wide, far = 40 mm)
  cut 1 from bridle
  grain level
  outline: box far + bar by wide
block loop()
""".replace(
    "block loop()\n", "block loop(wide = ring.inside)\n  grain any\n  outline: box wide by bridle.thick\n"
)
TAG = 'use "blocks/straps.draft" as s\n'


def folder_of(tmp_path: Path, **files: str) -> Path:
    """A folder with these files, `blocks__straps` standing for blocks/straps.draft."""
    for name, text in files.items():
        path = tmp_path / (name.replace("__", "/") + ".draft")
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return tmp_path


def said(path: Path, blocks: Path | None = None) -> list[tuple[str, str]]:
    """Code and file name of each message."""
    messages = drafting.load(path, blocks).check()
    return [(message.code, Path(message.at.source.name).name if message.at else "") for message in messages]


def measured(tmp_path: Path, text: str, **wanted: float) -> None:
    placed = drafting.load(folder_of(tmp_path, tag=TAG + text, blocks__straps=STRAPS) / "tag.draft").place()
    assert {name: placed.measure(name.replace("__", ".")).value for name in wanted} == pytest.approx(wanted)


def test_blocks_stocks_and_measures_are_brought(tmp_path: Path) -> None:
    text = """measure bar = 90 mm
measure both = sum(s.widths)
piece a: like s.strap(wide = 20 mm + s.bar)
piece b: like s.strap(wide = bar, far = s.widths.2); cut 2 from s.bridle
piece c: like s.loop
check s.bridle.thick = 3 mm
"""
    measured(
        tmp_path,
        text,
        a__width=43,
        a__height=23,
        b__width=10,
        b__height=90,
        both=12,
        c__width=20,
        c__height=3,
    )
    placed = drafting.load(tmp_path / "tag.draft").place()
    assert (placed.pieces["b"].stock, placed.pieces["b"].count) == ("s.bridle", 2)
    assert [stock.name for stock in placed.placed.item.stocks] == ["s.bridle"]


def test_a_file_is_named_as_it_is_called(tmp_path: Path) -> None:
    text = 'use "blocks/straps.draft"\npiece a: like straps.strap(wide = 9 mm)\n'
    assert said(folder_of(tmp_path, tag=text, blocks__straps=STRAPS) / "tag.draft") == []


def test_a_block_keeps_the_names_of_its_own_file(tmp_path: Path) -> None:
    """Also where the piece, and the pattern, use the same names for something else."""
    text = """measure far = 11 mm
stock bridle: sheet; 1 mm thick
piece a: like s.strap(wide = far)
  mark bar: at (far, 0)
"""
    measured(tmp_path, text, a__width=43, a__height=11, a__bar__x=11)


def test_a_file_that_is_used_may_use_another(tmp_path: Path) -> None:
    """From its own folder; what it uses is its own."""
    middle = 'use "straps.draft" as t\nblock two(wide)\n  like t.strap(wide = 2*wide + t.bar)\n'
    text = 'use "blocks/middle.draft" as m\npiece a: like m.two(wide = 10 mm)\n'
    path = folder_of(tmp_path, tag=text, blocks__middle=middle, blocks__straps=STRAPS) / "tag.draft"
    assert said(path) == []
    assert drafting.load(path).place().measure("a.height").value == pytest.approx(23)
    path.write_text(text + "check m.t.bar > 0\npiece b: like m.t.strap(wide = 3 mm)\n")
    assert said(path) == [("M93", "tag.draft")] * 2


def test_faults_of_a_used_file_are_told_once_with_its_name(tmp_path: Path) -> None:
    faulty = (
        STRAPS.replace("far + bar by", "far + bat by")
        + "piece demo\n  outline: 3 across\nmeasure no = 3 what\n"
    )
    text = TAG + 'use "blocks/straps.draft" as again\npiece a: like s.strap(wide = 9 mm)\n'
    text += "piece b: like again.strap(wide = 9 mm)\npiece c\n  outline: 9 across\n"
    path = folder_of(tmp_path, tag=text, blocks__straps=faulty) / "tag.draft"
    assert sorted(said(path)) == [
        ("M01", "straps.draft"),
        ("M03", "straps.draft"),
        ("M03", "tag.draft"),
        ("T20", "straps.draft"),
    ]


def test_shared_blocks_lie_below_their_own_folder(tmp_path: Path) -> None:
    folder_of(
        tmp_path,
        work__tag=TAG.replace("blocks/", "") + "piece a: like s.strap(wide = 9 mm)\n",
        shared__straps=STRAPS,
    )
    path = tmp_path / "work" / "tag.draft"
    assert said(path) == [("M96", "tag.draft")]
    assert said(path, tmp_path / "shared") == []


@pytest.mark.parametrize(
    "way", ["../outside.draft", "blocks/../../outside.draft", "link.draft", "/{}/outside.draft"]
)
def test_nothing_outside_is_used(tmp_path: Path, way: str) -> None:
    """Neither by `..` nor by a symbolic link nor by its whole path; and whether it is there is not told."""
    folder_of(tmp_path, outside=STRAPS, work__blocks__own=STRAPS)
    (tmp_path / "work" / "link.draft").symlink_to(tmp_path / "outside.draft")
    way = way.format(str(tmp_path).strip("/"))
    tag = (
        folder_of(tmp_path, work__tag=f'use "{way}" as s\npiece a: like s.strap(wide = 9 mm)\n')
        / "work/tag.draft"
    )
    assert said(tag) == [("M95", "tag.draft")]
    (tmp_path / "outside.draft").unlink()
    assert said(tag) == [("M95", "tag.draft")]
    assert said(tag.parent / "tag.draft", tag.parent) == [("M95", "tag.draft")]


def test_a_way_out_and_back_in_again_is_fine(tmp_path: Path) -> None:
    text = 'use "blocks/../blocks/straps.draft" as s\npiece a: like s.strap(wide = 9 mm)\n'
    assert said(folder_of(tmp_path, tag=text, blocks__straps=STRAPS) / "tag.draft") == []


@pytest.mark.parametrize(
    ("make", "code"),
    [
        (lambda path: path.mkdir(), "M96"),
        (lambda path: path.write_bytes(b"measure w = \xff"), "M96"),
        (lambda path: path.symlink_to(path), "M96"),
        (lambda path: path.write_text('use "../tag.draft" as up\n'), "M97"),
        (lambda path: path.write_text('use "straps.draft" as me\n'), "M97"),
        (lambda path: None, "M96"),
    ],
)
def test_a_file_that_cannot_be_used_is_told_and_nothing_follows(
    tmp_path: Path, make: object, code: str
) -> None:
    text = TAG + "piece a: like s.strap(wide = 9 mm)\npiece b\n  outline: box s.bar by 9 mm\n"
    if code == "M97":
        text = TAG + "piece b\n  outline: 9 mm across\n"
    path = folder_of(tmp_path, tag=text) / "tag.draft"
    (tmp_path / "blocks").mkdir()
    make(tmp_path / "blocks" / "straps.draft")  # type: ignore[operator]
    assert [code for code, _ in said(path)] == [code]


def test_a_text_without_a_folder_uses_only_shared_blocks(tmp_path: Path) -> None:
    from drafting.text.source import Source

    folder_of(tmp_path, straps=STRAPS)
    source = Source("notebook", 'use "straps.draft" as s\npiece a: like s.strap(wide = 9 mm)\n')
    assert [message.code for message in drafting.read(source).check()] == ["M95"]
    assert [message.code for message in drafting.read(source, blocks=tmp_path).check()] == []


def test_a_file_of_blocks_alone_is_whole(tmp_path: Path) -> None:
    assert said(folder_of(tmp_path, straps=STRAPS) / "straps.draft") == []
