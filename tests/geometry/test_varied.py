"""An amount that varies from size to size comes to what each size comes to alone."""

from __future__ import annotations

import ast
import math
from pathlib import Path as FilePath
from typing import Any, NamedTuple

import numpy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.geometry import maths
from drafting.geometry.arc import Arc
from drafting.geometry.cells import Cells
from drafting.geometry.line import Line
from drafting.geometry.maths import NotOneNumber, Parted, each_way, first_least, in_words, kept, least, most
from drafting.geometry.nearness import distinct_points, gap_between
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.geometry.varied import Varied, gathered, many_sizes, nearest_distances, of_size, words_of

NUMBERS = st.lists(st.floats(-1e3, 1e3), min_size=2, max_size=5)
OPERATIONS = {
    "+": lambda a, b: a + b,
    "-": lambda a, b: a - b,
    "*": lambda a, b: a * b,
    "/": lambda a, b: a / b,
    "%": lambda a, b: a % b,
}


def varied(*each: float) -> Any:
    return Varied(numpy.array(each, dtype=float))


@pytest.mark.parametrize("sign", OPERATIONS)
@given(NUMBERS, st.floats(1, 50))
@settings(max_examples=25)
def test_amounts_are_those_of_each_size(sign: str, numbers: list[float], other: float) -> None:
    work = OPERATIONS[sign]
    for one, two in (
        (varied(*numbers), other),
        (varied(*numbers), varied(*[other + abs(n) for n in numbers])),
    ):
        together = work(one, two)
        for at, number in enumerate(numbers):
            assert of_size(together, at) == work(number, of_size(two, at))
    back = work(other, varied(*[1.0 + abs(number) for number in numbers]))
    assert [of_size(back, at) for at in range(len(numbers))] == [work(other, 1.0 + abs(n)) for n in numbers]


@pytest.mark.parametrize("name", ["sqrt", "sin", "cos", "tan", "asin", "acos", "atan", "degrees", "radians"])
@given(st.lists(st.floats(0, 1), min_size=2, max_size=4))
@settings(max_examples=20)
def test_functions_are_those_of_math(name: str, numbers: list[float]) -> None:
    together = getattr(maths, name)(varied(*numbers))
    for at, number in enumerate(numbers):
        assert of_size(together, at) == pytest.approx(getattr(math, name)(number), rel=1e-12, abs=1e-15)


@pytest.mark.parametrize("name", ["hypot", "atan2", "copysign", "fmod"])
@given(NUMBERS, st.floats(0.5, 9))
@settings(max_examples=20)
def test_functions_of_two_are_those_of_math(name: str, numbers: list[float], other: float) -> None:
    together = getattr(maths, name)(varied(*numbers), other)
    for at, number in enumerate(numbers):
        assert of_size(together, at) == pytest.approx(
            getattr(math, name)(number, other), rel=1e-12, abs=1e-12
        )


def test_what_no_size_may_ask_raises_as_for_one_number() -> None:
    with pytest.raises(ZeroDivisionError):
        varied(1, 2) / 0.0
    with pytest.raises(ValueError, match="math domain error"):
        maths.sqrt(varied(-1, -2))
    with pytest.raises(Parted):
        1.0 / varied(0, 2)


@given(NUMBERS, st.floats(-1e3, 1e3))
@settings(max_examples=60)
def test_a_question_has_one_answer_or_tells_who_goes_which_way(numbers: list[float], other: float) -> None:
    each = [number < other for number in numbers]
    try:
        said = varied(*numbers) < other
    except Parted as parted:
        assert parted.ones.tolist() == each
        assert len(set(each)) == 2
    else:
        odd = [number for number, one in zip(numbers, each, strict=True) if one != said]
        assert all(abs(number - other) <= 1e-10 * max(1, abs(number)) for number in odd)


def test_rounding_parts_nobody() -> None:
    assert varied(0.3, 0.1 + 0.2, 0.3) <= 0.3
    assert not varied(1.0, 1.0 + 1e-15, 1.0) > 1.0
    with pytest.raises(Parted):
        varied(1.0, 1.0 + 1e-9) > 1.0  # noqa: B015


def test_whole_numbers_are_those_of_all_or_part() -> None:
    assert (int(varied(2.1, 2.9)), math.floor(varied(-0.2, -0.9)), math.ceil(varied(2.1, 3.0))) == (2, -1, 3)
    assert (round(varied(2.6, 3.4)), varied(7.0, 7.5) // 2) == (3, 3.0)
    for whole in (int, math.floor, math.ceil, round):
        with pytest.raises(Parted):
            whole(varied(1.2, 3.7))
    with pytest.raises(Parted) as parted:
        int(varied(1.2, 3.7, 2.1, 3.9))
    assert parted.value.ways.tolist() == [1, 3, 2, 3]  # all ways at once
    with pytest.raises(NotOneNumber):
        float(varied(1, 1))
    with pytest.raises(NotOneNumber):
        range(varied(1, 1))


@given(NUMBERS, st.lists(st.floats(-1e3, 1e3), min_size=5, max_size=5))
@settings(max_examples=20)
def test_least_and_most_are_those_of_each_size(numbers: list[float], others: list[float]) -> None:
    columns = [varied(*numbers), varied(*others[: len(numbers)]), 0.0]
    for at in range(len(numbers)):
        own = [of_size(column, at) for column in columns]
        assert of_size(least(*columns), at) == pytest.approx(min(own), abs=1e-9)
        assert of_size(most(*columns), at) == pytest.approx(max(own), abs=1e-9)


@given(
    st.lists(st.tuples(*[st.floats(-9, 9), st.integers(0, 2), st.integers(0, 2)] * 2), min_size=2, max_size=6)
)
@settings(max_examples=40)
def test_the_first_of_the_least_is_that_of_each_size(rows: list[tuple[float, ...]]) -> None:
    """Each row is a size: three things, of which the second and third are told apart by their later amounts."""
    a, b, c, d, e, f = (varied(*column) for column in zip(*rows, strict=True))
    together = first_least(
        [Point(a, b), Point(a, c), Point(d, e), Point(d, f)],
        lambda point: point.x,
        lambda point: point.y,
    )
    for at, (a1, b1, c1, d1, e1, f1) in enumerate(rows):
        alone = min((a1, b1), (a1, c1), (d1, e1), (d1, f1))
        assert of_size(together, at) == Point(*alone) or abs(a1 - d1) < 1e-8


def test_the_first_of_those_alike_is_taken() -> None:
    things = [
        ("far", varied(3, 4)),
        ("near", varied(1, 2)),
        ("as near", varied(1, 2)),
        ("by rounding", varied(1 - 1e-15, 2)),
    ]
    assert first_least(things, lambda one: one[1])[0] == "near"
    assert first_least([("a", 2.0), ("b", 1.0), ("c", 1.0)], lambda one: one[1])[0] == "b"
    with pytest.raises(Parted) as parted:
        first_least([("one", varied(1, 5, 1)), ("other", 2.0)], lambda one: one[1])
    assert parted.value.ones.tolist() == [True, False, True]


# Both ways


class Pair(NamedTuple):
    place: Point
    name: str


@each_way
def stepped(x: Any) -> Pair:
    if x < 0:
        return Pair(Point(-x, 0.0), "a place")
    return Pair(Point(x * 2 if x < 10 else x + 100, 1.0), "a place")


def test_what_parts_within_is_put_together_again() -> None:
    numbers = [-3.0, 4.0, 20.0, 9.0, -1.0]
    together = stepped(varied(*numbers))
    assert [of_size(together, at) for at in range(5)] == [stepped(number) for number in numbers]


@each_way
def kinds(x: Any) -> object:
    return "below" if x < 0 else x


def test_what_is_of_two_shapes_parts() -> None:
    with pytest.raises(Parted) as parted:
        kinds(varied(-1, 2, -3))
    assert parted.value.ones.tolist() == [True, False, True]


class Step:
    def __init__(self, size: Any) -> None:
        self.size = size

    @kept
    def high(self) -> Any:
        return self._high(self.size)

    @staticmethod
    @each_way
    def _high(size: Any) -> Any:
        return size * 10 if size > 1 else size


@each_way
def half_asked(step: Step, way: Any) -> Any:
    return step.high if way > 0 else -step.high


def test_what_is_kept_holds_for_all_whichever_ask() -> None:
    """It is first asked for while only some sizes are; the others must find their own amounts in it."""
    step = Step(varied(0.5, 2, 3, 1))
    assert half_asked(step, varied(-1, 1, -1, 1)).each.tolist() == [-0.5, 20, -30, 1]
    assert step.high.each.tolist() == [0.5, 20, 30, 1]


@given(st.lists(st.tuples(st.floats(-40, 40), st.floats(-40, 40)), min_size=2, max_size=5))
@settings(max_examples=40)
def test_the_nearest_place_of_a_path_is_that_of_each_size(places: list[tuple[float, float]]) -> None:
    bow = Arc(Point(30.0, 10.0), 10.0, -math.pi / 2, math.pi)
    path = Path([Line(Point(0.0, 0.0), Point(30.0, 0.0)), bow, Line(Point(30.0, 20.0), Point(0.0, 20.0))])
    point = Point(*(varied(*column) for column in zip(*places, strict=True)))
    distance = path.distance_to_point(point)
    gap = gap_between(path.legs, [Line(point, Point(point.x + 3, point.y + 2))])
    for at, place in enumerate(places):
        assert of_size(distance, at) == pytest.approx(path.distance_to_point(Point(*place)), abs=1e-9)
        alone = gap_between(path.legs, [Line(Point(*place), Point(place[0] + 3, place[1] + 2))])
        assert of_size(gap.distance, at) == pytest.approx(alone.distance, abs=1e-9)


@given(st.lists(st.tuples(st.floats(-30, 30), st.floats(-30, 30)), min_size=2, max_size=6))
@settings(max_examples=30)
def test_the_nearest_of_many_points_is_that_of_each_size(places: list[tuple[float, float]]) -> None:
    column, row = (varied(*each) for each in zip(*places, strict=True))
    others = [Point(column, row), *(Point(4.0 * at, column * 0.1) for at in range(-9, 10))]
    points = [Point(0.0, 0.0), Point(row, 5.0)]
    for point, distance in zip(points, nearest_distances(points, others), strict=True):
        for at in range(len(places)):
            alone = min(of_size(point, at).distance_to(of_size(other, at)) for other in others)
            assert of_size(distance, at) == pytest.approx(alone, abs=1e-9)


def box(wide: Any) -> Ring:
    corners = [Point(0, 0), Point(wide, 0.0), Point(wide, 10.0), Point(0, 10)]
    return Ring([Line(a, b) for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)])


def test_inside_is_told_of_all_or_parts() -> None:
    ring = box(varied(10, 20, 30))
    assert ring.contains(Point(9, 5))
    assert not ring.contains(Point(31, 5))
    with pytest.raises(Parted) as parted:
        ring.contains(Point(15, 5))
    assert len(set(parted.value.ones[1:].tolist())) == 1
    assert ring.area.each.tolist() == pytest.approx([100, 200, 300])


def test_things_taken_apart_and_gathered_are_the_same() -> None:
    rings = [box(wide) for wide in (10.0, 12.0, 15.0)]
    together = gathered([{"ring": ring, "name": "flap"} for ring in rings])
    assert [of_size(together, at)["ring"] for at in range(3)] == rings
    assert together["name"] == "flap"
    assert together["ring"].legs[3].start.y == 10.0  # what is the same for all stays one number
    with pytest.raises(Parted) as parted:
        gathered([rings[0], rings[0].legs, rings[1]])
    assert parted.value.ones.tolist() == [True, False, True]


# Looked up by place


def test_places_that_vary_are_near_every_cell() -> None:
    cells: Cells[str] = Cells(1.0)
    cells.put(Point(0.5, 0.5), "fixed")
    cells.put(Point(varied(0, 90), 0.0), "moved")
    cells.put(Point(90, 0), "far")
    assert sorted(cells.near(Point(0.2, 0.1))) == ["fixed", "moved"]
    assert sorted(cells.near(Point(varied(0, 50), 0.0))) == ["far", "fixed", "moved"]


def test_distinct_points_are_told_apart_in_all_sizes() -> None:
    moved = Point(varied(1, 2), 0.0)
    assert distinct_points([moved, Point(5, 0), Point(varied(1, 2), 0.0)]) == (moved, Point(5, 0))
    with pytest.raises(Parted):
        distinct_points([moved, Point(1, 0)])


# Words


@in_words
def in_mm(amount: float, unit: str = "mm") -> str:
    return f"{amount:.1f} {unit}" if amount >= 1 else "hardly anything"


def test_words_are_those_of_each_size() -> None:
    with many_sizes():
        says = (
            f"It is {in_mm(varied(2, 0.2))} wide and {in_mm(4.0)} or {in_mm(varied(1, 3), unit='cm')} high."
        )
        assert words_of(says, 0) == "It is 2.0 mm wide and 4.0 mm or 1.0 cm high."
        assert words_of(says, 1) == "It is hardly anything wide and 4.0 mm or 3.0 cm high."


# Who must know of it

KNOWING = [
    path
    for room in ("geometry", "craft")
    for path in FilePath("drafting", room).rglob("*.py")
    if path.stem != "maths"
]
FUNCTIONS = {name for name in maths.__all__ if hasattr(math, name)} - {"floor", "ceil", "inf", "nan", "pi"}


@pytest.mark.parametrize("path", KNOWING, ids=str)
def test_functions_of_numbers_come_from_where_they_may_vary(path: FilePath) -> None:
    """A function of `math` itself makes all sizes of a sweep be worked out one by one."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module == "math":
            assert not FUNCTIONS & {alias.name for alias in node.names}
        assert not (isinstance(node, ast.Import) and "math" in {alias.name for alias in node.names})
