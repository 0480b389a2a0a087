"""Reading the layers of a PDF back with PDFium: on which optional content each path of a page lies."""

from __future__ import annotations

import ctypes
from codecs import BOM_UTF16_BE
from collections.abc import Callable

import pypdfium2
import pypdfium2.raw as pdfium

OPTIONAL = "OC"
"""What content that may be shown or not is marked with (ISO 32000-1, 8.11.3.2)."""


def layers_of_paths(page: pypdfium2.PdfPage) -> list[str | None]:
    """The name of the layer of each path of a page, in their order; None for what lies on none."""
    handles = (
        pdfium.FPDFPage_GetObject(page, number) for number in range(pdfium.FPDFPage_CountObjects(page))
    )
    paths = [one for one in handles if pdfium.FPDFPageObj_GetType(one) == pdfium.FPDF_PAGEOBJ_PATH]
    return [_layer(path) for path in paths]


def _layer(path: object) -> str | None:
    marks = (
        pdfium.FPDFPageObj_GetMark(path, number) for number in range(pdfium.FPDFPageObj_CountMarks(path))
    )
    return next((_parameter(mark) for mark in marks if _name(mark) == OPTIONAL), None)


def _name(mark: object) -> str:
    told = _told(
        lambda buffer, size, needs: pdfium.FPDFPageObjMark_GetName(mark, buffer, size, needs), ctypes.c_ushort
    )
    return told.decode("utf-16-le").rstrip("\0")


def _parameter(mark: object) -> str:
    """The name of the layer as its bytes in the file: UTF-16 behind a mark, or plain letters (ISO 32000-1, 7.9.2.2)."""
    told = _told(
        lambda buffer, size, needs: pdfium.FPDFPageObjMark_GetParamBlobValue(
            mark, b"Name", buffer, size, needs
        ),
        ctypes.c_ubyte,
    )
    if told.startswith(BOM_UTF16_BE):
        return told.removeprefix(BOM_UTF16_BE).decode("utf-16-be", errors="replace")
    return told.decode("latin-1")


def _told(ask: Callable[..., object], kind: type[ctypes.c_ushort] | type[ctypes.c_ubyte]) -> bytes:
    """What PDFium tells: first how long it is, then itself."""
    size = ctypes.c_ulong()
    ask(None, 0, size)
    buffer = (kind * (size.value // ctypes.sizeof(kind)))()
    ask(buffer, size.value, size)
    return bytes(buffer)
