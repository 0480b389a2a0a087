"""Pattern -> System: points become unknowns, clauses facts, and every line a value computed from them.

Takes a bound Pattern; gives a Lowered, the solver's System with what is needed to speak about it afterwards: which
key is which name, and which clause each fact came from. Pattern measures that speak of nothing placed are known
numbers; others are formulas, unless a size sets them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from fractions import Fraction
from typing import Any

from drafting.geometry.maths import degrees
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.geometry.tolerances import SAME_POINT
from drafting.model.evaluate_measures import Formula
from drafting.model.expressions import Bound, Constant, Value, keys_of
from drafting.model.pattern import (
    BoundStretch,
    BoundWay,
    BoxForm,
    Choice,
    CornerPart,
    Fact,
    FoldWork,
    Form,
    LineRef,
    LinesForm,
    Measured,
    PathForm,
    Pattern,
    Piece,
    PieceRef,
    Placing,
    PointRef,
    PointsPart,
    RoundForm,
    RowAlongForm,
    RowForm,
    ShapePart,
    SlitWork,
    SlotForm,
    SpotForm,
    StitchesRef,
    StripWork,
    ThroughForm,
    TurnWork,
)
from drafting.model.scope import BOX_CORNERS
from drafting.records import dataclass, field, replace
from drafting.solve.amounts import mm
from drafting.solve.joining import joined_lines
from drafting.solve.lines import AnyLine, Drawn, OutlineLine, RowLine, Unbuildable
from drafting.solve.outlines import (
    cut_rough,
    is_own_mirror,
    mirror_points,
    rough_of_ring,
    rough_ring,
    round_and_station,
)
from drafting.solve.reading import Reader, keys_in, references_in
from drafting.solve.readings import SIDES, part_of, read_off
from drafting.solve.rows_along import build_row_along
from drafting.solve.shapes import Spot, build_lines, build_row, build_shape
from drafting.solve.slitting import build_slit, cuts_key, slit_cuts
from drafting.solve.stitching import (
    STITCH_WORDS,
    ensure_held,
    ensure_stitches,
    ensure_taken_line,
    lines_of,
    stitch_number,
    stitches_of,
)
from drafting.solve.strips import build_strip
from drafting.solve.system import System
from drafting.solve.trade import Trade
from drafting.solve.turning import build_cutting, build_turned, cutting_needs, cutting_ref, piece_line
from drafting.solve.ways import as_drawn, build_way
from drafting.solve.working import allowance_key, fold_allowance
from drafting.text.catalogue import shapes as says
from drafting.text.quantities import LENGTH, Kind
from drafting.text.source import Span

PLACED_FORMS = (BoxForm, RoundForm, SlotForm, RowForm, SpotForm)
ZERO = Constant(Fraction(0))


@dataclass(frozen=True)
class Clause:
    """What a fact or choice in the system came from: the words, and whose place they give."""

    span: Span
    owner: str
    """The key of the point or feature it places; for a `hold` the empty text."""
    sheet: str
    counts: int = 1
    """How many facts it is."""
    amount: Kind = LENGTH
    """What it disagrees by."""

    @property
    def text(self) -> str:
        return ("" if self.owner else "hold ") + " ".join(self.span.text.split())


@dataclass(frozen=True)
class Holder:
    """Whose unknown coordinates a key stands for: a point or a feature's middle, by the name a maker knows."""

    name: str
    kind: str
    piece: str
    span: Span
    amount: Kind = LENGTH
    """What kind of amount it is, of an unknown measure."""


@dataclass
class Lowered:
    pattern: Pattern
    system: System
    trade: Trade
    holders: dict[str, Holder] = field(default_factory=dict)
    """By the key of each unknown point and each unknown measure."""
    spans: dict[str, Span] = field(default_factory=dict)
    """Where each computed node is written, for faults that have no place of their own."""
    facts: dict[str, list[Clause]] = field(default_factory=dict)
    """The clauses that place each holder, in the order written."""
    made: set[str] = field(default_factory=set)


def lower(
    pattern: Pattern,
    fixed: Mapping[str, Any],
    known_formulas: Mapping[str, Formula],
    trade: Trade,
    also: Iterable[Bound] = (),
) -> Lowered:
    """The system of a pattern. `fixed` gives the numbers of the measures that are known, `known_formulas` the
    formulas of all, `trade` what leather does; `also` are expressions that somebody wants to read off afterwards."""
    lowered = Lowered(pattern, System(), trade)
    builder = _Builder(lowered)
    for piece in pattern.pieces.values():
        builder.declare(piece)
    builder.measures(fixed, known_formulas)
    for piece in pattern.pieces.values():
        builder.place(piece)
    for reading in pattern.measured.values():
        builder.ensure_value(Value(reading.key))
    for check in (*pattern.checks, *(check for piece in pattern.pieces.values() for check in piece.checks)):
        for side in (check.left, check.right, check.within):
            builder.ensure_value(side or ZERO)
    for part in (
        *pattern.measures.values(),
        *(part for piece in pattern.pieces.values() for part in piece.measures),
    ):
        for end in (part.low, part.high):
            builder.ensure_value(end or ZERO)
    for join in pattern.joins:
        for line in (line for lines in joined_lines(pattern, join) for line in lines):
            builder.ensure_stitches(StitchesRef(line))
        builder.ensure_value(join.within or ZERO)
    for fit in pattern.fits:
        for stitches in (ref for named in fit.lines for ref in stitches_of(pattern, named.line)):
            ensure_held(builder, stitches)
        builder.ensure_value(fit.within or ZERO)
    for bound in also:
        builder.ensure_value(bound)
    return lowered


class _Builder:
    """Adds nodes to the system, each once, with what they are computed from."""

    def __init__(self, lowered: Lowered) -> None:
        self.lowered = lowered
        self.pattern = lowered.pattern
        self.trade = lowered.trade
        self.system = lowered.system
        self.points: set[str] = set()
        self.own_measures = {
            key: (value, measure.span)
            for piece in self.pattern.pieces.values()
            for measure in piece.measures
            for key, value in zip(measure.keys, measure.values, strict=True)
        }
        """Measures of pieces, which other pieces may ask for before their own is placed."""

    # Measures

    def measures(self, fixed: Mapping[str, Any], known_formulas: Mapping[str, Formula]) -> None:
        for key, number in fixed.items():
            self.system.known(key, number)
            self.lowered.made.add(key)
        for key, formula in known_formulas.items():
            span = formula.part.span if formula.part else self.pattern.tree.source.span(0, 0)
            self._formula(key, formula.bound, span)

    def _formula(self, key: str, bound: Bound, span: Span) -> None:
        if key in self.lowered.made:
            return
        self.lowered.made.add(key)
        self.lowered.spans[key] = span
        self.ensure_value(bound)
        self.system.formula(key, bound, tag=span)

    # Unknowns first, so that everything may refer to them

    def declare(self, piece: Piece) -> None:
        for part in piece.points:
            self._unknown_point(part.ref.key, Holder(part.ref.name, "point", piece.name, part.span))
        for shape in (*([piece.outline] if piece.outline else []), *piece.guides, *piece.features):
            if _has_place(shape):
                self._unknown_point(
                    _center(piece.name, shape.name).key,
                    Holder(shape.name, shape.kind, piece.name, shape.name_span),
                )
        for find in piece.finds:
            self.lowered.holders[find.key] = Holder(find.name, "find", piece.name, find.span, find.kind)
            self.lowered.made.add(find.key)

    def _unknown_point(self, key: str, holder: Holder) -> None:
        self.system.point(key, tag=holder)
        self.points.add(key)
        self.lowered.made.add(key)
        self.lowered.holders[key] = holder
        self.lowered.facts[key] = []

    def place(self, piece: Piece) -> None:
        for measure in piece.measures:
            for key in measure.keys:
                self._formula(key, *self.own_measures[key])
        for find in piece.finds:
            self.ensure_value(find.low)
            self.ensure_value(find.high)
            self.system.unknown(find.key, find.low, find.high, tag=self.lowered.holders[find.key])
        for part in piece.points:
            self._placing(part.ref.key, part.placing, piece)
        for shape in (*([piece.outline] if piece.outline else []), *piece.guides, *piece.features):
            if _has_place(shape):
                self._shape_placing(shape, piece)
            for line in lines_of(self.pattern, shape, piece.name):
                self.ensure_line(line)
                if shape.stitch is not None:
                    self.ensure_stitches(StitchesRef(line))
            self._work(shape, piece)
        if piece.outline:
            self.ensure_line(cutting_ref(piece))
        for run in piece.runs:
            self.ensure_line(LineRef(piece.name, run.name))
        for listed in piece.lists:
            for index in range(1, len(listed.steps) + 1):
                self.ensure_point(PointRef(piece.name, listed.name, False, str(index)))
        for hold in piece.holds:
            self._hold(hold, piece)
        for dim in piece.dims:
            self.ensure_point(dim.line.start)
            self.ensure_point(dim.line.end)
        if piece.mirror:
            self._twins(piece)

    def _twins(self, piece: Piece) -> None:
        for part in piece.points:
            self.ensure_point(part.ref.twinned())

    def _shape_placing(self, shape: ShapePart, piece: Piece) -> None:
        """A shape that says nothing of its place, and is all there is, has its middle at (0, 0)."""
        key = _center(piece.name, shape.name).key
        if shape.kind == "outline" and not shape.placing.facts:
            tag = Clause(shape.span, key, piece.sheet)
            self.system.fact("coordinate x", key, ZERO, tag=tag)
            self.system.fact("coordinate y", key, ZERO, tag=tag)
            return
        self._placing(key, shape.placing, piece)

    def _placing(self, key: str, placing: Placing, piece: Piece) -> None:
        for fact in placing.facts:
            counts = sum(each.counts for each in placing.facts if each.span == fact.span)
            self._place_fact(key, fact, piece, counts)
        for choice in placing.choices:
            self._choice(key, choice, piece)

    # Facts

    def _place_fact(self, key: str, fact: Fact, piece: Piece, counts: int) -> None:
        tag = Clause(fact.span, key, piece.sheet, counts, fact.amount)
        self.lowered.facts[key].append(tag)
        kind, operands = fact.kind, fact.operands
        if kind in ("between within", "along within", "along way", "length along way", "mirror over line"):
            self.system.fact("at", key, self._computed_place(key, fact, piece), tag=tag)
            return
        self.system.fact(kind, key, *(self._operand(kind, operand) for operand in operands), tag=tag)

    def _operand(self, kind: str, operand: PointRef | LineRef | BoundWay | Bound) -> Any:
        if isinstance(operand, PointRef):
            return self.ensure_point(operand)
        if isinstance(operand, LineRef):
            return self._path_of(operand)
        if isinstance(operand, BoundWay):
            raise AssertionError("ways place through a computed point")
        self.ensure_value(operand)
        return operand

    def _computed_place(self, key: str, fact: Fact, piece: Piece) -> str:
        """A place worked out from a line or a stretch, as a node of its own."""
        node = f"{key}@{fact.span.start}"
        functions: dict[str, Callable[[Reader], Point]] = {
            "between within": lambda reader: _along_stretch(reader, fact, by_part=True),
            "along within": lambda reader: _along_stretch(reader, fact, by_part=False),
            "along way": lambda reader: _along_way(reader, fact, by_part=True),
            "length along way": lambda reader: _along_way(reader, fact, by_part=False),
            "mirror over line": lambda reader: _mirrored_over(reader, fact),
        }
        self.compute(node, fact.operands, functions[fact.kind], fact.span)
        return node

    def _choice(self, key: str, choice: Choice, piece: Piece) -> None:
        tag = Clause(choice.span, key, piece.sheet)
        operands = [self._operand(choice.kind, operand) for operand in choice.operands]
        self.system.choice(choice.kind, key, *operands, tag=tag)

    def _hold(self, fact: Fact, piece: Piece) -> None:
        tag = Clause(fact.span, "", piece.sheet, amount=fact.amount)
        self.system.fact(
            fact.kind, *(self._operand(fact.kind, operand) for operand in fact.operands), tag=tag
        )

    # Computed nodes, made when first asked for

    def compute(self, key: str, needs: object, function: Callable[[Reader], Any], span: Span) -> None:
        """A node computed from all that `needs` refers to."""
        if key in self.lowered.made:
            return
        self.lowered.made.add(key)
        self.lowered.spans[key] = span
        keys = keys_in(needs)
        for reference in keys:
            self.ensure_key(reference, needs)
        self.system.computed(
            key, keys, lambda *values: function(Reader(dict(zip(keys, values, strict=True)))), tag=span
        )

    def ensure_key(self, key: str, needs: object) -> None:
        if key in self.lowered.made:
            return
        for reference in references_in(needs):
            if isinstance(reference, PointRef) and reference.key == key:
                self.ensure_point(reference)
                return
            if isinstance(reference, LineRef) and reference.key == key:
                self.ensure_line(reference)
                return
            if isinstance(reference, StitchesRef):
                if reference.key == key:
                    self.ensure_stitches(reference)
                    return
            elif not isinstance(reference, PointRef | LineRef) and key in keys_of(reference):
                self.ensure_value(reference)
                return

    def ensure_value(self, bound: Bound) -> None:
        """Everything that an expression reads."""
        for key in keys_of(bound):
            if key in self.lowered.made:
                continue
            reading = self.pattern.measured.get(key)
            if reading is not None:
                self._reading(reading)
            elif key in self.own_measures:
                self._formula(key, *self.own_measures[key])
            elif key.endswith((".x", ".y")) and "/" in key:
                self._coordinate(key)
            elif "/" in key:
                self.ensure_point(point_of(key))

    def _coordinate(self, key: str) -> None:
        """Of an unknown point the solver has it; of a computed one it is read off."""
        base, axis = key[:-2], key[-1]
        ref = point_of(base)
        self.ensure_point(ref)
        if base not in self.points:
            self.compute(
                key, (ref,), lambda reader: getattr(reader.point(ref), axis), self._span_of(ref.piece)
            )

    def _work(self, shape: ShapePart, piece: Piece) -> None:
        """What is done along a line: what a fold takes, which hangs on no place, and the cuts of a slit."""
        trade = self.lowered.trade
        match shape.work:
            case FoldWork() as fold:
                key = allowance_key(piece, shape)
                self.compute(
                    key, fold, lambda reader: fold_allowance(reader, trade, shape, piece, fold), fold.span
                )
            case SlitWork() as slit:
                needs = (slit, LineRef(piece.name, shape.name), cutting_ref(piece))
                self.compute(
                    cuts_key(piece, shape),
                    needs,
                    lambda reader: slit_cuts(reader, trade, shape, piece, slit),
                    shape.name_span,
                )

    def ensure_stitches(self, ref: StitchesRef) -> None:
        if ref.key not in self.lowered.made:
            ensure_stitches(self, ref)

    def _reading(self, reading: Measured) -> None:
        if reading.what == "allowance":
            self._work(*self._shape_of(reading))
            return
        first = reading.of[0]
        if reading.what in STITCH_WORDS and isinstance(first, LineRef) and self._is_stitch(first):
            stitches = stitches_of(self.pattern, first)
            number = lambda reader: stitch_number(self.trade, reader, reading, stitches)  # noqa: E731
            self.compute(reading.key, (stitches, reading.amount or ()), number, self._span_of(first.piece))
            return
        refs = tuple(
            piece_line(ref.piece, reading.what) if isinstance(ref, PieceRef) else ref for ref in reading.of
        )
        parts = [self._part(ref) for ref in refs]
        needs: tuple[object, ...] = (
            refs,
            *(
                part.form
                for part in parts
                if part is not None and isinstance(part.form, SlotForm | RowForm | RoundForm)
            ),
        )
        span = self._span_of(reading.of[0].piece)
        self.compute(reading.key, needs, lambda reader: read_off(reader, reading.what, refs, parts), span)

    def _shape_of(self, reading: Measured) -> tuple[ShapePart, Piece]:
        """The feature that a number is read off, and its piece."""
        ref = reading.of[0]
        piece = self.pattern.pieces[ref.piece]
        shape = piece.shape(ref.text)
        if shape is None:
            raise AssertionError(f"the binder lets nothing be read off {ref.text}, which is no feature")
        return shape, piece

    def _is_stitch(self, ref: LineRef) -> bool:
        part = self._part(ref)
        return part is not None and part.stitch is not None

    def _part(self, ref: PointRef | LineRef) -> ShapePart | None:
        return self.pattern.pieces[ref.piece].shape(ref.name) if isinstance(ref, LineRef) else None

    def _span_of(self, piece: str) -> Span:
        return self.pattern.pieces[piece].span

    def ensure_point(self, ref: PointRef) -> str:
        if ref.key in self.lowered.made:
            return ref.key
        piece = self.pattern.pieces[ref.piece]
        if ref.twin and ref.part not in SIDES:
            self._twin_point(ref, piece)
        elif ref.part is not None and ref.part.isdigit():
            self._list_point(ref, piece)
        elif ref.part == "centre" and _center(ref.piece, ref.name).key in self.lowered.made:
            return _center(ref.piece, ref.name).key
        else:
            self._line_point(ref, piece)
        return ref.key

    def _twin_point(self, ref: PointRef, piece: Piece) -> None:
        if piece.mirror is None:
            raise AssertionError("the binder lets no twin pass without a mirror line")
        base, mirror = ref.twinned(), piece.mirror
        self.compute(
            ref.key,
            (base, mirror),
            lambda reader: reader.point(base).mirrored(*mirror_points(reader, mirror)),
            piece.span,
        )

    def _list_point(self, ref: PointRef, piece: Piece) -> None:
        listed = next((part for part in piece.lists if part.name == ref.name), None)
        if listed is None or ref.part is None:
            self._line_point(ref, piece)
            return
        steps = listed.steps[: int(ref.part)]
        needs = (listed.along, listed.steps)
        self.compute(ref.key, needs, lambda reader: _list_place(reader, listed, steps), listed.span)

    def _line_point(self, ref: PointRef, piece: Piece) -> None:
        """A point that a line or a ring gives: an end, a side, a corner of the outline."""
        is_corner = piece.shape(ref.name) is None and not any(run.name == ref.name for run in piece.runs)
        line = LineRef(ref.piece, "outline" if is_corner else ref.name, ref.twin)
        name = ref.name if is_corner else ref.text
        part = self._part(line)
        span = part.span if part else piece.span
        self.compute(
            ref.key,
            (line,),
            lambda reader: part_of(reader.line_or_row(line), name, ref.part, is_corner, span),
            span,
        )

    def _path_of(self, ref: LineRef) -> str:
        """The bare path of a line, as the solver's facts take it."""
        self.ensure_line(ref)
        key = ref.key + ":path"
        self.compute(key, (ref,), lambda reader: reader.line(ref).path, self._span_of(ref.piece))
        return key

    def ensure_line(self, ref: LineRef) -> str:
        if ref.key in self.lowered.made:
            return ref.key
        piece = self.pattern.pieces[ref.piece]
        if ref.twin and ref.name != "outline":
            self._twin_line(ref, piece)
            return ref.key
        if ref == cutting_ref(piece):
            self._cutting(ref, piece)
            return ref.key
        run = next((part for part in piece.runs if part.name == ref.name), None)
        shape = piece.shape(ref.name)
        if run is not None:
            self.compute(ref.key, (run.way,), lambda reader: build_way(reader, run.way), run.span)
        elif shape is not None and shape.kind == "outline":
            self._outline(ref, shape, piece)
        elif shape is not None:
            self._shape(ref, shape, piece)
        elif any(part.corner.name == ref.name for part in piece.corners):
            self._corner_line(ref, piece)
        return ref.key

    def _twin_line(self, ref: LineRef, piece: Piece) -> None:
        if piece.mirror is None:
            raise AssertionError("the binder lets no twin pass without a mirror line")
        base, mirror = LineRef(ref.piece, ref.name, False, ref.index), piece.mirror
        self.compute(
            ref.key,
            (base, mirror),
            lambda reader: _twin_of(reader.line_or_row(base), *mirror_points(reader, mirror)),
            piece.span,
        )

    def _corner_line(self, ref: LineRef, piece: Piece) -> None:
        """`fillet heel` makes `heel` a small run of its own."""
        outline = LineRef(piece.name, "outline")

        def cut_out(reader: Reader) -> Drawn:
            line = reader.line(outline)
            station = line.station(ref.name) if isinstance(line, OutlineLine) else None
            if station is None or not isinstance(line, OutlineLine):
                raise AssertionError("a rounded corner is a station of the outline")
            return Drawn(line.ring.part(station.start, station.end))

        self.compute(ref.key, (outline,), cut_out, piece.span)

    def _outline(self, ref: LineRef, shape: ShapePart, piece: Piece) -> None:
        """Of the corners only the amounts are needed: the corners themselves may be the outline's own."""
        roundings = tuple((part.by, part.after or ()) for part in piece.corners)
        needs = (shape, piece.mirror or (), piece.cuts, roundings, self._spot_needs(shape, piece))
        self.compute(ref.key, needs, lambda reader: build_outline(reader, shape, piece), shape.span)

    def _cutting(self, ref: LineRef, piece: Piece) -> None:
        """Where a piece is cut: its outline, moved out along each turned edge."""
        trade = self.lowered.trade
        span = piece.outline.span if piece.outline else piece.span
        self.compute(ref.key, cutting_needs(piece), lambda reader: build_cutting(reader, trade, piece), span)

    def _shape(self, ref: LineRef, shape: ShapePart, piece: Piece) -> None:
        if isinstance(shape.form, SpotForm) or ensure_taken_line(self, ref, shape):
            return
        shape = replace(shape, stitch=None)
        if isinstance(shape.form, RowForm):
            self._row(ref, shape, shape.form, piece)
            return
        if isinstance(shape.form, LinesForm):
            form = shape.form
            index = ref.index
            self.compute(
                ref.key,
                (shape,),
                lambda reader: build_lines(reader, shape, form)[(index or 1) - 1],
                shape.span,
            )
            return
        if isinstance(shape.form, RowAlongForm):
            self._row_along(ref, shape, shape.form, piece)
            return
        outline = self._crossed(shape.form, piece)
        needs = (shape, piece.mirror or (), self._spot_needs(shape, piece), outline)

        def build(reader: Reader) -> Drawn:
            if isinstance(shape.work, SlitWork):
                return build_slit(reader, shape, piece)
            if isinstance(shape.work, TurnWork):
                return build_turned(reader, shape)
            if isinstance(shape.work, StripWork):
                return build_strip(reader, shape, piece, spot_of(reader, shape, piece))
            return build_shape(reader, shape, piece, spot_of(reader, shape, piece))

        self.compute(ref.key, needs, build, shape.span)

    def _crossed(self, form: Form, piece: Piece) -> tuple[LineRef, ...]:
        """The outline, where a line runs over the piece from edge to edge."""
        return (LineRef(piece.name, "outline"),) if isinstance(form, ThroughForm) else ()

    def _row_along(self, ref: LineRef, shape: ShapePart, form: RowAlongForm, piece: Piece) -> None:
        trade = self.lowered.trade
        needs = (shape, piece.mirror or (), self._crossed(form.line, piece))
        self.compute(
            ref.key, needs, lambda reader: build_row_along(reader, trade, shape, form, piece), shape.span
        )

    def _row(self, ref: LineRef, shape: ShapePart, form: RowForm, piece: Piece) -> None:
        def build(reader: Reader) -> RowLine:
            spot = spot_of(reader, shape, piece)
            if spot is None:
                raise AssertionError("a row has a middle")
            return build_row(reader, shape, form, spot)

        self.compute(ref.key, (form, self._spot_needs(shape, piece)), build, shape.span)

    def _spot_needs(self, shape: ShapePart, piece: Piece) -> object:
        if not isinstance(shape.form, PLACED_FORMS):
            return ()
        return (_center(piece.name, shape.name), shape.placing.direction or ())


def _twin_of(line: AnyLine, a: Point, b: Point) -> AnyLine:
    return line.mirrored(a, b) if isinstance(line, RowLine) else as_drawn(line).mirrored(a, b)


def _has_place(shape: ShapePart) -> bool:
    return isinstance(shape.form, PLACED_FORMS)


def _center(piece: str, name: str) -> PointRef:
    return PointRef(piece, name, False, "centre")


def point_of(key: str) -> PointRef:
    """The reference that a point's key stands for."""
    piece, _, text = key.partition("/")
    head, _, part = text.partition(".")
    return PointRef(piece, head.rstrip("'"), head.endswith("'"), part or None)


def spot_of(reader: Reader, shape: ShapePart, piece: Piece) -> Spot | None:
    """Where a placed shape has its middle and how it lies; level where nothing is said."""
    if not isinstance(shape.form, PLACED_FORMS):
        return None
    direction = shape.placing.direction
    angle = degrees(reader.direction(direction).angle) if direction else 0.0
    return Spot(reader.point(_center(piece.name, shape.name)), angle)


def build_outline(reader: Reader, shape: ShapePart, piece: Piece) -> OutlineLine:
    corners = piece.corners
    if isinstance(shape.form, PathForm):
        rough = rough_ring(reader, shape.form, piece)
    else:
        if isinstance(shape.form, BoxForm) and shape.rounded is not None:
            corners = (*_box_roundings(shape, shape.rounded, piece), *corners)
            shape = replace(shape, rounded=None)
        drawn = build_shape(reader, shape, piece, spot_of(reader, shape, piece))
        if not isinstance(drawn.path, Ring):
            raise AssertionError("the binder takes only closed shapes for an outline")
        rough = rough_of_ring(drawn.path, dict(drawn.corners))
        if piece.mirror:
            mirror = mirror_points(reader, piece.mirror)
            if not is_own_mirror(drawn.path, *mirror):
                line = f"{piece.mirror.start.text}..{piece.mirror.end.text}"
                raise Unbuildable(says.NOT_SYMMETRIC, shape.span, piece=piece.name, line=line)
    for cut in piece.cuts:
        rough = cut_rough(reader, rough, cut, piece)
    return round_and_station(reader, rough, corners, piece)


def _box_roundings(shape: ShapePart, radius: Bound, piece: Piece) -> Iterator[CornerPart]:
    """A rounded box has its four corners rounded by name, but those that a cut has taken or that are rounded anew."""
    said = {part.corner.part for part in piece.corners if part.corner.name == "outline"}
    for name in BOX_CORNERS:
        if name not in said:
            corner = PointRef(piece.name, "outline", False, name)
            yield CornerPart("fillet", corner, radius, None, shape.span)


# Places worked out from a line


def _along_stretch(reader: Reader, fact: Fact, by_part: bool) -> Point:
    start, end, amount = fact.operands
    if (
        not isinstance(start, PointRef)
        or not isinstance(end, PointRef)
        or isinstance(amount, PointRef | LineRef | BoundWay)
    ):
        raise AssertionError("a stretch and an amount")
    a, b = reader.point(start), reader.point(end)
    number, length = reader.number(amount), a.distance_to(b)
    distance = number * length if by_part else number
    line = f"{start.text}..{end.text}"
    if not -SAME_POINT <= distance <= length + SAME_POINT:
        raise Unbuildable(
            says.BEYOND_LINE,
            fact.span,
            name=" ".join(fact.span.text.split()),
            line=line,
            length=mm(length),
            mend=f"Stay within it, or write `{' '.join(fact.span.text.split())} extended`.",
        )
    if length < SAME_POINT:
        return a
    return a + (b - a) * (distance / length)


def _along_way(reader: Reader, fact: Fact, by_part: bool) -> Point:
    way, amount = fact.operands
    if not isinstance(way, BoundWay) or isinstance(amount, PointRef | LineRef | BoundWay):
        raise AssertionError("a way and an amount")
    path = build_way(reader, way).path
    name = " ".join(way.span.text.split())
    if isinstance(path, Ring):
        raise Unbuildable(says.RING_HAS_NO_ENDS, fact.span, way=name, part="start")
    number = reader.number(amount)
    distance = number * path.length if by_part else number
    if not -SAME_POINT <= distance <= path.length + SAME_POINT:
        raise Unbuildable(
            says.BEYOND_LINE,
            fact.span,
            name=" ".join(fact.span.text.split()),
            line=name,
            length=mm(path.length),
            mend="Stay within it.",
        )
    return path.point_at(min(max(distance, 0.0), path.length))


def _mirrored_over(reader: Reader, fact: Fact) -> Point:
    point, line = fact.operands
    if not isinstance(point, PointRef) or not isinstance(line, LineRef):
        raise AssertionError("a point and a line")
    path = reader.line(line).path
    straight = isinstance(path, Path) and abs(path.length - path.start.distance_to(path.end)) < SAME_POINT
    if not straight:
        raise Unbuildable(says.NOT_STRAIGHT, fact.span, line=line.text)
    return reader.point(point).mirrored(path.start, path.end)


def _list_place(reader: Reader, listed: PointsPart, steps: tuple[Bound, ...]) -> Point:
    """The point after so many steps; all steps together must stay on the line."""
    if isinstance(listed.along, BoundStretch):
        a, b = reader.point(listed.along.start), reader.point(listed.along.end)
        length = a.distance_to(b)
        at: Callable[[float], Point] = lambda s: a + (b - a) * (s / length) if length else a  # noqa: E731
    else:
        path = build_way(reader, listed.along).path
        length = path.length
        at = path.point_at
    total = sum(reader.number(step) for step in listed.steps)
    if total > length + SAME_POINT:
        raise Unbuildable(
            says.STEPS_TOO_LONG,
            listed.span,
            name=listed.name,
            total=mm(total),
            length=mm(length),
            over=mm(total - length),
        )
    return at(min(sum(reader.number(step) for step in steps), length))
