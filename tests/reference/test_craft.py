"""Bends, trade practice, stitches and seams against outside sources, named beside each check.

The marks are those of the collection of reference values: looked up, second-hand, from memory, common practice without
a source, derived.
"""

from __future__ import annotations

from itertools import pairwise
from math import degrees, pi, radians

import pytest

from drafting.craft.bends import (
    Bend,
    bend_allowance,
    bend_deduction,
    flat_from_outside,
    flat_from_straights,
    keeper_length,
    neutral_from_coefficient,
    round_core,
    round_stack,
    set_back,
    turn_from_included,
)
from drafting.craft.contents import content_named, is_id1_radius
from drafting.craft.holding import Held, between_seams
from drafting.craft.rules import limits
from drafting.craft.spacing import Every, Stitches, pitch_of_iron, pitch_per_inch
from drafting.craft.standards import SADDLE_STITCH, SEAM_CLASSES, hide_needed, stitch_class
from drafting.craft.stitches import Request, lay_out
from drafting.craft.thread import thickness_where_exact, thread_of_even
from drafting.geometry.curves import box, circle, obround
from drafting.geometry.offset import offset_ring
from drafting.geometry.point import Point
from tests.craft.samples import straight

INCH = 25.4


@pytest.mark.parametrize(
    ("number", "pitch"), [(6, 4.5117), (7, 3.8671), (8, 3.3837), (9, 3.0078), (10, 2.7070)]
)
def test_b_09_irons_numbered_in_french_inches(number: int, pitch: float) -> None:
    """Numbering: common practice, no source. Values derived from the metre's law of 19 frimaire VIII (from memory)."""
    assert pitch_of_iron(number) == pytest.approx(pitch, abs=5e-5)


@pytest.mark.parametrize(
    ("number", "pitch"), [(4, 6.35), (5, 5.08), (6, 4.2333), (7, 3.6286), (8, 3.175), (9, 2.8222)]
)
def test_b_10_stitches_to_the_international_inch(number: int, pitch: float) -> None:
    """Derived, 25.4/n."""
    assert pitch_per_inch(number) == pytest.approx(pitch, abs=5e-5)


def test_b_10_the_same_number_is_two_pitches() -> None:
    """7 to the inch and the French No 7 are 6.6 % apart. Derived."""
    assert pitch_of_iron(7) / pitch_per_inch(7) - 1 == pytest.approx(0.066, abs=5e-4)


def test_b_11_holes_and_stitches() -> None:
    """An open line of N stitches has N + 1 holes, a closed one N. Derived."""
    for count in (1, 2, 17):
        assert len(lay_out(straight(80), Request(Stitches(count))).holes) == count + 1
        assert (
            len(lay_out(circle(Point(0, 0), 20), Request(Stitches(count), start=Point(0, 30))).holes) == count
        )


def test_e_01_bend_allowance() -> None:
    """90 deg, R 3, T 2, k 0.5: the standard neutral-axis relation (sheet-metal course pages, looked up)."""
    assert bend_allowance(radians(90), 3, 2, 0.5) == pytest.approx(6.283185, abs=5e-7)


def test_e_02_published_flat_length() -> None:
    """Machinery's Handbook 31st ed. p. 1421, eq. 33, fig. 13 (looked up): 1.338 + 0.707 + 3.5 = 5.545 in."""
    k = neutral_from_coefficient(0.64)
    bends = (Bend(radians(180), 0.375), Bend(radians(60), 0.625))
    assert flat_from_straights((3.5,), bends, 0.125, k) == pytest.approx(5.545, abs=0.001)
    assert flat_from_straights((3.5,), bends, 0.125, k) == pytest.approx(5.54593, abs=5e-6)


@pytest.mark.parametrize(("coefficient", "k"), [(0.55, 0.350141), (0.64, 0.407437), (0.71, 0.452000)])
def test_e_03_handbook_coefficients_as_k(coefficient: float, k: float) -> None:
    """Machinery's Handbook 31st ed. p. 1421, eqs 32 to 34 (looked up); k derived."""
    assert neutral_from_coefficient(coefficient) == pytest.approx(k, abs=1e-6)


def test_e_04_set_back_and_deduction() -> None:
    """90 deg, R 3, T 2, k 0.5. Derived."""
    assert set_back(radians(90), 3, 2) == pytest.approx(5)
    assert bend_deduction(radians(90), 3, 2) == pytest.approx(3.716815, abs=5e-7)
    assert flat_from_outside((50, 40), (Bend(radians(90), 3),), 2) == pytest.approx(86.283185, abs=5e-7)


def test_e_05_fold_without_a_radius() -> None:
    """T 1.5, k 0.5: half of pi T. Derived. Skived leather folds with what is left of it."""
    assert bend_allowance(pi, 0, 1.5) == pytest.approx(2.356194, abs=5e-7)
    assert bend_allowance(pi, 0, 0.5) == pytest.approx(pi * 0.25)


def test_e_06_the_bend_is_the_angle_turned_through() -> None:
    """60 deg between the legs is a bend of 120 deg. Machinery's Handbook p. 1421 (looked up)."""
    assert degrees(turn_from_included(radians(60))) == pytest.approx(120)


def test_e_07_wrap_round_a_core() -> None:
    """Inner diameter 70, T 2.5; inside and outside differ by 2 pi T whatever the size. Derived."""
    wrap = round_core(70, 2.5)
    assert (wrap.inside, wrap.middle, wrap.outside) == pytest.approx((219.9115, 227.7655, 235.6194), abs=5e-5)
    assert round_core(900, 4).outside - round_core(900, 4).inside == pytest.approx(25.13, abs=5e-3)


def test_f_03_thread_of_a_saddle_stitched_line() -> None:
    """S 200, p 4, t 3: 50 stitches, 703 mm, ratio 3.515. Derived."""
    layout = lay_out(straight(200), Request(Every(4)))
    assert (layout.stitches, len(layout.holes)) == (50, 51)
    need = thread_of_even(4, 50, 3)
    assert (need.length, need.ratio) == pytest.approx((703, 3.515))


def test_f_04_rules_of_thumb_against_the_model() -> None:
    """3 x is exact at t = p/2, 4 x at t = p. Common practice, no source; comparison derived."""
    assert (thickness_where_exact(3), thickness_where_exact(4)) == (0.5, 1)
    many = 10_000
    assert thread_of_even(4, many, 2).ratio == pytest.approx(3, abs=1e-3)
    assert thread_of_even(4, many, 4).ratio == pytest.approx(4, abs=1e-3)
    assert thread_of_even(3.38, many, 3).ratio == pytest.approx(3.775, abs=5e-4)
    thick = thread_of_even(3.38, 100, 3)
    assert thick.shortfall(3) > 0 > thick.shortfall(4)
    per_stitch = 100 * (2 * 3 + 3.38)
    assert thick.length - per_stitch == pytest.approx(100 * 3.38 + 3)


def test_f_05_even_spacing_on_a_closed_line() -> None:
    """100 x 75, r 6, inset 3: 83 holes, pitch 3.865657. Derived."""
    line = offset_ring(box(Point(0, 0), 100, 75, rounded=6), -3)
    assert line.length == pytest.approx(320.8496, abs=5e-5)
    layout = lay_out(line, Request(Every(3.85), start=Point(0, 40)))
    assert len(layout.holes) == 83
    assert layout.pitch == pytest.approx(3.865657, abs=5e-7)
    places = [*(hole.place for hole in layout.holes), line.length + layout.holes[0].place]
    steps = [(b - a) % line.length for a, b in pairwise(places)]
    assert max(abs(step - layout.pitch) for step in steps) < 1e-6
    assert abs(layout.pitch / 3.85 - 1) <= 1 / (2 * 83)


def test_f_06_even_spacing_on_an_open_line() -> None:
    """150 mm at 3.85: 39 gaps, 40 holes. Derived."""
    layout = lay_out(straight(150), Request(Every(3.85)))
    assert (layout.stitches, len(layout.holes)) == (39, 40)
    assert layout.pitch == pytest.approx(3.846154, abs=5e-7)


def test_f_07_along_the_arc_or_straight_across() -> None:
    """R 6: an arc pitch of 4 is a chord of 3.926336, a chord of 4 an arc of 4.078043. Derived."""
    ring = circle(Point(0, 0), 6)
    quarter = ring.part(0, 8)
    along = lay_out(quarter, Request(Every(4)))
    assert along.gaps == pytest.approx([3.926336] * 2, abs=5e-7)
    across = lay_out(ring.part(0, 2 * 4.078043), Request(Every(4), measured="across"))
    assert across.pitch == pytest.approx(4, abs=1e-6)
    assert across.holes[1].place == pytest.approx(4.078043, abs=1e-6)


def test_f_12_slot_of_a_prong() -> None:
    """25 x 5: P 55.7080, A 119.6350. Derived; sizes common practice, no source."""
    slot = obround(Point(0, 0), 25, 5)
    assert (slot.length, slot.area) == pytest.approx((55.7080, 119.6350), abs=5e-5)


def test_f_14_keeper() -> None:
    """Stack 38 x 7, T 2: 90 inside, 96.2832 in the middle, 102.5664 outside. Derived (Steiner)."""
    loop = round_stack(38, 7, 2)
    assert (loop.inside, loop.middle, loop.outside) == pytest.approx((90, 96.2832, 102.5664), abs=5e-5)
    assert keeper_length(38, 7, 2) == pytest.approx(96.2832, abs=5e-5)


def test_f_17_corner_radius_and_stitch_offset() -> None:
    """Outer r, inset m: the stitch corner has radius r - m, and is sharp when r < m. Relation derived."""
    inset = offset_ring(box(Point(0, 0), 100, 60, rounded=8), -3.5)
    assert {round(leg.radius, 9) for leg in inset.legs if hasattr(leg, "radius")} == {4.5}
    sharp = offset_ring(box(Point(0, 0), 100, 60, rounded=3), -3.5)
    assert len(lay_out(sharp, Request(Every(3.85))).stretches) == 4


def test_a_01_to_a_09_contents() -> None:
    """ISO/IEC 7810 (second-hand), ISO 216 (second-hand), ECB/2003/4 (looked up), others as marked in the table."""
    card = content_named("ID-1 card")
    assert (card.long, card.wide, card.thick, card.radius) == (85.60, 53.98, 0.76, 3.18)
    outline = box(Point(0, 0), card.long, card.wide, rounded=card.radius)
    assert (outline.area, outline.length) == pytest.approx((4612.0074, 273.7005), abs=1e-4)
    assert [is_id1_radius(radius) for radius in (2.87, 2.88, 3.48, 3.49)] == [False, True, True, False]
    assert (content_named("passport").long, content_named("passport").wide) == (125, 88)
    for number in range(6):
        larger, smaller = content_named(f"A{number}"), content_named(f"A{number + 1}")
        assert (smaller.wide, smaller.long) == (larger.long // 2, larger.wide)
    assert (content_named("US legal").long, content_named("US legal").wide) == pytest.approx((355.6, 215.9))
    assert content_named("visiting card, Japan").long == 91
    notes = [content_named(f"{value} euro note") for value in (5, 10, 20, 50)]
    assert [(note.long, note.wide) for note in notes] == [(120, 62), (127, 67), (133, 72), (140, 77)]
    dollar = content_named("US dollar note")
    assert (dollar.long, dollar.wide) == pytest.approx((155.956, 66.294))
    assert dollar.thick == pytest.approx(0.10922)


def test_f_18_pocket_ease() -> None:
    """Four cards need 85.60 + 4 x 0.76 = 88.64 between the stitch lines. Bound derived."""
    card = content_named("ID-1 card")
    cards = Held("four cards", card.long, card.wide, 4 * (card.thick or 0.0))
    assert between_seams(cards, 88.64).spare == pytest.approx(0, abs=1e-9)
    assert not between_seams(cards, 88.6).fits


@pytest.mark.parametrize(
    ("pitch", "thinnest", "thickest"),
    [(2.7, 0.35, 0.45), (3.0, 0.45, 0.55), (3.38, 0.5, 0.6), (3.85, 0.6, 0.8)],
)
def test_f_02_pitch_and_thread_of_the_trade_raise_no_warning(
    pitch: float, thinnest: float, thickest: float
) -> None:
    """Common practice, from memory: what workshops sew together keeps the limits of the rule."""
    low, high = limits.PITCH_PER_THREAD
    assert low <= pitch / thickest and pitch / thinnest <= high


def test_f_19_cutting_waste() -> None:
    """100 square feet at 70 % need 142.857; not 125. Common practice, no source; arithmetic derived."""
    assert hide_needed(100, 0.7) == pytest.approx(142.857, abs=5e-4)
    assert hide_needed(100, 0.75) == pytest.approx(100 * 4 / 3)


def test_g_01_the_saddle_stitch_is_201() -> None:
    """ISO 4915:1991, second-hand: 209 is a one-thread imitation by machine."""
    assert SADDLE_STITCH == 201
    assert stitch_class(SADDLE_STITCH) == "hand"


@pytest.mark.parametrize(
    ("number", "name"),
    [
        (101, "chain"),
        (209, "hand"),
        (301, "lock"),
        (401, "multi-thread chain"),
        (504, "over-edge"),
        (602, "covering"),
    ],
)
def test_g_02_stitch_classes(number: int, name: str) -> None:
    """ISO 4915:1991 / BS 3870, second-hand: the first digit is 1 to 6."""
    assert stitch_class(number) == name


def test_g_03_seam_classes() -> None:
    """ISO 4916:1991, second-hand: eight classes."""
    assert sorted(SEAM_CLASSES) == list(range(1, 9))
    assert (SEAM_CLASSES[1], SEAM_CLASSES[2], SEAM_CLASSES[8]) == ("superimposed", "lapped", "single ply")
