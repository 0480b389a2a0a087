"""Stitch lines as a pattern says them: even pitches, twins that coincide, seams that do not mind who is named first."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from drafting import face
from drafting.solve.placed import PlacedStitches
from drafting.text.source import Source

EVEN = 1e-6
lengths = st.integers(40, 160)
insets = st.sampled_from((2, 3.5, 5))
askings = st.sampled_from(
    ("every 3.85 mm", "every 3 mm", "7 per inch", "9 iron", "31 stitches", "2.9 mm apart")
)
measures = st.sampled_from(("", "; measured across"))


def piece(
    name: str, wide: int, high: int, fillet: int, stitch: str, head: str = "mirrored over foot..top"
) -> str:
    return f"""piece {name}: {head}
  point foot: at (0, 0)
  point top: plumb with foot; {high} mm above foot
  point heel: level with foot; {wide} mm right of foot
  point brow: plumb with heel; level with top
  outline: foot to heel to brow to top
  fillet heel by {fillet} mm
  run wall: from brow round heel to foot
  {stitch}
"""


def placed(text: str) -> face.PlacedPattern | None:
    pattern = face.read(Source("test.draft", text))
    if pattern.check().has_errors:
        return None
    return pattern.place()


def lines(pattern: face.PlacedPattern, name: str) -> list[PlacedStitches]:
    return [line for feature in pattern.pieces[name].features for line in feature.stitches]


@given(lengths, lengths, insets, askings, measures)
@settings(max_examples=60)
def test_within_a_stretch_every_pitch_is_the_same(
    wide: int, high: int, inset: float, asked: str, measured: str
) -> None:
    pattern = placed(piece("back", wide, high, 8, f"stitch edge: {inset} mm inside wall; {asked}{measured}"))
    for line in lines(pattern, "back") if pattern else ():
        layout = line.layout
        for number, stretch in enumerate(layout.stretches):
            own = [hole for hole in layout.holes if hole.stretch == number]
            if measured:
                steps = [a.point.distance_to(b.point) for a, b in pairwise(own)]
            else:
                steps = [b.place - a.place for a, b in pairwise(own)]
            if not stretch.rest:
                assert all(abs(step - stretch.pitch) < EVEN for step in steps)
            assert all(abs(step - (steps[0])) < EVEN for step in steps)


@given(lengths, lengths, insets, askings)
@settings(max_examples=60)
def test_twins_coincide_and_meet_in_one_hole_on_the_mirror_line(
    wide: int, high: int, inset: float, asked: str
) -> None:
    pattern = placed(piece("back", wide, high, 8, f"stitch edge: {inset} mm inside wall; {asked}"))
    if pattern is None:
        return
    edge, twin = (line.layout.holes for line in lines(pattern, "back"))
    for one, other in zip(edge, twin, strict=True):
        assert abs(one.point.x + other.point.x) < EVEN
        assert abs(one.point.y - other.point.y) < EVEN
    on_line = [hole for hole in edge if abs(hole.point.x) < EVEN]
    assert len(pattern.pieces["back"].stitch_holes) == 2 * len(edge) - len(on_line)


@given(lengths, lengths, st.integers(-6, 6), askings, askings)
@settings(max_examples=60)
def test_a_seam_is_judged_alike_whichever_line_is_named_first(
    wide: int, high: int, more: int, asked: str, other: str
) -> None:
    text = piece("back", wide, high, 8, f"stitch edge: 3 mm inside wall; {asked}")
    text += piece("front", wide + more, high, 8, f"stitch edge: 3 mm inside wall; {other}")
    said = [
        sorted((message.code, message.says) for message in face.read(Source("t", text + join)).check())
        for join in ("join back.edge with front.edge\n", "join front.edge with back.edge\n")
    ]
    assert said[0] == said[1]


@given(lengths, lengths, insets)
@settings(max_examples=40)
def test_holes_pricked_through_are_holes_of_the_line(wide: int, high: int, inset: float) -> None:
    text = piece("back", wide, high, 8, f"stitch edge: {inset} mm inside wall; every 3 mm")
    text += "piece patch: over back\n  outline: box 60 mm by 30 mm; at back.foot\n  stitch edge: same holes as back.edge\n"
    pattern = placed(text + "join back.edge with patch.edge\n")
    if pattern is None:
        return
    holes = {hole.point for line in lines(pattern, "back") for hole in line.layout.holes}
    pricked = {hole.point for line in lines(pattern, "patch") for hole in line.layout.holes}
    outline = pattern.pieces["patch"].outline
    assert pricked
    assert pricked <= holes
    own = lines(pattern, "back")[0].layout.holes
    assert pricked == {hole.point for hole in own if outline.contains(hole.point)}
