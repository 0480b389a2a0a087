"""Dotted names turned into references: which point, line or piece is meant, or a message saying why none is.

Takes a Ref as written and the piece it stands in. A name is looked for in the file that the Ref is written in, and in
a block among its arguments first.
"""

from __future__ import annotations

from collections.abc import Mapping

from drafting.model.item_words import ITEM_KINDS
from drafting.model.pattern import BoundStretch, LineRef, Measured, PointRef
from drafting.model.published import PublishedSizes
from drafting.model.scope import (
    BAND_CORNERS,
    BOX_CORNERS,
    BROUGHT,
    PieceText,
    Scope,
    Symbol,
    say_not_brought,
)
from drafting.records import dataclass, field
from drafting.syntax import tree
from drafting.syntax.tables import presume_tables
from drafting.text.catalogue import model as says
from drafting.text.messages import Messages, did_you_mean
from drafting.text.quantities import Kind
from drafting.text.source import Span

LINE_PARTS = ("start", "mid", "end")
RING_PARTS = ("top", "bottom", "left", "right", "centre")
CENTERED = ("slot", "hole", "row", "label", "stamp", "mark", "notch", "opening")
LINE_KINDS = (
    "run",
    "guide",
    "outline",
    "opening",
    "crease",
    "fold",
    "slit",
    "stitch",
    "skive",
    "glue",
    "turn",
    "slot",
    "stamp",
    "label",
    "mark",
    "notch",
)


@dataclass
class Binding:
    """What binding works with: the scope, the messages, and what it has found out so far."""

    scope: Scope
    messages: Messages
    published: PublishedSizes = field(default_factory=dict)
    """What a content may be named from."""
    kinds: dict[str, Kind | None] = field(default_factory=dict)
    """Kinds of measures by key, as far as known; None for faulty ones."""
    measured: dict[str, Measured] = field(default_factory=dict)
    in_work: list[str] = field(default_factory=list)
    step_counts: dict[str, int] = field(default_factory=dict)
    faulty_pieces: set[str] = field(default_factory=set)
    """Pieces with a fault in a statement that they copy, which is told where it is copied from."""
    quiet: list[Span] = field(default_factory=list)
    """Where something leans on what is faulty and already told: nothing is said, and nothing can be drafted of it."""

    argument_kinds: dict[str, Kind] = field(default_factory=dict)
    """Kinds of the arguments of blocks by key, as far as their defaults and their use tell."""
    is_learning: bool = False
    """Whether the kinds of a block's arguments are being found out: where a clause asks for a kind, it is kept."""
    tied: set[str] = field(default_factory=set)
    """Keys of the amounts of used files that hang on pieces of those files."""

    @property
    def pieces(self) -> Mapping[str, PieceText]:
        return self.scope.pieces

    def home(self, at: Span) -> Scope:
        """The file that something is written in."""
        return self.scope.opened.get(at.source, self.scope)

    def names(self, at: Span) -> Mapping[str, Symbol]:
        """The names of the file that something is written in."""
        return self.home(at).names

    def local(self, piece: PieceText | None, name: str, at: Span) -> Symbol | None:
        """What a bare name means in a piece: the argument of the block that it is written in, else what the piece has.

        Outside its block an argument gives way to a name of the file; so does a measure from another file, and in
        a block of another file all that the piece adds.
        """
        if piece is None:
            return None
        for layer in piece.layers:
            if name in layer.table and layer.block.span.covers(at):
                return layer.table[name]
        symbol = piece.table.get(name)
        if symbol is None or name not in self.names(at):
            return symbol
        is_foreign = symbol.span.source is not at.source
        is_amount = symbol.kind in ("measure", "find")
        gives_way = symbol.argument or (is_foreign and (is_amount or self.home(at) is not self.scope))
        return None if gives_way else symbol

    def piece_named(self, name: str, at: Span) -> PieceText | None:
        """A piece by its name; a block, and a used file, see none."""
        home = self.home(at)
        return None if home is not self.scope or home.is_in_block(at) else self.pieces.get(name)

    def text_of(self, name: str) -> PieceText:
        """The piece of that name, or the block while it is judged by itself."""
        return self.pieces[name] if name in self.pieces else self.scope.blocks[name]

    def brought(self, ref: tree.Ref) -> Symbol | None:
        """The measure, stock or punch that `s.width` means, where `s` is a used file."""
        home = self.home(ref.span)
        used = home.used.get(ref.parts[0]) if len(ref.parts) > 1 else None
        symbol = used.names.get(ref.parts[1]) if used else None
        return symbol if symbol and symbol.kind in ("measure", "stock", "punch") else None


@dataclass(frozen=True)
class Found:
    """A symbol of a piece, and what follows its name."""

    piece: PieceText
    symbol: Symbol
    twin: bool
    rest: tuple[str, ...]


def find(binding: Binding, ref: tree.Ref, piece: PieceText | None, what: str) -> Found | None:
    """The thing of a piece that a dotted name begins with; a message if there is none."""
    owner, parts = _owner(binding, ref, piece)
    if owner is None:
        _say_unknown(binding, ref, parts[0], piece, what)
        return None
    if not parts:
        _say_whole_piece(binding, ref, owner, what)
        return None
    base = parts[0].rstrip("'")
    symbol = binding.local(owner, base, ref.span) if owner is piece else owner.table.get(base)
    if symbol is None:
        _say_unknown(binding, ref, parts[0], owner, what, of_piece=owner is not piece)
        return None
    twin = parts[0].endswith("'")
    if twin and owner.mirror is None and not owner.is_block:
        binding.messages.add(says.NOT_MIRRORED, at=ref.span, name=ref.text, piece=owner.name)
        return None
    if symbol.is_unread:
        binding.quiet.append(ref.span)
        return None
    return Found(owner, symbol, twin, parts[1:])


def _owner(
    binding: Binding, ref: tree.Ref, piece: PieceText | None
) -> tuple[PieceText | None, tuple[str, ...]]:
    """The piece a dotted name speaks of, and the parts left after the piece's own name."""
    head = ref.parts[0]
    if binding.local(piece, head.rstrip("'"), ref.span):
        return piece, ref.parts
    named = binding.piece_named(head, ref.span)
    return (named, ref.parts[1:]) if named else (piece, ref.parts)


def _say_unknown(
    binding: Binding, ref: tree.Ref, name: str, piece: PieceText | None, what: str, of_piece: bool = False
) -> None:
    home = binding.home(ref.span)
    taken = home.names.get(name)
    if taken and (taken.is_unread or name in home.faulty):
        binding.quiet.append(ref.span)
    elif taken and not of_piece:
        _say_taken(binding, ref, taken, piece, what)
    elif not of_piece and what == "measure":
        say_unknown_name(binding, ref.span, name, piece, "piece or thing")
    else:
        where = f" in `{piece.name}`" if piece and of_piece else ""
        say_unknown_name(binding, ref.span, name, piece, "thing" if what == "measure" else what, where)


def _say_taken(binding: Binding, ref: tree.Ref, taken: Symbol, piece: PieceText | None, what: str) -> None:
    """A name of the pattern that stands for something else than belongs here."""
    home = binding.home(ref.span)
    if taken.kind == "use":
        say_of_file(binding, ref, what)
    elif taken.kind == "piece" and (home is not binding.scope or home.is_in_block(ref.span)):
        binding.messages.add(says.BLOCK_SEES, at=ref.span, name=taken.name, what=taken.what)
    elif taken.kind == "block" and what == "measure":
        offers = f"`piece one: like {taken.name}(…)`, then `one.width`"
        binding.messages.add(says.NOT_AN_AMOUNT, at=ref.span, name=ref.text, what="a block", offers=offers)
    else:
        _say_other_kind(binding, ref, taken, piece, what)


def say_of_file(binding: Binding, ref: tree.Ref, what: str) -> None:
    """A used file, or something of it, where something else belongs."""
    used = binding.home(ref.span).used.get(ref.parts[0])
    symbol = used.names.get(ref.parts[1]) if used and len(ref.parts) > 1 else None
    if used is None:
        binding.quiet.append(ref.span)
    elif len(ref.parts) == 1:
        named = used.names.items()
        offers = ", ".join(f"`{ref.text}.{name}`" for name, each in named if each.kind in BROUGHT)
        wanted = {"measure": "an amount", "line": "a line", "point": "a point"}.get(what, f"a {what}")
        binding.messages.add(says.A_FILE, at=ref.span, name=ref.text, what=wanted, offers=offers or "nothing")
    elif symbol is None or symbol.kind not in BROUGHT:
        say_not_brought(binding.messages, ref, used)
    elif what == "measure":
        offers = f"`piece one: like {ref.text}(…)`, then `one.width`"
        binding.messages.add(says.NOT_AN_AMOUNT, at=ref.span, name=ref.text, what=symbol.what, offers=offers)
    else:
        _say_other_kind(binding, ref, symbol, None, what)


MENDS = {
    "point": "Add it: `point {name}: {place}`.",
    "line": "Name a run, a guide, a feature or `outline`.",
    "measure": "Add it: `measure {name} = 12 mm`.",
    "stock": "Add it: `stock {name}: leather; 1.8 mm thick`.",
    "corner": "Name a point that the outline goes to.",
    "piece": "Add it: `piece {name}: cut 1 from body`.",
    "thing": "Name something of that piece.",
    "piece, stock or the like": "Name a piece, a stock, a thread, a hardware or a content.",
    "piece or thing": "Name a piece, or something of this one.",
}
KINDS = {
    "point": ("point", "points", "cut corner", "outline corner", *CENTERED),
    "line": LINE_KINDS,
    "measure": ("measure", "find", "punch"),
    "stock": ("stock",),
    "corner": ("point", "cut corner", "outline corner"),
    "piece": ("piece",),
    "piece, stock or the like": ("piece", *ITEM_KINDS),
}


def say_unknown_name(
    binding: Binding, at: Span, name: str, piece: PieceText | None, what: str, where: str = ""
) -> None:
    """There is no such name; the nearest of the same kind is offered, or how to add it. A word of the language that
    stands for a name is told by the reader of the text."""
    if name.rstrip("'") in presume_tables().reserved or _may_be_unread(binding, piece, what):
        binding.quiet.append(at)
        return
    known = {**binding.names(at), **(piece.table if piece else {})}
    kinds = KINDS.get(what)
    offers = [each for each, symbol in known.items() if kinds is None or symbol.kind in kinds]
    where_at = "at (40 mm, 25 mm)" if piece and _has_base(piece) else "at (0, 0)"
    mend = did_you_mean(name, offers).strip() or MENDS[what].format(name=name.rstrip("'"), place=where_at)
    owner = piece.lineage[-1] if piece else ""
    if what == "measure" and any(symbol.kind == "punch" for symbol in known.values()):
        what = "measure or punch"
    binding.messages.gather(says.UNKNOWN_NAME, at=at, of=owner, name=name, what=what, where=where, mend=mend)


def _may_be_unread(binding: Binding, piece: PieceText | None, what: str) -> bool:
    """Whether a statement whose name could not be made out may be the one that is asked for."""
    kinds = KINDS.get(what, ())
    lineage = piece.lineage if piece else ()
    return any(
        unread.name is None and unread.kind in kinds and unread.piece in (None, *lineage)
        for unread in binding.scope.file.unread
    )


def _has_base(piece: PieceText) -> bool:
    """Whether a point of a piece has a place of its own already."""
    return any(
        isinstance(clause, tree.AtCoordinates) and clause.origin is None
        for part in piece.parts
        if isinstance(part, tree.PointStatement)
        for clause in part.clauses
    )


def _say_whole_piece(binding: Binding, ref: tree.Ref, owner: PieceText, what: str) -> None:
    """A piece's name where a point, a line or an amount belongs."""
    if what == "measure":
        offers = ", ".join(f"`{ref.text}.{word}`" for word in ("width", "height", "area"))
        binding.messages.add(says.NOT_AN_AMOUNT, at=ref.span, name=ref.text, what="a piece", offers=offers)
    elif what == "line":
        mend = f"Name a line of it, such as `{ref.text}.outline`."
        binding.messages.add(says.NOT_A_LINE, at=ref.span, name=ref.text, what="a piece", mend=mend)
    else:
        point = next((name for name, symbol in owner.table.items() if symbol.kind == "point"), None)
        mend = f"Name a point of it, such as `{ref.text}.{point or 'outline.centre'}`."
        binding.messages.add(says.NOT_A_POINT, at=ref.span, name=ref.text, what="a piece", mend=mend)


def _say_other_kind(
    binding: Binding, ref: tree.Ref, taken: Symbol, piece: PieceText | None, what: str
) -> None:
    """A name of the pattern, such as a measure, where something drawn belongs."""
    if what == "point":
        point = (
            next((name for name, symbol in piece.table.items() if symbol.kind == "point"), None)
            if piece
            else None
        )
        mend = f"Name a point, such as `{point}`." if point else "Name a point."
        binding.messages.add(says.NOT_A_POINT, at=ref.span, name=ref.text, what=taken.what, mend=mend)
    else:
        binding.messages.add(says.NOT_A_LINE, at=ref.span, name=ref.text, what=taken.what, mend=MENDS["line"])


def expect_point(
    binding: Binding, ref: tree.Ref, piece: PieceText | None, shared: PieceText | None = None
) -> PointRef | None:
    """The point a name means. With `shared` it must lie on the sheet of that piece, since it places something."""
    found = find(binding, ref, piece, "point")
    if found is None:
        return None
    part = _point_part(binding, ref, found)
    if part is None:
        return None
    if shared is not None and found.piece.sheet != shared.sheet:
        binding.messages.add(
            says.OTHER_SHEET, at=ref.span, name=ref.text, other=found.piece.name, piece=shared.name
        )
        return None
    name, part_name = part
    return PointRef(found.piece.name, name, found.twin, part_name)


def _point_part(binding: Binding, ref: tree.Ref, found: Found) -> tuple[str, str | None] | None:
    """Name and part of the point that `found` means, or a message."""
    symbol, rest = found.symbol, found.rest
    if symbol.kind in ("point", "cut corner", "outline corner") and not rest:
        return ("outline", symbol.name) if symbol.kind == "outline corner" else (symbol.name, None)
    allowed = point_parts(binding, found)
    if len(rest) == 1 and rest[0] in allowed:
        if symbol.kind == "outline corner":
            return symbol.name, rest[0]
        return symbol.name, rest[0]
    if not rest and symbol.kind in CENTERED and "centre" in allowed:
        return symbol.name, "centre"
    _say_no_point(binding, ref, found, allowed)
    return None


def point_parts(binding: Binding, found: Found) -> tuple[str, ...]:
    """The points a thing has, by the words after its dot."""
    symbol = found.symbol
    match symbol.kind:
        case "point" | "cut corner" | "outline corner":
            return LINE_PARTS if found.piece.rounding(symbol.name) else ()
        case "points":
            return tuple(str(index) for index in range(1, binding.step_counts.get(_list_key(found), 0) + 1))
        case "run":
            return LINE_PARTS
        case (
            "outline"
            | "guide"
            | "opening"
            | "crease"
            | "fold"
            | "slit"
            | "stitch"
            | "skive"
            | "glue"
            | "turn"
            | "slot"
            | "hole"
            | "row"
            | "label"
            | "stamp"
            | "mark"
            | "notch"
        ):
            clauses = getattr(symbol.statement, "clauses", ())
            return shape_point_parts(clauses, symbol.kind)
    return ()


def shape_point_parts(clauses: tuple[tree.AnyClause, ...], kind: str) -> tuple[str, ...]:
    """Which points a shape has: ends of a line, or sides and middle of a ring."""
    box = tuple(BOX_CORNERS) if any(isinstance(clause, tree.BoxShape) for clause in clauses) else ()
    band = tuple(BAND_CORNERS) if any(isinstance(clause, tree.BandShape) for clause in clauses) else ()
    if kind in ("label", "mark", "notch", "hole", "row", "slot", "stamp"):
        return ("centre", *box, *(RING_PARTS[:4] if kind in ("slot", "stamp") else ()))
    if kind in ("outline", "opening", "skive", "glue"):
        return (*RING_PARTS, *box, *band)
    if any(isinstance(clause, tree.BoxShape | tree.RoundShape | tree.BandShape) for clause in clauses):
        return (*RING_PARTS, *box, *band)
    return (*LINE_PARTS, *RING_PARTS)


def _list_key(found: Found) -> str:
    return f"{found.piece.name}/{found.symbol.name}"


def _say_no_point(binding: Binding, ref: tree.Ref, found: Found, allowed: tuple[str, ...]) -> None:
    symbol, rest = found.symbol, found.rest
    if symbol.kind == "points" and _list_key(found) not in binding.step_counts:
        binding.quiet.append(ref.span)
    elif symbol.kind in ("point", "cut corner", "outline corner") and rest and rest[0] in LINE_PARTS:
        binding.messages.add(says.NOT_ROUNDED, at=ref.span, name=symbol.name, part=rest[0])
    elif symbol.kind == "points" and rest and rest[0].isdigit():
        expected = f"{len(allowed)} point{'s' * (len(allowed) != 1)}"
        binding.messages.add(
            says.NOT_IN_LIST,
            at=ref.span,
            name=symbol.name,
            expected=expected,
            part=rest[0],
            last=len(allowed),
        )
    elif rest:
        binding.messages.add(
            says.NO_PROPERTY,
            at=ref.span,
            name=symbol.name,
            what=symbol.what,
            part=".".join(rest),
            offers=", ".join(f"`.{part}`" for part in allowed) or "no points of its own",
            near=did_you_mean(rest[-1], allowed),
        )
    else:
        mend = (
            f"Name one of its points, such as {', '.join(f'`{symbol.name}.{part}`' for part in allowed[:3])}."
            if allowed
            else "Name a point."
        )
        binding.messages.add(says.NOT_A_POINT, at=ref.span, name=ref.text, what=symbol.what, mend=mend)


def expect_line(
    binding: Binding, ref: tree.Ref, piece: PieceText | None, shared: PieceText | None = None
) -> LineRef | None:
    """The line or ring a name means: a run, guide, outline, feature, or a rounded corner."""
    found = find(binding, ref, piece, "line")
    if found is None:
        return None
    symbol = found.symbol
    rounded = symbol.kind in ("point", "cut corner") and found.piece.rounding(symbol.name) is not None
    is_line = (symbol.kind in LINE_KINDS or rounded) and not found.rest
    index = _line_index(found)
    if not (is_line or index):
        binding.messages.add(
            says.NOT_A_LINE, at=ref.span, name=ref.text, what=symbol.what, mend=MENDS["line"]
        )
        return None
    if shared is not None and found.piece.sheet != shared.sheet:
        binding.messages.add(
            says.OTHER_SHEET, at=ref.span, name=ref.text, other=found.piece.name, piece=shared.name
        )
        return None
    return LineRef(found.piece.name, symbol.name, found.twin, index)


def _line_index(found: Found) -> int | None:
    """`seams.3` is the third of a list of lines."""
    clauses = getattr(found.symbol.statement, "clauses", ())
    if not any(isinstance(clause, tree.LinesShape) for clause in clauses):
        return None
    return int(found.rest[0]) if len(found.rest) == 1 and found.rest[0].isdigit() else None


def expect_stretch(
    binding: Binding, stretch: tree.Stretch, piece: PieceText | None, shared: PieceText | None = None
) -> BoundStretch | None:
    start = expect_point(binding, stretch.start, piece, shared)
    end = expect_point(binding, stretch.end, piece, shared)
    return BoundStretch(start, end, stretch.span) if start and end else None


def expect_stitches(
    binding: Binding, ref: tree.Ref, piece: PieceText | None, shared: PieceText | None = None
) -> LineRef | None:
    """The stitch line a name means."""
    found = find(binding, ref, piece, "line")
    if found is None:
        return None
    if found.symbol.kind != "stitch":
        lines = _stitch_lines(binding, found.piece)
        what = found.symbol.what
        binding.messages.add(says.NOT_STITCHED, at=ref.span, name=ref.text, what=what, offers=lines)
        return None
    return expect_line(binding, ref, piece, shared)


def _stitch_lines(binding: Binding, owner: PieceText) -> str:
    names = [f"`{name}`" for name, symbol in owner.table.items() if symbol.kind == "stitch"]
    return f"Stitch lines of `{owner.name}`: {', '.join(names)}." if names else "Write a `stitch` first."
