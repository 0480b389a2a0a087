"""`awlwright proof FILE…`: hold files that the tool wrote against their patterns, as those are now."""

from __future__ import annotations

import json
import sys
from argparse import ArgumentParser, Namespace
from collections.abc import Iterator
from functools import cache, partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from drafting.cli.exits import FAULTS, FINE, WRONG_USE
from drafting.cli.failures import message_of
from drafting.cli.progress import Progress
from drafting.cli.reading import add_blocks, load_named, read_lay
from drafting.cli.terminal import page_of
from drafting.cli.values import file_there
from drafting.cli.words import WrongUse
from drafting.records import dataclass
from drafting.text.catalogue.files import (
    DIFFERS,
    NO_PATTERN,
    NO_PEOPLE,
    NOT_MADE_HERE,
    NOTHING_TO_PROVE,
    TEXT_CHANGED,
    UNREADABLE_MADE_FILE,
)
from drafting.text.excerpt import render_message
from drafting.text.messages import Message
from drafting.text.source import UnreadableSource

if TYPE_CHECKING:
    from drafting.proving import Proved

TELLS = """\
Read files that this tool wrote, SVG, PDF, DXF or HTML, by a library that did not write them, and hold them
against their pattern as it is now: every outline, hole, slot and stitch present, in place and in size within
0.01 mm, nothing beside them. A print is rendered, too, and its scales are measured in dots. Tables of sizes
are held cell by cell, and files of a roster against their table of people, too. A lay.json is judged anew and held
against the patterns and hides it was made from, and the other files of a lay against its lay.json. Each file knows
which pattern it was made from, in which size, and from which text; it is told when that text has changed.
Patterns and tables are looked for beside the file, in the folder above, and where you are. Lists of a batch are not
held: they are written anew. A file that differs ends it with the exit code 1."""
EXAMPLES = (
    "awlwright proof tag.pdf",
    "awlwright proof drawings/*.svg --pattern tag.draft",
    "awlwright proof tag.pdf machine/tag-cut.dxf --json",
    "awlwright proof badges/cards.pdf badges/roster.csv badges/engraving/*.svg",
    "awlwright proof lay/lay.json lay/lay.pdf lay/*.svg",
)


MOST_TOLD = 3


@dataclass(frozen=True)
class Outcome:
    """What came of one file: what was found in it, or why it could not be looked at."""

    file: str
    proved: Proved | None
    messages: tuple[Message, ...]

    @property
    def exit_code(self) -> int:
        if self.proved is None:
            return FAULTS if any(message.at for message in self.messages) else WRONG_USE
        return FAULTS if self.proved.differences else FINE


def add_arguments(parser: ArgumentParser) -> None:
    parser.add_argument("files", metavar="FILE", nargs="+", help="a file that the tool wrote")
    parser.add_argument(
        "--pattern",
        metavar="FILE",
        type=file_there("--pattern", "tag.draft"),
        dest="patterns",
        action="append",
        default=[],
        help="the pattern to hold them against, where it is not found by its name; may be said again, as a file is "
        "held against the one that has the name of its pattern",
    )
    add_blocks(parser)
    parser.add_argument(
        "--json",
        action="store_true",
        help="print one list of objects: file, what, pattern, size, text, text_now, true, and differences, each "
        "with where, what, drafted and written; or messages, with code, says and mend",
    )


class Origins:
    """What the files were made from, each read once however many files there are."""

    def __init__(self, patterns: list[str], blocks: str | None) -> None:
        from drafting.proving import Known

        self.said = patterns
        self.pattern = cache(partial(load_named, blocks=blocks))
        self.lay = cache(read_lay)
        self.known = Known()

    def place_of(self, name: str, file: str) -> str:
        """Where the pattern, the hide or the lay is that a file was made from: as said, else beside it."""
        from drafting.proving import beside

        said = (pattern for pattern in self.said if Path(pattern).name == name)
        found = next(said, None) or beside(name, Path(file))
        if found is None:
            raise WrongUse(NO_PATTERN, file=file, pattern=name)
        return str(found)


def run(given: Namespace) -> int:
    origins, outcomes = Origins(given.patterns, given.blocks), []
    with Progress(len(given.files)) as progress:
        for file in given.files:
            progress.step(f"proving {file}")
            outcomes.append(outcome_of(file, origins))
    if given.json:
        print(json.dumps([record_of(outcome) for outcome in outcomes], indent=2, ensure_ascii=False))
    else:
        for outcome in outcomes:
            tell(outcome)
    return max(outcome.exit_code for outcome in outcomes)


def outcome_of(file: str, origins: Origins) -> Outcome:
    import drafting

    try:
        proved = proved_file(file, origins)
    except drafting.Faults as faults:
        return Outcome(file, None, tuple(faults.messages))
    except (WrongUse, UnreadableSource) as failure:
        return Outcome(file, None, (message_of(failure)[0],))
    return Outcome(file, proved, tuple(said_of(file, proved)))


def proved_file(file: str, origins: Origins) -> Proved:
    from drafting.output.lays import is_our_lay
    from drafting.proving import NoPeople, NothingToProve, NotMadeHere, prove, record_of_file

    try:
        data = Path(file).read_bytes()
        if is_our_lay(data):
            return proved_lay(file, origins)
        record = record_of_file(data)
    except FileNotFoundError:
        raise WrongUse(UNREADABLE_MADE_FILE, file=file, reason="there is no such file") from None
    except IsADirectoryError:
        reason = f"it is a folder; say `{file.rstrip('/')}/*` for the files in it"
        raise WrongUse(UNREADABLE_MADE_FILE, file=file, reason=reason) from None
    except OSError as error:
        reason = (error.strerror or "it cannot be opened").lower()
        raise WrongUse(UNREADABLE_MADE_FILE, file=file, reason=reason) from None
    except NotMadeHere:
        raise WrongUse(NOT_MADE_HERE, file=file) from None
    except NothingToProve as kind:
        raise WrongUse(NOTHING_TO_PROVE, file=file, what=kind.what) from None
    found = origins.said[0] if len(origins.said) == 1 else origins.place_of(record.pattern, file)
    if record.what == "lay":
        from drafting.proving_lays import prove_of_lay

        return prove_of_lay(data, record, origins.lay(found), Path(found).name)
    try:
        return prove(data, origins.pattern(found), record, Path(file), origins.known)
    except NoPeople as people:
        raise WrongUse(NO_PEOPLE, file=file, people=people.name) from None


def proved_lay(file: str, origins: Origins) -> Proved:
    from drafting.proving_lays import prove_lay

    return prove_lay(origins.lay(file), lambda name: origins.pattern(origins.place_of(name, file)))


def said_of(file: str, proved: Proved) -> Iterator[Message]:
    for name, then, now in proved.changed:
        yield WrongUse(TEXT_CHANGED, file=file, pattern=name, then=then, now=now).message
    if proved.differences:
        told = [str(difference) for difference in proved.differences[:MOST_TOLD]]
        more = len(proved.differences) - len(told)
        told += [f"and {more} more"] if more else []
        yield WrongUse(DIFFERS, file=file, pattern=proved.pattern, differences="; ".join(told)).message


def tell(outcome: Outcome) -> None:
    page = page_of(sys.stdout)
    for message in outcome.messages:
        print(render_message(message, page), end="")
    if outcome.proved is not None and not outcome.proved.differences:
        record = outcome.proved.record
        size = f", size {record.size}" if record.size else ""
        print(f"{outcome.file}: {record.what} true to {outcome.proved.pattern}{size}")


def record_of(outcome: Outcome) -> dict[str, Any]:
    proved = outcome.proved
    if proved is None:
        told = [{"code": one.code, "says": one.says, "mend": one.mend} for one in outcome.messages]
        return {"file": outcome.file, "true": None, "messages": told}
    return {
        "file": outcome.file,
        "what": proved.record.what,
        "pattern": proved.pattern,
        "size": proved.record.size,
        "text": proved.record.text,
        "text_now": proved.text,
        "true": not proved.differences,
        "differences": [vars(difference) for difference in proved.differences],
    }
