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
    """The wallet's pockets and front begin lower than the back: 40 holes, of which each layer says how many it has."""
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
    first, second, third = (
        sum(
            any(hole.point.distance_to(each.point) < 1e-6 for each in lines[line].holes)
            for line in seam.lines
        )
        for hole in lines["back.seam"].holes[:3]
    )
    assert (first, third) == (1, 2)  # mm of goat: the back alone, then the upper pocket under it
    again = 2 * sum(gaps[:back]) + first + 2 * second + third
    expected = 2 * sum(gaps) + 2 * sum(n_holes) - first + again + 300
    assert seam.thread.length == pytest.approx(expected)


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
