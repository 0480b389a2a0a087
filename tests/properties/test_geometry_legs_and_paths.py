"""What holds for every leg, path and ring, with shapely as the other opinion on areas, insides and meetings."""

from __future__ import annotations

import itertools
from math import hypot

import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st

from drafting.geometry.curves import arc_tangent, arc_through, biarc, smooth_legs
from drafting.geometry.faults import GeometryFault
from drafting.geometry.intersect import leg_intersections, path_intersections
from drafting.geometry.leg import Leg, turn_between
from drafting.geometry.nearness import leg_gap
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point, Vector
from drafting.geometry.tolerances import SAME_POINT
from drafting.geometry.trim import cut_ring, lines_across
from tests.geometry.figures import as_line, as_polygon, near
from tests.geometry.random_figures import angles, directions, legs, lengths, paths, points, rings, shares

whole_walks = st.one_of(paths(), rings())


def same_line(a: Path | Ring, b: Path | Ring, within: float = 1e-7) -> bool:
    """Alike place by place."""
    steps = [index / 12 for index in range(13)]
    return abs(a.length - b.length) <= within and all(
        near(a.point_at(share * a.length), b.point_at(share * b.length), within) for share in steps
    )


@given(whole_walks)
def test_reversing_twice_changes_nothing(walk: Path | Ring) -> None:
    back = walk.reversed()
    assert near(back.start, walk.end) and back.length == pytest.approx(walk.length)
    assert same_line(back.reversed(), walk)


@given(whole_walks, points, points)
def test_mirroring_twice_changes_nothing(walk: Path | Ring, a: Point, b: Point) -> None:
    """And once turns every corner the other way."""
    assume(a.distance_to(b) > 1)
    twin = walk.mirrored(a, b)
    assert same_line(twin.mirrored(a, b), walk)
    assert twin.length == pytest.approx(walk.length)
    turned = [
        (turn + other) % (2 * 3.141592653589793) for turn, other in zip(twin.turns, walk.turns, strict=True)
    ]
    assert all(min(turn, 2 * 3.141592653589793 - turn) < 1e-6 for turn in turned)


@given(rings(), angles, points, directions)
def test_moving_and_turning_keep_length_and_area(
    ring: Ring, angle: float, about: Point, move: Vector
) -> None:
    there = ring.turned(angle, about).moved(move * 50)
    assert there.length == pytest.approx(ring.length) and there.area == pytest.approx(ring.area)
    assert there.is_anticlockwise == ring.is_anticlockwise


@given(rings(), lengths(0.01, 100), points)
def test_scaling_scales_lengths_and_areas(ring: Ring, factor: float, about: Point) -> None:
    """Length by the factor, area by its square."""
    there = ring.scaled(factor, about)
    assert there.length == pytest.approx(ring.length * factor)
    assert there.area == pytest.approx(ring.area * factor**2)


@given(whole_walks, st.lists(shares, min_size=1, max_size=5))
def test_the_lengths_of_parts_add_up(walk: Path | Ring, cuts: list[float]) -> None:
    stops = sorted({0.0, *(share * walk.length for share in cuts), walk.length})
    stops = [stop for index, stop in enumerate(stops) if index == 0 or stop - stops[index - 1] > 1e-3]
    assume(len(stops) > 2 and walk.length - stops[-1] < 1e-3)
    parts = [
        walk.part(low, high if high < walk.length else 0.0)
        if isinstance(walk, Ring)
        else walk.part(low, high)
        for low, high in itertools.pairwise(stops)
    ]
    assert sum(part.length for part in parts) == pytest.approx(stops[-1], abs=1e-5)
    assert all(near(a.end, b.start, 1e-6) for a, b in itertools.pairwise(parts))


@given(rings(), shares)
def test_a_place_is_found_where_it_lies(ring: Ring, share: float) -> None:
    """locate undoes point_at on a ring that does not meet itself."""
    s = ring.within(share * ring.length)
    found = ring.locate(ring.point_at(s))
    assert found is not None
    apart = abs(found - s)
    assert min(apart, ring.length - apart) < 1e-5


@given(whole_walks, points)
def test_the_nearest_place_is_nearest(walk: Path | Ring, point: Point) -> None:
    """No sampled place is nearer, and the place and the length along agree."""
    s, place = walk.nearest(point)
    assert near(walk.point_at(s), place, 1e-6)
    least = min(walk.point_at(walk.length * index / 200).distance_to(point) for index in range(201))
    assert place.distance_to(point) <= least + 1e-9
    assert walk.distance_to_point(point) == pytest.approx(place.distance_to(point))


@given(rings())
def test_area_agrees_with_shapely(ring: Ring) -> None:
    """The other opinion has facets, so it is a little off: by at most the bow of a facet all round."""
    other = as_polygon(ring, step=0.005)
    bow = max((getattr(leg, "radius", 0.0) for leg in ring.legs), default=0.0) * 0.005**2 / 8
    assert abs(ring.area - other.area) <= bow * ring.length + 1e-6
    assert near(ring.centroid, Point(other.centroid.x, other.centroid.y), 1e-2)


@given(rings(), points)
def test_inside_agrees_with_shapely(ring: Ring, point: Point) -> None:
    """Away from the line itself, where facets would tell another tale."""
    assume(ring.distance_to_point(point) > 0.02)
    inside = as_polygon(ring).contains(shapely.Point(point.x, point.y))
    assert ring.contains(point) == ring.contains_strictly(point) == inside


@given(rings(), shares, st.booleans())
def test_a_step_inward_is_inside(ring: Ring, share: float, is_level: bool) -> None:
    """Also exactly level with a corner."""
    s = share * ring.length
    assume(all(abs(s - corner) > 0.01 for corner in (*ring.corner_places, ring.length)))
    point = ring.point_at(s) + ring.inward_at(s) * 1e-4
    if is_level:
        point = Point(point.x, ring.corners[0].y)
        assume(ring.distance_to_point(point) > 0.05)
        assert ring.contains(point) == as_polygon(ring).contains(shapely.Point(point.x, point.y))
    else:
        assume(ring.distance_to_point(point) > 0.9e-4)
        assert ring.contains_strictly(point)


@given(paths(), paths())
def test_meetings_agree_with_shapely(a: Path, b: Path) -> None:
    """A crossing of facets has a meeting near, unless it is a touch missed by a hair."""
    found = path_intersections(a, b)
    for meeting in found:
        assert near(a.point_at(meeting.s_a), meeting.point, 2e-6)
        assert near(b.point_at(meeting.s_b), meeting.point, 2e-6)
    crossed = as_line(a, 0.005).intersection(as_line(b, 0.005))
    for place in getattr(crossed, "geoms", [crossed]):
        if place.is_empty:
            continue
        spot = Point(place.centroid.x, place.centroid.y)
        near_meeting = min((meeting.point.distance_to(spot) for meeting in found), default=1e9)
        assert near_meeting < 1 or a.distance_to(b) < 0.01


@given(legs, legs)
def test_the_gap_between_legs_is_the_smallest(a: Leg, b: Leg) -> None:
    """No pair of sampled places is nearer; 0 exactly where they meet."""
    gap = leg_gap(a, b)
    assert a.distance_to_point(gap.here) < 2e-6 and b.distance_to_point(gap.there) < 2e-6
    sampled = min(b.distance_to_point(a.point_at(a.length * index / 100)) for index in range(101))
    assert gap.distance <= sampled + 2e-6
    assert sampled <= gap.distance + a.length / 100
    assert (gap.distance == 0) == bool(leg_intersections(a, b)) or gap.distance < 1e-6


@given(rings(), points, directions)
def test_both_sides_of_a_cut_make_the_whole(ring: Ring, point: Point, along: Vector) -> None:
    try:
        sides = [cut_ring(ring, point, along, keep_left).ring for keep_left in (True, False)]
    except GeometryFault:
        return
    assert sum(side.area for side in sides) == pytest.approx(ring.area, abs=SAME_POINT * ring.length)
    across = sum(path.length for path in lines_across(ring, point, along))
    assert sides[0].length + sides[1].length == pytest.approx(ring.length + 2 * across, abs=1e-4)


@given(points, directions, points)
def test_a_tangent_arc_leaves_as_asked_and_comes_to_its_end(
    start: Point, leaving: Vector, end: Point
) -> None:
    assume(start.distance_to(end) > 0.1 and abs(leaving.angle_to(end - start)) < 3.1)
    leg = arc_tangent(start, leaving, end)
    assert abs(leg.direction_at(0).angle_to(leaving)) < 1e-6
    assert near(leg.start, start, 1e-6) and near(leg.end, end, 1e-6)


@given(points, points, points)
def test_an_arc_through_three_points_passes_them_in_order(a: Point, b: Point, c: Point) -> None:
    assume(min(a.distance_to(b), b.distance_to(c), a.distance_to(c)) > 0.1)
    assume(abs((b - a).cross(c - a)) > 0.1 * hypot((b - a).length, (c - a).length))
    arc = arc_through(a, b, c)
    assert near(arc.start, a, 1e-6) and near(arc.end, c, 1e-6) and arc.distance_to_point(b) < 1e-6


@given(points, directions, points, directions)
def test_a_biarc_is_tangent_at_both_ends_and_between(
    start: Point, leaving: Vector, end: Point, arriving: Vector
) -> None:
    assume(start.distance_to(end) > 1)
    try:
        stretch = biarc(start, leaving, end, arriving)
    except GeometryFault:
        return
    path = Path(stretch)
    assert abs(path.direction_at(0).angle_to(leaving)) < 1e-5
    assert abs(path.direction_before(path.length).angle_to(arriving)) < 1e-5
    assert near(path.start, start, 1e-6) and near(path.end, end, 1e-6)
    assert all(abs(turn) < 1e-5 for turn in path.turns)


@given(
    st.lists(points, min_size=3, max_size=7),
    st.one_of(st.none(), directions),
    st.one_of(st.none(), directions),
)
def test_a_smooth_leg_has_no_corner(
    places: list[Point], leaving: Vector | None, arriving: Vector | None
) -> None:
    """It passes every point in order, and every meeting of its legs is tangent."""
    assume(all(a.distance_to(b) > 1 for a, b in itertools.pairwise(places)))
    try:
        legs_found = smooth_legs(places, leaving, arriving).legs
    except GeometryFault:
        return
    path = Path(legs_found)
    assert all(abs(turn_between(a, b)) < 1e-5 for a, b in zip(path.legs, path.legs[1:], strict=False))
    ends = [path.start, *path.corners, path.end]
    assert all(min(end.distance_to(place) for end in ends) < 1e-6 for place in places)
