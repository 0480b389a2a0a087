"""How many layers an awl goes through: turned edges, straps folded back on themselves, skived leather, joined pieces."""

from __future__ import annotations

from math import pi

import pytest

from drafting.craft.lists.sewing import Sewn, seams_of
from drafting.face import PlacedPattern, read
from drafting.text.source import Source


def placed(text: str) -> PlacedPattern:
    pattern = read(Source("try.draft", text))
    assert not pattern.check().has_errors, [message.says for message in pattern.check()]
    return pattern.place()


def sewn(text: str) -> dict[str, Sewn]:
    one = placed(text)
    return {seam.lines[0]: seam for seam in seams_of(one.placed, one.pattern.bound)}


def codes(text: str) -> list[str]:
    return [message.code for message in read(Source("try.draft", text)).check()]


HEM = """\
stock skin: leather; 1 mm thick
piece back: cut 1 from skin
  point a: at (50 mm, 30 mm)
  point b: at ({turned_to}, 30 mm)
  point c: at (-50 mm, 30 mm)
  point d: at (-50 mm, -30 mm)
  point e: at (50 mm, -30 mm)
  outline: a to b to c to d to e
  run head: from a round b to c
  run edge: from a to b
  turn hem: 10 mm outside edge
  stitch seam: {inset} inside head; {stitches} stitches; 5 mm short
"""


def hem(inset: float, turned_to: float = -49, stitches: int = 18) -> str:
    return HEM.format(inset=f"{inset} mm", turned_to=f"{turned_to} mm", stitches=stitches)


SHOWN = 10 - pi / 2
"""mm of a turn of 10 mm that lie on the back: the bend takes half a turn round half of 1 mm (reference E-05)."""


@pytest.mark.parametrize(("inset", "thick"), [(3, 2), (SHOWN - 0.01, 2), (SHOWN + 0.01, 1)])
def test_a_turned_edge_is_sewn_through_twice_as_far_as_its_strip_reaches(inset: float, thick: float) -> None:
    seam = sewn(hem(inset))["back.seam"]
    assert seam.thick == pytest.approx(thick)
    assert seam.thread.length == pytest.approx(2 * (90 - 2 * inset) + 37 * thick + 300)


def test_a_skived_strip_is_as_thick_as_it_is_left() -> None:
    text = hem(3) + "  skive thin: band 12 mm outside edge; down to 0.4 mm\n"
    assert sewn(text)["back.seam"].thick == pytest.approx(1.4)


def test_beside_the_end_of_a_turned_edge_there_is_no_strip() -> None:
    """Of 19 holes the ten on the right are over the strip, the one on its very end too."""
    seam = sewn(hem(4, turned_to=0))["back.seam"]
    assert seam.thread.length == pytest.approx(2 * 82 + 2 * (10 * 2 + 9 * 1) - 2 + 300)


STRAP = """\
stock body: leather; 2 mm thick
hardware buckle: need 1; 20.5 mm inside; on strap
piece strap: cut 1 from body; grain level
  point crook: at (30 mm, 0)
  point butt: at (0, 0)
  point end: at (0, 10 mm)
  point tip: at (150 mm, 10 mm)
  point heel: at (150 mm, -10 mm)
  point low: at (0, -10 mm)
  point sewn: at ({sewn} mm, 0)
  outline: end to tip to heel to low
  fold bar: plumb through crook; bent 180 deg round 2.5 mm
  stitch seam: plumb through sewn; 4 stitches; 4 mm short
"""


@pytest.mark.parametrize(("at", "thick"), [(50, 4), (59.9, 4), (60.1, 2), (5, 4)])
def test_a_strap_folded_back_on_itself_is_sewn_through_twice(at: float, thick: float) -> None:
    """The end reaches 30 mm past the fold, so from 0 to 60 mm it lies on the strap."""
    seam = sewn(STRAP.format(sewn=at))["strap.seam"]
    assert seam.thick == thick
    assert seam.thread.length == pytest.approx(2 * 12 + 9 * thick + 300)


def test_where_holes_are_said_to_meet_over_the_fold_those_alone_go_through_both_layers() -> None:
    """A line that is not mirrored may be sewn before the strap is turned."""
    more = "  stitch under: mirror of seam over bar\n  point first: at (46 mm, 0)\n"
    more += "  stitch before: plumb through first; 4 stitches; 4 mm short\n"
    found = sewn(STRAP.format(sewn=52) + more)
    assert {name: seam.thick for name, seam in found.items()} == {"strap.seam": 4, "strap.before": 2}


def test_the_skived_end_of_a_strap_counts_as_it_is_left() -> None:
    skived = "  skive thin: band 14 mm inside from low to end; down to 0.8 mm\n"
    assert sewn(STRAP.format(sewn=50) + skived)["strap.seam"].thick == pytest.approx(2.8)


LINED = """\
stock lining: leather; 1.5 mm thick
piece under: cut 1 from lining; grain level
  outline: box 40 mm by 20 mm
  stitch seam: plumb through outline.top; 4 stitches; 4 mm short
join strap.seam with under.seam
"""


def test_joined_pieces_count_with_what_is_folded_back() -> None:
    assert sewn(STRAP.format(sewn=50) + LINED)["strap.seam"].thick == pytest.approx(5.5)


def test_the_rule_of_a_thick_seam_counts_every_layer() -> None:
    """3 mm folded on itself and 1.5 mm under it are 7.5 mm: 3.75 mm from the edge at least, and 2 mm elsewhere."""
    thick = (STRAP + LINED).replace("2 mm thick", "3 mm thick")
    near = thick.format(sewn=50).replace("4 mm short", "3.7 mm short")
    assert "R03" in codes(near)
    assert "R03" not in codes(near.replace("3.7 mm short", "3.8 mm short"))
    assert "R03" not in codes(thick.format(sewn=61).replace("4 mm short", "3.7 mm short"))


def test_the_rule_of_a_thick_seam_counts_a_turned_strip() -> None:
    """Leather of 2.6 mm turned is 5.2 mm thick, and asks for 2.6 mm."""
    text = hem(2.5).replace("1 mm thick", "2.6 mm thick")
    assert "R03" in codes(text)
    assert "R03" not in codes(text.replace("2.5 mm inside", "2.7 mm inside"))
    assert "R03" not in codes(text.replace("  turn hem: 10 mm outside edge\n", ""))


PRICKED = """\
stock sole: leather; {thick} mm thick
piece face: cut 1 pair from sole
  outline: box 80 mm by 60 mm
  stitch edge: 4 mm inside outline; 60 stitches
piece welt: over face; cut 1 from sole; grain any
  outline: box {wide} mm by 60 mm; at face.outline.centre
  stitch edge: same holes as face.edge
join face.edge with welt.edge
"""


@pytest.mark.parametrize(
    ("thick", "wide", "told"),
    [(2.5, 80, []), (3, 80, ["face"]), (3, 78, ["face", "welt"]), (2.5, 78, ["welt"])],
)
def test_a_line_that_is_pricked_through_is_told_only_where_it_stands_nearer_to_its_own_edge(
    thick: float, wide: float, told: list[str]
) -> None:
    """A pair of faces and the welt: of 2.5 mm they ask for 3.75 mm, of 3 mm for 4.5 mm. A narrower welt has 3 mm."""
    found = read(Source("try.draft", PRICKED.format(thick=thick, wide=wide))).check()
    assert [message.says.split(".")[0].strip("`") for message in found if message.code == "R03"] == told
