"""`awlwright lay`: a whole run, the same bytes again, and every message in its words."""

from __future__ import annotations

import json
from pathlib import Path

import ezdxf
import pytest

import drafting
from drafting.lay import Limits, Violation
from drafting.text.catalogue import entries_of, lays
from tests.cli.conftest import Run
from tests.cli.patterns import HIDE, TAG

STOCKED = TAG.replace(
    "piece tag:", "stock body: leather; 2 mm thick\npiece tag: cut 1 pair from body; grain plumb;"
)
TWO_STOCKS = STOCKED + "stock film: sheet\npiece screen: cut 1 from film\n  outline: box 30 mm by 20 mm\n"


@pytest.fixture(autouse=True)
def files(folder: Path) -> None:
    texts = {
        "tag.draft": STOCKED, "two.draft": TWO_STOCKS, "hide.draft": HIDE, "empty.draft": 'pattern "Nothing"\n',
        "bare.draft": HIDE.replace("  guide backbone: tail to neck\n", ""),
        "round.draft": HIDE.replace("backbone: tail to neck", "backbone: 20 mm across; at tail"),
        "open.draft": HIDE.replace("poor_flank: box 400 mm by 60 mm; at (150 mm, -120 mm)", "poor_flank: tail to neck"),
        "gone.draft": HIDE.replace("12 mm across; at (150 mm, 40 mm) from tail", "box 398 mm by 298 mm; at (150 mm, 0 mm); lying level"),
        "lay.json": '{"form": "some other"}',
    }  # fmt: skip
    for name, text in texts.items():
        (folder / name).write_text(text, encoding="utf-8")


@pytest.fixture(autouse=True)
def one_search(monkeypatch: pytest.MonkeyPatch) -> None:
    """A second process takes a while to start; one test has it."""
    monkeypatch.setattr("drafting.cli.lay.WORKERS", 1)


def written(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in sorted(folder.iterdir())} if folder.is_dir() else {}


def test_a_lay_is_written_and_draws_again_to_the_same_bytes(run: Run, folder: Path) -> None:
    ran = run("lay", "tag.draft:3", "--panel", "200x200", "--steps", "2", "--paper", "a3", "--out", "o")
    assert (ran.code, ran.err) == (0, "")
    assert "all 6 parts are laid" in ran.out
    assert "the same seed and steps give this lay again" in ran.out
    first = written(folder / "o")
    assert {"lay.json", "sheet-1.svg", "lay.pdf"} <= set(first)
    assert run("lay", "o/lay.json", "--paper", "a3", "--out", "p").code == 0
    assert written(folder / "p") == first
    assert (
        run("lay", "tag.draft:3", "--panel", "200x200", "--steps", "2", "--paper", "a3", "--out", "q").code
        == 0
    )
    assert written(folder / "q") == first


def test_a_hide_is_laid_and_its_leftovers_are_hides(run: Run, folder: Path) -> None:
    ran = run("lay", "tag.draft:4", "--hide", "hide.draft", "--steps", "1", "--out", "o", "--png")
    assert (ran.code, ran.err) == (0, "")
    assert "all 8 parts are laid" in ran.out
    left = sorted(path.name for path in (folder / "o").glob("leftover-*.draft"))
    assert left
    assert run("check", *(f"o/{name}" for name in left)).code == 0
    texts = [(folder / "o" / name).read_text(encoding="utf-8") for name in left]
    lay = drafting.read_lay((folder / "o/lay.json").read_text(encoding="utf-8")).lay
    (defect,) = lay.sheets[0].sheet.defects
    assert all(rest.intersection(defect).area < 0.5 for rest in lay.leftovers(lay.sheets[0]))
    assert any("guide poor_1:" in text for text in texts) and all("guide backbone:" in text for text in texts)
    again = run("lay", "tag.draft:1", "--hide", f"o/{left[0]}", "--steps", "1", "--out", "again")
    assert (again.code, again.err) == (0, "")


def test_the_outlines_go_to_a_machine_at_true_size(run: Run, folder: Path) -> None:
    """Read by ezdxf: six closed lines on the layer `cut`, within the panel."""
    assert run("lay", "tag.draft:3", "--panel", "200x200", "--steps", "1", "--dxf", "--out", "o").code == 0
    space = ezdxf.readfile(folder / "o/sheet-1.dxf").modelspace()
    assert [(one.dxftype(), one.dxf.layer) for one in space] == [("LWPOLYLINE", "cut")] * 6
    corners = [point for line in space for point in line.get_points("xy")]
    assert min(map(min, corners)) >= 4.99 and max(map(max, corners)) <= 195.01


def test_panels_of_several_sizes_are_cut_in_their_order(run: Run, folder: Path) -> None:
    """Tags are 40 mm by 90 mm: two go on the first kind, of which there are two, and one on each of the last."""
    words = "--panel 100x100:2 --panel 100x50 --gap 2mm --margin 5mm --steps 2 --dxf --out o"
    ran = run("lay", "tag.draft:6", *words.split())
    assert ran.code == 0 and "all 12 parts are laid" in ran.out, ran.err
    kept = json.loads((folder / "o/lay.json").read_text(encoding="utf-8"))
    assert [len(sheet["parts"]) for sheet in kept["sheets"]] == [2] * 2 + [1] * 8
    assert kept["asked"]["wish"]["panels"] == [[100.0, 100.0, 2], [100.0, 50.0, None]]
    assert run("lay", "o/lay.json", "--dxf", "--out", "p").code == 0
    assert written(folder / "o") == written(folder / "p")
    assert run("proof", "o/sheet-3.svg").code == 0


def test_panels_too_small_for_what_is_left_stay_whole(run: Run, folder: Path) -> None:
    ran = run("lay", "tag.draft:6", "--panel", "100x100:1", "--panel", "60x60", "--steps", "1", "--out", "o")
    assert ran.code == 0 and "sheet 1, panel 1: 2 parts" in ran.out and "no room for" in ran.out
    assert not (folder / "o/sheet-2.svg").exists()


def test_a_margin_that_takes_the_whole_panel_leaves_no_room(run: Run) -> None:
    ran = run("lay", "tag.draft", "--panel", "300x200", "--margin", "150mm", "--out", "o")
    assert ran.code == 1 and "goes on no panel" in ran.err


def test_what_does_not_fit_is_told_with_the_stock_it_needs(run: Run) -> None:
    ran = run("lay", "tag.draft:9", "--panel", "120x120:2", "--steps", "1", "--out", "o")
    assert ran.code == 0
    assert "no room for" in ran.out
    assert "more stock needed: about" in ran.out
    assert "more panels" in ran.out


def test_whole_sets_are_told_and_come_first(run: Run) -> None:
    """Two turned over halves make a tag: where nine parts go in, four tags are whole."""
    ran = run("lay", "tag.draft:9", "--panel", "180x180:1", "--steps", "8", "--out", "o")
    laid = int(ran.out.split("panel 1: ")[1].split()[0])
    assert f"whole sets of tag: {laid // 2} of 9" in ran.out


@pytest.mark.parametrize(("how", "turns"), [("along", {90.0, 270.0}), ("across", {0.0, 90.0, 180.0, 270.0})])
def test_each_piece_lies_as_it_may(how: str, turns: set[float], run: Run, folder: Path) -> None:
    """One piece's word counts before the order's."""
    ran = run("lay", "tag.draft:9", "--panel", "200x200", "--stray", "30", "--grain", f"tag={how}", "--steps", "3",
              "--out", "o")  # fmt: skip
    assert ran.code == 0
    lay = drafting.read_lay((folder / "o/lay.json").read_text(encoding="utf-8")).lay
    assert {spot.turn for laid in lay.sheets for spot in laid.spots} <= turns
    assert all(kind.freedom.within == 0 for kind in lay.kinds)


def test_a_piece_may_lie_any_way(run: Run, folder: Path) -> None:
    assert (
        run(
            "lay", "tag.draft", "--hide", "bare.draft", "--grain", "tag=any", "--steps", "1", "--out", "o"
        ).code
        == 0
    )
    lay = drafting.read_lay((folder / "o/lay.json").read_text(encoding="utf-8")).lay
    assert {kind.grain for kind in lay.kinds} == {None}


def test_a_search_by_the_clock_says_so(run: Run, folder: Path) -> None:
    ran = run("lay", "tag.draft", "--panel", "200x200", "--time", "0.2", "--out", "o")
    assert "searched by the clock: another run may find another lay" in ran.out
    assert json.loads((folder / "o/lay.json").read_text(encoding="utf-8"))["repeatable"] is False


def test_ctrl_c_keeps_the_best(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(self: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("drafting.lay.search.Search.step", interrupted)
    ran = run("lay", "tag.draft:3", "--panel", "200x200", "--steps", "50", "--out", "o")
    assert ran.code == 0
    assert "stopped with Ctrl-C: this is the best so far" in ran.out
    assert "all 6 parts are laid" in ran.out


def test_two_searches_are_as_sure_as_one(run: Run, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("drafting.cli.lay.WORKERS", 2)
    for out in ("o", "p"):
        assert run("lay", "tag.draft:9", "--panel", "300x200:1", "--steps", "3", "--out", out).code == 0
    assert written(folder / "o") == written(folder / "p")


def test_a_lay_from_python() -> None:
    tag = drafting.load("tag.draft").place()
    laid = drafting.lay_order([(tag, 2)], panel=(200, 200, None), limits=Limits(steps=1))
    assert laid.violations() == []
    assert laid.lay.n_laid == 4
    assert drafting.read_lay(laid.to_json()).lay == laid.lay
    assert laid.drawings()[0].to_svg().startswith("<?xml")
    with pytest.raises(ValueError, match="at least one part"):
        drafting.lay_order([], panel=(200, 200, None))
    with pytest.raises(ValueError, match="a panel, a roll or a hide"):
        drafting.lay_order([(tag, 1)])


SAID = {
    "C110": ("tag.draft --out o", "Nothing is said of what the parts are cut from."),
    "C111": ("tag.draft --panel 600 --out o", "`--panel 600` is no panel."),
    "C194": (
        "tag.draft --panel 20000x20000 --paper a5 --out o",
        "`sheet 1` of the lay would be spread over at least 20,577 tiles of a5, too many to find one's way through.",
    ),
    "C212": (
        "tag.draft --panel 600x400 --panel 300x200:2 --out o",
        "Of the panels that are cut first there are as many as are needed, so those named after them are never cut.\n"
        "  mend: Say how many there are, such as `--panel 600x400:3`; only the last may go without.",
    ),
    "C113": (
        "tag.draft:3000 --panel 600x400 --out o",
        "The order has 6,000 parts; one lay holds 5,000 at the most.\n"
        "  mend: Lay fewer copies at once; the yield of some of them holds for the rest.",
    ),
    "C114": ("tag.draft --panel 600x400 --time 0 --out o", "`--time 0` is no time to search for."),
    "C115": (
        "tag.draft --panel 600x400 --steps none --out o",
        "`--steps none` is no whole number from 1 up to 1,000,000,000.\n  mend: Write one, such as `--steps 500`.",
    ),
    "C229": ("lay.json --gap 3mm --out o", "`--gap` does nothing where the lay of `lay.json` is drawn again as it is."),
    "C117": ("tag.draft --panel 600x400 --stray 91 --out o", "`--stray 91` is no angle that a grain may stray by."),
    "C180": (
        "tag.draft --grain tag=askew --panel 600x400 --out o",
        "`--grain tag=askew` does not say how a piece may lie.\n"
        "  mend: Write the piece and `along`, `across` (along, too), `any`, or degrees off the backbone: "
        "`--grain front=10`.",
    ),
    "C181": (
        "two.draft --stock body --grain screen=along --panel 600x400 --out o",
        "`--grain screen=along` goes by the grain of `screen`, which the pattern does not say.",
    ),
    "C118": (
        "two.draft --panel 600x400 --out o",
        "The parts come from several stocks, `body`, `film`, and one lay is cut from one.\n"
        "  mend: Choose, such as `--stock body`;",
    ),
    "C119": (
        "two.draft --stock boddy --panel 600x400 --out o",
        "`--stock boddy` names no stock that a part comes from.\n  mend: There are `body`, `film`. Did you mean `body`?",
    ),
    "C120": (
        "tag.draft --firm tagg --panel 600x400 --out o",
        "`--firm tagg` names no piece of the order.\n  mend: There are `tag`. Did you mean `tag`?",
    ),
    "C121": ("lay.json --out o", "`lay.json` is no lay that can be drawn again: it does not begin with `awlwright lay"),
    "C122": (
        "tag.draft --panel 600x400 --steps 1 --out o",
        "The lay does not hold what it must, so no file was kept: on sheet 1 parts 1 and 2: gap, by 0.5.",
    ),
    "C182": ("altered.json --out o", "`altered.json` holds a lay that cannot be cut, so it is not drawn: on sheet 1 part"),
    "C123": ("tag.draft --hide empty.draft --out o", "`empty.draft` has no piece, so there is no hide in it."),
    "K60": ("tag.draft --panel 60x60 --out o", "`tag: tag` is 40 mm by 90 mm and goes on no panel, turned as it may be."),
    "K61": ("tag.draft --hide bare.draft --out o", "The hide `shoulder` has no backbone, and `tag: tag` must lie along it."),
    "K62": (
        "tag.draft --hide gone.draft --out o",
        "Nothing can be cut from the hide `shoulder`: defects, poor zones and the margin of 5 mm take all of it.",
    ),
    "K63": ("tag.draft --hide round.draft --out o", "The backbone of `shoulder` is a closed line and so has no direction."),
    "K64": ("tag.draft --hide open.draft --out o", "The zone `poor_flank` of `shoulder` is an open line, so nothing lies"),
    "K65": (
        "tag.draft --hide hide.draft --firm tag --steps 1 --out o",
        "`tag: tag` must come from a firm zone, and `shoulder` shows none, so all of it is taken for firm.",
    ),
}  # fmt: skip


def altered_lay() -> str:
    """Two tags, the first of which was moved off the panel."""
    tag = drafting.load("tag.draft").place()
    kept = json.loads(
        drafting.lay_order([(tag, 1)], panel=(200, 200, None), limits=Limits(steps=1)).to_json()
    )
    kept["sheets"][0]["parts"][0][2] -= 50
    return json.dumps(kept)


@pytest.mark.parametrize("code", SAID)
def test_every_message_is_said(code: str, run: Run, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """And nothing is written by a run that says an error."""
    words, says = SAID[code]
    if code == "C182":
        (folder / "altered.json").write_text(altered_lay(), encoding="utf-8")
    if code == "C122":
        wrong = [Violation("gap", 0, (0, 1), 0.5)]
        monkeypatch.setattr("drafting.lay.verify", lambda lay: wrong)
    ran = run("lay", *words.split())
    assert code in ran.err
    assert says in ran.err
    if code != "K65":
        assert ran.code in (1, 2, 3)
        assert not (folder / "o").exists()


def test_files_of_an_earlier_lay_are_told(run: Run, folder: Path) -> None:
    """They stay where they are: who knows what they are needed for. Drawn again it is the same lay, and nothing is."""
    size = "--panel 100x100 --gap 2mm --steps 1 --out o"
    assert run("lay", "tag.draft:4", *size.split(), "--dxf").err == ""
    told = run("lay", "tag.draft:1", *size.split())
    assert told.code == 0 and "C213" in told.err
    assert "`sheet-1.dxf` and 6 more in `o` are of a lay before this one." in told.err
    assert (folder / "o/sheet-4.svg").exists()
    assert run("lay", "o/lay.json", "--out", "o").err == ""


def test_every_entry_has_its_case() -> None:
    """The last is said of a lay that is written, in a test of its own."""
    assert {entry.code for entry in entries_of(lays)} == {*SAID, "C213"}


@pytest.mark.parametrize("copies", ["0", "10000000", "many"])
def test_copies_that_are_none_are_told(copies: str, run: Run, folder: Path) -> None:
    ran = run("lay", "tag.draft", "--copies", copies, "--panel", "600x400", "--out", "o")
    assert ran.code == 2
    assert copies in ran.err
    assert not (folder / "o").exists()


def test_every_file_that_is_not_there_is_told_in_one_run(run: Run, folder: Path) -> None:
    ran = run(
        "lay", "a.draft:12", "b.draft", "--hide", "shoulder.draft", "--hide", "belly.draft", "--out", "lays"
    )
    told = [line.split("`")[1] for line in ran.err.splitlines() if "cannot be read" in line]
    assert told == ["a.draft", "b.draft", "--hide belly.draft", "--hide shoulder.draft"]
    assert ran.code == 2 and not (folder / "lays").exists()


def test_a_hide_that_crosses_itself_is_told_at_its_place(run: Run, folder: Path) -> None:
    """As any piece is."""
    crossed = HIDE.replace("outline: box 400 mm by 300 mm; at (150 mm, 0 mm)", "point a: at (0 mm, 99 mm)\n"
        "  point b: at (300 mm, 99 mm)\n  outline: tail to b to neck to a")  # fmt: skip
    (folder / "crossed.draft").write_text(crossed, encoding="utf-8")
    ran = run("lay", "tag.draft", "--hide", "crossed.draft", "--out", "o")
    assert ran.code == 1
    assert "crossed.draft:" in ran.err
    assert not (folder / "o").exists()


@pytest.mark.parametrize(
    "text",
    [
        "",
        "[]",
        '{"form": NaN}',
        '{"form": 1e999}',
        f'{{"form": {"9" * 5000}}}',
        '{"form": "awlwright lay 1"}',
        '{"form": "awlwright lay 1", "kinds": 3, "sheets": []}',
    ],
)
def test_a_file_that_is_no_lay_is_told(text: str, run: Run, folder: Path) -> None:
    (folder / "lay.json").write_text(text, encoding="utf-8")
    ran = run("lay", "lay.json", "--out", "o")
    assert ran.code == 2
    assert "C121" in ran.err or "is no lay that can be drawn again" in ran.err
