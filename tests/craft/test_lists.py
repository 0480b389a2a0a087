"""Parts, seams and needs of whole patterns, against shapely and against sums worked out here."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from math import pi

import pytest
from shapely.geometry import Polygon

import drafting
from drafting.craft.lists.order import Entry, Order
from drafting.craft.lists.sewing import Sewn, seams_of
from drafting.face import PlacedPattern, read
from drafting.geometry.arc import Arc
from drafting.geometry.path import Ring
from drafting.text.prices import parse_prices
from drafting.text.source import Source

ITEMS = ("hatch-tag", "blade-sheath", "coaster-tray", "card-wallet", "watch-strap")


@cache
def item(name: str) -> PlacedPattern:
    return drafting.load(f"patterns/{name}.draft").place()


def placed(text: str) -> PlacedPattern:
    pattern = read(Source("try.draft", text))
    assert not pattern.check().has_errors, [message.says for message in pattern.check()]
    return pattern.place()


def entry(one: PlacedPattern, copies: int = 1) -> Entry:
    return Entry(one.placed, one.pattern.bound, copies)


def polygon(ring: Ring, steps: int = 400) -> Polygon:
    """The ring with its arcs in short chords."""
    points = [
        leg.point_at(leg.length * step / steps)
        for leg in ring.legs
        for step in (range(steps) if isinstance(leg, Arc) else range(1))
    ]
    return Polygon([(point.x, point.y) for point in points])


@pytest.mark.parametrize("name", ITEMS)
def test_areas_and_sizes_are_those_shapely_finds(name: str) -> None:
    """An independent library; chords of an arc are a little within it."""
    one = item(name)
    for part in entry(one).parts:
        shape = polygon(one.pieces[part.piece].cutting)
        min_x, min_y, max_x, max_y = shape.bounds
        assert part.area == pytest.approx(shape.area, rel=1e-4)
        assert (part.width, part.height) == pytest.approx((max_x - min_x, max_y - min_y), abs=1e-3)
    taken = sum(polygon(each.cutting).area * part.in_copy for each, part in zip(one.pieces.values(), entry(one).parts, strict=True))  # fmt: skip
    leather = sum(amount for thing, amount in entry(one).needs.items() if thing.kind == "stock")
    assert float(leather) == pytest.approx(taken, rel=1e-4)


TWO = """\
pattern "Choir folder tags"
stock body: leather; 2 mm thick
thread waxed: 0.6 mm thick
piece back: {cut} from body
  outline: box 100 mm by 40 mm
  point a: at (-45 mm, -15 mm)
  point b: at (45 mm, -15 mm)
  stitch edge: a to b; every 4.5 mm{more}
piece front: like back; {cut} from body
join back.edge with front.edge
"""


def seams(cut: str, more: str = "") -> tuple[Sewn, ...]:
    return entry(placed(TWO.format(cut=cut, more=more))).seams


def test_a_seam_takes_its_thread_through_both_layers() -> None:
    """2Np + (2N + 1)t and two tails of 150 mm: N 20, p 4.5, t 4. Derived, reference F-03."""
    (seam,) = seams("cut 1")
    assert (seam.lines, seam.stitches, seam.thick, seam.times) == (("back.edge", "front.edge"), 20, 4, 1)
    assert seam.thread.length == pytest.approx(2 * 20 * 4.5 + 41 * 4 + 300)


def test_back_stitches_pass_again() -> None:
    plain, backed = seams("cut 1"), seams("cut 1", "; 2 back at start; 3 back at end")
    more = backed[0].thread.length - plain[0].thread.length
    assert more == pytest.approx(5 * 2 * (4.5 + 4))


@pytest.mark.parametrize("cut", ["cut 3", "cut 1 pair"])
def test_pieces_cut_more_often_are_as_many_seams(cut: str) -> None:
    (seam,) = seams(cut)
    assert (seam.times, seam.thick) == (3 if "3" in cut else 2, 4)


def test_a_pair_with_one_welt_between_is_one_seam() -> None:
    """Two faces of 3 mm and the welt of 3.175 mm (8 oz)."""
    (seam,) = entry(item("blade-sheath")).seams
    assert (seam.times, seam.thick) == (1, pytest.approx(2 * 3 + 3.175))


def test_a_gusset_cut_twice_goes_once_into_each_side() -> None:
    one = placed(
        """\
stock body: leather; 2 mm thick
piece back: cut 1 from body
  outline: box 100 mm by 60 mm
  point a: at (-45 mm, -20 mm)
  point b: at (-45 mm, 20 mm)
  point c: at (45 mm, -20 mm)
  point d: at (45 mm, 20 mm)
  stitch left: a to b; every 4 mm
  stitch right: c to d; every 4 mm
piece gusset: cut 2 from body
  outline: box 20 mm by 60 mm
  point a: at (-5 mm, -20 mm)
  point b: at (-5 mm, 20 mm)
  stitch edge: a to b; every 4 mm
join back.left with gusset.edge
join back.right with gusset.edge
"""
    )
    found = entry(one).seams
    assert [(seam.lines, seam.thick, seam.times) for seam in found] == [
        (("back.left", "gusset.edge"), 4, 1),
        (("back.right", "gusset.edge"), 4, 1),
    ]


def test_where_a_layer_ends_only_its_own_holes_pass_through_it() -> None:
    """The wallet's pockets and front begin lower than the back: 40 holes, of which each layer says how many it has.

    The halves share the hole at the foot.
    """
    one = item("card-wallet")
    seam = next(seam for seam in entry(one).seams if seam.lines[0] == "back.seam")
    lines = {
        f"{piece.name}.{line.name}": line.layout
        for piece in one.pieces.values()
        for feature in piece.features
        for line in feature.stitches
    }
    gaps, back = lines["back.seam"].gaps, 2
    n_holes = [len(lines[line].holes) for line in seam.lines]
    assert max(n_holes) == n_holes[0] == 40 and min(n_holes) < 40
    first, second, third, last = (
        sum(
            any(hole.point.distance_to(each.point) < 1e-6 for each in lines[line].holes)
            for line in seam.lines
        )
        for hole in (*lines["back.seam"].holes[:3], lines["back.seam"].holes[-1])
    )
    assert (first, third) == (1, 2)  # mm of goat: the back alone, then the upper pocket under it
    again = 2 * sum(gaps[:back]) + first + 2 * second + third
    expected = 2 * (2 * sum(gaps) + again) + 2 * (2 * sum(n_holes) - last) - first + 300
    assert seam.thread.length == pytest.approx(expected)


HALVES = """\
stock body: leather; 2 mm thick
piece back: cut 1 from body; mirrored over foot..top
  point foot: at (0, 0)
  point top: plumb with foot; 80 mm above foot
  point heel: level with foot; 50 mm right of foot
  point brow: plumb with heel; level with top
  point low: at (0, 8 mm) from foot
  point high: at (0, -8 mm) from top
  point wing: at (40 mm, 8 mm) from foot
  point ear: at (40 mm, -8 mm) from top
  outline: foot to heel to brow to top
  stitch seam: {seam}
piece front: like back
join back.seam with front.seam
"""


def saddle(pitches: list[float], thick: float) -> float:
    """2Np + (2N + 1)t and two tails of 150 mm. Derived, reference F-03."""
    return 2 * sum(pitches) + (2 * len(pitches) + 1) * thick + 300


@pytest.mark.parametrize(
    ("seam", "pitches"),
    [
        ("low to wing; 10 stitches", [4.0] * 20),
        ("wing to low; 10 stitches", [4.0] * 20),
        ("wing to ear to high; 26 stitches", [4.0] * 52),
        ("low to wing to ear to high; 36 stitches", [4.0] * 72),
    ],
    ids=["from the line", "to the line", "round a corner", "all round"],
)
def test_a_half_seam_and_its_twin_that_meet_are_one_seam(seam: str, pitches: list[float]) -> None:
    """One thread, with one pair of tails, and in the hole on the mirror line it passes as in any other."""
    (sewn,) = entry(placed(HALVES.format(seam=seam))).seams
    assert (sewn.lines, sewn.stitches, sewn.thick) == (("back.seam", "front.seam"), len(pitches), 4)
    assert sewn.thread.length == pytest.approx(saddle(pitches, 4))


def test_halves_that_do_not_meet_are_two_seams() -> None:
    found = entry(placed(HALVES.format(seam="wing to low; 10 stitches; 4 mm short at end"))).seams
    assert [seam.lines for seam in found] == [("back.seam", "front.seam"), ("back.seam'", "front.seam'")]
    assert [seam.thread.length for seam in found] == pytest.approx([saddle([3.6] * 10, 4)] * 2)


def test_both_halves_are_sewn_twice_where_they_say_so() -> None:
    """The drawing shows two stitches sewn twice at the free end of either half."""
    (sewn,) = entry(placed(HALVES.format(seam="wing to low; 10 stitches; 2 back at start"))).seams
    assert sewn.thread.length == pytest.approx(saddle([4.0] * 20, 4) + 2 * 2 * 2 * (4 + 4))


def test_a_seam_that_goes_on_may_have_another_piece_on_either_half() -> None:
    """One of 3 mm on the left, one of 1 mm on the right; in the hole on the mirror line both."""
    text = (
        HALVES.replace("join back.seam with front.seam\n", "")
        + """\
stock thin: leather; 1 mm thick
stock firm: leather; 3 mm thick
piece right: cut 1 from thin
  outline: box 60 mm by 20 mm
  stitch row: top_left to top_right; 10 stitches; 10 mm short
piece left: cut 1 from firm
  outline: box 60 mm by 20 mm
  stitch row: top_left to top_right; 10 stitches; 10 mm short
join back.seam with right.row
join back.seam' with left.row
"""
    )
    sewn, *others = entry(placed(text.format(seam="wing to low; 10 stitches"))).seams
    assert sewn.lines == ("back.seam", "left.row", "right.row") or sewn.lines == (
        "back.seam",
        "right.row",
        "left.row",
    )
    assert [seam.lines for seam in others] == [("front.seam",)]
    thicknesses = [3.0] * 10 + [2.0 + 1 + 3] + [5.0] * 10
    assert sewn.thick == 6
    assert sewn.thread.length == pytest.approx(2 * 80 + 2 * sum(thicknesses) - 3 + 300)


def test_halves_that_part_are_sewn_apart_beyond_the_mirror_line() -> None:
    """The back goes on into its left half with a strip; the front's left half is sewn to nothing."""
    text = (
        HALVES
        + """\
piece strip: cut 1 from body
  outline: box 60 mm by 20 mm
  stitch row: top_left to top_right; 10 stitches; 10 mm short
join back.seam' with strip.row
"""
    )
    sewn, alone = entry(placed(text.format(seam="wing to low; 10 stitches"))).seams
    assert (sewn.lines, alone.lines) == (("back.seam", "front.seam", "strip.row"), ("front.seam'",))
    assert (sewn.stitches, alone.stitches, alone.thick) == (20, 10, 2)


def test_of_pockets_each_hole_on_either_half_counts() -> None:
    """The wallet's seam goes on round its foot: 39 stitches and their twins."""
    seam = next(seam for seam in entry(item("card-wallet")).seams if seam.lines[0] == "back.seam")
    assert (seam.stitches, seam.goes_on) == (78, True)
    assert seam.lines == ("back.seam", "upper.side_seam", "lower.side_seam", "front.seam")


def test_a_stock_of_unknown_thickness_is_told() -> None:
    one = placed(TWO.format(cut="cut 1", more="").replace("; 2 mm thick", ""))
    order = Order((entry(one),))
    assert order.entries[0].seams[0].unknown == ("body",)
    assert [message.code for message in order.messages()] == ["K55"]


def test_a_line_joined_to_nothing_is_sewn_through_its_own_piece() -> None:
    one = placed(TWO.format(cut="cut 1", more="").rsplit("join", 1)[0])
    assert [seam.thick for seam in seams_of(one.placed, one.pattern.bound)] == [2, 2]


def test_a_window_is_paid_for_but_does_not_weigh() -> None:
    text = """\
stock body: leather; 2 mm thick
piece frame: cut 2 from body
  outline: box 100 mm by 80 mm
  opening view: box 50 mm by 40 mm; at (0, 0); lying level
  hole eye: at (40 mm, 30 mm); 6 mm across
"""
    prices, _ = parse_prices(
        Source("p.toml", 'currency = "EUR"\n[body]\nprice = 100\nper = "m2"\nweight = "2000 g/m2"')
    )
    order = Order((entry(placed(text), 3),), prices)
    ((thing, net),) = order.needed("stock")
    assert net == 6 * 8000
    assert float(order.weights[thing]) == pytest.approx(6 * (8000 - 2000 - pi * 9) * 2000 / 1e6)
    assert str(order.total(order.costs)) == "4.80 EUR"


def test_net_is_divided_by_the_yield() -> None:
    """100 ft² at 70 % take 142.857 ft². Common practice, no source; reference F-19."""
    order = Order((entry(item("hatch-tag")),), None, Fraction(7, 10))
    thing = next(order.needed("stock"))[0]
    assert float(order.to_buy(thing, Fraction(100))) == pytest.approx(142.857, abs=5e-4)
    buckle = next(order.needed("hardware"))[0]
    assert order.to_buy(buckle, Fraction(3)) == 3


def test_a_belt_is_a_strap_and_a_keeper_too() -> None:
    straps = Order((entry(item("belt"), 2),)).straps
    assert [(thing.name, wide, count) for (thing, wide), (count, _) in straps.items()] == [
        ("bridle", 34, 2),
        ("light", 13, 2),
    ]


def test_things_that_differ_stand_apart_in_one_order() -> None:
    """`body` of the tag is 1.9 mm thick, that of the sheath 3 mm."""
    order = Order((entry(item("hatch-tag")), entry(item("blade-sheath"))))
    thick = [dict(thing.sizes)["thick"] for thing, _ in order.needed("stock") if thing.name == "body"]
    assert thick == [pytest.approx(1.9), pytest.approx(3)]


PRICED = (
    'currency = "EUR"\n[body]\nprice = 95\nper = "m2"\n[film]\nprice = 1\n[waxd]\nprice = 9\nper = "100 m"\n'
)


def test_what_has_no_price_is_told_and_left_out() -> None:
    prices, _ = parse_prices(Source("p.toml", PRICED))
    order = Order((entry(item("hatch-tag"), 4),), prices)
    assert [(message.code, "waxd" in message.mend) for message in order.messages()] == [
        ("K57", False),
        ("K56", True),
        ("K56", False),
    ]
    assert {thing.name for thing in order.unpriced} == {"film", "waxed", "buckle"}
    assert order.total(order.costs) == order.costs[0].cost.rounded  # type: ignore[union-attr]
