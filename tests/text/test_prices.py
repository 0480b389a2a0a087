"""Price lists: read to the last digit, with every fault at its row."""

from __future__ import annotations

from fractions import Fraction

import pytest

from drafting.text.catalogue import entries_of
from drafting.text.catalogue import prices as catalogue
from drafting.text.money import Money, TwoCurrencies, total_of
from drafting.text.prices import PriceList, parse_prices
from drafting.text.source import Source

TOML = """\
currency = "EUR"
[body]
price = "95.10"
per = "m2"
weight = "1600 g/m2"
[waxed]
price = 12.35
per = "100 m"
[buckle]
price = 2
[tag.buckle]
price = "3,50"
"""
CSV = """\
name;price;per;weight;currency
body;95,10;m²;1,6 kg/m2;EUR
waxed;12.35;100 m;;
buckle;2;;;EUR
tag.buckle;3.50;piece;;EUR
"""


def read(text: str, name: str = "prices.toml") -> PriceList:
    prices, messages = parse_prices(Source(name, text))
    assert prices is not None, [message.says for message in messages]
    return prices


@pytest.mark.parametrize(("name", "text"), [("p.toml", TOML), ("p.csv", CSV)])
def test_both_kinds_of_list_say_the_same(name: str, text: str) -> None:
    prices = read(text, name)
    body, waxed = prices.of("body"), prices.of("waxed")
    assert body is not None and waxed is not None
    assert prices.currency == "EUR"
    assert (body.amount, body.weight) == (Fraction("95.10") / 10**6, Fraction(1600, 10**6))
    assert (waxed.amount, waxed.dimension) == (Fraction("12.35") / 100_000, "length")


def test_a_price_of_one_pattern_goes_before_one_of_any() -> None:
    prices = read(TOML)
    assert [prices.of("buckle", stem).amount for stem in ("tag", "belt")] == [Fraction(7, 2), 2]  # type: ignore[union-attr]
    assert prices.of("buckl") is None and prices.of("") is None


def test_feet_and_inches_are_exact() -> None:
    """1 ft = 304.8 mm (NBS Circular 572)."""
    prices = read('currency = "GBP"\n[hide]\nprice = 6\nper = "ft2"\n[cord]\nprice = 1\nper = "yd"')
    assert prices.of("hide").amount == Fraction(6) / Fraction("92903.04")  # type: ignore[union-attr]
    assert prices.of("cord").amount == Fraction(1) / Fraction("914.4")  # type: ignore[union-attr]


FAULTS = {
    "C90": ("p.toml", "[body\nprice = 1", 1),
    "C91": ("p.csv", "what,price\nbody,1", 1),
    "C92": ("p.csv", "name,price,currency\nbody,1,EUR\n,2,EUR", 3),
    "C93": ("p.csv", 'name,price,currency\n"bo\ndy",1,EUR\n"bo\ndy",2,EUR', 4),
    "C94": ("p.csv", "name,price,currency\nbody,1,EUR\nfilm,2,GBP", 3),
    "C95": ("p.toml", "[body]\nprice = 1", 1),
    "C96": ("p.toml", 'currency = "EUR"\n[body]\nprice = 1\nper = "hide"', 2),
    "C97": ("p.csv", 'name,price,currency\nbody,"1,250",EUR', 2),
    "C98": ("p.toml", 'currency = "EUR"\n[body]\nprice = 1\nweight = "4 oz"', 2),
    "C99": ("p.toml", 'currency = "EUR"\nbody = 3', 2),
    "C100": ("p.toml", 'currency = "EUR"\n[body]\nprise = 3', 3),
}


@pytest.mark.parametrize("code", FAULTS)
def test_a_fault_is_told_at_its_row(code: str) -> None:
    name, text, line = FAULTS[code]
    prices, messages = parse_prices(Source(name, text))
    assert prices is None
    assert [(message.code, message.at.line) for message in messages if message.at] == [(code, line)]
    assert all("{" not in f"{message.says}{message.mend}" for message in messages)


def test_every_entry_is_shown_here() -> None:
    assert {entry.code for entry in entries_of(catalogue)} == set(FAULTS)


@pytest.mark.parametrize("price", ["-1", "1e3", "nan", "12 EUR", "1.2.3", "٣"])
def test_what_is_no_price_is_refused(price: str) -> None:
    prices, messages = parse_prices(Source("p.csv", f"name,price,currency\nbody,{price},EUR"))
    assert prices is None and [message.code for message in messages] == ["C97"]


@pytest.mark.parametrize("per", ["0 m", "-2 m", "m3", "1/2 m"])
def test_what_is_no_unit_is_refused(per: str) -> None:
    prices, messages = parse_prices(Source("p.csv", f"name,price,per,currency\nbody,1,{per},EUR"))
    assert prices is None and [message.code for message in messages] == ["C96"]


@pytest.mark.parametrize(("text", "line"), [('"name" ,price\nbody,1', 1), ('name,price\n"body" ,1', 2)])
def test_a_quote_that_is_closed_too_soon_is_told(text: str, line: int) -> None:
    """In the row of headings, too."""
    prices, messages = parse_prices(Source("p.csv", text))
    assert prices is None and [(one.code, one.at.line) for one in messages if one.at] == [("C90", line)]


def test_an_empty_list_has_no_prices() -> None:
    assert read("").prices == {}
    assert read("name,price\n", "p.csv").prices == {}


def test_money_is_rounded_where_it_is_shown() -> None:
    third = Money(Fraction(10, 3), "EUR")
    assert str(third) == "3.33 EUR" and str(third * 3) == "10.00 EUR"
    assert str(Money(Fraction(1, 200), "EUR")) == "0.01 EUR"
    assert str(Money(Fraction(-1, 200), "EUR")) == "-0.01 EUR"
    assert str(Money(Fraction(2501, 2), "JPY")) == "1251 JPY"
    assert str(Money(Fraction(1, 2000), "KWD")) == "0.001 KWD"


def test_two_currencies_cannot_be_added() -> None:
    with pytest.raises(TwoCurrencies):
        total_of([Money(Fraction(1), "EUR"), Money(Fraction(1), "GBP")])
