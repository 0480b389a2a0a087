"""Pieces that speak of each other, checks, and the sizes they are made in."""

from __future__ import annotations

import itertools
import math

import pytest

from drafting import face
from drafting.text.source import Source
from tests.lowering.drafted import CARD, check, codes, drafted

DISC = """piece back:
  point hub: at (0, 0)
  outline: disc across; at hub
  crease rim: 4 mm inside outline
"""
STRIP = """piece gusset:
  measure lap = 12 mm
  outline: box back.rim.length + lap by deep
"""
TAB = """piece tab:
  point foot: at (0, 0)
  outline: gusset.width/4 across; at foot
"""
MEASURES = "measure disc = 96 mm\nmeasure deep = back.width/3\n"


@pytest.mark.parametrize("order", list(itertools.permutations([MEASURES, DISC, STRIP, TAB])), ids=str)
def test_a_length_of_one_piece_makes_another_in_any_order(order: tuple[str, ...]) -> None:
    around = 88 * math.pi + 12
    check(
        "".join(order),
        {"gusset.width": around, "gusset.height": 32, "tab.width": around / 4, "gusset.lap": 12},
    )


def test_measures_speak_of_what_is_placed_and_place_again() -> None:
    """Three pieces and two measures in a chain."""
    text = (
        CARD
        + """measure diagonal = back.foot..back.brow
measure half = diagonal/2 + back.tip.y
piece front:
  point a: at (0, 0)
  point b: half right of a; level with a
  point c: plumb with b; 10 mm above b
  outline: a to b to c
measure last = front.a..front.c
"""
    )
    half = math.sqrt(5200) / 2 + 60
    check(text, {"half": half, "last": math.hypot(half, 10)})


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("piece a:\n  outline: box b.width by 9 mm\npiece b:\n  outline: box a.width by 9 mm\n", "S18"),
        ("measure m = a.width\npiece a:\n  outline: box m by 9 mm\n", "S14"),
        ("measure m = n\nmeasure n = m\n" + CARD, "M09"),
        ("stock body: leather; rim thick\nmeasure rim = 2*body.thick\n" + CARD, "S14"),
        ("measure a = 1 mm, b\nmeasure b = a.2\n" + CARD, "S14"),
        ("piece a: like b\npiece b: like a\n", "M20"),
        ("piece a: over b\n  outline: 9 mm across\npiece b: over a\n  outline: 9 mm across\n", "M20"),
    ],
)
def test_what_waits_for_itself_is_told_once(text: str, code: str) -> None:
    assert codes(text) == [code]


CHECKS = [
    ("back.width = 40 mm", True),
    ("back.width = 40.1 mm", False),
    ("back.width = 40.1 mm within 0.2 mm", True),
    ("back.width = 40.3 mm within 0.2 mm", False),
    ("back.width >= 40 mm", True),
    ("back.width > 40 mm", False),
    ("back.width < 40 mm", False),
    ("back.width <= 40 mm", True),
    ("40 mm = back.width", True),
    ("back.area > 0", True),
    ("back.area = 24 cm * 1 cm", True),
    ("angle back.heel..back.foot..back.brow < 57 deg", True),
    ("back.height/back.width = 3/2", True),
    ("gap(back.foot, back.brow) = sqrt(5200)*1 mm", True),
    ("back.width = rim * 4 within rim/8", False),
    ("back.width = rim * 5 within back.height/1000", True),
]


@pytest.mark.parametrize(("text", "holds"), CHECKS, ids=[text for text, _ in CHECKS])
def test_a_check_holds_or_is_told(text: str, holds: bool) -> None:
    assert codes(f"measure rim = 8 mm\n{CARD}check {text}\n") == ([] if holds else ["M38"])


def test_a_check_of_a_piece_speaks_its_names() -> None:
    assert codes(CARD + "  check foot..heel >= 40 mm\n  check outline.width > 41 mm\n") == ["M38"]


def test_a_check_that_cannot_be_worked_out_says_why() -> None:
    assert codes(CARD + "check 10 mm/(back.width - 40 mm) > 3\n") == ["M36"]


# Sizes


def test_a_series_makes_one_size_a_step() -> None:
    text = 'measure waist = 95 cm\nsize "{waist}": waist = 80 cm to 110 cm by 5 cm\npiece belt:\n  outline: box waist by 38 mm\n'
    pattern = face.read(Source("belt.draft", text))
    assert pattern.sizes == ("80 cm", "85 cm", "90 cm", "95 cm", "100 cm", "105 cm", "110 cm")
    assert [pattern.place(size).measure("belt.width").value for size in pattern.sizes] == [
        800, 850, 900, 950, 1000, 1050, 1100,
    ]  # fmt: skip


def test_several_series_make_every_pairing() -> None:
    text = 'measure a = 1 mm\nmeasure b = 1 mm\nmeasure c = 9 mm\nsize "{a} x {b}, {c}": a = 1 mm to 2 mm by 1 mm; c = 7 mm; b = 1/2 in to 1 in by 1/4 in\n'
    pattern = face.read(Source("belt.draft", text + "piece belt:\n  outline: box a by b\n"))
    assert pattern.sizes == (
        "1 mm x 0.5 in, 7 mm",
        "1 mm x 0.75 in, 7 mm",
        "1 mm x 1 in, 7 mm",
        "2 mm x 0.5 in, 7 mm",
        "2 mm x 0.75 in, 7 mm",
        "2 mm x 1 in, 7 mm",
    )
    assert pattern.place("2 mm x 0.75 in, 7 mm").measure("belt.area").value == pytest.approx(2 * 19.05)


def test_sizes_mix_units_and_set_formulas() -> None:
    text = """measure wide = 40 mm
measure high = 2*wide
measure widths = 1 mm, 2 mm
size "day": as written
size "night": wide = 2 in; widths = 1 cm, wide/4
size "noon": high = 3 in
piece back:
  outline: box wide by high + sum(widths)
"""
    found = [
        (drafted(text, size).measure("back.width").value, drafted(text, size).measure("back.height").value)
        for size in ("day", "night", "noon")
    ]
    assert found == [
        (40, 83),
        (pytest.approx(50.8), pytest.approx(101.6 + 10 + 12.7)),
        (40, pytest.approx(79.2)),
    ]


def test_only_the_sizes_written_are_made_and_the_first_is_drafted_unasked() -> None:
    text = 'measure wide = 40 mm\nsize "night": wide = 50 mm\nsize "noon": wide = 60 mm\npiece back:\n  outline: box wide by 9 mm\n'
    assert drafted(text).size == "night"
    assert drafted(text, "noon").measure("back.width").value == 60


def test_a_size_may_set_a_measure_that_is_read_off_something() -> None:
    """In place of its formula, and the other way round."""
    text = (
        CARD
        + """measure around = back.outline.length
measure own = 3 mm
size "day": as written
size "night": around = 90 mm
size "noon": own = back.width
piece strip:
  outline: box around by own + 9 mm
"""
    )
    found = {
        size: (
            drafted(text, size).measure("strip.width").value,
            drafted(text, size).measure("strip.height").value,
        )
        for size in ("day", "night", "noon")
    }
    assert found == {"day": (200, 12), "night": (90, 12), "noon": (200, 49)}


def test_ranges_hold_in_every_size_also_of_what_is_read_off() -> None:
    text = CARD + "measure part = back.width/4 between 5 mm and 12 mm\n"
    assert codes(text) == []
    assert codes(text.replace("12 mm\n", "9 mm\n")) == ["M34"]
    assert codes(CARD + "  measure rim = outline.width between 50 mm and 60 mm\n") == ["M34"]
    assert codes(CARD + "measure part = 5 mm between back.width and 60 mm\n") == ["M34"]


def test_a_fault_in_some_sizes_names_them() -> None:
    text = 'measure wide = 40 mm\nsize "{wide}": wide = 10 mm to 50 mm by 10 mm\npiece back:\n  outline: box wide by 60 mm\n'
    text += "  hole eye: at (9 mm, 0); 4 mm across\n"
    (message,) = face.read(Source("card.draft", text)).check()
    assert (message.code, message.sizes) == ("P37", ("10 mm", "20 mm"))


# The Python face


def test_settings_come_as_text_or_number() -> None:
    text = "measure wide = 40 mm\nmeasure turn = 30 deg\nmeasure many = 3\nmeasure widths = 1 mm, 2 mm\n"
    text += "piece back:\n  outline: box wide by sum(widths)\n"
    check(text, {"back.width": 50.8, "back.height": 3}, wide="2 in")
    check(text, {"back.width": 45}, wide=45)
    check(text, {"back.width": 12.5}, wide=12.5)
    check(text, {"back.height": 17, "turn": 45, "many": 5}, widths="1 cm, 7 mm", turn="45 deg", many="5")
    check(text, {"back.width": 80}, wide="2*40 mm")


@pytest.mark.parametrize(
    ("settings", "code"),
    [
        ({"wide": "12"}, "M03"),
        ({"wide": "12 deg"}, "M05"),
        ({"widths": "1 mm"}, "M43"),
        ({"widths": "1 mm, 2 mm, 3 mm"}, "M43"),
        ({"wide": "1 mm, 2 mm"}, "M43"),
        ({"wide": "tall"}, "M01"),
    ],
)
def test_a_setting_of_the_wrong_kind_is_told(settings: dict[str, str], code: str) -> None:
    text = (
        "measure wide = 40 mm\nmeasure widths = 1 mm, 2 mm\npiece back:\n  outline: box wide by sum(widths)\n"
    )
    with pytest.raises(face.Faults) as fault:
        drafted(text, **settings)
    assert [message.code for message in fault.value.messages] == [code]


def test_a_setting_outside_the_range_is_told() -> None:
    with pytest.raises(face.Faults, match="outside its range"):
        drafted(
            "measure wide = 40 mm between 30 mm and 50 mm\npiece back:\n  outline: box wide by 9 mm\n",
            wide=51,
        )


def test_unknown_names_name_the_known() -> None:
    text = 'measure wide = 40 mm\nsize "day": as written\npiece back:\n  outline: box wide by 9 mm\n'
    for asked in ({"size": "night"}, {"size": None, "tall": 3}):
        with pytest.raises(face.UnknownName) as fault:
            drafted(text, **asked)  # type: ignore[arg-type]
        assert fault.value.known


def test_influence_says_what_a_measure_moves() -> None:
    """Of the top corner of a 3-4-5 triangle: its height moves it along both sides."""
    text = """measure wide = 40 mm
measure high = 30 mm
piece back:
  point foot: at (0, 0)
  point heel: level with foot; wide right of foot
  point brow: plumb with heel; high above heel
  point knot: 50 mm from foot; on foot..brow extended; right of foot
  outline: foot to heel to brow
"""
    pattern = face.read(Source("card.draft", text))
    assert pattern.influence("back.brow") == {"wide": pytest.approx((1, 0)), "high": pytest.approx((0, 1))}
    assert pattern.influence("back.foot") == {}
    assert pattern.influence("back.knot") == {
        "wide": pytest.approx((0.36, -0.48)),
        "high": pytest.approx((-0.48, 0.64)),
    }


def test_explain_names_the_facts_that_pin_a_point() -> None:
    text = CARD + "  point knot: 30 mm from foot; level with foot; right of foot\n"
    told = face.read(Source("card.draft", text)).explain("back.knot")
    assert "30 mm from foot" in told and "level with foot" in told and "right of foot" in told
