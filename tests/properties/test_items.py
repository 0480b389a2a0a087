"""Whole pieces as a pattern says them: allowances add up, and all lengths by k scale whatever is cut and sewn."""

from __future__ import annotations

from math import pi, radians
from string import Template

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting import face
from drafting.geometry.point import Point
from drafting.text.source import Source

panels = st.lists(st.integers(20, 90), min_size=2, max_size=5)
bends = st.tuples(st.sampled_from((30, 90, 180, 270, 360)), st.integers(0, 12))
thicknesses = st.sampled_from((0.8, 1.4, 3.6))
neutrals = st.sampled_from((None, 0.35, 0.4))
scales = st.sampled_from((0.5, 0.75, 1.25, 2.0, 3.0))


def placed(text: str) -> face.PlacedPattern:
    return face.read(Source("test.draft", text)).place()


def folded_strip(sizes: list[int], folds: list[tuple[int, int]], thick: float, neutral: float | None) -> str:
    """Panels of these widths side by side, with a fold between each two."""
    says = f"; {neutral} neutral" if neutral is not None else ""
    lines = [f"stock body: leather; {thick} mm thick{says}", "piece strip: cut 1 from body; grain any"]
    lines += ["  point p0: at (0, 0)", "  point top: plumb with p0; 30 mm above p0"]
    before = "p0"
    for number, (turn, inside) in enumerate(folds, 1):
        half = f"bend_{number}.allowance/2"
        lines.append(f"  point m{number}: level with p0; {sizes[number - 1]} mm + {half} right of {before}")
        lines.append(f"  fold bend_{number}: plumb through m{number}; bent {turn} deg round {inside} mm")
        lines.append(f"  point p{number}: level with p0; {half} right of m{number}")
        before = f"p{number}"
    lines.append(f"  point end: level with p0; {sizes[-1]} mm right of {before}")
    lines.append("  point end_top: plumb with end; level with top")
    return "\n".join([*lines, "  outline: p0 to end to end_top to top", ""])


@given(panels, st.data(), thicknesses, neutrals)
@settings(max_examples=25)
def test_flat_a_strip_is_its_panels_and_all_that_its_folds_take(
    sizes: list[int], data: st.DataObject, thick: float, neutral: float | None
) -> None:
    count = len(sizes) - 1
    folds = data.draw(st.lists(bends, min_size=count, max_size=count))
    strip = placed(folded_strip(sizes, folds, thick, neutral))
    k = 0.5 if neutral is None else neutral
    taken = [radians(turn) * (inside / 2 + k * thick) for turn, inside in folds]
    told = [strip.measure(f"strip.bend_{number}.allowance").value for number in range(1, len(sizes))]
    assert told == pytest.approx(taken, abs=1e-9)
    assert strip.measure("strip.width").value == pytest.approx(sum(sizes) + sum(taken), abs=1e-9)


SADDLE = Template("""measure k = $k
stock body: leather; $thick mm thick
piece flap: cut 1 from body; mirrored over foot..top; grain any
  point foot: at (0, 0)
  point top: plumb with foot; 120 mm * k above foot
  point heel: level with foot; 45 mm * k right of foot
  point brow: plumb with heel; 80 mm * k above heel
  point crest: level with top; 20 mm * k right of top
  point mid: plumb with foot; 60 mm * k above foot
  point slit_end: level with mid; 25 mm * k right of mid
  outline: foot to heel to brow to crest bowed out 6 mm * k to top
  fillet heel by 14 mm * k
  stitch edge: 4 mm * k inside from heel.end round brow to crest; 17 stitches; marks slanted 2 mm * k
  slit mouth: slit_end' to slit_end; end holes 3 mm * k
  opening view: box 30 mm * k by 20 mm * k; 30 mm * k above foot; plumb with foot; lying level
  row eyes: 100 mm * k above foot; plumb with foot; lying level; 3 holes; 9 mm * k apart; 2 mm * k across
  fold spine: level through mid; bent 180 deg round 2 mm * k
""")


def places(piece: face.PlacedPiece) -> list[Point]:
    """Every corner, hole and mark of a piece, in order."""
    found = [leg.start for leg in piece.outline.legs]
    for feature in piece.features:
        found += [hole.center for hole in feature.holes]
        found += [leg.start for way in (*feature.rings, *feature.paths) for leg in way.legs]
        for line in feature.stitches:
            found += [hole.point for hole in line.layout.holes]
    return found


@given(scales)
@settings(max_examples=5)
def test_all_lengths_by_k_scale_what_is_cut_and_sewn(k: float) -> None:
    """The leather too: then an allowance grows like all else."""
    once = placed(SADDLE.substitute(k=1, thick=1.6))
    scaled = placed(SADDLE.substitute(k=k, thick=1.6 * k))
    before, after = places(once.pieces["flap"]), places(scaled.pieces["flap"])
    assert len(before) == len(after) > 60
    for a, b in zip(before, after, strict=True):
        assert (b.x, b.y) == pytest.approx((a.x * k, a.y * k), abs=1e-9)
    allowance = scaled.measure("flap.spine.allowance").value
    assert allowance == pytest.approx(pi * (1.0 + 0.8) * k, abs=1e-9)
