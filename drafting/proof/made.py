"""What a written file says it was made from, whatever its format."""

from __future__ import annotations

import re
from html import unescape

import pypdfium2

from drafting.drawing.record import MARK, Record, record_of

COMMENT = re.compile(f"<!-- ({re.escape(MARK)}.*?) -->")
META = re.compile(r'<meta name="description" content="([^"]*)">')
NOTES = re.compile(r"^ *999\n(.*)$", re.MULTILINE)


def kind_of(data: bytes) -> str | None:
    """`pdf`, `dxf`, `svg` or `html`; None for any other file."""
    head = data[:2000].lstrip().lower()
    if head.startswith(b"%pdf"):
        return "pdf"
    if b"<!doctype html" in head:
        return "html"
    if head.startswith((b"<?xml", b"<svg")) and b"<svg" in data:
        return "svg"
    return "dxf" if head.startswith((b"999", b"0\n", b"0\r\n")) else None


def record_in(data: bytes) -> Record | None:
    """None where nothing is said, or the file cannot be read."""
    return record_of(_line_in(data) or "")


def _line_in(data: bytes) -> str | None:
    kind = kind_of(data)
    if kind == "pdf":
        return _keywords(data)
    text = data.decode("utf-8", errors="replace").replace("\r\n", "\n")
    if kind == "dxf":
        notes = [found[1] for found in NOTES.finditer(text)]
        return "".join(notes[1:])
    found = COMMENT.search(text) if kind == "svg" else META.search(text)
    return unescape(found[1]) if found and kind == "html" else found[1] if found else None


def _keywords(data: bytes) -> str | None:
    try:
        return str(pypdfium2.PdfDocument(data).get_metadata_value("Keywords"))
    except pypdfium2.PdfiumError:
        return None
