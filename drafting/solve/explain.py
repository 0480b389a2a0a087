"""Which facts pin a point, and how it was found."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from drafting.records import dataclass
from drafting.solve.layout import ComputedNode, Layout
from drafting.solve.program import Compound, Run, Step, tags_of
from drafting.solve.steps import Block, ComputedStep, FormulaStep
from drafting.solve.structure import inputs_of
from drafting.solve.system import Tag


@dataclass(frozen=True)
class BlockInfo:
    """How a point or number comes about.

    `how` is `two circles`, `circle and line`, `two lines`, `direct`, `tangent`, `coupled`, `computed` or `known`.
    `tags` are the facts that pin it, `depends_on` the keys that these speak of, `together` the keys solved with it
    (itself too), `n_places` how many places there were before the choices `choices` picked (None if it has none now).
    """

    key: str
    how: str
    tags: tuple[Tag, ...]
    depends_on: tuple[str, ...]
    together: tuple[str, ...]
    n_places: int | None
    choices: tuple[Tag, ...]


def explain(layout: Layout, steps: Sequence[Step], run: Run, key: str) -> BlockInfo | None:
    """None for a key that nothing gives: one that is loose."""
    if key in layout.knowns:
        return BlockInfo(key, "known", (), (), (key,), 1, ())
    slots = layout.points.get(key) or (layout.slots[key],)
    found = [step for step in _flat(steps) if not set(step.outputs).isdisjoint(slots)]
    if not found:
        return None
    blocks = [step for step in found if isinstance(step, Block)]
    if not blocks:
        depends = tuple(_keys(layout, found[0].inputs))
        return BlockInfo(key, "computed", (), depends, (key,), 1, ())
    equations = [e for block in blocks for e in block.equations]
    together = tuple(dict.fromkeys(one for block in blocks for one in block.keys))
    inputs = [slot for block in blocks for slot in block.inputs]
    depends = tuple(one for one in _keys(layout, inputs) if one not in together)
    return BlockInfo(
        key,
        " then ".join(dict.fromkeys(_name(block) for block in blocks)),
        tags_of(layout, equations),
        depends,
        together,
        None if not run.bad.isdisjoint(slots) else _n_places(blocks, run),
        tuple(
            dict.fromkeys(
                one.tag
                for block in blocks
                if block.outputs[0] in run.decided
                for one in run.decided[block.outputs[0]].used
                if one.is_choice
            )
        ),
    )


def _flat(steps: Iterable[Step]) -> Iterable[FormulaStep | ComputedStep | Block]:
    for step in steps:
        if isinstance(step, Compound):
            yield from _flat(step.steps)
        elif isinstance(step, (FormulaStep, ComputedStep, Block)):
            yield step


_NAMES = {
    "circle and circle": "two circles",
    "line and line": "two lines",
    "line": "direct",
    "circle": "circle and line",
}


def _name(block: Block) -> str:
    return _NAMES.get(block.shape, block.shape)


def _n_places(blocks: Sequence[Block], run: Run) -> int:
    count = 1
    for block in blocks:
        decision = run.decided.get(block.outputs[0])
        count *= decision.n_places if decision is not None else 1
    return count


def _keys(layout: Layout, slots: Sequence[int]) -> list[str]:
    """Keys of points and numbers, formulas made for a fact being looked through."""
    found: dict[str, None] = {}
    waiting = list(reversed(slots))
    of_point = {slot: key for key, pair in layout.points.items() for slot in pair}
    while waiting:
        slot = waiting.pop()
        name = layout.names[slot]
        if slot in of_point:
            found[of_point[slot]] = None
        elif name in layout.system.nodes:
            found[name] = None
        elif name.startswith("=") and slot in layout.transit_of:
            node = layout.transits[layout.transit_of[slot]]
            if not isinstance(node, ComputedNode):
                waiting += reversed(inputs_of(node))
    return list(found)
