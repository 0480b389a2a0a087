"""Opening a DXF with ezdxf's reader, what is the same in many files only once.

A thousand files of one roster have the same header, tables and blocks, the frame, and differ in their lines. The frame
is read and audited as ezdxf reads any file; the lines are read and audited each by ezdxf, and held against what its
audit asks of the whole: handles of their own, and the space that they lie in. A file of any other form, and any file
in which something is amiss, is opened whole.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache
from io import StringIO
from typing import TYPE_CHECKING

from drafting.records import dataclass

if TYPE_CHECKING:
    from ezdxf.document import Drawing as Document
    from ezdxf.entities import DXFEntity

OLD = "AC1009"
"""The mark of release 12."""
BEGIN, END = b"  0\nSECTION\n  2\nENTITIES\n", b"  0\nENDSEC\n"
NOTES = re.compile(rb"(?:999\n[^\n]*\n)*")
SEED = re.compile(rb"(\$HANDSEED\n  5\n)([0-9A-F]{1,6})\n")
"""The first handle that is free (DXF Reference, HEADER)."""
HIGHEST_SEED = b"1000000"
"""What is put in its place, so that frames which differ in nothing else are one."""
HANDLE = re.compile(r"[1-9A-F][0-9A-F]{0,7}")


@dataclass(frozen=True)
class Opened:
    """A document, what lies in its space, and what the audit says."""

    document: Document
    entities: Sequence[DXFEntity]
    faults: tuple[str, ...]

    @property
    def is_old(self) -> bool:
        return self.document.dxfversion == OLD


def opened(data: bytes, kinds: frozenset[str]) -> Opened:
    """Raises any of the errors of ezdxf for what is no DXF. `kinds` are those of entities that stand for themselves."""
    return _in_parts(data.replace(b"\r\n", b"\n"), kinds) or _whole(data)


def _whole(data: bytes) -> Opened:
    document = _document(data)
    audit = document.audit()
    faults = tuple(str(entry.message) for entry in (*audit.errors, *audit.fixes))
    return Opened(document, list(document.modelspace()), faults)


def _document(data: bytes) -> Document:
    """As ezdxf reads a file from the disk: it finds the encoding in the head of it."""
    import ezdxf
    from ezdxf.filemanagement import dxf_stream_info

    text = data.decode("utf-8", errors="surrogateescape").replace("\r\n", "\n")
    info = dxf_stream_info(StringIO(text))
    return ezdxf.read(StringIO(data.decode(info.encoding, errors="surrogateescape")))


def _in_parts(data: bytes, kinds: frozenset[str]) -> Opened | None:
    """None where the whole file must tell."""
    head, begin, rest = data.partition(BEGIN)
    lines, end, tail = rest.partition(END)
    seed = SEED.search(head)
    if not end or seed is None or BEGIN in tail:
        return None
    same = SEED.sub(rb"\g<1>" + HIGHEST_SEED + rb"\n", NOTES.sub(b"", head, count=1))
    frame = _frame(same + begin + end + tail)
    if frame is None or frame.faults or frame.entities:
        return None
    entities = list(_entities(lines, frame.document))
    fits = _fit(entities, frame.document, kinds, int(seed[2], 16)) and _is_clean(entities, frame.document)
    return Opened(frame.document, entities, ()) if fits else None


@lru_cache(maxsize=4)
def _frame(data: bytes) -> Opened | None:
    """A file without lines; None where it cannot be read, so that the whole file says why."""
    from ezdxf import DXFError

    try:
        return _whole(data)
    except (DXFError, OSError, ValueError, LookupError, AttributeError, TypeError, StopIteration):
        return None


def _entities(lines: bytes, document: Document) -> Iterator[DXFEntity]:
    from ezdxf.lldxf.loader import load_dxf_entities
    from ezdxf.lldxf.tagger import ascii_tags_loader, tag_compiler
    from ezdxf.lldxf.tags import group_tags

    # The reader of tags looks for one more after each, so it gets the end of the section, too.
    text = StringIO((lines + END).decode(document.output_encoding, errors="surrogateescape"))
    groups = list(group_tags(tag_compiler(ascii_tags_loader(text))))
    yield from load_dxf_entities(groups[:-1], document)


def _fit(entities: Sequence[DXFEntity], document: Document, kinds: frozenset[str], seed: int) -> bool:
    """Whether all are of known kinds and lie in the space for lines, with handles that nothing else has."""
    space = document.modelspace().layout_key
    owner = None if document.dxfversion == OLD else space
    handles = [str(entity.dxf.handle) for entity in entities]
    fits = len(set(handles)) == len(handles) and all(
        entity.dxftype() in kinds
        and entity.dxf.owner == owner
        and not entity.dxf.paperspace
        and HANDLE.fullmatch(handle)
        and int(handle, 16) < seed
        and handle not in document.entitydb
        for entity, handle in zip(entities, handles, strict=True)
    )
    for entity in entities if fits else ():
        entity.dxf.owner = space
    return fits


def _is_clean(entities: Sequence[DXFEntity], document: Document) -> bool:
    """Whether the audit of each finds nothing."""
    from ezdxf.audit import Auditor

    auditor = Auditor(document)
    for entity in entities:
        entity.audit(auditor)
    return not auditor.has_issues
