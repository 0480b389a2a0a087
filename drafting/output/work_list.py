"""The work list of a roster as CSV (RFC 4180): what is made for whom, and where it is found.

It begins with a byte-order mark, by which spreadsheets know that the text is UTF-8. The last column says in its first
row what the list was made from.
"""

from __future__ import annotations

import csv
from collections.abc import Mapping, Sequence
from io import StringIO

from drafting.drawing.roster import CardSheet, Roster
from drafting.output.numbers import number_text
from drafting.output.signed import COLUMN

MARK = "\ufeff"
HEADINGS = (
    "number",
    "line",
    "name",
    "size",
    "engraving",
    "words",
    "letters_mm",
    "card_sheet",
    "card_place",
    COLUMN,
)


def work_list(roster: Roster, files: Mapping[int, str], sheets: Sequence[CardSheet]) -> str:
    """A row for each person; `files` names the engraving of each by number. Cards are counted along their rows."""
    places = {
        laid.person.number: (str(sheet), str(place))
        for sheet, each in enumerate(sheets, start=1)
        for place, laid in enumerate(each.laid, start=1)
    }
    held = StringIO()
    writer = csv.writer(held, lineterminator="\r\n")
    writer.writerow(HEADINGS)
    record = roster.record("roster")
    for person in roster.people:
        words = "; ".join(f"{each.stamp.full_name}: {' / '.join(each.words)}" for each in person.inscriptions)
        heights = "; ".join(number_text(each.height, 2) for each in person.inscriptions)
        facts = (person.number, person.row.line, person.title, person.placed.size or "")
        card = places.get(person.number, ("", ""))
        writer.writerow([*facts, files.get(person.number, ""), words, heights, *card, record])
        record = ""
    return MARK + held.getvalue()
