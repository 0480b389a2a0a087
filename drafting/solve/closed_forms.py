"""Closed forms of the facts, written by `python -m drafting.solve.derive` from `fact_kinds`.

Every function takes floats or numpy arrays.
"""

# ruff: noqa
# fmt: off

from __future__ import annotations

from typing import Any

from drafting.solve.roots import root as sqrt


def chord(k: Any, a: Any, b: Any, c: Any, p: Any, q: Any, r: Any) -> Any:
    t0 = 1/(k)
    t1 = (1/2)*t0
    t2 = a*t1
    t3 = (p*p) + (q*q)
    t4 = 1/(t3)
    t5 = b*t1
    t6 = -p*t2 - q*t5 + r
    t7 = t4*t6
    t8 = 1/sqrt(t3)
    t9 = (1/4)/(k*k)
    t10 = (a*a)*t9 + (b*b)*t9 - c*t0
    return -p*t7 - t2, -q*t7 - t5, -q*t8, p*t8, t10 - t4*(t6*t6), t10


def value_offset_x(Px: Any, Py: Any, Qx: Any, Qy: Any, d: Any) -> Any:
    return Px - Qx - d


def slopes_offset_x(Px: Any, Py: Any, Qx: Any, Qy: Any, d: Any) -> Any:
    return 1, 0, -1, 0, -1


def locus_offset_x_01_0(ox: Any, oy: Any, Qx: Any, Qy: Any, d: Any) -> Any:
    Qx = Qx - ox
    return 0, 1, 0, -Qx - d


def locus_offset_x_01_1(ox: Any, oy: Any, Px: Any, Py: Any, d: Any) -> Any:
    Px = Px - ox
    return 0, -1, 0, Px - d


def value_offset_y(Px: Any, Py: Any, Qx: Any, Qy: Any, d: Any) -> Any:
    return Py - Qy - d


def slopes_offset_y(Px: Any, Py: Any, Qx: Any, Qy: Any, d: Any) -> Any:
    return 0, 1, 0, -1, -1


def locus_offset_y_01_0(ox: Any, oy: Any, Qx: Any, Qy: Any, d: Any) -> Any:
    Qy = Qy - oy
    return 0, 0, 1, -Qy - d


def locus_offset_y_01_1(ox: Any, oy: Any, Px: Any, Py: Any, d: Any) -> Any:
    Py = Py - oy
    return 0, 0, -1, Py - d


def value_coordinate_x(Px: Any, Py: Any, d: Any) -> Any:
    return Px - d


def slopes_coordinate_x(Px: Any, Py: Any, d: Any) -> Any:
    return 1, 0, -1


def locus_coordinate_x_0_0(ox: Any, oy: Any, d: Any) -> Any:
    return 0, 1, 0, -d + ox


def value_coordinate_y(Px: Any, Py: Any, d: Any) -> Any:
    return Py - d


def slopes_coordinate_y(Px: Any, Py: Any, d: Any) -> Any:
    return 0, 1, -1


def locus_coordinate_y_0_0(ox: Any, oy: Any, d: Any) -> Any:
    return 0, 0, 1, -d + oy


def value_same_x(Px: Any, Py: Any, Qx: Any, Qy: Any) -> Any:
    return Px - Qx


def slopes_same_x(Px: Any, Py: Any, Qx: Any, Qy: Any) -> Any:
    return 1, 0, -1, 0


def locus_same_x_01_0(ox: Any, oy: Any, Qx: Any, Qy: Any) -> Any:
    Qx = Qx - ox
    return 0, 1, 0, -Qx


def locus_same_x_01_1(ox: Any, oy: Any, Px: Any, Py: Any) -> Any:
    Px = Px - ox
    return 0, -1, 0, Px


def value_same_y(Px: Any, Py: Any, Qx: Any, Qy: Any) -> Any:
    return Py - Qy


def slopes_same_y(Px: Any, Py: Any, Qx: Any, Qy: Any) -> Any:
    return 0, 1, 0, -1


def locus_same_y_01_0(ox: Any, oy: Any, Qx: Any, Qy: Any) -> Any:
    Qy = Qy - oy
    return 0, 0, 1, -Qy


def locus_same_y_01_1(ox: Any, oy: Any, Px: Any, Py: Any) -> Any:
    Py = Py - oy
    return 0, 0, -1, Py


def value_distance(Px: Any, Py: Any, Qx: Any, Qy: Any, d: Any) -> Any:
    return -(d*d) + ((Px - Qx)*(Px - Qx)) + ((Py - Qy)*(Py - Qy))


def slopes_distance(Px: Any, Py: Any, Qx: Any, Qy: Any, d: Any) -> Any:
    t0 = 2*Px - 2*Qx
    t1 = 2*Py - 2*Qy
    return t0, t1, -t0, -t1, -2*d


def locus_distance_01_0(ox: Any, oy: Any, Qx: Any, Qy: Any, d: Any) -> Any:
    Qx = Qx - ox
    Qy = Qy - oy
    return 1, -2*Qx, -2*Qy, (Qx*Qx) + (Qy*Qy) - (d*d)


def locus_distance_01_1(ox: Any, oy: Any, Px: Any, Py: Any, d: Any) -> Any:
    Px = Px - ox
    Py = Py - oy
    return 1, -2*Px, -2*Py, (Px*Px) + (Py*Py) - (d*d)


def value_line_distance(Px: Any, Py: Any, Ax: Any, Ay: Any, Bx: Any, By: Any, d: Any) -> Any:
    t0 = -Ax + Bx
    t1 = -Ay + By
    return -(d*d)*((t0*t0) + (t1*t1)) + ((t0*(-Ay + Py) - t1*(-Ax + Px))*(t0*(-Ay + Py) - t1*(-Ax + Px)))


def slopes_line_distance(Px: Any, Py: Any, Ax: Any, Ay: Any, Bx: Any, By: Any, d: Any) -> Any:
    t0 = 2*Ay
    t1 = 2*By
    t2 = t0 - t1
    t3 = -Ax + Bx
    t4 = -Ay + By
    t5 = t3*(-Ay + Py) - t4*(-Ax + Px)
    t6 = 2*Ax
    t7 = 2*Bx
    t8 = t6 - t7
    t9 = -t8
    t10 = (d*d)
    t11 = -2*Py
    t12 = -2*Px
    return t2*t5, t5*t9, -t10*t8 + t5*(t1 + t11), -t10*t2 + t5*(-t12 - t7), -t10*t9 + t5*(-t0 - t11), t10*t2 + t5*(t12 + t6), -2*d*((t3*t3) + (t4*t4))


def locus_line_distance_012_0(ox: Any, oy: Any, side: Any, Ax: Any, Ay: Any, Bx: Any, By: Any, d: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Bx = Bx - ox
    By = By - oy
    t0 = Ay - By
    t1 = -Ax + Bx
    t2 = -t0
    return 0, t0, t1, Ax*t2 - Ay*t1 - d*side*sqrt((t1*t1) + (t2*t2))


def locus_line_distance_012_1(ox: Any, oy: Any, side: Any, Px: Any, Py: Any, Bx: Any, By: Any, d: Any) -> Any:
    Px = Px - ox
    Py = Py - oy
    Bx = Bx - ox
    By = By - oy
    t0 = -Bx + Px
    t1 = -By + Py
    t2 = (t0*t0) + (t1*t1)
    t3 = 1/(t2)
    t4 = d*t3
    t5 = side*sqrt(-(d*d)*t3 + 1)/sqrt(t2)
    t6 = t0*t4 - t1*t5
    t7 = t0*t5 + t1*t4
    return 0, t6, t7, -Bx*t6 - By*t7


def locus_line_distance_012_2(ox: Any, oy: Any, side: Any, Px: Any, Py: Any, Ax: Any, Ay: Any, d: Any) -> Any:
    Px = Px - ox
    Py = Py - oy
    Ax = Ax - ox
    Ay = Ay - oy
    t0 = -Ax + Px
    t1 = -Ay + Py
    t2 = (t0*t0) + (t1*t1)
    t3 = 1/(t2)
    t4 = d*t3
    t5 = side*sqrt(-(d*d)*t3 + 1)/sqrt(t2)
    t6 = t0*t4 - t1*t5
    t7 = t0*t5 + t1*t4
    return 0, t6, t7, -Ax*t6 - Ay*t7


def value_ray(Px: Any, Py: Any, Qx: Any, Qy: Any, c: Any, s: Any) -> Any:
    return c*(Py - Qy) - s*(Px - Qx)


def slopes_ray(Px: Any, Py: Any, Qx: Any, Qy: Any, c: Any, s: Any) -> Any:
    return -s, c, s, -c, Py - Qy, -Px + Qx


def locus_ray_01_0(ox: Any, oy: Any, Qx: Any, Qy: Any, c: Any, s: Any) -> Any:
    Qx = Qx - ox
    Qy = Qy - oy
    return 0, -s, c, Qx*s - Qy*c


def locus_ray_01_1(ox: Any, oy: Any, Px: Any, Py: Any, c: Any, s: Any) -> Any:
    Px = Px - ox
    Py = Py - oy
    return 0, s, -c, -Px*s + Py*c


def value_between_x(Px: Any, Py: Any, Ax: Any, Ay: Any, Bx: Any, By: Any, f: Any) -> Any:
    return -Ax*(1 - f) - Bx*f + Px


def slopes_between_x(Px: Any, Py: Any, Ax: Any, Ay: Any, Bx: Any, By: Any, f: Any) -> Any:
    return 1, 0, f - 1, 0, -f, 0, Ax - Bx


def locus_between_x_012_0(ox: Any, oy: Any, Ax: Any, Ay: Any, Bx: Any, By: Any, f: Any) -> Any:
    Ax = Ax - ox
    Bx = Bx - ox
    return 0, 1, 0, -Ax*(1 - f) - Bx*f


def locus_between_x_012_1(ox: Any, oy: Any, Px: Any, Py: Any, Bx: Any, By: Any, f: Any) -> Any:
    Px = Px - ox
    Bx = Bx - ox
    return 0, f - 1, 0, -Bx*f + Px


def locus_between_x_012_2(ox: Any, oy: Any, Px: Any, Py: Any, Ax: Any, Ay: Any, f: Any) -> Any:
    Px = Px - ox
    Ax = Ax - ox
    return 0, -f, 0, -Ax*(1 - f) + Px


def value_between_y(Px: Any, Py: Any, Ax: Any, Ay: Any, Bx: Any, By: Any, f: Any) -> Any:
    return -Ay*(1 - f) - By*f + Py


def slopes_between_y(Px: Any, Py: Any, Ax: Any, Ay: Any, Bx: Any, By: Any, f: Any) -> Any:
    return 0, 1, 0, f - 1, 0, -f, Ay - By


def locus_between_y_012_0(ox: Any, oy: Any, Ax: Any, Ay: Any, Bx: Any, By: Any, f: Any) -> Any:
    Ay = Ay - oy
    By = By - oy
    return 0, 0, 1, -Ay*(1 - f) - By*f


def locus_between_y_012_1(ox: Any, oy: Any, Px: Any, Py: Any, Bx: Any, By: Any, f: Any) -> Any:
    Py = Py - oy
    By = By - oy
    return 0, 0, f - 1, -By*f + Py


def locus_between_y_012_2(ox: Any, oy: Any, Px: Any, Py: Any, Ax: Any, Ay: Any, f: Any) -> Any:
    Py = Py - oy
    Ay = Ay - oy
    return 0, 0, -f, -Ay*(1 - f) + Py


def value_along_x(Px: Any, Py: Any, Ax: Any, Ay: Any, Bx: Any, By: Any, d: Any) -> Any:
    t0 = -Ax + Bx
    return -Ax + Px - d*t0/sqrt((t0*t0) + ((-Ay + By)*(-Ay + By)))


def slopes_along_x(Px: Any, Py: Any, Ax: Any, Ay: Any, Bx: Any, By: Any, d: Any) -> Any:
    t0 = Ax - Bx
    t1 = -t0
    t2 = (t1*t1)
    t3 = Ay - By
    t4 = -t3
    t5 = t2 + (t4*t4)
    t6 = 1/sqrt(t5)
    t7 = d*t6
    t8 = d/t5**(3/2)
    t9 = t1*t8
    return 1, 0, -t2*t8 + t7 - 1, -t4*t9, -t0*t9 - t7, -t3*t9, -t1*t6


def locus_along_x_012_0(ox: Any, oy: Any, Ax: Any, Ay: Any, Bx: Any, By: Any, d: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Bx = Bx - ox
    By = By - oy
    t0 = -Ax + Bx
    return 0, 1, 0, -Ax - d*t0/sqrt((t0*t0) + ((-Ay + By)*(-Ay + By)))


def value_along_y(Px: Any, Py: Any, Ax: Any, Ay: Any, Bx: Any, By: Any, d: Any) -> Any:
    t0 = -Ay + By
    return -Ay + Py - d*t0/sqrt((t0*t0) + ((-Ax + Bx)*(-Ax + Bx)))


def slopes_along_y(Px: Any, Py: Any, Ax: Any, Ay: Any, Bx: Any, By: Any, d: Any) -> Any:
    t0 = Ax - Bx
    t1 = -t0
    t2 = Ay - By
    t3 = -t2
    t4 = (t3*t3)
    t5 = (t1*t1) + t4
    t6 = d/t5**(3/2)
    t7 = t3*t6
    t8 = 1/sqrt(t5)
    t9 = d*t8
    return 0, 1, -t1*t7, -t4*t6 + t9 - 1, -t0*t7, -t2*t7 - t9, -t3*t8


def locus_along_y_012_0(ox: Any, oy: Any, Ax: Any, Ay: Any, Bx: Any, By: Any, d: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Bx = Bx - ox
    By = By - oy
    t0 = -Ay + By
    return 0, 0, 1, -Ay - d*t0/sqrt((t0*t0) + ((-Ax + Bx)*(-Ax + Bx)))


def value_mirror_x(Px: Any, Py: Any, Qx: Any, Qy: Any, Ax: Any, Ay: Any, Bx: Any, By: Any) -> Any:
    t0 = -Qx
    t1 = -Ax + Bx
    t2 = -Ay + By
    return -2*Ax + Px - t0 - 2*t1*(t1*(-Ax - t0) + t2*(-Ay + Qy))/((t1*t1) + (t2*t2))


def slopes_mirror_x(Px: Any, Py: Any, Qx: Any, Qy: Any, Ax: Any, Ay: Any, Bx: Any, By: Any) -> Any:
    t0 = -Ax + Bx
    t1 = (t0*t0)
    t2 = -Ay + By
    t3 = t1 + (t2*t2)
    t4 = 2/t3
    t5 = t0*t4
    t6 = 2*Ax
    t7 = t0*(-Ax + Qx)
    t8 = -Ay + Qy
    t9 = t2*t8 + t7
    t10 = t4*t9
    t11 = -2*Bx + t6
    t12 = 2*t0*t9/(t3*t3)
    t13 = 2*Ay
    t14 = -2*By + t13
    return 1, 0, -t1*t4 + 1, -t2*t5, t10 + t11*t12 - t5*(-Bx - Qx + t6) - 2, t12*t14 - t5*(-By - Qy + t13), -t10 - t11*t12 - t4*t7, -t12*t14 - t5*t8


def locus_mirror_x_0123_0(ox: Any, oy: Any, Qx: Any, Qy: Any, Ax: Any, Ay: Any, Bx: Any, By: Any) -> Any:
    Qx = Qx - ox
    Qy = Qy - oy
    Ax = Ax - ox
    Ay = Ay - oy
    Bx = Bx - ox
    By = By - oy
    t0 = -Qx
    t1 = -Ax + Bx
    t2 = -Ay + By
    return 0, 1, 0, -2*Ax - t0 - 2*t1*(t1*(-Ax - t0) + t2*(-Ay + Qy))/((t1*t1) + (t2*t2))


def locus_mirror_x_0123_1(ox: Any, oy: Any, Px: Any, Py: Any, Ax: Any, Ay: Any, Bx: Any, By: Any) -> Any:
    Px = Px - ox
    Ax = Ax - ox
    Ay = Ay - oy
    Bx = Bx - ox
    By = By - oy
    t0 = -Ax + Bx
    t1 = (t0*t0)
    t2 = -Ay + By
    t3 = 2/(t1 + (t2*t2))
    t4 = t0*t3
    return 0, -t1*t3 + 1, -t2*t4, -2*Ax + Px - t4*(-Ax*t0 - Ay*t2)


def value_mirror_y(Px: Any, Py: Any, Qx: Any, Qy: Any, Ax: Any, Ay: Any, Bx: Any, By: Any) -> Any:
    t0 = -Qy
    t1 = -Ay + By
    t2 = -Ax + Bx
    return -2*Ay + Py - t0 - 2*t1*(t1*(-Ay - t0) + t2*(-Ax + Qx))/((t1*t1) + (t2*t2))


def slopes_mirror_y(Px: Any, Py: Any, Qx: Any, Qy: Any, Ax: Any, Ay: Any, Bx: Any, By: Any) -> Any:
    t0 = -Ax + Bx
    t1 = -Ay + By
    t2 = (t1*t1)
    t3 = (t0*t0) + t2
    t4 = 2/t3
    t5 = t1*t4
    t6 = 2*Ax
    t7 = -2*Bx + t6
    t8 = -Ax + Qx
    t9 = t1*(-Ay + Qy)
    t10 = t0*t8 + t9
    t11 = 2*t1*t10/(t3*t3)
    t12 = 2*Ay
    t13 = t10*t4
    t14 = -2*By + t12
    return 0, 1, -t0*t5, -t2*t4 + 1, t11*t7 - t5*(-Bx - Qx + t6), t11*t14 + t13 - t5*(-By - Qy + t12) - 2, -t11*t7 - t5*t8, -t11*t14 - t13 - t4*t9


def locus_mirror_y_0123_0(ox: Any, oy: Any, Qx: Any, Qy: Any, Ax: Any, Ay: Any, Bx: Any, By: Any) -> Any:
    Qx = Qx - ox
    Qy = Qy - oy
    Ax = Ax - ox
    Ay = Ay - oy
    Bx = Bx - ox
    By = By - oy
    t0 = -Qy
    t1 = -Ay + By
    t2 = -Ax + Bx
    return 0, 0, 1, -2*Ay - t0 - 2*t1*(t1*(-Ay - t0) + t2*(-Ax + Qx))/((t1*t1) + (t2*t2))


def locus_mirror_y_0123_1(ox: Any, oy: Any, Px: Any, Py: Any, Ax: Any, Ay: Any, Bx: Any, By: Any) -> Any:
    Py = Py - oy
    Ax = Ax - ox
    Ay = Ay - oy
    Bx = Bx - ox
    By = By - oy
    t0 = -Ax + Bx
    t1 = -Ay + By
    t2 = (t1*t1)
    t3 = 2/((t0*t0) + t2)
    t4 = t1*t3
    return 0, -t0*t4, -t2*t3 + 1, -2*Ay + Py - t4*(-Ax*t0 - Ay*t1)


def value_frame_x(Px: Any, Py: Any, Ax: Any, Ay: Any, Bx: Any, By: Any, u: Any, v: Any) -> Any:
    return -Ax + Px - u*(-Ax + Bx) + v*(-Ay + By)


def slopes_frame_x(Px: Any, Py: Any, Ax: Any, Ay: Any, Bx: Any, By: Any, u: Any, v: Any) -> Any:
    return 1, 0, u - 1, -v, -u, v, Ax - Bx, -Ay + By


def locus_frame_x_012_0(ox: Any, oy: Any, Ax: Any, Ay: Any, Bx: Any, By: Any, u: Any, v: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Bx = Bx - ox
    By = By - oy
    return 0, 1, 0, -Ax - u*(-Ax + Bx) + v*(-Ay + By)


def locus_frame_x_012_1(ox: Any, oy: Any, Px: Any, Py: Any, Bx: Any, By: Any, u: Any, v: Any) -> Any:
    Px = Px - ox
    Bx = Bx - ox
    By = By - oy
    return 0, u - 1, -v, -Bx*u + By*v + Px


def locus_frame_x_012_2(ox: Any, oy: Any, Px: Any, Py: Any, Ax: Any, Ay: Any, u: Any, v: Any) -> Any:
    Px = Px - ox
    Ax = Ax - ox
    Ay = Ay - oy
    return 0, -u, v, Ax*u - Ax - Ay*v + Px


def value_frame_y(Px: Any, Py: Any, Ax: Any, Ay: Any, Bx: Any, By: Any, u: Any, v: Any) -> Any:
    return -Ay + Py - u*(-Ay + By) - v*(-Ax + Bx)


def slopes_frame_y(Px: Any, Py: Any, Ax: Any, Ay: Any, Bx: Any, By: Any, u: Any, v: Any) -> Any:
    return 0, 1, v, u - 1, -v, -u, Ay - By, Ax - Bx


def locus_frame_y_012_0(ox: Any, oy: Any, Ax: Any, Ay: Any, Bx: Any, By: Any, u: Any, v: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Bx = Bx - ox
    By = By - oy
    return 0, 0, 1, -Ay - u*(-Ay + By) - v*(-Ax + Bx)


def locus_frame_y_012_1(ox: Any, oy: Any, Px: Any, Py: Any, Bx: Any, By: Any, u: Any, v: Any) -> Any:
    Py = Py - oy
    Bx = Bx - ox
    By = By - oy
    return 0, v, u - 1, -Bx*v - By*u + Py


def locus_frame_y_012_2(ox: Any, oy: Any, Px: Any, Py: Any, Ax: Any, Ay: Any, u: Any, v: Any) -> Any:
    Py = Py - oy
    Ax = Ax - ox
    Ay = Ay - oy
    return 0, -v, -u, Ax*v + Ay*u - Ay + Py


def value_parallel(Ax: Any, Ay: Any, Bx: Any, By: Any, Cx: Any, Cy: Any, Dx: Any, Dy: Any) -> Any:
    return (-Ax + Bx)*(-Cy + Dy) - (-Ay + By)*(-Cx + Dx)


def slopes_parallel(Ax: Any, Ay: Any, Bx: Any, By: Any, Cx: Any, Cy: Any, Dx: Any, Dy: Any) -> Any:
    t0 = Cy - Dy
    t1 = Cx - Dx
    t2 = Ay - By
    t3 = Ax - Bx
    return t0, -t1, -t0, t1, -t2, t3, t2, -t3


def locus_parallel_0123_0(ox: Any, oy: Any, Bx: Any, By: Any, Cx: Any, Cy: Any, Dx: Any, Dy: Any) -> Any:
    Bx = Bx - ox
    By = By - oy
    Cx = Cx - ox
    Cy = Cy - oy
    Dx = Dx - ox
    Dy = Dy - oy
    t0 = Cy - Dy
    t1 = -Cx + Dx
    return 0, t0, t1, -Bx*t0 - By*t1


def locus_parallel_0123_1(ox: Any, oy: Any, Ax: Any, Ay: Any, Cx: Any, Cy: Any, Dx: Any, Dy: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Cx = Cx - ox
    Cy = Cy - oy
    Dx = Dx - ox
    Dy = Dy - oy
    t0 = -Cy + Dy
    t1 = Cx - Dx
    return 0, t0, t1, -Ax*t0 - Ay*t1


def locus_parallel_0123_2(ox: Any, oy: Any, Ax: Any, Ay: Any, Bx: Any, By: Any, Dx: Any, Dy: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Bx = Bx - ox
    By = By - oy
    Dx = Dx - ox
    Dy = Dy - oy
    t0 = -Ay + By
    t1 = Ax - Bx
    return 0, t0, t1, -Dx*t0 - Dy*t1


def locus_parallel_0123_3(ox: Any, oy: Any, Ax: Any, Ay: Any, Bx: Any, By: Any, Cx: Any, Cy: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Bx = Bx - ox
    By = By - oy
    Cx = Cx - ox
    Cy = Cy - oy
    t0 = Ay - By
    t1 = -Ax + Bx
    return 0, t0, t1, -Cx*t0 - Cy*t1


def locus_parallel_0103_0(ox: Any, oy: Any, Bx: Any, By: Any, Dx: Any, Dy: Any) -> Any:
    Bx = Bx - ox
    By = By - oy
    Dx = Dx - ox
    Dy = Dy - oy
    return 0, By - Dy, -Bx + Dx, Bx*Dy - By*Dx


def locus_parallel_0103_1(ox: Any, oy: Any, Ax: Any, Ay: Any, Dx: Any, Dy: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Dx = Dx - ox
    Dy = Dy - oy
    t0 = -Ay + Dy
    t1 = Ax - Dx
    return 0, t0, t1, -Ax*t0 - Ay*t1


def locus_parallel_0103_3(ox: Any, oy: Any, Ax: Any, Ay: Any, Bx: Any, By: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Bx = Bx - ox
    By = By - oy
    t0 = Ay - By
    t1 = -Ax + Bx
    return 0, t0, t1, -Ax*t0 - Ay*t1


def locus_parallel_0120_0(ox: Any, oy: Any, Bx: Any, By: Any, Cx: Any, Cy: Any) -> Any:
    Bx = Bx - ox
    By = By - oy
    Cx = Cx - ox
    Cy = Cy - oy
    return 0, -By + Cy, Bx - Cx, -Bx*Cy + By*Cx


def locus_parallel_0120_1(ox: Any, oy: Any, Ax: Any, Ay: Any, Cx: Any, Cy: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Cx = Cx - ox
    Cy = Cy - oy
    t0 = Ay - Cy
    t1 = Ax - Cx
    return 0, t0, -t1, -Ax*t0 + Ay*t1


def locus_parallel_0120_2(ox: Any, oy: Any, Ax: Any, Ay: Any, Bx: Any, By: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Bx = Bx - ox
    By = By - oy
    t0 = -Ay + By
    t1 = Ax - Bx
    return 0, t0, t1, -Ax*t0 - Ay*t1


def locus_parallel_0113_0(ox: Any, oy: Any, Bx: Any, By: Any, Dx: Any, Dy: Any) -> Any:
    Bx = Bx - ox
    By = By - oy
    Dx = Dx - ox
    Dy = Dy - oy
    t0 = By - Dy
    t1 = -Bx + Dx
    return 0, t0, t1, -Bx*t0 - By*t1


def locus_parallel_0113_1(ox: Any, oy: Any, Ax: Any, Ay: Any, Dx: Any, Dy: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Dx = Dx - ox
    Dy = Dy - oy
    return 0, -Ay + Dy, Ax - Dx, -Ax*Dy + Ay*Dx


def locus_parallel_0113_3(ox: Any, oy: Any, Ax: Any, Ay: Any, Bx: Any, By: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Bx = Bx - ox
    By = By - oy
    t0 = Ay - By
    t1 = -Ax + Bx
    return 0, t0, t1, -Bx*t0 - By*t1


def locus_parallel_0121_0(ox: Any, oy: Any, Bx: Any, By: Any, Cx: Any, Cy: Any) -> Any:
    Bx = Bx - ox
    By = By - oy
    Cx = Cx - ox
    Cy = Cy - oy
    t0 = By - Cy
    t1 = Bx - Cx
    return 0, -t0, t1, Bx*t0 - By*t1


def locus_parallel_0121_1(ox: Any, oy: Any, Ax: Any, Ay: Any, Cx: Any, Cy: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Cx = Cx - ox
    Cy = Cy - oy
    return 0, Ay - Cy, -Ax + Cx, Ax*Cy - Ay*Cx


def locus_parallel_0121_2(ox: Any, oy: Any, Ax: Any, Ay: Any, Bx: Any, By: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Bx = Bx - ox
    By = By - oy
    t0 = -Ay + By
    t1 = Ax - Bx
    return 0, t0, t1, -Bx*t0 - By*t1


def value_square(Ax: Any, Ay: Any, Bx: Any, By: Any, Cx: Any, Cy: Any, Dx: Any, Dy: Any) -> Any:
    return (-Ax + Bx)*(-Cx + Dx) + (-Ay + By)*(-Cy + Dy)


def slopes_square(Ax: Any, Ay: Any, Bx: Any, By: Any, Cx: Any, Cy: Any, Dx: Any, Dy: Any) -> Any:
    t0 = Cx - Dx
    t1 = Cy - Dy
    t2 = Ax - Bx
    t3 = Ay - By
    return t0, t1, -t0, -t1, t2, t3, -t2, -t3


def locus_square_0123_0(ox: Any, oy: Any, Bx: Any, By: Any, Cx: Any, Cy: Any, Dx: Any, Dy: Any) -> Any:
    Bx = Bx - ox
    By = By - oy
    Cx = Cx - ox
    Cy = Cy - oy
    Dx = Dx - ox
    Dy = Dy - oy
    t0 = Cx - Dx
    t1 = Cy - Dy
    return 0, t0, t1, -Bx*t0 - By*t1


def locus_square_0123_1(ox: Any, oy: Any, Ax: Any, Ay: Any, Cx: Any, Cy: Any, Dx: Any, Dy: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Cx = Cx - ox
    Cy = Cy - oy
    Dx = Dx - ox
    Dy = Dy - oy
    t0 = -Cx + Dx
    t1 = -Cy + Dy
    return 0, t0, t1, -Ax*t0 - Ay*t1


def locus_square_0123_2(ox: Any, oy: Any, Ax: Any, Ay: Any, Bx: Any, By: Any, Dx: Any, Dy: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Bx = Bx - ox
    By = By - oy
    Dx = Dx - ox
    Dy = Dy - oy
    t0 = Ax - Bx
    t1 = Ay - By
    return 0, t0, t1, -Dx*t0 - Dy*t1


def locus_square_0123_3(ox: Any, oy: Any, Ax: Any, Ay: Any, Bx: Any, By: Any, Cx: Any, Cy: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Bx = Bx - ox
    By = By - oy
    Cx = Cx - ox
    Cy = Cy - oy
    t0 = -Ax + Bx
    t1 = -Ay + By
    return 0, t0, t1, -Cx*t0 - Cy*t1


def locus_square_0103_0(ox: Any, oy: Any, Bx: Any, By: Any, Dx: Any, Dy: Any) -> Any:
    Bx = Bx - ox
    By = By - oy
    Dx = Dx - ox
    Dy = Dy - oy
    return 1, -Bx - Dx, -By - Dy, Bx*Dx + By*Dy


def locus_square_0103_1(ox: Any, oy: Any, Ax: Any, Ay: Any, Dx: Any, Dy: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Dx = Dx - ox
    Dy = Dy - oy
    t0 = -Ax + Dx
    t1 = -Ay + Dy
    return 0, t0, t1, -Ax*t0 - Ay*t1


def locus_square_0103_3(ox: Any, oy: Any, Ax: Any, Ay: Any, Bx: Any, By: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Bx = Bx - ox
    By = By - oy
    t0 = -Ax + Bx
    t1 = -Ay + By
    return 0, t0, t1, -Ax*t0 - Ay*t1


def locus_square_0120_0(ox: Any, oy: Any, Bx: Any, By: Any, Cx: Any, Cy: Any) -> Any:
    Bx = Bx - ox
    By = By - oy
    Cx = Cx - ox
    Cy = Cy - oy
    return -1, Bx + Cx, By + Cy, -Bx*Cx - By*Cy


def locus_square_0120_1(ox: Any, oy: Any, Ax: Any, Ay: Any, Cx: Any, Cy: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Cx = Cx - ox
    Cy = Cy - oy
    t0 = Ax - Cx
    t1 = Ay - Cy
    return 0, t0, t1, -Ax*t0 - Ay*t1


def locus_square_0120_2(ox: Any, oy: Any, Ax: Any, Ay: Any, Bx: Any, By: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Bx = Bx - ox
    By = By - oy
    t0 = Ax - Bx
    t1 = Ay - By
    return 0, t0, t1, -Ax*t0 - Ay*t1


def locus_square_0113_0(ox: Any, oy: Any, Bx: Any, By: Any, Dx: Any, Dy: Any) -> Any:
    Bx = Bx - ox
    By = By - oy
    Dx = Dx - ox
    Dy = Dy - oy
    t0 = Bx - Dx
    t1 = By - Dy
    return 0, t0, t1, -Bx*t0 - By*t1


def locus_square_0113_1(ox: Any, oy: Any, Ax: Any, Ay: Any, Dx: Any, Dy: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Dx = Dx - ox
    Dy = Dy - oy
    return -1, Ax + Dx, Ay + Dy, -Ax*Dx - Ay*Dy


def locus_square_0113_3(ox: Any, oy: Any, Ax: Any, Ay: Any, Bx: Any, By: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Bx = Bx - ox
    By = By - oy
    t0 = -Ax + Bx
    t1 = -Ay + By
    return 0, t0, t1, -Bx*t0 - By*t1


def locus_square_0121_0(ox: Any, oy: Any, Bx: Any, By: Any, Cx: Any, Cy: Any) -> Any:
    Bx = Bx - ox
    By = By - oy
    Cx = Cx - ox
    Cy = Cy - oy
    t0 = Bx - Cx
    t1 = By - Cy
    return 0, -t0, -t1, Bx*t0 + By*t1


def locus_square_0121_1(ox: Any, oy: Any, Ax: Any, Ay: Any, Cx: Any, Cy: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Cx = Cx - ox
    Cy = Cy - oy
    return 1, -Ax - Cx, -Ay - Cy, Ax*Cx + Ay*Cy


def locus_square_0121_2(ox: Any, oy: Any, Ax: Any, Ay: Any, Bx: Any, By: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Bx = Bx - ox
    By = By - oy
    t0 = Ax - Bx
    t1 = Ay - By
    return 0, t0, t1, -Bx*t0 - By*t1


def value_equal_lengths(Ax: Any, Ay: Any, Bx: Any, By: Any, Cx: Any, Cy: Any, Dx: Any, Dy: Any) -> Any:
    return ((-Ax + Bx)*(-Ax + Bx)) + ((-Ay + By)*(-Ay + By)) - ((-Cx + Dx)*(-Cx + Dx)) - ((-Cy + Dy)*(-Cy + Dy))


def slopes_equal_lengths(Ax: Any, Ay: Any, Bx: Any, By: Any, Cx: Any, Cy: Any, Dx: Any, Dy: Any) -> Any:
    t0 = 2*Ax - 2*Bx
    t1 = 2*Ay - 2*By
    t2 = 2*Cx - 2*Dx
    t3 = 2*Cy - 2*Dy
    return t0, t1, -t0, -t1, -t2, -t3, t2, t3


def locus_equal_lengths_0123_0(ox: Any, oy: Any, Bx: Any, By: Any, Cx: Any, Cy: Any, Dx: Any, Dy: Any) -> Any:
    Bx = Bx - ox
    By = By - oy
    Cx = Cx - ox
    Cy = Cy - oy
    Dx = Dx - ox
    Dy = Dy - oy
    return 1, -2*Bx, -2*By, (Bx*Bx) + (By*By) - ((-Cx + Dx)*(-Cx + Dx)) - ((-Cy + Dy)*(-Cy + Dy))


def locus_equal_lengths_0123_1(ox: Any, oy: Any, Ax: Any, Ay: Any, Cx: Any, Cy: Any, Dx: Any, Dy: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Cx = Cx - ox
    Cy = Cy - oy
    Dx = Dx - ox
    Dy = Dy - oy
    return 1, -2*Ax, -2*Ay, (Ax*Ax) + (Ay*Ay) - ((-Cx + Dx)*(-Cx + Dx)) - ((-Cy + Dy)*(-Cy + Dy))


def locus_equal_lengths_0123_2(ox: Any, oy: Any, Ax: Any, Ay: Any, Bx: Any, By: Any, Dx: Any, Dy: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Bx = Bx - ox
    By = By - oy
    Dx = Dx - ox
    Dy = Dy - oy
    return -1, 2*Dx, 2*Dy, -(Dx*Dx) - (Dy*Dy) + ((-Ax + Bx)*(-Ax + Bx)) + ((-Ay + By)*(-Ay + By))


def locus_equal_lengths_0123_3(ox: Any, oy: Any, Ax: Any, Ay: Any, Bx: Any, By: Any, Cx: Any, Cy: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Bx = Bx - ox
    By = By - oy
    Cx = Cx - ox
    Cy = Cy - oy
    return -1, 2*Cx, 2*Cy, -(Cx*Cx) - (Cy*Cy) + ((-Ax + Bx)*(-Ax + Bx)) + ((-Ay + By)*(-Ay + By))


def locus_equal_lengths_0103_0(ox: Any, oy: Any, Bx: Any, By: Any, Dx: Any, Dy: Any) -> Any:
    Bx = Bx - ox
    By = By - oy
    Dx = Dx - ox
    Dy = Dy - oy
    return 0, -2*Bx + 2*Dx, -2*By + 2*Dy, (Bx*Bx) + (By*By) - (Dx*Dx) - (Dy*Dy)


def locus_equal_lengths_0103_1(ox: Any, oy: Any, Ax: Any, Ay: Any, Dx: Any, Dy: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Dx = Dx - ox
    Dy = Dy - oy
    return 1, -2*Ax, -2*Ay, (Ax*Ax) + (Ay*Ay) - ((-Ax + Dx)*(-Ax + Dx)) - ((-Ay + Dy)*(-Ay + Dy))


def locus_equal_lengths_0103_3(ox: Any, oy: Any, Ax: Any, Ay: Any, Bx: Any, By: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Bx = Bx - ox
    By = By - oy
    return -1, 2*Ax, 2*Ay, -(Ax*Ax) - (Ay*Ay) + ((-Ax + Bx)*(-Ax + Bx)) + ((-Ay + By)*(-Ay + By))


def locus_equal_lengths_0120_0(ox: Any, oy: Any, Bx: Any, By: Any, Cx: Any, Cy: Any) -> Any:
    Bx = Bx - ox
    By = By - oy
    Cx = Cx - ox
    Cy = Cy - oy
    return 0, -2*Bx + 2*Cx, -2*By + 2*Cy, (Bx*Bx) + (By*By) - (Cx*Cx) - (Cy*Cy)


def locus_equal_lengths_0120_1(ox: Any, oy: Any, Ax: Any, Ay: Any, Cx: Any, Cy: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Cx = Cx - ox
    Cy = Cy - oy
    return 1, -2*Ax, -2*Ay, (Ax*Ax) + (Ay*Ay) - ((Ax - Cx)*(Ax - Cx)) - ((Ay - Cy)*(Ay - Cy))


def locus_equal_lengths_0120_2(ox: Any, oy: Any, Ax: Any, Ay: Any, Bx: Any, By: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Bx = Bx - ox
    By = By - oy
    return -1, 2*Ax, 2*Ay, -(Ax*Ax) - (Ay*Ay) + ((-Ax + Bx)*(-Ax + Bx)) + ((-Ay + By)*(-Ay + By))


def locus_equal_lengths_0113_0(ox: Any, oy: Any, Bx: Any, By: Any, Dx: Any, Dy: Any) -> Any:
    Bx = Bx - ox
    By = By - oy
    Dx = Dx - ox
    Dy = Dy - oy
    return 1, -2*Bx, -2*By, (Bx*Bx) + (By*By) - ((-Bx + Dx)*(-Bx + Dx)) - ((-By + Dy)*(-By + Dy))


def locus_equal_lengths_0113_1(ox: Any, oy: Any, Ax: Any, Ay: Any, Dx: Any, Dy: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Dx = Dx - ox
    Dy = Dy - oy
    return 0, -2*Ax + 2*Dx, -2*Ay + 2*Dy, (Ax*Ax) + (Ay*Ay) - (Dx*Dx) - (Dy*Dy)


def locus_equal_lengths_0113_3(ox: Any, oy: Any, Ax: Any, Ay: Any, Bx: Any, By: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Bx = Bx - ox
    By = By - oy
    return -1, 2*Bx, 2*By, -(Bx*Bx) - (By*By) + ((-Ax + Bx)*(-Ax + Bx)) + ((-Ay + By)*(-Ay + By))


def locus_equal_lengths_0121_0(ox: Any, oy: Any, Bx: Any, By: Any, Cx: Any, Cy: Any) -> Any:
    Bx = Bx - ox
    By = By - oy
    Cx = Cx - ox
    Cy = Cy - oy
    return 1, -2*Bx, -2*By, (Bx*Bx) + (By*By) - ((Bx - Cx)*(Bx - Cx)) - ((By - Cy)*(By - Cy))


def locus_equal_lengths_0121_1(ox: Any, oy: Any, Ax: Any, Ay: Any, Cx: Any, Cy: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Cx = Cx - ox
    Cy = Cy - oy
    return 0, -2*Ax + 2*Cx, -2*Ay + 2*Cy, (Ax*Ax) + (Ay*Ay) - (Cx*Cx) - (Cy*Cy)


def locus_equal_lengths_0121_2(ox: Any, oy: Any, Ax: Any, Ay: Any, Bx: Any, By: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Bx = Bx - ox
    By = By - oy
    return -1, 2*Bx, 2*By, -(Bx*Bx) - (By*By) + ((-Ax + Bx)*(-Ax + Bx)) + ((-Ay + By)*(-Ay + By))


def value_angle(side: Any, Ax: Any, Ay: Any, Bx: Any, By: Any, Cx: Any, Cy: Any, c: Any, s: Any) -> Any:
    t0 = Ax - Bx
    t1 = -By + Cy
    t2 = Ay - By
    t3 = -Bx + Cx
    return c*(t0*t1 - t2*t3) - s*side*(t0*t3 + t1*t2)


def slopes_angle(side: Any, Ax: Any, Ay: Any, Bx: Any, By: Any, Cx: Any, Cy: Any, c: Any, s: Any) -> Any:
    t0 = -Cy
    t1 = -By - t0
    t2 = -Cx
    t3 = Bx + t2
    t4 = -t3
    t5 = s*side
    t6 = Ay - By
    t7 = Ax - Bx
    return c*t1 - t4*t5, c*t3 - t1*t5, c*(Ay + t0) - t5*(-Ax + 2*Bx - Cx), c*(-Ax - t2) - t5*(-Ay + 2*By - Cy), -c*t6 - t5*t7, c*t7 - t5*t6, t1*t7 - t4*t6, -side*(t1*t6 + t4*t7)


def locus_angle_012_0(ox: Any, oy: Any, side: Any, Bx: Any, By: Any, Cx: Any, Cy: Any, c: Any, s: Any) -> Any:
    Bx = Bx - ox
    By = By - oy
    Cx = Cx - ox
    Cy = Cy - oy
    t0 = -By + Cy
    t1 = Bx - Cx
    t2 = -t1
    t3 = s*side
    return 0, c*t0 - t2*t3, c*t1 - t0*t3, c*(-Bx*t0 + By*t2) - t3*(-Bx*t2 - By*t0)


def locus_angle_012_1(ox: Any, oy: Any, side: Any, Ax: Any, Ay: Any, Cx: Any, Cy: Any, c: Any, s: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Cx = Cx - ox
    Cy = Cy - oy
    t0 = s*side
    return -t0, c*(Ay - Cy) - t0*(-Ax - Cx), c*(-Ax + Cx) - t0*(-Ay - Cy), c*(Ax*Cy - Ay*Cx) - t0*(Ax*Cx + Ay*Cy)


def locus_angle_012_2(ox: Any, oy: Any, side: Any, Ax: Any, Ay: Any, Bx: Any, By: Any, c: Any, s: Any) -> Any:
    Ax = Ax - ox
    Ay = Ay - oy
    Bx = Bx - ox
    By = By - oy
    t0 = Ay - By
    t1 = Ax - Bx
    t2 = s*side
    return 0, -c*t0 - t1*t2, c*t1 - t0*t2, c*(Bx*t0 - By*t1) - t2*(-Bx*t1 - By*t0)


VALUES: dict[str, tuple[Any, Any]] = {
    "offset_x": (value_offset_x, slopes_offset_x),
    "offset_y": (value_offset_y, slopes_offset_y),
    "coordinate_x": (value_coordinate_x, slopes_coordinate_x),
    "coordinate_y": (value_coordinate_y, slopes_coordinate_y),
    "same_x": (value_same_x, slopes_same_x),
    "same_y": (value_same_y, slopes_same_y),
    "distance": (value_distance, slopes_distance),
    "line_distance": (value_line_distance, slopes_line_distance),
    "ray": (value_ray, slopes_ray),
    "between_x": (value_between_x, slopes_between_x),
    "between_y": (value_between_y, slopes_between_y),
    "along_x": (value_along_x, slopes_along_x),
    "along_y": (value_along_y, slopes_along_y),
    "mirror_x": (value_mirror_x, slopes_mirror_x),
    "mirror_y": (value_mirror_y, slopes_mirror_y),
    "frame_x": (value_frame_x, slopes_frame_x),
    "frame_y": (value_frame_y, slopes_frame_y),
    "parallel": (value_parallel, slopes_parallel),
    "square": (value_square, slopes_square),
    "equal_lengths": (value_equal_lengths, slopes_equal_lengths),
    "angle": (value_angle, slopes_angle),
}

LOCI: dict[tuple[str, str, int], tuple[Any, bool]] = {
    ("offset_x", "01", 0): (locus_offset_x_01_0, False),
    ("offset_x", "01", 1): (locus_offset_x_01_1, False),
    ("offset_y", "01", 0): (locus_offset_y_01_0, False),
    ("offset_y", "01", 1): (locus_offset_y_01_1, False),
    ("coordinate_x", "0", 0): (locus_coordinate_x_0_0, False),
    ("coordinate_y", "0", 0): (locus_coordinate_y_0_0, False),
    ("same_x", "01", 0): (locus_same_x_01_0, False),
    ("same_x", "01", 1): (locus_same_x_01_1, False),
    ("same_y", "01", 0): (locus_same_y_01_0, False),
    ("same_y", "01", 1): (locus_same_y_01_1, False),
    ("distance", "01", 0): (locus_distance_01_0, False),
    ("distance", "01", 1): (locus_distance_01_1, False),
    ("line_distance", "012", 0): (locus_line_distance_012_0, True),
    ("line_distance", "012", 1): (locus_line_distance_012_1, True),
    ("line_distance", "012", 2): (locus_line_distance_012_2, True),
    ("ray", "01", 0): (locus_ray_01_0, False),
    ("ray", "01", 1): (locus_ray_01_1, False),
    ("between_x", "012", 0): (locus_between_x_012_0, False),
    ("between_x", "012", 1): (locus_between_x_012_1, False),
    ("between_x", "012", 2): (locus_between_x_012_2, False),
    ("between_y", "012", 0): (locus_between_y_012_0, False),
    ("between_y", "012", 1): (locus_between_y_012_1, False),
    ("between_y", "012", 2): (locus_between_y_012_2, False),
    ("along_x", "012", 0): (locus_along_x_012_0, False),
    ("along_y", "012", 0): (locus_along_y_012_0, False),
    ("mirror_x", "0123", 0): (locus_mirror_x_0123_0, False),
    ("mirror_x", "0123", 1): (locus_mirror_x_0123_1, False),
    ("mirror_y", "0123", 0): (locus_mirror_y_0123_0, False),
    ("mirror_y", "0123", 1): (locus_mirror_y_0123_1, False),
    ("frame_x", "012", 0): (locus_frame_x_012_0, False),
    ("frame_x", "012", 1): (locus_frame_x_012_1, False),
    ("frame_x", "012", 2): (locus_frame_x_012_2, False),
    ("frame_y", "012", 0): (locus_frame_y_012_0, False),
    ("frame_y", "012", 1): (locus_frame_y_012_1, False),
    ("frame_y", "012", 2): (locus_frame_y_012_2, False),
    ("parallel", "0123", 0): (locus_parallel_0123_0, False),
    ("parallel", "0123", 1): (locus_parallel_0123_1, False),
    ("parallel", "0123", 2): (locus_parallel_0123_2, False),
    ("parallel", "0123", 3): (locus_parallel_0123_3, False),
    ("parallel", "0103", 0): (locus_parallel_0103_0, False),
    ("parallel", "0103", 1): (locus_parallel_0103_1, False),
    ("parallel", "0103", 3): (locus_parallel_0103_3, False),
    ("parallel", "0120", 0): (locus_parallel_0120_0, False),
    ("parallel", "0120", 1): (locus_parallel_0120_1, False),
    ("parallel", "0120", 2): (locus_parallel_0120_2, False),
    ("parallel", "0113", 0): (locus_parallel_0113_0, False),
    ("parallel", "0113", 1): (locus_parallel_0113_1, False),
    ("parallel", "0113", 3): (locus_parallel_0113_3, False),
    ("parallel", "0121", 0): (locus_parallel_0121_0, False),
    ("parallel", "0121", 1): (locus_parallel_0121_1, False),
    ("parallel", "0121", 2): (locus_parallel_0121_2, False),
    ("square", "0123", 0): (locus_square_0123_0, False),
    ("square", "0123", 1): (locus_square_0123_1, False),
    ("square", "0123", 2): (locus_square_0123_2, False),
    ("square", "0123", 3): (locus_square_0123_3, False),
    ("square", "0103", 0): (locus_square_0103_0, False),
    ("square", "0103", 1): (locus_square_0103_1, False),
    ("square", "0103", 3): (locus_square_0103_3, False),
    ("square", "0120", 0): (locus_square_0120_0, False),
    ("square", "0120", 1): (locus_square_0120_1, False),
    ("square", "0120", 2): (locus_square_0120_2, False),
    ("square", "0113", 0): (locus_square_0113_0, False),
    ("square", "0113", 1): (locus_square_0113_1, False),
    ("square", "0113", 3): (locus_square_0113_3, False),
    ("square", "0121", 0): (locus_square_0121_0, False),
    ("square", "0121", 1): (locus_square_0121_1, False),
    ("square", "0121", 2): (locus_square_0121_2, False),
    ("equal_lengths", "0123", 0): (locus_equal_lengths_0123_0, False),
    ("equal_lengths", "0123", 1): (locus_equal_lengths_0123_1, False),
    ("equal_lengths", "0123", 2): (locus_equal_lengths_0123_2, False),
    ("equal_lengths", "0123", 3): (locus_equal_lengths_0123_3, False),
    ("equal_lengths", "0103", 0): (locus_equal_lengths_0103_0, False),
    ("equal_lengths", "0103", 1): (locus_equal_lengths_0103_1, False),
    ("equal_lengths", "0103", 3): (locus_equal_lengths_0103_3, False),
    ("equal_lengths", "0120", 0): (locus_equal_lengths_0120_0, False),
    ("equal_lengths", "0120", 1): (locus_equal_lengths_0120_1, False),
    ("equal_lengths", "0120", 2): (locus_equal_lengths_0120_2, False),
    ("equal_lengths", "0113", 0): (locus_equal_lengths_0113_0, False),
    ("equal_lengths", "0113", 1): (locus_equal_lengths_0113_1, False),
    ("equal_lengths", "0113", 3): (locus_equal_lengths_0113_3, False),
    ("equal_lengths", "0121", 0): (locus_equal_lengths_0121_0, False),
    ("equal_lengths", "0121", 1): (locus_equal_lengths_0121_1, False),
    ("equal_lengths", "0121", 2): (locus_equal_lengths_0121_2, False),
    ("angle", "012", 0): (locus_angle_012_0, True),
    ("angle", "012", 1): (locus_angle_012_1, True),
    ("angle", "012", 2): (locus_angle_012_2, True),
}
