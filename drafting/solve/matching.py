"""Which equation gives which unknown: a largest matching, and who is left over.

An equation reads unknowns, directly or through computed nodes; a computed node passes on all it reads and is never
matched itself. Two matchings are made of one graph: a quick one by rounds of depth-first search, and, when that
leaves equations over, one that adds equations in the order of the text, so that the equation blamed is the first that
finds no place.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from drafting.records import dataclass

NONE = -1


@dataclass
class Web:
    """Equations, unknowns and computed nodes by number. `unknowns[e]` and `nodes[e]` are what equation e reads;
    `node_unknowns[t]` and `node_nodes[t]` what a computed node reads."""

    n_unknowns: int
    unknowns: Sequence[Sequence[int]]
    nodes: Sequence[Sequence[int]]
    node_unknowns: Sequence[Sequence[int]]
    node_nodes: Sequence[Sequence[int]]


@dataclass
class Matching:
    unknown_of: list[int]
    """For each equation the unknown it gives, or NONE."""
    equation_of: list[int]
    """For each unknown the equation that gives it, or NONE."""


def largest_matching(web: Web) -> Matching:
    matching = Matching([NONE] * len(web.unknowns), [NONE] * web.n_unknowns)
    _match_nearest(web, matching)
    left = [e for e, unknown in enumerate(matching.unknown_of) if unknown == NONE]
    while left:
        search = _Search(web, matching)
        still = [e for e in left if not search.augment(e)]
        if len(still) == len(left):
            break
        left = still
    return matching


def matching_in_order(web: Web, equations: Iterable[int]) -> tuple[Matching, list[int]]:
    """A matching of `equations` alone, taken in this order, and those that found no place.

    A search that fails has walked a part of the web where no place will ever become free, so that part is not walked
    again.
    """
    matching = Matching([NONE] * len(web.unknowns), [NONE] * web.n_unknowns)
    over: list[int] = []
    dead = bytearray(web.n_unknowns)
    for e in equations:
        search = _Search(web, matching, dead)
        if not search.augment(e):
            over.append(e)
            for unknown in search.touched:
                dead[unknown] = 1
    return matching, over


def tied_equations(web: Web, matching: Matching, start: int) -> list[int]:
    """The equations that compete with `start`: all that an exchange of places can reach, `start` among them."""
    seen_unknowns = bytearray(web.n_unknowns)
    found = [start]
    seen = {start}
    seen_nodes: set[int] = set()
    for e in found:
        for unknown in _all_unknowns(web, e, seen_nodes):
            if seen_unknowns[unknown]:
                continue
            seen_unknowns[unknown] = 1
            other = matching.equation_of[unknown]
            if other != NONE and other not in seen:
                seen.add(other)
                found.append(other)
    return sorted(found)


def unpinned(web: Web, matching: Matching) -> tuple[list[bool], list[bool]]:
    """The unknowns that no equation pins for good, and the equations that belong to them."""
    readers: list[list[int]] = [[] for _ in range(web.n_unknowns)]
    node_readers: list[list[int]] = [[] for _ in range(web.n_unknowns)]
    equations_of_node: list[list[int]] = [[] for _ in web.node_unknowns]
    nodes_of_node: list[list[int]] = [[] for _ in web.node_unknowns]
    for e, unknowns in enumerate(web.unknowns):
        if matching.unknown_of[e] == NONE:
            continue
        for unknown in unknowns:
            readers[unknown].append(e)
        for node in web.nodes[e]:
            equations_of_node[node].append(e)
    for node, unknowns in enumerate(web.node_unknowns):
        for unknown in unknowns:
            node_readers[unknown].append(node)
        for inner in web.node_nodes[node]:
            nodes_of_node[inner].append(node)
    loose = [matching.equation_of[unknown] == NONE for unknown in range(web.n_unknowns)]
    equations = [False] * len(web.unknowns)
    seen_nodes = bytearray(len(web.node_unknowns))
    waiting = [unknown for unknown in range(web.n_unknowns) if loose[unknown]]
    while waiting:
        unknown = waiting.pop()
        reading = list(readers[unknown])
        nodes = list(node_readers[unknown])
        while nodes:
            node = nodes.pop()
            if not seen_nodes[node]:
                seen_nodes[node] = 1
                reading += equations_of_node[node]
                nodes += nodes_of_node[node]
        for e in reading:
            if not equations[e]:
                equations[e] = True
                given = matching.unknown_of[e]
                if not loose[given]:
                    loose[given] = True
                    waiting.append(given)
    return loose, equations


def _match_nearest(web: Web, matching: Matching) -> None:
    """Give each equation the first free unknown among those it reads itself."""
    equation_of = matching.equation_of
    for e, unknowns in enumerate(web.unknowns):
        for unknown in unknowns:
            if equation_of[unknown] == NONE:
                equation_of[unknown] = e
                matching.unknown_of[e] = unknown
                break


def _all_unknowns(web: Web, e: int, seen_nodes: set[int]) -> Iterable[int]:
    yield from web.unknowns[e]
    waiting = list(web.nodes[e])
    while waiting:
        node = waiting.pop()
        if node in seen_nodes:
            continue
        seen_nodes.add(node)
        yield from web.node_unknowns[node]
        waiting += web.node_nodes[node]


class _Search:
    """One round of depth-first searches for chains of exchanges. Each unknown is walked at most once a round; a
    computed node is walked on from where it was left, so that many equations may pass through it in one round."""

    def __init__(self, web: Web, matching: Matching, dead: bytearray | None = None) -> None:
        self.web = web
        self.matching = matching
        self.dead = dead
        self.seen: set[int] = set()
        self.touched: list[int] = []
        self.ahead_of_node: dict[int, int] = {}

    def augment(self, start: int) -> bool:
        """Find a place for equation `start`, moving others to other places where needed."""
        stack = [start]
        chosen: dict[int, int] = {}
        while stack:
            step = self._next(stack[-1])
            if step is None:
                stack.pop()
                continue
            is_node, other = step
            if is_node:
                stack.append(-other - 1)
                continue
            equation = self.matching.equation_of[other]
            holder = next(v for v in reversed(stack) if v >= 0)
            chosen[holder] = other
            if equation == NONE:
                self._exchange([v for v in stack if v >= 0], chosen)
                return True
            stack.append(equation)
        return False

    def _next(self, vertex: int) -> tuple[bool, int] | None:
        """What comes next from an equation (number >= 0) or a computed node (-1 - number)."""
        web = self.web
        if vertex >= 0:
            unknowns, nodes = web.unknowns[vertex], web.nodes[vertex]
        else:
            unknowns, nodes = web.node_unknowns[-vertex - 1], web.node_nodes[-vertex - 1]
        at = self.ahead_of_node.get(vertex, 0)
        n_unknowns = len(unknowns)
        while at < n_unknowns:
            unknown = unknowns[at]
            at += 1
            if unknown in self.seen or (self.dead is not None and self.dead[unknown]):
                continue
            self.seen.add(unknown)
            self.touched.append(unknown)
            self.ahead_of_node[vertex] = at
            return False, unknown
        if at < n_unknowns + len(nodes):
            node = nodes[at - n_unknowns]
            self.ahead_of_node[vertex] = at + 1
            return True, node
        self.ahead_of_node[vertex] = at
        return None

    def _exchange(self, equations: list[int], chosen: dict[int, int]) -> None:
        for equation in equations:
            unknown = chosen[equation]
            self.matching.unknown_of[equation] = unknown
            self.matching.equation_of[unknown] = equation
