"""What is wrong with a system, in terms of its facts: loose points, facts too many, facts that depend on each other.

A loose group is laid out in some place that keeps the facts it has; the directions that its facts leave open there
tell how each point can still move. A fact too many is left out of the plan and looked at afterwards: it agrees or
it does not, and the weights of the other facts behind it tell which take part.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from drafting.geometry.tolerances import SAME_POINT
from drafting.solve.coupled.newton import Equations
from drafting.solve.coupled.search import descend, starts
from drafting.solve.filters import Filter
from drafting.solve.findings import (
    Contradiction,
    Degenerate,
    Finding,
    Free,
    Loose,
    Motion,
    Repeated,
    Turns,
    slides_along,
)
from drafting.solve.influence import facts_behind
from drafting.solve.layout import HELD_TOGETHER, Equation, Layout
from drafting.solve.program import Run, Step, tags_of
from drafting.solve.rank import dependent_rows, open_directions, span_within
from drafting.solve.structure import Structure, inputs_of
from drafting.solve.system import Tag, Unknown
from drafting.solve.verify import measured, misfit

Values = list[Any]


def own_facts(layout: Layout, key: str) -> list[int]:
    """The facts said of a point, by number."""
    return layout.facts_of.get(key, [])


def loose_groups(structure: Structure) -> list[tuple[list[int], list[int]]]:
    """Slots and equations that are loose together."""
    layout = structure.layout
    loose = set(structure.loose)
    leader = {slot: slot for slot in structure.loose}

    def find(slot: int) -> int:
        while leader[slot] != slot:
            leader[slot] = leader[leader[slot]]
            slot = leader[slot]
        return slot

    behind = {e: _unknowns_behind(layout, layout.equations[e], loose) for e in structure.loose_equations}
    ties = list(behind.values())
    ties += [[slot for slot in pair if slot in loose] for pair in layout.points.values()]
    for tie in ties:
        for slot in tie[1:]:
            leader[max(find(tie[0]), find(slot))] = min(find(tie[0]), find(slot))
    groups: dict[int, tuple[list[int], list[int]]] = {}
    for slot in structure.loose:
        groups.setdefault(find(slot), ([], []))[0].append(slot)
    for e, slots in behind.items():
        if slots:
            groups[find(slots[0])][1].append(e)
    return list(groups.values())


def _unknowns_behind(layout: Layout, equation: Equation, wanted: set[int]) -> list[int]:
    found: dict[int, None] = {}
    waiting, seen = list(equation.reads), set[int]()
    while waiting:
        slot = waiting.pop()
        if slot in seen:
            continue
        seen.add(slot)
        if slot in wanted:
            found[slot] = None
        transit = layout.transit_of.get(slot)
        if transit is not None:
            waiting += inputs_of(layout.transits[transit])
    return sorted(found)


def loose_findings(structure: Structure, run: Run | None) -> list[Finding]:
    """One finding for each point that lacks facts of its own; one for a whole group that only lacks a base."""
    found: list[Finding] = []
    for slots, equations in loose_groups(structure):
        found += _group_findings(structure, run, slots, equations)
    return found


def _group_findings(
    structure: Structure, run: Run | None, slots: list[int], equations: list[int]
) -> list[Finding]:
    layout = structure.layout
    keys = _keys_of(layout, slots)
    moves = None if run is None else _moves(structure, run, slots, equations)
    missing = len(slots) - len(equations) if moves is None else moves.shape[1]
    lacking = [key for key in keys if _needs(layout, key) > _n_facts(layout, key)]
    as_body = moves is not None and len(keys) > 1 and _keeps_shape(layout, slots, moves, run)
    if as_body:
        lacking = lacking[:1] or keys[:1]
    motions = {
        key: None if moves is None or run is None else _motion(layout, run.values, key, slots, moves)
        for key in keys
    }
    told = [key for key in lacking if moves is None or key not in layout.points or motions[key] is not None]
    told = told or [key for key in keys if motions[key] is not None][:1] or lacking[:1] or keys[:1]
    return [_loose(layout, key, motions[key], missing, tuple(keys), as_body) for key in told]


def _loose(
    layout: Layout, key: str, motion: Motion | None, missing: int, group: tuple[str, ...], as_body: bool
) -> Loose:
    tag = getattr(layout.system.nodes[key], "tag", None)
    tags = tuple(layout.system.facts[fact].tag for fact in own_facts(layout, key))
    return Loose(key, tag, _n_facts(layout, key), tags, motion, missing, group, as_body)


def _keys_of(layout: Layout, slots: Sequence[int]) -> list[str]:
    by_slot = {slot: key for key, pair in layout.points.items() for slot in pair}
    return list(dict.fromkeys(by_slot.get(slot, layout.names[slot]) for slot in sorted(slots)))


def _needs(layout: Layout, key: str) -> int:
    return 1 if isinstance(layout.system.nodes[key], Unknown) else 2


def _n_facts(layout: Layout, key: str) -> int:
    """How many equations are said of a point itself."""
    facts = set(own_facts(layout, key))
    return sum(len(layout.system.facts[fact].kind.uses) for fact in facts)


def _moves(structure: Structure, run: Run, slots: list[int], equations: list[int]) -> Any:
    """Directions left open, at some place where the facts that are there hold. None when no such place was found.

    The places are left in `run.values`, for the motions to be named by."""
    layout = structure.layout
    for e in equations:
        outside = set(layout.equations[e].reads) - set(slots)
        if not run.bad.isdisjoint(outside - _fed_by(layout, slots)):
            return None
    transits = _transits_between(layout, slots, equations)
    newton = Equations(layout, tuple(equations), tuple(slots), transits)
    for numbers in starts(newton, run.values, layout, 6):
        if not equations or descend(newton, run.values, numbers):
            if not equations:
                newton.put(run.values, numbers)
            rows, _ = newton.rows(run.values)
            return open_directions(rows, len(slots))
    return None


def _fed_by(layout: Layout, slots: Sequence[int]) -> set[int]:
    """Slots of computed nodes that hang on some slots."""
    fed = set(slots)
    grew = True
    while grew:
        grew = False
        for slot, transit in layout.transit_of.items():
            if slot not in fed and not fed.isdisjoint(inputs_of(layout.transits[transit])):
                fed.add(slot)
                grew = True
    return fed - set(slots)


def _transits_between(layout: Layout, slots: Sequence[int], equations: Sequence[int]) -> tuple[int, ...]:
    fed = _fed_by(layout, slots)
    wanted: set[int] = set()
    waiting = [slot for e in equations for slot in layout.equations[e].reads if slot in fed]
    while waiting:
        transit = layout.transit_of[waiting.pop()]
        if transit not in wanted:
            wanted.add(transit)
            waiting += [slot for slot in inputs_of(layout.transits[transit]) if slot in fed]
    return tuple(sorted(wanted))


def _keeps_shape(layout: Layout, slots: Sequence[int], moves: Any, run: Run | None) -> bool:
    """Whether the group keeps its shape and can be moved as a whole, right and left as well as up and down."""
    import numpy

    assert run is not None
    axis = {slot: (index, pair) for pair in layout.points.values() for index, slot in enumerate(pair)}
    if any(slot not in axis for slot in slots) or moves.shape[1] == 0 or moves.shape[1] > 3:
        return False
    frame = numpy.zeros((len(slots), 3))
    size = max((abs(run.values[slot]) for slot in slots), default=1.0) or 1.0
    for row, slot in enumerate(slots):
        index, pair = axis[slot]
        if pair[0] not in slots or pair[1] not in slots:
            return False
        frame[row, index] = 1.0
        frame[row, 2] = (-run.values[pair[1]] if index == 0 else run.values[pair[0]]) / size
    return span_within(moves, frame) and span_within(frame[:, :2], moves)


def _motion(layout: Layout, values: Values, key: str, slots: Sequence[int], moves: Any) -> Motion | None:
    """How a point can move; None when it cannot."""
    import numpy

    if key not in layout.points:
        return None
    own = numpy.zeros((2, moves.shape[1]))
    for index, slot in enumerate(layout.points[key]):
        if slot in slots:
            own[index] = moves[list(slots).index(slot)]
    directions, sizes, _ = numpy.linalg.svd(own)
    n_free = int(numpy.sum(sizes > 1e-7))
    if n_free == 0:
        return None
    if n_free == 2:
        return Free()
    return named_motion(layout, values, key, float(directions[0, 0]), float(directions[1, 0]), set(slots))


def named_motion(layout: Layout, values: Values, key: str, x: float, y: float, moving: set[int]) -> Motion:
    """The motion along a direction, named by the facts of the point: round what, or along which line."""
    place = layout.points[key]
    for number in own_facts(layout, key):
        fact = layout.system.facts[number]
        others = [other for other in fact.points if other != key]
        fixed = [
            other
            for other in others
            if moving.isdisjoint(layout.points[other])
            and None not in (values[layout.points[other][0]], values[layout.points[other][1]])
        ]
        if fact.kind.name == "distance" and fixed:
            other = layout.points[fixed[0]]
            way_x, way_y = values[place[0]] - values[other[0]], values[place[1]] - values[other[1]]
            length = math.hypot(way_x, way_y)
            if length > SAME_POINT and abs(way_x * x + way_y * y) < 1e-6 * length:
                return Turns(fixed[0])
        if fact.kind.name in ("on line", "on stretch", "line distance") and len(fixed) == 2:
            start, end = layout.points[fact.points[1]], layout.points[fact.points[2]]
            way_x, way_y = values[end[0]] - values[start[0]], values[end[1]] - values[start[1]]
            length = math.hypot(way_x, way_y)
            if length > SAME_POINT and abs(way_x * y - way_y * x) < 1e-6 * length:
                return slides_along(x, y, (fact.points[1], fact.points[2]))
    return slides_along(x, y)


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
    return found


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
        if key in layout.points and _n_facts(layout, key) > 2:
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
    return [Degenerate(tuple(_keys_of(layout, newton.unknowns)), tags_of(layout, equations))]


def _first_loose(layout: Layout, rest: Equations, values: Values) -> list[Finding]:
    rows, _ = rest.rows(values)
    moves = open_directions(rows, len(rest.unknowns))
    slots = list(rest.unknowns)
    keys = _keys_of(layout, slots)
    for key in keys:
        motion = _motion(layout, values, key, slots, moves)
        if motion is not None:
            return [_loose(layout, key, motion, moves.shape[1], tuple(keys), False)]
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
