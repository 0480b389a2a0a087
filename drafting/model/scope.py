"""The names of a pattern: what each stands for, and which statements make up each piece.

Takes the tree of a file; gives a Scope with the pattern's own names and a PieceText for each piece, in which `like`
and `without` are already carried out: a derived piece is the statements it copies and the ones it adds.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from typing import TypeVar

from drafting.syntax import tree
from drafting.text.catalogue import model as says
from drafting.text.messages import Messages, Related, did_you_mean
from drafting.text.source import Span

About = TypeVar("About", bound=tree.Node)

LATER_FEATURES: tuple[str, ...] = ()

BOX_CORNERS = ("top_left", "top_right", "bottom_left", "bottom_right")
BAND_CORNERS = ("near_start", "near_end", "far_start", "far_end")

WHAT_IT_IS = {
    "point": "a point",
    "points": "a list of points",
    "measure": "a measure",
    "find": "an unknown measure",
    "guide": "a guide",
    "run": "a run",
    "outline": "the outline",
    "outline corner": "a corner of the outline",
    "cut corner": "a corner of the outline",
    "opening": "an opening",
    "stock": "a stock",
    "thread": "a thread",
    "hardware": "a piece of hardware",
    "content": "a content",
    "piece": "a piece",
    "block": "a block",
    "use": "a used file",
}


@dataclass(frozen=True)
class Symbol:
    """A name and what it stands for; `kind` is a key of WHAT_IT_IS or a feature's word."""

    name: str
    kind: str
    span: Span = field(compare=False, repr=False)
    statement: tree.Node | None = field(default=None, compare=False, repr=False)

    @property
    def what(self) -> str:
        return WHAT_IT_IS.get(self.kind, f"a {self.kind}")

    @property
    def is_unread(self) -> bool:
        """Written with a slip that is already told: what refers to it stays quiet."""
        return self.kind == "unread"

    @property
    def is_later(self) -> bool:
        return self.kind in LATER_FEATURES


@dataclass
class PieceText:
    """A piece as the sum of what is written for it."""

    name: str
    statement: tree.Piece
    parts: tuple[tree.Part, ...]
    cut: tree.Cut | None
    mirror: tree.MirroredOver | None
    grain: tree.Grain | None
    sheet: str
    table: dict[str, Symbol]
    lineage: tuple[str, ...]
    """Its own name and those of the pieces it copies from, nearest first."""

    @property
    def outline(self) -> tree.Outline | None:
        return next((part for part in self.parts if isinstance(part, tree.Outline)), None)

    @property
    def corners(self) -> tuple[str, ...]:
        """The names of the places that the outline goes to, and of those that cuts make."""
        named: list[str] = []
        for part in self.parts:
            if isinstance(part, tree.Outline):
                named.extend(outline_corners(part.clauses))
                named.extend(name for clause in part.clauses for name in _path_names(clause))
            elif isinstance(part, tree.CutAway):
                named.extend(name.text for name in part.naming)
        return tuple(dict.fromkeys(named))

    def rounding(self, corner: str) -> tree.Fillet | tree.Clip | None:
        """The statement that rounds or clips a corner, if any."""
        for part in self.parts:
            if isinstance(part, tree.Fillet | tree.Clip) and any(
                ref.parts == (corner,) for ref in part.corners
            ):
                return part
        return None


@dataclass
class Scope:
    """All names of one pattern file."""

    file: tree.File
    messages: Messages
    names: dict[str, Symbol] = field(default_factory=dict)
    pieces: dict[str, PieceText] = field(default_factory=dict)
    left_out: dict[str, Span] = field(default_factory=dict)
    """Pieces made from a block, which are read and not drafted."""
    faulty: set[str] = field(default_factory=set)
    """Pieces that could not be put together, which is told: what speaks of them stays quiet."""

    def known(self, piece: PieceText | None) -> list[str]:
        return [*(piece.table if piece else ()), *self.names]


def open_scope(file: tree.File, messages: Messages) -> Scope:
    """Collect the pattern's names, then put each piece together."""
    scope = Scope(file, messages)
    for item in file.items:
        for symbol in _pattern_symbols(item):
            _define(scope.names, symbol, messages, without="")
    for unread in file.unread:
        if unread.name and unread.piece is None:
            scope.names.setdefault(unread.name, Symbol(unread.name, "unread", unread.span, unread))
    for item in file.items:
        if isinstance(item, tree.Piece) and item.name.text not in scope.pieces:
            text = _piece_text(item, scope, ())
            if text:
                scope.pieces[item.name.text] = text
    return scope


def _pattern_symbols(item: tree.Item) -> Iterator[Symbol]:
    named = {
        tree.Measure: "measure",
        tree.Stock: "stock",
        tree.Thread: "thread",
        tree.Hardware: "hardware",
        tree.Content: "content",
        tree.Piece: "piece",
        tree.Block: "block",
    }
    kind = named.get(type(item))
    if kind and isinstance(
        item, tree.Measure | tree.Stock | tree.Thread | tree.Hardware | tree.Content | tree.Piece | tree.Block
    ):
        yield Symbol(item.name.text, kind, item.name.span, item)
    if isinstance(item, tree.Use) and item.as_name:
        yield Symbol(item.as_name.text, "use", item.as_name.span, item)


def _define(table: dict[str, Symbol], symbol: Symbol, messages: Messages, without: str) -> None:
    earlier = table.get(symbol.name)
    if earlier is None:
        table[symbol.name] = symbol
        return
    messages.add(
        says.NAME_TWICE,
        at=symbol.span,
        related=[Related(earlier.span, "here first")],
        name=symbol.name,
        what=earlier.what,
        without=without,
    )


def _piece_text(item: tree.Piece, scope: Scope, trail: tuple[str, ...]) -> PieceText | None:
    """Put a piece together from the piece it is like and its own statements."""
    name = item.name.text
    base: PieceText | None = None
    like = _only(item, tree.Like, "like", scope)
    over = _only(item, tree.Over, "over", scope)
    if like:
        if not _may_copy(item, like, scope):
            return None
        base = _base_of(item, like.piece, "like", scope, (*trail, name))
        if base is None:
            scope.faulty.add(name)
            return None
    sheet = base.sheet if base else name
    if over:
        under = _base_of(item, over.piece, "over", scope, (*trail, name))
        if under is None:
            scope.faulty.add(name)
            return None
        sheet = under.sheet
    without = tuple(entry for about in item.about if isinstance(about, tree.Without) for entry in about.items)
    copied = _without(base, without, scope) if base else ()
    if without and not base:
        for entry in without:
            scope.messages.add(
                says.NOTHING_WITHOUT,
                at=entry.span,
                name=entry.name,
                base=name,
                offers="no `like` piece to copy",
                near="",
            )
    text = PieceText(
        name,
        item,
        (*copied, *item.parts),
        _only(item, tree.Cut, "cut", scope) or (base.cut if base else None),
        _only(item, tree.MirroredOver, "mirrored over", scope) or (base.mirror if base else None),
        _only(item, tree.Grain, "grain", scope) or (base.grain if base else None),
        sheet,
        {},
        (name, *(base.lineage if base else ())),
    )
    _fill_table(text, copied, scope)
    if base:
        left_out = {entry.name for entry in without}
        for unread_name, symbol in base.table.items():
            if symbol.is_unread and unread_name not in left_out:
                text.table.setdefault(unread_name, symbol)
    return text


def _only(item: tree.Piece, kind: type[About], word: str, scope: Scope) -> About | None:
    found = [about for about in item.about if isinstance(about, kind)]
    if len(found) > 1:
        scope.messages.add(says.ONE_TOO_MANY, at=found[1].span, piece=item.name.text, what=word)
    return found[0] if found else None


def _may_copy(item: tree.Piece, like: tree.Like, scope: Scope) -> bool:
    """Blocks are read and not drafted: a piece made from one is left out whole."""
    symbol = scope.names.get(like.piece.parts[0])
    if symbol and symbol.kind in ("block", "use"):
        scope.left_out[item.name.text] = item.name.span
        return False
    if symbol and symbol.kind == "piece" and symbol.name in scope.left_out:
        scope.left_out[item.name.text] = item.name.span
        return False
    return True


def _base_of(
    item: tree.Piece, ref: tree.Ref, how: str, scope: Scope, trail: tuple[str, ...]
) -> PieceText | None:
    wanted = ref.text
    if wanted in scope.faulty:
        return None
    if wanted in trail:
        scope.faulty.update(trail)
        cycle = " → ".join(f"`{name}`" for name in (*trail[trail.index(wanted) :], wanted))
        scope.messages.add(says.LIKE_CYCLE, at=ref.span, cycle=cycle)
        return None
    if wanted in scope.pieces:
        return scope.pieces[wanted]
    symbol = scope.names.get(wanted)
    if symbol and isinstance(symbol.statement, tree.Piece):
        if wanted not in scope.left_out:
            text = _piece_text(symbol.statement, scope, trail)
            if text:
                scope.pieces[wanted] = text
                return text
        if wanted in scope.left_out:
            scope.left_out[item.name.text] = item.name.span
        return None
    pieces = [name for name, known in scope.names.items() if known.kind == "piece" and name != item.name.text]
    offers = ", ".join(f"`{name}`" for name in pieces) or "none yet"
    if symbol:
        scope.messages.add(
            says.BASE_FAULTY, at=ref.span, name=wanted, what=symbol.what, how=how, offers=offers
        )
    else:
        mend = did_you_mean(wanted, pieces).strip() or f"The pieces are {offers}."
        scope.messages.add(says.UNKNOWN_NAME, at=ref.span, name=wanted, what="piece", where="", mend=mend)
    return None


def _without(base: PieceText, items: tuple[tree.WithoutItem, ...], scope: Scope) -> tuple[tree.Part, ...]:
    """The statements of `base` less those named."""
    parts: list[tree.Part] = list(base.parts)
    for item in items:
        kept = [left for part in parts for left in _taken_out(part, item)]
        if kept == parts:
            scope.messages.add(
                says.NOTHING_WITHOUT,
                at=item.span,
                name=("fillet " if item.of_fillet else "") + item.name,
                base=base.name,
                offers=", ".join(f"`{name}`" for name in base.table) or "nothing",
                near=did_you_mean(item.name, base.table),
            )
        parts = kept
    return tuple(parts)


def _taken_out(part: tree.Part, item: tree.WithoutItem) -> list[tree.Part]:
    """What is left of `part` without `item`: itself, nothing, or a fillet of fewer corners."""
    if item.of_fillet:
        if not isinstance(part, tree.Fillet | tree.Clip):
            return [part]
        left = tuple(ref for ref in part.corners if ref.text != item.name)
        if len(left) == len(part.corners):
            return [part]
        return [replace(part, corners=left)] if left else []
    if isinstance(part, tree.Outline):
        return [] if item.name == "outline" else [part]
    name = getattr(part, "name", None)
    return [] if isinstance(name, tree.Name) and name.text == item.name else [part]


def _fill_table(text: PieceText, copied: tuple[tree.Part, ...], scope: Scope) -> None:
    """The piece's own names; a piece may use none of the pattern's again."""
    for part in text.parts:
        for symbol in _part_symbols(part):
            if symbol.name.endswith("'"):
                scope.messages.add(
                    says.TWIN_FACTS, at=symbol.span, name=symbol.name, base=symbol.name.rstrip("'")
                )
                continue
            taken = scope.names.get(symbol.name)
            if taken and part not in copied:
                scope.messages.add(
                    says.PATTERN_NAME,
                    at=symbol.span,
                    related=[Related(taken.span, "the pattern's own")],
                    name=symbol.name,
                    what=taken.what,
                    piece=text.name,
                )
            was_copied = (
                symbol.name in text.table
                and part not in copied
                and any(symbol.name == other.name for copy in copied for other in _part_symbols(copy))
            )
            hint = f", or take the copied one out: `without {symbol.name}`" if was_copied else ""
            _define(text.table, symbol, scope.messages, without=hint)
    for unread in scope.file.unread:
        if unread.piece in text.lineage:
            name = "outline" if unread.kind == "outline" else unread.name
            if name:
                text.table.setdefault(name, Symbol(name, "unread", unread.span, unread))


def _part_symbols(part: tree.Part) -> Iterator[Symbol]:
    match part:
        case tree.PointStatement(name=name):
            yield Symbol(name.text, "point", name.span, part)
        case tree.PointsStatement(name=name):
            yield Symbol(name.text, "points", name.span, part)
        case tree.Guide(name=name):
            yield Symbol(name.text, "guide", name.span, part)
        case tree.Run(name=name):
            yield Symbol(name.text, "run", name.span, part)
        case tree.Measure(name=name):
            yield Symbol(name.text, "measure", name.span, part)
        case tree.Find(name=name):
            yield Symbol(name.text, "find", name.span, part)
        case tree.Feature(kind=kind, name=name):
            yield Symbol(name.text, kind, name.span, part)
        case tree.Outline(clauses=clauses):
            yield Symbol("outline", "outline", part.span, part)
            for corner in outline_corners(clauses):
                yield Symbol(corner, "outline corner", part.span, part)
        case tree.CutAway(naming=naming):
            for name in naming:
                yield Symbol(name.text, "cut corner", name.span, part)
        case _:
            return


def _path_names(clause: tree.AnyClause) -> Iterator[str]:
    """The points that a path goes to or through, by their names; a twin stands for its point."""
    if not isinstance(clause, tree.PathShape):
        return
    refs = [clause.start]
    for leg in clause.legs:
        for bow in leg.bows:
            refs.extend([bow.point] if isinstance(bow, tree.Through) else [])
            refs.extend(bow.through if isinstance(bow, tree.Smooth) else [])
        refs.append(leg.to)
    for ref in refs:
        yield ref.parts[0].rstrip("'") if len(ref.parts) == 1 else ref.text


def outline_corners(clauses: tuple[tree.AnyClause, ...]) -> tuple[str, ...]:
    """The corners that a box or a band gives a name of its own."""
    if any(isinstance(clause, tree.BoxShape) for clause in clauses):
        return BOX_CORNERS
    if any(isinstance(clause, tree.BandShape) for clause in clauses):
        return BAND_CORNERS
    return ()
