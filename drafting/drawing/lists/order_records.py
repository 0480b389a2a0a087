"""Order -> numbers for other programs: one nested record, or rows of one width.

Lengths are mm and areas mm², unrounded; money is text, rounded to its smallest coin, so that no reader makes a
float of it.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from drafting.craft.lists.needs import Thing
from drafting.craft.lists.order import Cost, Entry, Order
from drafting.craft.lists.parts import Part
from drafting.craft.lists.sewing import Sewn
from drafting.text.money import Money

UNITS = {"stock": "mm2", "glue": "mm2", "thread": "mm", "hardware": "pieces"}
ROW = (
    "kind", "pattern", "size", "name", "detail", "stock", "in_copy", "in_all", "width_mm", "height_mm",
    "amount", "unit", "to_buy", "weight_g", "cost", "currency",
)  # fmt: skip
"""The columns of the rows."""


def order_record(order: Order) -> dict[str, Any]:
    """Everything that is known of an order."""
    return {
        "yield": float(order.fraction),
        "currency": order.prices.currency if order.prices else None,
        "patterns": [_entry(order, entry) for entry in order.entries],
        "needs": [_need(order, thing, amount) for thing, amount in order.needs.items()],
        "straps": [
            {"stock": thing.name, "wide": wide, "count": count, "long_together": long}
            for (thing, wide), (count, long) in order.straps.items()
        ],
        "cost": _money(order.total(order.costs)),
        "without_price": [thing.name or thing.kind for thing in order.unpriced],
    }


def _entry(order: Order, entry: Entry) -> dict[str, Any]:
    placed = entry.placed
    return {
        "pattern": placed.stem,
        "title": placed.title,
        "size": placed.size,
        "copies": entry.copies,
        "parts": [_part(entry, part) for part in entry.parts],
        "seams": [_seam(entry, seam) for seam in entry.seams],
        "cost_of_one": _money(order.total(order.costs_of(entry))),
        "cost": _money(order.total(order.costs_of(entry, entry.copies))),
    }


def _part(entry: Entry, part: Part) -> dict[str, Any]:
    strap = {"long": part.strap[0], "wide": part.strap[1]} if part.strap else None
    return {
        "piece": part.piece,
        "note": part.note,
        "stock": part.stock,
        "in_copy": part.in_copy,
        "pair": part.pair,
        "in_all": part.in_copy * entry.copies,
        "width": part.width,
        "height": part.height,
        "area": part.area,
        "strap": strap,
        "glue": part.glue,
    }


def _seam(entry: Entry, seam: Sewn) -> dict[str, Any]:
    return {
        "lines": list(seam.lines),
        "stitches": seam.stitches,
        "thick": seam.thick,
        "thread": seam.thread.length,
        "in_copy": seam.times,
        "in_all": seam.times * entry.copies,
        "thickness_unknown": list(seam.unknown),
    }


def _need(order: Order, thing: Thing, amount: Fraction) -> dict[str, Any]:
    weight = order.weights.get(thing)
    cost = next((cost for cost in order.costs if cost.thing == thing), None)
    return {
        "kind": thing.kind,
        "name": thing.name,
        "material": thing.material,
        **dict(thing.sizes),
        "note": thing.note,
        "amount": _number(amount),
        "unit": UNITS[thing.kind],
        "to_buy": _number(order.to_buy(thing, amount)),
        "weight_g": None if weight is None else float(weight),
        "cost": _money(cost.cost) if cost else None,
    }


def _number(amount: Fraction) -> float | int:
    return int(amount) if amount.denominator == 1 else float(amount)


def _money(money: Money | None) -> str | None:
    return None if money is None else money.figures


# Rows


def order_rows(order: Order) -> Iterator[dict[str, Any]]:
    """One row for each part, seam, strap and thing; a column that says nothing is left out of its row."""
    for entry in order.entries:
        head = {"pattern": entry.placed.stem, "size": entry.placed.size}
        for part in entry.parts:
            yield {"kind": "part", **head, **_part_row(entry, part)}
        for seam in entry.seams:
            yield {"kind": "seam", **head, **_seam_row(entry, seam)}
        for cost in order.costs_of(entry, entry.copies):
            if cost.cost is not None:
                yield {"kind": "cost", **head, **_cost_row(cost)}
    for thing, amount in order.needs.items():
        yield _need_row(order, thing, amount)
    for (thing, wide), (count, long) in order.straps.items():
        yield {
            "kind": "straps", "name": thing.name, "in_all": count, "height_mm": wide, "amount": long, "unit": "mm",
        }  # fmt: skip


def _part_row(entry: Entry, part: Part) -> dict[str, Any]:
    return {
        "name": part.piece, "detail": "pair" if part.pair else part.note, "stock": part.stock,
        "in_copy": part.in_copy, "in_all": part.in_copy * entry.copies,
        "width_mm": part.width, "height_mm": part.height, "amount": part.area, "unit": "mm2",
    }  # fmt: skip


def _seam_row(entry: Entry, seam: Sewn) -> dict[str, Any]:
    return {
        "name": " + ".join(seam.lines), "detail": f"{seam.stitches} stitches", "in_copy": seam.times,
        "in_all": seam.times * entry.copies, "amount": seam.thread.length, "unit": "mm",
    }  # fmt: skip


def _cost_row(cost: Cost) -> dict[str, Any]:
    assert cost.cost is not None
    return {
        "name": cost.thing.name, "detail": cost.thing.kind, "to_buy": _number(cost.amount),
        "unit": UNITS[cost.thing.kind], "cost": cost.cost.figures, "currency": cost.cost.currency,
    }  # fmt: skip


def _need_row(order: Order, thing: Thing, amount: Fraction) -> dict[str, Any]:
    need = _need(order, thing, amount)
    currency = order.prices.currency if need["cost"] is not None and order.prices else None
    detail = ", ".join(word for word in (thing.material, thing.note) if word)
    kept = {key: need[key] for key in ("kind", "name", "amount", "unit", "to_buy", "weight_g", "cost")}
    return {**kept, "detail": detail or None, "currency": currency}
