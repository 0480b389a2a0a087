"""Lines and rings of a piece, as they are while a plan is evaluated.

A Drawn is any named line: a walk on a ring, a closed ring, or a free path. It remembers the ring it walks on, since
only a ring has an inside. An OutlineLine adds the stations: where along the ring each corner begins, is and ends.
"""

from __future__ import annotations

from collections.abc import Mapping

from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.records import dataclass, field, replace
from drafting.text.messages import Entry, Message, Messages
from drafting.text.source import Span


class Unbuildable(Exception):
    """A shape that cannot be made, as the message that says why."""

    def __init__(self, entry: Entry, at: Span, **facts: str | int) -> None:
        messages = Messages()
        messages.say(entry, at, facts)
        self.message: Message = messages.found[0]
        self.others: tuple[Message, ...] = ()
        """Of the same shape, what else is wrong with it."""
        super().__init__(self.message.says)


@dataclass(frozen=True)
class Swing:
    """A stretch of a smooth leg that swings both ways: the end of the leg, and the place after which it does."""

    to: str
    after: str


@dataclass(frozen=True)
class Walked:
    """That a path goes along `ring` from `start` to `end` (lengths along it), forward or backward."""

    ring: Ring
    start: float
    end: float
    forward: bool


@dataclass(frozen=True)
class Drawn:
    """A line by name. `corners` are the named points that its shape gives it, such as `top_left`."""

    path: Path | Ring
    walked: Walked | None = None
    corners: Mapping[str, Point] = field(default_factory=dict)
    swings: tuple[Swing, ...] = ()
    inner: Ring | None = None
    """The inner edge of a band all round a ring: then the thing is what lies between this and `path`."""

    def mirrored(self, a: Point, b: Point) -> Drawn:
        """Its twin. The twin of a walk goes the other way round the mirrored ring."""
        walked = None
        if self.walked:
            ring = self.walked.ring.mirrored(a, b).reversed()
            length = ring.length
            walked = Walked(
                ring, length - self.walked.start, length - self.walked.end, not self.walked.forward
            )
        path = self.path.mirrored(a, b)
        if isinstance(path, Ring):
            path = path.reversed()
        corners = {name: point.mirrored(a, b) for name, point in self.corners.items()}
        inner = self.inner.mirrored(a, b).reversed() if self.inner else None
        return Drawn(path, walked, corners, inner=inner)

    @property
    def edges(self) -> tuple[Path | Ring, ...]:
        """The line itself; of a band all round a ring both its edges."""
        return (self.path,) if self.inner is None else (self.path, self.inner)


@dataclass(frozen=True)
class Station:
    """A named place on the outline, by lengths along its ring; a sharp one has all three the same.

    `kind` is `sharp`, `fillet` or `clip`; `size` and `second_size` are its radius or its two lengths.
    """

    name: str
    point: Point
    start: float
    mid: float
    end: float
    kind: str = "sharp"
    size: float = 0.0
    second_size: float = 0.0

    def at(self, part: str | None) -> float:
        return {"start": self.start, "end": self.end}.get(part or "mid", self.mid)


@dataclass(frozen=True)
class OutlineLine:
    """The whole outline with its stations in walking order; twins are stations of their own, `heel'`."""

    ring: Ring
    stations: tuple[Station, ...]
    corners: Mapping[str, Point] = field(default_factory=dict)
    swings: tuple[Swing, ...] = ()

    @property
    def path(self) -> Ring:
        return self.ring

    @property
    def drawn(self) -> Drawn:
        return Drawn(self.ring, None, self.corners, self.swings)

    def station(self, name: str) -> Station | None:
        return next((station for station in self.stations if station.name == name), None)


@dataclass(frozen=True)
class RowLine:
    """A row of round holes, in order along its direction or its line; `apart` is measured along the line."""

    center: Point
    centers: tuple[Point, ...]
    rings: tuple[Ring, ...]
    apart: float
    across: float

    def mirrored(self, a: Point, b: Point) -> RowLine:
        centers = tuple(center.mirrored(a, b) for center in self.centers)
        rings = tuple(ring.mirrored(a, b).reversed() for ring in self.rings)
        return replace(self, center=self.center.mirrored(a, b), centers=centers, rings=rings)


AnyLine = Drawn | OutlineLine | RowLine
