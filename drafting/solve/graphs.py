"""Strongly connected parts of a graph, without recursion and in an order that repeats from run to run."""

from __future__ import annotations

from collections.abc import Sequence


def strong_parts(edges: Sequence[Sequence[int]]) -> list[list[int]]:
    """Tarjan's strongly connected parts of the vertices 0..n-1; `edges[v]` are those that v depends on.

    A part comes after all parts it depends on. Members of a part are in rising order.
    """
    n = len(edges)
    order = [0] * n
    low = [0] * n
    on_stack = bytearray(n)
    stack: list[int] = []
    parts: list[list[int]] = []
    count = 0
    for start in range(n):
        if order[start]:
            continue
        count += 1
        order[start] = low[start] = count
        stack.append(start)
        on_stack[start] = 1
        walk = [(start, iter(edges[start]))]
        while walk:
            vertex, ahead = walk[-1]
            descended = False
            for other in ahead:
                if not order[other]:
                    count += 1
                    order[other] = low[other] = count
                    stack.append(other)
                    on_stack[other] = 1
                    walk.append((other, iter(edges[other])))
                    descended = True
                    break
                if on_stack[other] and order[other] < low[vertex]:
                    low[vertex] = order[other]
            if descended:
                continue
            walk.pop()
            if walk and low[vertex] < low[walk[-1][0]]:
                low[walk[-1][0]] = low[vertex]
            if low[vertex] == order[vertex]:
                parts.append(_unstack(vertex, stack, on_stack))
    return parts


def _unstack(vertex: int, stack: list[int], on_stack: bytearray) -> list[int]:
    part = []
    while True:
        member = stack.pop()
        on_stack[member] = 0
        part.append(member)
        if member == vertex:
            break
    part.sort()
    return part


def reach(starts: Sequence[int], edges: Sequence[Sequence[int]]) -> list[bool]:
    """Which vertices can be reached from `starts`, themselves among them."""
    seen = [False] * len(edges)
    waiting = list(starts)
    for start in starts:
        seen[start] = True
    while waiting:
        for other in edges[waiting.pop()]:
            if not seen[other]:
                seen[other] = True
                waiting.append(other)
    return seen


def ring_within(part: Sequence[int], edges: Sequence[Sequence[int]]) -> list[int]:
    """A shortest ring through the first vertex of a strongly connected part, in the order of dependence."""
    inside = set(part)
    start = part[0]
    came_from: dict[int, int] = {}
    waiting = [start]
    for vertex in waiting:
        for other in edges[vertex]:
            if other == start:
                return _way_back(vertex, start, came_from)
            if other in inside and other not in came_from:
                came_from[other] = vertex
                waiting.append(other)
    return list(part)


def _way_back(vertex: int, start: int, came_from: dict[int, int]) -> list[int]:
    way = [vertex]
    while way[-1] != start:
        way.append(came_from[way[-1]])
    return way[::-1]
