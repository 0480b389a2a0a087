"""The Python face: load a pattern, place it in a size, draw it, measure it.

>>> import drafting
>>> pattern = drafting.load("patterns/badge-holder.draft")
>>> badge = pattern.place(rim="10 mm")
>>> badge.pieces["front"].outline.area > 0
True

`load` never fails for what is written in the file: the faults are in `messages`, and `check` adds those of every size.
`place` raises Faults when there is nothing true to show.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from fractions import Fraction
from functools import cached_property
from hashlib import sha256
from math import inf
from numbers import Integral
from pathlib import Path
from typing import TYPE_CHECKING, Any

from drafting.craft.contents import TABLE
from drafting.craft.judging import Verdict, judge
from drafting.craft.rules import RULES, Rule
from drafting.craft.workshop import Workshop
from drafting.model.bind import bind_pattern
from drafting.model.bind_expression import bind
from drafting.model.evaluate_measures import how_else, why_not
from drafting.model.expressions import Bound, Constant, Value, keys_of
from drafting.model.pattern import Pattern as BoundPattern
from drafting.model.pattern import PointRef
from drafting.model.references import Binding, expect_point
from drafting.model.settings import bind_setting
from drafting.model.soundness import sound_part
from drafting.model.sweeps import Sweep, bind_sweep, is_sweep
from drafting.records import dataclass, field, replace
from drafting.solve.draft import Draft, Sized, merge_sizes
from drafting.solve.explaining import explain_found, explain_measure, explain_point, explain_undecided
from drafting.solve.explaining_stitches import explain_stitches, stitch_line
from drafting.solve.placed import Placed, PlacedPiece
from drafting.solve.reading import Reader
from drafting.syntax import tree
from drafting.syntax.parse import parse, parse_expression
from drafting.text.catalogue.model import NOT_COMPUTED
from drafting.text.messages import Messages
from drafting.text.quantities import LENGTH
from drafting.text.source import Source, read_source
from drafting.text.used_files import UsedFiles
from drafting.version import VERSION

if TYPE_CHECKING:
    from drafting.craft.lists.order import Order
    from drafting.craft.lists.sizing import Asked, SizedRow
    from drafting.drawing import Drawing
    from drafting.drawing.booklet import Booklet
    from drafting.drawing.machine import Layer, MachineSheet, Template
    from drafting.drawing.prints import Paper, PrintSheet
    from drafting.drawing.record import Record
    from drafting.drawing.roster import Person, Roster, Wishes
    from drafting.lay import Freedom, Lay, Limits, Violation
    from drafting.lay.laying import Progress
    from drafting.lay.ordering import PanelSize, Wish
    from drafting.output.dxf_frame import Release
    from drafting.output.lays import Asked as AskedLay
    from drafting.text.prices import PriceList
    from drafting.text.table import Table

Setting = str | float | Fraction
MOST_PLACED = 20
"""Placed sizes of a pattern that are kept."""


class Faults(Exception):
    """The pattern has faults, so there is nothing true to place; `messages` says what they are."""

    def __init__(self, messages: Messages) -> None:
        super().__init__("; ".join(message.says for message in messages) or "the pattern has faults")
        self.messages = messages


class UnknownName(Exception):
    """A size, piece or measure that the pattern does not have; `known` are those it has."""

    def __init__(self, kind: str, name: str, known: Iterable[str]) -> None:
        self.kind, self.name, self.known = kind, name, tuple(known)
        super().__init__(f"there is no {kind} {name!r}; there are {', '.join(self.known) or 'none'}")


@dataclass(frozen=True)
class Measured:
    """A number read off a placed pattern; `unit` is mm, mm2, deg, or nothing for a plain number."""

    value: float
    unit: str


def load(path: str | Path, blocks: str | Path | None = None) -> Pattern:
    """Read a pattern file. UnreadableSource tells a file that is not there or is no text.

    It may use files below its own folder, and below the folder `blocks`.
    """
    source = read_source(path)
    return _read(source, UsedFiles.beginning(source, path, blocks))


def read(source: Source, folder: str | Path | None = None, blocks: str | Path | None = None) -> Pattern:
    """A pattern from its text; it may use files below these two folders, or none."""
    return _read(source, UsedFiles(_place(folder), _place(blocks)))


def rules() -> tuple[Rule, ...]:
    """The rules of the workshop that `check` judges by: of each its code, title, limit, reason and what backs it."""
    return RULES


def _place(folder: str | Path | None) -> Path | None:
    return None if folder is None else Path(folder)


def _read(source: Source, used_files: UsedFiles) -> Pattern:
    file, messages = parse(source)
    return Pattern(source, file, messages, used_files)


@dataclass(repr=False)
class Pattern:
    """A pattern as written, ready to be placed in any size."""

    source: Source
    file: tree.File
    messages: Messages
    """Faults of the text itself: of form, and of names and kinds."""
    used_files: UsedFiles = field(default_factory=UsedFiles, repr=False)
    """Where the files are that it may use."""
    bound: BoundPattern = field(init=False, repr=False)
    binding: Binding = field(init=False, repr=False)
    draft: Draft = field(init=False, repr=False)
    _placed: dict[Any, PlacedPattern] = field(default_factory=dict, init=False, repr=False)
    """The last sizes that were placed, by what they were asked for with: many files may be of one size."""

    def __post_init__(self) -> None:
        self.bound, self.binding, found = bind_pattern(self.file, TABLE, self.used_files.fetch)
        self.messages.extend(found)
        self.draft = Draft(self.bound, self.stem, Workshop())

    def __repr__(self) -> str:
        return f"<pattern {self.title!r}: {', '.join(self.pieces)}>"

    @property
    def stem(self) -> str:
        """The file's name without its ending."""
        return Path(self.source.name).stem or "pattern"

    @property
    def sources(self) -> tuple[Source, ...]:
        """The text, and those of all files it uses."""
        return tuple(self.binding.scope.opened)

    @property
    def fingerprint(self) -> str:
        """What tells this text, with those of all files it uses, from any other."""
        return fingerprint(source.text for source in self.sources)

    @property
    def title(self) -> str:
        return self.bound.title

    @property
    def sizes(self) -> tuple[str, ...]:
        """The sizes that are made, by title; none when the measures stand as written."""
        return tuple(row.title for row in self.bound.sizes)

    @property
    def pieces(self) -> tuple[str, ...]:
        return tuple(self.bound.pieces)

    def check(self, tolerance: float = 0.0) -> Messages:
        """Every fault of the text and of every size, each once, and what the rules of the workshop find.

        With a `tolerance` the rules must hold at the worst for edges cut by hand so many mm off. ValueError tells one
        that is no length of 0 or more.
        """
        if not 0 <= tolerance < inf:
            raise ValueError(f"a cut {tolerance} mm off is no measure of care")
        found = Messages()
        found.extend(self.messages)
        draft = self.sound_draft
        runs, placed = [], []
        for row in draft.all_sizes():
            sized = draft.size(row.title if row else None, row.settings if row else {})
            runs.append((row.title if row else None, sized.messages))
            if sized.placed is not None:
                placed.append((row.title if row else None, sized.placed))
        found.extend(merge_sizes(runs))
        if placed:
            found.extend(judge(draft.pattern, placed, tolerance).messages)
        return found

    @cached_property
    def sound_draft(self) -> Draft:
        """The pattern less what is at fault in its text, so that all else can be judged and drawn."""
        if not self.messages.has_errors:
            return self.draft
        return Draft(sound_part(self.bound, self.binding, self.messages), self.stem, Workshop())

    def place(self, /, size: str | None = None, **measures: Setting) -> PlacedPattern:
        """The pattern in numbers. Without `size` it is the first one written; `measures` set pattern measures.

        Raises UnknownName for a size or measure that is not there, Faults when something cannot be placed.
        """
        return self.place_with(size, measures)

    def place_with(self, size: str | None, measures: Mapping[str, Setting]) -> PlacedPattern:
        """The same, with the measures in a mapping: one may be called `size`."""
        if self.messages.has_errors:
            raise Faults(self.messages)
        asked = (size, tuple(measures.items()))
        if asked not in self._placed:
            title, settings = self._settings(size, measures)
            placed = PlacedPattern(self, title, settings, given=dict(measures))
            if placed.messages.has_errors:
                raise Faults(placed.messages)
            self._placed[asked] = placed
            if len(self._placed) > MOST_PLACED:
                del self._placed[next(iter(self._placed))]
        return self._placed[asked]

    def place_draft(self, size: str | None, measures: Mapping[str, Setting]) -> PlacedPattern:
        """What can be placed of it, whatever is wrong: its sheets say that they are a draft.

        Raises UnknownName for a size or measure that is not there, Faults when no piece can be placed.
        """
        title, settings = self._settings(size, measures)
        placed = PlacedPattern(self, title, settings, is_draft=True, given=measures)
        if not placed.pieces:
            raise Faults(placed.messages)
        return placed

    def _settings(
        self, size: str | None, measures: Mapping[str, Setting]
    ) -> tuple[str | None, dict[str, tuple[Bound, ...]]]:
        rows = {row.title: row for row in self.bound.sizes}
        if size is not None and size not in rows:
            raise UnknownName("size", size, rows)
        row = rows.get(size) if size is not None else next(iter(rows.values()), None)
        settings = dict(row.settings) if row else {}
        for name, value in measures.items():
            if name not in self.bound.measures:
                raise UnknownName("measure", name, self.bound.measures)
            settings[name] = self._setting(name, value)
        return row.title if row else None, settings

    def _setting(self, name: str, value: Setting) -> tuple[Bound, ...]:
        """A value from outside: text in the language, or a number in mm (degrees, or plain, by the measure's kind)."""
        if not isinstance(value, str):
            return (Constant(Fraction(value)),)
        bounds, messages = bind_setting(self.binding, self.bound.measures[name], value)
        if bounds is None:
            raise Faults(messages)
        return bounds

    @property
    def measures(self) -> tuple[str, ...]:
        """The measures that a size or a call may set, by name."""
        return tuple(self.bound.measures)

    def setting_messages(self, name: str, text: str, may_sweep: bool = False) -> Messages:
        """What is wrong with a value for a measure that is there; with `may_sweep` it may be a sweep of values."""
        bind = bind_sweep if may_sweep and is_sweep(text) else bind_setting
        return bind(self.binding, self.bound.measures[name], text)[1]

    def sweep(self, name: str, text: str) -> Sweep:
        """A measure swept, such as `rim` by `7mm..14mm/0.5mm`. Raises UnknownName, and Faults for what is none."""
        if name not in self.bound.measures:
            raise UnknownName("measure", name, self.bound.measures)
        sweep, messages = bind_sweep(self.binding, self.bound.measures[name], text)
        if sweep is None:
            raise Faults(messages)
        return sweep

    def record(
        self,
        what: str,
        size: str | None,
        measures: Mapping[str, Setting],
        is_draft: bool,
        asked: Mapping[str, object],
    ) -> Record:
        """What a file says of what it was made from; see `drafting/drawing/record.py`."""
        from drafting.drawing.record import Record

        given = {name: value if isinstance(value, str) else float(value) for name, value in measures.items()}
        pattern = Path(self.source.name).name
        return Record(what, pattern, self.fingerprint, VERSION, size, given, is_draft, asked)

    def size_table(self, size: str | None = None, /, **measures: Setting) -> Sizes:
        """Every size, or one, worked out with all its rules; a measure may be swept: `rim="7mm..14mm/0.5mm"`.

        `quick_sizes` does thousands at once, without seams and rules.

        Raises UnknownName for a size or measure that is not there, Faults for a fault of the text.
        """
        return self.size_table_with(size, measures)

    def size_table_with(self, size: str | None, measures: Mapping[str, Setting]) -> Sizes:
        """The same, with the measures in a mapping."""
        from drafting.craft.lists.in_processes import rows_of

        rows = tuple(rows_of(self.draft, self.asked_sizes(size, measures)))
        return Sizes(self, rows, size, measures)

    def quick_sizes(self, size: str | None = None, /, **measures: Setting) -> Sizes:
        """The same without seams and rules of the workshop, thousands of sizes at once."""
        return self.quick_sizes_with(size, measures)

    def quick_sizes_with(self, size: str | None, measures: Mapping[str, Setting]) -> Sizes:
        """The same, with the measures in a mapping."""
        from drafting.craft.lists.quick_sizes import quick_rows

        rows = tuple(quick_rows(self.draft, self.asked_sizes(size, measures)))
        return Sizes(self, rows, size, measures, is_quick=True)

    def asked_sizes(self, size: str | None, measures: Mapping[str, Setting]) -> list[Asked]:
        """Each size with each value of what is swept, ready to be worked out."""
        if self.messages.has_errors:
            raise Faults(self.messages)
        words = {
            name: value for name, value in measures.items() if isinstance(value, str) and is_sweep(value)
        }
        sweeps = [self.sweep(name, value) for name, value in words.items()]
        _, fixed = self._settings(
            None, {name: value for name, value in measures.items() if name not in words}
        )
        rows = [row for row in self.draft.all_sizes() if size is None or (row and row.title == size)]
        if not rows and size is not None:
            raise UnknownName("size", size, self.sizes)
        from drafting.craft.lists.sizing import asked_of

        return list(asked_of(rows, sweeps, {name: fixed[name] for name in measures if name not in words}))

    def roster(
        self,
        people: str | Path | Table,
        wishes: Wishes | None = None,
        encoding: str | None = None,
        separator: str | None = None,
    ) -> RosterOfPeople:
        """One set for each row of a table: a CSV file, or a Table. Faults tells what is wrong with it, row by row."""
        from drafting.drawing.roster import Wishes as AsWritten
        from drafting.text.table import Table, read_table

        table, messages = (
            (people, Messages()) if isinstance(people, Table) else read_table(people, encoding, separator)
        )
        if table is None:
            raise Faults(messages)
        roster, found = self.roster_with(table, wishes or AsWritten(), {})
        messages.extend(found)
        if roster is None or messages.has_errors:
            raise Faults(messages)
        return RosterOfPeople(roster, messages)

    def roster_wishes_messages(self, table: Table, wishes: Wishes) -> Messages:
        """What a roster would ask for by names that neither the pattern nor the table has."""
        from drafting.drawing.roster import wrong_wishes

        return wrong_wishes(self.bound, table, wishes)

    def roster_with(
        self,
        table: Table,
        wishes: Wishes,
        measures: Mapping[str, Setting],
        told: Callable[[str], None] = lambda who: None,
    ) -> tuple[Roster | None, Messages]:
        """The same for one that wants to tell what was found, with `measures` set for everybody; `told` hears whose
        row is being fitted. UnknownName tells a size or measure that is not there."""
        from drafting.drawing.roster import roster_of
        from drafting.output.letters import letters_lacking

        def place(size: str | None, own: Mapping[str, str]) -> tuple[Placed | None, Messages]:
            try:
                placed = self.place_with(size, {**measures, **own})
            except Faults as faults:
                return None, faults.messages
            judged = placed.verdict.messages if own or measures else Messages()
            return (None if judged.has_errors else placed.placed), judged

        roster, found = roster_of(self.bound, place, table, wishes, letters_lacking, told)
        if roster is None:
            return None, found
        made_from = self.record("roster", wishes.size, measures, False, asked_of_roster(table, wishes))
        return replace(roster, made_from=made_from), found

    def influence(
        self, name: str, /, size: str | None = None, **measures: Setting
    ) -> dict[str, tuple[float, float]]:
        """How far a point moves, in mm right and up, for each mm (or degree) more of a measure."""
        placed = self.place(size, **measures)
        sized, point = placed.point(name)
        return sized.influence(point.key)

    def explain(self, name: str, /, size: str | None = None, **measures: Setting) -> str:
        """Which facts pin a point or a measure, where it lies and what it moves with, in the maker's words."""
        return self.explain_with(name, size, measures)

    def explain_with(self, name: str, size: str | None, measures: Mapping[str, Setting]) -> str:
        """The same, with the measures in a mapping. A point that may lie in several places is explained too."""
        if self.messages.has_errors:
            raise Faults(self.messages)
        title, settings = self._settings(size, measures)
        placed = PlacedPattern(self, title, settings)
        undecided = placed.undecided(name) if placed.messages.has_errors else None
        if placed.messages.has_errors and undecided is None:
            raise Faults(placed.messages)
        return undecided or placed.explain(name)


@dataclass(frozen=True)
class Sheet:
    """A drawing that can be written: it shows itself in a notebook."""

    drawing: Drawing

    def to_svg(self) -> str:
        from drafting.output.svg import to_svg

        return to_svg(self.drawing)

    def to_png(self) -> bytes:
        from drafting.output.png import to_png

        return to_png(self.to_svg())

    def _repr_svg_(self) -> str:
        return self.to_svg()


@dataclass(frozen=True)
class Prints:
    """True-size sheets for a printer that makes 1 mm into `correction` mm."""

    sheets: tuple[PrintSheet, ...]
    correction: float
    times: Mapping[str, int]
    """How often each piece is there."""

    def to_pdf(self) -> bytes:
        from drafting.output.pdf import to_pdf

        return to_pdf([sheet.drawing for sheet in self.sheets], self.correction)


@dataclass(frozen=True)
class Leaflet:
    """The booklet of an item, to be laid out on a paper or as a page."""

    booklet: Booklet
    paper: Paper

    def to_pdf(self) -> bytes:
        from drafting.output.booklet_pdf import booklet_to_pdf

        return booklet_to_pdf(self.booklet, self.paper.width, self.paper.height)

    def to_html(self) -> str:
        from drafting.output.booklet_html import booklet_to_html

        return booklet_to_html(self.booklet)

    def _repr_html_(self) -> str:
        return self.to_html()


@dataclass(frozen=True)
class CutSheet:
    """All that is cut from one stock, or a template, for a laser or a drawn blade."""

    sheet: MachineSheet
    template: Template | None = None
    """Which template it is, and what found no room on it."""

    @property
    def stock(self) -> str | None:
        return self.sheet.stock

    def to_svg(self) -> bytes:
        from drafting.output.layers_svg import layers_to_svg

        return layers_to_svg(self.sheet.drawing, self.sheet.layers)

    def to_dxf(self, release: Release = "R2010") -> bytes:
        """In the release `R2010`, or `R12` for old machines."""
        from drafting.output.dxf import to_dxf

        return to_dxf(self.sheet.drawing, self.sheet.layers, release)

    def to_pdf(self) -> bytes:
        """One page just as large as the sheet."""
        from drafting.output.pdf import to_pdf

        return to_pdf([self.sheet.drawing])

    def _repr_svg_(self) -> str:
        return self.to_svg().decode()


@dataclass(frozen=True)
class RosterOfPeople:
    """One set for each row of a table of people; `messages` are the warnings."""

    roster: Roster
    messages: Messages

    @property
    def people(self) -> tuple[Person, ...]:
        return self.roster.people

    def engraving(self, person: Person) -> CutSheet:
        """The layers of one of `people`. ValueError tells one who has no words engraved."""
        from drafting.drawing.machine import MachineSheet
        from drafting.drawing.roster import blanks_of, engraving

        if not person.inscriptions:
            raise ValueError(f"{person.title} has no words engraved")
        wishes = self.roster.wishes
        record = self.roster.record("engraving", person.number)
        drawing = engraving(person, wishes, blanks_of(person, wishes), record)
        return CutSheet(MachineSheet(None, drawing, wishes.layers, (), 0.0))

    def cards_pdf(self) -> bytes:
        """The sheets of all cards. ValueError tells that there are none, or that a card is larger than the paper."""
        from drafting.drawing.roster import card_sheets
        from drafting.output.pdf import to_pdf

        sheets = card_sheets(self.roster)
        if not sheets:
            raise ValueError("the roster has no cards")
        return to_pdf([sheet.drawing for sheet in sheets])


@dataclass(repr=False)
class PlacedPattern:
    """A pattern in one size. `pieces` holds its pieces with their outlines and features."""

    pattern: Pattern
    size: str | None
    settings: Mapping[str, tuple[Bound, ...]]
    is_draft: bool = False
    """Whether it may lack pieces, and is not checked."""
    given: Mapping[str, Setting] = field(default_factory=dict)
    """The measures that were set from outside, as they were given."""

    def __repr__(self) -> str:
        size = f" in size {self.size!r}" if self.size else ""
        return f"<{self.pattern.title!r}{size}: {', '.join(self.pieces)}>"

    @cached_property
    def sized(self) -> Sized:
        draft = self.pattern.sound_draft if self.is_draft else self.pattern.draft
        return draft.size(self.size, self.settings)

    @property
    def messages(self) -> Messages:
        return self.sized.messages

    @cached_property
    def verdict(self) -> Verdict:
        """What the rules of the workshop say of this size."""
        return judge(self.pattern.bound, [(self.size, self.placed)])

    @property
    def placed(self) -> Placed:
        if self.is_draft:
            return self.sized.drawn
        if self.sized.placed is None:
            raise Faults(self.messages)
        return self.sized.placed

    @property
    def pieces(self) -> Mapping[str, PlacedPiece]:
        return self.placed.pieces

    @property
    def show(self) -> tuple[str, ...]:
        """The units that the pattern shows its lengths in."""
        return self.placed.show

    def drawing(self, piece: str | None = None) -> Sheet:
        """The sheet of one piece, or the overview of all."""
        from drafting.drawing import overview, piece_sheet

        record = self.record("drawing", piece=piece).line
        if piece is None:
            allowed = () if self.is_draft else self.verdict.allowed
            drawn = overview(self.placed, draft=self.is_draft, remarks=allowed)
            return Sheet(replace(drawn, record=record))
        if piece not in self.pieces:
            raise UnknownName("piece", piece, self.pieces)
        return Sheet(replace(piece_sheet(self.placed, piece, draft=self.is_draft), record=record))

    def record(self, what: str, **asked: object) -> Record:
        """What a file says of what it was made from."""
        return self.pattern.record(what, self.size, self.given, self.is_draft, asked)

    def prints(
        self,
        paper: str | Paper = "a4",
        pieces: Sequence[str] | None = None,
        correction: float = 1.0,
        copies: int | None = None,
    ) -> Prints:
        """The pieces at true size on sheets of a paper: `a4`, `a3`, `letter`, `legal` or a size such as `320x450`.

        Each piece is there once, or as often as so many `copies` of the item need it. `correction` is what a printer
        makes of 1 mm. PaperFault (a ValueError) tells a paper that nothing goes on, TooManyTiles (another) a piece that
        is too large for it.
        """
        from drafting.drawing.prints import PrintFacts, paper_called, print_sheets, times_needed

        for piece in pieces or ():
            if piece not in self.pieces:
                raise UnknownName("piece", piece, self.pieces)
        if copies is not None and copies < 1:
            raise ValueError(f"{copies} copies are none to print")
        chosen = paper_called(paper) if isinstance(paper, str) else paper
        facts = PrintFacts(self.pattern.fingerprint, correction, self.is_draft)
        names = list(dict.fromkeys(pieces or self.pieces))
        times = dict.fromkeys(names, 1) if copies is None else times_needed(self.placed, names, copies)
        sheets = print_sheets(self.placed, chosen, names, facts, times)
        asked = {"paper": chosen.called, "pieces": names, "correction": correction, "copies": copies}
        record = self.record("print", **asked).line
        return Prints(_recorded(sheets, record), correction, times)

    def booklet(self, paper: str | Paper = "a4") -> Leaflet:
        """All that is to be read beside the sheets: pieces, measures, lists, steps, sewing, checks and cautions.

        PaperFault (a ValueError) tells a paper that nothing goes on.
        """
        from drafting.drawing.booklet import BookletFacts, make_booklet
        from drafting.drawing.prints import paper_called
        from drafting.output.booklet_pdf import room_on

        chosen = paper_called(paper) if isinstance(paper, str) else paper
        allowed = () if self.is_draft else self.verdict.allowed
        room = room_on(chosen.width, chosen.height)
        facts = BookletFacts(self.pattern.fingerprint, allowed, *room, self.is_draft)
        made = make_booklet(self.placed, self.pattern.bound, facts)
        return Leaflet(replace(made, record=self.record("booklet", paper=chosen.called).line), chosen)

    def cutting(
        self,
        pieces: Sequence[str] | None = None,
        *,
        cutter: str = "laser",
        kerf: float = 0.0,
        layers: Mapping[str, Layer] | None = None,
        labels: bool = False,
    ) -> tuple[CutSheet, ...]:
        """A sheet of machine lines for each stock. `kerf` is what the cutter takes away, in mm; stamps are engraved,
        and labels where they are asked for.

        The cutter is a `laser` or a `blade`. UnfitForLaser (a ValueError) tells a stock that a laser must not cut,
        KerfFault a kerf that is too wide.
        """
        from drafting.craft.lasering import UnfitForLaser, unfit_for_laser
        from drafting.drawing.machine import CUTTERS, LAYERS, cut_sheets, stocks_of

        names = self._pieces_named(pieces)
        if cutter not in CUTTERS:
            raise UnknownName("cutter", cutter, CUTTERS)
        unfit = unfit_for_laser(stocks_of(self.placed, names)) if cutter == "laser" else []
        if unfit:
            raise UnfitForLaser(unfit[0])
        words = ("stamp", "label") if labels else ("stamp",)
        sheets = cut_sheets(self.placed, names, layers or LAYERS, kerf, words)
        asked = {"pieces": names, "cutter": cutter, "kerf": kerf, "layers": _named(layers), "labels": labels}
        return tuple(CutSheet(self._recorded(one, "cut", stock=one.stock, **asked)) for one in sheets)

    def _recorded(self, sheet: MachineSheet, what: str, **asked: object) -> MachineSheet:
        return replace(sheet, drawing=replace(sheet.drawing, record=self.record(what, **asked).line))

    def templates(
        self,
        pieces: Sequence[str] | None = None,
        *,
        pin: float = 1.0,
        awl_slots: Sequence[str] = (),
        mirrored: bool = False,
        kerf: float = 0.0,
        layers: Mapping[str, Layer] | None = None,
    ) -> tuple[CutSheet, ...]:
        """A template for each piece, to trace round: pin holes `pin` mm wide at every point to be marked through, slots
        along the features that `awl_slots` names. A pair has a second one, turned over, where `mirrored` is asked for.

        KerfFault tells a kerf wider than the pin holes or an opening.
        """
        from drafting.drawing.machine import LAYERS, Wanted, templates_of
        from drafting.drawing.machine.templates import is_named, ways_of

        names = self._pieces_named(pieces)
        chosen = [self.pieces[name] for name in names]
        lines = [(piece, one) for piece in chosen for one in piece.features if ways_of(one)]
        for name in awl_slots:
            if not any(is_named(piece, one, [name]) for piece, one in lines):
                raise UnknownName("line for an awl slot", name, dict.fromkeys(one.name for _, one in lines))
        wanted = Wanted(pin, tuple(awl_slots), mirrored, kerf, layers or LAYERS)
        asked = {
            "pin": pin,
            "awl_slots": list(awl_slots),
            "mirrored": mirrored,
            "kerf": kerf,
            "layers": _named(layers),
        }
        return tuple(
            CutSheet(
                self._recorded(one.sheet, "template", piece=one.piece, turned=one.is_turned, **asked), one
            )
            for one in templates_of(self.placed, names, wanted)
        )

    def _pieces_named(self, pieces: Sequence[str] | None) -> list[str]:
        """These, each once, or all."""
        for piece in pieces or ():
            if piece not in self.pieces:
                raise UnknownName("piece", piece, self.pieces)
        return list(dict.fromkeys(pieces or self.pieces))

    def _repr_svg_(self) -> str:
        return self.drawing().to_svg()

    def measure(self, text: str) -> Measured:
        """What an expression of the language comes to, such as `front.rim.length` or `back.heel..back.brow`."""
        source = Source("expression", text)
        node, messages = parse_expression(source)
        binding = self.pattern.binding
        kept = binding.messages
        binding.messages = messages
        typed = bind(binding, node, None) if node is not None else None
        binding.messages = kept
        if typed is None:
            raise Faults(messages)
        sized = self._with_readings(typed.bound)
        try:
            value = Reader(sized.solution.values).number(typed.bound)
        except (ZeroDivisionError, ValueError) as fault:
            messages.add(
                NOT_COMPUTED,
                at=node.span if node else None,
                name=text,
                why=why_not(fault),
                mend=how_else(fault),
            )
            raise Faults(messages) from None
        except KeyError:
            raise Faults(sized.messages) from None
        kind = LENGTH if typed.is_zero else typed.kind
        return Measured(value, kind.unit)

    def _with_readings(self, bound: Bound) -> Sized:
        """The same size, with all that an expression reads worked out too."""
        if all(key in self.sized.solution.values for key in keys_of(bound)):
            return self.sized
        return self.pattern.draft.size(self.size, self.settings, (bound,))

    def explain(self, name: str) -> str:
        """Which facts pin a point or a measure, where it lies and what it moves with, in the maker's words."""
        bound = self.pattern.bound
        head, _, rest = name.partition(".")
        if not rest and head in bound.measures:
            return explain_measure(self.sized, bound.measures[head])
        piece = bound.pieces.get(head)
        for part in piece.measures if piece else ():
            if part.name == rest:
                return explain_measure(self.sized, part)
        if piece and any(find.name == rest for find in piece.finds):
            return explain_found(self.sized, piece, rest)
        stitches = stitch_line(self.placed, name)
        if stitches:
            return explain_stitches(bound, self.placed, *stitches)
        sized, point = self.point(name)
        return explain_point(sized, point, name)

    def undecided(self, name: str) -> str | None:
        """Of a point whose facts leave several places: which, and why; None for anything else."""
        try:
            sized, point = self._point(name)
        except UnknownName:
            return None
        return explain_undecided(sized, point, name)

    def point(self, name: str) -> tuple[Sized, PointRef]:
        """A point by its name with its piece, such as `front.heel`, and this size with the point worked out.

        UnknownName lists the points there are; Faults says why it has no place.
        """
        sized, point = self._point(name)
        if point.key not in sized.solution.values:
            raise Faults(sized.messages)
        return sized, point

    def _point(self, name: str) -> tuple[Sized, PointRef]:
        """The same, whether it could be placed or not."""
        binding = self.pattern.binding
        kept, binding.messages = binding.messages, Messages()
        source = Source("name", name)
        point = expect_point(binding, tree.Ref(source.span(0, len(name)), tuple(name.split("."))), None)
        binding.messages = kept
        if point is None:
            pieces = self.pattern.bound.pieces.items()
            known = [f"{piece}.{part.ref.name}" for piece, each in pieces for part in each.points]
            raise UnknownName("point", name, known)
        return self._with_readings(Value(f"{point.key}.x")), point


@dataclass(frozen=True)
class Listed:
    """What a batch takes: `order` has the numbers, the rest writes them."""

    order: Order
    made_from: str = ""
    """The line by which a file is known again as one of this tool."""

    @property
    def messages(self) -> Messages:
        """What was reckoned without a thickness, and what has no price."""
        return self.order.messages()

    def record(self) -> dict[str, Any]:
        """All of it as plain numbers: mm, mm² and, as text, money."""
        from drafting.drawing.lists import order_record

        return order_record(self.order)

    def to_text(self) -> str:
        from drafting.drawing.lists import order_tables
        from drafting.output.tables import to_text

        return to_text(order_tables(self.order))

    def to_markdown(self) -> str:
        from drafting.drawing.lists import order_tables
        from drafting.output.tables import to_markdown

        return to_markdown(order_tables(self.order))

    def to_csv(self) -> str:
        from drafting.drawing.lists import ROW, order_rows
        from drafting.output.tables import to_csv

        return to_csv(ROW, order_rows(self.order))

    def to_json(self) -> str:
        from drafting.output.tables import to_json

        return to_json(self.record())

    def _repr_markdown_(self) -> str:
        return self.to_markdown()


@dataclass(frozen=True)
class Sizes:
    """All sizes of a pattern side by side: `rows` has the numbers, the rest writes them."""

    pattern: Pattern
    rows: tuple[SizedRow, ...]
    size: str | None = None
    """The one that was asked for; None for all."""
    given: Mapping[str, Setting] = field(default_factory=dict)
    """The measures that were set or swept, as they were given."""
    is_quick: bool = False

    def made_from(self, piece: str | None = None) -> str:
        """The line by which a file is known again and held against its pattern; `piece` is the one that is drawn."""
        asked = {"quick": self.is_quick, "piece": piece}
        return self.pattern.record("sizes", self.size, self.given, False, asked).line

    def record(self) -> list[dict[str, Any]]:
        """A record for each size: mm, mm², and what is said of it."""
        from drafting.drawing.lists import size_record

        return size_record(self.rows)

    def to_text(self) -> str:
        from drafting.drawing.lists import size_table
        from drafting.output.tables import to_text

        return to_text([size_table(self.pattern.bound, self.rows)])

    def to_markdown(self) -> str:
        from drafting.drawing.lists import size_table
        from drafting.output.tables import to_markdown

        return to_markdown([size_table(self.pattern.bound, self.rows)])

    def to_csv(self) -> str:
        from drafting.drawing.lists import size_columns, size_records
        from drafting.output.tables import to_csv

        return to_csv(size_columns(self.rows), size_records(self.rows))

    def to_json(self) -> str:
        from drafting.output.tables import to_json

        return to_json(self.record())

    def drawing(self, piece: str | None = None) -> Sheet:
        """All sizes over each other: of every piece on one sheet, or of one at true size. Those that have faults are
        left out; Faults tells that none is left, ValueError that there are too many."""
        from drafting.drawing import MOST_DRAWN, nested

        sound = [row.asked for row in self.rows if row.is_sound]
        if len(sound) > MOST_DRAWN:
            raise ValueError(f"{len(sound)} sizes over each other cannot be told apart")
        if piece is not None and piece not in self.pattern.pieces:
            raise UnknownName("piece", piece, self.pattern.pieces)
        sized = [(asked.name, self.pattern.draft.size(asked.title, asked.settings).placed) for asked in sound]
        placed = [(name, one) for name, one in sized if one is not None]
        if not placed:
            first = self.rows[0].asked
            raise Faults(self.pattern.draft.size(first.title, first.settings).messages)
        return Sheet(replace(nested(placed, piece), record=self.made_from(piece)))

    def _repr_markdown_(self) -> str:
        return self.to_markdown()


@dataclass(frozen=True)
class LaidOut:
    """Where the parts of an order lie: `lay` has the numbers, the rest writes them."""

    lay: Lay
    title: str
    asked: AskedLay | None = None
    """What it was asked for, and from which patterns."""
    messages: Messages = field(default_factory=Messages)

    def violations(self) -> list[Violation]:
        """What an independent judge finds wrong with the lay; nothing."""
        from drafting.lay import verify

        return verify(self.lay)

    def drawings(self) -> list[Sheet]:
        """Each sheet of stock, reduced to a handy paper."""
        from drafting.drawing.lay_sheets import lay_drawing

        drawn = (lay_drawing(self.lay, number, self.title) for number in range(len(self.lay.sheets)))
        return [
            Sheet(replace(sheet, record=self.made_from(sheet=n))) for n, sheet in enumerate(drawn, start=1)
        ]

    def cuts(self) -> list[Drawing]:
        """The outlines on each sheet of stock at true size, for a machine."""
        from drafting.drawing.lay_sheets import lay_cut

        cut = (lay_cut(self.lay, number, self.title) for number in range(len(self.lay.sheets)))
        return [replace(sheet, record=self.made_from(sheet=n)) for n, sheet in enumerate(cut, start=1)]

    @cached_property
    def fingerprint(self) -> str:
        """Of its lay.json: of the pieces, places, stock, seed, versions and patterns."""
        return fingerprint([self.to_json()])

    def made_from(self, **asked: object) -> str:
        """The line by which a file of it is known again: drawn from lay.json, whose fingerprint it carries."""
        from drafting.drawing.record import Record

        return Record("lay", "lay.json", self.fingerprint, VERSION, asked=asked).line

    @cached_property
    def placed(self) -> Placed:
        """The sheets as pieces, the parts cut out of them."""
        from drafting.drawing.lay_sheets import lay_as_placed

        return lay_as_placed(self.lay, self.title)

    def prints(self, paper: str | Paper = "a4") -> Prints:
        """The sheets at true size, tiled over a paper."""
        from drafting.drawing.prints import PrintFacts, paper_called, print_sheets

        chosen = paper_called(paper) if isinstance(paper, str) else paper
        names = list(self.placed.pieces)
        times = dict.fromkeys(names, 1)
        sheets = print_sheets(self.placed, chosen, names, PrintFacts(self.fingerprint), times)
        return Prints(_recorded(sheets, self.made_from(paper=chosen.called)), 1.0, times)

    def to_json(self) -> str:
        """The lay as a text that `read_lay` reads back and that draws to the same bytes."""
        from drafting.output.lays import lay_to_json

        return lay_to_json(self.lay, self.title, self.asked)

    def to_text(self) -> str:
        """What it comes to: the sheets, the yield, what found no room, and how the same lay is found again."""
        from drafting.drawing.lay_words import lay_words

        return lay_words(self.lay)

    def leftovers(self) -> dict[str, str]:
        """What is left of the sheets as texts of hides, by names such as `leftover-1-2`."""
        from drafting.output.lays import leftover_texts

        texts = leftover_texts(self.lay, self.title)
        return {name: f"# {self.made_from(leftover=name)}\n\n{text}" for name, text in texts.items()}


def lay_order(
    order: Iterable[tuple[PlacedPattern, int]],
    *,
    panel: PanelSize | None = None,
    panels: Sequence[PanelSize] = (),
    roll: float | None = None,
    hides: Sequence[PlacedPattern] = (),
    stocks: Sequence[str] | None = None,
    gap: float = 2.0,
    margin: float = 5.0,
    freedom: Freedom | None = None,
    freedoms: Mapping[str, Freedom | None] | None = None,
    firm: Sequence[str] = (),
    poor: Sequence[str] = (),
    limits: Limits | None = None,
    tell: Callable[[Progress], None] = lambda best: None,
) -> LaidOut:
    """Lay so many copies of placed patterns on panels (wide, high, how many or None), a roll so wide, or hides; mm.

    Of several `panels` the first are cut first, so only of the last may there be as many as are needed (None).
    `freedom` says how parts with a grain may lie, `freedoms` of single pieces (None: as they like). `stocks` are those
    whose parts are laid, `firm` and `poor` pieces that must come from firm zones and may come from
    poor ones. `limits` says how long to search; by steps alone the same lay comes every time. Raises Faults for a piece
    that goes on no sheet and for a hide that nothing can be cut from, ValueError for an order without parts.
    """
    from drafting.lay import Freedom, Limits, lay_out
    from drafting.lay.ordering import Wish, order_sheets

    order = list(order)
    batch = [(placed.placed, placed.pattern.bound, whole_copies(copies)) for placed, copies in order]
    skins = [(placed.placed, placed.pattern.bound) for placed in hides]
    sizes = (*panels, *([panel] if panel else ()))
    wish = Wish(sizes, roll, gap, margin, None if stocks is None else tuple(stocks), freedom or Freedom(),
                tuple(firm), tuple(poor), freedoms or {})  # fmt: skip
    ordered = order_sheets(batch, skins, wish)
    if ordered.messages.has_errors:
        raise Faults(ordered.messages)
    lay = lay_out(ordered.kinds, ordered.sheets, gap=gap, limits=limits or Limits(), tell=tell)
    title = ", ".join(dict.fromkeys(placed.title for placed, _, _ in batch))
    return LaidOut(lay, title, _asked_of(order, hides, wish), ordered.messages)


def _asked_of(
    order: Sequence[tuple[PlacedPattern, int]], hides: Sequence[PlacedPattern], wish: Wish
) -> AskedLay:
    from drafting.output.lays import Asked

    patterns = tuple(placed.record("lay", copies=whole_copies(copies)) for placed, copies in order)
    return Asked(patterns, tuple(hide.record("lay") for hide in hides), wish)


def read_lay(text: str) -> LaidOut:
    """A lay kept as text. Raises drafting.output.lays.NoLay, a ValueError."""
    from drafting.output.lays import lay_from_json

    return LaidOut(*lay_from_json(text))


def read_prices(path: str | Path) -> PriceList:
    """A price list, TOML or CSV, for `list_order`. Raises Faults, and UnreadableSource for a file that is not there."""
    from drafting.text.prices import read_prices

    prices, messages = read_prices(path)
    if prices is None:
        raise Faults(messages)
    return prices


def whole_copies(copies: object) -> int:
    """How many copies of a pattern a batch has; ValueError tells what is no whole number from 1 on."""
    if not isinstance(copies, Integral) or isinstance(copies, bool) or copies < 1:
        raise ValueError(f"{copies!r} is no number of copies: that is a whole number from 1 on")
    return int(copies)


def list_order(
    order: Iterable[tuple[PlacedPattern, int]],
    *,
    fraction: float | Fraction = 1,
    prices: PriceList | None = None,
    tail: float | None = None,
) -> Listed:
    """What so many copies of placed patterns take together, and cost by a price list.

    `fraction` is the yield, the part of a hide that becomes parts; `tail` the mm of thread that each needle keeps.
    ValueError tells copies that are no whole number from 1 on, a yield that is not above 0 and up to 1, and a tail
    below 0.
    """
    from drafting.craft.lists.order import Entry, Order
    from drafting.craft.lists.sewing import NEEDLE_TAIL

    batch = [(placed, whole_copies(copies)) for placed, copies in order]
    if not 0 < fraction <= 1:
        raise ValueError(f"a yield of {fraction} is no part of a hide")
    tail = NEEDLE_TAIL if tail is None else tail
    if not 0 <= tail < inf:
        raise ValueError(f"a needle cannot keep {tail} mm of thread")
    entries = (Entry(placed.placed, placed.pattern.bound, copies, tail) for placed, copies in batch)
    numbers = Order(tuple(entries), prices, Fraction(fraction).limit_denominator(10**6))
    return Listed(numbers, _record_of_order("list", batch).line)


def _recorded(sheets: Iterable[PrintSheet], record: str) -> tuple[PrintSheet, ...]:
    return tuple(replace(sheet, drawing=replace(sheet.drawing, record=record)) for sheet in sheets)


def asked_of_roster(table: Table, wishes: Wishes) -> dict[str, Any]:
    """What a file of a roster says besides its pattern: its table, by name and fingerprint, and all wishes."""
    people = {"people": Path(table.source.name).name, "table": fingerprint([table.source.text])}
    return {**people, "encoding": table.encoding, "separator": table.separator, **wishes.words()}


def _record_of_order(what: str, batch: Sequence[tuple[PlacedPattern, int]]) -> Record:
    """What a file of several patterns was made from: their names, and the fingerprint of all their texts."""
    from drafting.drawing.record import Record

    names = [Path(placed.pattern.source.name).name for placed, _ in batch]
    text = fingerprint(source.text for placed, _ in batch for source in placed.pattern.sources)
    sizes = [placed.size for placed, _ in batch]
    asked = {"copies": [copies for _, copies in batch], "sizes": sizes}
    return Record(what, ", ".join(names), text, VERSION, asked=asked)


def fingerprint(texts: Iterable[str]) -> str:
    """Eight letters and figures that tell some texts from others: the start of the SHA-256 of them all."""
    return sha256("\0".join(texts).encode()).hexdigest()[:8]


def _named(layers: Mapping[str, Layer] | None) -> dict[str, dict[str, str]]:
    """Layers as a file would set them."""
    return {key: {"name": one.name, "color": one.color} for key, one in (layers or {}).items()}
