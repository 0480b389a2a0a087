"""Strongly connected parts, and which equation gives which unknown."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from drafting.solve.graphs import ring_within, strong_parts
from drafting.solve.matching import NONE, Web, largest_matching, matching_in_order, tied_equations, unpinned


@st.composite
def graphs(draw: st.DrawFn) -> list[list[int]]:
    n = draw(st.integers(1, 9))
    return [draw(st.lists(st.integers(0, n - 1), max_size=4, unique=True)) for _ in range(n)]


def reachable(edges: list[list[int]], start: int) -> set[int]:
    found, waiting = {start}, [start]
    while waiting:
        for other in edges[waiting.pop()]:
            if other not in found:
                found.add(other)
                waiting.append(other)
    return found


@given(graphs())
def test_a_part_is_all_that_reach_each_other_and_comes_after_what_it_needs(edges: list[list[int]]) -> None:
    parts = strong_parts(edges)
    assert sorted(v for part in parts for v in part) == list(range(len(edges)))
    place = {v: number for number, part in enumerate(parts) for v in part}
    for one in range(len(edges)):
        for other in range(len(edges)):
            together = other in reachable(edges, one) and one in reachable(edges, other)
            assert together == (place[one] == place[other])
        for other in edges[one]:
            assert place[other] <= place[one]


def test_a_chain_of_any_length_needs_no_recursion() -> None:
    n = 50_000
    edges = [[v + 1] if v + 1 < n else [] for v in range(n)]
    assert strong_parts(edges)[0] == [n - 1]
    ring = strong_parts([[(v + 1) % n] for v in range(n)])
    assert len(ring) == 1


def test_the_shortest_ring_is_shown_in_the_order_of_need() -> None:
    assert ring_within([0, 1, 2, 3], [[1], [2], [0, 3], [0]]) == [0, 1, 2]


@st.composite
def webs(draw: st.DrawFn) -> Web:
    n_unknowns = draw(st.integers(1, 7))
    n_nodes = draw(st.integers(0, 3))
    some = st.lists(st.integers(0, n_unknowns - 1), max_size=3, unique=True)
    n_equations = draw(st.integers(0, 8))
    return Web(
        n_unknowns,
        [draw(some) for _ in range(n_equations)],
        [
            draw(st.lists(st.integers(0, n_nodes - 1), max_size=2, unique=True)) if n_nodes else []
            for _ in range(n_equations)
        ],
        [draw(some) for _ in range(n_nodes)],
        [
            [other for other in draw(st.lists(st.integers(0, 2), max_size=1)) if other < node]
            for node in range(n_nodes)
        ],
    )


def reads(web: Web, e: int) -> set[int]:
    found, nodes = set(web.unknowns[e]), list(web.nodes[e])
    while nodes:
        node = nodes.pop()
        found.update(web.node_unknowns[node])
        nodes += web.node_nodes[node]
    return found


def largest_by_trying(web: Web, equations: list[int], taken: frozenset[int] = frozenset()) -> int:
    if not equations:
        return 0
    first, *rest = equations
    without = largest_by_trying(web, rest, taken)
    free = [u for u in reads(web, first) if u not in taken]
    return max([without, *(1 + largest_by_trying(web, rest, taken | {u}) for u in free)])


@given(webs())
def test_the_matching_is_as_large_as_can_be(web: Web) -> None:
    matching = largest_matching(web)
    pairs = [(e, u) for e, u in enumerate(matching.unknown_of) if u != NONE]
    for e, u in pairs:
        assert u in reads(web, e)
        assert matching.equation_of[u] == e
    assert len(pairs) == largest_by_trying(web, list(range(len(web.unknowns))))


@given(webs())
def test_in_order_the_first_that_finds_no_place_is_left_over(web: Web) -> None:
    """An equation is left over just when it does not make the largest matching of it and the earlier ones larger."""
    _, over = matching_in_order(web, range(len(web.unknowns)))
    for e in range(len(web.unknowns)):
        before = largest_by_trying(web, list(range(e)))
        grew = largest_by_trying(web, list(range(e + 1))) > before
        assert grew == (e not in over)


@given(webs())
def test_loose_are_the_unknowns_some_largest_matching_leaves_out(web: Web) -> None:
    matching = largest_matching(web)
    if NONE in matching.unknown_of:
        return
    loose, _ = unpinned(web, matching)
    everything = list(range(len(web.unknowns)))
    for u in range(web.n_unknowns):
        can_do_without = largest_by_trying(web, everything, frozenset({u})) == len(everything)
        assert loose[u] == can_do_without


def test_the_circuit_of_a_fact_too_many_leaves_others_out() -> None:
    web = Web(4, [[0], [0, 1], [2], [1, 0], [3]], [[]] * 5, [], [])
    matching, over = matching_in_order(web, range(5))
    assert over == [3]
    assert tied_equations(web, matching, 3) == [0, 1, 3]


def test_many_equations_may_share_one_computed_node() -> None:
    """Thirty points on one path of thirty unknown corners: all thirty facts find a place through the same node."""
    web = Web(30, [[] for _ in range(30)], [[0]] * 30, [list(range(30))], [[]])
    assert NONE not in largest_matching(web).unknown_of
