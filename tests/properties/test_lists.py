"""Laws of batches: two orders are their sum, copies scale, areas add up, a column of money adds up to its foot."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

from hypothesis import given, settings
from hypothesis import strategies as st

import drafting
from drafting.craft.lists.needs import added, times
from drafting.craft.lists.order import Entry, Order
from drafting.text.prices import parse_prices
from drafting.text.source import Source

NAMES = ("hatch-tag", "card-wallet", "belt", "coaster-tray")
PRICES = (
    "name,price,per,currency\nbody,{},m2,EUR\nskin,33.33,ft2,EUR\nwaxed,7.77,100 m,EUR\nbuckle,1.99,,EUR\n"
)


@cache
def entry(name: str) -> Entry:
    one = drafting.load(f"patterns/{name}.draft").place()
    return Entry(one.placed, one.pattern.bound)


def entries(batch: list[tuple[str, int]]) -> tuple[Entry, ...]:
    return tuple(Entry(entry(name).placed, entry(name).pattern, copies) for name, copies in batch)


batches = st.lists(st.tuples(st.sampled_from(NAMES), st.integers(1, 1_000_000)), min_size=1, max_size=3)


@settings(max_examples=12)
@given(batches, batches)
def test_two_orders_take_what_both_take(first: list[tuple[str, int]], second: list[tuple[str, int]]) -> None:
    one, other, both = (Order(entries(batch)) for batch in (first, second, first + second))
    assert both.needs == added([one.needs, other.needs])


@settings(max_examples=12)
@given(st.sampled_from(NAMES), st.integers(1, 1_000_000))
def test_so_many_copies_take_so_many_times_as_much(name: str, copies: int) -> None:
    single, many = Order(entries([(name, 1)])), Order(entries([(name, copies)]))
    assert many.needs == times(single.needs, copies)
    assert {key: count for key, (count, _) in many.straps.items()} == {
        key: count * copies for key, (count, _) in single.straps.items()
    }


@settings(max_examples=12)
@given(batches)
def test_the_stocks_hold_the_areas_of_all_parts(batch: list[tuple[str, int]]) -> None:
    order = Order(entries(batch))
    parts = sum(
        Fraction(part.area) * part.in_copy * each.copies for each in order.entries for part in each.parts
    )
    assert sum(amount for _, amount in order.needed("stock")) == parts


@settings(max_examples=12)
@given(batches, st.decimals(0, 10_000, places=2), st.fractions(Fraction(1, 10), 1, max_denominator=100))
def test_money_adds_up(batch: list[tuple[str, int]], price: object, fraction: Fraction) -> None:
    prices, _ = parse_prices(Source("p.csv", PRICES.format(price)))
    order = Order(entries(batch), prices, fraction)
    shown = [cost.cost.rounded.amount for cost in order.costs if cost.cost is not None]
    total = order.total(order.costs)
    assert total is not None and total.amount == sum(shown)
    exact = sum(cost.cost.amount for cost in order.costs if cost.cost is not None)
    assert abs(total.amount - exact) <= len(shown) * Fraction(1, 200)
