"""Rules -> nodes: what each finished rule of the grammar becomes in the tree.

Takes the name of a rule, its place and its children, as `Machine` finishes them, and gives the node. The
method that builds a rule carries its name; where the rule only groups, its children are handed on.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Any, Literal, cast

from drafting.syntax import tree
from drafting.syntax.marks import Mark, amount_of
from drafting.text.catalogue import syntax as says
from drafting.text.messages import Messages
from drafting.text.source import Source, Span

DEEPEST = 100
"""How many sums may stand inside one another; what reads them calls itself for each."""


@dataclass(frozen=True)
class Slip:
    """In the place of a clause that could not be read."""


SLIP = Slip()

Children = list[Any]


@dataclass
class Builder:
    """Builds the nodes of one source; `unread` gathers the statements with a slip."""

    source: Source
    messages: Messages
    unread: list[tree.Unread] = field(default_factory=list)
    depths: dict[int, int] = field(default_factory=dict)

    def build(self, name: str, start: int, end: int, children: Children) -> Any:
        make = getattr(self, name)
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
            said["notes"],
            said.get("show", ()),
            note=_text(note),
        )

    def edition(self, span: Span, text: Mark) -> tuple[str, str, Span]:
        return "edition", text.text, span

    def licence(self, span: Span, text: Mark) -> tuple[str, str, Span]:
        return "licence", text.text, span

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

    def hardware(
        self, span: Span, name: tree.Name, need: tree.Expression, note: Mark | None
    ) -> tree.Hardware:
        return tree.Hardware(span, name, need, note=_text(note))

    def use(self, span: Span, path: Mark, as_name: tree.Name | None, note: Mark | None) -> tree.Use:
        return tree.Use(span, path.text, as_name, note=_text(note))

    def join(self, span: Span, *rest: Any) -> tree.Join:
        *lines, is_reversed, within, note = rest
        return tree.Join(span, tuple(lines), is_reversed is not None, within, note=_text(note))

    def reversed(self, span: Span, word: str) -> str:
        return word

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

    def comparison(self, span: Span, sign: str) -> str:
        return sign

    def fit(
        self,
        span: Span,
        name: tree.Name,
        lines: tuple[tree.Ref, ...],
        within: tree.Expression | None,
        note: Mark | None,
    ) -> tree.Fit:
        return tree.Fit(span, name, lines, within, note=_text(note))

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
            self.unread.append(tree.Unread(name.span, kind, name.text, None))
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

    def pair(self, span: Span, word: str) -> str:
        return word

    def mirrored(self, span: Span, line: tree.Stretch) -> tree.MirroredOver:
        return tree.MirroredOver(span, line)

    def over(self, span: Span, piece: tree.Ref) -> tree.Over:
        return tree.Over(span, piece)

    def grain(self, span: Span, how: tree.Stretch | Literal["level", "plumb", "any"]) -> tree.Grain:
        if isinstance(how, tree.Stretch):
            return tree.Grain(span, "along", how)
        return tree.Grain(span, how, None)

    def grain_word(self, span: Span, word: str) -> str:
        return word

    def like(self, span: Span, piece: tree.Ref, *arguments: tree.Argument | None) -> tree.Like:
        return tree.Like(span, piece, tuple(argument for argument in arguments if argument))

    def without(self, span: Span, *items: tree.WithoutItem) -> tree.Without:
        return tree.Without(span, items)

    def without_name(self, span: Span, name: Mark) -> tree.WithoutItem:
        return tree.WithoutItem(span, name.text, False)

    def without_fillet(self, span: Span, name: Mark) -> tree.WithoutItem:
        return tree.WithoutItem(span, name.text, True)

    # Parts

    def point(self, span: Span, name: tree.Name, clauses: Children) -> tree.PointStatement | tree.Unread:
        return self._thing(tree.PointStatement, span, "point", clauses, name)

    def points(self, span: Span, name: tree.Name, clauses: Children) -> tree.PointsStatement | tree.Unread:
        return self._thing(tree.PointsStatement, span, "points", clauses, name)

    def guide(self, span: Span, name: tree.Name, clauses: Children) -> tree.Guide | tree.Unread:
        return self._thing(tree.Guide, span, "guide", clauses, name)

    def feature(
        self, span: Span, kind: str, name: tree.Name, clauses: Children
    ) -> tree.Feature | tree.Unread:
        return self._thing(tree.Feature, span, kind, clauses, name, kind=kind)

    def feature_kind(self, span: Span, word: str) -> str:
        return word

    def outline(self, span: Span, clauses: Children) -> tree.Outline | tree.Unread:
        return self._thing(tree.Outline, span, "outline", clauses, None)

    def _thing(
        self, make: Any, span: Span, word: str, clauses: Children, name: tree.Name | None, **said: str
    ) -> Any:
        """A statement made of clauses. A note on its first line is its own, one further down the clause's."""
        first, *rest = clauses
        if SLIP in rest:
            return tree.Unread(span, word, name.text if name else word, None)
        note = _text(first)
        noted = [clause for clause in rest if clause.note is not None]
        if note is None and noted and noted[0].span.end_line == span.line:
            note = noted[0].note
            rest = [replace(clause, note=None) if clause is noted[0] else clause for clause in rest]
        if name is not None:
            said["name"] = cast(Any, name)
        return make(span, clauses=tuple(rest), note=note, **said)

    def clauses(self, span: Span, *clauses: Any) -> Children:
        return list(clauses)

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

    def parallel(self, span: Span, word: str) -> str:
        return word

    def square_to(self, span: Span, word: str) -> str:
        return word

    def straight(self, span: Span, line: tree.Stretch, how: Literal["level", "plumb"]) -> tree.Straight:
        return tree.Straight(span, line, how)

    def touches(self, span: Span, line: tree.Stretch, curve: tree.Ref) -> tree.Touches:
        return tree.Touches(span, line, curve)

    def level_or_plumb(self, span: Span, word: str) -> str:
        return word

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

    # Places and choices

    def offset_from(
        self,
        span: Span,
        distance: tree.Expression,
        direction: Literal["right of", "left of", "above", "below"],
        origin: tree.Ref,
    ) -> tree.OffsetFrom:
        return tree.OffsetFrom(span, distance, direction, origin)

    def sheet_direction(self, span: Span, word: str) -> str:
        return word

    def aligned(self, span: Span, how: Literal["level", "plumb"], to: tree.Ref) -> tree.Aligned:
        return tree.Aligned(span, how, to)

    def level_with(self, span: Span, word: str) -> str:
        return "level"

    def plumb_with(self, span: Span, word: str) -> str:
        return "plumb"

    def distance_from(
        self, span: Span, distance: tree.Expression, of: tree.Ref | tree.Stretch
    ) -> tree.DistanceFrom:
        return tree.DistanceFrom(span, distance, of)

    def on_stretch(self, span: Span, what: tree.Stretch, extended: str | None) -> tree.On:
        return tree.On(span, what, extended is not None)

    def on_line(self, span: Span, what: tree.Ref) -> tree.On:
        return tree.On(span, what, False)

    def extended(self, span: Span, word: str) -> str:
        return word

    def square_off(self, span: Span, line: tree.Stretch, at: tree.Ref) -> tree.SquareOff:
        return tree.SquareOff(span, line, at)

    def coordinates(
        self, span: Span, x: tree.Expression, y: tree.Expression, origin: tree.Ref | None
    ) -> tree.AtCoordinates:
        return tree.AtCoordinates(span, x, y, origin)

    def at_point(self, span: Span, point: tree.Ref) -> tree.AtPoint:
        return tree.AtPoint(span, point)

    def ray(self, span: Span, angle: tree.Expression, origin: tree.Ref) -> tree.Ray:
        return tree.Ray(span, angle, origin)

    def midway(self, span: Span, what: tree.Ref | tree.Stretch) -> tree.Midway:
        return tree.Midway(span, what)

    def along_stretch(
        self, span: Span, amount: tree.Expression, what: tree.Stretch, extended: str | None
    ) -> tree.Along:
        return tree.Along(span, amount, what, extended is not None)

    def along_way(self, span: Span, amount: tree.Expression, what: tree.Way) -> tree.Along:
        return tree.Along(span, amount, what, False)

    def mirror_of(self, span: Span, of: tree.Ref, over: tree.Stretch | tree.Ref) -> tree.MirrorOf:
        return tree.MirrorOf(span, of, over)

    def touching(self, span: Span, line: tree.Ref, origin: tree.Ref) -> tree.Touching:
        return tree.Touching(span, line, origin)

    def lying(self, span: Span, direction: tree.Direction) -> tree.Lying:
        return tree.Lying(span, direction)

    def direction_word(self, span: Span, word: Literal["level", "plumb"]) -> tree.Direction:
        return tree.Direction(span, word, None)

    def direction_along(self, span: Span, line: tree.Stretch) -> tree.Direction:
        return tree.Direction(span, "along", line)

    def direction_square(self, span: Span, line: tree.Stretch) -> tree.Direction:
        return tree.Direction(span, "square to", line)

    def direction_angle(self, span: Span, angle: tree.Expression) -> tree.Direction:
        return tree.Direction(span, "angle", angle)

    def sheet_side(
        self,
        span: Span,
        how: Literal["right of", "left of", "above", "below"],
        of: tree.Ref | tree.Stretch,
    ) -> tree.Side:
        return tree.Side(span, how, of)

    def place_side(
        self, span: Span, how: Literal["nearest", "farthest from", "inside", "outside"], of: tree.Ref
    ) -> tree.Side:
        return tree.Side(span, how, of)

    def place_side_word(self, span: Span, word: str) -> str:
        return word

    # Shapes

    def path(self, span: Span, start: tree.Ref, *legs: tree.Leg) -> tree.PathShape:
        return tree.PathShape(span, start, legs)

    def leg(self, span: Span, to: tree.Ref, *bows: tree.Bow | None) -> tree.Leg:
        return tree.Leg(span, to, tuple(bow for bow in bows if bow))

    def bowed(
        self,
        span: Span,
        toward: Literal["out", "in", "left", "right", "up", "down"],
        with_radius: str | None,
        amount: tree.Expression,
    ) -> tree.Bowed:
        return tree.Bowed(span, toward, with_radius is not None, amount)

    def bow_side(self, span: Span, word: str) -> str:
        return word

    def with_radius(self, span: Span, word: str) -> str:
        return word

    def through(self, span: Span, point: tree.Ref) -> tree.Through:
        return tree.Through(span, point)

    def about(self, span: Span, center: tree.Ref, long: str | None) -> tree.About:
        return tree.About(span, center, long is not None)

    def long(self, span: Span, word: str) -> str:
        return word

    def tangent(self, span: Span) -> tree.Tangent:
        return tree.Tangent(span)

    def following(self, span: Span, line: tree.Ref) -> tree.Following:
        return tree.Following(span, line)

    def smooth(self, span: Span, through: tuple[tree.Ref, ...] | None, *directions: Any) -> tree.Smooth:
        leaving, arriving = directions
        return tree.Smooth(span, through or (), leaving, arriving)

    def box(self, span: Span, width: tree.Expression, height: tree.Expression) -> tree.BoxShape:
        return tree.BoxShape(span, width, height)

    def across(self, span: Span, across: tree.Expression) -> tree.RoundShape:
        return tree.RoundShape(span, across)

    def offset(
        self,
        span: Span,
        distance: tree.Expression,
        side: Literal["inside", "outside", "beside", "round"],
        way: tree.Way,
    ) -> tree.OffsetShape:
        return tree.OffsetShape(span, distance, side, way)

    def offset_side(self, span: Span, word: str) -> str:
        return word

    def band(
        self, span: Span, distance: tree.Expression, side: Literal["inside", "outside"], way: tree.Way
    ) -> tree.BandShape:
        return tree.BandShape(span, distance, side, way)

    def band_side(self, span: Span, word: str) -> str:
        return word

    def along_shape(self, span: Span, way: tree.Way | tree.Stretch) -> tree.AlongShape:
        return tree.AlongShape(span, way)

    def through_shape(self, span: Span, how: Literal["level", "plumb"], point: tree.Ref) -> tree.ThroughShape:
        return tree.ThroughShape(span, how, point)

    def level_through(self, span: Span, word: str) -> str:
        return "level"

    def plumb_through(self, span: Span, word: str) -> str:
        return "plumb"

    def lines(self, span: Span, start: tree.Ref, end: tree.Ref) -> tree.LinesShape:
        return tree.LinesShape(span, start, end)

    # Properties

    def property(self, span: Span, amount: tree.Expression, word: Any) -> tree.Property:
        return tree.Property(span, amount, word)

    def property_word(self, span: Span, word: str) -> str:
        return word

    def short(self, span: Span, amount: tree.Expression, at: Literal["start", "end"] | None) -> tree.Short:
        return tree.Short(span, amount, at)

    def path_end(self, span: Span, word: str) -> str:
        return word

    def every(self, span: Span, amount: tree.Expression) -> tree.Every:
        return tree.Every(span, amount)

    def like_line(
        self, span: Span, how: Literal["as many as", "same holes as", "start at"], line: tree.Ref
    ) -> tree.LikeLine:
        return tree.LikeLine(span, how, line)

    def like_how(self, span: Span, word: str) -> str:
        return word

    def hole_at(self, span: Span, points: tuple[tree.Ref, ...]) -> tree.HoleAt:
        return tree.HoleAt(span, points)

    def once(self, span: Span) -> tree.Once:
        return tree.Once(span)

    def end_detail(
        self, span: Span, how: Literal["end holes", "corner holes", "down to"], amount: tree.Expression
    ) -> tree.EndDetail:
        return tree.EndDetail(span, how, amount)

    def end_detail_word(self, span: Span, word: str) -> str:
        return word

    def bent(self, span: Span, angle: tree.Expression, round: tree.Expression) -> tree.Bent:
        return tree.Bent(span, angle, round)

    def steps(self, span: Span, amounts: tuple[tree.Expression, ...]) -> tree.Steps:
        return tree.Steps(span, amounts)

    def corners(self, span: Span, how: Literal["mitred", "cut", "pleated"]) -> tree.Corners:
        return tree.Corners(span, how)

    def corner_word(self, span: Span, word: str) -> str:
        return word

    def wording(self, span: Span, how: Literal["text", "roster"], text: Mark) -> tree.Wording:
        return tree.Wording(span, how, text.text)

    def wording_word(self, span: Span, word: str) -> str:
        return word

    # Names, ways and amounts

    def unit(self, span: Span, word: str) -> str:
        return word

    def name(self, span: Span, name: Mark) -> tree.Name:
        return tree.Name(span, name.text)

    def ref(self, span: Span, *parts: Mark) -> tree.Ref:
        return tree.Ref(span, tuple(part.text for part in parts))

    def refs(self, span: Span, *refs: tree.Ref) -> tuple[tree.Ref, ...]:
        return refs

    def stretch(self, span: Span, start: tree.Ref, end: tree.Ref) -> tree.Stretch:
        return tree.Stretch(span, start, end)

    def walk(
        self,
        span: Span,
        start: tree.Ref,
        round: tuple[tree.Ref, ...] | None,
        end: tree.Ref,
        of: tree.Ref | None,
    ) -> tree.Walk:
        return tree.Walk(span, start, round or (), end, of)

    def amounts(self, span: Span, *amounts: tree.Expression) -> tuple[tree.Expression, ...]:
        return amounts

    def amount(self, span: Span, mark: Mark) -> tree.Amount:
        return amount_of(mark, self.source)

    def ounces(self, span: Span, mark: Mark) -> tree.Amount:
        return amount_of(mark, self.source)

    def plus(self, span: Span, left: tree.Expression, right: tree.Expression) -> tree.Expression:
        return self._deeper(tree.Binary(span, "+", left, right), left, right)

    def minus(self, span: Span, left: tree.Expression, right: tree.Expression) -> tree.Expression:
        return self._deeper(tree.Binary(span, "-", left, right), left, right)

    def times(self, span: Span, left: tree.Expression, right: tree.Expression) -> tree.Expression:
        return self._deeper(tree.Binary(span, "*", left, right), left, right)

    def over_amount(self, span: Span, left: tree.Expression, right: tree.Expression) -> tree.Expression:
        return self._deeper(tree.Binary(span, "/", left, right), left, right)

    def negative(self, span: Span, of: tree.Expression) -> tree.Expression:
        return self._deeper(tree.Negative(span, of), of)

    def angle(self, span: Span, start: tree.Ref, vertex: tree.Ref, end: tree.Ref) -> tree.AngleOf:
        return tree.AngleOf(span, start, vertex, end)

    def call(self, span: Span, function: Mark, *arguments: tree.Argument) -> tree.Expression:
        name = tree.Name(Span(self.source, function.start, function.end), function.text)
        values = [argument.value for argument in arguments]
        return self._deeper(tree.Call(span, name, arguments), *values)

    def named_argument(self, span: Span, name: Mark, value: tree.Expression) -> tree.Argument:
        return tree.Argument(span, name.text, value)

    def plain_argument(self, span: Span, value: tree.Expression) -> tree.Argument:
        return tree.Argument(span, None, value)

    def _deeper(self, node: tree.Expression, *inside: tree.Expression) -> tree.Expression:
        """`node`, unless it holds more inside one another than can be read; then the message and its first
        part.
        """
        depth = 1 + max((self.depths.get(id(part), 0) for part in inside), default=0)
        if depth > DEEPEST:
            self.messages.add(says.TOO_DEEP, at=node.span)
            return inside[0]
        self.depths[id(node)] = depth
        return node

    # Ways in besides a file

    def expression(self, span: Span, expression: tree.Expression) -> tree.Expression:
        return expression

    def setting_value(self, span: Span, amounts: tuple[tree.Expression, ...]) -> tuple[tree.Expression, ...]:
        return amounts


def _text(note: Mark | None) -> str | None:
    return None if note is None else note.text


def _head_and_body(rest: tuple[Any, ...]) -> tuple[Children, Mark | None, Children]:
    """What a head says, its note, and the lines below it."""
    about = [child for child in rest if child is SLIP or isinstance(child, tree.AboutClause)]
    notes = [child for child in rest if isinstance(child, Mark)]
    lines = [child for child in rest if isinstance(child, tuple | tree.Node) and child not in about]
    return about, notes[0] if notes else None, lines
