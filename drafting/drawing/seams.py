"""Which seam meets which: a letter for each join, the same at every stitch line of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from string import ascii_uppercase

from drafting.drawing.amounts import Figures
from drafting.solve.placed import Placed, PlacedJoin

Letters = Mapping[str, tuple[str, ...]]
"""The letters of a stitch line, by its name with its piece: `gusset.near'`."""


def letter(index: int) -> str:
    """`A` to `Z`, then `AA`, `AB` ..."""
    before, last = divmod(index, len(ascii_uppercase))
    return (letter(before - 1) if before else "") + ascii_uppercase[last]


def seam_letters(joins: Sequence[PlacedJoin]) -> Letters:
    """All letters, in the order of the joins."""
    letters: dict[str, tuple[str, ...]] = {}
    for index, join in enumerate(joins):
        for line in dict.fromkeys(join.lines):
            letters[line] = (*letters.get(line, ()), letter(index))
    return letters


def letter_words(letters: Sequence[str]) -> str:
    """`seam A`, `seams A, C`, or nothing."""
    if not letters:
        return ""
    return f"seam{'s' if len(letters) > 1 else ''} {', '.join(letters)}"


def join_remarks(placed: Placed, figures: Figures) -> tuple[str, ...]:
    """A sentence for each join: its letter, its lines, how they run and what each two differ by."""
    return tuple(_join_words(letter(index), join, figures) for index, join in enumerate(placed.joins))


def _join_words(name: str, join: PlacedJoin, figures: Figures) -> str:
    first, *others = join.lines
    backward = ", from its other end" if join.is_reversed else ""
    counts = sorted({count for pair in join.pairs for count in pair.stitches})
    told = f", {counts[0]} stitches each" if len(counts) == 1 else ""
    longer = "".join(
        f"; {pair.first} is {figures.told('{}', abs(pair.difference))} {'longer' if pair.difference > 0 else 'shorter'}"
        for pair in join.pairs
        if abs(pair.difference) >= LEAST_DIFFERENCE
    )
    note = f" ({join.note})" if join.note else ""
    return f"Seam {name}: {first} with {' and '.join(others)}{backward}{told}{longer}.{note}"


LEAST_DIFFERENCE = 0.05
"""In mm; what differs by less is the same to a maker."""
