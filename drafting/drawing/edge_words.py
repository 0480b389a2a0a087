"""How wide strips are, and how far they and creases lie from the edge they run along: what a maker sets a wing divider
or a creaser to.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import chain

from drafting.drawing.amounts import Figures
from drafting.geometry.path import Ring
from drafting.geometry.point import Point
from drafting.geometry.walk import Walk
from drafting.solve.placed import PlacedFeature, PlacedPiece, PlacedSkive

NEAR_EDGE = 15.0
"""In mm; nobody follows an edge that is farther off."""
EVENLY_OFF = 0.02
"""How much the way to the edge may differ along a line that lies evenly beside it, in mm."""
MOSTLY = 0.7
"""So much of a line that is parallel to an edge lies evenly beside it: not its ends, nor its sharp corners."""
ONE_SIDE = 0.3
"""The same of the ring round a strip, which has its other side and its ends, too."""
SAMPLES = 8
"""On each leg."""
FAR_NEARER = 2.0
EDGE, OPENING = "the edge", "the opening"
KINDS = ("skive", "glue", "crease")


def beside_edge_words(feature: PlacedFeature, piece: PlacedPiece, figures: Figures) -> str:
    """`glue 5 wide, 0.5 from the edge`, `skive 12 wide, down to 0.6`, `crease 3 from the opening`; nothing for a crease
    that follows no edge, for its ends tell where it lies."""
    if feature.kind not in KINDS:
        return ""
    told = [*_size_words(feature.sizes), *_gap_words(feature, piece)]
    if isinstance(feature.work, PlacedSkive):
        told.append(("down to {}", (feature.work.left,)))
    if not told:
        return "glue" if feature.kind == "glue" else ""
    words, amounts = ", ".join(words for words, _ in told), [amount for _, part in told for amount in part]
    if len(amounts) == 1:
        words = words.replace("{}", "|{}|")
        return figures.phrase(f"{feature.kind} {words}", *amounts)
    return figures.phrase(f"{feature.kind} |{words}", *amounts)


def _size_words(sizes: Mapping[str, float]) -> Iterator[tuple[str, tuple[float, ...]]]:
    if "wide" in sizes:
        yield "{} wide", (sizes["wide"],)
    elif "width" in sizes and "height" in sizes:
        yield "{} × {}", (sizes["width"], sizes["height"])
    elif "across" in sizes:
        yield "⌀{}", (sizes["across"],)


def _gap_words(feature: PlacedFeature, piece: PlacedPiece) -> Iterator[tuple[str, tuple[float, ...]]]:
    """How far it lies from the nearest edge that it follows, unless it lies on one."""
    share = ONE_SIDE if "wide" in feature.sizes else MOSTLY
    gap = min(_gaps(feature, piece, share), key=_preference, default=None)
    if gap is not None and gap[0] > EVENLY_OFF:
        yield f"{{}} from {gap[1]}", (gap[0],)


def _preference(gap: tuple[float, str]) -> float:
    """The edge of the piece comes before an opening unless this is far nearer."""
    return gap[0] if gap[1] == EDGE else FAR_NEARER * gap[0]


def _gaps(feature: PlacedFeature, piece: PlacedPiece, share: float) -> Iterator[tuple[float, str]]:
    """The edges that all lines of a feature lie evenly beside, of the piece or of an opening in it, with the way to
    each."""
    points = [point for way in (*feature.rings, *feature.paths) for point in _samples(way)]
    openings = (ring for other in piece.features if other.kind == "opening" for ring in other.rings)
    edges = chain([(piece.outline, EDGE)], ((ring, OPENING) for ring in openings))
    for edge, name in edges:
        gap = even_gap(points, edge, share)
        if gap is not None:
            yield gap, name


def even_gap(points: Sequence[Point], edge: Ring, share: float) -> float | None:
    """The least way from points to an edge, where that `share` of them is as far off."""
    ways = [edge.distance_to_point(point) for point in points]
    least = min(ways, default=NEAR_EDGE + 1.0)
    if least > NEAR_EDGE:
        return None
    return least if sum(way - least < EVENLY_OFF for way in ways) >= share * len(ways) else None


def _samples(way: Walk) -> Iterator[Point]:
    """Places all along a line, as far apart on short legs as on long ones."""
    count = SAMPLES * len(way.legs)
    return (way.point_at(way.length * (index + 0.5) / count) for index in range(count))
