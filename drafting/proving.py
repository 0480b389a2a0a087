"""Holding a file that the tool wrote against its pattern, as that is now.

Takes the bytes of a file; gives what it was made from and where it differs. The file says itself which pattern, size
and measures it was made from and how it was asked for; what it should then hold is made afresh and compared with what
another library reads in it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from drafting.drawing.marks import Drawing
from drafting.drawing.record import Record
from drafting.face import Pattern, PlacedPattern, UnknownName
from drafting.proof.disagreement import Disagreement
from drafting.proof.made import kind_of, record_in


class NotMadeHere(ValueError):
    """A file that does not say what it was made from: of another program, or saved by one."""


@dataclass(frozen=True)
class Proved:
    """`differences` is empty for a file that is true; `is_current` tells that the text has not changed since."""

    record: Record
    kind: str
    pattern: str
    text: str
    differences: tuple[Disagreement, ...]

    @property
    def is_current(self) -> bool:
        return self.record.text == self.text


def record_of_file(data: bytes) -> Record:
    """What a file says it was made from. Raises NotMadeHere."""
    record = record_in(data)
    if record is None or record.what not in CHECKS:
        raise NotMadeHere
    return record


def pattern_beside(record: Record, file: Path) -> Path | None:
    """The pattern by the name that the file has for it: beside it, above it, or where the command stands."""
    name = Path(record.pattern).name
    places = (file.parent / name, file.parent.parent / name, Path(name))
    return next((place for place in places if place.is_file()), None)


def prove(data: bytes, pattern: Pattern, record: Record) -> Proved:
    """Hold a file against a pattern. Raises Faults where the pattern cannot be placed so."""
    kind = kind_of(data) or ""
    try:
        place = pattern.place_draft if record.draft else pattern.place_with
        found = CHECKS[record.what](data, kind, place(record.size, record.measures), record.asked)
    except UnknownName as gone:
        found = [Disagreement(f"the {gone.kind} `{gone.name}`", "its place", "not there", "there")]
    except (KeyError, TypeError, ValueError) as fault:
        found = [Disagreement("the file", "what it was asked for", "known", str(fault) or "not known")]
    return Proved(record, kind, pattern.source.name, pattern.fingerprint, tuple(found))


Asked = Mapping[str, Any]


def _print(data: bytes, kind: str, placed: PlacedPattern, asked: Asked) -> Sequence[Disagreement]:
    """As lines, and its scales as dots of the rendered pages."""
    from drafting.proof.pdf import check_pdf

    prints = placed.prints(asked["paper"], asked["pieces"], asked["correction"], asked["copies"])
    return check_pdf(data, placed.placed, prints.sheets, prints.correction, prints.times)


def _drawing(data: bytes, kind: str, placed: PlacedPattern, asked: Asked) -> Sequence[Disagreement]:
    from drafting.proof.svg import check_svg

    if asked["piece"] is not None and asked["piece"] not in placed.pieces:
        raise UnknownName("piece", asked["piece"], placed.pieces)
    return check_svg(data.decode("utf-8", errors="replace"), placed.placed, asked["piece"])


def _booklet(data: bytes, kind: str, placed: PlacedPattern, asked: Asked) -> Sequence[Disagreement]:
    from drafting.proof.booklet import check_page, check_pages

    booklet = placed.booklet(asked["paper"]).booklet
    return (check_page if kind == "html" else check_pages)(data, placed.placed, booklet)


def _cut(data: bytes, kind: str, placed: PlacedPattern, asked: Asked) -> Sequence[Disagreement]:
    from drafting.drawing.machine import layers_set
    from drafting.proof.machine_sheet import faults_in_sheet

    sheets = placed.cutting(
        asked["pieces"], cutter=asked["cutter"], kerf=asked["kerf"], layers=layers_set(asked["layers"]),
        labels=asked["labels"],
    )  # fmt: skip
    sheet = next((one.sheet for one in sheets if one.stock == asked["stock"]), None)
    if sheet is None:
        raise UnknownName("stock", asked["stock"] or "", (one.stock or "" for one in sheets))
    held = faults_in_sheet(sheet, placed.placed, asked["pieces"])
    return [*held, *_machine_file(data, kind, sheet.drawing)]


def _template(data: bytes, kind: str, placed: PlacedPattern, asked: Asked) -> Sequence[Disagreement]:
    from drafting.drawing.machine import layers_set
    from drafting.proof.machine_sheet import faults_in_template

    found = placed.templates(
        [asked["piece"]], pin=asked["pin"], awl_slots=asked["awl_slots"], mirrored=asked["mirrored"],
        kerf=asked["kerf"], layers=layers_set(asked["layers"]),
    )  # fmt: skip
    template = next(
        (one.template for one in found if one.template and one.template.is_turned == asked["turned"]), None
    )
    if template is None:
        raise UnknownName("other of the pair", asked["piece"], ())
    return [*faults_in_template(template, placed.placed), *_machine_file(data, kind, template.sheet.drawing)]


def _machine_file(data: bytes, kind: str, drawing: Drawing) -> Sequence[Disagreement]:
    from drafting.proof.machine import faults_in_dxf, faults_in_layers_pdf, faults_in_layers_svg

    readers = {"dxf": faults_in_dxf, "svg": faults_in_layers_svg, "pdf": faults_in_layers_pdf}
    return readers[kind](data, drawing)


CHECKS: dict[str, Callable[[bytes, str, PlacedPattern, Asked], Sequence[Disagreement]]] = {
    "print": _print,
    "drawing": _drawing,
    "booklet": _booklet,
    "cut": _cut,
    "template": _template,
}
