"""A table or a list as a file that says what it was made from, so far as its format has a place for that.

CSV has it in a last column of its first row and JSON under a key of its first record, where other programs pass over
it; Markdown has a comment and plain text a line, both at the end. What is only shown on a terminal does without.
"""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Callable

from drafting.drawing.record import MARK
from drafting.output.tables import to_json

COLUMN = "made_from"


def signed(text: str, form: str, record: str) -> str:
    """`form` is csv, json, md or table; any other text comes back as it is, for it carries the record itself."""
    return FORMS[form](text, record) if form in FORMS else text


def is_signed(data: bytes) -> bool:
    """Whether a file was made here: its record says so."""
    return MARK.encode() in data


def _csv(text: str, record: str) -> str:
    head, *rows = csv.reader(io.StringIO(text))
    page = io.StringIO()
    writer = csv.writer(page, lineterminator="\n")
    writer.writerow([*head, COLUMN])
    writer.writerows([*row, "" if number else record] for number, row in enumerate(rows))
    return page.getvalue()


def _json(text: str, record: str) -> str:
    held = json.loads(text)
    if isinstance(held, list):
        return to_json([{COLUMN: record, **held[0]}, *held[1:]])
    return to_json({COLUMN: record, **held})


def _markdown(text: str, record: str) -> str:
    return f"{text}\n<!-- {record} -->\n"


def _plain(text: str, record: str) -> str:
    return f"{text}\n{record}\n"


FORMS: dict[str, Callable[[str, str], str]] = {
    "csv": _csv,
    "json": _json,
    "md": _markdown,
    "table": _plain,
}
