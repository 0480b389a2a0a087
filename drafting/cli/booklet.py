"""`awlwright booklet FILE --out FILE.pdf|FILE.html`: all that a maker reads beside the true-size sheets.

The file is read back before it comes to stand in its place: nothing beyond the paper, every piece in every picture that
shows it, in its shape.
"""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from pathlib import Path
from typing import TYPE_CHECKING

from drafting.cli.checking import add_draft, place_checked
from drafting.cli.draw import tell_sizes
from drafting.cli.failures import UntrueFile
from drafting.cli.print import add_paper, told_of_prints
from drafting.cli.reading import add_blocks, add_pattern, add_size_and_measures, load_asked
from drafting.cli.together import FilesTogether, Replacing, add_replace, expect_ours, replacing
from drafting.cli.values import file_to_write
from drafting.cli.words import WrongUse, expect_agreement
from drafting.text.catalogue.files import ONLY_WITH, UNTRUE_FILE

if TYPE_CHECKING:
    from drafting.face import Leaflet, PlacedPattern

TELLS = """\
Writes the booklet of an item, as a PDF to print or as one HTML page to read: a picture of all pieces, the
measures, what to cut and to have at hand, the steps each with a picture in which what it uses stands out,
how to sew and how much thread each seam takes, what was checked and what is allowed, cautions, licence and author.
"""
EXAMPLES = (
    "awlwright booklet coin-pouch.draft --out coin-pouch.pdf",
    "awlwright booklet coin-pouch.draft --out coin-pouch.html --size evening",
    "awlwright booklet coin-pouch.draft --out coin-pouch.pdf --paper a5",
)
KINDS = (".pdf", ".html")


def add_arguments(parser: ArgumentParser) -> None:
    add_pattern(parser)
    parser.add_argument(
        "--out",
        metavar="FILE",
        required=True,
        type=file_to_write("a booklet", KINDS),
        help="the file to write; its ending, .pdf or .html, says which",
    )
    add_paper(parser, "of a PDF: ")
    expect_agreement(parser, expect_pages)
    add_size_and_measures(parser)
    add_blocks(parser)
    add_draft(parser)
    add_replace(parser)


def run(given: Namespace) -> int:
    out = Path(given.out)
    expect_booklet(out, replacing(given))
    pattern = load_asked(given)
    checked = place_checked(pattern, given, [given.size])
    for placed in checked.placed:
        with told_of_prints():
            write_booklet(placed, placed.booklet(given.paper), out)
        print(out)
        tell_sizes(pattern, given)
    return checked.exit_code


def expect_pages(given: Namespace) -> None:
    """A page to read has no paper."""
    if "--paper" in given.said and str(given.out).lower().endswith(".html"):
        raise WrongUse(ONLY_WITH, option="--paper", other="--out FILE.pdf", example=EXAMPLES[2])


def expect_booklet(out: Path, may_replace: Replacing) -> None:
    """A place where no file of another program stands."""
    from drafting.output.booklet_html import is_our_page
    from drafting.output.pdf import is_ours

    expect_ours(out, lambda data: is_ours(data) or is_our_page(data), may_replace, "booklet")


def write_booklet(placed: PlacedPattern, leaflet: Leaflet, out: Path) -> None:
    """Write the file, read it back from the disk and measure it."""
    from drafting.proof.booklet import check_page, check_pages

    is_page = out.suffix.lower() == ".html"
    data = leaflet.to_html().encode() if is_page else leaflet.to_pdf()
    with FilesTogether() as files:
        written = files.write(out, data).read_bytes()
        check = check_page if is_page else check_pages
        for disagreement in check(written, placed.placed, leaflet.booklet):
            raise UntrueFile(WrongUse(UNTRUE_FILE, file=out, difference=disagreement).message)
