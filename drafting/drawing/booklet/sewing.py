"""How an item is sewn: its seams with their thread, where each one starts, and how a saddle stitch is made."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from drafting.craft.lists.order import Entry
from drafting.craft.thread import NEEDLES
from drafting.drawing.amounts import Figures
from drafting.drawing.booklet.contents import Words
from drafting.drawing.lists.order_tables import seams_table
from drafting.drawing.lists.table import Table
from drafting.drawing.seams import Letters, all_letters, join_remarks, letter_words, seam_letters
from drafting.drawing.work_words import alike_lines
from drafting.solve.placed import Placed, PlacedStitches

HOW = (
    f"Sew with a saddle stitch: one thread as long as the table says, with a needle at each of its {NEEDLES} ends.",
    "Pull the thread through the first hole to its middle. In every hole that follows, both needles go through, one "
    "from each side and always the same one first; then draw both ends tight, alike each time.",
    "At the end go back two or three stitches, or as many as the line says, cut close, and press or melt the ends as "
    "the thread asks for.",
)
"""Common practice, no source; the way of the thread is that of `craft/thread.py`."""


def sewing_parts(placed: Placed, entry: Entry, figures: Figures) -> Iterator[Words | Table]:
    """Nothing for an item that is not sewn."""
    lines = tuple(_lines(placed, figures))
    if not lines:
        return
    yield Words(HOW)
    yield Words(lines, is_list=True)
    joins = join_remarks(placed, figures)
    if joins:
        yield Words(joins, is_list=True)
    table = seams_table(entry)
    yield Table("Thread for each seam", table.columns, table.rows, table.remarks).filled


def _lines(placed: Placed, figures: Figures) -> Iterator[str]:
    """Its name, how many stitches, how far apart, and where to start; lines of which the same is told together."""
    letters = seam_letters(placed)
    told: dict[str, list[str]] = {}
    for piece in placed.pieces.values():
        for feature in piece.features:
            for lines in _by_start(feature.stitches):
                for group, words in alike_lines(lines, piece.outline, figures):
                    names = [f"{piece.name}.{line.name}" for line in group]
                    is_all = len(group) == len(feature.stitches)
                    named = _names_words(names, is_all, letters)
                    told.setdefault(f"{words}{_start(group[0])}", []).append(named)
    yield from (f"{', '.join(names)}: {words}." for words, names in told.items())


def _by_start(lines: Iterable[PlacedStitches]) -> Iterable[list[PlacedStitches]]:
    """The lines of one stitch, those together that start alike."""
    alike: dict[str, list[PlacedStitches]] = {}
    for line in lines:
        alike.setdefault(_start(line), []).append(line)
    return alike.values()


def _names_words(names: Sequence[str], is_all: bool, letters: Letters) -> str:
    """`roll.seams.1 to roll.seams.7 (seams A to G)`, if these are all lines of the stitch; else each name."""
    seam = letter_words(all_letters(letters.get(name, ()) for name in names))
    told = f"{names[0]} to {names[-1]}" if is_all and len(names) > 2 else ", ".join(names)
    return f"{told} ({seam})" if seam else told


def _start(line: PlacedStitches) -> str:
    """Where the first hole is, in the words of the eye."""
    if line.is_pricked or not line.layout.holes:
        return "; its holes are pricked through from the other piece"
    if line.layout.is_ring:
        return f"; starts and ends in the same hole, {_side(line)}"
    return f"; starts {_side(line)}"


def _side(line: PlacedStitches) -> str:
    """`at the top left` of what the line covers."""
    box = line.layout.line.bounds
    first = line.layout.holes[0].point
    up = "" if box.height < 1.0 else _third(first.y, box.min_y, box.max_y, ("bottom", "", "top"))
    across = "" if box.width < 1.0 else _third(first.x, box.min_x, box.max_x, ("left", "", "right"))
    words = " ".join(word for word in (up, across) if word)
    return f"at the {words}" if words else "in the middle"


def _third(at: float, low: float, high: float, names: tuple[str, str, str]) -> str:
    return names[min(2, max(0, int(3 * (at - low) / (high - low))))]
