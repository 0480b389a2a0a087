"""Rules -> nodes: what each finished rule of the grammar becomes in the tree.

Takes the name of a rule, its place and its children, as `Machine` finishes them, and gives the node. The method that
builds a rule carries its name; a rule without a method is a bare word, and becomes that word. A statement with a slip
becomes an Unread, and leaves the tree for `unread`.
"""

from __future__ import annotations

from typing import Any, Literal

from drafting.records import dataclass, field, replace
from drafting.syntax import tree
from drafting.syntax.build_clauses import ClauseBuilder
from drafting.syntax.marks import Mark
from drafting.text.catalogue import syntax as says
from drafting.text.source import Span


@dataclass(frozen=True)
class Slip:
    """In the place of a clause that could not be read."""


SLIP = Slip()


@dataclass(frozen=True)
class Said:
    """The clauses of a statement, and the note that stands before them."""

    note: str | None
    clauses: tuple[tree.AnyClause, ...]

    def by_line(self, statement: Span) -> tuple[tuple[tree.AnyClause, ...], str | None]:
        """The clauses and the statement's note: a note on the first line is its own, one below the clause's."""
        noted = [clause for clause in self.clauses if clause.note is not None]
        if self.note is not None or not noted or noted[0].span.end_line != statement.line:
            return self.clauses, self.note
        first = replace(noted[0], note=None)
        return tuple(first if clause is noted[0] else clause for clause in self.clauses), noted[0].note


Children = list[Any]


@dataclass
class Builder(ClauseBuilder):
    """Builds the nodes of one source; `unread` gathers the statements with a slip."""

    unread: list[tree.Unread] = field(default_factory=list)

    def build(self, name: str, start: int, end: int, children: Children) -> Any:
        make = getattr(self, name, None)
        if make is None:
            return children[0]
        return make(Span(self.source, start, end), *children)

    # The file

    def file(self, span: Span, header: tree.Header | None, *items: Any) -> tree.File:
        kept = self._kept(items, None)
        return tree.File(self.source, header, tuple(kept), (), tuple(self.unread))

    def broken(self, span: Span, unread: tree.Unread, *lines: Any) -> Any:
        """What can be made out of a statement: of a piece or block its name and its parts."""
        if unread.kind not in ("piece", "block") or unread.name is None:
            self._kept(lines, None)
            return unread
        name = tree.Name(unread.span, unread.name)
        about, parts = self._body(lines, unread.name)
        self.unread.append(unread)
        if unread.kind == "piece":
            return tree.Piece(span, name, about, parts)
        return tree.Block(span, name, (), about, parts)

    def header(self, span: Span, title: Mark, *lines: Any) -> tree.Header:
        said: dict[str, Any] = {"notes": ()}
        note: Mark | None = None
        for line in lines:
            match line:
                case Mark():
                    note = line
                case ("notes", text, _):
                    said["notes"] = (*said["notes"], text)
                case (word, value, place):
                    if word in said:
                        self.messages.add(says.SAID_TWICE, at=place, word=word)
                    said.setdefault(word, value)
                case tree.Unread():
                    self.unread.append(line)
        return tree.Header(
            span,
            title.text,
            said.get("edition"),
            said.get("licence"),
            said.get("author"),
            said["notes"],
            said.get("show", ()),
            note=_text(note),
        )

    def edition(self, span: Span, text: Mark) -> tuple[str, str, Span]:
        return "edition", text.text, span

    def licence(self, span: Span, text: Mark) -> tuple[str, str, Span]:
        return "licence", text.text, span

    def author(self, span: Span, text: Mark) -> tuple[str, str, Span]:
        return "author", text.text, span

    def header_note(self, span: Span, text: Mark) -> tuple[str, str, Span]:
        return "notes", text.text, span

    def show(self, span: Span, *units: str) -> tuple[str, tuple[str, ...], Span]:
        return "show", units, span

    # Statements of the pattern

    def measure(
        self,
        span: Span,
        name: tree.Name,
        values: tuple[tree.Expression, ...],
        low: tree.Expression | None,
        high: tree.Expression | None,
        note: Mark | None,
    ) -> tree.Measure:
        return tree.Measure(span, name, values, low, high, note=_text(note))

    def size(self, span: Span, title: Mark, settings: Any, note: Mark | None) -> tree.Size | tree.Unread:
        if SLIP in settings:
            return tree.Unread(span, "size", title.text, None)
        return tree.Size(span, title.text, settings, note=_text(note))

    def settings(self, span: Span, *settings: Any) -> tuple[Any, ...]:
        return settings

    def setting(self, span: Span, name: tree.Name, values: tuple[tree.Expression, ...]) -> tree.Setting:
        return tree.Setting(span, name, values, None, None)

    def series(
        self,
        span: Span,
        name: tree.Name,
        first: tree.Expression,
        last: tree.Expression,
        step: tree.Expression,
    ) -> tree.Setting:
        return tree.Setting(span, name, (first,), last, step)

    def stock(self, span: Span, name: tree.Name, material: Mark, *rest: Any) -> tree.Stock | tree.Unread:
        *amounts, note = rest
        if SLIP in amounts:
            return tree.Unread(span, "stock", name.text, None)
        return tree.Stock(span, name, material.text, tuple(amounts), note=_text(note))

    def thick(self, span: Span, amount: tree.Expression) -> tree.StockAmount:
        return tree.StockAmount(span, "thick", (amount,))

    def neutral(self, span: Span, amount: tree.Expression) -> tree.StockAmount:
        return tree.StockAmount(span, "neutral", (amount,))

    def comes(self, span: Span, width: tree.Expression, height: tree.Expression) -> tree.StockAmount:
        return tree.StockAmount(span, "comes", (width, height))

    def thread(self, span: Span, name: tree.Name, thick: tree.Expression, note: Mark | None) -> tree.Thread:
        return tree.Thread(span, name, thick, note=_text(note))

    def punch(self, span: Span, name: tree.Name, across: tree.Expression, note: Mark | None) -> tree.Punch:
        return tree.Punch(span, name, across, note=_text(note))

    def hardware(
        self, span: Span, name: tree.Name, need: tree.Expression, *rest: Any
    ) -> tree.Hardware | tree.Unread:
        *fittings, note = rest
        if SLIP in fittings:
            return tree.Unread(span, "hardware", name.text, None)
        return tree.Hardware(span, name, need, tuple(fittings), note=_text(note))

    def fitting_amount(
        self, span: Span, amount: tree.Expression, word: Literal["inside", "prong", "bar"]
    ) -> tree.FittingAmount:
        return tree.FittingAmount(span, word, amount)

    def fitting_on(self, span: Span, what: tuple[tree.Ref, ...]) -> tree.FittingOn:
        return tree.FittingOn(span, what)

    def content(
        self, span: Span, name: tree.Name, size: tree.Published | tree.OwnSize, *rest: Any
    ) -> tree.Content | tree.Unread:
        *clauses, note = rest
        if SLIP in clauses:
            return tree.Unread(span, "content", name.text, None)
        return tree.Content(span, name, size, tuple(clauses), note=_text(note))

    def published(self, span: Span, name: Mark) -> tree.Published:
        return tree.Published(span, name.text)

    def own_size(
        self, span: Span, width: tree.Expression, height: tree.Expression, thick: tree.Expression | None
    ) -> tree.OwnSize:
        return tree.OwnSize(span, width, height, thick)

    def content_amount(
        self, span: Span, amount: tree.Expression, word: Literal["of them", "ease", "thick"]
    ) -> tree.ContentAmount:
        return tree.ContentAmount(span, word, amount)

    def content_lying(self, span: Span, how: Literal["level", "plumb"]) -> tree.ContentLying:
        return tree.ContentLying(span, how)

    def content_inside(
        self, span: Span, lines: tuple[tree.Ref, ...], through: tree.Ref | None
    ) -> tree.ContentInside:
        return tree.ContentInside(span, lines, through)

    def use(self, span: Span, path: Mark, as_name: tree.Name | None, note: Mark | None) -> tree.Use:
        return tree.Use(span, path.text, as_name, note=_text(note))

    def join(self, span: Span, *rest: Any) -> tree.Join:
        *lines, is_reversed, within, note = rest
        return tree.Join(span, tuple(lines), is_reversed is not None, within, note=_text(note))

    def check(
        self,
        span: Span,
        left: tree.Expression,
        operator: Literal[">=", "<=", ">", "<", "="],
        right: tree.Expression,
        within: tree.Expression | None,
        note: Mark | None,
    ) -> tree.Check:
        return tree.Check(span, left, operator, right, within, note=_text(note))

    def fit(
        self,
        span: Span,
        name: tree.Name,
        lines: tuple[tree.Ref, ...],
        within: tree.Expression | None,
        note: Mark | None,
    ) -> tree.Fit:
        return tree.Fit(span, name, lines, within, note=_text(note))

    def allow(self, span: Span, rule: tree.Name, reason: Mark, note: Mark | None) -> tree.Allow:
        return tree.Allow(span, rule, reason.text, note=_text(note))

    def passing(
        self, span: Span, strap: tree.Ref, through: tuple[tree.Ref, ...], note: Mark | None
    ) -> tree.Pass:
        return tree.Pass(span, strap, through, note=_text(note))

    def step(self, span: Span, text: Mark, uses: tuple[tree.Ref, ...] | None, note: Mark | None) -> tree.Step:
        return tree.Step(span, text.text, uses or (), note=_text(note))

    # Pieces and blocks

    def piece(self, span: Span, name: tree.Name, *rest: Any) -> tree.Piece:
        about, note, lines = _head_and_body(rest)
        head = self._head(span, "piece", name, about)
        more, parts = self._body(lines, name.text)
        return tree.Piece(span, name, (*head, *more), parts, note=_text(note))

    def block(self, span: Span, name: tree.Name, *rest: Any) -> tree.Block:
        parameters = tuple(child for child in rest if isinstance(child, tree.Parameter))
        about, note, lines = _head_and_body(tuple(child for child in rest if child not in parameters))
        head = self._head(span, "block", name, about)
        more, parts = self._body(lines, name.text)
        return tree.Block(span, name, parameters, (*head, *more), parts, note=_text(note))

    def parameter(self, span: Span, name: tree.Name, default: tree.Expression | None) -> tree.Parameter:
        return tree.Parameter(span, name, default)

    def _head(self, span: Span, kind: str, name: tree.Name, about: Children) -> list[tree.AboutClause]:
        if SLIP in about:
            line_end = (self.source.text + "\n").find("\n", name.span.start)
            line = Span(self.source, name.span.start, line_end)
            self.unread.append(tree.Unread(line, kind, name.text, None))
        return [clause for clause in about if clause is not SLIP]

    def _body(self, lines: Any, piece: str) -> tuple[tuple[tree.AboutClause, ...], tuple[tree.Part, ...]]:
        kept = self._kept(lines, piece)
        about = tuple(clause for line in kept if isinstance(line, tuple) for clause in line)
        return about, tuple(line for line in kept if not isinstance(line, tuple))

    def _kept(self, lines: Any, piece: str | None) -> list[Any]:
        """The statements that could be read; the others go to `unread`."""
        for line in lines:
            if isinstance(line, tree.Unread):
                self.unread.append(replace(line, piece=piece))
        return [line for line in lines if not isinstance(line, tree.Unread)]

    def about_line(self, span: Span, *rest: Any) -> tuple[tree.AboutClause, ...] | tree.Unread:
        *about, note = rest
        if SLIP in about:
            return tree.Unread(span, "about", None, None)
        if note is not None:
            about[-1] = replace(about[-1], note=note.text)
        return tuple(about)

    def cut(self, span: Span, count: Mark, pair: str | None, stock: tree.Ref) -> tree.Cut | Slip:
        if count.number.denominator != 1:
            self.messages.add(says.CUT_WHOLE, at=Span(self.source, count.start, count.end), count=count.text)
            return SLIP
        return tree.Cut(span, int(count.number), pair is not None, stock)

    def mirrored(self, span: Span, line: tree.Stretch) -> tree.MirroredOver:
        return tree.MirroredOver(span, line)

    def over(self, span: Span, piece: tree.Ref) -> tree.Over:
        return tree.Over(span, piece)

    def grain(self, span: Span, how: tree.Stretch | Literal["level", "plumb", "any"]) -> tree.Grain:
        if isinstance(how, tree.Stretch):
            return tree.Grain(span, "along", how)
        return tree.Grain(span, how, None)

    def like(self, span: Span, piece: tree.Ref, *arguments: tree.Argument | None) -> tree.Like:
        return tree.Like(span, piece, tuple(argument for argument in arguments if argument))

    def without(self, span: Span, *items: tree.WithoutItem) -> tree.Without:
        return tree.Without(span, items)

    def without_name(self, span: Span, name: Mark) -> tree.WithoutItem:
        return tree.WithoutItem(span, name.text, False)

    def without_fillet(self, span: Span, name: Mark) -> tree.WithoutItem:
        return tree.WithoutItem(span, name.text, True)

    # Parts

    def point(self, span: Span, name: tree.Name, said: Said | Slip) -> tree.PointStatement | tree.Unread:
        if isinstance(said, Slip):
            return tree.Unread(span, "point", name.text, None)
        clauses, note = said.by_line(span)
        return tree.PointStatement(span, name, clauses, note=note)

    def points(self, span: Span, name: tree.Name, said: Said | Slip) -> tree.PointsStatement | tree.Unread:
        if isinstance(said, Slip):
            return tree.Unread(span, "points", name.text, None)
        clauses, note = said.by_line(span)
        return tree.PointsStatement(span, name, clauses, note=note)

    def guide(self, span: Span, name: tree.Name, said: Said | Slip) -> tree.Guide | tree.Unread:
        if isinstance(said, Slip):
            return tree.Unread(span, "guide", name.text, None)
        clauses, note = said.by_line(span)
        return tree.Guide(span, name, clauses, note=note)

    def feature(
        self, span: Span, kind: tree.FeatureKind, name: tree.Name, said: Said | Slip
    ) -> tree.Feature | tree.Unread:
        if isinstance(said, Slip):
            return tree.Unread(span, kind, name.text, None)
        clauses, note = said.by_line(span)
        return tree.Feature(span, kind, name, clauses, note=note)

    def outline(self, span: Span, said: Said | Slip) -> tree.Outline | tree.Unread:
        if isinstance(said, Slip):
            return tree.Unread(span, "outline", "outline", None)
        clauses, note = said.by_line(span)
        return tree.Outline(span, clauses, note=note)

    def clauses(self, span: Span, note: Mark | None, *clauses: Any) -> Said | Slip:
        return SLIP if SLIP in clauses else Said(_text(note), clauses)

    def noted_clause(self, span: Span, clause: Any, note: Mark) -> Any:
        return clause if clause is SLIP else replace(clause, note=note.text)

    def run(self, span: Span, name: tree.Name, way: tree.Way, note: Mark | None) -> tree.Run:
        return tree.Run(span, name, way, note=_text(note))

    def find(
        self, span: Span, name: tree.Name, low: tree.Expression, high: tree.Expression, note: Mark | None
    ) -> tree.Find:
        return tree.Find(span, name, low, high, note=_text(note))

    def hold(self, span: Span, fact: tree.Fact, note: Mark | None) -> tree.Hold:
        return tree.Hold(span, fact, note=_text(note))

    def equal(self, span: Span, left: tree.Expression, right: tree.Expression) -> tree.Equal:
        return tree.Equal(span, left, right)

    def relation(
        self, span: Span, first: tree.Stretch, how: Literal["parallel", "square to"], second: tree.Stretch
    ) -> tree.Relation:
        return tree.Relation(span, first, how, second)

    def straight(self, span: Span, line: tree.Stretch, how: Literal["level", "plumb"]) -> tree.Straight:
        return tree.Straight(span, line, how)

    def touches(self, span: Span, line: tree.Stretch, curve: tree.Ref) -> tree.Touches:
        return tree.Touches(span, line, curve)

    def fillet(
        self, span: Span, corners: tuple[tree.Ref, ...], by: tree.Expression, note: Mark | None
    ) -> tree.Fillet:
        return tree.Fillet(span, corners, by, note=_text(note))

    def clip(
        self,
        span: Span,
        corners: tuple[tree.Ref, ...],
        by: tree.Expression,
        after: tree.Expression | None,
        note: Mark | None,
    ) -> tree.Clip:
        return tree.Clip(span, corners, by, after, note=_text(note))

    def dim(
        self, span: Span, line: tree.Stretch, how: Literal["level", "plumb"] | None, note: Mark | None
    ) -> tree.Dim:
        return tree.Dim(span, line, how, note=_text(note))

    def cut_away(self, span: Span, side: tree.Side, *rest: Any) -> tree.CutAway:
        *naming, note = rest
        return tree.CutAway(span, side, tuple(name for name in naming if name), note=_text(note))


def _text(note: Mark | None) -> str | None:
    return None if note is None else note.text


def _head_and_body(rest: tuple[Any, ...]) -> tuple[Children, Mark | None, Children]:
    """What a head says, its note, and the lines below it."""
    about = [child for child in rest if child is SLIP or isinstance(child, tree.AboutClause)]
    notes = [child for child in rest if isinstance(child, Mark)]
    lines = [child for child in rest if isinstance(child, tuple | tree.Node) and child not in about]
    return about, notes[0] if notes else None, lines
