"""Blocks of several points or numbers that must be solved together."""

from __future__ import annotations

from typing import Any

from drafting.solve.layout import Layout
from drafting.solve.steps import Block
from drafting.solve.structure import Part


def coupled_block(layout: Layout, part: Part, common: dict[str, Any]) -> Block:
    raise NotImplementedError("coupled blocks")
