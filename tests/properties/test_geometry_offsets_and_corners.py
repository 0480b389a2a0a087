"""What holds for every offset and every rounded corner."""

from __future__ import annotations

from itertools import pairwise
from math import cos, pi, sin, tan

import pytest
import shapely
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from drafting.geometry.corners import clip, fillet, round_corners
from drafting.geometry.faults import CornersMeet, DoesNotFit, GeometryFault, NoCorner, OffsetBreaksUp
from drafting.geometry.leg import Leg, turn_between
from drafting.geometry.line import Line
from drafting.geometry.offset import band, offset_along, offset_path, offset_ring, round_path
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point, Vector
from drafting.geometry.tolerances import MITRE_LIMIT
from tests.geometry.figures import as_polygon, facets, near
from tests.geometry.random_figures import convex_polygons, legs, lengths, paths, rings, shares

SLOW = settings(max_examples=60, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])
sides = st.sampled_from((1, -1))
SAMPLES = [index / 40 for index in range(40)]


@SLOW
@given(rings(), lengths(0.1, 12), sides)
def test_a_rounded_offset_keeps_its_distance_everywhere(ring: Ring, distance: float, side: int) -> None:
    """Every place of it is exactly the distance from the ring, on the right side, and it does not cross itself."""
    try:
        moved = offset_ring(ring, side * distance, joins="rounded")
    except OffsetBreaksUp:
        return
    for share in SAMPLES:
        place = moved.point_at(share * moved.length)
        assert ring.distance_to_point(place) == pytest.approx(distance, abs=1e-6)
        assert ring.contains_strictly(place) == (side < 0)
    assert moved.self_intersections() == []


@SLOW
@given(rings(), lengths(0.1, 12), sides)
def test_a_mitred_offset_is_never_nearer_and_runs_on_only_so_far(
    ring: Ring, distance: float, side: int
) -> None:
    try:
        moved = offset_ring(ring, side * distance)
    except OffsetBreaksUp:
        return
    for share in SAMPLES:
        gap = ring.distance_to_point(moved.point_at(share * moved.length))
        assert distance - 1e-6 <= gap <= MITRE_LIMIT * distance + 1e-6
    rounded = offset_ring(ring, side * distance, joins="rounded")
    assert (moved.area - rounded.area) * side >= -1e-6
    assert moved.self_intersections() == []


@SLOW
@given(rings(), lengths(0.5, 12), sides)
def test_what_an_offset_leaves_agrees_with_shapely(ring: Ring, distance: float, side: int) -> None:
    """The strip as far as the distance, put together from many facets, taken off or added: the same ground, and in
    one part or not alike. Ground as small as the facets are off does not count."""
    places = facets(ring.legs, step=0.02)
    strips = [
        shapely.LineString([a, b]).buffer(distance, quad_segs=48)
        for a, b in zip(places, [*places[1:], places[0]], strict=True)
    ]
    strip = shapely.unary_union(strips)
    whole = as_polygon(ring, step=0.02)
    left = whole.union(strip) if side > 0 else whole.difference(strip)
    parts = [part for part in getattr(left, "geoms", [left]) if part.area > 0.1]
    try:
        moved = offset_ring(ring, side * distance, joins="rounded")
    except OffsetBreaksUp as fault:
        holes = sum(shapely.Polygon(hole).area > 1e-4 for part in parts for hole in part.interiors)
        almost = distance - fault.largest < 0.05
        assert len(parts) != 1 or holes or almost
        return
    assert moved.area == pytest.approx(left.area, abs=0.005 * (moved.length + ring.length) + 0.1)


@SLOW
@given(rings(), lengths(1, 80))
def test_the_largest_inset_that_fits_does_fit(ring: Ring, distance: float) -> None:
    """And a little more does not."""
    try:
        offset_ring(ring, -distance)
    except OffsetBreaksUp as fault:
        assert 0 < fault.largest < distance
        offset_ring(ring, -fault.largest)
        with pytest.raises(OffsetBreaksUp):
            offset_ring(ring, -fault.largest - 2e-4)


@given(convex_polygons(), lengths(0.5, 6), shares)
def test_inset_then_outset_is_the_same_when_no_corner_is_used_up(
    polygon: Ring, radius: float, share: float
) -> None:
    """Up to the smallest radius, and never beyond it."""
    try:
        ring = round_corners(polygon, radius)
    except GeometryFault:
        return
    inset = (0.01 + 0.98 * share) * radius
    back = offset_ring(offset_ring(ring, -inset), inset, joins="rounded")
    assert back.area == pytest.approx(ring.area, rel=1e-9) and back.length == pytest.approx(
        ring.length, rel=1e-9
    )
    try:
        more = offset_ring(offset_ring(ring, -radius * 1.5), radius * 1.5, joins="rounded")
    except OffsetBreaksUp:
        return
    assert more.area < ring.area - 1e-3 * radius**2


@given(convex_polygons(), lengths(0.1, 50))
def test_a_convex_outset_grows_as_steiner_says(polygon: Ring, distance: float) -> None:
    """Area A + P d + pi d², length P + 2 pi d, when corners are rounded."""
    out = offset_ring(polygon, distance, joins="rounded")
    assert out.area == pytest.approx(polygon.area + polygon.length * distance + pi * distance**2)
    assert out.length == pytest.approx(polygon.length + 2 * pi * distance)


@given(convex_polygons(), lengths(0.1, 10), lengths(0.1, 10))
def test_two_insets_are_one_of_both_distances(polygon: Ring, first: float, second: float) -> None:
    try:
        once = offset_ring(polygon, -first - second)
    except OffsetBreaksUp:
        return
    assume(once.area > 1)
    assert offset_ring(offset_ring(polygon, -first), -second).area == pytest.approx(once.area, abs=1e-5)


@SLOW
@given(rings(), shares, shares, lengths(0.2, 8), st.booleans())
def test_a_run_keeps_its_distance_from_itself(
    ring: Ring, a: float, b: float, distance: float, inside: bool
) -> None:
    """A band is closed by its four named corners, and begins and ends where its run does."""
    s0, s1 = a * ring.length, b * ring.length
    try:
        strip = band(ring, s0, s1, distance, inside)
    except GeometryFault:
        return
    for share in SAMPLES:
        gap = strip.near.distance_to_point(strip.far.point_at(share * strip.far.length))
        assert distance - 1e-6 <= gap <= MITRE_LIMIT * distance + 1e-6
    assert near(strip.near_start, ring.point_at(s0), 1e-6) and near(strip.near_end, ring.point_at(s1), 1e-6)
    assert strip.far == offset_along(ring, s0, s1, distance, inside)
    assert {strip.near_start, strip.near_end} <= {*strip.ring.corners}


@SLOW
@given(rings(), shares, lengths(0.2, 8), st.booleans())
def test_a_run_all_round_is_the_whole_offset(ring: Ring, share: float, distance: float, inside: bool) -> None:
    try:
        whole = offset_ring(ring, -distance if inside else distance)
    except OffsetBreaksUp:
        return
    run = offset_along(ring, share * ring.length, share * ring.length, distance, inside)
    assert run.length == pytest.approx(whole.length, abs=1e-5) and near(run.start, run.end, 1e-6)


@SLOW
@given(paths(), lengths(0.2, 10), sides)
def test_an_open_offset_keeps_its_distance(path: Path, distance: float, side: int) -> None:
    assume(not path.self_intersections())
    try:
        moved = offset_path(path, side * distance)
    except OffsetBreaksUp:
        return
    for share in SAMPLES:
        gap = path.distance_to_point(moved.point_at(share * moved.length))
        assert distance - 1e-6 <= gap <= MITRE_LIMIT * distance + 1e-6
    back = offset_path(path.reversed(), -side * distance)
    assert back.length == pytest.approx(moved.length, abs=1e-5) and near(back.end, moved.start, 1e-6)


@SLOW
@given(paths(), lengths(0.2, 10))
def test_a_ring_round_a_line_keeps_its_distance(path: Path, distance: float) -> None:
    """The line lies inside it, and its ends and outer corners are round."""
    assume(not path.self_intersections())
    try:
        ring = round_path(path, distance)
    except OffsetBreaksUp:
        return
    for share in SAMPLES:
        gap = path.distance_to_point(ring.point_at(share * ring.length))
        assert gap == pytest.approx(distance, abs=1e-6)
        assert ring.contains_strictly(path.point_at(share * path.length))


@st.composite
def gentle_lines(draw: st.DrawFn) -> tuple[Path, list[float]]:
    """A line of straight legs of 20 mm or more that turns by 35 deg at most: no offset by 3 mm breaks it. And its turns."""
    way, corners, turns = draw(st.floats(0, 2 * pi)), [Point(0, 0)], []
    for turn, length in draw(
        st.lists(st.tuples(st.floats(-0.6, 0.6), st.floats(20, 60)), min_size=1, max_size=3)
    ):
        way += turn
        turns.append(turn)
        corners.append(corners[-1] + Vector(cos(way), sin(way)) * length)
    return Path([Line(a, b) for a, b in pairwise(corners)]), turns[1:]


@settings(max_examples=40)
@given(gentle_lines(), lengths(0.2, 3), sides)
def test_an_offset_lies_on_the_side_that_is_asked_for(
    line: tuple[Path, list[float]], distance: float, side: int
) -> None:
    """To the left when positive, square off both ends."""
    path, _ = line
    moved = offset_path(path, side * distance)
    for end, leg, there in ((path.start, path.legs[0], moved.start), (path.end, path.legs[-1], moved.end)):
        left = leg.direction_at(0.0).turned_left()
        assert near(there, end + left * (side * distance), 1e-6)


@settings(max_examples=40)
@given(gentle_lines(), lengths(0.2, 3))
def test_a_ring_round_a_line_is_as_large_as_steiner_says(
    line: tuple[Path, list[float]], distance: float
) -> None:
    """2dL and the two half discs of its ends; at a corner it gains a sector outside, and overlaps inside. Derived."""
    path, turns = line
    corners = sum(abs(turn) / 2 - tan(abs(turn) / 2) for turn in turns if abs(turn) > 1e-3)
    area = 2 * distance * path.length + distance**2 * (pi + corners)
    assert round_path(path, distance).area == pytest.approx(area, abs=1e-3)


@settings(max_examples=40)
@given(st.floats(-2.6, 2.6), lengths(0.1, 8), lengths(0.1, 20), lengths(0.1, 20))
def test_a_corner_of_straight_legs_with_room_is_rounded_and_clipped(
    turn: float, radius: float, first: float, second: float
) -> None:
    """A rounding takes r tan(half the turn) off either leg (derived), a clip what was asked for."""
    assume(abs(turn) > 0.1)
    corner = Point(60, 0)
    end = corner + Vector(cos(turn), sin(turn)) * 60
    before, after = Line(Point(0, 0), corner), Line(corner, end)
    rounded = fillet(before, after, radius)
    off = radius * tan(abs(turn) / 2)
    assert rounded.before is not None and rounded.after is not None
    assert (rounded.before.length, rounded.after.length) == pytest.approx((60 - off, 60 - off))
    cut = clip(before, after, first, second)
    assert cut.before is not None and cut.after is not None
    assert (cut.before.length, cut.after.length) == pytest.approx((60 - first, 60 - second))
    assert near(cut.line.start, cut.before.end, 1e-6) and near(cut.line.end, cut.after.start, 1e-6)


@given(legs, legs, lengths(0.05, 30))
def test_a_fillet_is_tangent_to_both_legs(before: Leg, after: Leg, radius: float) -> None:
    """Whatever the legs; when it does not fit, the largest that does is told truly."""
    there = after.moved(before.end - after.start)
    try:
        rounded = fillet(before, there, radius)
    except NoCorner:
        assert abs(turn_between(before, there)) < 1e-5
        return
    except DoesNotFit as fault:
        if fault.largest is not None:
            assert fault.largest < radius
            fillet(before, there, fault.largest)
        return
    assert rounded.arc.radius == radius
    on_before, on_after = before.nearest(rounded.arc.start), there.nearest(rounded.arc.end)
    assert (
        before.distance_to_point(rounded.arc.start) < 2e-6 and there.distance_to_point(rounded.arc.end) < 2e-6
    )
    assert abs(rounded.arc.direction_at(0).angle_to(before.direction_at(on_before))) < 1e-5
    assert abs(rounded.arc.direction_at(rounded.arc.length).angle_to(there.direction_at(on_after))) < 1e-5


@given(rings(), lengths(0.1, 15))
def test_a_ring_rounded_all_round_has_no_sharp_corner(ring: Ring, radius: float) -> None:
    try:
        rounded = round_corners(ring, radius)
    except (DoesNotFit, CornersMeet):
        return
    assert all(abs(turn) < 1e-4 for turn in rounded.turns)
    assert rounded.length < ring.length + 1e-9
