"""Order -> the tables that a maker takes to the shop and to the bench.

Lengths are in the units of the pattern, leather in dm² and ft². A cell is empty where there is nothing to tell, and a
column that is empty in every row is left out.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from drafting.craft.lists.needs import Thing
from drafting.craft.lists.order import Cost, Entry, Order
from drafting.craft.lists.parts import Part
from drafting.craft.lists.sewing import Sewn
from drafting.drawing.amounts import Figures
from drafting.drawing.lists.amounts import (
    amount_words,
    area_words,
    decimals,
    in_unit,
    long_words,
    percent,
    thing_words,
    weight_words,
)
from drafting.drawing.lists.table import Table


def order_tables(order: Order) -> tuple[Table, ...]:
    """Parts and seams of each pattern, then what all of them take together, then what they cost."""
    tables = [table for entry in order.entries for table in (_parts(entry), seams_table(entry))]
    tables += [_stocks(order), _straps(order), _hardware(order), _thread(order), _glue(order)]
    tables += [_costs(order), _cost_of_each(order)]
    return tuple(table.filled for table in tables if table.rows)


def shown_by(order: Order) -> tuple[str, ...]:
    """The units of all patterns, those of the first one first."""
    return tuple(dict.fromkeys(unit for entry in order.entries for unit in entry.placed.show)) or ("mm",)


def copies_words(copies: int) -> str:
    return "1 copy" if copies == 1 else f"{copies} copies"


def title_of(entry: Entry) -> str:
    size = f", {entry.placed.size}" if entry.placed.size else ""
    return f"{entry.placed.title or entry.placed.stem}{size}"


# Each pattern


def _parts(entry: Entry) -> Table:
    figures = Figures.shown_by(entry.placed.show)
    rows = [_part(entry, part, figures) for part in entry.parts]
    columns = "part | stock | >each | >in all | size | >area of one, dm² | >ft² | note"
    return Table.of(f"{title_of(entry)}: {copies_words(entry.copies)}", columns, rows)


def _part(entry: Entry, part: Part, figures: Figures) -> tuple[str, ...]:
    pairs = part.in_copy // 2
    each = (f"{pairs} pair" + ("s" if pairs > 1 else "")) if part.pair else str(part.in_copy)
    size = figures.told("{} × {}", part.width, part.height)
    return (
        part.piece,
        part.stock or "",
        each,
        str(part.in_copy * entry.copies),
        size,
        in_unit(part.area, "dm2"),
        in_unit(part.area, "ft2", 3),
        part.note or "",
    )


def seams_table(entry: Entry) -> Table:
    figures = Figures.shown_by(entry.placed.show)
    rows = [_seam(entry, seam, figures) for seam in entry.seams]
    remarks = [f"Each needle keeps a tail of {figures.told('{}', entry.tail)}; back-stitches are counted."]
    whole = [seam.lines[0] for seam in entry.seams if seam.goes_on]
    if whole:
        remarks.append(
            f"Of {', '.join(f'`{name}`' for name in whole)} both halves are one seam, counted together."
        )
    columns = "seam | >stitches | >sewn through | >thread of one | >in all"
    return Table.of(f"Seams of {title_of(entry)}", columns, rows, [*remarks, *_unknown(entry.seams)])


def _seam(entry: Entry, seam: Sewn, figures: Figures) -> tuple[str, ...]:
    return (
        " + ".join(seam.lines),
        str(seam.stitches),
        figures.told("{}", seam.thick),
        long_words(seam.thread.length, entry.placed.show),
        str(seam.times * entry.copies),
    )


def _unknown(seams: Sequence[Sewn]) -> Iterator[str]:
    for name in dict.fromkeys(name for seam in seams for name in seam.unknown):
        stock = f"`{name}` does not say" if name else "A piece without a stock does not say"
        yield f"{stock} how thick it is: its seams are reckoned without it."
    alone = [seam.lines[0] for seam in seams if len(seam.lines) == 1]
    if alone:
        names = ", ".join(f"`{name}`" for name in alone)
        yield f"Of {names} no join says what else is sewn there: through its own piece alone."


# All together


def _stocks(order: Order) -> Table:
    figures = Figures.shown_by(shown_by(order))
    rows = []
    for thing, net in order.needed("stock"):
        cells = [
            thing_words(thing, figures),
            str(_n_pieces(order, thing)),
            in_unit(net, "dm2"),
            in_unit(net, "ft2", 3),
        ]
        if order.fraction != 1:
            bought = order.to_buy(thing, net)
            cells += [in_unit(bought, "dm2"), in_unit(bought, "ft2", 3)]
        rows.append((*cells, weight_words(order.weights.get(thing))))
    at = f" | >at {percent(order.fraction)}, dm² | >ft²" if order.fraction != 1 else ""
    return Table.of("Stock", f"stock | >pieces | >net dm² | >ft²{at} | >weight of the parts", rows)


def _n_pieces(order: Order, thing: Thing) -> int:
    return sum(
        part.in_copy * entry.copies
        for entry in order.entries
        for part in entry.parts
        if entry.stock_of(part) == thing
    )


def _straps(order: Order) -> Table:
    show = shown_by(order)
    figures = Figures.shown_by(show)
    rows = [
        (thing_words(thing, figures), figures.told("{}", wide), str(count), long_words(long, show))
        for (thing, wide), (count, long) in order.straps.items()
    ]
    return Table.of("Straps, end to end", "stock | >wide | >straps | >long together", rows)


def _hardware(order: Order) -> Table:
    figures = Figures.shown_by(shown_by(order))
    rows = [(thing_words(thing, figures), decimals(number, 0)) for thing, number in order.needed("hardware")]
    return Table.of("Hardware", "what | >number", rows)


def _thread(order: Order) -> Table:
    show = shown_by(order)
    figures = Figures.shown_by(show)
    rows = [(thing_words(thing, figures), long_words(long, show)) for thing, long in order.needed("thread")]
    return Table.of("Thread", "thread | >length", rows)


def _glue(order: Order) -> Table:
    rows = [("bands", area_words(area)) for _, area in order.needed("glue")]
    return Table.of("Glue", "where | >area", rows)


# Costs


def _costs(order: Order) -> Table:
    if order.prices is None:
        return Table.of("Costs", "what", ())
    show = shown_by(order)
    figures = Figures.shown_by(show)
    rows = [
        (thing_words(cost.thing, figures), amount_words(cost.thing, cost.amount, show), _cost_words(cost))
        for cost in order.costs
        if cost.cost is not None or cost.thing in order.unpriced
    ]
    total = order.total(order.costs)
    if total is not None:
        rows.append(("all together", "", str(total)))
    return Table.of("Costs", "what | >amount | >cost", rows, _left_out(order))


def _cost_words(cost: Cost) -> str:
    return str(cost.cost) if cost.cost is not None else "no price"


def _left_out(order: Order) -> Iterator[str]:
    if order.fraction != 1:
        yield f"Leather is bought at a yield of {percent(order.fraction)}."
    if order.unpriced:
        names = list(dict.fromkeys(f"`{thing.name or thing.kind}`" for thing in order.unpriced))
        named = "it" if len(names) == 1 else "them"
        yield f"Without {', '.join(names)}: the price list does not name {named}."


def _cost_of_each(order: Order) -> Table:
    rows = []
    for entry in order.entries:
        one, all_ = (order.total(order.costs_of(entry, copies)) for copies in (1, entry.copies))
        if one is not None and all_ is not None:
            rows.append((title_of(entry), str(entry.copies), str(one), str(all_)))
    return Table.of("Costs of a copy", "pattern | >copies | >one | >all", rows)
