"""A Drawing as SVG: true size, with arcs as arcs and words as words.

The root is as many mm large as its viewBox counts units, so one user unit is 1 mm. Here, and only here, y is turned to
point down. Groups carry the maker's names as identifiers and titles; every stroke carries its kind as a class and its
width and dashes as attributes, so that a program without style sheets sees the same. Half circles and more are written
as two arcs, whole ones as circles: no reader has to guess or to stretch a radius.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from math import pi

import svgwrite
from svgwrite.base import BaseElement

from drafting.drawing.lettering import FAMILIES, font_size, has_fixed_width
from drafting.drawing.lines import LineKind
from drafting.drawing.marks import Dots, Drawing, Group, Lettering, Mark, Stroke, Ticks
from drafting.drawing.record import MARK
from drafting.geometry.arc import Arc
from drafting.geometry.leg import Leg
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.geometry.tolerances import SAME_POINT
from drafting.output.identifiers import Identifiers
from drafting.output.numbers import DECIMALS, number_text

LARGEST_SWEEP = 0.9 * pi
FINE = 4
"""Decimals of stitch marks, of which there are thousands: a tenth of a micrometre."""
INK = "#000000"
PAPER = "#ffffff"


def is_our_drawing(data: bytes) -> bool:
    """Whether a drawing was written here: its record says so."""
    return MARK.encode() in data[:200]


def to_svg(drawing: Drawing) -> str:
    """The whole file as text; the same drawing gives the same text."""
    return f"{XML_HEAD}\n{record_comment(drawing)}{SvgWriter(drawing).write()}"


def record_comment(drawing: Drawing) -> str:
    """What it was made from, for those who read the file and not the picture."""
    return f"<!-- {drawing.record} -->\n" if drawing.record else ""


def to_svg_element(drawing: Drawing, prefix: str, alt: str) -> str:
    """The same to stand inside a page: its identifiers begin with `prefix`, and `alt` tells what it shows."""
    writer = SvgWriter(drawing, prefix)
    writer.document.attribs["role"] = "img"
    writer.document.attribs["aria-label"] = writable(alt)
    return writer.write()


class SvgWriter:
    """Writes one drawing; `document` makes elements, `identifiers` keeps their names apart."""

    def __init__(self, drawing: Drawing, prefix: str = "") -> None:
        self.drawing = drawing
        self.identifiers = Identifiers(prefix)
        size = (f"{number_text(drawing.width)}mm", f"{number_text(drawing.height)}mm")
        self.document = svgwrite.Drawing(size=size, debug=False)
        self.document.attribs["viewBox"] = f"0 0 {number_text(drawing.width)} {number_text(drawing.height)}"

    def write(self) -> str:
        document = self.document
        document.set_desc(title=writable(self.drawing.title), desc=writable(self.drawing.note))
        document.add(document.rect(insert=("0", "0"), size=("100%", "100%"), fill=PAPER, class_="paper"))
        root = document.g(
            id=self.identifiers.give("drawing"), fill="none", stroke=INK, stroke_linejoin="round",
            font_family=", ".join(FAMILIES),
        )  # fmt: skip
        for group in self.drawing.groups:
            root.add(self.group(group, ()))
        document.add(root)
        return f"{LINE_BEFORE.sub(chr(10), document.tostring())}\n"

    def group(self, group: Group, path: tuple[str, ...]) -> BaseElement:
        """A group with its title, and all that is in it."""
        identifier = self.identifiers.give(*naming_words(group, path))
        element = self.document.g(id=identifier, class_=group.kind)
        if group.title or group.note:
            element.set_desc(title=writable(group.title), desc=writable(group.note))
        inner = (group.name,) if group.kind == "piece" else path
        for mark in group.marks:
            element.add(self.mark(mark, inner))
        return element

    def mark(self, mark: Mark, path: tuple[str, ...]) -> BaseElement:
        match mark:
            case Group():
                return self.group(mark, path)
            case Stroke():
                return self.stroke(mark)
            case Dots():
                return self.dots(mark)
            case Ticks():
                return self.ticks(mark)
            case Lettering():
                return self.words(mark)

    def stroke(self, stroke: Stroke) -> BaseElement:
        element = self.shape(stroke.way)
        element["class"] = stroke.kind.name
        if stroke.is_filled:
            element["fill"], element["stroke"] = ink_of(stroke.kind), "none"
            return element
        element["stroke-width"] = number_text(stroke.kind.width)
        if stroke.kind.dashes:
            if stroke.kind.has_dots:
                element["stroke-linecap"] = "round"
            dashes, start = stroke.dashes
            element["stroke-dasharray"] = " ".join(number_text(dash) for dash in dashes)
            if start:
                element["stroke-dashoffset"] = number_text(start)
        return element

    def dots(self, dots: Dots) -> BaseElement:
        """All of them as one path of circles in half circles."""
        half, whole = number_text(dots.across / 2), number_text(dots.across)
        turn = f"a{half} {half} 0 0 1 {whole} 0a{half} {half} 0 0 1 -{whole} 0z"
        starts = (self.place_text(Point(point.x - dots.across / 2, point.y), FINE) for point in dots.points)
        element = self.document.path(d="".join(f"M{start}{turn}" for start in starts), class_=dots.kind.name)
        element["fill"], element["stroke"] = INK, "none"
        return element

    def ticks(self, ticks: Ticks) -> BaseElement:
        """All of them as one path of straight lines."""
        ends = ((self.place_text(start, FINE), self.place_text(end, FINE)) for start, end in ticks.lines)
        element = self.document.path(d="".join(f"M{a}L{b}" for a, b in ends), class_=ticks.kind.name)
        element["stroke-width"] = number_text(ticks.kind.width)
        return element

    def shape(self, way: Path | Ring) -> BaseElement:
        circle = whole_circle(way)
        if circle is None:
            return self.document.path(d=" ".join(self.commands(way)))
        center, radius = circle
        return self.document.circle(center=self.place(center), r=number_text(radius))

    def commands(self, way: Path | Ring) -> Iterator[str]:
        yield f"M {self.place_text(way.start)}"
        for leg in way.legs:
            for part in drawable_parts(leg):
                yield self.command(part)
        if isinstance(way, Ring):
            yield "Z"

    def command(self, leg: Leg) -> str:
        """A leg no longer than LARGEST_SWEEP; an anticlockwise arc turns against the angle of a y that points down."""
        if not isinstance(leg, Arc):
            return f"L {self.place_text(leg.end)}"
        radius = number_text(leg.radius)
        return f"A {radius} {radius} 0 0 {0 if leg.sweep > 0 else 1} {self.place_text(leg.end)}"

    def place(self, point: Point, decimals: int = DECIMALS) -> tuple[str, str]:
        return number_text(point.x, decimals), number_text(self.drawing.height - point.y, decimals)

    def place_text(self, point: Point, decimals: int = DECIMALS) -> str:
        return ",".join(self.place(point, decimals))

    def words(self, lettering: Lettering) -> BaseElement:
        """Words whose length is fixed, so that another typeface cannot run them into something."""
        x, y = self.place(lettering.at)
        element = self.document.text(writable(lettering.text), insert=(x, y), class_=lettering.use)
        element["font-size"] = number_text(font_size(lettering.height), 4)
        element["text-anchor"] = lettering.anchor
        element["fill"], element["stroke"] = INK, "none"
        if has_fixed_width(lettering.text):
            element["textLength"] = number_text(lettering.width, 3)
            element["lengthAdjust"] = "spacingAndGlyphs"
        if lettering.angle:
            element["transform"] = f"rotate({number_text(-lettering.angle)} {x} {y})"
        return element


def ink_of(kind: LineKind) -> str:
    """Black, or the grey of its shade."""
    return f"#{round(255 * kind.shade):02x}" + f"{round(255 * kind.shade):02x}" * 2


XML_HEAD = '<?xml version="1.0" encoding="UTF-8"?>'


LINE_BEFORE = re.compile(r"(?=<(?:g|path|circle|rect|text|title|desc|defs)\b|</g>|</svg>)")
"""Where the file gets a new line, for those who read or compare it; a `<` in words is always escaped."""
UNWRITABLE = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def writable(text: str | None) -> str | None:
    """Without the few characters that XML 1.0 has no room for."""
    return text and UNWRITABLE.sub("\ufffd", text)


def naming_words(group: Group, path: tuple[str, ...]) -> tuple[str, ...]:
    """What the identifier of a group is made of: `piece-belt`, `belt-tongue`, `belt-center-tongue`, `frame`."""
    if group.kind == "piece":
        return ("piece", group.name)
    if group.kind in ("feature", "outline"):
        return (*path, group.name)
    return (*path, group.kind, group.name) if group.kind != group.name else (*path, group.kind)


def whole_circle(way: Path | Ring) -> tuple[Point, float] | None:
    """Center and radius of a ring that is one circle walked once."""
    first = way.legs[0]
    if not isinstance(way, Ring) or not isinstance(first, Arc):
        return None
    sweep = 0.0
    for leg in way.legs:
        same = isinstance(leg, Arc) and leg.center.distance_to(first.center) < SAME_POINT
        if not same or not isinstance(leg, Arc) or abs(leg.radius - first.radius) > SAME_POINT:
            return None
        sweep += leg.sweep
    return (first.center, first.radius) if abs(abs(sweep) - 2 * pi) < 1e-9 else None


def drawable_parts(leg: Leg) -> list[Leg]:
    """The leg itself, or an arc in equal parts each well short of half a circle."""
    if not isinstance(leg, Arc) or abs(leg.sweep) <= LARGEST_SWEEP:
        return [leg]
    count = 2 if abs(leg.sweep) <= 2 * LARGEST_SWEEP else 3
    step = leg.length / count
    return [leg.part(step * index, step * (index + 1)) for index in range(count)]
