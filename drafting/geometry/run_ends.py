"""How an offset of an open run ends.

Where the run ends at a corner, the offset runs on, or is cut, to where the offset of the next leg is;
elsewhere it ends square across. A start is the end of the run walked backward.
"""

from __future__ import annotations

from math import pi

from drafting.geometry.arc import Arc
from drafting.geometry.intersect import path_intersections
from drafting.geometry.leg import Leg
from drafting.geometry.line import Line
from drafting.geometry.moved_legs import Corner, moved_leg
from drafting.geometry.path import Path
from drafting.geometry.point import Point, Vector
from drafting.geometry.tolerances import FULL_TURN, MITRE_LIMIT, SAME_POINT, SMOOTH
from drafting.records import dataclass

_AS_FAR_AS_NEEDED = 1000.0


@dataclass(frozen=True)
class RunEnd:
    """The last leg of a run, the leg that follows it on its ring if any, and the distance moved to the left."""

    last: Leg
    following: Leg | None
    to_left: float

    @property
    def corner(self) -> Corner | None:
        """The corner the run ends at, when it ends at one."""
        if self.following is None:
            return None
        corner = Corner(self.last, self.following, self.to_left)
        return corner if abs(corner.turn) > SMOOTH else None

    @property
    def _across(self) -> Vector:
        """From the end of the run square to the side it is moved to, by the distance."""
        return self.last.direction_at(self.last.length).turned_left() * self.to_left

    @property
    def _foot(self) -> Point:
        return self.last.end + self._across

    def cutters(self) -> tuple[Leg, ...]:
        """Where the moved legs must be cut so that each slice is good or bad as a whole: all round the end
        of the run, and where the leg that follows is moved to.
        """
        start = self._across.angle
        around = tuple(Arc(self.last.end, abs(self.to_left), start + half, pi) for half in (0.0, pi))
        following = moved_leg(self.following, self.to_left) if self.following else None
        return (*around, following) if following else around

    def finish(self, line: Path) -> Path | None:
        """The offset with its end as it should be; None where it has no such end."""
        corner = self.corner
        reaches = line.end.distance_to(self._foot) <= 4 * SAME_POINT
        if corner is not None and corner.is_overlap:
            return self._cut_to_meet(line, corner)
        if not reaches:
            return cut_by(line, self._gate(corner))
        return line if corner is None or not corner.is_gap else _run_on_to_meet(line, corner)

    def meeting_place(self) -> Point:
        """About where the moved legs meet when the run goes all round and starts where it ends."""
        corner = self.corner
        if corner is None:
            return self._foot
        moved = moved_leg(self.last, self.to_left)
        if not corner.is_gap or moved is None:
            return self.last.end
        return _run_on_to_meet(Path((moved,)), corner).end

    def _cut_to_meet(self, line: Path, corner: Corner) -> Path | None:
        following = moved_leg(corner.after, self.to_left)
        if following is None:
            return cut_by(line, self._gate(corner))
        return cut_by(line, following) or cut_by(line, _lengthened(following))

    def _gate(self, corner: Corner | None) -> Line:
        """The line square across the end of the run; at a corner the one that halves it."""
        across = self._across
        if corner is not None:
            across = (corner.foot_before - corner.place) + (corner.foot_after - corner.place)
        return Line(self.last.end, self.last.end + across.unit() * (abs(self.to_left) * MITRE_LIMIT))


def cut_by(line: Path, leg: Leg) -> Path | None:
    """The line up to the last place where it meets a leg; None where it does not, or nothing is left."""
    meetings = path_intersections(line, Path((leg,)))
    if not meetings or meetings[-1].s_a <= SAME_POINT:
        return None
    return line.part(0.0, meetings[-1].s_a)


def _lengthened(leg: Leg) -> Leg:
    """A leg that goes on as what it is beyond its end, for when the next leg is too short to be met."""
    if isinstance(leg, Line):
        return Line(leg.start, leg.start + leg.direction * (leg.length * _AS_FAR_AS_NEEDED))
    rest = max(FULL_TURN - abs(leg.sweep), 0.0)
    return Arc(leg.center, leg.radius, leg.start_angle, leg.sweep + leg.turning * rest / 2)


def _run_on_to_meet(line: Path, corner: Corner) -> Path:
    """The offset made longer to the mitre, or by half the rounding where there is no mitre."""
    mitre = corner.mitre(line.legs[-1], moved_leg(corner.after, corner.distance))
    if mitre is not None:
        return Path((*line.legs[:-1], mitre.before))
    (rounding,) = corner.rounded()
    return Path((*line.legs, rounding.part(0.0, rounding.length / 2)))
