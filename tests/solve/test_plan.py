"""The plan itself: what it imports, how it explains a point."""

from __future__ import annotations

import os
import subprocess
import sys

import pytest

from drafting.solve.plan import make_plan
from drafting.solve.system import System
from tests.solve.sheets import Sheet, based, measure, plus
from tests.solve.test_coupled import linkage

EVERYDAY = """
import sys
from drafting.solve.plan import make_plan
from tests.solve.sheets import Sheet, measure
sheet = Sheet()
sheet.known("wide", 60)
sheet.at("foot", 0, 0)
sheet.at("heel", measure("wide"), 0)
sheet.point("toe")
sheet.fact("distance", "toe", "foot", 50)
sheet.fact("distance", "toe", "heel", 50)
sheet.choice("above", "toe", "foot")
sheet.point("tip")
sheet.fact("ray", "tip", "toe", 330)
sheet.fact("line distance", "tip", "foot", "heel", 9)
sheet.choice("above", "tip", "foot", "heel")
plan = make_plan(sheet)
plan.evaluate({"wide": 70})
plan.influence("tip")
plan.explain("tip")
print([name for name in ("sympy", "scipy", "numpy", "shapely", "mpmath") if name in sys.modules])
"""


def test_an_everyday_pattern_needs_neither_sympy_nor_numpy() -> None:
    """Importing sympy takes longer than solving a pattern."""
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)}
    run = subprocess.run(
        [sys.executable, "-c", EVERYDAY], env=environment, capture_output=True, text=True, check=True
    )
    assert run.stdout.strip() == "[]"


def explained() -> Sheet:
    sheet = based()
    sheet.known("arm", 50)
    for key in ("toe", "tip", "lip"):
        sheet.point(key)
    sheet.fact("distance", "toe", "foot", plus(measure("arm"), measure("arm")))
    sheet.fact("distance", "toe", "heel", 90)
    sheet.choice("above", "toe", "foot")
    sheet.fact("offset x", "tip", "toe", 3)
    sheet.fact("distance", "tip", "toe", 5)
    sheet.choice("below", "tip", "toe")
    sheet.fact("on line", "lip", "toe", "foot")
    sheet.fact("ray", "lip", "heel", 100)
    sheet.computed("mid", ["toe", "heel"], lambda toe, heel: toe.midway(heel))
    return sheet


@pytest.mark.parametrize(
    ("key", "how", "depends_on", "n_places"),
    [
        ("heel", "direct", (), 1),
        ("toe", "two circles", ("foot", "arm", "heel"), 2),
        ("tip", "direct then circle and line", ("toe",), 2),
        ("lip", "two lines", ("toe", "foot", "heel"), 1),
        ("mid", "computed", ("toe", "heel"), 1),
        ("arm", "known", (), 1),
    ],
)
def test_a_point_is_explained(key: str, how: str, depends_on: tuple[str, ...], n_places: int) -> None:
    info = make_plan(explained()).explain(key)
    assert info is not None
    assert (info.how, info.depends_on, info.n_places) == (how, depends_on, n_places)


def test_the_facts_and_choices_of_a_point_are_named() -> None:
    info = make_plan(explained()).explain("tip")
    assert info is not None
    assert info.tags == ("offset x tip toe 3", "distance tip toe 5")
    assert info.choices == ("tip below toe",)


def test_points_solved_together_are_named_together() -> None:
    sheet = linkage()
    sheet.choice("above", "knee", "foot")
    sheet.choice("below", "elbow", "heel")
    info = make_plan(sheet).explain("knee")
    assert info is not None
    assert info.how == "coupled"
    assert info.together == ("knee", "elbow")
    assert info.n_places == 4
    assert info.choices == ("knee above foot", "elbow below heel")


def test_a_loose_point_has_nothing_to_explain() -> None:
    sheet = based()
    sheet.point("toe")
    sheet.fact("offset x", "toe", "heel", 1)
    info = make_plan(sheet).explain("toe")
    assert info is not None
    assert info.n_places is None
    sheet = based()
    sheet.point("toe")
    assert make_plan(sheet).explain("toe") is None


def test_slips_of_the_caller_raise_at_once() -> None:
    system = System()
    system.point("a")
    with pytest.raises(ValueError, match="twice"):
        system.point("a")
    with pytest.raises(KeyError):
        system.fact("beside", "a", "a")
    with pytest.raises(ValueError, match="operands"):
        system.fact("distance", "a", 3)
    with pytest.raises(ValueError, match="no choice"):
        system.choice("beside", "a", "a")
    with pytest.raises(TypeError):
        system.fact("distance", 3, "a", 3)
    system.fact("distance", "a", "missing", 3)
    with pytest.raises(KeyError, match="missing"):
        make_plan(system)


def test_an_empty_system_has_a_plan() -> None:
    solution = make_plan(System()).evaluate()
    assert (dict(solution.values), solution.findings) == ({}, ())


def test_names_in_any_script_are_keys_like_any_other() -> None:
    sheet = Sheet()
    sheet.at("Ferse.x", 1, 2)
    sheet.point("踵")
    sheet.fact("offset x", "踵", "Ferse.x", 1)
    sheet.fact("offset y", "踵", "Ferse.x", measure("Ferse.x.x"))
    assert sheet.place("踵").y == 3
