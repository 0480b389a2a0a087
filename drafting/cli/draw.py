"""`awlwright draw FILE --out DIR`: drawings true to size, each measured again before any of them counts.

Writes STEM.svg with every piece and STEM-PIECE.svg for each. All of them come to stand in their places,
or none does: a fault in any size, a file that cannot be written, or a drawing that an independent reader
measures otherwise than it was drafted leaves the folder as it was.
"""

from __future__ import annotations

import re
import sys
from argparse import ArgumentParser, Namespace
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from drafting.cli.checking import add_draft, place_checked
from drafting.cli.failures import UntrueFile
from drafting.cli.progress import Progress
from drafting.cli.reading import add_blocks, add_pattern, add_pieces, add_size_and_measures, load_asked
from drafting.cli.together import (
    FilesTogether,
    Replacing,
    add_out_folder,
    add_replace,
    expect_ours,
    replacing,
)
from drafting.cli.words import WrongUse, never_together
from drafting.records import dataclass
from drafting.text.catalogue.files import UNTRUE_FILE

if TYPE_CHECKING:
    from drafting.face import Pattern, PlacedPattern

TELLS = """\
Write true-to-size drawings: STEM.svg shows every piece, STEM-PIECE.svg one piece. Every file is measured
again by an independent reader before the command says it is done; a fault in any size leaves the folder
as it was, unless a draft is asked for. A pattern with sizes is drawn in the first one written, or in the
one named by --size."""
EXAMPLES = (
    "awlwright draw badge-holder.draft --out drawings",
    "awlwright draw badge-holder.draft --out drawings --piece front --size visitor --png",
    "awlwright draw badge-holder.draft --out drawings --draft",
    "awlwright draw badge-holder.draft --out drawings --with 'rim=10 mm' --with 'nose=1 1/2 in'",
)
UNFIT_FOR_FILES = re.compile(r'[\x00-\x1f\x7f/\\:*?"<>|]')


@dataclass(frozen=True)
class Sheet:
    """One drawing to be written: of `piece`, or of all pieces where that is None."""

    path: Path
    placed: PlacedPattern
    piece: str | None


def add_arguments(parser: ArgumentParser) -> None:
    add_pattern(parser, takes_pipe=False)
    add_out_folder(parser)
    add_pieces(parser, "draw this piece only, without the overview")
    add_size_and_measures(parser)
    add_blocks(parser)
    parser.add_argument(
        "--every-size", action="store_true", help="draw every size, each into a folder of its name below DIR"
    )
    never_together(parser, "--size", "--every-size")
    add_draft(parser)
    add_replace(parser)
    parser.add_argument("--png", action="store_true", help="write a picture beside each drawing, too")


def run(given: Namespace) -> int:
    pattern = load_asked(given)
    folders = folders_of(pattern, given)
    checked = place_checked(pattern, given, list(folders))
    if checked.placed:
        sized = zip(folders.values(), checked.placed, strict=True)
        sheets = [sheet for out, placed in sized for sheet in sheets_of(out, placed, given.pieces)]
        expect_free(sheets, given.png, replacing(given))
        write_sheets(sheets, given.png)
        tell_sizes(pattern, given)
    return checked.exit_code


def folders_of(pattern: Pattern, given: Namespace) -> dict[str | None, Path]:
    """The folder that each size asked for goes into."""
    out = Path(given.out)
    if not given.every_size or not pattern.sizes:
        return {given.size: out}
    return {size: out / folder for size, folder in file_names(pattern.sizes).items()}


def sheets_of(out: Path, placed: PlacedPattern, pieces: list[str] | None) -> Iterator[Sheet]:
    stem = placed.placed.stem
    if pieces is None:
        yield Sheet(out / f"{stem}.svg", placed, None)
    for piece, name in file_names(pieces or placed.pieces).items():
        yield Sheet(out / f"{stem}-{name}.svg", placed, piece)


def file_names(names: Iterable[str]) -> dict[str, str]:
    """A name fit for a file for each of `names`, different also where capitals do not count."""
    found: dict[str, str] = {}
    taken: set[str] = set()
    for name in names:
        fit = UNFIT_FOR_FILES.sub("_", name).strip(". ") or "_"
        unique, number = fit, 2
        while unique.casefold() in taken:
            unique, number = f"{fit}-{number}", number + 1
        taken.add(unique.casefold())
        found[name] = unique
    return found


def expect_free(sheets: list[Sheet], with_picture: bool, may_replace: Replacing) -> None:
    """No file of another program stands where a drawing or its picture goes."""
    from drafting.output.png import is_our_picture
    from drafting.output.svg import is_our_drawing

    for sheet in sheets:
        expect_ours(sheet.path, is_our_drawing, may_replace)
        if with_picture:
            expect_ours(sheet.path.with_suffix(".png"), is_our_picture, may_replace)


def write_sheets(sheets: list[Sheet], with_picture: bool) -> None:
    with FilesTogether() as files:
        with Progress(len(sheets)) as progress:
            for sheet in sheets:
                progress.step(f"drawing {sheet.path.name}")
                write_sheet(files, sheet, with_picture)
        written = list(files.waiting)
    for path in written:
        print(path)


def write_sheet(files: FilesTogether, sheet: Sheet, with_picture: bool) -> None:
    """Write one drawing, read it back from the disk and measure it; then its picture."""
    from drafting.output.png import to_png
    from drafting.proof.svg import check_svg

    beside = files.write(sheet.path, sheet.placed.drawing(sheet.piece).to_svg().encode())
    written = beside.read_text(encoding="utf-8")
    for disagreement in check_svg(written, sheet.placed.placed, sheet.piece):
        raise UntrueFile(WrongUse(UNTRUE_FILE, file=sheet.path, difference=disagreement).message)
    if with_picture:
        files.write(sheet.path.with_suffix(".png"), to_png(written))


def tell_sizes(pattern: Pattern, given: Namespace) -> None:
    """Which size was drawn, where there are others and none was asked for."""
    every = vars(given).get("every_size")
    if len(pattern.sizes) > 1 and given.size is None and not every:
        drawn = f"drawn in size `{pattern.sizes[0]}`, the first of {len(pattern.sizes)}"
        more = "" if every is None else " or --every-size"
        print(f"{drawn}; for others say --size '{pattern.sizes[1]}'{more}", file=sys.stderr)
