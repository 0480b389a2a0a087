"""Expressions bound and their kinds checked.

Takes an expression as written and gives a Typed: the bound expression and the kind of amount it is. A fault gives a
message and None, and whatever is built on it stays quiet.
"""

from __future__ import annotations

from fractions import Fraction

from drafting.model.expressions import AngleAt, Applied, Bound, Constant, Distance, Operation, Value
from drafting.model.item_words import ITEM_KINDS, item_words
from drafting.model.pattern import AnyRef, LineRef, Measured, PieceRef, PointRef
from drafting.model.references import (
    Binding,
    Found,
    expect_line,
    expect_point,
    expect_stitches,
    find,
    point_parts,
    say_of_file,
    say_unknown_name,
)
from drafting.model.scope import PieceText, Symbol
from drafting.model.thickness import expect_thick
from drafting.records import dataclass
from drafting.syntax import tree
from drafting.text.catalogue import model as says
from drafting.text.messages import Related, did_you_mean
from drafting.text.quantities import ANGLE, AREA, LENGTH, NUMBER, Kind

PROPERTY_KINDS = {
    "length": LENGTH,
    "width": LENGTH,
    "height": LENGTH,
    "area": AREA,
    "x": LENGTH,
    "y": LENGTH,
    "long": LENGTH,
    "wide": LENGTH,
    "across": LENGTH,
    "apart": LENGTH,
    "holes": NUMBER,
    "stitches": NUMBER,
    "pitch": LENGTH,
    "cut_width": LENGTH,
    "cut_height": LENGTH,
    "cut_area": AREA,
    "count": NUMBER,
    "allowance": LENGTH,
}
PIECE_WORDS = ("width", "height", "area", "cut_width", "cut_height", "cut_area")
"""What can be read off a whole piece: as it is finished, and as it is cut."""
LARGEST = 10**9
"""A thousand kilometers: no amount in a pattern is more, whatever its kind."""
EXAMPLES = {LENGTH: "12 mm", ANGLE: "30 deg", NUMBER: "7", AREA: "front.area"}


@dataclass(frozen=True)
class Typed:
    """A bound expression with its kind; a bare `0` goes with every kind."""

    bound: Bound
    kind: Kind

    @property
    def is_zero(self) -> bool:
        return isinstance(self.bound, Constant) and self.bound.value == 0 and self.kind == NUMBER


def bind_kind(
    binding: Binding, node: tree.Expression, piece: PieceText | None, wanted: Kind, context: tree.Node
) -> Bound | None:
    """An expression that must be of one kind; `context` is the clause, for the message about a bare number."""
    if binding.is_learning:
        learn(binding, node, piece, wanted)
    typed = bind(binding, node, piece)
    return _of_kind(binding, node, typed, wanted, context, piece) if typed else None


def bind_lengths(
    binding: Binding, nodes: list[tree.Expression], piece: PieceText, context: tree.Node
) -> list[Bound] | None:
    """Lengths in a row, lists spelled out; None where one is faulty, and every fault among them is told."""
    bounds = [
        _of_kind(binding, node, typed, LENGTH, context, piece)
        for node in nodes
        for typed in bind_amounts(binding, [node], piece) or (None,)
    ]
    found = [bound for bound in bounds if bound is not None]
    return found if len(found) == len(bounds) else None


def _of_kind(
    binding: Binding,
    node: tree.Expression,
    typed: Typed | None,
    wanted: Kind,
    context: tree.Node,
    piece: PieceText | None,
) -> Bound | None:
    """The bound expression if it is of the kind that belongs here; a message if not."""
    if typed is None:
        return None
    if typed.kind == wanted or typed.is_zero:
        return typed.bound
    if typed.kind == NUMBER and _is_bare(node) and wanted in (LENGTH, ANGLE):
        entry = says.BARE_NUMBER if wanted == LENGTH else says.BARE_ANGLE
        binding.messages.add(entry, at=node.span, text=_excerpt(context), number=_excerpt(node))
        return None
    is_number = typed.kind == NUMBER and wanted in (LENGTH, ANGLE)
    if is_number and _told_of_bare_measure(binding, node, piece, wanted):
        return None
    binding.messages.add(
        says.WRONG_KIND,
        at=node.span,
        text=node.span.text,
        kind=typed.kind.name,
        wanted=wanted.name,
        example=EXAMPLES.get(wanted, "12 mm"),
    )
    return None


def _told_of_bare_measure(
    binding: Binding, node: tree.Expression, piece: PieceText | None, wanted: Kind
) -> bool:
    """A measure that is a bare number, where a length is asked of it: its own line is at fault, wherever it is used."""
    if not isinstance(node, tree.Ref) or len(node.parts) != 1:
        return False
    symbol = (piece.table.get(node.text) if piece else None) or binding.scope.names.get(node.text)
    statement = symbol.statement if symbol else None
    if (
        not isinstance(statement, tree.Measure)
        or len(statement.values) != 1
        or not _is_bare(statement.values[0])
    ):
        return False
    number = _excerpt(statement.values[0])
    binding.messages.add(
        says.BARE_MEASURE,
        at=statement.values[0].span,
        related=[Related(node.span, f"{wanted.name} belongs here")],
        name=node.text,
        number=number,
        wanted=wanted.name,
        unit="mm" if wanted == LENGTH else "deg",
    )
    return True


def _is_bare(node: tree.Node) -> bool:
    """A number without a unit, also as a fraction such as `1/2`."""
    if isinstance(node, tree.Binary) and node.operator == "/":
        return isinstance(node.left, tree.Amount) and isinstance(node.right, tree.Amount)
    return isinstance(node, tree.Amount)


def _excerpt(context: tree.Node) -> str:
    """A clause in one line, for quoting."""
    return " ".join(context.span.text.split())


def bind(binding: Binding, node: tree.Expression, piece: PieceText | None) -> Typed | None:
    match node:
        case tree.Amount(quantity=quantity):
            if quantity.value > LARGEST:
                binding.messages.add(says.TOO_LARGE, at=node.span, text=_excerpt(node))
                return None
            return Typed(Constant(quantity.value), quantity.kind)
        case tree.Negative(of=of):
            typed = bind(binding, of, piece)
            return Typed(Operation("-", Constant(Fraction(0)), typed.bound), typed.kind) if typed else None
        case tree.Binary():
            return _bind_binary(binding, node, piece)
        case tree.Stretch(start=start, end=end):
            return _bind_stretch(binding, start, end, piece)
        case tree.AngleOf():
            return _bind_angle(binding, node, piece)
        case tree.Call():
            return _bind_call(binding, node, piece)
        case tree.Ref():
            return _bind_ref(binding, node, piece)


def _bind_binary(binding: Binding, node: tree.Binary, piece: PieceText | None) -> Typed | None:
    if _is_hyphen(binding, node, piece):
        return None
    left, right = bind(binding, node.left, piece), bind(binding, node.right, piece)
    if left is None or right is None:
        return None
    if node.operator == "/":
        mend = _at_least(node.right, _ONE_OF.get(right.kind, ""))
        return Typed(Operation("/", left.bound, right.bound, mend), left.kind / right.kind)
    bound = Operation(node.operator, left.bound, right.bound)
    if node.operator == "*":
        return Typed(bound, left.kind * right.kind)
    if left.is_zero:
        return Typed(bound, right.kind)
    if right.is_zero or left.kind == right.kind:
        return Typed(bound, left.kind)
    _say_mixed(binding, node, node.left, left, node.right, right)
    return None


_ONE_OF = {NUMBER: "1", LENGTH: "1 mm", ANGLE: "1 deg"}


def _at_least(node: tree.Expression, least: str) -> str:
    """What keeps an amount at some least value, to be typed; nothing for an area, which has no unit of its own."""
    text = _excerpt(node)
    return f"Write `max({text}, {least})` in place of `{text}`, or change" if least else ""


def _say_mixed(
    binding: Binding, at: tree.Node, left_node: tree.Node, left: Typed, right_node: tree.Node, right: Typed
) -> None:
    """Two kinds side by side; a bare number beside a length is most likely a forgotten unit."""
    for node, typed, other in ((left_node, left, right), (right_node, right, left)):
        if _is_bare(node) and typed.kind == NUMBER and other.kind in (LENGTH, ANGLE):
            entry = says.BARE_NUMBER if other.kind == LENGTH else says.BARE_ANGLE
            binding.messages.add(entry, at=node.span, text=_excerpt(at), number=_excerpt(node))
            return
    binding.messages.add(
        says.MIXED_KINDS,
        at=at.span,
        left=left_node.span.text,
        left_kind=left.kind.name,
        right=right_node.span.text,
        right_kind=right.kind.name,
    )


def compare_kinds(
    binding: Binding, at: tree.Node, left: tree.Expression, right: tree.Expression, piece: PieceText | None
) -> tuple[Bound, Bound, Kind] | None:
    """Two sides of a `hold` or a `check`: both bound, of one kind."""
    bound_left, bound_right = bind(binding, left, piece), bind(binding, right, piece)
    if bound_left is None or bound_right is None:
        if binding.is_learning:
            _learn_side(binding, left, bound_right, piece)
            _learn_side(binding, right, bound_left, piece)
        return None
    if bound_left.kind != bound_right.kind and not bound_left.is_zero and not bound_right.is_zero:
        _say_mixed(binding, at, left, bound_left, right, bound_right)
        return None
    kind = bound_right.kind if bound_left.is_zero else bound_left.kind
    return bound_left.bound, bound_right.bound, kind


def _is_hyphen(binding: Binding, node: tree.Binary, piece: PieceText | None) -> bool:
    """`turn-back` written for `turn_back`: told apart by the missing blanks and the name that is known."""
    left, right = node.left, node.right
    if node.operator != "-" or not isinstance(left, tree.Ref) or not isinstance(right, tree.Ref):
        return False
    if len(left.parts) != 1 or len(right.parts) != 1:
        return False
    known = binding.home(node.span).known(piece)
    joined = f"{left.text}_{right.text}"
    if (left.text in known and right.text in known) or joined not in known:
        return False
    symbol = binding.local(piece, joined, node.span) or binding.names(node.span)[joined]
    if "-" in symbol.span.text:  # told where it got its name
        binding.quiet.append(node.span)
    else:
        binding.messages.add(says.HYPHEN, at=node.span, left=left.text, right=right.text, joined=joined)
    return True


def _bind_stretch(binding: Binding, start: tree.Ref, end: tree.Ref, piece: PieceText | None) -> Typed | None:
    first, last = expect_point(binding, start, piece), expect_point(binding, end, piece)
    if first is None or last is None or not _one_sheet(binding, start, first, end, last):
        return None
    return Typed(Distance(first.key, last.key), LENGTH)


def _one_sheet(binding: Binding, start: tree.Ref, first: PointRef, end: tree.Ref, last: PointRef) -> bool:
    """A distance can only be taken between points of one sheet."""
    one, other = binding.text_of(first.piece), binding.text_of(last.piece)
    if one.sheet == other.sheet:
        return True
    binding.messages.add(says.OTHER_SHEET, at=end.span, name=end.text, other=other.name, piece=one.name)
    return False


def _bind_angle(binding: Binding, node: tree.AngleOf, piece: PieceText | None) -> Typed | None:
    points = [expect_point(binding, ref, piece) for ref in (node.start, node.vertex, node.end)]
    start, vertex, end = points
    if start is None or vertex is None or end is None:
        return None
    return Typed(AngleAt(start.key, vertex.key, end.key), ANGLE)


# The kinds of a block's arguments, as its clauses ask for them


def learn(binding: Binding, node: tree.Expression, piece: PieceText | None, wanted: Kind) -> None:
    """Keep the kind that an argument must have for an expression to be of a kind."""
    match node:
        case tree.Ref():
            _learn_name(binding, node, piece, wanted)
        case tree.Negative(of=of):
            learn(binding, of, piece, wanted)
        case tree.Binary(operator="+" | "-", left=left, right=right):
            learn(binding, left, piece, wanted)
            learn(binding, right, piece, wanted)
        case tree.Binary(operator=operator, left=left, right=right):
            _learn_factor(binding, (operator, left, right), piece, wanted)
        case tree.Call(function=tree.Name(text="min" | "max"), arguments=arguments):
            for argument in arguments:
                learn(binding, argument.value, piece, wanted)
        case tree.Call(function=tree.Name(text="sqrt"), arguments=(tree.Argument(value=value),)):
            learn(binding, value, piece, wanted * wanted)


def _learn_name(binding: Binding, node: tree.Ref, piece: PieceText | None, wanted: Kind) -> None:
    symbol = binding.local(piece, node.parts[0], node.span)
    if symbol is None or len(node.parts) > 1 or symbol.kind != "measure":
        return
    key = symbol.prefix + symbol.name
    statement = symbol.statement
    if symbol.argument and isinstance(statement, tree.Parameter):
        binding.argument_kinds.setdefault(key, wanted)
    elif isinstance(statement, tree.Measure) and key not in binding.in_work:
        binding.in_work.append(key)
        for value in statement.values:
            learn(binding, value, piece, wanted)
        binding.in_work.pop()


def _learn_factor(
    binding: Binding,
    parts: tuple[str, tree.Expression, tree.Expression],
    piece: PieceText | None,
    wanted: Kind,
) -> None:
    """Of a product or a quotient the side that is not known, from the one that is."""
    operator, left, right = parts
    if operator == "*" and left == right:
        learn(binding, left, piece, wanted.root())
        return
    one, other = bind(binding, left, piece), bind(binding, right, piece)
    if other is not None and one is None:
        learn(binding, left, piece, wanted / other.kind if operator == "*" else wanted * other.kind)
    if one is not None and other is None:
        learn(binding, right, piece, wanted / one.kind if operator == "*" else one.kind / wanted)


def _learn_side(
    binding: Binding, node: tree.Expression, other: Typed | None, piece: PieceText | None
) -> None:
    if other is not None and not other.is_zero:
        learn(binding, node, piece, other.kind)


# Names


def _bind_ref(binding: Binding, node: tree.Ref, piece: PieceText | None) -> Typed | None:
    local = binding.local(piece, node.parts[0], node.span)
    owner = binding.piece_named(node.parts[0], node.span)
    if local is None and len(node.parts) > 1 and owner:
        inner = owner.table.get(node.parts[1])
        if inner and inner.kind in ("measure", "find"):
            return _bind_measure(binding, tree.Ref(node.span, node.parts[1:]), inner, owner)
    symbol = local or binding.names(node.span).get(node.parts[0])
    if symbol and symbol.is_unread:
        binding.quiet.append(node.span)
        return None
    if symbol and symbol.kind in ("measure", "find"):
        return _bind_measure(binding, node, symbol, piece if local else None)
    if symbol and symbol.kind in ITEM_KINDS:
        return _bind_item(binding, node, symbol)
    brought = binding.brought(node) if symbol and symbol.kind == "use" else None
    if brought:
        inner_node = tree.Ref(node.span, node.parts[1:])
        is_measure = brought.kind == "measure"
        return (_bind_measure if is_measure else _bind_brought_item)(binding, inner_node, brought, None)
    if symbol and symbol.kind == "use":
        say_of_file(binding, node, "measure")
        return None
    if len(node.parts) == 1 and not (symbol or owner):
        say_unknown_name(binding, node.span, node.text, piece, "measure")
        return None
    return _bind_property(binding, node, piece)


def _bind_brought_item(
    binding: Binding, node: tree.Ref, symbol: Symbol, piece: PieceText | None
) -> Typed | None:
    return _bind_item(binding, node, symbol)


def _bind_measure(binding: Binding, node: tree.Ref, symbol: Symbol, piece: PieceText | None) -> Typed | None:
    key = measure_key(symbol, piece)
    count = list_length(symbol)
    rest = node.parts[1:]
    if count == 1 and not rest:
        return _known_measure(binding, node, key, symbol, piece)
    if len(rest) == 1 and rest[0].isdigit() and 1 <= int(rest[0]) <= count and count > 1:
        return _known_measure(binding, node, f"{key}.{rest[0]}", symbol, piece)
    if count > 1 and not rest:
        binding.messages.add(says.A_LIST, at=node.span, name=node.text, count=count)
    elif count > 1 and rest[0].isdigit():
        binding.messages.add(
            says.NOT_IN_LIST,
            at=node.span,
            name=symbol.name,
            expected=f"{count} amounts",
            part=rest[0],
            last=count,
        )
    else:
        binding.messages.add(
            says.NO_PROPERTY,
            at=node.span,
            name=symbol.name,
            what=symbol.what,
            part=".".join(rest),
            offers="only its amount",
            near="",
        )
    return None


def _known_measure(
    binding: Binding, node: tree.Ref, key: str, symbol: Symbol, piece: PieceText | None
) -> Typed | None:
    """The value of a measure, or nothing where the measure itself is faulty, which is told at its own place."""
    kind = kind_of_measure(binding, symbol, piece)
    if kind is None:
        binding.quiet.append(node.span)
        return None
    return _untied(binding, node, key, kind)


def _untied(binding: Binding, node: tree.Ref, key: str, kind: Kind) -> Typed | None:
    """An amount by its key; not one of a used file that hangs on pieces there."""
    if key not in binding.tied:
        return Typed(Value(key), kind)
    file = next(home for home in binding.scope.opened.values() if key.startswith(home.prefix or " "))
    binding.messages.add(says.TIED_TO_PIECES, at=node.span, name=node.span.text, file=file.file.source.name)
    return None


def measure_key(symbol: Symbol, piece: PieceText | None) -> str:
    key = symbol.prefix + symbol.name
    return f"{piece.name}/{key}" if piece else key


def list_length(symbol: Symbol) -> int:
    """How many amounts a measure holds, alike in every size."""
    statement = symbol.statement
    return len(statement.values) if isinstance(statement, tree.Measure) else 1


def kind_of_measure(binding: Binding, symbol: Symbol, piece: PieceText | None) -> Kind | None:
    """The kind of a measure, worked out from its formula when first asked; a circle of measures is a fault."""
    key = measure_key(symbol, piece)
    if key in binding.kinds:
        return binding.kinds[key]
    if key in binding.in_work:
        cycle = [*binding.in_work[binding.in_work.index(key) :], key]
        binding.messages.add(
            says.MEASURE_CYCLE, at=symbol.span, cycle=" → ".join(f"`{name.split('/')[-1]}`" for name in cycle)
        )
        binding.kinds[key] = None
        return None
    if symbol.argument and symbol.prefix + symbol.name in binding.argument_kinds:
        return binding.argument_kinds[symbol.prefix + symbol.name]
    statement = symbol.statement
    if isinstance(statement, tree.Parameter):
        return None
    if not isinstance(statement, tree.Find | tree.Measure):
        raise AssertionError("only measures have a kind")
    binding.in_work.append(key)
    first = statement.low if isinstance(statement, tree.Find) else statement.values[0]
    typed = bind(binding, first, seen_by(piece, symbol))
    binding.in_work.pop()
    if binding.is_learning and typed is None:
        return None
    if key not in binding.kinds:
        binding.kinds[key] = _settled_kind(typed, statement, binding, piece)
    return binding.kinds[key]


def seen_by(piece: PieceText | None, symbol: Symbol) -> PieceText | None:
    """The piece as the amount of a measure sees it: what is given to a block does not see the block's arguments."""
    return piece.before_arguments if piece and symbol.argument == "given" else piece


def _settled_kind(
    typed: Typed | None, statement: tree.Node | None, binding: Binding, piece: PieceText | None
) -> Kind | None:
    """A `find` from a bare 0 up takes the kind of its upper end. A measure must be of the kind of its range; a bare 0
    takes it."""
    if typed and typed.is_zero and isinstance(statement, tree.Find):
        upper = bind(binding, statement.high, piece)
        return upper.kind if upper else None
    if typed is None or not isinstance(statement, tree.Measure):
        return typed.kind if typed else None
    ends = [bind(binding, end, piece) for end in (statement.low, statement.high) if end is not None]
    kinds = {end.kind for end in ends if end and not end.is_zero}
    if len(kinds) != 1 or kinds <= {typed.kind, NUMBER}:
        return typed.kind
    (kind,) = kinds
    if typed.is_zero:
        return kind
    at, name = statement.name.span, statement.name.text
    binding.messages.add(says.RANGE_KIND, at=at, name=name, kind=typed.kind.name, range_kind=kind.name)
    return None


def _bind_item(binding: Binding, node: tree.Ref, symbol: Symbol) -> Typed | None:
    """`body.thick`, `buckle.inside`, `card.width`; a punch stands for its size by its bare name."""
    rest = node.parts[1:] or (("across",) if symbol.kind == "punch" else ())
    words = item_words(symbol.statement, binding.published)
    if len(rest) == 1 and rest[0] in words:
        return _untied(binding, node, f"{symbol.prefix}{symbol.name}.{rest[0]}", words[rest[0]])
    if not rest:
        asked = ", ".join(f"`{symbol.name}.{word}`" for word in words)
        binding.messages.add(says.NOT_AN_AMOUNT, at=node.span, name=node.text, what=symbol.what, offers=asked)
        return None
    part = ".".join(rest)
    if isinstance(symbol.statement, tree.Content) and part in ("width", "height", "thick", "stack"):
        _say_of_content(binding, node, symbol.statement, part)
        return None
    binding.messages.add(
        says.NO_PROPERTY,
        at=node.span,
        name=symbol.name,
        what=symbol.what,
        part=part,
        offers=", ".join(f"`.{word}`" for word in words),
        near=did_you_mean(part, words),
    )
    return None


def _say_of_content(binding: Binding, node: tree.Ref, content: tree.Content, part: str) -> None:
    """What a named content lacks to have a width or a thickness; of a name that is not in the table nothing more."""
    size, name = content.size, content.name.text
    if isinstance(size, tree.Published) and size.name not in binding.published:
        binding.quiet.append(node.span)
    elif part in ("width", "height"):
        binding.messages.add(says.CONTENT_LIES, at=node.span, name=name, part=part)
    else:
        binding.messages.add(says.CONTENT_THICK, at=node.span, name=name)


# Properties of things placed


def _bind_property(binding: Binding, node: tree.Ref, piece: PieceText | None) -> Typed | None:
    """`back.rim.length`: the last part is what is read off, the rest is what it is read off."""
    whole = _whole_piece(binding, node, piece)
    if whole:
        return _measured(binding, node.parts[-1], (whole,))
    if len(node.parts) == 1:
        found = find(binding, node, piece, "measure")
        if found:
            _say_no_property(binding, node, found, ())
        return None
    thing = tree.Ref(node.span, node.parts[:-1])
    what = node.parts[-1]
    if what in ("x", "y"):
        point = expect_point(binding, thing, piece)
        return _coordinate(point, what) if point else None
    found = find(binding, thing, piece, "measure")
    if found is None:
        return None
    offers = property_words(binding, found)
    if what not in offers:
        _say_no_property(binding, node, found, offers)
        return None
    if what == "count":
        steps = binding.step_counts.get(f"{found.piece.name}/{found.symbol.name}", 0)
        return Typed(Constant(Fraction(steps)), NUMBER)
    if what == "allowance":
        return _allowance(binding, node, found)
    line = LineRef(
        found.piece.name, found.symbol.name, found.twin, int(found.rest[0]) if found.rest else None
    )
    return _measured(binding, what, (line,))


def _allowance(binding: Binding, node: tree.Ref, found: Found) -> Typed | None:
    """What a fold takes is alike for it, its twin and each of a list, wherever they lie."""
    if not expect_thick(binding, found.piece, node.text, node.span):
        return None
    return _measured(binding, "allowance", (LineRef(found.piece.name, found.symbol.name),))


def _coordinate(point: PointRef, what: str) -> Typed:
    return Typed(Value(f"{point.key}.{what}"), LENGTH)


def _whole_piece(binding: Binding, node: tree.Ref, piece: PieceText | None) -> PieceRef | None:
    """`front.area`: a property of a whole piece."""
    if len(node.parts) != 2 or node.parts[1] not in PIECE_WORDS:
        return None
    if binding.local(piece, node.parts[0], node.span):
        return None
    return PieceRef(node.parts[0]) if binding.piece_named(node.parts[0], node.span) else None


def property_words(binding: Binding, found: Found) -> tuple[str, ...]:
    """What can be read off a thing, by the words after its dot."""
    clauses = getattr(found.symbol.statement, "clauses", ())
    match found.symbol.kind:
        case "slot":
            return ("long", "wide", "length", "width", "height", "area")
        case "hole":
            return ("across", "area", "length")
        case "row":
            return ("long", "across", "apart", "holes")
        case "outline" | "opening" | "skive" | "glue":
            return ("length", "width", "height", "area")
        case "guide" | "crease" | "label" | "stamp":
            across = any(
                isinstance(clause, tree.BoxShape | tree.RoundShape | tree.BandShape | tree.OffsetShape)
                for clause in clauses
            )
            return ("length", "width", "height", *(("area",) if across else ()))
        case "fold":
            return ("allowance", "length", "width", "height")
        case "stitch":
            return ("stitches", "pitch", "holes", "length", "width", "height")
        case "run" | "slit" | "turn":
            return ("length", "width", "height")
        case "points":
            return ("count",)
        case "point" | "cut corner" if found.piece.rounding(found.symbol.name):
            return ("length", "x", "y")
        case "point" | "cut corner" | "outline corner":
            return ("x", "y")
    return ()


def _say_no_property(binding: Binding, node: tree.Ref, found: Found, offers: tuple[str, ...]) -> None:
    if not offers:
        offers = property_words(binding, found)
    words = (*offers, *point_parts(binding, found))
    if len(node.parts) == 1 and offers:
        asked = ", ".join(f"`{found.symbol.name}.{word}`" for word in offers[:3])
        binding.messages.add(
            says.NOT_AN_AMOUNT, at=node.span, name=node.text, what=found.symbol.what, offers=asked
        )
        return
    binding.messages.add(
        says.NO_PROPERTY,
        at=node.span,
        name=found.symbol.name,
        what=found.symbol.what,
        part=node.parts[-1] if len(node.parts) > 1 else "amount",
        offers=", ".join(f"`.{word}`" for word in words) or "nothing to read off",
        near=did_you_mean(node.parts[-1], words),
    )


def _measured(binding: Binding, what: str, of: tuple[AnyRef, ...]) -> Typed:
    reading = Measured(what, of)
    binding.measured[reading.key] = reading
    kind = LENGTH if what == "gap" else PROPERTY_KINDS[what]
    return Typed(Value(reading.key), kind)


# Functions


@dataclass(frozen=True)
class Function:
    """`names` are the arguments by name, with the kind each must have."""

    names: tuple[tuple[str, Kind], ...]
    gives: Kind
    example: str
    also_name: str = ""


FUNCTIONS = {
    "sin": Function((("angle", ANGLE),), NUMBER, "sin(30 deg)"),
    "cos": Function((("angle", ANGLE),), NUMBER, "cos(30 deg)"),
    "tan": Function((("angle", ANGLE),), NUMBER, "tan(30 deg)"),
    "bend": Function(
        (("turn", ANGLE), ("round", LENGTH), ("thick", LENGTH)),
        LENGTH,
        "bend(turn = 180 deg, round = 3 mm, thick = 1.4 mm)",
    ),
    "loop": Function(
        (("wide", LENGTH), ("stack", LENGTH), ("thick", LENGTH)),
        LENGTH,
        "loop(wide = 20 mm, stack = 5 mm, thick = 1.2 mm)",
    ),
}
THREAD = Function((("line", NUMBER), ("stack", LENGTH)), LENGTH, "thread(line = back.edge, stack = 3.6 mm)")
"""Its line is no amount, but a stitch line."""
OTHER_FUNCTIONS = ("gap", "max", "min", "sqrt", "sum", "thread")


def _bind_call(binding: Binding, node: tree.Call, piece: PieceText | None) -> Typed | None:
    name = node.function.text
    if name == "gap":
        return _bind_gap(binding, node, piece)
    if name in ("min", "max", "sum", "sqrt"):
        return _bind_plain_call(binding, node, piece)
    if name in FUNCTIONS:
        return _bind_named_call(binding, node, FUNCTIONS[name], piece)
    if name == "thread":
        return _bind_thread(binding, node, piece)
    known = (*FUNCTIONS, *OTHER_FUNCTIONS)
    binding.messages.add(
        says.NO_FUNCTION,
        at=node.function.span,
        name=name,
        offers=", ".join(f"`{word}`" for word in sorted(known)),
        near=did_you_mean(name, known),
    )
    return None


def _bind_plain_call(binding: Binding, node: tree.Call, piece: PieceText | None) -> Typed | None:
    """min, max and sum of amounts of one kind, lists among them; the root of one amount."""
    name = node.function.text
    given = [(argument.value, bind_amounts(binding, [argument.value], piece)) for argument in node.arguments]
    amounts = [(value, typed) for value, each in given for typed in each or ()]
    if any(each is None for _, each in given):
        return None
    if (name == "sqrt" and len(amounts) != 1) or any(argument.name for argument in node.arguments):
        one = name == "sqrt"
        binding.messages.add(
            says.ARGUMENTS,
            at=node.span,
            function=name,
            takes="one amount" if one else "amounts without names",
            given=_given_words(node) if not one or len(amounts) == 1 else str(len(amounts)),
            example="sqrt(w*w + h*h)" if one else f"{name}(12 mm, rim)",
        )
        return None
    told = [(value, typed) for value, typed in amounts if not typed.is_zero]
    for value, typed in told:
        if typed.kind != told[0][1].kind:
            _say_mixed(binding, node, *told[0], value, typed)
            return None
    kind = told[0][1].kind if told else NUMBER
    mend = _at_least(amounts[0][0], "0") if name == "sqrt" else ""
    bound = Applied(name, tuple(typed.bound for _, typed in amounts), mend)
    return Typed(bound, kind.root() if name == "sqrt" else kind)


def bind_amounts(
    binding: Binding, nodes: list[tree.Expression], piece: PieceText | None
) -> list[Typed] | None:
    """Amounts in a row, with every list measure spelled out into its amounts. Every fault among them is told."""
    spelled = [_spelled_amount(binding, node, piece) for node in nodes]
    if any(each is None for each in spelled):
        return None
    return [typed for each in spelled for typed in each or ()]


def _spelled_amount(binding: Binding, node: tree.Expression, piece: PieceText | None) -> list[Typed] | None:
    listed = _spelled_list(binding, node, piece)
    if listed is not None:
        return listed
    one = bind(binding, node, piece)
    return None if one is None else [one]


def list_named(
    binding: Binding, node: tree.Ref, piece: PieceText | None
) -> tuple[Symbol | None, PieceText | None]:
    """The measure that `widths` or `s.widths` means, and the piece it belongs to."""
    if len(node.parts) == 2:
        return binding.brought(node), None
    local = binding.local(piece, node.text, node.span)
    return (local, piece) if local else (binding.names(node.span).get(node.text), None)


def _spelled_list(binding: Binding, node: tree.Expression, piece: PieceText | None) -> list[Typed] | None:
    if not isinstance(node, tree.Ref) or len(node.parts) > 2:
        return None
    symbol, owner = list_named(binding, node, piece)
    if symbol is None or symbol.kind != "measure":
        return None
    count = list_length(symbol)
    kind = kind_of_measure(binding, symbol, owner)
    if count == 1 or kind is None:
        return None
    key = measure_key(symbol, owner)
    return [Typed(Value(f"{key}.{index}"), kind) for index in range(1, count + 1)]


def _bind_named_call(
    binding: Binding, node: tree.Call, function: Function, piece: PieceText | None
) -> Typed | None:
    """A function with fixed arguments, given by name or in order."""
    given = _arrange(node, function)
    if given is None:
        binding.messages.add(
            says.ARGUMENTS,
            at=node.span,
            function=node.function.text,
            takes=", ".join(f"`{name}`" for name, _ in function.names),
            given=_given_words(node),
            example=function.example,
        )
        return None
    bounds = [bind_kind(binding, given[name], piece, kind, node) for name, kind in function.names]
    arguments = tuple(bound for bound in bounds if bound is not None)
    if len(arguments) < len(bounds):
        return None
    if node.function.text == "bend":
        arguments = (*arguments, Constant(Fraction(1, 2)))
    return Typed(Applied(node.function.text, arguments), function.gives)


def _bind_thread(binding: Binding, node: tree.Call, piece: PieceText | None) -> Typed | None:
    """The thread of a stitch line, for the thickness that it sews."""
    given = _arrange(node, THREAD)
    if given is None or not isinstance(given["line"], tree.Ref):
        binding.messages.add(
            says.ARGUMENTS,
            at=node.span,
            function="thread",
            takes="`line`, a stitch line, and `stack`, a thickness",
            given=_given_words(node),
            example=THREAD.example,
        )
        return None
    line = expect_stitches(binding, given["line"], piece)
    stack = bind_kind(binding, given["stack"], piece, LENGTH, node)
    if line is None or stack is None:
        return None
    reading = Measured("thread", (line,), stack, node.span)
    binding.measured[reading.key] = reading
    return Typed(Value(reading.key), LENGTH)


def _given_words(node: tree.Call) -> str:
    named = [f"`{argument.name}`" for argument in node.arguments if argument.name]
    unnamed = len(node.arguments) - len(named)
    return ", ".join([*named, *([f"{unnamed} without a name"] if unnamed else [])])


def _arrange(node: tree.Call, function: Function) -> dict[str, tree.Expression] | None:
    names = [name for name, _ in function.names]
    given: dict[str, tree.Expression] = {}
    for index, argument in enumerate(node.arguments):
        name = argument.name or (names[index] if index < len(names) else "")
        if name not in names or name in given:
            return None
        given[name] = argument.value
    return given if len(given) == len(names) else None


def _bind_gap(binding: Binding, node: tree.Call, piece: PieceText | None) -> Typed | None:
    refs = [argument.value for argument in node.arguments if isinstance(argument.value, tree.Ref)]
    if len(refs) != 2 or len(node.arguments) != 2:
        binding.messages.add(
            says.ARGUMENTS,
            at=node.span,
            function="gap",
            takes="two lines",
            given=f"{len(node.arguments)}",
            example="gap(front.view, front.edge)",
        )
        return None
    lines = [_gap_end(binding, ref, piece) for ref in refs]
    first, second = lines
    if first is None or second is None:
        return None
    one, other = binding.text_of(first.piece), binding.text_of(second.piece)
    if one.sheet != other.sheet:
        binding.messages.add(
            says.OTHER_SHEET, at=refs[1].span, name=refs[1].text, other=other.name, piece=one.name
        )
        return None
    return _measured(binding, "gap", (first, second))


def _gap_end(binding: Binding, ref: tree.Ref, piece: PieceText | None) -> LineRef | PointRef | None:
    """A gap is taken to a line, a ring, a hole or a point."""
    found = find(binding, ref, piece, "line")
    if found is None:
        return None
    if found.symbol.kind in ("hole", "row") and not found.rest:
        return LineRef(found.piece.name, found.symbol.name, found.twin)
    if found.symbol.kind in ("point", "points", "cut corner", "outline corner") or found.rest:
        return expect_point(binding, ref, piece)
    return expect_line(binding, ref, piece)
