"""Holding the files of a lay: lay.json by its judge, and against the patterns and hides it was made from as those are
now; the drawings, prints, machine files and leftovers of its sheets against lay.json.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

from drafting.drawing.record import Record
from drafting.face import LaidOut, Pattern, UnknownName
from drafting.lay.ordering import order_sheets
from drafting.model.pattern import Pattern as BoundPattern
from drafting.output.lays import Asked
from drafting.proof.disagreement import Disagreement
from drafting.proof.lays import check_lay_svg, compare_lay
from drafting.proof.made import kind_of
from drafting.proving import Proved, differences_told
from drafting.solve.placed import Placed
from drafting.version import VERSION

LAY = "lay.json"


def prove_lay(laid: LaidOut, find: Callable[[str], Pattern]) -> Proved:
    """Hold a lay against its patterns and hides, each found by its name. Raises Faults where one has any."""
    found = [
        Disagreement("the lay", "what its judge finds", "nothing", str(one)) for one in laid.violations()
    ]
    records = laid.asked.records if laid.asked else ()
    patterns = {name: find(name) for name in dict.fromkeys(record.pattern for record in records)}
    if laid.asked is not None:
        asked = laid.asked
        found += differences_told(lambda: list(_against_patterns(laid, asked, patterns)))
    texts = dict.fromkeys((one.pattern, one.text, patterns[one.pattern].fingerprint) for one in records)
    names = ", ".join(patterns) or LAY
    record = Record("lay", names, laid.fingerprint, VERSION)
    return Proved(record, "json", names, laid.fingerprint, tuple(found), tuple(texts))


def _against_patterns(laid: LaidOut, asked: Asked, patterns: Mapping[str, Pattern]) -> Iterator[Disagreement]:
    def placed(record: Record) -> tuple[Placed, BoundPattern]:
        pattern = patterns[record.pattern]
        return pattern.place_with(record.size, record.measures).placed, pattern.bound

    batch = [(*placed(record), record.asked["copies"]) for record in asked.patterns]
    now = order_sheets(batch, [placed(record) for record in asked.hides], asked.wish)
    yield from compare_lay(laid.lay, now)


def prove_of_lay(data: bytes, record: Record, laid: LaidOut, name: str) -> Proved:
    """Hold a file of one sheet, or of all, against the lay it was drawn from, whose file is called `name`."""
    kind = kind_of(data) or ""
    found = differences_told(lambda: CHECKS[kind](data, laid, record))
    return Proved(record, kind, name, laid.fingerprint, tuple(found))


def _drawing(data: bytes, laid: LaidOut, record: Record) -> Sequence[Disagreement]:
    number = _sheet_of(record, laid)
    return check_lay_svg(data.decode("utf-8", errors="replace"), laid.lay, number)


def _machine_file(data: bytes, laid: LaidOut, record: Record) -> Sequence[Disagreement]:
    from drafting.proof.machine import faults_in_dxf

    return faults_in_dxf(data, laid.cuts()[_sheet_of(record, laid) - 1])


def _sheet_of(record: Record, laid: LaidOut) -> int:
    """Raises UnknownName where the lay has fewer sheets now."""
    number, sheets = record.asked["sheet"], [str(n) for n in range(1, len(laid.lay.sheets) + 1)]
    if str(number) not in sheets:
        raise UnknownName("sheet", str(number), sheets)
    return int(number)


def _prints(data: bytes, laid: LaidOut, record: Record) -> Sequence[Disagreement]:
    from drafting.proof.pdf import check_pdf

    return check_pdf(data, laid.placed, laid.prints(record.asked["paper"]).sheets)


def _leftover(data: bytes, laid: LaidOut, record: Record) -> Sequence[Disagreement]:
    """Line by line, less the first one, which says what it was made from."""
    from drafting.proof.tables import check_table

    leftovers = laid.leftovers()
    wanted = leftovers.get(record.asked["leftover"])
    if wanted is None:
        raise UnknownName("leftover", str(record.asked["leftover"]), leftovers)
    return check_table(data.partition(b"\n")[2], "text", wanted.partition("\n")[2])


CHECKS: dict[str, Callable[[bytes, LaidOut, Record], Sequence[Disagreement]]] = {
    "svg": _drawing,
    "dxf": _machine_file,
    "pdf": _prints,
    "draft": _leftover,
}
