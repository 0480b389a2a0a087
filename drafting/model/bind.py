"""Tree -> Pattern: every name bound, every kind checked.

Takes the tree of a pattern file. Works in three passes: the names, the measures, then each piece. Statements that are
read and not drafted yet are gathered into one message.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import chain
from typing import Literal, TypeVar

from drafting.model.bind_expression import (
    bind_kind,
    bind_lengths,
    compare_kinds,
    kind_of_measure,
    list_length,
    measure_key,
)
from drafting.model.bind_item import (
    bind_allowances,
    bind_content,
    bind_hardware,
    bind_passes,
    bind_step,
    bind_thread,
)
from drafting.model.bind_place import bind_direction, bind_hold, bind_placing, bind_side, bind_way
from drafting.model.bind_shape import bind_shape
from drafting.model.bind_stitch import bind_fits, bind_joins
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
from drafting.model.references import Binding, expect_stretch, say_unknown_name
from drafting.model.scope import LATER_FEATURES, PieceText, Scope, open_scope
from drafting.model.sizes import bind_sizes
from drafting.syntax import tree
from drafting.text.catalogue import model as says
from drafting.text.messages import Messages, Related
from drafting.text.quantities import LENGTH
from drafting.text.source import Span

Named = TypeVar("Named", tree.Stock, tree.Thread, tree.Hardware, tree.Content)
Part = TypeVar("Part")
LATER_ITEMS = (tree.Use, tree.Block)


def bind_pattern(file: tree.File, published: PublishedSizes) -> tuple[Pattern, Binding, Messages]:
    """The pattern a tree means, the binding for later questions, and what is wrong. `published` is the table that a
    content may be named from."""
    messages = Messages()
    scope = open_scope(file, messages)
    binding = Binding(scope, messages, published)
    _count_steps(binding)
    measures = {part.name: part for part in _bind_measures(binding, file.items, None)}
    stocks = {part.name: part for part in _first_of(scope, tree.Stock, _bind_stock, binding)}
    threads = {part.name: part for part in _first_of(scope, tree.Thread, bind_thread, binding)}
    hardware = {part.name: part for part in _first_of(scope, tree.Hardware, bind_hardware, binding)}
    contents = {part.name: part for part in _first_of(scope, tree.Content, bind_content, binding)}
    steps = tuple(bind_step(binding, item) for item in file.items if isinstance(item, tree.Step))
    pieces = {name: _bind_piece_once(binding, text) for name, text in _in_text_order(scope)}
    checks = [_bind_check(binding, item, None) for item in file.items if isinstance(item, tree.Check)]
    joins = tuple(bind_joins(binding, file.items))
    fits = tuple(bind_fits(binding, file.items, measures))
    sizes = bind_sizes(binding, measures)
    _say_later(binding)
    if (
        not scope.pieces
        and not scope.left_out
        and not any(isinstance(item, tree.Piece) for item in file.items)
    ):
        end = file.source.span(max(len(file.source.text.rstrip()) - 1, 0), len(file.source.text.rstrip()))
        messages.add(says.EMPTY_PATTERN, at=end)
    header = file.header
    pattern = Pattern(
        file,
        header.title if header else "",
        header.edition if header else None,
        header.licence if header else None,
        header.notes if header else (),
        (header.show if header else ()) or ("mm",),
        measures,
        stocks,
        threads,
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
    return pattern, binding, messages


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
    if isinstance(node, tree.Ref) and len(node.parts) == 1:
        local = piece.table.get(node.text)
        symbol = local or binding.scope.names.get(node.text)
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
    return StockPart(item.name.text, item.material, bounds, item.span, item.note)


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
    parts = text.parts
    measures = _bind_measures(binding, parts, text)
    return Piece(
        text.name,
        text.sheet,
        _count(binding, text),
        text.cut.pair if text.cut else False,
        _stock_name(binding, text),
        mirror,
        _bind_grain(binding, text),
        tuple(
            _bind_point(binding, part, text)
            for part in parts
            if isinstance(part, tree.PointStatement) and _is_own(text, part)
        ),
        tuple(
            bound
            for part in parts
            if isinstance(part, tree.PointsStatement)
            for bound in [_bind_points(binding, part, text)]
            if bound
        ),
        _bind_outline(binding, text),
        _bind_shapes(binding, text, guides=True),
        _bind_shapes(binding, text, guides=False),
        tuple(
            RunPart(part.name.text, way, part.span)
            for part in parts
            if isinstance(part, tree.Run)
            for way in [bind_way(binding, part.way, text, length_only=True)]
            if way
        ),
        tuple(
            bound
            for part in parts
            if isinstance(part, tree.Find)
            for bound in [_bind_find(binding, part, text)]
            if bound
        ),
        tuple(
            bound
            for part in parts
            if isinstance(part, tree.Hold)
            for bound in [bind_hold(binding, part, text)]
            if bound
        ),
        tuple(
            chain.from_iterable(
                _bind_corners(binding, part, text)
                for part in parts
                if isinstance(part, tree.Fillet | tree.Clip)
            )
        ),
        tuple(
            bound
            for part in parts
            if isinstance(part, tree.CutAway)
            for bound in [_bind_cut(binding, part, text)]
            if bound
        ),
        tuple(
            bound
            for part in parts
            if isinstance(part, tree.Dim)
            for bound in [_bind_dim(binding, part, text)]
            if bound
        ),
        tuple(measures),
        tuple(
            bound
            for part in parts
            if isinstance(part, tree.Check)
            for bound in [_bind_check(binding, part, text)]
            if bound
        ),
        text.statement.name.span,
        text.statement.note,
    )


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
    name = text.cut.stock.text
    symbol = binding.scope.names.get(text.cut.stock.parts[0])
    if symbol and symbol.kind == "stock":
        return name
    if symbol is None:
        say_unknown_name(binding, text.cut.stock.span, name, None, "stock")
    elif symbol.kind not in ("use", "unread"):
        stocks = [f"`{known}`" for known, other in binding.scope.names.items() if other.kind == "stock"]
        offers = ", ".join(stocks) or "none yet"
        binding.messages.add(
            says.NOT_A_STOCK, at=text.cut.stock.span, name=name, what=symbol.what, offers=offers
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
    if not outlines and "outline" not in text.table:
        binding.messages.add(says.NO_OUTLINE, at=text.statement.name.span, piece=text.name)
    return bind_shape(binding, "outline", "outline", outlines[0], text) if outlines else None


def _bind_shapes(binding: Binding, text: PieceText, guides: bool) -> tuple[ShapePart, ...]:
    shapes = []
    for part in text.parts:
        if isinstance(part, tree.Guide) and guides:
            shapes.append(bind_shape(binding, "guide", part.name.text, part, text))
        elif isinstance(part, tree.Feature) and not guides and part.kind not in LATER_FEATURES:
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
    if _needs_later(binding, part, text):
        return None
    sides = compare_kinds(binding, part, part.left, part.right, text)
    if sides is None:
        return None
    left, right, kind = sides
    within = bind_kind(binding, part.within, text, kind, part) if part.within else None
    return CheckPart(left, part.operator, right, within, kind, part.span, part.note)


def _inside(node: object) -> Iterator[tree.Node]:
    """A node and every node below it."""
    if isinstance(node, tree.Node):
        yield node
    if isinstance(node, tuple):
        for item in node:
            yield from _inside(item)
    elif isinstance(node, tree.Node):
        for value in vars(node).values():
            if not isinstance(value, str):
                yield from _inside(value)


def _needs_later(binding: Binding, part: tree.Check, text: PieceText | None) -> bool:
    """A check on something that is not drafted yet waits for it, and is named in the one message."""
    nodes = list(_inside((part.left, part.right)))
    for ref in (node for node in nodes if isinstance(node, tree.Ref)):
        owner = binding.pieces.get(ref.parts[0]) if len(ref.parts) > 1 else text
        parts = ref.parts[1:] if owner is not text or (text is None and owner) else ref.parts
        if ref.parts[0] in binding.scope.left_out:
            return True
        symbol = owner.table.get(parts[0].rstrip("'")) if owner and parts else None
        if symbol and symbol.is_later:
            return True
    return False


# What is read and not drafted yet


def _say_later(binding: Binding) -> None:
    """One message for all that this version reads without drafting it, at the first such place."""
    found: list[tuple[str, tree.Node]] = []
    for item in binding.scope.file.items:
        if isinstance(item, LATER_ITEMS):
            found.append((type(item).__name__.lower(), item))
        elif isinstance(item, tree.Piece):
            if item.name.text in binding.scope.left_out:
                found.append(("piece made from a block", item))
                continue
            found.extend(
                (part.kind, part)
                for part in item.parts
                if isinstance(part, tree.Feature) and part.kind in LATER_FEATURES
            )
            found.extend(
                ("check on what is not drafted", part)
                for part in item.parts
                if isinstance(part, tree.Check)
                and _needs_later(binding, part, binding.pieces.get(item.name.text))
            )
        elif isinstance(item, tree.Check) and _needs_later(binding, item, None):
            found.append(("check on what is not drafted", item))
    if not found:
        return
    counts: dict[str, int] = {}
    for word, _ in found:
        counts[word] = counts.get(word, 0) + 1
    what = ", ".join(f"{count} × {word}" for word, count in counts.items())
    first = found[0][1]
    related = [Related(node.span, word) for word, node in found[1:]]
    binding.messages.add(says.LATER, at=_first_line(first), related=related, what=what)


def _first_line(node: tree.Node) -> Span:
    """The first line of a statement: the rest of a long one says no more."""
    span = node.span
    end = span.start + len(span.text.split("\n", 1)[0].rstrip())
    return span.source.span(span.start, end)
