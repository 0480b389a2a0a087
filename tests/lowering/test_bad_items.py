"""What bad input gets: a code, a place, the measured figure and a mend, told once; and what the mend says, typed, helps.

A case is a pattern with one thing wrong in it. `typed` are the words that its mend gives, put in place of those at fault.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

import pytest

from drafting import face
from drafting.text.messages import Message
from drafting.text.source import Source

PLATE = """stock body: leather; 2 mm thick
piece back: cut 1 from body; grain any
  point a: at (0, 0)
  point b: at (80 mm, 0)
  point c: at (80 mm, 60 mm)
  point d: at (0, 60 mm)
  outline: a to b to c to d
"""
SECOND = """piece front: cut 1 from body; grain any
  point e: at (0, 0)
  point f: at (80 mm, 0)
  point g: at (80 mm, 60 mm)
  point h: at (0, 60 mm)
  outline: e to f to g to h
  stitch seam: 4 mm inside from e to f; 18 stitches
"""
JOINED = f"""{PLATE}  stitch seam: 4 mm inside from a to b; every 4 mm
{SECOND}join back.seam with front.seam
"""
TABS = """stock body: leather; 2 mm thick
block tab(wide, high = 10 mm, part = 1/2)
  outline: box wide by part*2*high
piece p: like tab(wide = 20 mm); cut 1 from body
"""


@dataclass(frozen=True)
class Bad:
    """A pattern that is wrong: the code it gets, where, what of the sentence names the figure, and the mend typed."""

    what: str
    text: str
    code: str
    at: str
    says: str
    typed: tuple[str, str] | None = None
    sizes: tuple[str, ...] = ()

    @property
    def mended(self) -> str:
        wrong, right = self.typed or ("", "")
        assert self.text.count(wrong) == 1
        return self.text.replace(wrong, right)


BAD = [
    Bad(
        "a run that does not exist",
        PLATE + "  run rim: from a round b to c\n  stitch seam: 4 mm inside rimm; every 4 mm\n",
        "M01",
        "rimm",
        "no line `rimm`",
        ("rimm", "rim"),
    ),
    Bad(
        "a run from a point that does not exist",
        PLATE + "  run rim: from a round bb to c\n",
        "M01",
        "bb",
        "no point `bb`",
        ("round bb", "round b"),
    ),
    Bad(
        "a run that goes the wrong way round",
        PLATE + "  run rim: from c round b, d to a\n",
        "P04",
        "from c round b, d to a",
        "From `c` to `a` no way round passes `b`, `d`",
        ("from c round b, d to a", "from c round d to a"),
    ),
    Bad(
        "a run that says what it passes behind its end",
        PLATE + "  stitch seam: 4 mm inside from d to c round a, b; every 4 mm\n",
        "T18",
        "4 mm inside from d to c round a, b",
        "After `from d` comes `round`, not `to`",
        ("4 mm inside from d to c round a, b", "4 mm inside from d round a, b to c"),
    ),
    Bad(
        "a run with two ways round",
        PLATE + "  stitch seam: 4 mm inside from a to c; every 4 mm\n",
        "P03",
        "from a to c",
        "two ways",
        ("from a to c", "from a round b to c"),
    ),
    Bad(
        "a pitch of zero",
        PLATE + "  stitch seam: 4 mm inside outline; every 0 mm\n",
        "K01",
        "every 0 mm",
        "a pitch of 0 mm",
        ("every 0 mm", "every 3.85 mm"),
    ),
    Bad(
        "an exact pitch of zero",
        PLATE + "  stitch seam: 4 mm inside from a to b; 0 mm apart\n",
        "K01",
        "0 mm apart",
        "a pitch of 0 mm",
        ("0 mm apart", "every 3.85 mm"),
    ),
    Bad(
        "a pitch below zero by its measures",
        "measure p = 2 mm - 5 mm\n" + PLATE + "  stitch seam: 4 mm inside outline; every p\n",
        "K01",
        "every p",
        "a pitch of -3 mm",
        ("every p", "every 3.85 mm"),
    ),
    Bad(
        "no stitches per inch",
        PLATE + "  stitch seam: 4 mm inside outline; 0 per inch\n",
        "K01",
        "0 per inch",
        "0 stitches per inch",
        ("0 per inch", "every 3.85 mm"),
    ),
    Bad(
        "no stitches",
        PLATE + "  stitch seam: 4 mm inside outline; 0 stitches\n",
        "P62",
        "0 stitches",
        "asks for 0 stitches",
        ("0 stitches", "24 stitches"),
    ),
    Bad(
        "a pitch longer than the run",
        PLATE + "  stitch seam: 4 mm inside from a to b; every 90 mm\n",
        "K02",
        "every 90 mm",
        "no stitch of 90 mm: its stretch is 72 mm long",
        ("every 90 mm", "every 72 mm"),
    ),
    Bad(
        "an exact pitch longer than the run",
        PLATE + "  stitch seam: 4 mm inside from a to b; 72.5 mm apart\n",
        "K02",
        "72.5 mm apart",
        "no stitch of 72.5 mm: its stretch is 72 mm long",
        ("72.5 mm", "72 mm"),
    ),
    Bad(
        "a join of seams that differ in stitches",
        JOINED.replace("18 stitches", "17 stitches"),
        "K13",
        "front.seam",
        "`front.seam` has 17 stitches and `back.seam` 18",
        ("17 stitches", "as many as back.seam"),
    ),
    Bad(
        "a join of seams that differ in length",
        JOINED.replace("f: at (80 mm", "f: at (87 mm").replace("g: at (80 mm", "g: at (87 mm"),
        "K14",
        "front.seam",
        "`front.seam` is 79 mm and `back.seam` 72 mm: 7 mm apart",
        ("with front.seam", "with front.seam within 7 mm"),
    ),
    Bad(
        "a join with a line that is no seam",
        PLATE
        + "  stitch seam: 4 mm inside outline; every 4 mm\n  run edge: from a to b\njoin back.seam with back.edge\n",
        "M61",
        "back.edge",
        "`back.edge` is a run",
    ),
    Bad(
        "a slit that leaves the piece",
        PLATE + "  slit mouth: at_l to at_r; end holes 2 mm\n"
        "  point at_l: at (40 mm, 30 mm)\n  point at_r: at (95 mm, 30 mm)\n",
        "P37",
        "slit mouth: at_l to at_r; end holes 2 mm",
        "`mouth` reaches 16 mm off the piece `back` at (95, 30) mm",
        ("(95 mm,", "(75 mm,"),
    ),
    Bad(
        "a slit whose end hole leaves the piece",
        PLATE + "  slit mouth: at_l to at_r; end holes 20 mm\n"
        "  point at_l: at (40 mm, 30 mm)\n  point at_r: at (72 mm, 30 mm)\n",
        "P37",
        "slit mouth: at_l to at_r; end holes 20 mm",
        "`mouth` reaches 2 mm off the piece",
        ("20 mm\n", "2 mm\n"),
    ),
    Bad(
        "a turned edge sharper than the leather is thick",
        PLATE + "  fillet b by 1 mm\n  turn hem: 9 mm outside outline; corners cut\n"
        "  skive thin: band 11 mm outside outline; down to 1.2 mm\n",
        "K24",
        "9 mm outside outline",
        "round a radius of 1 mm, sharper than the leather is thick (1.2 mm)",
        ("by 1 mm", "by 1.2 mm"),
    ),
    Bad(
        "a fold sharper than the leather is thick",
        PLATE + "  point mid: at (40 mm, 0)\n  fold spine: plumb through mid; bent 180 deg round 0.5 mm\n",
        "R34",
        "spine",
        "bends leather 2 mm thick round 0.5 mm; 2 mm is the least",
        ("round 0.5 mm", "round 2 mm"),
    ),
    Bad(
        "a block that calls itself",
        "block tab(wide): like tab(wide = wide)\n" + "piece p: grain any\n  outline: box 20 mm by 10 mm\n",
        "M20",
        "tab",
        "`tab` → `tab`",
        (": like tab(wide = wide)", "\n  outline: box wide by 10 mm"),
    ),
    Bad(
        "blocks that call each other",
        "block tab(wide): like flap(wide = wide)\nblock flap(wide): like tab(wide = wide)\n"
        "piece p: like tab(wide = 20 mm)\n",
        "M20",
        "tab",
        "`tab` → `flap` → `tab`",
        ("block flap(wide): like tab(wide = wide)", "block flap(wide)\n  outline: box wide by 10 mm"),
    ),
    Bad(
        "an argument that the block does not have",
        TABS.replace("wide = 20", "wid = 20"),
        "M88",
        "wid = 20 mm",
        "no argument `wid`",
        ("wid = 20", "wide = 20"),
    ),
    Bad(
        "an argument without a unit",
        TABS.replace("20 mm", "20"),
        "M03",
        "20",
        "20 what?",
        ("= 20", "= 20 mm"),
    ),
    Bad(
        "an argument of another kind",
        TABS.replace("20 mm)", "20 mm, part = 3 mm)"),
        "M05",
        "3 mm",
        "`3 mm` is a length; a plain number belongs here",
        ("part = 3 mm", "part = 1"),
    ),
    Bad(
        "an angle where a length belongs",
        TABS.replace("20 mm", "20 deg"),
        "M05",
        "20 deg",
        "`20 deg` is an angle; a length belongs here",
        ("20 deg", "12 mm"),
    ),
    Bad(
        "a thing where a length belongs",
        TABS.replace("20 mm", "body"),
        "M44",
        "body",
        "`body` is a stock, and an amount belongs here",
        ("= body", "= body.thick"),
    ),
    Bad(
        "an argument that is lacking",
        TABS.replace("(wide = 20 mm)", ""),
        "M90",
        "like tab",
        "needs `wide` as well",
        ("like tab", "like tab(wide = 12 mm)"),
    ),
    Bad(
        "an argument without its name",
        TABS.replace("wide = 20 mm", "20 mm"),
        "M87",
        "20 mm",
        "does not say which argument of `tab` it is",
        ("(20 mm", "(wide = 20 mm"),
    ),
    Bad(
        "an argument given twice",
        TABS.replace("20 mm)", "20 mm, wide = 30 mm)"),
        "M89",
        "wide = 30 mm",
        "given twice",
        (", wide = 30 mm", ""),
    ),
    Bad(
        "a size that breaks a rule of the workshop",
        'measure off = 8 mm\nsize "roomy": as written\nsize "tight": off = 5 mm\n'
        + PLATE
        + "  hole eye: off below outline.top; plumb with b; 30 mm left of b; 4 mm across\n".replace(
            "plumb with b; 30", "30"
        ),
        "R04",
        "eye",
        "has its middle 5 mm from the edge; 6 mm is the least",
        ("off = 5 mm", "off = 6 mm"),
        ("tight",),
    ),
    Bad(
        "a size that its own check refuses",
        'measure off = 8 mm\nsize "roomy": as written\nsize "tight": off = 2 mm\n'
        + PLATE
        + 'check off >= 3 mm "the eye tears"\n',
        "M38",
        'check off >= 3 mm "the eye tears"',
        "2 mm",
        ("off = 2 mm", "off = 3 mm"),
        ("tight",),
    ),
]


def told(text: str) -> list[Message]:
    return list(face.read(Source("bad.draft", text)).check())


@pytest.mark.parametrize("bad", BAD, ids=lambda bad: bad.what)
def test_it_is_told_once_with_its_place_figure_and_mend(bad: Bad) -> None:
    (message,) = told(bad.text)
    assert (message.code, message.sizes) == (bad.code, bad.sizes)
    assert message.at is not None and message.at.text == bad.at
    assert bad.says in message.says
    assert message.mend.endswith((".", "?"))


@pytest.mark.parametrize("bad", [bad for bad in BAD if bad.typed], ids=lambda bad: bad.what)
def test_what_the_mend_says_helps_when_it_is_typed(bad: Bad) -> None:
    assert told(bad.mended) == []


@pytest.mark.parametrize(
    ("written", "code", "says"),
    [
        ("../other.draft", "M95", "lies outside the folder of this pattern"),
        ("parts/../../other.draft", "M95", "lies outside the folder of this pattern"),
        ("/etc/hosts", "M95", "lies outside the folder of this pattern"),
        ("parts/way-out.draft", "M95", "lies outside the folder of this pattern"),
        ("parts/none.draft", "M96", "there is no such file"),
        ("parts", "M96", "cannot be used"),
        ("item.draft", "M97", "item.draft` → "),
    ],
)
def test_a_use_that_reaches_outside_is_refused(tmp_path: Path, written: str, code: str, says: str) -> None:
    """Nor does a link inside the folder lead out of it."""
    folder = tmp_path / "bench"
    (folder / "parts").mkdir(parents=True)
    (tmp_path / "other.draft").write_text("block tab(wide)\n  outline: box wide by 10 mm\n")
    (folder / "parts" / "way-out.draft").symlink_to(tmp_path / "other.draft")
    (folder / "parts" / "tab.draft").write_text("block tab(wide)\n  outline: box wide by 10 mm\n")
    item = folder / "item.draft"
    item.write_text(f'use "{written}" as s\npiece p: grain any\n  outline: box 20 mm by 10 mm\n')
    (message,) = face.load(item).check()
    assert message.code == code and says in message.says
    assert message.at is not None and message.at.line == 1
    item.write_text(item.read_text().replace(written, "parts/tab.draft"))
    assert list(face.load(item).check()) == []


def test_all_that_is_wrong_in_one_piece_is_told_in_one_run() -> None:
    lines = ["every 0 mm", "0 stitches", "every 90 mm"]
    text = PLATE + "".join(
        f"  stitch seam_{n}: 4 mm inside from a to b; {line}\n" for n, line in enumerate(lines)
    )
    assert [message.code for message in told(text)] == ["K01", "P62", "K02"]
    assert all(re.search(r"`seam_\d`", message.says) for message in told(text))
