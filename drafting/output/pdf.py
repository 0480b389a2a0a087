"""Drawings as a PDF, one page each: true size, letters embedded, the same bytes for the same drawings.

ReportLab writes it, with one date for all files or that of SOURCE_DATE_EPOCH. A page is as many points large as its
drawing is mm (1 pt = 1/72 in, ISO 32000-1). PDF has no arcs: each becomes cubic curves of at most PART of a turn, which
stay within 4e-7 of the radius of the true arc. Layers of a sheet for a machine are optional content.
"""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO
from itertools import pairwise
from math import ceil, cos, pi, sin, tan

from reportlab import rl_config
from reportlab.pdfgen.canvas import FILL_NON_ZERO, Canvas
from reportlab.pdfgen.pathobject import PDFPathObject

from drafting.drawing.fonts import FONT
from drafting.drawing.lettering import font_size
from drafting.drawing.marks import Dots, Drawing, Group, Lettering, Stroke, Ticks
from drafting.geometry.arc import Arc
from drafting.geometry.path import Path, Ring
from drafting.geometry.point import Point
from drafting.output.layers_pdf import LEAST_VERSION, Layers
from drafting.output.letters import Run, expect_letters, register, runs_of
from drafting.version import VERSION

POINTS = 72 / 25.4
"""Points in a mm."""
PART = pi / 6
SPECK = 0.003
"""Half of the length of a dot's line, in points: a thousandth of a mm."""
MOVE, LINE, CURVE = "%.4f %.4f m", " %.4f %.4f l", " %.4f %.4f %.4f %.4f %.4f %.4f c"
STEP = f" {MOVE}{LINE}"
"""How steps of a path are written: a ten thousandth of a point is 0.04 thousandths of a mm."""
LONGEST = 14_400 / POINTS
"""mm of the longest side of a page: readers need not take more than 14 400 units (ISO 32000-1, annex C)."""
PRODUCER = "Awlwright"
LAYER = "layer"
"""The kind of a group that a sheet for a machine has for each of its layers."""
SHIFTS = {"start": 0.0, "middle": 0.5, "end": 1.0}


class PageTooLarge(ValueError):
    """A drawing of so many mm that no page of a PDF can be as large."""

    def __init__(self, wide: float, high: float) -> None:
        super().__init__(f"a page of {wide:.0f} mm by {high:.0f} mm is longer than {LONGEST:.0f} mm")
        self.sides = (wide, high)


def to_pdf(drawings: Sequence[Drawing], correction: float = 1.0) -> bytes:
    """The bytes of the file. `correction` is what a printer makes of 1 mm: all is drawn larger by as much as it prints
    smaller, about the middle of the page. Raises MissingLetters where no font has a letter, PageTooLarge for a drawing
    that goes on no page."""
    for drawing in drawings:
        if max(drawing.width, drawing.height) > LONGEST:
            raise PageTooLarge(drawing.width, drawing.height)
    expect_letters(lettering.text for drawing in drawings for lettering in drawing.letterings)
    register(FONT)
    rl_config.useA85 = 0  # Bytes as they are: smaller files, sooner written.
    held = BytesIO()
    is_layered = any(group.kind == LAYER for drawing in drawings for group in drawing.groups)
    canvas = Canvas(
        held,
        pageCompression=1,
        invariant=1,
        initialFontName=FONT,
        pdfVersion=LEAST_VERSION if is_layered else None,
    )
    canvas.setTitle(drawings[0].title.rpartition(":")[0] or drawings[0].title)
    canvas.setCreator(f"{PRODUCER} {VERSION}")
    canvas.setProducer(PRODUCER)
    canvas.setKeywords(drawings[0].record)
    layers = Layers(canvas)
    for drawing in drawings:
        _Page(canvas, drawing, 1 / correction, layers).draw()
    canvas.save()
    return held.getvalue()


def is_ours(data: bytes) -> bool:
    """Whether a file was written here: its information says so."""
    return data.startswith(b"%PDF") and f"({PRODUCER})".encode() in data


class _Page:
    """One drawing on the canvas; places are mm from the lower left, enlarged about the middle."""

    def __init__(
        self, canvas: Canvas, drawing: Drawing, enlarged: float, layers: Layers | None = None
    ) -> None:
        self.canvas, self.drawing, self.enlarged = canvas, drawing, enlarged
        self.layers = layers or Layers(canvas)
        self.per = enlarged * POINTS
        self.across, self.up = (
            (1 - enlarged) * side / 2 * POINTS for side in (drawing.width, drawing.height)
        )

    def draw(self) -> None:
        self.canvas.setPageSize((self.drawing.width * POINTS, self.drawing.height * POINTS))
        self.canvas.setLineJoin(1)
        self.groups()
        self.canvas.showPage()
        self.layers.settle()

    def groups(self) -> None:
        for group in self.drawing.groups:
            self.group(group)

    def group(self, group: Group) -> None:
        if group.kind == LAYER:
            with self.layers.layer(group.name):
                self.marks(group)
            return
        if group.window is None:
            self.marks(group)
            return
        self.canvas.saveState()
        window = self.canvas.beginPath()
        low = self.place(Point(group.window.min_x, group.window.min_y))
        high = self.place(Point(group.window.max_x, group.window.max_y))
        window.rect(*low, high[0] - low[0], high[1] - low[1])
        self.canvas.clipPath(window, stroke=0, fill=0)
        self.marks(group)
        self.canvas.restoreState()

    def marks(self, group: Group) -> None:
        for mark in group.marks:
            match mark:
                case Group():
                    self.group(mark)
                case Stroke():
                    self.stroke(mark)
                case Dots():
                    self.dots(mark)
                case Ticks():
                    self.ticks(mark)
                case Lettering():
                    self.words(mark)

    def stroke(self, stroke: Stroke) -> None:
        canvas, path = self.canvas, self.course(stroke.way)
        if stroke.is_filled:
            shade = stroke.kind.shade
            if shade:
                canvas.saveState()
                canvas.setFillGray(shade)
            canvas.drawPath(path, stroke=0, fill=1)
            if shade:
                canvas.restoreState()
            return
        canvas.setLineWidth(stroke.kind.width * POINTS)
        dashes, start = stroke.dashes
        canvas.setDash([dash * POINTS for dash in dashes], start * POINTS)
        canvas.setLineCap(1 if stroke.kind.has_dots else 0)
        canvas.drawPath(path, stroke=1, fill=0)

    def dots(self, dots: Dots) -> None:
        """Each a line next to nothing long with round ends: of thousands of holes a file stays small."""
        places = (self.place(point) for point in dots.points)
        path = path_of(
            STEP * len(dots.points), [part for x, y in places for part in (x - SPECK, y, x + SPECK, y)]
        )
        self.canvas.setLineWidth((dots.across - 2 * SPECK / POINTS) * self.enlarged * POINTS)
        self.canvas.setDash([])
        self.canvas.setLineCap(1)
        self.canvas.drawPath(path, stroke=1, fill=0)

    def ticks(self, ticks: Ticks) -> None:
        path = path_of(
            STEP * len(ticks.lines),
            [part for line in ticks.lines for end in line for part in self.place(end)],
        )
        self.canvas.setLineWidth(ticks.kind.width * POINTS)
        self.canvas.setDash([])
        self.canvas.setLineCap(0)
        self.canvas.drawPath(path, stroke=1, fill=0)

    def course(self, way: Path | Ring) -> PDFPathObject:
        """A path or a ring, step by step."""
        steps, places = [MOVE], [(way.start.x, way.start.y)]
        for leg in way.legs:
            if isinstance(leg, Arc):
                curves = bow(leg)
                steps.append(CURVE * (len(curves) // 3))
                places += curves
            else:
                steps.append(LINE)
                places.append((leg.end.x, leg.end.y))
        if isinstance(way, Ring):
            steps.append(" h")
        across, up, per = self.across, self.up, self.per
        return path_of("".join(steps), [part for x, y in places for part in (x * per + across, y * per + up)])

    def place(self, point: Point) -> tuple[float, float]:
        """A place of the drawing in points."""
        return point.x * self.per + self.across, point.y * self.per + self.up

    def words(self, lettering: Lettering) -> None:
        """Words in the room that was reckoned for them: what would be wider in its own font is set narrower."""
        canvas = self.canvas
        size = font_size(lettering.height) * self.enlarged * POINTS
        runs = runs_of(lettering.text)
        room = lettering.width * self.enlarged * POINTS
        width = sum(run.width for run in runs) * size
        canvas.saveState()
        canvas.translate(*self.place(lettering.at))
        canvas.rotate(lettering.angle)
        if width > room:
            canvas.scale(room / width, 1.0)
        draw_runs(canvas, runs, size, -SHIFTS[lettering.anchor] * width)
        canvas.restoreState()


def path_of(steps: str, parts: Sequence[float]) -> PDFPathObject:
    """A path from its operators and all their numbers, in points: of a batch's hundred thousand steps none is written
    by itself."""
    return PDFPathObject(["n " + steps % tuple(parts)])


def bow(arc: Arc) -> list[tuple[float, float]]:
    """An arc as cubic curves, three places each, whose handles are 4/3 tan(a/4) of the radius long."""
    count = max(1, ceil(abs(arc.sweep) / PART))
    step, radius, x, y = arc.sweep / count, arc.radius, arc.center.x, arc.center.y
    handle = 4 / 3 * tan(step / 4) * radius
    places = []
    angles = [arc.start_angle + index * step for index in range(count + 1)]
    turns = [(cos(angle), sin(angle)) for angle in angles]
    for (first_x, first_y), (last_x, last_y) in pairwise(turns):
        places += [
            (x + first_x * radius - first_y * handle, y + first_y * radius + first_x * handle),
            (x + last_x * radius + last_y * handle, y + last_y * radius - last_x * handle),
            (x + last_x * radius, y + last_y * radius),
        ]
    return [*places[:-1], (arc.end.x, arc.end.y)]


def draw_picture(canvas: Canvas, drawing: Drawing) -> None:
    """All of a drawing, with its lower left corner where the canvas has its own."""
    canvas.setLineJoin(1)
    _Page(canvas, drawing, 1.0).groups()


def draw_runs(canvas: Canvas, runs: Sequence[Run], size: float, left: float) -> None:
    """Letters on the line y = 0, from `left` on, in points."""
    for run in runs:
        if run.shapes:
            draw_shapes(canvas, run, size, left)
        else:
            canvas.setFont(run.font, size)
            canvas.drawString(left, 0, run.text)
        left += run.width * size


def draw_shapes(canvas: Canvas, run: Run, size: float, left: float) -> None:
    """Letters as filled outlines; what is inside is told by the way they wind, as fonts have it."""
    path = canvas.beginPath()
    steps = {"move": path.moveTo, "line": path.lineTo, "curve": path.curveTo, "close": path.close}
    for kind, parts in run.shapes:
        places = [part * size + (0.0 if index % 2 else left) for index, part in enumerate(parts)]
        steps[kind](*places)
    canvas.drawPath(path, stroke=0, fill=1, fillMode=FILL_NON_ZERO)
