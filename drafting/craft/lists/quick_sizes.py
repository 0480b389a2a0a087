"""Thousands of sizes at once: measures, outer sizes, stock and what the pattern itself asks; no seams, no rules.

All sizes of a sweep go through the plan together. A size that may not be made so is worked out alone, with everything,
and three sizes of each sweep are made both ways: where they differ the whole sweep is worked out with everything.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import groupby
from typing import Any

import numpy

from drafting.craft.lists.in_processes import rows_of
from drafting.craft.lists.parts import in_copy
from drafting.craft.lists.sizing import Asked, Found, SizedRow, sized_row
from drafting.model.evaluate_measures import Formula, shown
from drafting.model.expressions import Constant, keys_of
from drafting.model.pattern import CheckPart, MeasurePart, Pattern, Piece
from drafting.solve.amounts import shown as shown_amount
from drafting.solve.boxes_many import Boxes, Numbers, boxes_of, needed_keys
from drafting.solve.draft import SAME_AMOUNT, Draft
from drafting.solve.many import Array, Columns
from drafting.text.catalogue.model import CHECK_FAILS, MEASURE_RANGE, RANGE_UPSIDE_DOWN

NEAR = 1e-6
"""mm, and parts of an area, to which both ways must agree."""
ENOUGH = 12
"""Fewer sizes than this are worked out with everything: a plan for many is not worth its while."""


def quick_rows(draft: Draft, asked: Sequence[Asked]) -> Iterator[SizedRow]:
    """The row of each size, in the order they are asked for."""
    for _, block in groupby(asked, key=lambda each: (each.title, tuple(each.swept))):
        sizes = list(block)
        rows = _Block(draft, sizes).rows() if len(sizes) >= ENOUGH and not draft.pattern.fits else None
        yield from rows_of(draft, sizes) if rows is None else rows


class _Known(dict[str, Any]):
    """The measures that speak of nothing placed, as arrays, worked out when first asked for."""

    def __init__(self, known: Mapping[str, Formula], swept: Mapping[str, Array], n_sizes: int) -> None:
        super().__init__(swept)
        self.known, self.numbers = known, Numbers(self, n_sizes)

    def __missing__(self, key: str) -> Array:
        column = self[key] = self.numbers.amount(self.known[key].bound)
        return column


class _Block:
    """Sizes of one title in which the same measures are swept."""

    def __init__(self, draft: Draft, asked: Sequence[Asked]) -> None:
        self.draft, self.asked, self.n_sizes = draft, asked, len(asked)
        self.pattern: Pattern = draft.pattern

    def rows(self) -> Iterator[SizedRow] | None:
        """None where it has to be done with everything."""
        swept = {name: self._swept(name) for name in self.asked[0].swept}
        with numpy.errstate(all="ignore"):
            planned, pure, known_formulas = self.draft.planned(self.asked[0].settings)
            known = _Known(known_formulas, swept, self.n_sizes)
            given = {key: known[key] for key in pure}
            nodes = planned.plan.layout.system.nodes
            wanted = [key for key in self._wanted(planned.plan.layout.points) if key in nodes]
            columns = planned.plan.evaluate_many(given, wanted)
        self.numbers = Numbers({**columns.values, **given}, self.n_sizes)
        boxes = {piece.name: self._boxes(piece, columns) for piece in self.pattern.pieces.values()}
        if any(one is None for one in boxes.values()):
            return None
        found = {name: one for name, one in boxes.items() if one is not None}
        good = ~columns.failed & numpy.all([one.is_good for one in found.values()], axis=0)
        good &= numpy.all([numpy.isfinite(column) for column in given.values()], axis=0)
        return self._told(found, good) if self._is_true(found, good) else None

    def _swept(self, name: str) -> Array:
        values = [each.settings[name][0] for each in self.asked]
        return numpy.array([float(value.value) for value in values if isinstance(value, Constant)])

    def _wanted(self, points: Mapping[str, Any]) -> list[str]:
        """The points that the pieces and the checks hang on, the outlines that have to be made, and the measures."""
        wanted: dict[str, None] = {}
        for piece in self.pattern.pieces.values():
            needed = needed_keys(piece)
            wanted |= dict.fromkeys([f"{piece.name}/outline:line"] if needed is None else needed)
        for check in self._checks():
            for side in (check.left, check.right):
                wanted |= dict.fromkeys(key for key in keys_of(side) if key in points)
        return list(wanted)

    # Pieces

    def _boxes(self, piece: Piece, columns: Columns) -> Boxes | None:
        outlines = columns.values.get(f"{piece.name}/outline:line")
        if outlines is None:
            return boxes_of(piece, self.numbers)
        if any(feature.kind == "turn" for feature in piece.features):
            return None
        rings = [None if outline is None else outline.ring for outline in outlines]
        known = {id(ring): (ring.bounds.width, ring.bounds.height, ring.area) for ring in rings if ring}
        nothing = (numpy.nan, numpy.nan, numpy.nan)
        width, height, area = numpy.array([known.get(id(ring), nothing) for ring in rings]).T
        return Boxes(width, height, area, numpy.isfinite(area))

    def _is_true(self, boxes: Mapping[str, Boxes], good: Array) -> bool:
        """Whether the first, the middle and the last size are the same when they are made."""
        sizes = numpy.flatnonzero(good)
        for at in {int(sizes[0]), int(sizes[len(sizes) // 2]), int(sizes[-1])} if len(sizes) else ():
            placed = self.draft.size(self.asked[at].title, self.asked[at].settings).drawn
            for name, box in boxes.items():
                ring = placed.pieces[name].cutting if name in placed.pieces else None
                if ring is None or abs(ring.bounds.width - box.width[at]) > NEAR:
                    return False
                if (
                    abs(ring.bounds.height - box.height[at]) > NEAR
                    or abs(ring.area / box.area[at] - 1) > NEAR
                ):
                    return False
        return True

    # What is told

    def _told(self, boxes: Mapping[str, Boxes], good: Array) -> Iterator[SizedRow]:
        measures = {key: column.tolist() for key, column in self._measures()}
        sides = {name: (one.width.tolist(), one.height.tolist()) for name, one in boxes.items()}
        stock = {name: column.tolist() for name, column in self._stock(boxes).items()}
        breaches = [*self._out_of_range(), *self._failed_checks()]
        for at, asked in enumerate(self.asked):
            if not good[at]:
                yield sized_row(self.draft, asked)
                continue
            yield SizedRow(
                asked,
                {key: column[at] for key, column in measures.items()},
                {name: (width[at], height[at]) for name, (width, height) in sides.items()},
                stock={name: column[at] for name, column in stock.items()},
                found=tuple(tell(at) for is_broken, tell in breaches if is_broken[at]),
                is_judged=False,
            )

    def _measures(self) -> Iterator[tuple[str, Array]]:
        for part in self.pattern.measures.values():
            for key in part.keys:
                if key in self.numbers.values:
                    yield key, self.numbers.values[key]

    def _stock(self, boxes: Mapping[str, Boxes]) -> dict[str, Array]:
        found: dict[str, Array] = {}
        for piece in self.pattern.pieces.values():
            area = boxes[piece.name].area * in_copy(piece)
            found[piece.stock or ""] = found.get(piece.stock or "", 0.0) + area
        return found

    def _checks(self) -> list[CheckPart]:
        of_pieces = (check for piece in self.pattern.pieces.values() for check in piece.checks)
        return [*self.pattern.checks, *of_pieces]

    def _out_of_range(self) -> Iterator[tuple[Array, Callable[[int], Found]]]:
        for part in self.pattern.measures.values():
            if part.low is None or part.high is None:
                continue
            low, high = (self._amount(bound) for bound in (part.low, part.high))
            for key in part.keys:
                value = self.numbers.values.get(key)
                if value is not None and low is not None and high is not None:
                    is_out = (value < low - SAME_AMOUNT) | (value > high + SAME_AMOUNT)
                    yield is_out, _range_teller(part, value, low, high)

    def _failed_checks(self) -> Iterator[tuple[Array, Callable[[int], Found]]]:
        """Of the checks that read only measures and points."""
        for check in self._checks():
            left, right = self._amount(check.left), self._amount(check.right)
            within = 0.0 if check.within is None else self._amount(check.within)
            if left is not None and right is not None and within is not None:
                yield ~_holds(check.operator, left, right, within), _check_teller(check, left, right)

    def _amount(self, bound: Any) -> Array | None:
        try:
            return self.numbers.amount(bound)
        except KeyError:
            return None


def _holds(operator: str, left: Array, right: Array, within: Array | float) -> Array:
    """As a check of one size holds, on arrays."""
    slack = within + SAME_AMOUNT * numpy.maximum(1.0, numpy.maximum(abs(left), abs(right)))
    compared = {
        "=": abs(left - right) <= slack,
        ">=": left >= right - slack,
        "<=": left <= right + slack,
        ">": left > right,
        "<": left < right,
    }
    return numpy.asarray(compared[operator])


def _range_teller(part: MeasurePart, value: Array, low: Array, high: Array) -> Callable[[int], Found]:
    def tell(at: int) -> Found:
        amounts = {"value": value[at], "low": low[at], "high": high[at]}
        facts = {word: shown(amount, part.kind) for word, amount in amounts.items()}
        note = f" ({part.note})" if part.note else ""
        entry = RANGE_UPSIDE_DOWN if low[at] > high[at] else MEASURE_RANGE
        return Found(entry.code, "error", entry.says.format(name=part.name, note=note, **facts))

    return tell


def _check_teller(check: CheckPart, left: Array, right: Array) -> Callable[[int], Found]:
    text = " ".join(check.span.text.split('"')[0].split()[1:])
    note = f" (“{check.note}”)" if check.note else ""

    def tell(at: int) -> Found:
        sides = {"left": shown_amount(left[at], check.kind), "right": shown_amount(right[at], check.kind)}
        return Found(CHECK_FAILS.code, "error", CHECK_FAILS.says.format(text=text, note=note, **sides))

    return tell
