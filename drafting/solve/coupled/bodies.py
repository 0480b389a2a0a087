"""Rigid bodies: points that keep their shape among themselves, solved in a frame of their own, then placed.

A drawing pinned at one end only hangs together as one block, however long it is. But facts that speak of shape alone
(distances, angles, square, parallel) can be solved with the first two points laid on the axis of a frame. What is
left is to place the body: one distance, and for every other point where it lies in the frame of two of them.

The frame has many branches, for every point may lie on either side. A choice such as `right of` leaves the body only
half of all its turnings; where the choices of a branch leave no turning at all, the branch is dropped at once.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import combinations
from typing import Any

from drafting.records import dataclass, replace
from drafting.solve.coupled.sequence import Order, Sequencer
from drafting.solve.coupled.tearing import Torn, find_tearing
from drafting.solve.filters import Filter
from drafting.solve.kinds import DISTANCE, FRAME_X, FRAME_Y
from drafting.solve.layout import Equation, Layout, added_equation
from drafting.solve.steps import SmallBlock, Unsolved
from drafting.solve.structure import outputs_of

Values = list[Any]
Pair = tuple[int, int]
OF_SHAPE = frozenset(
    {
        "distance",
        "line_distance",
        "parallel",
        "square",
        "equal_lengths",
        "angle",
        "between_x",
        "between_y",
        "along_x",
        "along_y",
        "mirror_x",
        "mirror_y",
    }
)
MOST_WAYS = 3000
SHAPE_CONDITIONS = ("angle", "between", "apart")
MOST_SEEDS = 12


@dataclass(frozen=True)
class Body:
    """`seed` is laid on the axis of the frame, `order` gives the other points there. `layout` is the caller's with
    slots and equations added that place the body by its two points `base`; `placing` solves them."""

    seed: tuple[Pair, Pair]
    seed_length: int
    order: Order
    members: tuple[Pair, ...]
    base: tuple[Pair, Pair]
    layout: Layout
    length_slot: int
    frame_slots: tuple[tuple[Pair, int, int], ...]
    placing: Order | Torn


def find_body(
    layout: Layout, equations: Sequence[int], unknowns: Sequence[int], transits: Sequence[int]
) -> Body | None:
    """The largest body in a block whose placing can be solved, or None."""
    inner = set(unknowns)
    for transit in transits:
        inner.update(outputs_of(layout.transits[transit]))
    shape = [e for e in equations if _is_of_shape(layout.equations[e], inner)]
    found = _largest(layout, shape)
    if found is None:
        return None
    seed_equation, order = found
    seed = layout.equations[seed_equation]
    members = tuple(dict.fromkeys([*seed.points, *(_pair_of(layout, step.outputs) for step in order.steps)]))
    used = set(shape) - set(order.left_over)
    rest = [e for e in equations if e not in used]
    for base in _bases(layout, rest, members, seed.points, inner):
        body = _placed_by(layout, seed, order, members, base, rest, unknowns, transits)
        if body is not None:
            return body
    return None


def _is_of_shape(equation: Equation, inner: set[int]) -> bool:
    return equation.form.name in OF_SHAPE and inner.isdisjoint(equation.scalars)


def _largest(layout: Layout, shape: list[int]) -> tuple[int, Order] | None:
    """The seed from which most points follow. A body needs a third point."""
    unknowns = sorted({slot for e in shape for pair in layout.equations[e].points for slot in pair})
    best: tuple[int, Order] | None = None
    seeds = [e for e in shape if layout.equations[e].form is DISTANCE]
    for seed in seeds[:MOST_SEEDS]:
        known = [slot for pair in layout.equations[seed].points for slot in pair]
        order = Sequencer(layout, shape, unknowns, ()).sequence(known, (seed,))
        if order.steps and (best is None or len(order.steps) > len(best[1].steps)):
            best = seed, order
        if not order.unreached:
            break
    return best


def _pair_of(layout: Layout, outputs: tuple[int, ...]) -> Pair:
    return layout.pair_of[outputs[0]]


def _bases(
    layout: Layout,
    rest: Sequence[int],
    members: Sequence[Pair],
    seed: tuple[Pair, ...],
    inner: set[int],
) -> Iterator[tuple[Pair, Pair]]:
    """Pairs of points to place the body by: those that other facts, or the ground, get hold of."""
    held = [
        pair
        for pair in members
        if not inner.issuperset(pair) or any(pair in layout.equations[e].points for e in rest)
    ]
    yield from combinations(held[:6], 2)
    yield seed[0], seed[1]


def _placed_by(
    layout: Layout,
    seed: Equation,
    order: Order,
    members: tuple[Pair, ...],
    base: tuple[Pair, Pair],
    rest: list[int],
    unknowns: Sequence[int],
    transits: Sequence[int],
) -> Body | None:
    names, starts = list(layout.names), list(layout.start_values)
    added: list[Equation] = []

    def new_slot(name: str) -> int:
        names.append(name)
        starts.append(None)
        return len(names) - 1

    length_slot = new_slot("~length")
    added.append(added_equation(DISTANCE, seed.fact, base, (length_slot,)))
    frame_slots: list[tuple[Pair, int, int]] = []
    for pair in members:
        if pair not in base:
            u, v = new_slot("~u"), new_slot("~v")
            frame_slots.append((pair, u, v))
            for form in (FRAME_X, FRAME_Y):
                added.append(added_equation(form, seed.fact, (pair, *base), (u, v)))
    larger = replace(layout, names=names, start_values=starts, equations=[*layout.equations, *added])
    first = len(layout.equations)
    equations = (*rest, *range(first, first + len(added)))
    sequencer = Sequencer(larger, equations, unknowns, transits)
    order_of_rest = sequencer.sequence(())
    placing: Order | Torn | None = order_of_rest
    if order_of_rest.unreached or order_of_rest.left_over:
        placing = find_tearing(larger, sequencer)
    if placing is None:
        return None
    return Body(
        (seed.points[0], seed.points[1]),
        seed.scalars[0],
        order,
        members,
        base,
        larger,
        length_slot,
        tuple(frame_slots),
        placing,
    )


# Solving the frame


Turnings = tuple[float, float] | None
"""The angles by which the body may still be turned, from one to the other; None for all of them."""


def frames(
    body: Body, values: Values, filters: Sequence[Filter]
) -> Iterator[dict[Pair, tuple[float, float]]]:
    """Every shape of the body, as the places of its members in the frame, that the choices do not rule out."""
    scratch = list(values)
    length = scratch[body.seed_length]
    (ax, ay), (bx, by) = body.seed
    scratch[ax], scratch[ay], scratch[bx], scratch[by] = 0.0, 0.0, length, 0.0
    start = (0.0, 0.0, length, 0.0)
    outputs = [ax, ay, bx, by]
    branches: list[tuple[tuple[float, ...], Turnings]] = [(start, None)]
    branches = _thinned(branches, outputs, scratch, _ready(filters, outputs, ()))
    for step in body.order.steps:
        assert isinstance(step, SmallBlock)
        ready = _ready(filters, outputs, step.outputs)
        grown: list[tuple[tuple[float, ...], Turnings]] = []
        for numbers, turnings in branches:
            _load(scratch, outputs, numbers)
            for _, place in step.branches_there(scratch):
                grown.append(((*numbers, *place), turnings))
        outputs = [*outputs, *step.outputs]
        branches = _thinned(grown, outputs, scratch, ready)
        if not branches:
            raise Unsolved()
        if len(branches) > MOST_WAYS:
            raise Unsolved(n_ways=len(branches))
    for numbers, _ in branches:
        _load(scratch, outputs, numbers)
        yield {pair: (scratch[pair[0]], scratch[pair[1]]) for pair in body.members}


def _load(scratch: Values, outputs: Sequence[int], numbers: Sequence[float]) -> None:
    for slot, number in zip(outputs, numbers, strict=True):
        scratch[slot] = number


def _ready(filters: Sequence[Filter], before: Sequence[int], outputs: Sequence[int]) -> list[Filter]:
    """The filters that speak of the shape or the turning of the body, once `outputs` are there too."""
    old, now = set(before), {*before, *outputs}
    return [
        one
        for one in filters
        if now.issuperset(_places_of(one)) and (not outputs or not old.issuperset(_places_of(one)))
    ]


def _places_of(one: Filter) -> tuple[int, ...]:
    if one.kind in ("above", "below", "left of", "right of", *SHAPE_CONDITIONS):
        return one.reads[:-1] if one.kind == "angle" else one.reads
    return (-1,)


def _thinned(
    branches: list[tuple[tuple[float, ...], Turnings]],
    outputs: Sequence[int],
    scratch: Values,
    filters: Sequence[Filter],
) -> list[tuple[tuple[float, ...], Turnings]]:
    if not filters:
        return branches
    kept: list[tuple[tuple[float, ...], Turnings]] = []
    for numbers, turnings in branches:
        _load(scratch, outputs, numbers)
        allowed = True
        for one in filters:
            if one.kind in SHAPE_CONDITIONS:
                assert one.test is not None
                allowed = one.test(scratch)
            else:
                turnings = _both(turnings, _middle_turning(one, scratch))
                allowed = turnings[0] <= turnings[1]
            if not allowed:
                break
        if allowed:
            kept.append((numbers, turnings))
    return kept


SLACK = 1e-6
"""Radians by which a turning may lie beyond what a choice allows: the finished place is tested anyhow."""


def _both(turnings: Turnings, middle: float) -> tuple[float, float]:
    """What is left of some turnings when only those within a right angle of `middle` may stay."""
    quarter = math.pi / 2 + SLACK
    if turnings is None:
        return middle - quarter, middle + quarter
    low, high = turnings
    center = (low + high) / 2
    off = math.remainder(middle - center, 2 * math.pi)
    return max(low, center + off - quarter), min(high, center + off + quarter)


def _middle_turning(one: Filter, scratch: Values) -> float:
    """The middle of the half circle of turnings by which a choice comes true."""
    px, py = scratch[one.reads[0]], scratch[one.reads[1]]
    ax, ay = scratch[one.reads[2]], scratch[one.reads[3]]
    wanted = {"above": math.pi / 2, "below": -math.pi / 2, "left of": math.pi, "right of": 0.0}[one.kind]
    if len(one.reads) == 4:
        return wanted - math.atan2(py - ay, px - ax)
    bx, by = scratch[one.reads[4]], scratch[one.reads[5]]
    turn = (bx - ax) * (py - ay) - (by - ay) * (px - ax)
    line = math.atan2(by - ay, bx - ax)
    left_of_line = wanted - math.pi / 2
    return (left_of_line if turn > 0 else left_of_line + math.pi) - line


def frame_numbers(body: Body, frame: dict[Pair, tuple[float, float]]) -> dict[int, float] | None:
    """The slots that place a body of this shape; None when its two base points fall together."""
    (ax, ay), (bx, by) = frame[body.base[0]], frame[body.base[1]]
    way_x, way_y = bx - ax, by - ay
    squared = way_x * way_x + way_y * way_y
    if squared <= 1e-12:
        return None
    numbers = {body.length_slot: math.sqrt(squared)}
    for pair, u, v in body.frame_slots:
        x, y = frame[pair][0] - ax, frame[pair][1] - ay
        numbers[u] = (x * way_x + y * way_y) / squared
        numbers[v] = (way_x * y - way_y * x) / squared
    return numbers
