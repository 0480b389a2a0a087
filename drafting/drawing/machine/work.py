"""What a machine does to a piece: each line with its operation, and the kerf taken off or added.

A cutter that takes away `kerf` mm runs half of it outside an outline and half of it inside an opening or a hole, so
that what is left measures as drafted. Open lines (slits, creases, words) are run along as they are.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from drafting.drawing.machine.engraving import words_on
from drafting.drawing.machine.once import Once
from drafting.drawing.work_view import PLACE
from drafting.geometry.curves import circle
from drafting.geometry.faults import OffsetBreaksUp
from drafting.geometry.nearness import distinct_points
from drafting.geometry.offset import offset_ring
from drafting.geometry.path import Path, Ring
from drafting.geometry.tolerances import SAME_POINT
from drafting.records import dataclass, replace
from drafting.solve.placed import PlacedFeature, PlacedPiece

CREASED = ("crease", "fold", "turn")
BY_HAND = ("skive", "glue")
RANK = ("cut", "inner cut", "punch", "slit", "stitch", "crease", "engrave")
"""Of lines on each other the one of the first of these is kept."""


@dataclass(frozen=True)
class Work:
    """A line to run. `where` names the piece and its part, as `front.window`."""

    operation: str
    where: str
    way: Path | Ring


class KerfFault(Exception):
    """A cutter too wide for a line: `largest` is the widest that does, 0 where none does."""

    def __init__(self, where: str, kerf: float, largest: float) -> None:
        super().__init__(f"{where}: a kerf of {kerf:g} mm is too wide; {largest:g} mm is the most")
        self.where, self.kerf, self.largest = where, kerf, largest


def work_of(piece: PlacedPiece, kerf: float, words: tuple[str, ...]) -> list[Work]:
    """All that is run on a piece, each line once. `words` are the kinds of feature whose words are engraved.

    Raises KerfFault for the first line that the cutter is too wide for.
    """
    drafted = sorted(_drafted(piece, words), key=lambda work: RANK.index(work.operation))
    work = with_kerf(each_once(drafted, kerf), kerf)
    return [one for one in work if one.way.length > 2 * SAME_POINT]


def _drafted(piece: PlacedPiece, words: tuple[str, ...]) -> Iterator[Work]:
    yield Work("cut", f"{piece.name}.outline", piece.cutting)
    for feature in piece.features:
        where = f"{piece.name}.{feature.name}"
        yield from (Work(operation, where, way) for operation, way in lines_of(feature))
        if feature.kind in words:
            yield from (Work("engrave", where, way) for way in words_of(piece, feature))


def words_of(piece: PlacedPiece, feature: PlacedFeature, is_turned: bool = False) -> list[Path | Ring]:
    """Clear of holes and openings where that can be; else where the maker put them."""
    removed = [one for one in piece.features if one.is_removed]
    beside: list[Path | Ring] = [piece.cutting, *(ring for one in removed for ring in one.rings)]
    beside += [circle(hole.center, hole.across / 2) for one in removed for hole in one.holes]
    return words_on(feature, beside, is_turned) or words_on(feature, (), is_turned)


def lines_of(feature: PlacedFeature) -> Iterator[tuple[str, Path | Ring]]:
    """The lines of a feature with their operations."""
    yield from (("punch", circle(hole.center, hole.across / 2)) for hole in feature.holes)
    if feature.is_removed:
        yield from (("inner cut", ring) for ring in feature.rings)
        yield from (("slit", path) for path in feature.paths)
    elif feature.kind in ("slit", "snip", "notch"):
        yield from (("slit", path) for path in feature.paths)
    elif feature.kind in CREASED:
        yield from (("crease", ring) for ring in feature.rings)
        yield from (("crease", path) for path in feature.paths)
    yield from (("stitch", way) for way in _pricks(feature))


def _pricks(feature: PlacedFeature) -> Iterator[Path | Ring]:
    """Slanted marks as slits, round ones as circles; where only a place is told, a small circle."""
    for line in feature.stitches:
        if line.slits:
            yield from (Path((slit,)) for slit in line.slits)
        else:
            yield from (circle(hole.point, (line.across or PLACE) / 2) for hole in line.layout.holes)


def each_once(work: list[Work], kerf: float = 0.0) -> Iterator[Work]:
    """Less what an earlier line covers. Holes in one place are one, the first of them; words stay as they are.

    With a kerf two openings side by side no longer run on one line, so each stays whole.
    """
    once = Once()
    first = [one.way for one in work if _is_hole(one)]
    centers = Counter(distinct_points(way.bounds.center for way in first))
    for one in work:
        if one.operation == "engrave":
            yield one
        elif _is_hole(one):
            if centers[one.way.bounds.center] > 0:
                centers[one.way.bounds.center] -= 1
                yield one
        else:
            left = once.left_of(one.way)
            is_whole = kerf > 0 and isinstance(one.way, Ring) and one.operation != "crease"
            yield from (replace(one, way=way) for way in ([one.way] if left and is_whole else left))


def _is_hole(work: Work) -> bool:
    return work.operation in ("stitch", "punch")


def with_kerf(work: Iterator[Work], kerf: float) -> Iterator[Work]:
    """Outlines larger and openings smaller by half the kerf to each side."""
    for one in work:
        if kerf == 0 or not isinstance(one.way, Ring) or one.operation in ("crease", "engrave"):
            yield one
        else:
            outward = kerf / 2 if one.operation == "cut" else -kerf / 2
            yield replace(one, way=_compensated(one.where, one.way, outward, kerf))


def _compensated(where: str, ring: Ring, outward: float, kerf: float) -> Ring:
    try:
        return offset_ring(ring, outward)
    except OffsetBreaksUp as fault:
        raise KerfFault(where, kerf, 2 * fault.largest) from None
