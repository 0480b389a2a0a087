"""Blocks of several points or numbers that must be solved together.

Ways are tried from the surest to the widest: the third sides of triangles (`corners`), a rigid body in a frame of its
own (`bodies`), one number torn out and walked over its whole range (`tearing`), exact elimination (`elimination`),
search from many starts (`search`). All but the last find every solution there is.
"""

from __future__ import annotations

from typing import Any

from drafting.solve.layout import Layout
from drafting.solve.steps import Block
from drafting.solve.structure import Part


def coupled_block(layout: Layout, part: Part, common: dict[str, Any]) -> Block:
    from drafting.solve.coupled.block import MANY, CoupledBlock
    from drafting.solve.coupled.corners import find_triangles

    triangles = None
    if not part.transits and len(part.unknowns) <= MANY:
        triangles = find_triangles(layout, part.equations, part.unknowns)
    return CoupledBlock(
        **common, shape="coupled", may_branch=True, layout=layout, part=part, triangles=triangles
    )
