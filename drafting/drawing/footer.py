"""What stands beside the title block: the check bar, the legend of lines, cautions and the maker's notes.

The bar proves the size of a print, which the edges of paper cannot: ISO 216 itself lets them differ by 2 mm.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache

from drafting.drawing.arrows import cross, straight
from drafting.drawing.hatching import GLUED, SKIVED, hatched
from drafting.drawing.lettering import LINE_PITCH, wrap
from drafting.drawing.lines import CUT, GLUE, LINE_KINDS, MARK, PRICK, SKIVE, STITCH, TABLE, TWICE, LineKind
from drafting.drawing.marks import Dots, Group, Lettering, Stroke, Ticks
from drafting.geometry.curves import box
from drafting.geometry.point import Point, Vector
from drafting.records import dataclass

WIDTH = 174.0
"""A little less than the title block, above which it may stand."""
BAR = 100.0
INCH_BAR = 101.6
SMALL = 2.5
LINE = SMALL * LINE_PITCH
SAMPLE = 14.0
COLUMNS = 3
BETWEEN = 2.5
"""The space between the blocks that stand above each other."""
CHECK_WORDS = "Check the 100 mm bar with a rule before cutting."
SHARP_WORDS = "Cut away from your hands, on a firm base; keep blades covered when not in use."
UNTOLD = frozenset({"frame", "table", "leader", "extension", "dimension", "grain", "hatch", "prick"})


@dataclass(frozen=True)
class FooterFacts:
    """What to tell: the kinds of line on the sheet, whether inches are shown, and further words."""

    kinds: tuple[LineKind, ...]
    units: str
    shows_inches: bool
    words: tuple[str, ...]


def footer(facts: FooterFacts) -> Group:
    """The block, WIDTH wide, with its lower left corner at (0, 0)."""
    return _stacked([*_heads(facts), wording(_lines(facts))])


def columns(facts: FooterFacts, spare: float) -> tuple[Group, Group]:
    """The block in two columns, the second with the last lines of its words; `spare` is how much lower the foot of the
    first may lie."""
    heads, lines = _heads(facts), _lines(facts)
    over = sum(_height(block) + BETWEEN for block in heads if block.marks)

    def higher(kept: int) -> float:
        before, after = (_height(wording(part)) for part in (lines[:kept], lines[kept:]))
        return max(over + before, after + spare)

    kept = min(_breaks(facts), key=higher)
    return _stacked([*heads, wording(lines[:kept])]), wording(lines[kept:])


def _heads(facts: FooterFacts) -> list[Group]:
    """What stands over the words."""
    return [bars(facts.shows_inches), legend(facts.kinds)]


def _breaks(facts: FooterFacts) -> Iterator[int]:
    """After how many lines the words may go on in another column: after a paragraph, or within one with two lines of it
    on each side."""
    before = 0
    for lines in _paragraphs(facts):
        yield from (before + kept for kept in range(2, len(lines) - 1))
        before += len(lines)
        yield before


def _height(group: Group) -> float:
    bounds = group.bounds
    return bounds.height if bounds else 0.0


def _stacked(blocks: list[Group]) -> Group:
    y, placed = 0.0, []
    for block in reversed([block for block in blocks if block.marks]):
        bounds = block.bounds
        assert bounds is not None
        placed.append(block.moved(Vector(0.0, y - bounds.min_y)))
        y += bounds.height + BETWEEN
    return Group("footer", "footer", tuple(reversed(placed)))


def bars(shows_inches: bool) -> Group:
    """A rule of 100 mm, and one of 4 in where the maker reads inches."""
    groups = [_bar("100 mm", BAR, 10, 10.0)]
    if shows_inches:
        groups.append(_bar("4 in", INCH_BAR, 16, INCH_BAR / 16).moved(Vector(0.0, -5.5)))
    return Group("check-bars", "check-bars", tuple(groups), title="Check bars: measure them with a rule")


def _bar(words: str, length: float, steps: int, step: float) -> Group:
    ticks = [
        straight(TABLE, Point(step * n, 0.0), Point(step * n, _tick(n, steps))) for n in range(steps + 1)
    ]
    line = straight(TABLE, Point(0.0, 0.0), Point(length, 0.0))
    text = Lettering(words, Point(length + 2.0, 0.0), SMALL, "start", use="check")
    return Group("check-bar", words, (line, *ticks, text), title=f"{words} long when printed true to size")


def _tick(number: int, steps: int) -> float:
    return 3.0 if number in (0, steps) else 2.2 if number * 4 % steps == 0 or number * 2 == steps else 1.4


def legend(kinds: Sequence[LineKind]) -> Group:
    """A sample of each kind of line on the sheet with its meaning, in columns; a mark is shown as its cross, and stitch
    holes only where no stitch line is."""
    told = [kind for kind in LINE_KINDS if kind in kinds and kind.name not in UNTOLD]
    told += [PRICK] if PRICK in kinds and STITCH not in kinds else []
    told += [kind for kind in kinds if kind not in LINE_KINDS]  # those of one sheet alone
    rows = -(-len(told) // COLUMNS)
    groups = [
        legend_entry(kind, (index // rows) * (WIDTH / COLUMNS), -(index % rows) * LINE)
        for index, kind in enumerate(told)
    ]
    return Group("legend", "legend", tuple(groups), title="Kinds of line")


def legend_entry(kind: LineKind, x: float, y: float) -> Group:
    words = Lettering(kind.means, Point(x + SAMPLE + 2.0, y), SMALL, "start", use="legend")
    return Group("legend-entry", kind.name, (*_sample(kind, x, y + SMALL / 2), words))


def _sample(kind: LineKind, x: float, y: float) -> tuple[Stroke | Dots | Ticks, ...]:
    center = Point(x + SAMPLE / 2, y)
    if kind is MARK:
        return cross(kind, center, Vector(1.0, 0.0), SMALL / 2)
    if kind in HATCHED:
        strip = box(center, SAMPLE, SMALL)
        return (Stroke(kind, strip), hatched([strip], HATCHED[kind]))
    drawn = kind if kind is not CUT else SAMPLE_CUT
    line = straight(drawn, Point(x, y), Point(x + SAMPLE, y))
    places = tuple(Point(x + SAMPLE * part, y) for part in (0.1, 0.366, 0.633, 0.9))
    if kind is STITCH:
        return (line, Dots(PRICK, places, 0.8))
    if kind is PRICK:
        return (Dots(PRICK, places, 0.8),)
    if kind is TWICE:
        up = Vector(0.0, SMALL / 2)
        return (Ticks(TWICE, tuple((place + -up, place + up) for place in places)),)
    return (line,)


SAMPLE_CUT = LineKind("sample", CUT.means, CUT.iso, CUT.width)
"""Looks like a cut and is none: a cutter that follows cut lines leaves the legend alone."""


HATCHED = {SKIVE: SKIVED, GLUE: GLUED}


def wording(lines: list[str]) -> Group:
    """The cautions and what else there is to say, line by line."""
    return Group("wording", "wording", tuple(_line_of_words(lines)), title="Cautions and notes")


def _lines(facts: FooterFacts) -> list[str]:
    return [line for lines in _paragraphs(facts) for line in lines]


@lru_cache(maxsize=8)
def _paragraphs(facts: FooterFacts) -> tuple[list[str], ...]:
    """Broken into lines; a sheet asks for them again and again."""
    paragraphs = (f"{facts.units} {CHECK_WORDS} {SHARP_WORDS}", *facts.words)
    return tuple(wrap(words, SMALL, WIDTH) for words in paragraphs)


def _line_of_words(lines: list[str]) -> Iterator[Lettering]:
    for index, line in enumerate(lines):
        yield Lettering(line, Point(0.0, -index * LINE), SMALL, "start", use="caution")
