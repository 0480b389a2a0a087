"""A sheet for a machine as SVG: a group for each layer, its colour on it, nothing else.

There is no paper and no lettering: all is lines to run along. One user unit is 1 mm.
"""

from __future__ import annotations

from collections.abc import Mapping

from svgwrite.base import BaseElement

from drafting.drawing.machine import Layer
from drafting.drawing.marks import Drawing, Group
from drafting.output.numbers import number_text
from drafting.output.svg import LINE_BEFORE, XML_HEAD, SvgWriter, record_comment, writable

OURS = "<!-- Awlwright: a sheet for a machine -->"


def layers_to_svg(drawing: Drawing, layers: Mapping[str, Layer]) -> bytes:
    """The whole file; the same drawing gives the same bytes."""
    return _LayersWriter(drawing, {layer.name: layer for layer in layers.values()}).write().encode()


def is_our_svg(data: bytes) -> bool:
    """Whether a file was written here: its second line says so."""
    return OURS.encode() in data[:400]


class _LayersWriter(SvgWriter):
    """As any drawing is written, less the paper; the colour stands on the group of a layer."""

    def __init__(self, drawing: Drawing, layers: Mapping[str, Layer]) -> None:
        super().__init__(drawing)
        self.layers = layers

    def write(self) -> str:
        document = self.document
        document.set_desc(title=writable(self.drawing.title), desc=writable(self.drawing.note))
        for group in self.drawing.groups:
            document.add(self.group(group, ()))
        made = record_comment(self.drawing)
        return f"{XML_HEAD}\n{OURS}\n{made}{LINE_BEFORE.sub(chr(10), document.tostring()).lstrip()}\n"

    def group(self, group: Group, path: tuple[str, ...]) -> BaseElement:
        layer = self.layers[group.name]
        element = self.document.g(id=self.identifiers.give("layer", group.name), class_="layer", fill="none")
        element["stroke"] = layer.color
        element["stroke-width"] = number_text(layer.kind.width)
        element.set_desc(title=writable(group.name), desc=writable(layer.means))
        for stroke in group.strokes:
            element.add(self.shape(stroke.way))
        return element
