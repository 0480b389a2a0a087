"""What must hold of every pattern: facts hold after solving, units and scales change nothing else, twins are twins."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting import face
from drafting.text.source import Source
from tests.properties.random_patterns import Scene, Side, in_unit, outlines, scenes

OUTLINE = "  outline: 3 mm across; at p0\n"
FEW = settings(max_examples=25)
CLOSE = 1e-6
"""How near (mm) a place must come that was worked out beforehand, over chains of facts."""


def placed(text: str) -> face.PlacedPattern:
    return face.read(Source("random.draft", text)).place()


def places(text: str) -> dict[str, tuple[float, float]]:
    return {name: (point.x, point.y) for name, point in placed(text).pieces["back"].points.items()}


@FEW
@given(scenes(), st.randoms(use_true_random=False))
def test_points_come_where_they_were_meant_in_any_order(scene: Scene, order: object) -> None:
    statements = scene.statements(in_unit("mm"))
    order.shuffle(statements)  # type: ignore[attr-defined]
    found = places("piece back:\n" + "\n".join(statements) + "\n" + OUTLINE)
    for name, point in scene.points.items():
        assert math.dist(found[name], (point.x, point.y)) < CLOSE


@FEW
@given(scenes(), st.sampled_from(["cm", "in"]))
def test_a_unit_is_only_a_way_of_writing(scene: Scene, unit: str) -> None:
    there = places(scene.text(in_unit(unit)) + OUTLINE)
    for name, place in places(scene.text() + OUTLINE).items():
        assert math.dist(there[name], place) < 1e-9 * max(1.0, *map(abs, place))


@FEW
@given(scenes(least=3), st.fractions(min_value=Fraction(1, 8), max_value=12, max_denominator=16))
def test_all_lengths_by_k_scale_lengths_by_k_and_areas_by_k_twice(scene: Scene, k: Fraction) -> None:
    share = float(k)
    once = places(scene.text() + OUTLINE)
    scaled = places(scene.text(in_unit("mm", k)) + OUTLINE)
    for name, (x, y) in once.items():
        assert math.dist(scaled[name], (x * share, y * share)) < CLOSE * max(1, share)


@FEW
@given(outlines(), st.fractions(min_value=Fraction(1, 4), max_value=8, max_denominator=8))
def test_measures_by_k_scale_an_outline(sides: list[Side], k: Fraction) -> None:
    """Every length of it is a measure times a number."""
    pattern = face.read(Source("random.draft", outline_text(sides, "unit")))
    once, scaled = pattern.place(), pattern.place(unit=k)
    share = float(k)
    for asked, power in (("back.outline.length", 1), ("back.width", 1), ("back.area", 2)):
        assert scaled.measure(asked).value == pytest.approx(
            once.measure(asked).value * share**power, rel=1e-9
        )


def outline_text(sides: list[Side], unit: str) -> str:
    """The outline with every length a multiple of the measure `unit`."""
    lines = [f"measure {unit} = 1 mm", "piece back:"]
    legs = []
    for index, side in enumerate(sides):
        lines.append(f"  point c{index}: at ({signed(side.x)}*{unit}, {signed(side.y)}*{unit})")
        before = sides[index - 1]
        chord = math.dist((side.x, side.y), (before.x, before.y))
        bow = (
            f" bowed {'out' if side.bow > 0 else 'in'} {abs(side.bow) * chord:.6f}*{unit}" if side.bow else ""
        )
        legs.append(f"to c{index}{bow}")
    return "\n".join([*lines, f"  outline: c{len(sides) - 1} " + " ".join(legs)]) + "\n"


def signed(number: float) -> str:
    return f"{number:.3f}" if number >= 0 else f"(0 - {-number:.3f})"


def segment(chord: float, height: float) -> tuple[float, float]:
    """Length of an arc, and the area between it and its chord."""
    if not height:
        return chord, 0.0
    radius = height / 2 + chord**2 / (8 * height)
    half = math.asin(chord / 2 / radius)
    return 2 * radius * half, radius**2 * half - chord / 2 * (radius - height)


@FEW
@given(outlines())
def test_an_outline_is_as_long_and_as_large_as_its_sides_and_bows(sides: list[Side]) -> None:
    """The shoelace of its corners and the segment of each bow."""
    corners = [(side.x, side.y) for side in sides]
    pairs = list(zip([corners[-1], *corners[:-1]], corners, strict=True))
    area = sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs) / 2
    length = 0.0
    for (a, b), side in zip(pairs, sides, strict=True):
        chord = math.dist(a, b)
        arc, more = segment(chord, abs(side.bow) * chord)
        length += arc
        area += math.copysign(more, side.bow)
    found = placed(outline_text(sides, "unit"))
    assert found.measure("back.area").value == pytest.approx(area, rel=1e-6)
    assert found.measure("back.outline.length").value == pytest.approx(length, rel=1e-6)


@FEW
@given(scenes())
def test_left_for_right_mirrors_the_drawing(scene: Scene) -> None:
    """What is right becomes left: every place comes to its mirror image over the plumb line through nought."""
    text = scene.text()
    swapped = text.replace("right of", "\0").replace("left of", "right of").replace("\0", "left of")
    swapped = "\n".join(line if " at (" not in line else mirrored_at(line) for line in swapped.split("\n"))
    there = places(swapped + OUTLINE)
    for name, (x, y) in places(text + OUTLINE).items():
        assert math.dist(there[name], (-x, y)) < CLOSE


def mirrored_at(line: str) -> str:
    """`at (x, y)` with x taken from nothing."""
    head, _, rest = line.partition("at (")
    x, _, tail = rest.partition(", ")
    return f"{head}at (0 - {x}, {tail}"


@FEW
@given(outlines(least=4), st.integers(0, 20))
def test_a_mirrored_piece_is_its_own_mirror_image(sides: list[Side], lift: int) -> None:
    """Half of a random star: everything has its twin, and the whole is twice the half."""
    right = sorted((side for side in sides if side.x > 5), key=lambda side: math.atan2(side.y, side.x))
    names = [f"c{index}" for index in range(len(right))]
    points = "".join(
        f"  point {name}: at ({signed(side.x)}*1 mm, {signed(side.y)}*1 mm)\n"
        for name, side in zip(names, right, strict=True)
    )
    text = f"""piece back: mirrored over low..high
  point low: at (0, 0 - {70 + lift} mm)
  point high: at (0, 80 mm)
{points}  outline: low to {" to ".join(names)} to high
  run half: from low round {", ".join(names)} to high
"""
    piece = placed(text).pieces["back"]
    for name, point in piece.points.items():
        if name.endswith("'"):
            assert (
                math.dist((point.x, point.y), (-piece.points[name[:-1]].x, piece.points[name[:-1]].y)) < 1e-9
            )
    assert piece.outline.length == pytest.approx(2 * piece.runs["half"].length)
    assert piece.outline.centroid.x == pytest.approx(0, abs=1e-9)


@FEW
@given(scenes(), outlines())
def test_like_copies_exactly(scene: Scene, sides: list[Side]) -> None:
    text = (
        scene.text() + outline_text(sides, "unit").partition("piece back:\n")[2] + "piece front: like back\n"
    )
    pieces = placed("measure unit = 1 mm\n" + text).pieces
    back, front = pieces["back"], pieces["front"]
    assert (front.points, front.outline, front.corners) == (back.points, back.outline, back.corners)
