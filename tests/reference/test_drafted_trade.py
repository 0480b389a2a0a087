"""Areas E and F of the reference values once more, drafted from text: what a maker writes comes to the published figures."""

from __future__ import annotations

import math

import pytest

from drafting.craft.bends import fold_allowance, round_stack
from tests.lowering.drafted import drafted

SHEET = "  point a: at (0, 0)\n  outline: box 200 mm by 100 mm; at a\n"


def measured(stock: str, statements: str, asked: str) -> float:
    """An amount of a plain piece of a stock, in mm."""
    text = f"stock body: leather; {stock}\npiece part: cut 1 from body\n{SHEET}{statements}"
    return drafted(text).measure(asked).value


def test_a_bend_of_the_handbook() -> None:
    """E-02: Machinery's Handbook, 31st ed., p. 1421, eq. 33 and fig. 13: 5.545 in, within 0.001 in."""
    folds = "  fold round: plumb through a; bent 180 deg round 3/4 in\n"
    folds += "  fold bent_up: level through a; bent 60 deg round 1 1/4 in\n"
    stock = "1/8 in thick; 0.407437 neutral"
    flat = measured(stock, folds, "3.5 in + part.round.allowance + part.bent_up.allowance")
    assert flat / 25.4 == pytest.approx(5.545, abs=0.001)
    assert measured(stock, folds, "part.round.allowance") / 25.4 == pytest.approx(1.338, abs=0.001)
    assert measured(stock, folds, "part.bent_up.allowance") / 25.4 == pytest.approx(0.707, abs=0.001)


@pytest.mark.parametrize(
    ("coefficient", "k"), [(0.55, 0.350141), (0.64, 0.407437), (0.71, 0.452000)], ids=["soft", "half", "hard"]
)
def test_a_handbook_coefficient_is_a_neutral_part(coefficient: float, k: float) -> None:
    """E-03: L = coefficient x T + 1.57 R for 90 deg (the same page, eqs. 32 to 34)."""
    fold = "  fold corner: plumb through a; bent 90 deg round 10 mm\n"
    flat = measured(f"2 mm thick; {k} neutral", fold, "part.corner.allowance")
    assert flat == pytest.approx(coefficient * 2 + math.pi / 2 * 5, abs=1e-5)


def test_a_bend_is_told_by_the_angle_turned_through() -> None:
    """E-06: Machinery's Handbook, 31st ed., p. 1421: a drawing that shows 60 deg between the legs bends by 120 deg."""
    folds = "  fold sharp: plumb through a; bent 120 deg round 20 mm\n"
    assert measured("2 mm thick; 0.5 neutral", folds, "part.sharp.allowance") == pytest.approx(
        math.radians(180 - 60) * (10 + 0.5 * 2), abs=1e-6
    )


def test_a_fold_on_itself_takes_half_a_circle_round_the_middle() -> None:
    """E-05: pi T / 2."""
    fold = "  fold hem: plumb through a; bent 180 deg round 0\n"
    assert measured("1.5 mm thick", fold, "part.hem.allowance") == pytest.approx(2.356194, abs=1e-6)


def test_leather_once_round_a_core() -> None:
    """E-07: on its middle 227.7655."""
    fold = "  fold collar: plumb through a; bent 360 deg round 70 mm\n"
    assert measured("2.5 mm thick", fold, "part.collar.allowance") == pytest.approx(227.7655, abs=1e-4)


def test_ounces_fold_as_the_mm_they_are() -> None:
    fold = "  fold hem: plumb through a; bent 180 deg round 0\n"
    inches = measured("4 oz thick", fold, "part.hem.allowance")
    assert inches == pytest.approx(math.pi / 2 * 25.4 / 16, rel=1e-12)


def test_the_function_for_a_bend_is_the_fold_without_its_line() -> None:
    fold = "  fold wrap: plumb through a; bent 200 deg round 9 mm\n"
    by_function = measured("2.2 mm thick", fold, "bend(turn = 200 deg, round = 9 mm, thick = body.thick)")
    assert by_function == pytest.approx(measured("2.2 mm thick", fold, "part.wrap.allowance"), rel=1e-12)
    assert by_function == pytest.approx(fold_allowance(math.radians(200), 9, 2.2), rel=1e-12)


def test_a_keeper_round_a_stack() -> None:
    """F-14: middle 96.2832."""
    around = measured("2 mm thick", "", "loop(wide = 38 mm, stack = 7 mm, thick = body.thick)")
    assert around == pytest.approx(96.2832, abs=1e-4)
    assert around == pytest.approx(round_stack(38, 7, 2).middle, rel=1e-12)
