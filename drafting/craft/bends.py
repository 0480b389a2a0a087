"""What a bend takes: the neutral line of leather that is folded, wrapped or pressed.

Takes the angle turned through, the radius inside and the thickness; returns lengths measured on the layer that neither
stretches nor shortens, `neutral` of the thickness from the inside: theta(R + kT). That is the standard neutral-axis
relation of sheet metal; Machinery's Handbook, 31st ed. p. 1421, has it as 0.64T + 1.57R for 90 deg, which is k = 0.407.
Half the thickness is common practice for leather, no source.

A bend's angle is the angle turned through: a corner drawn with 60 deg between its legs is bent by 120 deg (the same
page).
"""

from __future__ import annotations

from math import pi

from drafting.craft.faults import SetBackEndless, TurnOutOfRange, expect_not_negative, expect_positive
from drafting.geometry.maths import tan
from drafting.geometry.tolerances import FULL_TURN, SAME_DIRECTION
from drafting.records import dataclass

MIDDLE = 0.5
"""Where leather is taken neither to stretch nor to shorten, as a part of its thickness from the inside."""


def turn_from_included(between: float) -> float:
    """The angle turned through, from the angle between the two legs."""
    return expect_turn(pi - between)


def expect_turn(turn: float) -> float:
    if not 0 < turn <= FULL_TURN + SAME_DIRECTION:
        raise TurnOutOfRange(turn)
    return turn


def bend_allowance(turn: float, radius: float, thickness: float, neutral: float = MIDDLE) -> float:
    """The flat length that a bend round an inside radius takes up."""
    expect_turn(turn)
    expect_not_negative(radius=radius, thickness=thickness)
    return turn * (radius + neutral * thickness)


def fold_allowance(turn: float, inside: float, thickness: float, neutral: float = MIDDLE) -> float:
    """The same for a fold round something `inside` thick, as the language's `bent 180 deg round D` has it."""
    return bend_allowance(turn, inside / 2, thickness, neutral)


def neutral_from_coefficient(coefficient: float) -> float:
    """The part of the thickness behind a handbook's figure for a bend of 90 deg, such as the 0.64 of 0.64T + 1.57R."""
    return coefficient / (pi / 2)


def set_back(turn: float, radius: float, thickness: float) -> float:
    """From where a bend starts to the corner in which its outside faces would meet."""
    expect_turn(turn)
    if turn >= pi - SAME_DIRECTION:
        raise SetBackEndless(turn)
    return (radius + thickness) * tan(turn / 2)


def bend_deduction(turn: float, radius: float, thickness: float, neutral: float = MIDDLE) -> float:
    """What two legs measured to the outside corner are longer than the flat piece."""
    return 2 * set_back(turn, radius, thickness) - bend_allowance(turn, radius, thickness, neutral)


@dataclass(frozen=True)
class Bend:
    """One bend of a strip: the angle turned through and the radius inside."""

    turn: float
    radius: float


def flat_from_outside(
    legs: tuple[float, ...], bends: tuple[Bend, ...], thickness: float, neutral: float = MIDDLE
) -> float:
    """The flat length of a strip whose legs are measured to its outside corners."""
    return sum(legs) - sum(bend_deduction(bend.turn, bend.radius, thickness, neutral) for bend in bends)


def flat_from_straights(
    straights: tuple[float, ...], bends: tuple[Bend, ...], thickness: float, neutral: float = MIDDLE
) -> float:
    """The flat length of a strip whose straight parts are measured between its bends."""
    return sum(straights) + sum(bend_allowance(bend.turn, bend.radius, thickness, neutral) for bend in bends)


@dataclass(frozen=True)
class Round:
    """A closed loop of leather: its length on the inside, on the neutral line and on the outside."""

    inside: float
    middle: float
    outside: float


def round_core(across: float, thickness: float, neutral: float = MIDDLE) -> Round:
    """Leather once round a core. Inside and outside differ by 2 pi T whatever the size."""
    expect_positive(across=across)
    return _round(pi * across, thickness, neutral)


def round_stack(wide: float, high: float, thickness: float, neutral: float = MIDDLE) -> Round:
    """Leather once round a stack of straps: a keeper. The four corners of the stack make one whole turn."""
    expect_positive(width=wide, height_of_the_stack=high)
    return _round(2 * (wide + high), thickness, neutral)


def _round(inside: float, thickness: float, neutral: float) -> Round:
    expect_not_negative(thickness=thickness)
    return Round(inside, inside + FULL_TURN * neutral * thickness, inside + FULL_TURN * thickness)


def keeper_length(
    wide: float, high: float, thickness: float, lap: float = 0.0, ease: float = 0.0, neutral: float = MIDDLE
) -> float:
    """The strip to cut for a keeper: its neutral line, the overlap (none when it is butted), and the play it has.

    One to three mm of ease is common practice, no source.
    """
    expect_not_negative(lap=lap, ease=ease)
    return round_stack(wide, high, thickness, neutral).middle + lap + ease
