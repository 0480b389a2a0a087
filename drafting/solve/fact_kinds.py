"""The formula of every form of equation, written once.

Only `derive` and the solving of coupled blocks read this module, for importing sympy takes longer than solving a
pattern. A formula is an expression that is zero where the fact holds. Names of symbols: P, Q, A .. D with x and y for
points, d for a length, f for a fraction, c and s for the cosine and sine of an angle,
u and v for a place in the frame of two points, `side` for +1 or -1 where a
fact leaves open on which side it holds.

No symbol is assumed positive: closed forms derived under such an assumption are wrong on the other side.
"""

from __future__ import annotations

import sympy

from drafting.records import dataclass

Vector = tuple[sympy.Expr, sympy.Expr]


def point_symbols(name: str) -> Vector:
    x, y = sympy.symbols(f"{name}x {name}y", real=True)
    return x, y


d, f, c, s, u, v, side = sympy.symbols("d f c s u v side", real=True)
P, Q, A, B, C, D = (point_symbols(name) for name in "PQABCD")


def _minus(end: Vector, start: Vector) -> Vector:
    return end[0] - start[0], end[1] - start[1]


def _dot(u: Vector, v: Vector) -> sympy.Expr:
    return u[0] * v[0] + u[1] * v[1]


def _cross(u: Vector, v: Vector) -> sympy.Expr:
    return u[0] * v[1] - u[1] * v[0]


def _square(u: Vector) -> sympy.Expr:
    return _dot(u, u)


@dataclass(frozen=True)
class Formula:
    """`points` and `scalars` in the order of the form's operands. An angle is given as cosine and sine."""

    expression: sympy.Expr
    points: tuple[Vector, ...]
    scalars: tuple[sympy.Symbol, ...] = ()
    loci: tuple[tuple[int, sympy.Expr], ...] = ()
    """For a target point, by index, an expression whose zeros are one half of those of `expression`: for the two
    lines at a distance from a point, one line."""

    @property
    def is_angle(self) -> bool:
        return self.scalars == (c, s)

    @property
    def has_side(self) -> bool:
        return bool(self.expression.has(side))


def _tangent_line(target: Vector, through: Vector, off: Vector) -> sympy.Expr:
    """For `target` on a line through `through` that passes `off` at the distance d."""
    to_off = _minus(off, through)
    length = sympy.sqrt(_square(to_off))
    sine = d / length
    cosine = sympy.sqrt(1 - sine**2)
    along = (to_off[0] / length, to_off[1] / length)
    normal = (sine * along[0] - side * cosine * along[1], sine * along[1] + side * cosine * along[0])
    return _dot(normal, _minus(target, through))


def _along(index: int) -> sympy.Expr:
    way = _minus(B, A)
    return P[index] - A[index] - d * way[index] / sympy.sqrt(_square(way))


def _mirrored(index: int) -> sympy.Expr:
    """P minus the mirror image of Q over the line A..B."""
    way = _minus(B, A)
    foot = _dot(_minus(Q, A), way) / _square(way)
    return P[index] - (2 * (A[index] + foot * way[index]) - Q[index])


FORMULAS: dict[str, Formula] = {
    "offset_x": Formula(P[0] - Q[0] - d, (P, Q), (d,)),
    "offset_y": Formula(P[1] - Q[1] - d, (P, Q), (d,)),
    "coordinate_x": Formula(P[0] - d, (P,), (d,)),
    "coordinate_y": Formula(P[1] - d, (P,), (d,)),
    "same_x": Formula(P[0] - Q[0], (P, Q)),
    "same_y": Formula(P[1] - Q[1], (P, Q)),
    "distance": Formula(_square(_minus(P, Q)) - d**2, (P, Q), (d,)),
    "line_distance": Formula(
        _cross(_minus(B, A), _minus(P, A)) ** 2 - d**2 * _square(_minus(B, A)),
        (P, A, B),
        (d,),
        loci=(
            (0, _cross(_minus(B, A), _minus(P, A)) - side * d * sympy.sqrt(_square(_minus(B, A)))),
            (1, _tangent_line(A, B, P)),
            (2, _tangent_line(B, A, P)),
        ),
    ),
    "ray": Formula(c * (P[1] - Q[1]) - s * (P[0] - Q[0]), (P, Q), (c, s)),
    "between_x": Formula(P[0] - (1 - f) * A[0] - f * B[0], (P, A, B), (f,)),
    "between_y": Formula(P[1] - (1 - f) * A[1] - f * B[1], (P, A, B), (f,)),
    "along_x": Formula(_along(0), (P, A, B), (d,)),
    "along_y": Formula(_along(1), (P, A, B), (d,)),
    "mirror_x": Formula(_mirrored(0), (P, Q, A, B)),
    "mirror_y": Formula(_mirrored(1), (P, Q, A, B)),
    "frame_x": Formula(P[0] - A[0] - u * (B[0] - A[0]) + v * (B[1] - A[1]), (P, A, B), (u, v)),
    "frame_y": Formula(P[1] - A[1] - u * (B[1] - A[1]) - v * (B[0] - A[0]), (P, A, B), (u, v)),
    "parallel": Formula(_cross(_minus(B, A), _minus(D, C)), (A, B, C, D)),
    "square": Formula(_dot(_minus(B, A), _minus(D, C)), (A, B, C, D)),
    "equal_lengths": Formula(_square(_minus(B, A)) - _square(_minus(D, C)), (A, B, C, D)),
    "angle": Formula(
        _cross(_minus(A, B), _minus(C, B)) * c - side * _dot(_minus(A, B), _minus(C, B)) * s,
        (A, B, C),
        (c, s),
    ),
}
