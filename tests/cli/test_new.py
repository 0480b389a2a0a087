"""`awlwright new`: a file to go on from, named and titled, never over another one."""

from __future__ import annotations

from pathlib import Path

import pytest

from drafting.cli.new import entitled
from tests.cli.conftest import Run


@pytest.mark.parametrize(
    ("typed", "file"),
    [
        ("tool-roll", "tool-roll.draft"),
        ("tool-roll.draft", "tool-roll.draft"),
        ("Kranführer Etui", "Kranführer Etui.draft"),
        ("渡し守の札", "渡し守の札.draft"),
        ("Etu\u0308i", "Et\u00fci.draft"),
        ("v1.2", "v1.2.draft"),
    ],
)
def test_a_pattern_takes_its_name_in_any_script(run: Run, folder: Path, typed: str, file: str) -> None:
    ran = run("new", typed)
    assert (ran.code, ran.out) == (0, f"{file}\n")
    title = file.removesuffix(".draft")
    assert (folder / file).read_text(encoding="utf-8").startswith(f'pattern "{title}"\n')


def test_a_file_that_is_there_stays(run: Run, folder: Path) -> None:
    (folder / "tag.draft").write_text("mine")
    ran = run("new", "tag")
    assert ran.code == 2
    assert "`tag.draft` is already there and stays as it is" in ran.err
    assert (folder / "tag.draft").read_text() == "mine"


def test_a_link_to_nowhere_stays(run: Run, folder: Path) -> None:
    (folder / "tag.draft").symlink_to("elsewhere")
    assert run("new", "tag").code == 2
    assert not (folder / "elsewhere").exists()


def test_a_name_may_lead_with_a_folder(run: Run, folder: Path) -> None:
    (folder / "crew").mkdir()
    assert run("new", "crew/tag").out == "crew/tag.draft\n"
    assert (folder / "crew" / "tag.draft").is_file()


def test_the_title_takes_the_place_of_the_starters() -> None:
    """Also of one that had none."""
    assert (
        entitled('# x\npattern "Old"  # y\n  edition "1"\n', "New")
        == '# x\npattern "New"  # y\n  edition "1"\n'
    )
    assert entitled("measure a = 1 mm\n", "New") == 'pattern "New"\nmeasure a = 1 mm\n'


def test_a_starter_brings_the_blocks_that_it_uses(run: Run, folder: Path) -> None:
    """Each beside the new file, and none over one that is there."""
    ran = run("new", "deck belt", "--from", "belt")
    used = ["blocks/buckle-end.draft", "blocks/keeper.draft"]
    assert (ran.code, ran.out.split("\n")) == (0, [*used, "deck belt.draft", ""])
    assert run("check", "deck belt.draft").code == 0
    (folder / used[1]).write_text("mine")
    assert run("new", "bell belt", "--from", "belt").out == "bell belt.draft\n"
    assert (folder / used[1]).read_text() == "mine"


def test_a_block_in_the_way_of_a_folder_is_told(run: Run, folder: Path) -> None:
    (folder / "blocks").write_text("mine")
    ran = run("new", "deck belt", "--from", "belt")
    assert (ran.code, (folder / "deck belt.draft").exists()) == (2, False)
    assert "`blocks`" in ran.err


def test_a_name_of_a_starter_is_told_how_that_comes(run: Run) -> None:
    """The smallest pattern is written, as asked for."""
    assert run("new", "tool-roll").err.endswith("the starter of that name comes by --from tool-roll\n")
    assert run("new", "crew roll").err == ""
    assert run("new", "roll", "--from", "tool-roll").err == ""


def test_a_hide_comes_as_a_starter_does(run: Run, folder: Path) -> None:
    assert run("new", "mine", "--from", "shoulder").out == "mine.draft\n"
    assert "piece shoulder" in (folder / "mine.draft").read_text(encoding="utf-8")
    assert run("new", "shoulder").err == ""
