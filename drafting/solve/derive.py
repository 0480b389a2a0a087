"""Derive the closed forms: `python -m drafting.solve.derive` writes `closed_forms.py`.

Takes the formulas of `fact_kinds` and makes plain Python functions of them with sympy, so that drafting a pattern
needs no sympy. For each form of equation it writes

- `value_FORM`, zero where the fact holds, and `slopes_FORM`, its derivatives by every number it reads;
- `locus_FORM_MERGE_TARGET` for each of its points: where that point may lie when all the others are known, as the
  coefficients (k, a, b, c) of k (x² + y²) + a x + b y + c = 0, a circle or a line about a local origin. MERGE says
  which operands are one and the same point (`0121`: the fourth is the second).

A form that is no circle or line in some point has no locus for it; such points are solved together with others.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

import sympy
from sympy.printing.pycode import PythonCodePrinter

from drafting.solve.fact_kinds import FORMULAS, Formula, Vector, side

HEADING = '''"""Closed forms of the facts, written by `python -m drafting.solve.derive` from `fact_kinds`.

Every function takes floats or numpy arrays.
"""

# ruff: noqa
# fmt: off

from __future__ import annotations

from typing import Any

from drafting.solve.roots import root as sqrt
'''
ABSOLUTE = ("coordinate_x", "coordinate_y")
STRETCHES = ("parallel", "square", "equal_lengths")
x, y, ox, oy = sympy.symbols("x y ox oy", real=True)


def closed_forms() -> str:
    """The whole text of `closed_forms.py`."""
    parts = [HEADING, _chord()]
    loci: list[str] = []
    values: list[str] = []
    for name, formula in FORMULAS.items():
        parts.append(_value(name, formula))
        parts.append(_slopes(name, formula))
        values.append(f'    "{name}": (value_{name}, slopes_{name}),')
        for merge in _merges(name, len(formula.points)):
            for target in sorted(set(merge)):
                locus = _locus(name, formula, merge, target)
                if locus is None:
                    continue
                parts.append(locus)
                label = "".join(map(str, merge))
                sided = _locus_expression(formula, target).has(side)
                loci.append(f'    ("{name}", "{label}", {target}): (locus_{name}_{label}_{target}, {sided}),')
    parts.append("\n\nVALUES: dict[str, tuple[Any, Any]] = {\n" + "\n".join(values) + "\n}\n")
    parts.append("\nLOCI: dict[tuple[str, str, int], tuple[Any, bool]] = {\n" + "\n".join(loci) + "\n}\n")
    return "".join(parts)


def _merges(name: str, n_points: int) -> Iterator[tuple[int, ...]]:
    """The ways in which two stretches can share a point, and first the one in which they share none."""
    yield tuple(range(n_points))
    if name in STRETCHES:
        yield (0, 1, 0, 3)
        yield (0, 1, 2, 0)
        yield (0, 1, 1, 3)
        yield (0, 1, 2, 1)


def _merged(expression: sympy.Expr, formula: Formula, merge: Sequence[int]) -> sympy.Expr:
    swaps: dict[sympy.Symbol, sympy.Symbol] = {}
    for index, twin in enumerate(merge):
        if index != twin:
            swaps[formula.points[index][0]] = formula.points[twin][0]
            swaps[formula.points[index][1]] = formula.points[twin][1]
    return expression.subs(swaps, simultaneous=True)


def _locus_expression(formula: Formula, target: int) -> sympy.Expr:
    return dict(formula.loci).get(target, formula.expression)


def _locus(name: str, formula: Formula, merge: Sequence[int], target: int) -> str | None:
    expression = _merged(_locus_expression(formula, target), formula, merge)
    if name in ABSOLUTE:
        shift = {px: px + o for point in formula.points for px, o in zip(point, (ox, oy), strict=True)}
        expression = expression.subs(shift, simultaneous=True)
    target_x, target_y = formula.points[target]
    expression = expression.subs({target_x: x, target_y: y}, simultaneous=True)
    coefficients = circle_family(expression)
    if coefficients is None:
        return None
    others = [formula.points[index] for index in sorted(set(merge)) if index != target]
    arguments: list[sympy.Symbol] = [ox, oy]
    if expression.has(side):
        arguments.append(side)
    arguments += [coordinate for point in others for coordinate in point]
    arguments += list(formula.scalars)
    label = "".join(map(str, merge))
    return _function(f"locus_{name}_{label}_{target}", arguments, coefficients, local=others)


def circle_family(expression: sympy.Expr) -> tuple[sympy.Expr, ...] | None:
    """The (k, a, b, c) of an expression in x and y, or None where it is no circle or line.

    They are read off by differentiating, for multiplying out would lose digits where two points lie close together.
    """
    expanded = sympy.expand(expression)
    if not expanded.is_polynomial(x, y):
        return None
    polynomial = sympy.Poly(expanded, x, y)
    if polynomial.total_degree() > 2 or polynomial.is_ground:
        return None
    k = polynomial.coeff_monomial(x**2)
    if sympy.expand(k - polynomial.coeff_monomial(y**2)) != 0:
        return None
    if sympy.expand(polynomial.coeff_monomial(x * y)) != 0:
        return None
    origin = {x: 0, y: 0}
    slope_x, slope_y = sympy.diff(expression, x), sympy.diff(expression, y)
    half_bend = sympy.expand(sympy.diff(slope_x, x) / 2)
    return half_bend, slope_x.subs(origin), slope_y.subs(origin), expression.subs(origin)


def _value(name: str, formula: Formula) -> str:
    return _function(f"value_{name}", _arguments(formula), (formula.expression,))


def _slopes(name: str, formula: Formula) -> str:
    wanted = [*(coordinate for point in formula.points for coordinate in point), *formula.scalars]
    slopes = tuple(sympy.diff(formula.expression, symbol) for symbol in wanted)
    return _function(f"slopes_{name}", _arguments(formula), slopes)


def _arguments(formula: Formula) -> list[sympy.Symbol]:
    sides = [side] if formula.has_side else []
    return [*sides, *(coordinate for point in formula.points for coordinate in point), *formula.scalars]


def _chord() -> str:
    """Where a line crosses a circle: the foot of the center on the line, the line's direction, the square of half
    the chord, and the square of the radius. The line is walked from the foot, so that no coordinate difference is ever
    divided by and level and plumb lines are like any other."""
    k, a, b, c, p, q, r, t = sympy.symbols("k a b c p q r t", real=True)
    center = (-a / (2 * k), -b / (2 * k))
    length = sympy.sqrt(p**2 + q**2)
    way = (-q / length, p / length)
    off = (p * center[0] + q * center[1] + r) / length**2
    foot = (center[0] - p * off, center[1] - q * off)
    along = {x: foot[0] + t * way[0], y: foot[1] + t * way[1]}
    circle = k * (x**2 + y**2) + a * x + b * y + c
    quadratic = sympy.Poly(sympy.expand(circle.subs(along, simultaneous=True)), t)
    if sympy.simplify(quadratic.coeff_monomial(t)) != 0 or sympy.simplify(quadratic.LC() - k) != 0:
        raise ArithmeticError("the walk along the line does not start at the middle of the chord")
    radius_squared = center[0] ** 2 + center[1] ** 2 - c / k
    half_squared = radius_squared - off**2 * length**2
    if sympy.simplify(half_squared + quadratic.coeff_monomial(1) / k) != 0:
        raise ArithmeticError("half the chord does not fit")
    return _function("chord", [k, a, b, c, p, q, r], (*foot, *way, half_squared, radius_squared))


class _Printer(PythonCodePrinter):  # type: ignore[misc]
    """Powers as products: quicker, and alike for floats and arrays."""

    def _print_Pow(self, expr: sympy.Pow, **_: object) -> str:
        base, exponent = expr.as_base_exp()
        if exponent == 2:
            inner = self.parenthesize(base, 60)
            return f"({inner}*{inner})"
        if exponent == sympy.Rational(1, 2):
            return f"sqrt({self._print(base)})"
        if exponent == -1:
            return f"1/({self._print(base)})"
        if exponent == -2:
            inner = self.parenthesize(base, 60)
            return f"1/({inner}*{inner})"
        if exponent == sympy.Rational(-1, 2):
            return f"1/sqrt({self._print(base)})"
        return f"{self.parenthesize(base, 60)}**{self.parenthesize(exponent, 60)}"


def _function(
    name: str,
    arguments: Sequence[sympy.Symbol],
    results: Sequence[sympy.Expr],
    local: Sequence[Vector] = (),
) -> str:
    """The text of a function; coordinates in `local` are taken from the origin (ox, oy) first."""
    printer = _Printer({"fully_qualified_modules": False})
    repeated, reduced = sympy.cse(results, symbols=sympy.numbered_symbols("t"), order="canonical")
    used = {symbol for part in (*results,) for symbol in part.free_symbols}
    lines = [f"\n\ndef {name}({', '.join(f'{argument}: Any' for argument in arguments)}) -> Any:"]
    for point in local:
        for coordinate, origin in zip(point, (ox, oy), strict=True):
            if coordinate in used:
                lines.append(f"    {coordinate} = {coordinate} - {origin}")
    lines += [f"    {symbol} = {printer.doprint(part)}" for symbol, part in repeated]
    shown = ", ".join(printer.doprint(part) for part in reduced)
    lines.append(f"    return {shown}" + ("," if name.startswith("slopes_") and len(results) == 1 else ""))
    return "\n".join(lines) + "\n"


def main() -> None:
    Path(__file__).with_name("closed_forms.py").write_text(closed_forms(), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
