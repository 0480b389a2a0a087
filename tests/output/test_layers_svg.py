"""A sheet for a machine as SVG: one small file is kept whole."""

from __future__ import annotations

from pathlib import Path

from drafting.drawing.machine import LAYERS, layers_set
from drafting.drawing.marks import Drawing, Group, Stroke
from drafting.geometry.curves import box, circle
from drafting.geometry.line import Line
from drafting.geometry.path import Path as Way
from drafting.geometry.point import Point
from drafting.output.layers_svg import is_our_svg, layers_to_svg

KEPT = Path(__file__).parent / "tiny-cut.svg"


def drawing() -> Drawing:
    slit = Way((Line(Point(10, 10), Point(20, 10)),))
    ways = {"slit": slit, "punch": circle(Point(15, 15), 2), "cut": box(Point(15, 12), 20, 14, 0.0, 3)}
    groups = [
        Group("layer", LAYERS[name].name, (Stroke(LAYERS[name].kind, way),)) for name, way in ways.items()
    ]
    return Drawing("Ferry <tag>", "True size.", 30.0, 24.0, "layers", 1.0, tuple(groups))


def test_the_file_is_as_it_was() -> None:
    """A change of it is a change for every cutter that reads it: look at it, then keep it."""
    assert layers_to_svg(drawing(), LAYERS) == KEPT.read_bytes()


def test_it_is_known_for_ours_and_others_are_not() -> None:
    assert is_our_svg(layers_to_svg(drawing(), LAYERS))
    assert not is_our_svg(b'<?xml version="1.0"?><svg xmlns="http://www.w3.org/2000/svg"/>')


def test_colours_are_those_of_the_layers() -> None:
    layers = layers_set({"cut": {"color": "#123456"}})
    assert b'stroke="#123456"' in layers_to_svg(drawing(), layers)
