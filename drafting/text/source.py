"""A pattern file as it stands on disk, and places inside it.

Takes a path or a string and gives a Source; a Span is a stretch of one Source, counted in characters. Lines and
columns start at 1, as an editor shows them.
"""

from __future__ import annotations

from bisect import bisect_right
from difflib import get_close_matches
from functools import cached_property
from pathlib import Path

from drafting.records import dataclass, field


class UnreadableSource(Exception):
    """The file cannot be read as text; `reason` says why in the maker's terms."""

    def __init__(self, path: str, reason: str) -> None:
        super().__init__(f"{path}: {reason}")
        self.path = path
        self.reason = reason


@dataclass(frozen=True)
class Source:
    """The text of one pattern file; `name` is how the maker called it."""

    name: str
    text: str = field(repr=False)

    @cached_property
    def line_starts(self) -> tuple[int, ...]:
        starts = [0]
        for index, character in enumerate(self.text):
            if character == "\n":
                starts.append(index + 1)
        return tuple(starts)

    def position(self, offset: int) -> tuple[int, int]:
        """Line and column of a character, both from 1."""
        line = bisect_right(self.line_starts, offset)
        return line, offset - self.line_starts[line - 1] + 1

    def line_text(self, line: int) -> str:
        """The text of a line (from 1), without its line end."""
        start = self.line_starts[line - 1]
        end = self.line_starts[line] if line < len(self.line_starts) else len(self.text)
        return self.text[start:end].rstrip("\r\n")

    def span(self, start: int, end: int) -> Span:
        return Span(self, start, end)


@dataclass(frozen=True)
class Span:
    """The characters of `source` from `start` up to, not including, `end`."""

    source: Source = field(repr=False)
    start: int
    end: int

    @property
    def text(self) -> str:
        return self.source.text[self.start : self.end]

    @property
    def line(self) -> int:
        return self.source.position(self.start)[0]

    @property
    def column(self) -> int:
        return self.source.position(self.start)[1]

    @property
    def end_line(self) -> int:
        return self.source.position(self.end)[0]

    @property
    def end_column(self) -> int:
        return self.source.position(self.end)[1]

    def covers(self, other: Span) -> bool:
        """Whether `other` lies within this span, of one and the same source."""
        return self.source is other.source and self.start <= other.start and other.end <= self.end

    def to(self, other: Span) -> Span:
        """From the start of this span to the end of `other`."""
        return Span(self.source, self.start, other.end)


def nearest_beside(path: Path) -> Path | None:
    """The pattern file of nearly the same name in the same folder, such as `tag.draft` for `tag`."""
    folder = path.parent
    if path.suffix not in ("", ".draft") or not folder.is_dir():
        return None
    names = sorted(file.stem for file in folder.glob("*.draft") if file.is_file())
    found = get_close_matches(path.name.removesuffix(".draft"), names, n=1, cutoff=0.75)
    return path.with_name(f"{found[0]}.draft") if found else None


def read_source(path: str | Path) -> Source:
    """Read a pattern file as UTF-8 (a byte-order mark is passed over); UnreadableSource says what is wrong."""
    try:
        data = Path(path).read_bytes()
    except FileNotFoundError:
        near = nearest_beside(Path(path))
        reason = f"there is no such file, but there is `{near}`" if near else "there is no such file"
        raise UnreadableSource(str(path), reason) from None
    except IsADirectoryError:
        raise UnreadableSource(str(path), "it is a folder, not a file") from None
    except OSError as error:
        raise UnreadableSource(str(path), error.strerror or "it cannot be opened") from None
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        raise UnreadableSource(str(path), f"line {line} is not UTF-8 text") from None
    return Source(str(path), text.replace("\r\n", "\n").replace("\r", "\n"))
