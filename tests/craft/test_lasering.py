"""What a laser must not cut, by what is written of it (reference values H-01 and H-02)."""

from __future__ import annotations

import pytest

from drafting.craft.lasering import unfit_for_laser


@pytest.mark.parametrize(
    ("name", "text", "what"),
    [
        ("clear", "sheet PVC, 0.3 mm", "PVC"),
        ("vinyl_film", "sheet", "PVC"),
        ("cover", "sheet polyvinyl chloride on cloth", "PVC"),
        ("skin", "leather chrome-tanned goat", "chrome-tanned leather"),
        ("skin", "leather Chrome tanned", "chrome-tanned leather"),
        ("crust", "leather wet-blue", "chrome-tanned leather"),
    ],
)
def test_these_are_refused(name: str, text: str, what: str) -> None:
    (unfit,) = unfit_for_laser([(name, text)])
    assert (unfit.stock, unfit.what) == (name, what) and unfit.word.lower() in f"{name} {text}".lower()


@pytest.mark.parametrize(
    "text",
    [
        "leather vegetable-tanned shoulder",
        "leather chrome-free",
        "leather not chrome-tanned",
        "sheet PVC-free film",
        "sheet no PVC, polypropylene",
        "foam ethylene vinyl acetate",
        "leather in the colour of monochrome photographs",
        "",
    ],
)
def test_these_are_not(text: str) -> None:
    assert unfit_for_laser([("body", text)]) == []


def test_a_stock_that_is_both_is_told_twice() -> None:
    assert len(unfit_for_laser([("body", "chrome leather with a PVC finish")])) == 2
