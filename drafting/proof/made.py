"""What a written file says it was made from, whatever its format."""

from __future__ import annotations

import json
import re
from html import unescape

import pypdfium2

from drafting.drawing.record import MARK, Record, record_of
from drafting.output.signed import COLUMN
from drafting.proof.csv_rows import csv_rows, saved_text

COMMENT = re.compile(f"<!-- ({re.escape(MARK)}.*?) -->")
LAST_LINE = re.compile(rf"\n((?:<!-- )?{re.escape(MARK)}.*)\n\Z")
FIRST_LINE = re.compile(rf"\A# ({re.escape(MARK)}.*)\n")
META = re.compile(r'<meta name="description" content="([^"]*)">')
NOTES = re.compile(r"^ *999\n(.*)$", re.MULTILINE)


def kind_of(data: bytes) -> str | None:
    """`pdf`, `dxf`, `svg` or `html`; of what says that it was made here also `csv`, `json`, `md`, `text` (a table for
    the eye) and `draft`; None for any other file."""
    head = data[:2000].lstrip().lower()
    if head.startswith(b"%pdf"):
        return "pdf"
    if b"<!doctype html" in head:
        return "html"
    if head.startswith((b"<?xml", b"<svg")) and b"<svg" in data:
        return "svg"
    if head.startswith((b"999", b"0\n", b"0\r\n")):
        return "dxf"
    text = _text(data)
    return _kind_of_text(text) if MARK in text else None


def _kind_of_text(text: str) -> str:
    if FIRST_LINE.match(text):
        return "draft"
    if found := LAST_LINE.search(text):
        return "md" if found[1].startswith("<!--") else "text"
    return "json" if text.lstrip()[:1] in ("{", "[") else "csv"


def _text(data: bytes) -> str:
    return saved_text(data).replace("\r\n", "\n")


def unsigned(text: str) -> str:
    """A text less the line at its end that says what it was made from."""
    return LAST_LINE.sub("\n", text)


def record_in(data: bytes) -> Record | None:
    """None where nothing is said, or the file cannot be read."""
    return record_of(_line_in(data) or "")


def _line_in(data: bytes) -> str | None:
    kind = kind_of(data)
    if kind == "pdf":
        return _keywords(data)
    text = _text(data)
    if kind == "dxf":
        notes = [found[1] for found in NOTES.finditer(text)]
        return "".join(notes[1:])
    if kind == "html":
        found = META.search(text)
        return unescape(found[1]) if found else None
    if kind in ("csv", "json"):
        return _cell_of_record(text, kind)
    found = (FIRST_LINE if kind == "draft" else LAST_LINE if kind == "text" else COMMENT).search(text)
    return found[1] if found else None


def _cell_of_record(text: str, kind: str) -> str | None:
    """In the first row, unless the rows have been sorted since."""
    try:
        held = json.loads(text) if kind == "json" else list(csv_rows(text).cells)
    except ValueError:
        return None
    rows = [row for row in (held if isinstance(held, list) else [held]) if isinstance(row, dict)]
    return next((str(row[COLUMN]) for row in rows if row.get(COLUMN)), None)


def _keywords(data: bytes) -> str | None:
    try:
        return str(pypdfium2.PdfDocument(data).get_metadata_value("Keywords"))
    except pypdfium2.PdfiumError:
        return None
