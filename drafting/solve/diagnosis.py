"""Facts that are one too many, and facts that depend on each other though their counts are right.

A fact too many is left out of the plan and looked at afterwards: it agrees or it does not, and the weights of the other
facts behind it tell which take part.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Any

from drafting.geometry.tolerances import SAME_POINT
from drafting.solve.coupled.newton import Equations
from drafting.solve.coupled.search import descend, starts
from drafting.solve.filters import Filter
from drafting.solve.findings import Contradiction, Degenerate, Finding, Place, Repeated, SeveralPlaces
from drafting.solve.influence import facts_behind
from drafting.solve.layout import HELD_TOGETHER, Equation, Layout
from drafting.solve.looseness import keys_of_slots, loose_finding, motion_of, n_facts_of, own_facts
from drafting.solve.program import Run, Step, tags_of
from drafting.solve.rank import dependent_rows, open_directions
from drafting.solve.structure import Structure
from drafting.solve.system import Tag
from drafting.solve.verify import measured, misfit

Values = list[Any]


def over_findings(structure: Structure, steps: Sequence[Step], run: Run) -> list[Finding]:
    """Of each fact that found no place: repeated when it agrees with the others, else contradicted by them."""
    layout = structure.layout
    by_fact: dict[int, list[int]] = {}
    for e in structure.over:
        if run.bad.isdisjoint(layout.equations[e].reads):
            by_fact.setdefault(layout.equations[e].fact, []).append(e)
    found: list[Finding] = []
    for equations in by_fact.values():
        worst = max(equations, key=lambda e: abs(misfit(layout.equations[e], run.values)))
        behind: set[int] = set()
        for e in equations if abs(misfit(layout.equations[worst], run.values)) <= SAME_POINT else [worst]:
            members = facts_behind(layout, steps, run.values, e)
            behind.update(structure.circuit(e) if members is None else members)
        behind.discard(worst)
        found.append(judged(layout, worst, sorted(behind), run.values))
    for finding in [one for one in run.findings if isinstance(one, SeveralPlaces)]:
        beside = _beside_several(structure, steps, finding, run.values)
        found += beside
        if any(isinstance(one, Contradiction) for one in beside):
            run.findings.remove(finding)
    return found


def _beside_several(
    structure: Structure, steps: Sequence[Step], finding: SeveralPlaces, values: Values
) -> list[Finding]:
    """Of each fact too many on points with several places: one that holds in none of them contradicts the others, one
    that holds in all says them again; what holds in some is left until a choice is made."""
    layout = structure.layout
    solutions = [list(_slots_of(layout, solution)) for solution in _whole_solutions(finding)]
    slots = {slot for slot, _ in solutions[0]}
    before = {slot: values[slot] for slot in slots}
    found: list[Finding] = []
    for e in structure.over:
        reads = set(layout.equations[e].reads)
        if reads.isdisjoint(slots) or any(values[slot] is None for slot in reads - slots):
            continue
        offs = []
        for solution in solutions:
            for slot, value in solution:
                values[slot] = value
            offs.append(abs(misfit(layout.equations[e], values)))
        if min(offs) > SAME_POINT or max(offs) <= SAME_POINT:
            for slot, value in solutions[offs.index(min(offs))]:
                values[slot] = value
            behind = facts_behind(layout, steps, values, e) or _equations_of(layout, finding.tags)
            found.append(judged(layout, e, behind, values))
    for slot, value in before.items():
        values[slot] = value
    return found


def _whole_solutions(finding: SeveralPlaces) -> Sequence[Sequence[tuple[str, Place | float]]]:
    return finding.solutions or [[(finding.key, place)] for place in finding.places]


def _slots_of(layout: Layout, solution: Sequence[tuple[str, Place | float]]) -> Iterator[tuple[int, float]]:
    for key, at in solution:
        yield from (
            zip(layout.points[key], at, strict=True) if isinstance(at, tuple) else [(layout.slots[key], at)]
        )


def _equations_of(layout: Layout, tags: Sequence[Tag]) -> list[int]:
    return [
        e for e, equation in enumerate(layout.equations) if layout.system.facts[equation.fact].tag in tags
    ]


def judged(layout: Layout, culprit: int, behind: Sequence[int], values: Values) -> Finding:
    """A fact too many, against the equations it depends on, in a solution that leaves it out."""
    equation = layout.equations[culprit]
    tag = layout.system.facts[equation.fact].tag
    others = tuple(one for one in tags_of(layout, behind) if one != tag)
    point, point_tags = _crowded_point(layout, equation)
    off = misfit(equation, values)
    if abs(off) <= SAME_POINT:
        return Repeated(tag, (*others, tag), point, point_tags)
    wanted, actual = asked_and_given(equation, values)
    if wanted is not None and actual is not None:
        off = actual - wanted
    return Contradiction(tag, (*others, tag), abs(off), wanted, actual, point, point_tags)


def _crowded_point(layout: Layout, equation: Equation) -> tuple[str | None, tuple[Tag, ...]]:
    """The point of a fact, if more is said of it than it needs."""
    fact = layout.system.facts[equation.fact]
    if fact.points and fact.kind.name not in HELD_TOGETHER:
        key = fact.points[0]
        if key in layout.points and n_facts_of(layout, key) > 2:
            return key, tuple(layout.system.facts[number].tag for number in own_facts(layout, key))
    return None, ()


def asked_and_given(equation: Equation, values: Values) -> tuple[float | None, float | None]:
    """In the maker's terms: the length or angle asked for, and the one that the others give; None for a relation."""
    name = equation.form.name
    if name in ("distance", "line_distance", "offset_x", "offset_y", "coordinate_x", "coordinate_y"):
        return measured(equation, values)
    if name == "angle":
        asked, given = measured(equation, values)
        degrees = values[equation.scalars[0]]
        return degrees, degrees + math.degrees((given - asked) / _shorter_leg(equation, values))
    if name == "ray":
        (px, py), (qx, qy) = ((values[x], values[y]) for x, y in equation.points)
        degrees = values[equation.scalars[0]]
        turn = math.degrees(math.atan2(py - qy, px - qx)) - degrees
        return degrees, degrees + math.remainder(turn, 360.0)
    return None, None


def _shorter_leg(equation: Equation, values: Values) -> float:
    (ax, ay), (vx, vy), (bx, by) = ((values[x], values[y]) for x, y in equation.points)
    return min(math.hypot(ax - vx, ay - vy), math.hypot(bx - vx, by - vy)) or 1.0


# Blocks whose facts depend on each other


def dependent_findings(
    layout: Layout,
    equations: Sequence[int],
    newton: Equations,
    values: Values,
    conditions: Sequence[Filter],
) -> list[Finding]:
    """For a block whose counts are right while its facts depend on each other, like the three angles of a triangle: the
    fact that is too many, and the point that is therefore loose. Nothing when the facts are independent."""
    dependent = _dependent(layout, equations, newton, values)
    if not dependent:
        return []
    found: list[Finding] = []
    left = [e for index, e in enumerate(equations) if index not in {one for one, _ in dependent}]
    rest = Equations(layout, tuple(left), newton.unknowns, _transit_numbers(layout, newton))
    for numbers in starts(rest, values, layout, 16):
        if descend(rest, values, numbers) and all(one.test is None or one.test(values) for one in conditions):
            for index, behind in dependent:
                found.append(judged(layout, equations[index], [equations[k] for k in behind], values))
            return found + _first_loose(layout, rest, values)
    return [Degenerate(tuple(keys_of_slots(layout, newton.unknowns)), tags_of(layout, equations))]


def _first_loose(layout: Layout, rest: Equations, values: Values) -> list[Finding]:
    rows, _ = rest.rows(values)
    moves = open_directions(rows, len(rest.unknowns))
    slots = list(rest.unknowns)
    keys = keys_of_slots(layout, slots)
    for key in keys:
        motion = motion_of(layout, values, key, slots, moves)
        if motion is not None:
            return [loose_finding(layout, key, motion, moves.shape[1], tuple(keys), False)]
    return []


def _transit_numbers(layout: Layout, newton: Equations) -> tuple[int, ...]:
    return tuple(sorted({layout.transit_of[step.outputs[0]] for step in newton.steps}))


def _dependent(
    layout: Layout, equations: Sequence[int], newton: Equations, values: Values
) -> list[tuple[int, list[int]]]:
    """Rows that depend on earlier ones wherever the points may be: at two places taken at random, each fact asking
    for just what it finds there."""
    fewest: list[tuple[int, list[int]]] | None = None
    for numbers in starts(newton, values, layout, 3):
        try:
            newton.put(values, numbers)
            rows = _rows_where_facts_hold(layout, newton, values)
        except Exception:
            continue
        found = dependent_rows(rows)
        if fewest is None or len(found) < len(fewest):
            fewest = found
        if not found:
            return []
    return fewest or []


def _rows_where_facts_hold(layout: Layout, newton: Equations, values: Values) -> list[list[float]]:
    rows: list[list[float]] = []
    for index, equation in enumerate(newton.equations):
        slot = equation.scalars[0] if len(equation.scalars) == 1 else None
        before = None if slot is None else values[slot]
        if slot is not None and slot not in newton.unknowns:
            _, given = asked_and_given(equation, values)
            if given is not None:
                values[slot] = given
        slopes = newton.all_slopes(values)[index]
        if slot is not None:
            values[slot] = before
        row = [slopes.get(unknown, 0.0) for unknown in newton.unknowns]
        length = math.hypot(*row)
        rows.append([slope / length if length else 0.0 for slope in row])
    return rows
