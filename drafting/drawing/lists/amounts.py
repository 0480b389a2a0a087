"""What is bought, in the words and units that it is bought by.

Leather is told in dm² and ft², whatever a pattern shows: both are exact, for a foot is 304.8 mm (NBS Circular 572).
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from drafting.craft.lists.needs import Thing
from drafting.drawing.amounts import Figures
from drafting.text.prices import PER

SIZE_WORDS = {"thick": "|{}| thick", "inside": "|{}| inside", "prong": "prong |{}|", "bar": "bar |{}|"}


def thing_words(thing: Thing, figures: Figures) -> str:
    """`body: leather, 1.8 mm thick, vegetable-tanned shoulder`."""
    sizes = [figures.told(SIZE_WORDS[word], size) for word, size in thing.sizes]
    said = [word for word in (thing.material, *sizes, thing.note) if word]
    name = thing.name.replace("_", " ") or {"stock": "no stock said", "thread": "thread"}.get(thing.kind, "")
    return f"{name}: {', '.join(said)}" if said else name


def decimals(value: Fraction | float, digits: int) -> str:
    """With a fixed number of decimals, rounded half away from nothing where the value is exact."""
    scaled = round(Fraction(value) * 10**digits)
    whole, rest = divmod(abs(scaled), 10**digits)
    text = f"{whole}.{rest:0{digits}}" if digits else f"{whole}"
    return f"-{text}" if scaled < 0 else text


def in_unit(value: Fraction | float, unit: str, digits: int = 2) -> str:
    """mm² or mm in a unit that things are sold by."""
    return decimals(Fraction(value) / PER[unit][1], digits)


def long_words(value: Fraction | float, show: Sequence[str]) -> str:
    """A length of thread or strap: metres, or feet, or both, as the pattern shows."""
    metres, feet = f"{in_unit(value, 'm')} m", f"{in_unit(value, 'ft')} ft"
    is_inch = [unit == "in" for unit in show if unit != "oz"] or [False]
    if all(is_inch):
        return feet
    if not any(is_inch):
        return metres
    return f"{feet} ({metres})" if is_inch[0] else f"{metres} ({feet})"


def area_words(value: Fraction | float) -> str:
    return f"{in_unit(value, 'dm2')} dm² ({in_unit(value, 'ft2', 3)} ft²)"


def amount_words(thing: Thing, amount: Fraction, show: Sequence[str]) -> str:
    """So much of a thing."""
    if thing.kind in ("stock", "glue"):
        return area_words(amount)
    return long_words(amount, show) if thing.kind == "thread" else decimals(amount, 0)


def weight_words(grams: Fraction | None) -> str:
    """Grams up to a kilogram, then kilograms."""
    if grams is None:
        return ""
    return f"{decimals(grams, 0)} g" if grams < 1000 else f"{decimals(grams / 1000, 2)} kg"


def percent(fraction: Fraction) -> str:
    """`70 %`, `66.5 %`."""
    return f"{decimals(fraction * 100, 2).rstrip('0').rstrip('.')} %"
