"""Layers of a sheet for a machine in a PDF: optional content, which viewers and drawing programs show by its name.

Each layer is a group of optional content (ISO 32000-1, 8.11, PDF 1.5), listed in the order of the sheet and shown.
ReportLab has no word of its own for them, so their objects are put together here from its parts.
"""

from __future__ import annotations

from codecs import BOM_UTF16_BE
from collections.abc import Iterator
from contextlib import contextmanager

from reportlab.pdfbase.pdfdoc import (
    PDFArray,
    PDFDictionary,
    PDFName,
    PDFObjectReference,
    PDFResourceDictionary,
    PDFString,
)
from reportlab.pdfgen.canvas import Canvas

LEAST_VERSION = (1, 5)
"""The first that knows optional content."""


class Layers:
    """The layers of one file, each by its name."""

    def __init__(self, canvas: Canvas) -> None:
        self.canvas = canvas
        self.known: dict[str, PDFObjectReference] = {}

    @contextmanager
    def layer(self, name: str) -> Iterator[None]:
        """What is drawn inside lies on this layer."""
        if name not in self.known:
            group = PDFDictionary({"Type": PDFName("OCG"), "Name": _words(name)})
            self.known[name] = self.canvas._doc.Reference(group)
        self.canvas.addLiteral(f"/OC /{self.short_name(name)} BDC")
        yield
        self.canvas.addLiteral("EMC")

    def short_name(self, name: str) -> str:
        """What the page calls it: names of layers may hold any letters."""
        return f"L{list(self.known).index(name)}"

    def settle(self) -> None:
        """Tell the last page, and the file, which layers there are. Call it when the page is shown."""
        if not self.known:
            return
        document = self.canvas._doc
        resources = PDFResourceDictionary()
        resources.basicFonts()
        resources.Properties = {self.short_name(name): group for name, group in self.known.items()}
        document.Pages.pages[-1].Resources = resources
        every = PDFArray(list(self.known.values()))
        shown = PDFDictionary({"Name": _words("Layers"), "Order": every, "ON": every})
        catalog = document.Catalog
        catalog.__NoDefault__ = [*type(catalog).__NoDefault__, "OCProperties"]
        catalog.OCProperties = PDFDictionary({"OCGs": every, "D": shown})


def _words(text: str) -> PDFString:
    """Plain letters as they are, all others as UTF-16 behind its mark (ISO 32000-1, 7.9.2.2)."""
    return (
        PDFString(text) if text.isascii() else PDFString(BOM_UTF16_BE + text.encode("utf-16-be"), enc="raw")
    )
