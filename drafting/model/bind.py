"""Tree -> Pattern: every name bound, every kind checked.

Takes the tree of a pattern file. Works in three passes: the names, the measures, then each piece. Statements that are
read and not drafted yet are gathered into one message.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import chain
from typing import Literal, TypeVar

from drafting.model.bind_expression import (
    bind,
    bind_kind,
    bind_lengths,
    compare_kinds,
    kind_of_measure,
    list_length,
    list_named,
    measure_key,
    seen_by,
)
from drafting.model.bind_item import (
    bind_allowances,
    bind_content,
    bind_hardware,
    bind_passes,
    bind_punch,
    bind_step,
    bind_thread,
)
from drafting.model.bind_place import bind_direction, bind_hold, bind_placing, bind_side, bind_way
from drafting.model.bind_shape import bind_shape
from drafting.model.bind_stitch import bind_fits, bind_joins
from drafting.model.evaluate_measures import Formula, formulas, is_pure
from drafting.model.expressions import Bound
from drafting.model.item_words import STOCK_KINDS
from drafting.model.pattern import (
    BoundDirection,
    BoundStretch,
    BoundWay,
    CheckPart,
    CornerPart,
    CutAwayPart,
    DimPart,
    FindPart,
    MeasurePart,
    Pattern,
    Piece,
    PointPart,
    PointRef,
    PointsPart,
    RunPart,
    ShapePart,
    StockPart,
)
from drafting.model.published import PublishedSizes
from drafting.model.references import Binding, expect_stretch, say_of_file, say_unknown_name
from drafting.model.scope import Fetch, PieceText, Scope, open_scope
from drafting.model.sizes import bind_sizes
from drafting.model.thickness import stock_of
from drafting.syntax import tree
from drafting.text.catalogue import model as says
from drafting.text.messages import Messages
from drafting.text.quantities import LENGTH

Named = TypeVar("Named", tree.Stock, tree.Thread, tree.Punch, tree.Hardware, tree.Content)
Part = TypeVar("Part")
Written = TypeVar("Written")


def bind_pattern(
    file: tree.File, published: PublishedSizes, fetch: Fetch
) -> tuple[Pattern, Binding, Messages]:
    """The pattern a tree means, the binding for later questions, and what is wrong. `published` is the table that a
    content may be named from, `fetch` gives the files that the pattern uses."""
    messages = Messages()
    scope = open_scope(file, messages, fetch)
    binding = Binding(scope, messages, published)
    known: dict[str, Formula] = {}
    used = [_bind_used(binding, each, known) for each in scope.opened.values() if each is not scope]
    pattern = _with_brought(_bind_file(binding), used, binding.tied)
    if not (
        scope.blocks or any(isinstance(item, tree.Piece | tree.Block | tree.Punch) for item in file.items)
    ):
        end = file.source.span(max(len(file.source.text.rstrip()) - 1, 0), len(file.source.text.rstrip()))
        messages.add(says.EMPTY_PATTERN, at=end)
    return pattern, binding, messages


def _with_brought(pattern: Pattern, used: list[Pattern], tied: set[str]) -> Pattern:
    """The pattern with what used files bring: their measures and amounts, but those that hang on their own pieces."""
    items = [
        replace(
            part,
            amounts={word: of for word, of in part.amounts.items() if f"{part.name}.{word}" not in tied},
        )
        for each in used
        for part in each.item_parts
    ]
    measures = [part for each in used for part in each.measures.values() if not tied & set(part.keys)]
    return replace(
        pattern,
        stocks={**pattern.stocks, **{part.name: part for part in items if isinstance(part, StockPart)}},
        brought_measures={part.key: part for part in measures},
        brought_items=tuple(part for part in items if not isinstance(part, StockPart)),
    )


def _bind_used(binding: Binding, scope: Scope, known: dict[str, Formula]) -> Pattern:
    """A file that is used, bound by itself, so that all its faults are told; what it tells of kinds is kept. `known`
    gathers the formulas of all such files."""
    own = Binding(scope, binding.messages, binding.published, kinds=dict(binding.kinds), tied=binding.tied)
    own.argument_kinds = binding.argument_kinds
    pattern = _bind_file(own)
    binding.kinds |= {key: kind for key, kind in own.kinds.items() if "/" not in key}
    found = formulas(pattern, {})
    known.update(found)
    binding.tied |= {key for key, formula in found.items() if not is_pure(formula.bound, known)}
    return pattern


def _bind_file(binding: Binding) -> Pattern:
    """One file by itself."""
    scope, file = binding.scope, binding.scope.file
    _count_steps(binding)
    parts = _bind_measures(binding, file.items, None)
    measures = {part.name: part for part in parts}
    stocks = {part.name: part for part in _first_of(scope, tree.Stock, _bind_stock, binding)}
    threads = {part.name: part for part in _first_of(scope, tree.Thread, bind_thread, binding)}
    punches = {part.name: part for part in _first_of(scope, tree.Punch, bind_punch, binding)}
    hardware = {part.name: part for part in _first_of(scope, tree.Hardware, bind_hardware, binding)}
    contents = {part.name: part for part in _first_of(scope, tree.Content, bind_content, binding)}
    steps = tuple(bind_step(binding, item) for item in file.items if isinstance(item, tree.Step))
    for text in sorted(scope.blocks.values(), key=lambda block: len(block.layers)):
        _judge_block(binding, text)
    pieces = {name: _bind_piece_once(binding, text) for name, text in _in_text_order(scope)}
    checks = [_bind_check(binding, item, None) for item in file.items if isinstance(item, tree.Check)]
    joins = tuple(bind_joins(binding, file.items))
    fits = tuple(bind_fits(binding, file.items, measures))
    sizes = bind_sizes(binding, measures)
    header = file.header
    return Pattern(
        file,
        header.title if header else "",
        header.edition if header else None,
        header.licence if header else None,
        header.author if header else None,
        header.notes if header else (),
        (header.show if header else ()) or ("mm",),
        measures,
        stocks,
        threads,
        punches,
        hardware,
        contents,
        steps,
        sizes,
        pieces,
        tuple(check for check in checks if check),
        binding.measured,
        joins,
        fits,
        tuple(bind_allowances(binding)),
        tuple(bind_passes(binding)),
    )


def _first_of(
    scope: Scope, kind: type[Named], bind_one: Callable[[Binding, Named], Part], binding: Binding
) -> Iterator[Part]:
    """Of two stocks by one name only the first counts; the second is already a message."""
    for item in scope.file.items:
        if isinstance(item, kind) and scope.names[item.name.text].statement is item:
            yield bind_one(binding, item)


def _in_text_order(scope: Scope) -> list[tuple[str, PieceText]]:
    return sorted(scope.pieces.items(), key=lambda entry: entry[1].statement.span.start)


def _count_steps(binding: Binding) -> None:
    """How many points each list has, known before anything refers to them; none for a list with a slip in it."""
    broken = {(unread.piece, unread.name) for unread in binding.scope.file.unread}
    for piece in binding.pieces.values():
        for part in piece.parts:
            if isinstance(part, tree.PointsStatement) and not _is_broken(part.name.text, piece, broken):
                steps = [
                    amount
                    for clause in part.clauses
                    if isinstance(clause, tree.Steps)
                    for amount in clause.amounts
                ]
                counts = [_amount_count(binding, amount, piece) for amount in steps]
                known = [count for count in counts if count is not None]
                if len(known) == len(counts):
                    binding.step_counts[f"{piece.name}/{part.name.text}"] = sum(known)


def _is_broken(name: str, piece: PieceText, broken: set[tuple[str | None, str | None]]) -> bool:
    return any((owner, name) in broken for owner in piece.lineage)


def _amount_count(binding: Binding, node: tree.Expression, piece: PieceText) -> int | None:
    """How many amounts a name stands for; None for a measure that could not be read."""
    if isinstance(node, tree.Ref) and len(node.parts) <= 2:
        symbol, _ = list_named(binding, node, piece)
        if symbol and symbol.kind == "measure":
            return list_length(symbol)
        if symbol and symbol.is_unread:
            return None
    return 1


# Measures and stocks


def _bind_measures(
    binding: Binding, items: tuple[tree.Item, ...] | tuple[tree.Part, ...], piece: PieceText | None
) -> list[MeasurePart]:
    parts = []
    for item in items:
        if isinstance(item, tree.Measure):
            part = _bind_measure(binding, item, piece)
            if part:
                parts.append(part)
    return parts


def _bind_measure(binding: Binding, item: tree.Measure, piece: PieceText | None) -> MeasurePart | None:
    table = piece.table if piece else binding.scope.names
    symbol = table.get(item.name.text)
    if symbol is None or symbol.statement is not item:
        return None
    kind = kind_of_measure(binding, symbol, piece)
    if kind is None:
        return None
    values = [bind_kind(binding, value, piece, kind, item) for value in item.values]
    low = bind_kind(binding, item.low, piece, kind, item) if item.low else None
    high = bind_kind(binding, item.high, piece, kind, item) if item.high else None
    if any(value is None for value in values):
        return None
    return MeasurePart(
        measure_key(symbol, piece),
        item.name.text,
        tuple(value for value in values if value is not None),
        kind,
        low,
        high,
        item.span,
        item.note,
    )


def _bind_stock(binding: Binding, item: tree.Stock) -> StockPart:
    amounts = {amount.word: amount for amount in item.amounts}
    bounds: dict[str, Bound] = {}
    for word, amount in amounts.items():
        if word == "comes":
            for side in amount.amounts:
                bind_kind(binding, side, None, LENGTH, amount)
        else:
            bound = bind_kind(binding, amount.amounts[0], None, STOCK_KINDS[word], amount)
            bounds |= {word: bound} if bound is not None else {}
    name = binding.scope.prefix + item.name.text
    return StockPart(name, item.material, bounds, item.span, item.note)


# Blocks


def _judge_block(binding: Binding, text: PieceText) -> None:
    """What a block says, judged by itself though no piece may be made from it; and what kinds its arguments are.

    An argument is of the kind of its default, or of the kind that the clauses ask for which it stands in: the block is
    read until no more can be told. What is left is judged in each piece.
    """
    table = text.layers[0].table
    _keep_default_kinds(binding, text, is_last=False)
    kept, binding.messages = binding.messages, Messages()
    binding.is_learning = True
    n_known = -1
    while n_known < len(binding.argument_kinds) and len(binding.argument_kinds) < n_known + len(table) + 2:
        n_known = len(binding.argument_kinds)
        _bind_aside(binding, text)
    binding.is_learning, binding.messages = False, kept
    _keep_default_kinds(binding, text, is_last=True)
    _bind_aside(binding, text)


def _keep_default_kinds(binding: Binding, text: PieceText, is_last: bool) -> None:
    """The kind of each argument with a default; a bare 0 goes with what the clauses ask for, if they do."""
    for symbol in text.layers[0].table.values():
        key = symbol.prefix + symbol.name
        if isinstance(symbol.statement, tree.Measure) and key not in binding.argument_kinds:
            kept, binding.messages = binding.messages, Messages()
            typed = bind(binding, symbol.statement.values[0], text)
            binding.messages = kept
            if typed and (is_last or not typed.is_zero):
                binding.argument_kinds[key] = typed.kind


def _bind_aside(binding: Binding, text: PieceText) -> None:
    """Bind a block for its messages alone: nothing is drafted of it."""
    measured, quiet = dict(binding.measured), list(binding.quiet)
    for key in [key for key in binding.kinds if key.startswith(f"{text.name}/")]:
        del binding.kinds[key]
    _bind_piece(binding, text)
    binding.measured.clear()
    binding.measured.update(measured)
    binding.quiet[:] = quiet


def _argument_measures(binding: Binding, text: PieceText) -> Iterator[MeasurePart]:
    """What a piece gives to the blocks it is made from, and what it leaves to defaults, as measures of its own."""
    for layer in text.layers:
        for symbol in layer.table.values():
            statement = symbol.statement
            kind = kind_of_measure(binding, symbol, text)
            if kind is None or not isinstance(statement, tree.Measure):
                continue
            bound = bind_kind(binding, statement.values[0], seen_by(text, symbol), kind, statement)
            if bound is not None:
                key = measure_key(symbol, text)
                yield MeasurePart(key, symbol.name, (bound,), kind, None, None, statement.span)


# Pieces


def _bind_piece_once(binding: Binding, text: PieceText) -> Piece:
    """A piece; of a statement that it copies from another no fault is told again."""
    said = {(message.code, message.at) for message in binding.messages}
    kept, binding.messages = binding.messages, Messages()
    piece = _bind_piece(binding, text)
    found, binding.messages = binding.messages, kept
    own = text.statement.span
    for message in found:
        if (message.at and own.covers(message.at)) or (message.code, message.at) not in said:
            binding.messages.extend([message])
        elif message.at:
            binding.faulty_pieces.add(text.name)
    return piece


def _bind_piece(binding: Binding, text: PieceText) -> Piece:
    mirror = expect_stretch(binding, text.mirror.line, text, text) if text.mirror else None
    measures = [*_argument_measures(binding, text), *_bind_measures(binding, text.parts, text)]
    return Piece(
        text.name,
        text.sheet,
        _count(binding, text),
        text.cut.pair if text.cut else False,
        _stock_name(binding, text),
        mirror,
        _bind_grain(binding, text),
        points=_each(binding, text, tree.PointStatement, _bind_own_point),
        lists=_each(binding, text, tree.PointsStatement, _bind_points),
        outline=_bind_outline(binding, text),
        guides=_bind_shapes(binding, text, guides=True),
        features=_bind_shapes(binding, text, guides=False),
        runs=_each(binding, text, tree.Run, _bind_run),
        finds=_each(binding, text, tree.Find, _bind_find),
        holds=_each(binding, text, tree.Hold, bind_hold),
        corners=tuple(
            chain.from_iterable(
                _bind_corners(binding, part, text)
                for part in text.parts
                if isinstance(part, tree.Fillet | tree.Clip)
            )
        ),
        cuts=_each(binding, text, tree.CutAway, _bind_cut),
        dims=_each(binding, text, tree.Dim, _bind_dim),
        measures=tuple(measures),
        checks=_each(binding, text, tree.Check, _bind_check),
        span=text.statement.name.span,
        note=text.statement.note,
    )


def _each(
    binding: Binding,
    text: PieceText,
    kind: type[Written],
    bind_one: Callable[[Binding, Written, PieceText], Part | None],
) -> tuple[Part, ...]:
    """All statements of one kind, without those that could not be bound."""
    bound = [bind_one(binding, part, text) for part in text.parts if isinstance(part, kind)]
    return tuple([part for part in bound if part is not None])


def _bind_run(binding: Binding, part: tree.Run, text: PieceText) -> RunPart | None:
    way = bind_way(binding, part.way, text, length_only=True)
    return RunPart(part.name.text, way, part.span) if way else None


def _bind_own_point(binding: Binding, part: tree.PointStatement, text: PieceText) -> PointPart | None:
    return _bind_point(binding, part, text) if _is_own(text, part) else None


def _is_own(text: PieceText, part: tree.PointStatement) -> bool:
    """Of two points by one name only the first counts; the second is already a message."""
    symbol = text.table.get(part.name.text)
    return symbol is not None and symbol.statement is part


def _count(binding: Binding, text: PieceText) -> int:
    if text.cut is None:
        return 1
    if text.cut.count < 1:
        binding.messages.add(says.CUT_COUNT, at=text.cut.span, count=text.cut.count)
    return text.cut.count


def _stock_name(binding: Binding, text: PieceText) -> str | None:
    if text.cut is None:
        return None
    ref = text.cut.stock
    stock = stock_of(binding, text)
    if stock:
        return stock.prefix + stock.name
    names = binding.names(ref.span)
    symbol = names.get(ref.parts[0])
    if symbol is None:
        say_unknown_name(binding, ref.span, ref.text, None, "stock")
    elif symbol.kind == "use" and len(ref.parts) > 1 and not binding.brought(ref):
        say_of_file(binding, ref, "stock")
    elif not symbol.is_unread:
        offers = ", ".join(f"`{known}`" for known, other in names.items() if other.kind == "stock")
        found = binding.brought(ref) or symbol
        binding.messages.add(
            says.NOT_A_STOCK, at=ref.span, name=ref.text, what=found.what, offers=offers or "none yet"
        )
    return None


def _bind_grain(binding: Binding, text: PieceText) -> BoundDirection | Literal["any"] | None:
    grain = text.grain
    if grain is None:
        return None
    if grain.how == "any":
        return "any"
    return bind_direction(binding, tree.Direction(grain.span, grain.how, grain.of), text)


def _bind_point(binding: Binding, part: tree.PointStatement, text: PieceText) -> PointPart:
    for clause in part.clauses:
        if not isinstance(clause, tree.Place | tree.Side) or isinstance(clause, tree.Lying):
            binding.messages.add(
                says.NOT_FOR_KIND,
                at=clause.span,
                kind="A point",
                clause=" ".join(clause.span.text.split()),
                takes="facts, such as `level with foot`, and choices, such as `above foot`",
            )
    placing = bind_placing(binding, part.clauses, text, part.name.text)
    return PointPart(PointRef(text.name, part.name.text), placing, part.name.span, part.note)


def _bind_points(binding: Binding, part: tree.PointsStatement, text: PieceText) -> PointsPart | None:
    along: BoundStretch | BoundWay | None = None
    steps: list[list[Bound] | None] = []
    lines = [clause for clause in part.clauses if isinstance(clause, tree.AlongShape)]
    for clause in part.clauses:
        match clause:
            case tree.AlongShape(way=tree.Stretch() as stretch):
                along = expect_stretch(binding, stretch, text, text)
            case tree.AlongShape(way=way):
                along = bind_way(binding, way, text)  # type: ignore[arg-type]
            case tree.Steps(amounts=amounts):
                steps.append(bind_lengths(binding, list(amounts), text, clause))
            case _:
                binding.messages.add(
                    says.NOT_FOR_KIND,
                    at=clause.span,
                    kind="A list of points",
                    clause=" ".join(clause.span.text.split()),
                    takes="`along A..B` and `steps`",
                )
    name = part.name.text
    if len(lines) > 1:
        first, second = (" ".join(line.span.text.split()) for line in lines[:2])
        binding.messages.add(
            says.SAID_TWICE,
            at=lines[1].span,
            name=name,
            what="what it runs along",
            first=first,
            second=second,
        )
    if not lines:
        binding.messages.add(
            says.LACKS,
            at=part.name.span,
            kind="list of points",
            name=name,
            what="what it runs along",
            example="along foot..tip",
        )
    if not steps:
        binding.messages.add(
            says.LACKS,
            at=part.name.span,
            kind="list of points",
            name=name,
            what="what its steps are",
            example="steps 10 mm, 10 mm",
        )
    if along is None or not steps or any(each is None for each in steps):
        return None
    return PointsPart(
        text.name, name, along, tuple(chain.from_iterable(each or () for each in steps)), part.name.span
    )


def _bind_outline(binding: Binding, text: PieceText) -> ShapePart | None:
    outlines = [part for part in text.parts if isinstance(part, tree.Outline)]
    if not outlines and "outline" not in text.table and not text.is_block:
        binding.messages.add(says.NO_OUTLINE, at=text.statement.name.span, piece=text.name)
    return bind_shape(binding, "outline", "outline", outlines[0], text) if outlines else None


def _bind_shapes(binding: Binding, text: PieceText, guides: bool) -> tuple[ShapePart, ...]:
    shapes = []
    for part in text.parts:
        if isinstance(part, tree.Guide) and guides:
            shapes.append(bind_shape(binding, "guide", part.name.text, part, text))
        elif isinstance(part, tree.Feature) and not guides:
            shapes.append(bind_shape(binding, part.kind, part.name.text, part, text))
    return tuple(shape for shape in shapes if shape)


def _bind_find(binding: Binding, part: tree.Find, text: PieceText) -> FindPart | None:
    symbol = text.table[part.name.text]
    kind = kind_of_measure(binding, symbol, text)
    if kind is None:
        return None
    low = bind_kind(binding, part.low, text, kind, part)
    high = bind_kind(binding, part.high, text, kind, part)
    if low is None or high is None:
        return None
    return FindPart(measure_key(symbol, text), part.name.text, low, high, kind, part.name.span)


def _bind_corners(binding: Binding, part: tree.Fillet | tree.Clip, text: PieceText) -> list[CornerPart]:
    by = bind_kind(binding, part.by, text, LENGTH, part)
    after = None
    if isinstance(part, tree.Clip) and part.after is not None:
        after = bind_kind(binding, part.after, text, LENGTH, part)
    kind = "fillet" if isinstance(part, tree.Fillet) else "clip"
    corners: list[CornerPart] = []
    for ref in part.corners:
        point = _corner_point(binding, ref, text, kind)
        if point and by is not None:
            corners.append(CornerPart(kind, point, by, after, ref.span))  # type: ignore[arg-type]
    return corners


def _corner_point(binding: Binding, ref: tree.Ref, text: PieceText, kind: str) -> PointRef | None:
    name = ref.parts[0]
    symbol = text.table.get(name)
    if len(ref.parts) == 1 and symbol and symbol.kind == "outline corner":
        return PointRef(text.name, "outline", False, name)
    unread = text.table.get("outline")
    is_known = name in text.corners or unread is None or unread.is_unread
    if len(ref.parts) == 1 and symbol and symbol.kind in ("point", "cut corner") and is_known:
        return PointRef(text.name, name)
    done = "rounded" if kind == "fillet" else "clipped"
    if name.endswith("'"):
        binding.messages.add(says.TWIN_CORNER, at=ref.span, name=name, base=name.rstrip("'"), done=done)
        return None
    if symbol is not None and symbol.is_unread:
        return None
    if symbol is None:
        say_unknown_name(binding, ref.span, ref.text, text, "corner", f" in `{text.name}`")
        return None
    binding.messages.add(
        says.NOT_A_CORNER,
        at=ref.span,
        name=ref.text,
        done=done,
        offers=", ".join(f"`{corner}`" for corner in text.corners) or "none: it has no path",
    )
    return None


def _bind_cut(binding: Binding, part: tree.CutAway, text: PieceText) -> CutAwayPart | None:
    of = bind_side(binding, part.side, text)
    return CutAwayPart(part.side.how, of, tuple(name.text for name in part.naming), part.span) if of else None


def _bind_dim(binding: Binding, part: tree.Dim, text: PieceText) -> DimPart | None:
    line = expect_stretch(binding, part.line, text, text)
    return DimPart(line, part.how, part.span, part.note) if line else None


def _bind_check(binding: Binding, part: tree.Check, text: PieceText | None) -> CheckPart | None:
    sides = compare_kinds(binding, part, part.left, part.right, text)
    if sides is None:
        return None
    left, right, kind = sides
    within = bind_kind(binding, part.within, text, kind, part) if part.within else None
    return CheckPart(left, part.operator, right, within, kind, part.span, part.note)
