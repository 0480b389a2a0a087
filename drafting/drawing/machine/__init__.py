"""What a machine runs: takes a placed pattern, gives sheets of lines by operation, each on its layer.

Knows no file format. A sheet is a Drawing whose groups are the layers, in the order they are run.
"""

from drafting.drawing.machine.layers import LAYERS, Layer, LayerFault, layers_set
from drafting.drawing.machine.sheets import CUTTERS, Laid, MachineSheet, cut_sheets, stocks_of
from drafting.drawing.machine.templates import Template, Wanted, templates_of
from drafting.drawing.machine.work import KerfFault

__all__ = [
    "CUTTERS",
    "LAYERS",
    "KerfFault",
    "Laid",
    "Layer",
    "LayerFault",
    "MachineSheet",
    "Template",
    "Wanted",
    "cut_sheets",
    "layers_set",
    "stocks_of",
    "templates_of",
]
