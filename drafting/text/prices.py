"""A price list -> what a unit of each thing costs, and what leather weighs.

Takes a TOML or CSV text; gives a PriceList and messages at their rows. A TOML file has a table for each thing, named as
the pattern names it; `tag.body` is the `body` of `tag.draft` alone:

    currency = "EUR"

    [body]
    price = "95.00"
    per = "m2"
    weight = "1600 g/m2"

    [buckle]
    price = "1.20"

A CSV file has the columns `name`, `price`, `per`, `weight` and `currency`, divided by commas, semicolons or tabs.
Prices are read as they are written, to the last digit: nothing becomes a float.
"""

from __future__ import annotations

import csv
import re
import tomllib
from collections.abc import Iterator, Mapping
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import Any, Literal

from drafting.records import dataclass, field
from drafting.text.catalogue import prices as says
from drafting.text.messages import Messages, did_you_mean
from drafting.text.quantities import MM_PER_INCH
from drafting.text.source import Source, Span, read_source

Dimension = Literal["area", "length", "count"]
PER: dict[str, tuple[Dimension, Fraction]] = {
    "m2": ("area", Fraction(10**6)),
    "dm2": ("area", Fraction(10**4)),
    "cm2": ("area", Fraction(100)),
    "ft2": ("area", (12 * MM_PER_INCH) ** 2),
    "in2": ("area", MM_PER_INCH**2),
    "m": ("length", Fraction(1000)),
    "cm": ("length", Fraction(10)),
    "ft": ("length", 12 * MM_PER_INCH),
    "yd": ("length", 36 * MM_PER_INCH),
    "piece": ("count", Fraction(1)),
}
"""How many mm², mm or pieces a unit is that prices are given by."""
WEIGHTS = {"g/m2": Fraction(1, 10**6), "kg/m2": Fraction(1000, 10**6), "g/ft2": 1 / PER["ft2"][1]}
WEIGHTS["oz/ft2"] = Fraction("28.349523125") / PER["ft2"][1]
"""Grams a mm²; the ounce is the one of weight, 28.349523125 g (international pound of 1959)."""
COLUMNS = ("name", "price", "per", "weight", "currency")
AMOUNT = re.compile(r"[0-9]+(?:[.,][0-9]+)?")
AMBIGUOUS = re.compile(r"[0-9]{1,3},[0-9]{3}")
DIVIDERS = ",;\t"


@dataclass(frozen=True)
class Price:
    """Of a unit of mm², of mm, or of one piece, and grams a mm²; None where the list does not say."""

    name: str
    amount: Fraction | None
    dimension: Dimension
    weight: Fraction | None
    span: Span = field(compare=False, repr=False)


@dataclass(frozen=True)
class PriceList:
    """Prices in one currency, by the names of things."""

    currency: str
    prices: Mapping[str, Price]
    source: Source = field(repr=False, compare=False)

    def of(self, name: str, stem: str = "") -> Price | None:
        """The price of a thing; one of the pattern `stem` goes before one of any pattern."""
        return self.prices.get(f"{stem}.{name}") or self.prices.get(name) if name else None

    @property
    def is_table(self) -> bool:
        return is_table(self.source.name)

    def row_of(self, name: str, price: str, per: str) -> str:
        """How a thing is priced in this list, as it is typed."""
        if not self.is_table:
            return f'`[{name}]` and under it `price = "{price}"` and `per = "{per}"`'
        divider, columns = _head_of(self.source)
        cells = {"name": name, "price": price, "per": per, "currency": self.currency}
        return f"the row `{divider.join(cells.get(column, '') for column in columns)}`"

    def unit_of(self, per: str) -> str:
        """How this list says what a price is for, as it is typed."""
        return f"`{per}` in its column `per`" if self.is_table else f'`per = "{per}"`'


def is_table(name: str) -> bool:
    """Whether a price list of that name is CSV."""
    return name.lower().endswith((".csv", ".tsv"))


def read_prices(path: str | Path) -> tuple[PriceList | None, Messages]:
    """A price list from a file; UnreadableSource where it is not there or no UTF-8 text."""
    return parse_prices(read_source(path))


def parse_prices(source: Source) -> tuple[PriceList | None, Messages]:
    """A price list from its text: TOML, or CSV where the name ends so. None where nothing of it can be used."""
    messages = Messages()
    rows = list((_csv_rows if is_table(source.name) else _toml_rows)(source, messages))
    currency = _one_currency(rows, messages)
    prices: dict[str, Price] = {}
    for row in rows:
        price = _price(row, messages)
        if price is None:
            continue
        if price.name in prices:
            messages.add(says.PRICED_TWICE, at=row.span, name=price.name, first=prices[price.name].span.line)
        prices.setdefault(price.name, price)
    if (
        any(price.amount is not None for price in prices.values())
        and not currency
        and not messages.has_errors
    ):
        messages.add(says.NO_CURRENCY, at=source.span(0, 0))
    return (None if messages.has_errors else PriceList(currency, prices, source)), messages


@dataclass(frozen=True)
class _Row:
    """What is said of one thing, as text by its word; the price may be a number already."""

    span: Span
    cells: Mapping[str, Any]

    def text(self, word: str) -> str:
        cell = self.cells.get(word)
        return "" if cell is None else str(cell).strip()


def _one_currency(rows: list[_Row], messages: Messages) -> str:
    """The currency that all rows agree on; a message where one differs."""
    first: _Row | None = None
    for row in rows:
        said = row.text("currency")
        if said and first is None:
            first = row
        elif said and first is not None and said != first.text("currency"):
            messages.add(
                says.TWO_CURRENCIES,
                at=row.span,
                first=first.text("currency"),
                line=first.span.line,
                second=said,
            )
    return first.text("currency") if first else ""


def _price(row: _Row, messages: Messages) -> Price | None:
    name = row.text("name")
    per, weight = row.text("per"), row.text("weight")
    unit = _unit(per, row, messages)
    amount = _amount(row.text("price"), row, messages) if row.text("price") else None
    grams = _weight(weight, row, messages) if weight else None
    if unit is None or messages.has_errors:
        return None
    dimension, size = unit
    return Price(name, amount / size if amount is not None else None, dimension, grams, row.span)


def _unit(per: str, row: _Row, messages: Messages) -> tuple[Dimension, Fraction] | None:
    """`m2`, `100 m`, `12`; without a word it is one piece."""
    count, word = re.fullmatch(r"([0-9.,]*)\s*(.*)", per).groups()  # type: ignore[union-attr]
    word = word.replace("²", "2").replace("pieces", "piece") or "piece"
    number = Fraction(count.replace(",", ".")) if AMOUNT.fullmatch(count) else Fraction(0 if count else 1)
    if word not in PER or number <= 0:
        known = ", ".join(f"`{unit}`" for unit in PER)
        messages.add(
            says.UNFIT_PER,
            at=row.span,
            name=row.text("name"),
            per=per,
            known=known,
            meant=did_you_mean(word, PER),
        )
        return None
    dimension, size = PER[word]
    return dimension, number * size


def _amount(text: str, row: _Row, messages: Messages) -> Fraction | None:
    """A price without its currency. `12,50` has a decimal comma; `1,250` may be either and is asked about."""
    if AMOUNT.fullmatch(text) and not AMBIGUOUS.fullmatch(text):
        return Fraction(text.replace(",", "."))
    messages.add(says.UNFIT_PRICE, at=row.span, name=row.text("name"), given=text)
    return None


def _weight(text: str, row: _Row, messages: Messages) -> Fraction | None:
    found = re.fullmatch(r"([0-9]+(?:[.,][0-9]+)?)\s*(\S+)", text)
    unit = found[2].replace("²", "2") if found else ""
    if found is None or unit not in WEIGHTS:
        messages.add(says.UNFIT_WEIGHT, at=row.span, name=row.text("name"), given=text)
        return None
    return Fraction(found[1].replace(",", ".")) * WEIGHTS[unit]


# TOML


def _toml_rows(source: Source, messages: Messages) -> Iterator[_Row]:
    try:
        table = tomllib.loads(source.text, parse_float=Decimal)
    except tomllib.TOMLDecodeError as fault:
        at, reason = _toml_fault(source, str(fault))
        messages.add(says.NO_PRICE_LIST, at=at, reason=reason)
        return
    currency = table.pop("currency", None)
    if currency is not None:
        yield _Row(_key_span(source, "currency"), {"currency": currency})
    yield from _toml_tables(source, table, "", messages)


def _toml_tables(source: Source, table: Mapping[str, Any], prefix: str, messages: Messages) -> Iterator[_Row]:
    """A table of words is a thing, a table of tables a pattern with things of its own."""
    for name, cells in table.items():
        span = _key_span(source, name)
        if not isinstance(cells, dict):
            messages.add(says.STRAY_WORD, at=span, word=name)
            continue
        words = {word: cell for word, cell in cells.items() if not isinstance(cell, dict)}
        for word in words:
            if word not in COLUMNS[1:]:
                near = did_you_mean(word, COLUMNS[1:])
                messages.add(says.UNKNOWN_WORD, at=_key_span(source, word), word=word, name=name, meant=near)
        if words:
            yield _Row(span, {**words, "name": prefix + name})
        inner = {word: cell for word, cell in cells.items() if isinstance(cell, dict)}
        yield from _toml_tables(source, inner, f"{prefix}{name}.", messages)


def _key_span(source: Source, key: str) -> Span:
    """Where a key is written first, as a heading or in front of `=`."""
    word = re.escape(key)
    found = re.search(
        rf"^[ \t]*\[[^\]\n]*\b{word}\b[^\n]*?\]|^[ \t]*\"?{word}\"?[ \t]*=[^\n]*", source.text, re.M
    )
    return source.span(*found.span()) if found else source.span(0, 0)


def _toml_fault(source: Source, text: str) -> tuple[Span, str]:
    """The place that the reader of TOML names, and what it says without it."""
    found = re.search(r"\(at line (\d+), column (\d+)\)", text)
    reason = text.partition(" (at ")[0]
    line = min(int(found[1]) if found else 1, len(source.line_starts))
    start = source.line_starts[line - 1]
    return source.span(start, start + len(source.line_text(line))), reason[:1].lower() + reason[1:]


# CSV


def _head_of(source: Source) -> tuple[str, list[str]]:
    """What divides the cells of a table, and its columns."""
    head = source.text.partition("\n")[0]
    divider = max(DIVIDERS, key=head.count)
    return divider, [cell.strip().lower() for cell in next(csv.reader([head], delimiter=divider), [])]


def _csv_rows(source: Source, messages: Messages) -> Iterator[_Row]:
    divider, columns = _head_of(source)
    if "name" not in columns or "price" not in columns:
        head = source.span(0, len(source.text.partition("\n")[0]))
        messages.add(says.LACKING_COLUMNS, at=head, columns=", ".join(columns) or "none")
        return
    reader = csv.reader(source.text.splitlines(keepends=True), delimiter=divider, strict=True)
    line = 0
    try:
        next(reader)
        line = 1
        for cells in reader:
            span, line = _csv_span(source, line + 1, reader.line_num), reader.line_num
            named = {word: cell for word, cell in zip(columns, cells, strict=False) if word in COLUMNS}
            if any(cell.strip() for cell in cells) and named.get("name", "").strip():
                yield _Row(span, named)
            elif any(cell.strip() for cell in cells):
                messages.add(says.NAMELESS_PRICE, at=span)
    except csv.Error as fault:
        messages.add(says.NO_PRICE_LIST, at=_csv_span(source, line + 1, line + 1), reason=str(fault))


def _csv_span(source: Source, first: int, last: int) -> Span:
    """The lines of a row; a quoted cell may hold several."""
    first, last = (min(line, len(source.line_starts)) for line in (first, last))
    return source.span(
        source.line_starts[first - 1], source.line_starts[last - 1] + len(source.line_text(last))
    )
