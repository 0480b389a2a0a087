"""Amounts for the eye: in the units that the pattern shows, as short as they are true."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.cli.amounts import inches, readable


@pytest.mark.parametrize(
    ("value", "unit", "show", "expected"),
    [
        (87.5, "mm", (), "87.5 mm"),
        (40.000000000001, "mm", ("mm",), "40 mm"),
        (-0.0000001, "mm", ("mm",), "0 mm"),
        (87.5, "mm", ("mm", "in"), "87.5 mm (3.4449 in)"),
        (87.3125, "mm", ("mm", "in"), "87.31 mm (3 7/16 in)"),
        (50.8, "mm", ("in",), "2 in"),
        (-15.875, "mm", ("in",), "-5/8 in"),
        (0, "mm", ("in",), "0 in"),
        (87.5, "mm", ("cm", "mm"), "8.75 cm (87.5 mm)"),
        (1.5875, "mm", ("oz", "mm"), "4 oz (1.59 mm)"),
        (645.16, "mm2", ("mm",), "645.16 mm²"),
        (645.16, "mm2", ("in", "cm"), "1 in² (6.452 cm²)"),
        (645.16, "mm2", ("oz",), "645.16 mm²"),
        (645.16, "mm2", ("mm", "oz"), "645.16 mm²"),
        (30, "deg", ("mm", "in"), "30 deg"),
        (72.0, "", ("in",), "72"),
        (1 / 3, "", (), "0.3333"),
        (2.0, "an amount in mm^3", (), "2 an amount in mm^3"),
    ],
)
def test_an_amount_reads(value: float, unit: str, show: tuple[str, ...], expected: str) -> None:
    assert readable(value, unit, show) == expected


@given(st.floats(-2000, 2000))
def test_inches_read_back_within_a_hundredth_of_a_millimeter(value: float) -> None:
    """Whether as a fraction or in decimals."""
    text = inches(value)
    sign = -1 if text.startswith("-") else 1
    parts = [part.split("/") for part in text.removeprefix("-").split()]
    back = sum(float(part[0]) / float(part[1]) if part[1:] else float(part[0]) for part in parts)
    assert abs(sign * back * 25.4 - value) <= 0.00501
