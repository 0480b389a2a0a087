"""The names of a pattern: what each stands for, and which statements make up each piece.

Takes the tree of a file; gives a Scope with the pattern's own names and a PieceText for each piece and block, in which
`like` and `without` are already carried out: a derived piece is the statements it copies and the ones it adds. Files
that are used have a Scope of their own; a statement keeps the names of the file it is written in, wherever it is
copied to.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from pathlib import PurePosixPath
from typing import Literal, TypeVar

from drafting.records import dataclass, field, replace
from drafting.syntax import tree
from drafting.syntax.parse import is_name, parse
from drafting.text.catalogue import model as says
from drafting.text.messages import Messages, Related, did_you_mean
from drafting.text.source import Source, Span, UnreadableSource
from drafting.text.used_files import OutOfReach

About = TypeVar("About", bound=tree.Node)
Fetch = Callable[[str, Source], Source]
"""What gives the file that a `use` names; it raises OutOfReach or UnreadableSource."""
DEEPEST_USE = 50
"""How many files may use one another in a row."""
BROUGHT = ("block", "stock", "measure", "punch")
"""What `use` brings of another file."""


NAMED = (
    tree.Measure,
    tree.Stock,
    tree.Thread,
    tree.Punch,
    tree.Hardware,
    tree.Content,
    tree.Piece,
    tree.Block,
)
"""Statements of a file that give a name to something."""
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
    "punch": "a punch",
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
    prefix: str = ""
    """What its key begins with: by which names a used file or a block is reached."""
    argument: Literal["given", "left to the block", ""] = ""
    """Of an argument of a block, who says its amount; such an argument is a measure of its piece."""

    @property
    def what(self) -> str:
        kind = self.statement.kind if isinstance(self.statement, tree.Unread) else self.kind
        return "an argument" if self.argument else WHAT_IT_IS.get(kind, f"a {kind}")

    @property
    def is_unread(self) -> bool:
        """Written with a slip that is already told: what refers to it stays quiet."""
        return self.kind == "unread"


@dataclass(frozen=True)
class Layer:
    """A block that a piece is made from, with its arguments by name."""

    block: tree.Block
    table: Mapping[str, Symbol]


@dataclass
class PieceText:
    """A piece as the sum of what is written for it."""

    name: str
    statement: tree.Piece | tree.Block
    parts: tuple[tree.Part, ...]
    cut: tree.Cut | None
    mirror: tree.MirroredOver | None
    grain: tree.Grain | None
    sheet: str
    table: dict[str, Symbol]
    lineage: tuple[str, ...]
    """Its own name and those of the pieces it copies from, nearest first."""
    layers: tuple[Layer, ...] = ()
    """The blocks it is made from, nearest first."""

    @property
    def is_block(self) -> bool:
        return isinstance(self.statement, tree.Block)

    @property
    def before_arguments(self) -> PieceText:
        """The piece as the amounts of its arguments see it: without the arguments themselves."""
        names = {name for layer in self.layers for name in layer.table}
        own = {
            name: symbol for name, symbol in self.table.items() if name not in names or not symbol.argument
        }
        return replace(self, table=own)

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
    prefix: str = ""
    """By which names the starting file reaches this one: `s.` for what it uses as `s`; nothing for itself."""
    names: dict[str, Symbol] = field(default_factory=dict)
    pieces: dict[str, PieceText] = field(default_factory=dict)
    blocks: dict[str, PieceText] = field(default_factory=dict)
    faulty: set[str] = field(default_factory=set)
    """Pieces and blocks that could not be put together, which is told: what speaks of them stays quiet."""
    used: dict[str, Scope] = field(default_factory=dict)
    """The files that it uses, by the names it gives them."""
    opened: dict[Source, Scope] = field(default_factory=dict)
    """Every file of the run, those that are used before those that use them."""

    def known(self, piece: PieceText | None) -> list[str]:
        return [*(piece.table if piece else ()), *self.names]

    def is_in_block(self, at: Span) -> bool:
        return any(isinstance(item, tree.Block) and item.span.covers(at) for item in self.file.items)


def open_scope(file: tree.File, messages: Messages, fetch: Fetch) -> Scope:
    """The names of a file and of all files it uses; each piece and each block put together."""
    return _open(file, "", _Opening(messages, fetch, {}), ())


@dataclass(frozen=True)
class _Opening:
    messages: Messages
    fetch: Fetch
    opened: dict[Source, Scope]


def _open(file: tree.File, prefix: str, opening: _Opening, trail: tuple[Source, ...]) -> Scope:
    scope = Scope(file, opening.messages, prefix, opened=opening.opened)
    for item in file.items:
        if isinstance(item, tree.Use):
            _use(scope, item, opening, (*trail, file.source))
        for symbol in _pattern_symbols(item, prefix):
            _define(scope.names, symbol, opening.messages, without="")
    for unread in file.unread:
        if unread.name and unread.piece is None:
            scope.names.setdefault(unread.name, Symbol(unread.name, "unread", unread.span, unread))
    for item in file.items:
        if isinstance(item, tree.Piece | tree.Block) and scope.names[item.name.text].statement is item:
            _put_together(item, scope, ())
    opening.opened[file.source] = scope
    return scope


# Files that are used


def _use(scope: Scope, item: tree.Use, opening: _Opening, trail: tuple[Source, ...]) -> None:
    """Open a used file, and give it its name here. Of a file that cannot be used the fault is told, once."""
    alias = _alias(scope, item)
    if alias is None:
        return
    source = _fetched(item, opening, trail)
    kind = "use" if source else "unread"
    _define(scope.names, Symbol(alias.text, kind, alias.span, item), opening.messages, without="")
    if source is None or alias.text in scope.used:
        return
    if source not in opening.opened:
        file, found = parse(source)
        opening.messages.extend(found)
        _open(file, f"{scope.prefix}{alias.text}.", opening, trail)
    scope.used[alias.text] = opening.opened[source]


def _alias(scope: Scope, item: tree.Use) -> tree.Name | None:
    """The name that a used file has here: as said, or as the file is called."""
    if item.as_name:
        return item.as_name
    stem = PurePosixPath(item.path).stem
    if is_name(stem):
        return tree.Name(item.span, stem)
    mended = re.sub(r"\W+", "_", stem).strip("_")
    example = mended if is_name(mended) else "blocks"
    scope.messages.add(says.USE_WITHOUT_NAME, at=item.span, path=item.path, stem=stem, example=example)
    return None


def _fetched(item: tree.Use, opening: _Opening, trail: tuple[Source, ...]) -> Source | None:
    """The file; None where it cannot be used, which is told."""
    try:
        source = opening.fetch(item.path, trail[-1])
    except OutOfReach:
        opening.messages.add(says.USE_OUTSIDE, at=item.span, path=item.path)
        return None
    except UnreadableSource as fault:
        opening.messages.add(says.USE_UNREADABLE, at=item.span, path=item.path, reason=fault.reason)
        return None
    if source in trail or len(trail) > DEEPEST_USE:
        files = (*trail[trail.index(source) :], source) if source in trail else (trail[0], source)
        cycle = " → ".join(f"`{file.name}`" for file in files)
        opening.messages.add(says.USE_CYCLE, at=item.span, cycle=cycle)
        return None
    return source


def _pattern_symbols(item: tree.Item, prefix: str) -> Iterator[Symbol]:
    named = {
        tree.Measure: "measure",
        tree.Stock: "stock",
        tree.Thread: "thread",
        tree.Punch: "punch",
        tree.Hardware: "hardware",
        tree.Content: "content",
        tree.Piece: "piece",
        tree.Block: "block",
    }
    kind = named.get(type(item))
    if kind and isinstance(item, NAMED):
        yield Symbol(item.name.text, kind, item.name.span, item, prefix)


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


def _put_together(item: tree.Piece | tree.Block, scope: Scope, trail: tuple[str, ...]) -> PieceText | None:
    """The text of a piece or a block, made when it is first asked for."""
    name = item.name.text
    made = scope.blocks if isinstance(item, tree.Block) else scope.pieces
    if name not in made and name not in scope.faulty:
        text = _piece_text(item, scope, (*trail, scope.prefix + name))
        if text:
            made[name] = text
        else:
            scope.faulty.add(name)
    return made.get(name)


def _piece_text(item: tree.Piece | tree.Block, scope: Scope, trail: tuple[str, ...]) -> PieceText | None:
    """Put a piece together from the piece or block it is like and its own statements."""
    name = item.name.text
    base: PieceText | None = None
    if _has_unread_base(item, scope):
        return None
    like = _only(item, tree.Like, "like", scope)
    over = _only(item, tree.Over, "over", scope)
    if like:
        base = _base_of(item, like.piece, "like", scope, trail)
        if base is None or not _has_fit_arguments(like, base, scope):
            return None
    sheet = base.sheet if base and not base.is_block else name
    if over:
        under = _base_of(item, over.piece, "over", scope, trail)
        if under is None:
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
        _layers(item, like, base, scope),
    )
    _fill_table(text, copied, scope)
    if base:
        left_out = {entry.name for entry in without}
        for unread_name, symbol in base.table.items():
            if symbol.is_unread and unread_name not in left_out:
                text.table.setdefault(unread_name, symbol)
    return text


def _has_unread_base(item: tree.Piece | tree.Block, scope: Scope) -> bool:
    """Whether what the piece copies from stands in a line with a slip: what names it has cannot be told then."""
    name = item.name.text
    heads = [head for head in scope.file.unread if head.kind in ("piece", "block") and head.name == name]
    own = [line for line in scope.file.unread if line.piece == name]
    return any(NAMES_A_BASE.search(unread.span.text) for unread in (*heads, *own))


NAMES_A_BASE = re.compile(r"(?:^|[:;])\s*(?:like|over)\b")


def _only(item: tree.Piece | tree.Block, kind: type[About], word: str, scope: Scope) -> About | None:
    found = [about for about in item.about if isinstance(about, kind)]
    if len(found) > 1:
        scope.messages.add(says.ONE_TOO_MANY, at=found[1].span, piece=item.name.text, what=word)
    return found[0] if found else None


# Blocks and their arguments


def _layers(
    item: tree.Piece | tree.Block, like: tree.Like | None, base: PieceText | None, scope: Scope
) -> tuple[Layer, ...]:
    """The blocks a piece is made from, the nearest with the arguments that `like` gives it."""
    below = base.layers if base else ()
    if like and base and base.is_block:
        below = (_given_layer(like, below[0]), *below[1:])
    if isinstance(item, tree.Block):
        return _own_layer(item, scope), *below
    return below


def _own_layer(block: tree.Block, scope: Scope) -> Layer:
    """A block as it is written: what nobody gives comes from its defaults, and the rest is not known yet."""
    table: dict[str, Symbol] = {}
    prefix = f"{scope.prefix}{block.name.text}."
    for each in block.parameters:
        statement: tree.Node = each
        if each.default is not None:
            statement = tree.Measure(each.span, each.name, (each.default,), None, None)
        symbol = Symbol(each.name.text, "measure", each.name.span, statement, prefix, "left to the block")
        _define(table, symbol, scope.messages, without="")
    return Layer(block, table)


def _given_layer(like: tree.Like, layer: Layer) -> Layer:
    table = dict(layer.table)
    for argument in like.arguments:
        if argument.name in table:
            symbol = table[argument.name]
            name = tree.Name(argument.span, symbol.name)
            measure = tree.Measure(argument.span, name, (argument.value,), None, None)
            table[symbol.name] = replace(symbol, statement=measure, argument="given")
    return Layer(layer.block, table)


def _has_fit_arguments(like: tree.Like, base: PieceText, scope: Scope) -> bool:
    """Whether `like` gives what the block asks for: each argument by its name, once, and none is missing."""
    name = like.piece.text
    if not base.is_block:
        if like.arguments:
            scope.messages.add(says.NOT_A_BLOCK, at=like.span, name=name)
        return not like.arguments
    table = base.layers[0].table
    asked = {key: symbol for key, symbol in table.items() if isinstance(symbol.statement, tree.Parameter)}
    is_fit = True
    given: dict[str, tree.Argument] = {}
    for argument in like.arguments:
        if argument.name in given or argument.name not in table:
            _say_unfit(scope, name, argument, given, table)
            is_fit = False
        if argument.name:
            given.setdefault(argument.name, argument)
    missing = [key for key in asked if key not in given]
    if missing and is_fit:
        lacking = ", ".join(f"`{key}`" for key in missing)
        said = [" ".join(argument.span.text.split()) for argument in like.arguments]
        example = ", ".join([*said, *(f"{key} = 12 mm" for key in missing)])
        scope.messages.add(says.ARGUMENT_MISSING, at=like.span, name=name, lacking=lacking, example=example)
    return is_fit and not missing


def _say_unfit(
    scope: Scope,
    block: str,
    argument: tree.Argument,
    given: Mapping[str, tree.Argument],
    table: Mapping[str, Symbol],
) -> None:
    text = " ".join(argument.span.text.split())
    offers = ", ".join(f"`{name}`" for name in table)
    if argument.name is None:
        example = f"{next(iter(table))} = {text}"
        scope.messages.add(
            says.ARGUMENT_UNNAMED, at=argument.span, name=block, text=text, example=example, offers=offers
        )
    elif argument.name in given:
        related = [Related(given[argument.name].span, "given here first")]
        scope.messages.add(says.ARGUMENT_TWICE, at=argument.span, related=related, name=argument.name)
    else:
        near = did_you_mean(argument.name, table)
        scope.messages.add(
            says.ARGUMENT_UNKNOWN, at=argument.span, block=block, name=argument.name, offers=offers, near=near
        )


def _base_of(
    item: tree.Piece | tree.Block, ref: tree.Ref, how: str, scope: Scope, trail: tuple[str, ...]
) -> PieceText | None:
    """The piece or block that `like` or `over` names; None where there is none, which is told."""
    head = scope.names.get(ref.parts[0])
    if head and head.is_unread:
        return None
    if head and head.kind == "use" and len(ref.parts) > 1:
        home, wanted = scope.used.get(head.name), ".".join(ref.parts[1:])
        if home is None:
            return None
    else:
        home, wanted = scope, ref.text
    if wanted in home.faulty:
        return None
    key = home.prefix + wanted
    if key in trail:
        scope.faulty.update(name.removeprefix(scope.prefix) for name in trail)
        cycle = " → ".join(f"`{name}`" for name in (*trail[trail.index(key) :], key))
        scope.messages.add(
            says.LIKE_CYCLE, at=ref.span, cycle=cycle, name=item.name.text, like=f"{how} {ref.text}"
        )
        return None
    symbol = home.names.get(wanted)
    fits: tuple[type[tree.Piece | tree.Block], ...] = (tree.Piece, tree.Block)
    if home is not scope or isinstance(item, tree.Block):
        fits = (tree.Block,)
    elif how == "over":
        fits = (tree.Piece,)
    statement = symbol.statement if symbol else None
    if isinstance(statement, tree.Piece | tree.Block) and isinstance(statement, fits):
        return _put_together(statement, home, trail)
    if not (symbol and symbol.is_unread):
        _say_no_base(ref, how, scope, home, symbol, (item.name.text, fits))
    return None


def _say_no_base(
    ref: tree.Ref,
    how: str,
    scope: Scope,
    home: Scope,
    symbol: Symbol | None,
    asked: tuple[str, tuple[type[tree.Piece | tree.Block], ...]],
) -> None:
    own, fits = asked
    if home is not scope:
        say_not_brought(scope.messages, ref, home)
        return
    known = [name for name, each in home.names.items() if isinstance(each.statement, fits) and name != own]
    kinds = " or a ".join(
        word for kind, word in ((tree.Piece, "piece"), (tree.Block, "block")) if kind in fits
    )
    offers = ", ".join(f"`{name}`" for name in known) or "none yet"
    if symbol:
        scope.messages.add(
            says.BASE_FAULTY,
            at=ref.span,
            name=ref.text,
            what=symbol.what,
            how=how,
            kinds=kinds,
            offers=offers,
        )
    else:
        what = kinds.replace(" or a ", " or ")
        mend = did_you_mean(ref.text, known).strip() or f"There are {offers}."
        scope.messages.add(says.UNKNOWN_NAME, at=ref.span, name=ref.text, what=what, where="", mend=mend)


def say_not_brought(messages: Messages, ref: tree.Ref, home: Scope) -> None:
    """A name that a used file does not have, or that `use` does not bring."""
    name = ".".join(ref.parts[1:])
    symbol = home.names.get(ref.parts[1])
    brought = [known for known, each in home.names.items() if each.kind in BROUGHT]
    offers = ", ".join(f"`{ref.parts[0]}.{known}`" for known in brought) or "nothing"
    file = home.file.source.name
    if symbol is None:
        near = did_you_mean(name, brought)
        messages.add(says.NOT_IN_FILE, at=ref.span, file=file, name=name, offers=offers, near=near)
    elif not symbol.is_unread:
        messages.add(says.NOT_BROUGHT, at=ref.span, name=ref.text, what=symbol.what, file=file, offers=offers)


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
    """The piece's own names; a piece may use none of the pattern's again, and a block none of its arguments'."""
    if text.is_block:
        text.table.update(text.layers[0].table)
    for part in text.parts:
        for symbol in _part_symbols(part):
            if symbol.name.endswith("'"):
                scope.messages.add(
                    says.TWIN_FACTS, at=symbol.span, name=symbol.name, base=symbol.name.rstrip("'")
                )
                continue
            taken = scope.names.get(symbol.name)
            if taken and part not in copied and not _is_argument(text, symbol.name):
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
        if unread.piece == text.name:
            name = "outline" if unread.kind == "outline" else unread.name
            if name:
                text.table.setdefault(name, Symbol(name, "unread", unread.span, unread))
    for layer in text.layers:
        for name, symbol in layer.table.items():
            text.table.setdefault(name, symbol)


def _is_argument(text: PieceText, name: str) -> bool:
    """Whether a name is told already to be that of an argument."""
    return text.is_block and name in text.layers[0].table


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
