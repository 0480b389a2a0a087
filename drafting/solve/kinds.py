"""The kinds of fact: what each one ties together, and the equations it stands for.

A fact such as `distance` names its operands in order: P a point, s a number, o an object such as a path. It stands
for one equation or two; each equation has a form, whose formula is written in `fact_kinds` and whose ready-made
functions are in `closed_forms`. A form says which coordinates of its points it reads, so that `level with` ties two
y and leaves the x alone.
"""

from __future__ import annotations

from drafting.records import dataclass


@dataclass(frozen=True)
class Form:
    """One equation: its name, and for each of its points the coordinates it reads. Numbers and paths it reads whole."""

    name: str
    reads: tuple[str, ...]


@dataclass(frozen=True)
class FormUse:
    """A form with the operands of the fact in the form's own order, as indices of the fact's points."""

    form: Form
    points: tuple[int, ...]


@dataclass(frozen=True)
class Kind:
    """A kind of fact. `condition` names what an equation cannot say: which half of a line, which part of a path."""

    name: str
    roles: str
    uses: tuple[FormUse, ...]
    condition: str | None = None


OFFSET_X = Form("offset_x", ("x", "x"))
OFFSET_Y = Form("offset_y", ("y", "y"))
COORDINATE_X = Form("coordinate_x", ("x",))
COORDINATE_Y = Form("coordinate_y", ("y",))
SAME_X = Form("same_x", ("x", "x"))
SAME_Y = Form("same_y", ("y", "y"))
DISTANCE = Form("distance", ("xy", "xy"))
LINE_DISTANCE = Form("line_distance", ("xy", "xy", "xy"))
RAY = Form("ray", ("xy", "xy"))
BETWEEN_X = Form("between_x", ("x", "x", "x"))
BETWEEN_Y = Form("between_y", ("y", "y", "y"))
ALONG_X = Form("along_x", ("x", "xy", "xy"))
ALONG_Y = Form("along_y", ("y", "xy", "xy"))
MIRROR_X = Form("mirror_x", ("x", "xy", "xy", "xy"))
MIRROR_Y = Form("mirror_y", ("y", "xy", "xy", "xy"))
PARALLEL = Form("parallel", ("xy", "xy", "xy", "xy"))
SQUARE = Form("square", ("xy", "xy", "xy", "xy"))
EQUAL_LENGTHS = Form("equal_lengths", ("xy", "xy", "xy", "xy"))
ANGLE = Form("angle", ("xy", "xy", "xy"))
ON_PATH = Form("on_path", ("xy",))
TANGENT = Form("tangent", ("xy", "xy"))
TOUCHES = Form("touches", ("xy", "xy"))
FRAME_X = Form("frame_x", ("x", "xy", "xy"))
FRAME_Y = Form("frame_y", ("y", "xy", "xy"))
"""A point of a rigid body by two others of it; no fact of its own, but made where bodies are placed."""
EQUATION = Form("equation", ())


def _kind(name: str, roles: str, *uses: FormUse, condition: str | None = None) -> Kind:
    return Kind(name, roles, uses, condition)


def _in_order(form: Form) -> FormUse:
    return FormUse(form, tuple(range(len(form.reads))))


KINDS: dict[str, Kind] = {
    kind.name: kind
    for kind in (
        _kind("offset x", "PPs", _in_order(OFFSET_X)),
        _kind("offset y", "PPs", _in_order(OFFSET_Y)),
        _kind("coordinate x", "Ps", _in_order(COORDINATE_X)),
        _kind("coordinate y", "Ps", _in_order(COORDINATE_Y)),
        _kind("distance", "PPs", _in_order(DISTANCE)),
        _kind("line distance", "PPPs", _in_order(LINE_DISTANCE)),
        _kind("on line", "PPP", FormUse(PARALLEL, (1, 2, 1, 0))),
        _kind("on stretch", "PPP", FormUse(PARALLEL, (1, 2, 1, 0)), condition="between"),
        _kind("square off", "PPPP", FormUse(SQUARE, (3, 0, 1, 2))),
        _kind("ray", "PPs", _in_order(RAY), condition="ray"),
        _kind("at", "PP", _in_order(SAME_X), _in_order(SAME_Y)),
        _kind("between", "PPPs", _in_order(BETWEEN_X), _in_order(BETWEEN_Y)),
        _kind("along", "PPPs", _in_order(ALONG_X), _in_order(ALONG_Y)),
        _kind("mirror", "PPPP", _in_order(MIRROR_X), _in_order(MIRROR_Y)),
        _kind("parallel", "PPPP", _in_order(PARALLEL), condition="apart"),
        _kind("square", "PPPP", _in_order(SQUARE), condition="apart"),
        _kind("equal lengths", "PPPP", _in_order(EQUAL_LENGTHS)),
        _kind("angle", "PPPs", _in_order(ANGLE), condition="angle"),
        _kind("on path", "Po", FormUse(ON_PATH, (0,)), condition="on path"),
        _kind("touching", "PoP", FormUse(ON_PATH, (0,)), FormUse(TANGENT, (0, 1)), condition="on path"),
        _kind("touches", "PPo", FormUse(TOUCHES, (0, 1)), condition="touches"),
        _kind("equation", "ss", FormUse(EQUATION, ())),
    )
}

CHOICES = frozenset(
    {"above", "below", "left of", "right of", "nearest", "farthest from", "inside", "outside"}
)
