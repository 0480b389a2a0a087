"""The operations of a machine, and the layer that each lies on in a file: its name and its colour.

Names and colours can be set, for every cutter's program knows layers by one or the other.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from drafting.drawing.lines import LineKind
from drafting.records import dataclass, replace

THIN = 0.13
"""The thinnest line of ISO 128-2: a machine follows its middle, whatever its width."""


@dataclass(frozen=True)
class Layer:
    """Where the lines of one operation lie: a name, and a colour as `#rrggbb`."""

    operation: str
    means: str
    name: str
    color: str

    @property
    def kind(self) -> LineKind:
        return LineKind(self.operation.replace(" ", "-"), self.means, "01.1", THIN)


LAYERS: dict[str, Layer] = {
    layer.operation: layer
    for layer in (
        Layer("engrave", "words and marks, run along lightly", "engrave", "#56b4e9"),
        Layer("crease", "creases and folds, pressed or scored, not cut", "crease", "#009e73"),
        Layer("stitch", "stitch holes", "stitch", "#0072b2"),
        Layer("punch", "round holes", "punch", "#cc79a7"),
        Layer("slit", "open cuts: slits, notches, snips", "slit", "#e69f00"),
        Layer("inner cut", "openings and slots", "inner-cut", "#d55e00"),
        Layer("cut", "outlines", "cut", "#000000"),
    )
}
"""In the order in which they are run: what is light first, and what sets a piece free last. The colours are those that
Okabe and Ito chose to be told apart by any eye (Color Universal Design, 2008)."""

COLOR = re.compile(r"#[0-9a-fA-F]{6}")
UNFIT_FOR_NAMES = re.compile(r'[<>/\\":;?*|=`,\x00-\x1f]')
"""What DXF does not take in the name of a layer."""
LONGEST_NAME = 31
"""Of a layer in the oldest DXF."""


class LayerFault(ValueError):
    """A layer that cannot be made; says what is so."""


def layers_set(given: Mapping[str, object]) -> dict[str, Layer]:
    """The layers with names and colours as a file sets them, as `{"inner-cut": {"name": "holes"}}`."""
    layers = dict(LAYERS)
    for key, value in given.items():
        operation = key.replace("-", " ")
        if operation not in layers:
            raise LayerFault(f"there is no operation `{key}`; there are {', '.join(map(spelled, layers))}")
        if not isinstance(value, Mapping):
            raise LayerFault(f'`{key}` is no table: write `{spelled(operation)} = {{ name = "…" }}`')
        layers[operation] = _with(layers[operation], value)
    names = [layer.name.casefold() for layer in layers.values()]
    for layer in layers.values():
        if names.count(layer.name.casefold()) > 1:
            raise LayerFault(f"two operations would lie on layer `{layer.name}`")
    return layers


def spelled(operation: str) -> str:
    """An operation as a bare key."""
    return operation.replace(" ", "-")


def _with(layer: Layer, given: Mapping[str, object]) -> Layer:
    for key, value in given.items():
        if key not in ("name", "color"):
            raise LayerFault(f"`{key}` of `{spelled(layer.operation)}` is not known: `name` and `color` are")
        if not isinstance(value, str):
            raise LayerFault(f"`{key}` of `{spelled(layer.operation)}` is no text between quotes")
        layer = replace(layer, **{key: _fit(key, value)})
    return layer


def _fit(key: str, value: str) -> str:
    if key == "color":
        if not COLOR.fullmatch(value):
            raise LayerFault(f"`{value}` is no colour: write it as `#ff0000`")
        return value.lower()
    name = value.strip()
    if not name or len(name) > LONGEST_NAME or UNFIT_FOR_NAMES.search(name):
        raise LayerFault(
            f"`{value}` cannot name a layer: up to {LONGEST_NAME} letters, none of them of `< > / \\ : ; ? * | =`"
        )
    return name
