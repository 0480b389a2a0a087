"""Units and kinds through every expression: what an amount comes to, and what sort of amount it is."""

from __future__ import annotations

import math

import pytest

from tests.lowering.drafted import CARD, codes, drafted

UNITS = [
    ("12 mm", 12.0, "mm"),
    ("1.2 cm", 12.0, "mm"),
    ("1 in", 25.4, "mm"),
    ("5/8 in", 15.875, "mm"),
    ("5 1/4 in", 133.35, "mm"),
    ("1 1/2 cm", 15.0, "mm"),
    ("3 1/2 mm", 3.5, "mm"),
    ("0.125 in", 3.175, "mm"),
    ("30 deg", 30.0, "deg"),
    ("22 1/2 deg", 22.5, "deg"),
    ("7", 7.0, ""),
    ("2/3", 2 / 3, ""),
    ("1 2/3", 5 / 3, ""),
    ("0", 0.0, "mm"),
]
SUMS = [
    ("1 in + 2 cm + 3 mm", 48.4, "mm"),
    ("1 in - 5/8 in", 9.525, "mm"),
    ("-12 mm", -12.0, "mm"),
    ("-(3 mm - 5 mm)", 2.0, "mm"),
    ("3*rim", 24.0, "mm"),
    ("rim*3", 24.0, "mm"),
    ("rim/2", 4.0, "mm"),
    ("rim/wide", 0.1, ""),
    ("rim*wide", 640.0, "mm2"),
    ("rim*wide/rim", 80.0, "mm"),
    ("1/(1/rim)", 8.0, "mm"),
    ("rim + 0", 8.0, "mm"),
    ("0 + rim", 8.0, "mm"),
    ("0 + turn", 30.0, "deg"),
    ("2*rim + 3*(wide - rim)", 232.0, "mm"),
    ("1 + 2*3 - 8/4", 5.0, ""),
    ("8/4/2", 1.0, ""),
    ("2 - 3 - 4", -5.0, ""),
]
FUNCTIONS = [
    ("min(rim, wide, 1 in)", 8.0, "mm"),
    ("max(0, rim - 9 mm)", 0.0, "mm"),
    ("max(2, 3)", 3.0, ""),
    ("sum(widths)", 48.0, "mm"),
    ("sum(widths, rim)", 56.0, "mm"),
    ("min(widths)", 12.0, "mm"),
    ("widths.3", 20.0, "mm"),
    ("widths.1 + widths.2", 28.0, "mm"),
    ("sqrt(rim*rim + 6 mm * 6 mm)", 10.0, "mm"),
    ("sqrt(2)", math.sqrt(2), ""),
    ("rim*sin(turn)", 4.0, "mm"),
    ("cos(60 deg)", 0.5, ""),
    ("tan(45 deg)", 1.0, ""),
    ("body.thick", 1.8, "mm"),
    ("body.neutral", 0.4, ""),
    ("felt.neutral", 0.5, ""),
    ("hide.thick", 1.5875, "mm"),
    ("bend(turn = 180 deg, round = 3 mm, thick = 2 mm)", math.pi * (1.5 + 1.0), "mm"),
    ("bend(90 deg, 3 mm, 2 mm)", math.pi / 2 * 2.5, "mm"),
    ("loop(wide = 20 mm, stack = 5 mm, thick = 1.2 mm)", 50 + math.pi * 1.2, "mm"),
]
PLACED = [
    ("back.foot..back.brow", math.hypot(40, 60), "mm"),
    ("angle back.heel..back.foot..back.brow", math.degrees(math.atan2(60, 40)), "deg"),
    ("angle back.brow..back.foot..back.heel", math.degrees(math.atan2(60, 40)), "deg"),
    ("back.brow.x + back.brow.y", 100.0, "mm"),
    ("back.outline.area", 2400.0, "mm2"),
    ("back.area/back.width", 60.0, "mm"),
    ("sqrt(back.area)", math.sqrt(2400), "mm"),
    ("back.outline.length - back.width", 160.0, "mm"),
]
TEXT = f"""measure rim = 8 mm
measure wide = 8 cm
measure turn = 30 deg
measure widths = 12 mm, 1.6 cm, 20 mm
stock body: leather; 1.8 mm thick; 0.4 neutral
stock felt: sheet; 2 mm thick
stock hide: leather; 4 oz thick
{CARD}"""


@pytest.mark.parametrize(
    ("asked", "value", "unit"), UNITS + SUMS + FUNCTIONS + PLACED, ids=lambda case: str(case)
)
def test_an_amount_comes_to_its_value_and_kind(asked: str, value: float, unit: str) -> None:
    found = drafted(TEXT).measure(asked)
    assert (found.value, found.unit) == (pytest.approx(value, rel=1e-12, abs=1e-12), unit)


@pytest.mark.parametrize("unit", ["mm", "cm", "in", "deg", ""])
def test_only_nought_stands_bare_for_every_kind(unit: str) -> None:
    wanted = {"": "holes", "deg": "angle"}.get(unit, "length")
    clause = {"holes": f"0 {unit}", "angle": f"0 {unit}", "length": f"0 {unit}"}[wanted]
    text = {
        "holes": "check 3 > 0",
        "angle": f"check 30 deg > {clause}\ncheck 30 deg > 0",
        "length": f"check 30 mm > {clause}\ncheck 30 mm > 0",
    }[wanted]
    assert codes(f"{CARD}{text}\n") == []


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("check rim > 3", "M03"),
        ("check rim > 3 deg", "M06"),
        ("check rim*rim > 3 mm", "M06"),
        ("check turn > 3", "M04"),
        ("check rim + turn > 3 mm", "M06"),
        ("check sin(rim) > 0", "M05"),
        ("check sqrt(rim) > 3 mm", "M06"),
        ("check max(rim, turn) > 0", "M06"),
        ("check rim > 3 mm within 2", "M03"),
        ("check 7 > rim", "M03"),
        ("measure lost = rim/2 + 1", "M03"),
        ("measure lost = turn between 10 and 40 deg", "M04"),
        ("measure lost = 3 mm, 4 deg", "M05"),
        ("stock skin: leather; 2 thick", "M03"),
        ("stock skin: leather; 2 mm thick; 1 mm neutral", "M05"),
    ],
)
def test_kinds_are_told_apart(text: str, code: str) -> None:
    """Nothing turns into another kind by itself."""
    assert codes(f"{TEXT}{text}\n") == [code]
