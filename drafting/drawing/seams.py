"""Which seam meets which: a letter for each join, the same at every stitch line of it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise
from string import ascii_uppercase

from drafting.drawing.amounts import Figures
from drafting.solve.placed import Placed, PlacedJoin

Letters = Mapping[str, tuple[str, ...]]
"""The letters of a stitch line, by its name with its piece: `gusset.near'`."""


def letter(index: int) -> str:
    """`A` to `Z`, then `AA`, `AB` ..."""
    before, last = divmod(index, len(ascii_uppercase))
    return (letter(before - 1) if before else "") + ascii_uppercase[last]


def seam_letters(placed: Placed) -> Letters:
    """All letters, in the order of the joins. Twins of lines that are joined meet as these do, unless they have joins
    of their own."""
    letters: dict[str, tuple[str, ...]] = {}
    for index, join in enumerate(placed.joins):
        for line in dict.fromkeys(join.lines):
            letters[line] = (*letters.get(line, ()), letter(index))
    return {**_letters_of_twins(placed, letters), **letters}


def _letters_of_twins(placed: Placed, letters: Letters) -> dict[str, tuple[str, ...]]:
    lines = {
        f"{piece.name}.{line.name}"
        for piece in placed.pieces.values()
        for feature in piece.features
        for line in feature.stitches
    }
    twins: dict[str, tuple[str, ...]] = {}
    for index, join in enumerate(placed.joins):
        met = [f"{line}'" for line in dict.fromkeys(join.lines)]
        if lines.issuperset(met) and not any(line in letters for line in met):
            twins.update({line: (*twins.get(line, ()), letter(index)) for line in met})
    return twins


def letter_words(letters: Sequence[str]) -> str:
    """`seam A`, `seams A, C`, or nothing; three and more that follow each other are `seams A to G`."""
    if not letters:
        return ""
    if len(letters) > 2 and _follow_each_other(letters):
        return f"seams {letters[0]} to {letters[-1]}"
    return f"seam{'s' if len(letters) > 1 else ''} {', '.join(letters)}"


def _follow_each_other(letters: Sequence[str]) -> bool:
    return all(_place(after) == _place(before) + 1 for before, after in pairwise(letters))


def _place(name: str) -> int:
    """Of a letter in their order."""
    place = 0
    for one in name:
        place = place * len(ascii_uppercase) + ascii_uppercase.index(one) + 1
    return place


def all_letters(lines: Iterable[Sequence[str]]) -> tuple[str, ...]:
    """The letters of some lines, each once."""
    return tuple(dict.fromkeys(one for line in lines for one in line))


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
