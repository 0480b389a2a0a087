"""Check every fact apart from the plan: what it asks for against what the finished points give.

This is another road than the one that solved them: each fact is measured as a maker would, with a rule and a
protractor, in plain floats. A residual says nothing about which of several places was taken; the choices do that.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from drafting.geometry import maths as math
from drafting.geometry.arc import Arc
from drafting.geometry.leg import Leg
from drafting.solve.kinds import TANGENT
from drafting.solve.layout import Equation, Layout
from drafting.solve.on_paths import legs_of, off_leg, touch_of_line
from drafting.solve.roots import cosine, sine

Values = list[Any]
EXACT = 1e-9
"""mm that a fact may be off, for a pattern no larger than a hide."""

ROUNDING = 1e-14
"""And so much of the largest coordinate or length met, which is what a double can hold."""


class SolverFault(Exception):
    """The plan gave a point that does not keep its facts: our own bug, never the maker's."""


def misfit(equation: Equation, values: Values) -> float:
    """How far a fact is off, in mm (for angles: the length of arc that is missed at the shorter leg)."""
    asked, given = measured(equation, values)
    return given - asked


def measured(equation: Equation, values: Values) -> tuple[float, float]:
    """What an equation asks for and what the points give, both in mm; what is asked may not be known yet."""
    try:
        return _MEASURES[equation.form.name](equation, values)
    except ZeroDivisionError:
        return 0.0, math.inf  # a line between two points that have fallen together


def is_kept(equation: Equation, values: Values, slack: float = 1.0) -> bool:
    """Whether a fact holds, as far as doubles can tell."""
    off = abs(misfit(equation, values))
    return off <= slack * EXACT or off <= slack * allowance(equation, values)


def allowance(equation: Equation, values: Values) -> float:
    numbers = (values[slot] for slot in equation.reads)
    largest = math.most(1.0, *(abs(number) for number in numbers if hasattr(number, "__abs__")))
    if not equation.objects:
        return EXACT + ROUNDING * largest
    largest = max([largest, *(_reach(leg) for leg in legs_of(values[equation.objects[0]]))])
    return EXACT + ROUNDING * largest * _strain(equation, values, largest)


def _reach(leg: Leg) -> float:
    """The largest number that a leg is made of."""
    box = leg.bounds
    radius = leg.radius if isinstance(leg, Arc) else 0.0
    return max(radius, *(abs(end) for end in (box.min_x, box.min_y, box.max_x, box.max_y)))


def _strain(equation: Equation, values: Values, largest: float) -> float:
    """How much rounding grows where a line touches: a point hardly off a huge circle moves its touch by far more."""
    if equation.form is not TANGENT:
        return 1.0
    return 1.0 + largest / max(math.dist(_point(equation, values, 0), _point(equation, values, 1)), 1e-6)


def verify(layout: Layout, values: Values, bad: set[int], excused: set[int]) -> None:
    """Raise SolverFault unless every unknown has a number and every fact holds, but those told of already.

    `bad` are slots that have no number for a reason told of, `excused` equations that have a finding of their own.
    """
    for slot in layout.unknowns:
        if values[slot] is None and slot not in bad:
            raise SolverFault(f"{layout.names[slot]} was never given")
    for number, equation in enumerate(layout.equations):
        if number in excused or (bad and not bad.isdisjoint(equation.reads)):
            continue
        if not is_kept(equation, values):
            off = abs(misfit(equation, values))
            tag = layout.system.facts[equation.fact].tag
            raise SolverFault(f"{equation.form.name} ({tag!r}) is off by {off:.3g} mm")


def _point(equation: Equation, values: Values, index: int) -> tuple[float, float]:
    x, y = equation.points[index]
    return values[x], values[y]


def _offset(axis: int) -> Callable[[Equation, Values], tuple[float, float]]:
    def measure(equation: Equation, values: Values) -> tuple[float, float]:
        p, q = equation.points[0][axis], equation.points[1][axis]
        wanted = values[equation.scalars[0]] if equation.scalars else 0.0
        return wanted, values[p] - values[q]

    return measure


def _coordinate(axis: int) -> Callable[[Equation, Values], tuple[float, float]]:
    return lambda equation, values: (values[equation.scalars[0]], values[equation.points[0][axis]])


def _distance(equation: Equation, values: Values) -> tuple[float, float]:
    (px, py), (qx, qy) = equation.points
    return values[equation.scalars[0]], math.hypot(values[px] - values[qx], values[py] - values[qy])


def _line_distance(equation: Equation, values: Values) -> tuple[float, float]:
    (px, py), (ax, ay), (bx, by) = (_point(equation, values, index) for index in range(3))
    way_x, way_y = bx - ax, by - ay
    off = (way_x * (py - ay) - way_y * (px - ax)) / math.hypot(way_x, way_y)
    return values[equation.scalars[0]], abs(off)


def _ray(equation: Equation, values: Values) -> tuple[float, float]:
    """How far the point lies to the side of the ray."""
    (px, py), (qx, qy) = (_point(equation, values, index) for index in range(2))
    degrees = values[equation.scalars[0]]
    return 0.0, cosine(degrees) * (py - qy) - sine(degrees) * (px - qx)


def _between(axis: int) -> Callable[[Equation, Values], tuple[float, float]]:
    def measure(equation: Equation, values: Values) -> tuple[float, float]:
        p, a, b = (values[pair[axis]] for pair in equation.points)
        return a + (b - a) * values[equation.scalars[0]], p

    return measure


def _along(axis: int) -> Callable[[Equation, Values], tuple[float, float]]:
    def measure(equation: Equation, values: Values) -> tuple[float, float]:
        p = values[equation.points[0][axis]]
        a, b = (_point(equation, values, index) for index in (1, 2))
        share = values[equation.scalars[0]] / math.dist(a, b)
        return a[axis] + (b[axis] - a[axis]) * share, p

    return measure


def _mirror(axis: int) -> Callable[[Equation, Values], tuple[float, float]]:
    def measure(equation: Equation, values: Values) -> tuple[float, float]:
        q, a, b = (_point(equation, values, index) for index in (1, 2, 3))
        angle = 2 * math.atan2(b[1] - a[1], b[0] - a[0])
        x, y = q[0] - a[0], q[1] - a[1]
        turned = (x * math.cos(angle) + y * math.sin(angle), x * math.sin(angle) - y * math.cos(angle))
        return a[axis] + turned[axis], values[equation.points[0][axis]]

    return measure


def _frame(axis: int) -> Callable[[Equation, Values], tuple[float, float]]:
    def measure(equation: Equation, values: Values) -> tuple[float, float]:
        (ax, ay), (bx, by) = (_point(equation, values, index) for index in (1, 2))
        u, v = (values[slot] for slot in equation.scalars)
        way = (bx - ax, by - ay)
        across = (-way[1], way[0])
        return (ax, ay)[axis] + u * way[axis] + v * across[axis], values[equation.points[0][axis]]

    return measure


def _stretches(equation: Equation, values: Values) -> tuple[float, float, float, float]:
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = (_point(equation, values, index) for index in range(4))
    return bx - ax, by - ay, dx - cx, dy - cy


def _parallel(equation: Equation, values: Values) -> tuple[float, float]:
    """How far the end of the second stretch lies off, the first being taken as the direction."""
    px, py, qx, qy = _stretches(equation, values)
    longer = max(math.hypot(px, py), math.hypot(qx, qy))
    return 0.0, (px * qy - py * qx) / longer if longer else 0.0


def _square(equation: Equation, values: Values) -> tuple[float, float]:
    px, py, qx, qy = _stretches(equation, values)
    longer = max(math.hypot(px, py), math.hypot(qx, qy))
    return 0.0, (px * qx + py * qy) / longer if longer else 0.0


def _equal_lengths(equation: Equation, values: Values) -> tuple[float, float]:
    px, py, qx, qy = _stretches(equation, values)
    return math.hypot(px, py), math.hypot(qx, qy)


def _angle(equation: Equation, values: Values) -> tuple[float, float]:
    (ax, ay), (vx, vy), (bx, by) = (_point(equation, values, index) for index in range(3))
    px, py, qx, qy = ax - vx, ay - vy, bx - vx, by - vy
    given = math.atan2(abs(px * qy - py * qx), px * qx + py * qy)
    shorter = min(math.hypot(px, py), math.hypot(qx, qy))
    return math.radians(values[equation.scalars[0]]) * shorter, given * shorter


def _on_path(equation: Equation, values: Values) -> tuple[float, float]:
    x, y = _point(equation, values, 0)
    return 0.0, min((abs(off_leg(leg, x, y)) for leg in _legs_near(equation, values, x, y)), default=math.inf)


def _legs_near(equation: Equation, values: Values, x: float, y: float) -> list[Any]:
    from drafting.solve.on_paths import lies_on

    return [leg for leg in legs_of(values[equation.objects[0]]) if lies_on(leg, x, y)]


def _tangent(equation: Equation, values: Values) -> tuple[float, float]:
    """The line from the second point to the first is square to the radius where it touches."""
    px, py = _point(equation, values, 0)
    qx, qy = _point(equation, values, 1)
    offs = []
    for leg in _legs_near(equation, values, px, py):
        center = getattr(leg, "center", None)
        if center is not None:
            out_x, out_y = px - center.x, py - center.y
            offs.append(abs((px - qx) * out_x + (py - qy) * out_y) / max(math.hypot(px - qx, py - qy), 1e-6))
    return 0.0, min(offs, default=math.inf)


def _touches(equation: Equation, values: Values) -> tuple[float, float]:
    start, end = (_point(equation, values, index) for index in range(2))
    touch = touch_of_line(values[equation.objects[0]], *start, *end)
    if touch is None:
        return 0.0, math.inf
    way_x, way_y = end[0] - start[0], end[1] - start[1]
    off = (way_x * (touch[1] - start[1]) - way_y * (touch[0] - start[0])) / math.hypot(way_x, way_y)
    return 0.0, off


def _equation(equation: Equation, values: Values) -> tuple[float, float]:
    node = equation.left
    assert node is not None
    return 0.0, node.function(*[values[slot] for slot in node.inputs])


_MEASURES: dict[str, Callable[[Equation, Values], tuple[float, float]]] = {
    "offset_x": _offset(0),
    "offset_y": _offset(1),
    "same_x": _offset(0),
    "same_y": _offset(1),
    "coordinate_x": _coordinate(0),
    "coordinate_y": _coordinate(1),
    "distance": _distance,
    "line_distance": _line_distance,
    "ray": _ray,
    "between_x": _between(0),
    "between_y": _between(1),
    "along_x": _along(0),
    "along_y": _along(1),
    "mirror_x": _mirror(0),
    "mirror_y": _mirror(1),
    "frame_x": _frame(0),
    "frame_y": _frame(1),
    "parallel": _parallel,
    "square": _square,
    "equal_lengths": _equal_lengths,
    "angle": _angle,
    "on_path": _on_path,
    "tangent": _tangent,
    "touches": _touches,
    "equation": _equation,
}
