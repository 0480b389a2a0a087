"""Reading an SVG back with the standard XML reader and svgelements: what a cutter or a printer will see.

Lengths are measured in the file's own units, which the root must declare to be 1 mm each. What a reader may follow but
is not read here is refused, so that no line stays unseen.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from xml.etree import ElementTree

from drafting.proof.expected import Measures
from drafting.proof.svg_shapes import KINDS, Place, measure, pricks
from drafting.records import dataclass

SVG = "{http://www.w3.org/2000/svg}"
MM = re.compile(r"^([0-9.]+)mm$")
MEASURED = ("outline", "feature", "mark", "layer", "nest", "stock", "part")
"""The groups whose lines are the pattern's own, or the lay's; the rest is dimension lines, frame and the like."""
STRANGE = ("use", "symbol", "image", "style", "switch", "foreignObject", "a")
"""What a sheet of ours never holds, and may hide lines or show others."""
SCALE = re.compile(r"^1:([0-9]+)$")


@dataclass(frozen=True)
class ReadGroup:
    """A named group of the file, the lines that stand in it directly, and the groups within."""

    title: str
    kind: str
    lines: tuple[Measures, ...]
    classes: tuple[str, ...]
    """The class of each line that stands directly in the group, `cut` for what is cut."""
    groups: tuple[ReadGroup, ...]
    pricks: tuple[tuple[tuple[float, float], tuple[float, float]], ...] = ()
    """Of a group of stitches each mark: the ends of a slanted one, or the ends of a diameter of a round one, y up."""

    def walk(self) -> Iterator[ReadGroup]:
        yield self
        for group in self.groups:
            yield from group.walk()


@dataclass(frozen=True)
class ReadSvg:
    """The size of the sheet in mm and in user units, the scale that is printed, and all groups."""

    size: tuple[float, float]
    view_box: tuple[float, float, float, float]
    scale: float | None
    root: ReadGroup

    @property
    def is_true_size(self) -> bool:
        left, top, width, height = self.view_box
        return (left, top) == (0, 0) and (width, height) == self.size


def read_svg(text: str) -> ReadSvg:
    """Raises ValueError for a file that is no SVG of ours."""
    try:
        root = ElementTree.fromstring(text)
    except ElementTree.ParseError as fault:
        raise ValueError(str(fault)) from fault
    size = tuple(float(_mm(root.get(side, ""))) for side in ("width", "height"))
    view_box = tuple(float(part) for part in root.get("viewBox", "0 0 0 0").split())
    return ReadSvg(size, view_box, _printed_scale(root), _groups(root))  # type: ignore[arg-type]


def _mm(length: str) -> str:
    found = MM.match(length)
    if found is None:
        raise ValueError(f"the size of the sheet is `{length}`, which is not in mm")
    return found.group(1)


def _printed_scale(root: ElementTree.Element) -> float | None:
    """The scale in the title block, as the maker reads it."""
    for field in root.iter(f"{SVG}g"):
        if field.get("class") == "field" and field.findtext(f"{SVG}title") == "Scale":
            for words in field.iter(f"{SVG}text"):
                found = SCALE.match(words.text or "")
                if found:
                    return 1 / int(found.group(1))
    return None


def _groups(root: ElementTree.Element) -> ReadGroup:
    strange = sorted({_tag(element) for element in root.iter()} & set(STRANGE))
    if strange or root.find(f".//{SVG}svg") is not None:
        raise ValueError(f"it holds `{(strange or ['svg'])[0]}`, which no sheet does")
    return _group(root, "")


def _tag(element: ElementTree.Element) -> str:
    return element.tag.removeprefix(SVG)


def _group(element: ElementTree.Element, transform: str) -> ReadGroup:
    """`transform` is what all groups around it say."""
    kind, transform = element.get("class", ""), _within(transform, element)
    shapes = [child for child in element if _tag(child) in KINDS]
    lines = [(shape, _within(transform, shape)) for shape in shapes]
    return ReadGroup(
        element.findtext(f"{SVG}title") or element.get("id") or "",
        kind,
        tuple(measure(_tag(one), one.attrib, moved) for one, moved in lines) if kind in MEASURED else (),
        tuple(shape.get("class", "") for shape in shapes),
        tuple(_group(child, transform) for child in element if _tag(child) == "g"),
        tuple(prick for one in lines for prick in _pricks(*one)) if kind == "stitches" else (),
    )


def _within(outer: str, element: ElementTree.Element) -> str:
    return f"{outer} {element.get('transform', '')}".strip()


def _pricks(shape: ElementTree.Element, transform: str) -> Iterator[tuple[Place, Place]]:
    return pricks(shape.attrib, transform) if shape.get("class") == "prick" else iter(())
