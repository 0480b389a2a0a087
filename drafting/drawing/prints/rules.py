"""The rules on each sheet, to hold a real one against: 100 mm and 4 in from one zero, both ways.

A printer may stretch one way and not the other, so there is one along the bottom and one up the left side.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from drafting.drawing.arrows import straight
from drafting.drawing.lines import TABLE
from drafting.drawing.marks import Group, Lettering, Stroke, Ticks
from drafting.drawing.prints.papers import INCH, MARGIN, RULES, WORDS
from drafting.geometry.point import Point

MILLIMETRES = 100.0
INCHES = 4
TICK, SHORT_TICK = 2.4, 1.4
FIGURES = 1.8


@cache
def rules() -> Group:
    """Both rules of a sheet, which are the same on all."""
    zero = Point(MARGIN + RULES, MARGIN + WORDS + RULES / 2)
    upright = Point(MARGIN + RULES / 2, MARGIN + WORDS + RULES)
    level = Group("rule", "level", tuple(_rule()), title="100 mm and 4 in, level").moved(zero - Point(0, 0))
    plumb = Group("rule", "plumb", tuple(_rule()), title="100 mm and 4 in, plumb").quarter_turned()
    return Group("rules", "rules", (level, plumb.moved(upright - Point(0, 0))), title="rules")


def _rule() -> Iterator[Stroke | Ticks | Lettering]:
    """From (0, 0) to the right: millimetres below the line, inches above."""
    yield straight(TABLE, Point(0, 0), Point(INCHES * INCH, 0))
    centimetres = [
        (centimetre * 10.0, -(TICK if centimetre % 5 == 0 else SHORT_TICK))
        for centimetre in range(int(MILLIMETRES) // 10 + 1)
    ]
    inches = [(inch * INCH, TICK) for inch in range(INCHES + 1)]
    yield Ticks(TABLE, tuple((Point(at, 0), Point(at, high)) for at, high in (*centimetres, *inches)))
    for at, words in ((50.0, "50"), (95.0, "100 mm")):
        yield Lettering(words, Point(at, -TICK - 2.2), FIGURES, "middle", use="rule")
    yield Lettering("0", Point(0, -TICK - 2.2), FIGURES, "middle", use="rule")
    for at, words in ((INCH, "1"), (2 * INCH, "2"), (3 * INCH, "3"), (4 * INCH - 3, "4 in")):
        yield Lettering(words, Point(at, TICK + 0.6), FIGURES, "middle", use="rule")
