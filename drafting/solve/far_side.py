"""What is drafted on the far side of a mirror line, where only twins belong.

Takes a mirrored piece, its outline's drafted half being a path, and the same piece placed. A name means the drafted
half, so `heel` on the far side has its twin `heel'` on this one, and whoever reads the text looks for it on the wrong
side. What is only drafted against (the centre of an arc, a guide and what it is made from) may lie anywhere.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from drafting.geometry.point import Point
from drafting.geometry.tolerances import SAME_POINT
from drafting.model.pattern import PathForm, Piece, PointRef, ShapePart
from drafting.solve.outlines import mirror_points
from drafting.solve.placed import PlacedFeature, PlacedPiece
from drafting.solve.reading import Reader, references_in
from drafting.text.catalogue import shapes as says
from drafting.text.messages import Messages
from drafting.text.source import Span


def tell_far_side(reader: Reader, piece: Piece, placed: PlacedPiece | None, messages: Messages) -> None:
    """A warning for each point and each feature on the side that the outline is not drafted on."""
    drafted = _drafted_corner(reader, piece)
    if drafted is None or piece.mirror is None:
        return
    corner, side = drafted
    told: set[PointRef] = set()
    for name, span, needs, places, once in (*_points(reader, piece), *_features(piece, placed)):
        is_far = all(_side(reader, piece, place) * side < -SAME_POINT for place in places)
        if is_far and told.isdisjoint(needs):
            told.update(needs if not once else ())
            messages.add(
                says.FAR_SIDE,
                at=span,
                name=name,
                line=f"{piece.mirror.start.text}..{piece.mirror.end.text}",
                corner=corner,
                once=once,
            )


Drafted = tuple[str, Span, set[PointRef], tuple[Point, ...], str]
"""A name, where it stands, the points it is or is made from, the places it takes up, and what more a mend may say."""


def _side(reader: Reader, piece: Piece, point: Point) -> float:
    """How far to the left of the mirror line a place lies, in mm."""
    assert piece.mirror is not None
    start, end = mirror_points(reader, piece.mirror)
    return (end - start).unit().cross(point - start)


def _drafted_corner(reader: Reader, piece: Piece) -> tuple[str, float] | None:
    """A corner of the half that the outline is drafted as, and its side, +1 or -1."""
    form = piece.outline.form if piece.outline else None
    if piece.mirror is None or not isinstance(form, PathForm):
        return None
    for leg in form.legs:
        off = _side(reader, piece, reader.point(leg.to))
        if abs(off) > SAME_POINT:
            return leg.to.text, 1.0 if off > 0 else -1.0
    return None


def _points(reader: Reader, piece: Piece) -> Iterator[Drafted]:
    free = set(_only_drafted_against(piece))
    for part in piece.points:
        point = reader.values.get(part.ref.key)
        if isinstance(point, Point) and part.ref not in free:
            yield part.ref.name, part.span, {part.ref}, (point,), ""


def _only_drafted_against(piece: Piece) -> Iterator[PointRef]:
    shapes: Iterable[ShapePart] = (*([piece.outline] if piece.outline else []), *piece.features)
    for shape in shapes:
        legs = shape.form.legs if isinstance(shape.form, PathForm) else ()
        yield from (leg.bow.point for leg in legs if leg.bow.kind == "about" and leg.bow.point)
    yield from (ref for guide in piece.guides for ref in references_in(guide) if isinstance(ref, PointRef))


def _features(piece: Piece, placed: PlacedPiece | None) -> Iterator[Drafted]:
    made = {feature.name: feature for feature in placed.features} if placed else {}
    for part in piece.features:
        feature = made.get(part.name)
        places = tuple(_places(feature)) if feature and not part.once else ()
        needs = {ref for ref in references_in((part.form, part.placing)) if isinstance(ref, PointRef)}
        if places:
            yield part.name, part.name_span, needs, places, ", or add `once` to make it there alone"


def _places(feature: PlacedFeature) -> Iterator[Point]:
    for line in (*feature.rings, *feature.paths):
        yield from (
            point for leg in line.legs for point in (leg.start, leg.point_at(leg.length / 2), leg.end)
        )
    yield from (hole.center for hole in feature.holes)
    if feature.center is not None:
        yield feature.center
