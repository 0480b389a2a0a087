"""Loose points: which points their facts do not pin, and how each can still move.

A loose group is laid out in some place that keeps the facts it has; the directions that its facts leave open there tell
how each point can move. A group that speaks of nothing outside itself and only lacks what would lay it on the sheet is
told of once: it lacks a base. A large group is not laid out; each of its points is judged by its own facts.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from drafting.geometry.tolerances import SAME_POINT
from drafting.model.expressions import AngleAt, Applied, Bound, Constant, Distance, Operation, Value
from drafting.solve.coupled.bodies import OF_SHAPE
from drafting.solve.coupled.newton import Equations
from drafting.solve.coupled.search import descend, starts
from drafting.solve.findings import Finding, Free, Loose, Motion, Slides, Turns, slides_along
from drafting.solve.kinds import EQUATION
from drafting.solve.layout import Equation, Layout
from drafting.solve.program import Run
from drafting.solve.rank import open_directions
from drafting.solve.structure import Structure, inputs_of
from drafting.solve.system import Unknown

Values = list[Any]
LARGE = 60
"""Loose numbers above which a group is not laid out."""


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
    keys = keys_of_slots(layout, slots)
    missing = len(slots) - len(equations)
    lacking = [key for key in keys if _needs(layout, key) > n_facts_of(layout, key)]
    freedoms = _freedoms_without_base(layout, slots, equations)
    if len(keys) > 1 and missing <= freedoms:
        return [loose_finding(layout, (lacking or keys)[0], Free(), freedoms, tuple(keys), True)]
    if run is None:
        motions: dict[str, Motion | None] = dict.fromkeys(keys)
    elif len(slots) > LARGE:
        motions = {key: _motion_by_own_facts(layout, run.values, key, set(slots)) for key in keys}
    else:
        moves = _moves(structure, run, slots, equations)
        if moves is None:
            motions = dict.fromkeys(keys)
        else:
            missing = moves.shape[1]
            motions = {key: motion_of(layout, run.values, key, slots, moves) for key in keys}
    moving = [key for key in keys if motions[key] is not None]
    told = [key for key in lacking if not moving or key in moving or key not in layout.points]
    told = told or moving[:1] or lacking[:1] or keys[:1]
    return [loose_finding(layout, key, motions[key], missing, tuple(keys), False) for key in told]


def _freedoms_without_base(layout: Layout, slots: Sequence[int], equations: Sequence[int]) -> int:
    """In how many ways a group can be laid on the sheet while all its facts hold: in none if one speaks of something
    outside it, else in 2, or 3 if they speak of shape alone, so that it can be turned too.

    A group may lack fewer facts than that when some of those it has depend on each other.
    """
    inside = set(slots)
    turns = True
    for e in equations:
        equation = layout.equations[e]
        if not inside.issuperset(_coordinates_read(layout, equation)) or equation.objects:
            return 0
        if equation.form.name in ("coordinate_x", "coordinate_y"):
            return 0
        if equation.form is EQUATION:
            if equation.left is None or not _is_of_shape(equation.left.expression, layout):
                return 0
        elif equation.form.name not in OF_SHAPE:
            turns = False
    return 3 if turns else 2


def _coordinates_read(layout: Layout, equation: Equation) -> list[int]:
    """Slots of points, and those of computed numbers, which may hang on anything."""
    knowns = set(layout.knowns.values())
    return [slot for slot in equation.reads if slot not in knowns and not layout.names[slot].startswith("#")]


def _is_of_shape(expression: Bound, layout: Layout) -> bool:
    match expression:
        case Constant() | Distance() | AngleAt():
            return True
        case Value(key):
            return key in layout.knowns
        case Operation(_, left, right):
            return _is_of_shape(left, layout) and _is_of_shape(right, layout)
        case Applied(_, arguments):
            return all(_is_of_shape(argument, layout) for argument in arguments)


def _motion_by_own_facts(layout: Layout, values: Values, key: str, moving: set[int]) -> Motion | None:
    """How a point could move if all others stood still; None when its own facts leave it nowhere to go."""
    facts = own_facts(layout, key)
    if key not in layout.points or n_facts_of(layout, key) > 1:
        return None
    if not facts:
        return Free()
    fact = layout.system.facts[facts[0]]
    if fact.kind.name in ("offset x", "coordinate x"):
        return Slides(0.0, 1.0)
    if fact.kind.name in ("offset y", "coordinate y"):
        return Slides(1.0, 0.0)
    if fact.kind.name == "distance":
        return Turns(fact.points[1])
    return None


def loose_finding(
    layout: Layout, key: str, motion: Motion | None, missing: int, group: tuple[str, ...], as_body: bool
) -> Loose:
    tag = getattr(layout.system.nodes[key], "tag", None)
    tags = tuple(layout.system.facts[fact].tag for fact in own_facts(layout, key))
    return Loose(key, tag, n_facts_of(layout, key), tags, motion, missing, group, as_body)


def keys_of_slots(layout: Layout, slots: Sequence[int]) -> list[str]:
    by_slot = {slot: key for key, pair in layout.points.items() for slot in pair}
    return list(dict.fromkeys(by_slot.get(slot, layout.names[slot]) for slot in sorted(slots)))


def _needs(layout: Layout, key: str) -> int:
    return 1 if isinstance(layout.system.nodes[key], Unknown) else 2


def n_facts_of(layout: Layout, key: str) -> int:
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


def motion_of(layout: Layout, values: Values, key: str, slots: Sequence[int], moves: Any) -> Motion | None:
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
