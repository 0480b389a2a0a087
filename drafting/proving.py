"""Holding a file that the tool wrote against its pattern, as that is now.

Takes the bytes of a file; gives what it was made from and where it differs. The file says itself which pattern, size
and measures it was made from and how it was asked for; what it should then hold is made afresh and compared with what
another library reads in it.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from drafting.drawing.marks import Drawing
from drafting.drawing.record import Record
from drafting.face import Faults, Pattern, PlacedPattern, UnknownName, fingerprint
from drafting.proof.disagreement import LACKING, Disagreement
from drafting.proof.made import kind_of, record_in
from drafting.records import dataclass, replace

if TYPE_CHECKING:
    from drafting.drawing.roster import Roster
    from drafting.text.table import Table


class NotMadeHere(ValueError):
    """A file that does not say what it was made from: of another program, or saved by one."""


class NothingToProve(ValueError):
    """A file of this tool that follows from prices, too; `what` kind it is."""

    def __init__(self, what: str) -> None:
        super().__init__(f"a {what} is not held against a pattern")
        self.what = what


class NoPeople(ValueError):
    """A file of a roster whose table of people, `name`, is not to be found."""

    def __init__(self, name: str) -> None:
        super().__init__(f"there is no {name}")
        self.name = name


Changed = tuple[str, str, str]
"""A file that another was made from, and the fingerprints of its text then and now."""


@dataclass(frozen=True)
class Proved:
    """`differences` is empty for a file that is true; `changed` names each text that has changed since: the pattern,
    the table of a roster, the patterns and hides of a lay, with the fingerprints of then and now."""

    record: Record
    kind: str
    pattern: str
    text: str
    differences: tuple[Disagreement, ...]
    others: tuple[Changed, ...] = ()
    """Texts besides the pattern."""

    @property
    def changed(self) -> list[Changed]:
        texts = [(self.pattern, self.record.text, self.text), *self.others]
        return [(name, then, now) for name, then, now in texts if then != now]


def record_of_file(data: bytes) -> Record:
    """What a file says it was made from. Raises NotMadeHere, or NothingToProve."""
    record = record_in(data)
    if record is not None and record.what in UNPROVED:
        raise NothingToProve(record.what)
    if record is None or record.what not in {*CHECKS, *CHECKS_OF_ROSTERS, "sizes", "lay"}:
        raise NotMadeHere
    return record


def beside(named: str, file: Path) -> Path | None:
    """The pattern, the table or the lay by the name that the file has for it: beside it, above it, or where the command
    stands."""
    name = Path(named).name
    places = (file.parent / name, file.parent.parent / name, Path(name))
    return next((place for place in places if place.is_file()), None)


class Known:
    """What the many files of a roster have in common, each read and fitted once."""

    def __init__(self) -> None:
        self.tables: dict[tuple[Path, str | None, str | None], Table] = {}
        self.rosters: dict[tuple[int, int, str], Roster] = {}

    def people(self, place: Path, encoding: str | None, separator: str | None) -> Table:
        """A table of people. Raises Faults."""
        from drafting.text.table import read_table

        key = (place, encoding, separator)
        if key not in self.tables:
            table, found = read_table(place, encoding, separator)
            if table is None or found.has_errors:
                raise Faults(found)
            self.tables[key] = table
        return self.tables[key]

    def roster(self, pattern: Pattern, people: Table, record: Record) -> Roster:
        """The sets of all rows, by what a file of them says it was asked for."""
        asked = {name: value for name, value in record.asked.items() if name != "number"}
        key = (id(pattern), id(people), json.dumps([asked, record.measures], sort_keys=True))
        if key not in self.rosters:
            self.rosters[key] = _roster(pattern, people, record)
        return self.rosters[key]


def prove(
    data: bytes,
    pattern: Pattern,
    record: Record,
    file: Path | None = None,
    known: Known | None = None,
) -> Proved:
    """Hold a file against a pattern; `file` is where it lies, and where its table of people is looked for. Raises
    Faults where the pattern cannot be placed so, NoPeople where there is no such table. For many files of the same
    pattern give the same `known`."""
    known = known or Known()
    people = _people(record, file or Path(), known) if record.what in CHECKS_OF_ROSTERS else None
    kind = kind_of(data) or ""
    found = differences_told(lambda: _differences(data, kind, pattern, record, people, known))
    others: tuple[Changed, ...] = ()
    if people is not None:
        others = ((people.source.name, str(record.asked["table"]), fingerprint([people.source.text])),)
    return Proved(record, kind, pattern.source.name, pattern.fingerprint, tuple(found), others)


def differences_told(find: Callable[[], Sequence[Disagreement]]) -> Sequence[Disagreement]:
    """What is found; a name or a wish of the file that is not known any more is a difference, too."""
    try:
        return find()
    except UnknownName as gone:
        return [Disagreement(f"the {gone.kind} `{gone.name}`", "its place", LACKING, "there")]
    except (KeyError, TypeError, ValueError) as fault:
        return [Disagreement("the file", "what it was asked for", "known", str(fault) or "not known")]


def _differences(
    data: bytes, kind: str, pattern: Pattern, record: Record, people: Table | None, known: Known
) -> Sequence[Disagreement]:
    if people is not None:
        return _of_roster(data, kind, pattern, record, people, known)
    if record.what == "sizes":
        return _sizes(data, kind, pattern, record)
    place = pattern.place_draft if record.draft else pattern.place_with
    return CHECKS[record.what](data, kind, place(record.size, record.measures), record.asked)


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


def _sizes(data: bytes, kind: str, pattern: Pattern, record: Record) -> Sequence[Disagreement]:
    from drafting.proof.machine import faults_in_nests
    from drafting.proof.tables import check_table

    table = pattern.quick_sizes_with if record.asked["quick"] else pattern.size_table_with
    sizes = table(record.size, record.measures)
    if kind == "svg":
        return faults_in_nests(data, sizes.drawing(record.asked["piece"]).drawing)
    writers = {"csv": sizes.to_csv, "json": sizes.to_json, "md": sizes.to_markdown, "text": sizes.to_text}
    measures = dict.fromkeys(name for row in sizes.rows for name in row.measures)
    keys = ["size", *(f"measures.{name}" if kind == "json" else name for name in measures)]
    return check_table(data, kind, writers[kind](), keys if kind in ("csv", "json") else ())


# Rosters


def _people(record: Record, file: Path, known: Known) -> Table:
    """The table of a roster as it is now."""
    asked = record.asked
    place = beside(asked["people"], file)
    if place is None:
        raise NoPeople(asked["people"])
    return known.people(place, asked["encoding"], asked["separator"])


def _of_roster(
    data: bytes, kind: str, pattern: Pattern, record: Record, people: Table, known: Known
) -> Sequence[Disagreement]:
    """Of a file of one person only that row is fitted, unless the letters of all are of one height."""
    from drafting.drawing.roster import wishes_of

    number = record.asked["number"]
    rows = [row for row in people.rows if not row.is_empty]
    if number is not None and number > len(rows):
        return [Disagreement("the table of people", f"row {number}", LACKING, "there")]
    check = CHECKS_OF_ROSTERS[record.what]
    if number is None or wishes_of(record.asked).is_even:
        return check(data, kind, known.roster(pattern, people, record), number)
    alone = replace(people, rows=tuple(rows[number - 1 : number]))
    return check(data, kind, _roster(pattern, alone, record), 1)


def _roster(pattern: Pattern, people: Table, record: Record) -> Roster:
    """Raises Faults."""
    from drafting.drawing.roster import wishes_of

    roster, found = pattern.roster_with(people, wishes_of(record.asked), record.measures)
    if roster is None:
        raise Faults(found)
    return roster


def _engraving(data: bytes, kind: str, roster: Roster, number: int | None) -> Sequence[Disagreement]:
    from drafting.drawing.roster import blanks_of, engraving
    from drafting.proof.engraving import check_engraving

    person = roster.people[(number or 1) - 1]
    if not person.inscriptions:
        return [Disagreement(person.title, "what is engraved", "nothing", "there")]
    drawing = engraving(person, roster.wishes, blanks_of(person, roster.wishes))
    return check_engraving(data, drawing) if kind == "svg" else _machine_file(data, kind, drawing)


def _cards(data: bytes, kind: str, roster: Roster, number: int | None) -> Sequence[Disagreement]:
    from drafting.drawing.roster import card_sheets
    from drafting.proof.cards import check_cards

    return check_cards(data, card_sheets(roster))


def _work_list(data: bytes, kind: str, roster: Roster, number: int | None) -> Sequence[Disagreement]:
    """Whatever the engravings are called: one for each who has words engraved."""
    from drafting.drawing.roster import card_sheets
    from drafting.output.work_list import work_list
    from drafting.proof.csv_rows import saved_text
    from drafting.proof.tables import check_table, rows_of

    names = {row.get("number"): row.get("engraving") for row in rows_of(saved_text(data), "csv").cells}
    files = {
        one.number: names.get(str(one.number)) or "a file name" for one in roster.people if one.inscriptions
    }
    return check_table(data, kind, work_list(roster, files, card_sheets(roster)), ["number"])


CHECKS_OF_ROSTERS: dict[str, Callable[[bytes, str, Roster, int | None], Sequence[Disagreement]]] = {
    "engraving": _engraving,
    "cards": _cards,
    "roster": _work_list,
}
UNPROVED = ("list",)
"""A list reckons with prices, which may have changed as they like."""
CHECKS: dict[str, Callable[[bytes, str, PlacedPattern, Asked], Sequence[Disagreement]]] = {
    "print": _print,
    "drawing": _drawing,
    "booklet": _booklet,
    "cut": _cut,
    "template": _template,
}
