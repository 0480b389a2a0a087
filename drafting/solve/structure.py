"""Layout -> Structure: which equations give which unknowns, in which order, and what is loose or held twice.

Nothing here looks at a number. The parts come in an order in which they can be solved: a part is one computed node, or
equations that must be solved together with the computed nodes that lie between them.
"""

from __future__ import annotations

from collections.abc import Sequence

from drafting.records import dataclass, field
from drafting.solve.graphs import ring_within, strong_parts
from drafting.solve.kinds import EQUATION
from drafting.solve.layout import ComputedNode, Layout, TransitNode
from drafting.solve.matching import (
    NONE,
    Matching,
    Web,
    largest_matching,
    matching_in_order,
    tied_equations,
    unpinned,
)


@dataclass(frozen=True)
class Part:
    """Equations and computed nodes, by number, that depend on each other. `unknowns` are the slots they give."""

    equations: tuple[int, ...]
    transits: tuple[int, ...]
    unknowns: tuple[int, ...]


@dataclass
class Structure:
    layout: Layout
    web: Web
    matching: Matching
    parts: list[Part]
    over: list[int]
    """Equations that found no place, in the order of the text."""
    loose: list[int]
    """Slots of unknowns that are not pinned."""
    loose_equations: list[int]
    rings: list[list[int]]
    """Computed nodes that need each other, each ring in the order of dependence."""
    producer: dict[int, int] = field(default_factory=dict)
    """The part that fills a slot."""

    def circuit(self, equation: int) -> list[int]:
        """The equations that compete with one that found no place."""
        return tied_equations(self.web, self.matching, equation)


def find_structure(layout: Layout) -> Structure:
    inputs = [inputs_of(node) for node in layout.transits]
    feeds = [
        sorted({layout.transit_of[slot] for slot in slots if slot in layout.transit_of}) for slots in inputs
    ]
    node_parts = strong_parts(feeds)
    rings = [ring_within(part, feeds) for part in node_parts if len(part) > 1 or part[0] in feeds[part[0]]]
    web = _web(layout, inputs, feeds, node_parts)
    matching, over = _match(web)
    loose_flags, loose_equations = unpinned(web, matching)
    structure = Structure(
        layout,
        web,
        matching,
        [],
        over,
        [slot for slot, loose in zip(layout.unknowns, loose_flags, strict=True) if loose],
        [e for e, loose in enumerate(loose_equations) if loose],
        rings,
    )
    _order_parts(structure, inputs, loose_equations)
    return structure


def inputs_of(node: TransitNode) -> tuple[int, ...]:
    if not isinstance(node, ComputedNode):
        return node.inputs
    flat: list[int] = []
    for item in node.inputs:
        flat += item if isinstance(item, tuple) else (item,)
    return tuple(flat)


def outputs_of(node: TransitNode) -> tuple[int, ...]:
    if not isinstance(node, ComputedNode):
        return (node.output,)
    return tuple(slot for slot in (node.output, node.output_x, node.output_y) if slot >= 0)


def _web(
    layout: Layout,
    inputs: Sequence[tuple[int, ...]],
    feeds: Sequence[Sequence[int]],
    node_parts: Sequence[Sequence[int]],
) -> Web:
    number = {slot: index for index, slot in enumerate(layout.unknowns)}
    node_unknowns = [[number[slot] for slot in dict.fromkeys(slots) if slot in number] for slots in inputs]
    moving = bytearray(len(inputs))
    for part in node_parts:
        if any(node_unknowns[node] or any(moving[other] for other in feeds[node]) for node in part):
            for node in part:
                moving[node] = 1
    transit_of = layout.transit_of
    unknowns: list[list[int]] = []
    nodes: list[list[int]] = []
    for equation in layout.equations:
        unknowns.append([number[slot] for slot in equation.reads if slot in number])
        read = [transit_of[slot] for slot in equation.reads if slot in transit_of]
        nodes.append(list(dict.fromkeys([node for node in read if moving[node]])))
    node_nodes = [[other for other in others if moving[other]] for others in feeds]
    return Web(len(layout.unknowns), unknowns, nodes, node_unknowns, node_nodes)


def _match(web: Web) -> tuple[Matching, list[int]]:
    """A largest matching. If equations are left over, those that compete are matched anew in the order of the text,
    so that it is the later ones that are left."""
    matching = largest_matching(web)
    left = [e for e, unknown in enumerate(matching.unknown_of) if unknown == NONE]
    if not left:
        return matching, []
    tied: set[int] = set()
    for e in left:
        if e not in tied:
            tied.update(tied_equations(web, matching, e))
    again, over = matching_in_order(web, sorted(tied))
    for e in tied:
        unknown = again.unknown_of[e]
        matching.unknown_of[e] = unknown
        if unknown != NONE:
            matching.equation_of[unknown] = e
    return matching, over


def _order_parts(
    structure: Structure, inputs: Sequence[tuple[int, ...]], loose_equations: Sequence[bool]
) -> None:
    layout, matching = structure.layout, structure.matching
    n_transits = len(layout.transits)
    maker = dict(layout.transit_of)
    for index, slot in enumerate(layout.unknowns):
        by = matching.equation_of[index]
        if by != NONE and not loose_equations[by]:
            maker[slot] = n_transits + by
    edges: list[list[int]] = [[maker[slot] for slot in slots if slot in maker] for slots in inputs]
    for e, equation in enumerate(layout.equations):
        if matching.unknown_of[e] == NONE or loose_equations[e]:
            edges.append([])
        else:
            bounds = layout.ranges.get(layout.unknowns[matching.unknown_of[e]], ())
            edges.append([maker[slot] for slot in (*equation.reads, *bounds) if slot in maker])
    vertices = strong_parts(edges)
    if layout.ranges:
        vertices = _joined_by_range(layout, edges, vertices, maker)
    for part in vertices:
        transits = tuple([vertex for vertex in part if vertex < n_transits])
        equations = tuple([vertex - n_transits for vertex in part if vertex >= n_transits])
        if equations and (matching.unknown_of[equations[0]] == NONE or loose_equations[equations[0]]):
            continue
        unknowns = tuple(sorted([layout.unknowns[matching.unknown_of[e]] for e in equations]))
        for slot in unknowns:
            structure.producer[slot] = len(structure.parts)
        structure.parts.append(Part(equations, transits, unknowns))
    _place_transits(structure)


def _joined_by_range(
    layout: Layout, edges: list[list[int]], vertices: list[list[int]], maker: dict[int, int]
) -> list[list[int]]:
    """A number to be found is best walked over its range. Where its part only hands on a coordinate that an equation
    of no ready-made form gave, such as the length of a run, the two parts are made one."""
    n_transits = len(layout.transits)
    part_of = {vertex: number for number, part in enumerate(vertices) for vertex in part}
    joined = False
    for slot in layout.ranges:
        if slot not in maker:
            continue
        home = part_of[maker[slot]]
        for near in {part_of[other] for vertex in vertices[home] for other in edges[vertex]} - {home}:
            given = [vertex for vertex in vertices[near] if vertex >= n_transits]
            is_open = len(given) < len(vertices[near]) or any(
                layout.equations[vertex - n_transits].form is EQUATION for vertex in given
            )
            if given and is_open:
                edges[given[0]].append(maker[slot])
                joined = True
    return strong_parts(edges) if joined else vertices


def _place_transits(structure: Structure) -> None:
    part_of = {transit: index for index, part in enumerate(structure.parts) for transit in part.transits}
    for slot, transit in structure.layout.transit_of.items():
        structure.producer[slot] = part_of[transit]
