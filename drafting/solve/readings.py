"""What can be read off lines and rings: points by word, and lengths, widths, areas and gaps.

Takes the values of lines; gives points and numbers. `.width`, `.height` and the sides are as a thing lies on the
sheet.
"""

from __future__ import annotations

from collections.abc import Sequence

from drafting.geometry.extremes import extremes
from drafting.geometry.maths import plain_number
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point, Vector
from drafting.geometry.tolerances import SAME_POINT
from drafting.model.pattern import LineRef, PointRef, RoundForm, RowForm, ShapePart, SlotForm
from drafting.model.scope import BAND_CORNERS, BOX_CORNERS
from drafting.solve.lines import AnyLine, OutlineLine, RowLine, Unbuildable
from drafting.solve.reading import Reader
from drafting.solve.ways import as_drawn
from drafting.text.catalogue import shapes as says
from drafting.text.source import Span

SIDES = {"top": (0, 1), "bottom": (0, -1), "left": (-1, 0), "right": (1, 0)}


def part_of(line: AnyLine, name: str, part: str | None, is_corner: bool, span: Span) -> Point:
    """A point of a line by the word after its dot, or a corner of the outline by its name."""
    if isinstance(line, RowLine):
        return line.center
    if isinstance(line, OutlineLine) and is_corner:
        return _corner(line, name, part, span)
    if part in (*BOX_CORNERS, *BAND_CORNERS) and part in line.corners:
        return line.corners[part]
    if part in SIDES and isinstance(line, OutlineLine) and set(BOX_CORNERS) <= set(line.corners):
        return _box_side(line, part or "")
    if part in SIDES:
        return farthest_place(line.path, part or "", name, span)
    if part == "centre":
        return line.path.bounds.center
    return _along(line.path, name, part or "mid", span)


def _corner(line: OutlineLine, name: str, part: str | None, span: Span) -> Point:
    station = line.station(name)
    if station is None:
        raise AssertionError(f"{name} is no corner of the outline, and the binder lets no such name pass")
    return station.point if part is None else line.ring.point_at(station.at(part))


def _box_side(line: OutlineLine, side: str) -> Point:
    """The middle of a side of a box, sharp corner to sharp corner: rounding a corner moves no place."""
    first, second = (line.corners[name] for name in BOX_CORNERS if side in name.split("_"))
    return first.midway(second)


def _along(path: Path | Ring, name: str, part: str, span: Span) -> Point:
    if isinstance(path, Ring):
        way, _, word = name.rpartition(".")
        raise Unbuildable(says.RING_HAS_NO_ENDS, span, way=way or name, part=word or part)
    return {"start": path.start, "end": path.end}.get(part, path.midpoint)


def farthest_place(path: Path | Ring, side: str, name: str, span: Span) -> Point:
    """The place of a line that lies farthest to one side; the middle of it where the line runs square to the side."""
    x, y = SIDES[side]
    points = [point for leg in path.legs for point in extremes(leg, Vector(float(x), float(y)))]
    most = max(point.x * x + point.y * y for point in points)
    reached = [point for point in points if point.x * x + point.y * y > most - SAME_POINT]
    spread = [point.y if x else point.x for point in reached]
    low, high = min(spread), max(spread)
    middle = Point(most * x, (low + high) / 2) if x else Point((low + high) / 2, most * y)
    if path.locate(middle) is None:
        toward = {"top": "up", "bottom": "down"}.get(side, side)
        raise Unbuildable(says.SEVERAL_TOPS, span, name=name, side=toward)
    return middle


# Numbers


def read_off(
    reader: Reader, what: str, refs: Sequence[PointRef | LineRef], parts: Sequence[ShapePart | None]
) -> float:
    """One number read off the things named."""
    if what == "gap":
        return gap(*(_paths(reader, ref) for ref in refs))
    form = parts[0].form if parts[0] is not None else None
    said = _said(reader, what, form)
    if said is not None:
        return said
    line = reader.line_or_row(refs[0]) if isinstance(refs[0], LineRef) else None
    if isinstance(line, RowLine):
        return _of_row(line, what)
    if line is None:
        raise AssertionError(f"nothing has a {what} here")
    path, inner = line.path, as_drawn(line).inner
    what = what.removeprefix("cut_")
    if what == "length":
        return path.length + (inner.length if inner else 0.0)
    if what == "area" and isinstance(path, Ring):
        return path.area - (inner.area if inner else 0.0)
    return path.bounds.width if what == "width" else path.bounds.height


def _of_row(row: RowLine, what: str) -> float:
    """What is read off a row along a line, which does not say it in so many words."""
    count = len(row.centers)
    sizes = {"holes": count, "apart": row.apart, "across": row.across, "long": row.apart * (count - 1)}
    return plain_number(sizes[what])


def _said(reader: Reader, what: str, form: object) -> float | None:
    """Sizes that a form says in so many words."""
    match form, what:
        case SlotForm(long=long), "long":
            return reader.number(long)
        case SlotForm(wide=wide), "wide":
            return reader.number(wide)
        case (RoundForm(across=across), "across") | (RowForm(across=across), "across"):
            return reader.number(across)
        case RowForm(apart=apart), "apart":
            return reader.number(apart)
        case RowForm(holes=holes), "holes":
            return reader.number(holes)
        case RowForm(apart=apart, holes=holes), "long":
            return reader.number(apart) * (reader.number(holes) - 1)
    return None


Spots = Sequence[Path | Ring | Point]


def _paths(reader: Reader, ref: PointRef | LineRef) -> Spots:
    if isinstance(ref, PointRef):
        return (reader.point(ref),)
    line = reader.line_or_row(ref)
    return line.rings if isinstance(line, RowLine) else as_drawn(line).edges


def gap(first: Spots, second: Spots) -> float:
    """The smallest distance from anything of the first to anything of the second; 0 where they cross."""
    return min(_gap_between(one, other) for one in first for other in second)


def _gap_between(one: Path | Ring | Point, other: Path | Ring | Point) -> float:
    if isinstance(one, Point):
        return one.distance_to(other) if isinstance(other, Point) else other.distance_to_point(one)
    if isinstance(other, Point):
        return one.distance_to_point(other)
    return one.distance_to(other)
