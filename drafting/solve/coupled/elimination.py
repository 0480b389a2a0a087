"""Exact elimination: a block as polynomials with rational numbers, brought down to one unknown.

For blocks in which no single torn number lets the rest follow. The Groebner basis of the equations gives one polynomial
whose real roots are all isolated and counted, and every unknown as a polynomial of that root. Measures are rounded
to small fractions first, for the size of the numbers decides the time; Newton's method brings the digits back.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from drafting.model.expressions import Applied, Bound, Constant, Distance, Operation, Value
from drafting.solve.kinds import EQUATION
from drafting.solve.layout import Equation, FormulaNode, Layout
from drafting.solve.roots import cosine, sine
from drafting.solve.structure import Part

Values = list[Any]
MOST_SOLUTIONS = 40
"""Product of the degrees, above which elimination takes longer than anybody waits."""

MOST_UNKNOWNS = 7
FINEST = 10**5
"""Largest denominator of a rounded measure."""

ROOT_WIDTH = Fraction(1, 10**40)


class _NotPolynomial(Exception):
    pass


def eliminated(layout: Layout, part: Part, values: Values) -> list[tuple[float, ...]] | None:
    """All solutions, nearly; None when the block is no polynomial system of a size that can be eliminated."""
    if len(part.unknowns) > 3 * MOST_UNKNOWNS:
        return None
    try:
        polynomials, symbols, extra, origin = _Translator(layout, part, values).polynomials()
    except _NotPolynomial:
        return None
    reduced = _without_linear(polynomials, [*symbols, *extra])
    if reduced is None:
        return None
    solutions = _solve(*reduced)
    if solutions is None:
        return None
    shift = [origin["xy".index(axis)] if axis else Fraction(0) for axis in _axes(layout, part)]
    return [
        tuple(float(solution[symbol] + off) for symbol, off in zip(symbols, shift, strict=True))
        for solution in solutions
    ]


def _axes(layout: Layout, part: Part) -> list[str]:
    axis = {slot: "xy"[index] for pair in layout.points.values() for index, slot in enumerate(pair)}
    return [axis.get(slot, "") for slot in part.unknowns]


class _Translator:
    """Equations of the layout as sympy polynomials about a local origin."""

    def __init__(self, layout: Layout, part: Part, values: Values) -> None:
        import sympy

        self.sympy = sympy
        self.layout = layout
        self.part = part
        self.values = values
        self.symbols = {slot: sympy.Symbol(f"z{number}") for number, slot in enumerate(part.unknowns)}
        self.extra: list[Any] = []
        self.extra_equations: list[Any] = []
        self.axis = {slot: index for pair in layout.points.values() for index, slot in enumerate(pair)}
        self.origin = self._origin()

    def polynomials(self) -> tuple[list[Any], list[Any], list[Any], tuple[Fraction, Fraction]]:
        found = [self._polynomial(self.layout.equations[e]) for e in self.part.equations]
        return [*found, *self.extra_equations], list(self.symbols.values()), self.extra, self.origin

    def _origin(self) -> tuple[Fraction, Fraction]:
        for e in self.part.equations:
            for x, y in self.layout.equations[e].points:
                if isinstance(self.values[x], float) and isinstance(self.values[y], float):
                    if x not in self.symbols and y not in self.symbols:
                        return Fraction(round(self.values[x])), Fraction(round(self.values[y]))
        return Fraction(0), Fraction(0)

    def _polynomial(self, equation: Equation) -> Any:
        if equation.objects:
            raise _NotPolynomial
        if equation.form is EQUATION:
            assert equation.left is not None
            return self._cleared(self._expression(equation.left.expression))
        return self._cleared(self._of_form(equation))

    def _of_form(self, equation: Equation) -> Any:
        from drafting.solve.fact_kinds import FORMULAS, side

        formula = FORMULAS[equation.form.name]
        put: dict[Any, Any] = {}
        for (x, y), (symbol_x, symbol_y) in zip(equation.points, formula.points, strict=True):
            put[symbol_x], put[symbol_y] = self._number(x), self._number(y)
        if formula.is_angle:
            degrees = self.values[equation.scalars[0]]
            if degrees is None or self._is_inner(equation.scalars[0]):
                raise _NotPolynomial
            for symbol, amount in zip(formula.scalars, (cosine(degrees), sine(degrees)), strict=True):
                put[symbol] = _rational(amount, self.sympy)
        else:
            for symbol, slot in zip(formula.scalars, equation.scalars, strict=True):
                put[symbol] = self._number(slot)
        if equation.form.name in ("coordinate_x", "coordinate_y"):
            put[formula.scalars[0]] -= self.sympy.Rational(self.origin["xy".index(equation.form.name[-1])])
        expression = formula.expression
        if formula.has_side:
            expression = expression.subs(side, 1) * expression.subs(side, -1)
        return expression.subs(put, simultaneous=True)

    def _is_inner(self, slot: int) -> bool:
        return slot in self.symbols or self.layout.transit_of.get(slot, -1) in self.part.transits

    def _number(self, slot: int) -> Any:
        """An unknown's symbol, a formula between written out, or a rounded number."""
        if slot in self.symbols:
            return self.symbols[slot]
        if self._is_inner(slot):
            node = self.layout.transits[self.layout.transit_of[slot]]
            if not isinstance(node, FormulaNode):
                raise _NotPolynomial
            return self._expression(node.expression)
        off = self.origin[self.axis[slot]] if slot in self.axis else 0
        return _rational(Fraction(self.values[slot]) - off, self.sympy)

    def _expression(self, expression: Bound) -> Any:
        match expression:
            case Constant(value):
                return self.sympy.Rational(value)
            case Value(key):
                return self._absolute(self.layout.slot(key))
            case Operation(operator, left, right):
                one, other = self._expression(left), self._expression(right)
                if operator == "/":
                    return one / other
                return one + other if operator == "+" else one - other if operator == "-" else one * other
            case Applied("sqrt", (inner,)):
                return self._root(self._expression(inner))
            case Applied("sum", parts):
                return sum(self._expression(part) for part in parts)
            case Distance(start, end):
                (ax, ay), (bx, by) = self.layout.point(start), self.layout.point(end)
                x, y = self._number(bx) - self._number(ax), self._number(by) - self._number(ay)
                return self._root(x**2 + y**2)
        raise _NotPolynomial

    def _absolute(self, slot: int) -> Any:
        """A coordinate read as a number counts from the true origin."""
        off = self.origin[self.axis[slot]] if slot in self.axis else Fraction(0)
        return self._number(slot) + self.sympy.Rational(off)

    def _root(self, square: Any) -> Any:
        """A new unknown whose square is known; that it is not negative is tested on the finished solution."""
        root = self.sympy.Symbol(f"r{len(self.extra)}")
        self.extra.append(root)
        self.extra_equations.append(self.sympy.expand(root**2 - square))
        return root

    def _cleared(self, expression: Any) -> Any:
        numerator, _ = self.sympy.fraction(self.sympy.together(expression))
        symbols = [*self.symbols.values(), *self.extra]
        if not numerator.is_polynomial(*symbols):
            raise _NotPolynomial
        return self.sympy.expand(numerator)


def _rational(amount: float | Fraction, sympy: Any) -> Any:
    return sympy.Rational(Fraction(amount).limit_denominator(FINEST))


def _without_linear(
    polynomials: list[Any], symbols: list[Any]
) -> tuple[list[Any], list[Any], dict[Any, Any]] | None:
    """Put linear equations into the others. None when what is left is too large."""
    import sympy

    left, free = list(polynomials), list(symbols)
    solved: dict[Any, Any] = {}
    while True:
        found = _linear_one(left, free)
        if found is None:
            break
        polynomial, symbol, value = found
        left.remove(polynomial)
        free.remove(symbol)
        left = [sympy.expand(sympy.fraction(sympy.together(other.subs(symbol, value)))[0]) for other in left]
        solved = {key: expression.subs(symbol, value) for key, expression in solved.items()}
        solved[symbol] = value
    size = 1
    for polynomial in left:
        size *= sympy.Poly(polynomial, *free).total_degree() if polynomial.free_symbols else 1
    if len(free) > MOST_UNKNOWNS or size > MOST_SOLUTIONS or len(left) != len(free):
        return None
    return left, free, solved


def _linear_one(left: Sequence[Any], free: Sequence[Any]) -> tuple[Any, Any, Any] | None:
    import sympy

    for polynomial in left:
        inside = [symbol for symbol in free if polynomial.has(symbol)]
        if not inside:
            continue
        poly = sympy.Poly(polynomial, *inside)
        if poly.total_degree() != 1:
            continue
        symbol = inside[0]
        slope = poly.coeff_monomial(symbol)
        return polynomial, symbol, sympy.expand(symbol - polynomial / slope)
    return None


def _solve(
    polynomials: list[Any], symbols: list[Any], solved: dict[Any, Any]
) -> list[dict[Any, Fraction]] | None:
    """Every real solution as exact numbers, but for the width of an isolated root."""
    import sympy

    if not symbols:
        return [{key: _fraction(value) for key, value in solved.items()}]
    mix = sympy.Symbol("w")
    weights = [3, 7, -5, 11, -13, 17, 2][: len(symbols)]
    apart = mix - sum(weight * symbol for weight, symbol in zip(weights, symbols, strict=True))
    basis = sympy.groebner([*polynomials, apart], *symbols, mix, order="grevlex")
    if not basis.is_zero_dimensional:
        return None
    basis = basis.fglm("lex")
    eliminant = sympy.Poly(basis.exprs[-1], mix)
    if len(basis.exprs) == 1 and eliminant.is_ground:
        return []
    rules: dict[Any, Any] = {}
    for expression in basis.exprs[:-1]:
        for symbol in symbols:
            poly = sympy.Poly(expression, symbol)
            if poly.degree() == 1 and expression.free_symbols <= {symbol, mix}:
                rules[symbol] = sympy.Poly(symbol - expression / poly.LC(), mix)
    if len(rules) != len(symbols):
        return None
    found: list[dict[Any, Fraction]] = []
    for (low, high), _ in eliminant.intervals(eps=sympy.Rational(ROOT_WIDTH)):
        at = (_fraction(low) + _fraction(high)) / 2
        numbers = {symbol: _fraction(rule.eval(sympy.Rational(at))) for symbol, rule in rules.items()}
        put = {symbol: sympy.Rational(number) for symbol, number in numbers.items()}
        for key, value in solved.items():
            numbers[key] = _fraction(value.subs(put))
        found.append(numbers)
    return found


def _fraction(number: Any) -> Fraction:
    import sympy

    exact = sympy.Rational(number)
    return Fraction(int(exact.p), int(exact.q))
