"""Plane geometry against outside sources: area D of the reference values, with the source beside each check."""

from __future__ import annotations

from math import cos, pi, radians, sin, sqrt, tan

import pytest
from shapely.geometry import MultiPoint
from shapely.geometry import Point as Spot

from drafting.geometry.arc import Arc
from drafting.geometry.corners import RoundBy, fillet, round_corners, shape_corners
from drafting.geometry.curves import arc_bowed, arc_through, arc_with_radius, box, circle, obround
from drafting.geometry.faults import CornersMeet, DoesNotFit, InLine
from drafting.geometry.intersect import path_intersections
from drafting.geometry.line import Line
from drafting.geometry.offset import offset_ring
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point, Vector
from drafting.geometry.tangents import touching_places
from tests.geometry.figures import as_polygon, ell, near, polygon


def wedge(degrees: float, arm: float) -> tuple[Line, Line]:
    """Two legs with a corner of so many degrees between them, at (0, 0)."""
    out = Vector.at_angle(radians(degrees)) * arm
    return Line(Point(arm, 0), Point(0, 0)), Line(Point(0, 0), Point(0, 0) + out)


@pytest.mark.parametrize(
    ("degrees", "tangent"),
    [
        (30, 3.732051),
        (45, 2.414214),
        (60, 1.732051),
        (90, 1),
        (120, 0.577350),
        (135, 0.414214),
        (150, 0.267949),
    ],
)
def test_fillet_tangent_length(degrees: float, tangent: float) -> None:
    """D-01, derived (textbook relation): T = r / tan(half the interior angle); T may not exceed an edge."""
    before, after = wedge(degrees, 5)
    rounded = fillet(before, after, 1)
    assert rounded.arc.start.distance_to(Point(0, 0)) == pytest.approx(tangent, abs=1e-6)
    assert rounded.arc.end.distance_to(Point(0, 0)) == pytest.approx(tangent, abs=1e-6)
    with pytest.raises(DoesNotFit) as fault:
        fillet(before, after, 1.01 * 5 / tangent)
    assert fault.value.place == Point(0, 0) and fault.value.largest == pytest.approx(5 / tangent, rel=1e-5)


@pytest.mark.parametrize(
    ("degrees", "to_arc", "arc_length", "area_off"),
    [(60, 10, 20.9440, 68.4853), (90, 4.142136, 15.7080, 21.4602), (120, 1.547005, 10.4720, 5.3751)],
)
def test_fillet_distance_length_and_area(
    degrees: float, to_arc: float, arc_length: float, area_off: float
) -> None:
    """D-02, derived: E = r (1 / sin(half) - 1), arc r (pi - angle), area cut off r T - r² (pi - angle) / 2."""
    before, after = wedge(degrees, 60)
    sharp = Ring([before, after, Line(after.end, before.start)])
    ring, legs = shape_corners(sharp, {1: RoundBy(10)})
    assert legs[1].distance_to_point(Point(0, 0)) == pytest.approx(to_arc, abs=1e-6)
    assert legs[1].length == pytest.approx(arc_length, abs=1e-4)
    assert sharp.area - ring.area == pytest.approx(area_off, abs=1e-4)
    tangent = 10 / tan(radians(degrees) / 2)
    assert sharp.length - ring.length == pytest.approx(2 * tangent - legs[1].length, abs=1e-9)


def test_fillets_in_a_3_4_5_triangle() -> None:
    """D-03, derived (half-angle tangents 1/2, 1/3, 1): fillets of 1 meet exactly, larger ones are refused."""
    triangle = polygon((0, 0), (4, 0), (0, 3))
    ring = round_corners(triangle, 1)
    assert len(ring.legs) == 3 and ring.area == pytest.approx(pi, abs=1e-9)
    for index, tangent in ((0, 1), (1, 3), (2, 2)):
        rounded = fillet(triangle.legs[index - 1], triangle.legs[index], 1)
        assert rounded.arc.start.distance_to(triangle.corners[index]) == pytest.approx(tangent, abs=1e-9)
    with pytest.raises(CornersMeet) as fault:
        round_corners(triangle, 1.001)
    assert fault.value.needs > fault.value.has
    assert (fault.value.first, fault.value.second) == (0, 1)


def test_machinerys_handbook_circle_examples() -> None:
    """D-04, *Machinery's Handbook* 31st ed. p. 78-79: exact values at 1e-6, printed ones at 0.01."""
    reach = sqrt(60**2 - (60 - 8) ** 2)
    leg = arc_with_radius(Point(-reach, 0), Point(reach, 0), 60, to_left=True)
    assert isinstance(leg, Arc) and leg.height == pytest.approx(8, abs=1e-6)
    assert leg.start.distance_to(leg.end) == pytest.approx(59.8665, abs=1e-4)
    assert leg.start.distance_to(leg.end) == pytest.approx(59.86, abs=0.01)
    bow = arc_bowed(Point(0, 0), Point(16, 0), 6, to_left=True)
    assert isinstance(bow, Arc) and bow.radius == pytest.approx(25 / 3, abs=1e-6)
    sector = Arc(Point(0, 0), 35, 0, radians(60))
    assert sector.length == pytest.approx(36.6519, abs=1e-4) and sector.length == pytest.approx(
        36.645, abs=0.01
    )
    slice_of = Ring([Line(Point(0, 0), sector.start), sector, Line(sector.end, Point(0, 0))])
    assert slice_of.area == pytest.approx(641.41, abs=0.01)
    assert circle(Point(0, 0), 6).area - circle(Point(0, 0), 4).area == pytest.approx(62.83, abs=0.01)


@pytest.mark.parametrize(("radius", "chord", "height"), [(13, 24, 8), (25, 14, 1)])
def test_sagitta(radius: float, chord: float, height: float) -> None:
    """D-05, derived: h = R - sqrt(R² - c²/4); an arc of a radius goes the short way, a bow of h is that arc."""
    short = arc_with_radius(Point(0, 0), Point(chord, 0), radius, to_left=True)
    bowed = arc_bowed(Point(0, 0), Point(chord, 0), height, to_left=True)
    assert isinstance(short, Arc) and isinstance(bowed, Arc)
    assert short.height == pytest.approx(height) and bowed.radius == pytest.approx(radius)
    assert near(short.center, bowed.center)


@pytest.mark.parametrize(
    ("first", "second", "expected"),
    [
        (((0, 0), 5), ((6, 0), 5), [(3, 4), (3, -4)]),
        (((0, 0), 13), ((21, 0), 20), [(5, 12), (5, -12)]),
        (((-3, 2), 5), ((5, 8), 5), [(1, 5)]),
    ],
)
def test_circle_and_circle(
    first: tuple[tuple[float, float], float],
    second: tuple[tuple[float, float], float],
    expected: list[tuple[float, float]],
) -> None:
    """D-06, derived: two places, or one where they touch."""
    rings = [circle(Point(*center), radius) for center, radius in (first, second)]
    found = path_intersections(*rings)
    assert len(found) == len(expected)
    assert all(
        near(meeting.point, Point(*place), 1e-6) for meeting, place in zip(found, expected, strict=True)
    )


def test_circle_and_line() -> None:
    """D-07, derived: 3x + 4y = 15 cuts x² + y² = 25 in (-1.4, 4.8) and (5, 0); 3x + 4y = 25 touches at (3, 4)."""
    ring = circle(Point(0, 0), 5)
    across = Path([Line(Point(-7, 9), Point(9, -3))])
    places = [meeting.point for meeting in path_intersections(across, ring)]
    assert len(places) == 2 and near(places[0], Point(-1.4, 4.8)) and near(places[1], Point(5, 0))
    assert across.distance_to_point(Point(0, 0)) == pytest.approx(3)
    assert places[0].distance_to(places[1]) == pytest.approx(8)
    touching = Path([Line(Point(-1, 7), Point(7, 1))])
    (meeting,) = path_intersections(touching, ring)
    assert near(meeting.point, Point(3, 4), 1e-6)


@pytest.mark.parametrize(
    ("points", "center", "radius"),
    [
        (((0, 0), (6, 0), (0, 8)), (3, 4), 5),
        (((1, 7), (8, 6), (7, -1)), (4, 3), 5),
        (((2, 1), (0, 5), (-1, 2)), (1, 3), sqrt(5)),
    ],
)
def test_circle_through_three_points(
    points: tuple[tuple[float, float], ...], center: tuple[float, float], radius: float
) -> None:
    """D-08, derived; three points in a line are refused."""
    arc = arc_through(*(Point(*place) for place in points))
    assert near(arc.center, Point(*center)) and arc.radius == pytest.approx(radius)
    with pytest.raises(InLine):
        arc_through(Point(0, 0), Point(2, 1), Point(4, 2))


def tangent_touches(radius: float, other: float, apart: float) -> tuple[Point, Point]:
    """Where the upper common tangent touches two circles, by the tangent from a center to their difference."""
    (place,) = (p for p in touching_places(circle(Point(0, 0), radius - other), Point(apart, 0)) if p.y > 0)
    outward = (place - Point(0, 0)).unit()
    return Point(0, 0) + outward * radius, Point(apart, 0) + outward * other


def test_tangents_from_a_point_and_of_two_circles() -> None:
    """D-09, derived: integer lengths and rational places; the second pair of circles overlaps."""
    first, second = touching_places(circle(Point(0, 0), 7), Point(25, 0))
    assert near(first, Point(1.96, 6.72)) and near(second, Point(1.96, -6.72))
    assert first.distance_to(Point(25, 0)) == pytest.approx(24)
    for radius, other, apart, length, here, there in (
        (5, 2, 5, 4, (3, 4), (6.2, 1.6)),
        (7, 2, 13, 12, (35 / 13, 84 / 13), (179 / 13, 24 / 13)),
    ):
        a, b = tangent_touches(radius, other, apart)
        assert near(a, Point(*here)) and near(b, Point(*there)) and a.distance_to(b) == pytest.approx(length)


def test_open_belt_round_two_circles() -> None:
    """D-10, *Encyclopædia Britannica* 11th ed., Mechanics (applied), eq. 32 B; hull of finely buffered points."""
    a, b = tangent_touches(7, 2, 13)
    low_a, low_b = (point.mirrored(Point(0, 0), Point(1, 0)) for point in (a, b))
    far = (b - Point(13, 0)).angle
    belt = Ring(
        [
            Arc(Point(0, 0), 7, far, 2 * pi - 2 * far),
            Line(low_a, low_b),
            Arc(Point(13, 0), 2, -far, 2 * far),
            Line(b, a),
        ]
    )
    assert belt.length == pytest.approx(56.222245, abs=1e-6)
    hull = MultiPoint(
        [
            *Spot(0, 0).buffer(7, quad_segs=4000).exterior.coords,
            *Spot(13, 0).buffer(2, quad_segs=4000).exterior.coords,
        ]
    ).convex_hull
    assert belt.length == pytest.approx(hull.length, abs=1e-5)


CARD = box(Point(0, 0), 100, 60, rounded=8)


def test_outward_offset_of_a_convex_outline() -> None:
    """D-14, Steiner formula A + P d + pi d², P + 2 pi d (named result; second-hand proof)."""
    assert CARD.area == pytest.approx(5945.06193, abs=1e-5) and CARD.length == pytest.approx(
        306.26548, abs=1e-5
    )
    out = offset_ring(CARD, 5)
    assert out.area == pytest.approx(7554.92916, abs=1e-5) and out.length == pytest.approx(
        337.68141, abs=1e-5
    )
    assert {round(leg.radius, 9) for leg in out.legs if isinstance(leg, Arc)} == {13}
    assert out.area == pytest.approx(as_polygon(CARD, 0.001).buffer(5, quad_segs=512).area, rel=2e-6)


def test_inward_offset_less_and_more_than_the_radius() -> None:
    """D-15, derived: the radius shrinks to 0, then corners turn sharp; no arc turns inside out."""
    less = offset_ring(CARD, -3)
    assert less.area == pytest.approx(5054.53982, abs=1e-5) and less.length == pytest.approx(
        287.41593, abs=1e-5
    )
    assert {round(leg.radius, 9) for leg in less.legs if isinstance(leg, Arc)} == {5}
    more = offset_ring(CARD, -12)
    assert more.area == pytest.approx(2736, abs=1e-9) and more.length == pytest.approx(224, abs=1e-9)
    assert (more.width, more.height) == (pytest.approx(76), pytest.approx(36))


def test_inset_then_outset_is_not_the_identity() -> None:
    """D-16, derived, confirmed by shapely: corners come back with radius 12, not 8; up to 8 they come back whole."""
    there_and_back = offset_ring(offset_ring(CARD, -12), 12, joins="rounded")
    assert there_and_back.area == pytest.approx(5876.3893, abs=1e-4)
    assert offset_ring(offset_ring(CARD, -8), 8, joins="rounded").area == pytest.approx(CARD.area, abs=1e-6)


def test_outward_offset_with_one_inside_corner() -> None:
    """D-17, derived: each outside corner + pi d²/4, the inside corner - d²; pi d² in all would be wrong."""
    out = offset_ring(ell(), 5, joins="rounded")
    assert out.area == pytest.approx(3273.17477, abs=1e-5) and out.length == pytest.approx(
        269.26991, abs=1e-5
    )


def test_stadium() -> None:
    """D-18, derived: straight 40, r 10."""
    ring = obround(Point(0, 0), 60, 20)
    assert ring.length == pytest.approx(142.83185, abs=1e-5) and ring.area == pytest.approx(
        1114.15927, abs=1e-5
    )


def test_cone_frustum_development() -> None:
    """D-19, derived; area rule in *Sheet Metal Drafting*, Wikisource p. 91."""
    large, small, height = 50, 35, 20
    slant = sqrt((large - small) ** 2 + height**2)
    outer_radius = slant * large / (large - small)
    turn = 2 * pi * large / outer_radius
    outer, inner = Arc(Point(0, 0), outer_radius, 0, turn), Arc(Point(0, 0), outer_radius - slant, 0, turn)
    cuff = Ring([outer, Line(outer.end, inner.end), inner.reversed(), Line(inner.start, outer.start)])
    assert (slant, outer_radius, inner.radius) == (
        25,
        pytest.approx(83.3333, abs=1e-4),
        pytest.approx(58.3333, abs=1e-4),
    )
    assert turn == pytest.approx(radians(216))
    assert outer.length == pytest.approx(314.1593, abs=1e-4) and inner.length == pytest.approx(
        219.9115, abs=1e-4
    )
    assert cuff.area == pytest.approx(6675.8844, abs=1e-4)


@pytest.mark.parametrize(
    ("sides", "area", "outer", "inner"),
    [(5, 1.720477, 0.850651, 0.688191), (6, 2.598076, 1, 0.866025), (8, 4.828427, 1.306563, 1.207107)],
)
def test_regular_polygons(sides: int, area: float, outer: float, inner: float) -> None:
    """D-20, *Machinery's Handbook* 31st ed. p. 82 table (4 decimals); more digits derived."""
    step = 2 * pi / sides
    ring = polygon(*((outer * cos(step * index), outer * sin(step * index)) for index in range(sides)))
    assert ring.length / sides == pytest.approx(1, abs=2e-6)
    assert ring.area == pytest.approx(area, abs=5e-6)
    assert ring.distance_to_point(ring.centroid) == pytest.approx(inner, abs=2e-6)


@pytest.mark.parametrize("turn", [0, 0.1, 0.7, 1.3, 2.9])
def test_reuleaux_triangle(turn: float) -> None:
    """D-21, area (pi - sqrt 3) s²/2 and Barbier's theorem: the same width whichever way it lies."""
    corners = [Point(0, 0), Point(50, 0), Point(25, 25 * sqrt(3))]
    legs = [
        arc_with_radius(a, b, 50, to_left=False)
        for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)
    ]
    ring = Ring(legs).turned(turn, Point(3, 4))
    assert ring.length == pytest.approx(157.07963, abs=1e-5) and ring.area == pytest.approx(
        1761.92731, abs=1e-5
    )
    assert ring.width == pytest.approx(50) and ring.height == pytest.approx(50)


def test_13_14_15_triangle() -> None:
    """D-22, derived (Heron): area 84, incircle 4, circumcircle 8.125."""
    apex = path_intersections(circle(Point(0, 0), 13), circle(Point(14, 0), 15))
    above = [meeting.point for meeting in apex if meeting.point.y > 0]
    assert len(above) == 1 and near(above[0], Point(5, 12))
    triangle = polygon((0, 0), (14, 0), (5, 12))
    assert triangle.area == pytest.approx(84)
    assert round_corners(triangle, 4).area == pytest.approx(16 * pi, abs=1e-6)
    assert arc_through(*triangle.corners).radius == pytest.approx(8.125)
