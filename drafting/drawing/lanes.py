"""Where dimension lines go: outside the piece, in lanes, the smaller ones nearer (ISO 129-1).

The first lane lies 10 mm off the piece, each next one 7 mm further. Every way to draw a dimension is a Candidate: a
side, a lane, and figures in the middle, shifted or beside. The one with the least cost whose words touch nothing is
taken. Figures stand above the unbroken line and read from below or from the right.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from drafting.drawing.arrows import arrowhead, straight
from drafting.drawing.board import CLEARANCE, Board
from drafting.drawing.lettering import natural_width
from drafting.drawing.lines import DIMENSION, EXTENSION
from drafting.drawing.marks import DESCENT, RISE, Group, Lettering, Stroke
from drafting.drawing.spans import LEVEL, PLUMB, Rank, Span, SpanEnd, past_lines
from drafting.geometry.bounds import Bounds
from drafting.geometry.line import Line
from drafting.records import dataclass

FIRST_LANE = 10.0
NEXT_LANE = 7.0
MOST_LANES = 40
MOST_ROUNDS = 3
GAP = 1.0
"""Between the thing measured and the start of its extension line."""
FAR = 25.0
THROUGH = 45.0
"""What it costs each extension line to run through the piece, farther than this, to its other side."""
GROWTH = 0.1
"""What a millimetre more of width or height costs."""
OVERSHOOT = 2.0
"""How far an extension line runs past the dimension line: 8 line widths."""


@dataclass(frozen=True)
class Candidate:
    """One way to draw a span: the line at `across`, from `low` to `high` along it, the words from `start`."""

    span: Span
    across: float
    low: float
    high: float
    start: float
    height: float
    cost: float
    runs_through: bool = False
    """Whether its extension lines run through the piece to its other side."""

    @property
    def words(self) -> Lettering:
        lift = self.height * (DESCENT + 0.15)
        at = self.span.point(self.start, self.across + lift)
        return Lettering(self.span.text, at, self.height, "start", self.span.angle, "dimension")

    @property
    def line(self) -> Stroke:
        span = self.span
        return straight(DIMENSION, span.point(self.low, self.across), span.point(self.high, self.across))

    @property
    def bounds(self) -> Bounds:
        return Bounds.joining([self.words.bounds, *(stroke.way.bounds for stroke in self.strokes)])

    @property
    def extensions(self) -> list[Stroke]:
        return [stroke for end in (self.span.first, self.span.last) for stroke in self._extension(end)]

    def _extension(self, end: SpanEnd) -> list[Stroke]:
        """From the thing measured to the line and past it; none where the line lies on the thing."""
        if self.across <= end.low:
            start, stop = end.low - GAP, self.across - OVERSHOOT
        elif self.across >= end.high:
            start, stop = end.high + GAP, self.across + OVERSHOOT
        else:
            return []
        if abs(stop - start) <= OVERSHOOT:
            return []
        return [straight(EXTENSION, self.span.point(end.at, start), self.span.point(end.at, stop))]

    @property
    def arrows(self) -> list[Stroke]:
        """At both ends; pointing out between the ends, pointing in from beyond them where that is too narrow."""
        span = self.span
        out = -1.0 if self.arrows_beyond else 1.0
        first, last = span.point(span.first.at, self.across), span.point(span.last.at, self.across)
        return [
            arrowhead(first, span.along * -out, self.height),
            arrowhead(last, span.along * out, self.height),
        ]

    @property
    def arrows_beyond(self) -> bool:
        return self.span.length < 2.4 * self.height

    @property
    def strokes(self) -> list[Stroke]:
        return [*self.extensions, self.line, *self.arrows]


@dataclass(frozen=True)
class Laid:
    """Spans as they come to be drawn in one order: those that found a place with what it costs, and those that found
    none."""

    placed: list[tuple[Span, Candidate, float]]
    refused: list[Span]

    @property
    def badly(self) -> list[Span]:
        """Those without a place, and those that run through the piece."""
        return [*self.refused, *(span for span, way, _ in self.placed if way.runs_through)]

    @property
    def worth(self) -> tuple[int, float]:
        """How bad it is."""
        return len(self.refused), sum(cost for _, _, cost in self.placed)


def place_spans_on(
    board: Board, spans: Sequence[Span], lines: Sequence[Line], bounds: Bounds, height: float
) -> tuple[list[Group], list[Span]]:
    """Draws spans round a view of the given bounds and straight lines; gives back also those for which no place was
    left.

    Small ones come first. Where that drives others through the piece these get the first choice, and the better way
    of all is kept.
    """
    order = sorted(spans, key=lambda span: (span.rank is Rank.OVERALL, round(span.length, 3), span.name))
    ways: list[Laid] = []
    for _ in range(MOST_ROUNDS):
        ways.append(_laid(board.copy(), order, lines, bounds, height))
        first = ways[-1].badly
        if not first or first == order[: len(first)]:
            break
        order = [*first, *(span for span in order if span not in first)]
    best = min(ways, key=lambda laid: laid.worth)
    groups = [_group(span, candidate) for span, candidate, _ in best.placed]
    for group, (_, candidate, _) in zip(groups, best.placed, strict=True):
        _draw(board, group, candidate)
    return groups, best.refused


def _laid(board: Board, order: Sequence[Span], lines: Sequence[Line], bounds: Bounds, height: float) -> Laid:
    """Each span in turn where it costs least, on a board that is used up by it."""
    laid = Laid([], [])
    for index, span in enumerate(order):
        ways = candidates(span, past_lines(span, lines), bounds, height)
        candidate, cost = best_candidate(board, ways, order[index + 1 :])
        if candidate is None:
            laid.refused.append(span)
            continue
        laid.placed.append((span, candidate, cost))
        _draw(board, _group(span, candidate), candidate)
    return laid


def _group(span: Span, candidate: Candidate) -> Group:
    return Group("dimension", span.name, (*candidate.strokes, candidate.words), title=span.text)


def _draw(board: Board, group: Group, candidate: Candidate) -> None:
    board.add(group)
    board.take_lane(candidate.line.way.start, candidate.line.way.end)


def best_candidate(
    board: Board, ways: Iterable[Candidate], waiting: Sequence[Span]
) -> tuple[Candidate | None, float]:
    """The least costly way that is free, judged by what it crosses and whom it stands in the way of."""
    best: Candidate | None = None
    least = float("inf")
    for candidate in sorted(ways, key=lambda one: one.cost):
        if candidate.cost >= least:
            break
        cost = candidate.cost + _hindrance(candidate, waiting) + GROWTH * board.growth(candidate.bounds)
        if cost >= least or not _is_free(board, candidate):
            continue
        cost += 1.5 * board.crossings([candidate.line]) + 0.8 * board.crossings(candidate.extensions)
        if cost < least:
            best, least = candidate, cost
    return best, least


def _is_free(board: Board, candidate: Candidate) -> bool:
    line = candidate.line.way
    return (
        board.is_free_for(candidate.words)
        and board.lane_is_free(line.start, line.end)
        and board.lines_clear_words(candidate.strokes)
        and not _words_meet_own_lines(candidate)
    )


def _words_meet_own_lines(candidate: Candidate) -> bool:
    """True when an extension line of the span would run through its own figures."""
    start, end = candidate.start, candidate.start + natural_width(candidate.span.text, candidate.height)
    return any(
        start - CLEARANCE < place.at < end + CLEARANCE
        for place in (candidate.span.first, candidate.span.last)
    )


def _hindrance(candidate: Candidate, waiting: Sequence[Span]) -> float:
    """What the words would cost those that come later: their extension lines must pass."""
    start, end = candidate.start, candidate.start + natural_width(candidate.span.text, candidate.height)
    return sum(
        5.0
        for span in waiting
        if span.along == candidate.span.along
        for place in (span.first, span.last)
        if start - 1 < place.at < end + 1
    )


def candidates(span: Span, drawn: Span, bounds: Bounds, height: float) -> Iterator[Candidate]:
    """Every side, lane and place of the figures: judged by the places that are measured, and drawn from where the
    extension lines begin."""
    for across, lane, side_cost in _lanes(span, bounds):
        through = _runs_through(span, across, bounds)
        side_cost += THROUGH * through
        reach = sum(max(end.low - across, across - end.high, 0.0) for end in (span.first, span.last))
        for low, high, start, cost in figures_places(span, height):
            total = lane * 4.0 + side_cost + cost + 0.08 * reach
            yield Candidate(drawn, across, low, high, start, height, total, through > 0)


def _lanes(span: Span, bounds: Bounds) -> Iterator[tuple[float, int, float]]:
    """Places across the span: below or to the right, then above or to the left, further and further out."""
    low, high = _reach_across(span, bounds)
    prefers_high = span.along == PLUMB
    for lane in range(MOST_LANES):
        offset = FIRST_LANE + NEXT_LANE * lane
        yield low - offset, lane, 1.5 if prefers_high else 0.0
        yield high + offset, lane, 0.0 if prefers_high else 1.5


def _runs_through(span: Span, across: float, bounds: Bounds) -> int:
    """How many extension lines would run through most of the piece to a line on its other side."""
    low, high = _reach_across(span, bounds)
    ways = [end.low - low if across < low else high - end.high for end in (span.first, span.last)]
    return sum(way > max(FAR, 0.6 * (high - low)) for way in ways)


def _reach_across(span: Span, bounds: Bounds) -> tuple[float, float]:
    """How far the view, or for a slanted span the measured things themselves, reach across."""
    if span.along == LEVEL:
        return bounds.min_y, bounds.max_y
    if span.along == PLUMB:
        return -bounds.max_x, -bounds.min_x
    ends = (span.first, span.last)
    return min(end.low for end in ends), max(end.high for end in ends)


def figures_places(span: Span, height: float) -> Iterator[tuple[float, float, float, float]]:
    """Line from, line to, words from, cost: inside in the middle or beside it, past the last end, before the first."""
    width = natural_width(span.text, height)
    first, last = span.first.at, span.last.at
    stub = 2 * height if span.length < 2.4 * height else 0.0
    room = span.length - width - 2 * CLEARANCE - 0.5
    if room >= 0:
        for shift, cost in ((0.0, 0.0), (-0.5, 1.0), (0.5, 1.0), (-0.95, 1.8), (0.95, 1.8)):
            start = first + (span.length - width) / 2 + shift * room / 2
            yield first - stub, last + stub, start, cost
    beside = max(stub, 1.0) + 0.4
    yield first - stub, last + beside + width, last + beside, 3.0
    yield first - beside - width, last + stub, first - beside - width, 3.2


def words_box_height(height: float) -> float:
    """What a line of figures takes above its line."""
    return height * (RISE + DESCENT + 0.15)
