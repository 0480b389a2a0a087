"""`awlwright print FILE --out FILE.pdf`: the pieces at true size for a printer at home.

Pieces share sheets as far as they fit; larger ones are spread over tiles to be glued together. The file is read back
and measured, as lines and as dots, before it comes to stand in its place.
"""

from __future__ import annotations

import re
from argparse import ArgumentParser, Namespace
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from drafting.cli.amounts import readable
from drafting.cli.checking import add_draft, place_checked
from drafting.cli.draw import tell_sizes
from drafting.cli.failures import UntrueFile
from drafting.cli.reading import add_blocks, add_pattern, add_pieces, add_size_and_measures, load_asked
from drafting.cli.together import FilesTogether, Replacing, add_replace, expect_ours, replacing
from drafting.cli.values import file_to_write, typed
from drafting.cli.words import WrongUse
from drafting.text.catalogue.files import (
    MISSING_LETTERS,
    NO_TILING,
    TOO_MANY_TILES,
    UNFIT_BATCH,
    UNFIT_CORRECTION,
    UNFIT_PAPER,
    UNTRUE_FILE,
)

if TYPE_CHECKING:
    from drafting.drawing.prints import Paper, TooManyTiles
    from drafting.face import PlacedPattern, Prints

TELLS = """\
Writes the pieces of a pattern at true size as a PDF for any printer. Small pieces share sheets; a large
one is spread over tiles that overlap by 10 mm, with crosses to lay on each other and a map of where each
tile goes. With --copies each piece is there as often as so many items need it.
Print it at 100 %, then hold a rule to the two scales on each sheet: 100 mm and 4 in, both ways.
If your printer makes 100 mm into, say, 99.2 mm, print again with --correct 99.2%.
"""
EXAMPLES = (
    "awlwright print tag.draft --out tag.pdf",
    "awlwright print belt.draft --paper letter --size '90 cm' --out belt.pdf",
    "awlwright print badge-holder.draft --piece front --correct 99.2% --out front.pdf",
    "awlwright print tag.draft --copies 12 --out choir-tags.pdf",
)
SCALE = re.compile(r"([0-9]*\.?[0-9]+)\s*%")
LEAST, MOST = 90.0, 110.0
MOST_COPIES = 1000
LARGER_PAPER = "914x1200"
"""A sheet of a plotter with a roll 36 in wide, in mm."""


def add_arguments(parser: ArgumentParser) -> None:
    add_pattern(parser)
    parser.add_argument(
        "--out",
        metavar="FILE.pdf",
        required=True,
        type=file_to_write("a print", (".pdf",)),
        help="the file to write",
    )
    add_paper(parser)
    add_pieces(parser)
    add_size_and_measures(parser)
    add_blocks(parser)
    parser.add_argument(
        "--correct",
        metavar="SCALE",
        type=correction_of,
        default=1.0,
        help="what your printer makes of 100 mm, in percent, measured on a sheet",
    )
    parser.add_argument(
        "--copies",
        metavar="N",
        type=copies_of,
        help="print all that N items need; without it each piece once, as a template",
    )
    add_draft(parser)
    add_replace(parser)


def run(given: Namespace) -> int:
    out = Path(given.out)
    expect_our_pdf(out, replacing(given), "print")
    pattern = load_asked(given)
    checked = place_checked(pattern, given, [given.size])
    for placed in checked.placed:
        with told_of_prints():
            prints = placed.prints(given.paper, given.pieces, given.correct, given.copies)
            count = write_print(placed, out, prints)
        print(f"{out}: {count} {'sheet' if count == 1 else 'sheets'} of {given.paper.name}")
        tell_sizes(pattern, given)
    return checked.exit_code


def add_paper(parser: ArgumentParser, of: str = "") -> None:
    """`of` says of what, where the command writes other things, too."""
    parser.add_argument(
        "--paper",
        metavar="P",
        type=paper_named,
        default="a4",
        help=f"{of}a4, a3, a5, letter, legal, or a size such as 320x450 (mm)",
    )


def paper_named(name: str) -> Paper:
    from drafting.drawing.prints import PAPERS, PaperFault, paper_called

    try:
        return paper_called(name)
    except PaperFault as fault:
        raise WrongUse(
            UNFIT_PAPER, said=typed("--paper", name), reason=fault, known=", ".join(PAPERS)
        ) from None


def correction_of(given: str) -> float:
    """What a printer makes of 1 mm."""
    found = SCALE.fullmatch(given.strip())
    if found is None or not LEAST <= float(found[1]) <= MOST:
        raise WrongUse(UNFIT_CORRECTION, said=typed("--correct", given))
    return float(found[1]) / 100


def copies_of(given: str) -> int:
    if not given.strip().isdecimal() or not 1 <= int(given) <= MOST_COPIES:
        raise WrongUse(UNFIT_BATCH, said=typed("--copies", given), most=MOST_COPIES)
    return int(given)


@contextmanager
def told_of_prints() -> Iterator[None]:
    """What cannot be put on paper, in the maker's words."""
    from drafting.drawing.fonts import MissingLetters, way_to
    from drafting.drawing.prints import TooManyTiles

    try:
        yield
    except TooManyTiles as fault:
        raise told_of_tiles(fault) from None
    except MissingLetters as fault:
        raise WrongUse(MISSING_LETTERS, letters=fault.told, way=way_to(fault.letters)) from None


def told_of_tiles(fault: TooManyTiles) -> WrongUse:
    """A larger paper is named only where it would do."""
    from drafting.drawing.prints import can_carry, paper_called

    facts = {"piece": fault.piece, "tiles": f"{fault.tiles:,}", "paper": fault.paper, "larger": LARGER_PAPER}
    if can_carry(paper_called(LARGER_PAPER), fault.bounds):
        return WrongUse(TOO_MANY_TILES, **facts)
    size = " by ".join(readable(side, "mm", ("mm",)) for side in (fault.bounds.width, fault.bounds.height))
    return WrongUse(NO_TILING, size=size, **facts)


def expect_our_pdf(out: Path, may_replace: Replacing, what: str | None = None) -> None:
    """A place where no PDF of another program stands, nor one that holds something else than `what`."""
    from drafting.output.pdf import is_ours

    expect_ours(out, is_ours, may_replace, what)


def write_print(placed: PlacedPattern, out: Path, prints: Prints) -> int:
    """Write the file, read it back from the disk and measure it; how many sheets it has."""
    from drafting.proof.pdf import check_pdf

    with FilesTogether() as files:
        written = files.write(out, prints.to_pdf()).read_bytes()
        for disagreement in check_pdf(written, placed.placed, prints.sheets, prints.correction, prints.times):
            raise UntrueFile(WrongUse(UNTRUE_FILE, file=out, difference=disagreement).message)
    return len(prints.sheets)
