"""`awlwright cut FILE --out DIR`: files for a laser, a plotter or a drawn blade.

Writes STEM-cut.svg or STEM-cut.dxf, one for each stock. Every line is held against the pattern, and every file is read
back, before any of them comes to stand in its place.
"""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from drafting.cli.amounts import length_in
from drafting.cli.checking import place_checked
from drafting.cli.draw import file_names, tell_sizes
from drafting.cli.machine_files import (
    Asked,
    Sheet,
    add_shared_arguments,
    asked_of,
    expect_true,
    tell_missing_letters,
    told_of_kerf,
    write_proved,
)
from drafting.cli.together import replacing
from drafting.cli.values import one_of
from drafting.cli.words import WrongUse
from drafting.text.catalogue.files import UNFIT_FOR_LASER

if TYPE_CHECKING:
    from drafting.face import CutSheet, PlacedPattern

TELLS = """\
Write files for a laser, a plotter or a drawn blade: every piece as often as it is cut, the second of a pair
turned over, one file for each stock. Each operation has its layer, in the order they are to be run: engrave,
crease, stitch, punch, slit, inner-cut, cut. Nothing is there twice. With --kerf outlines grow and openings
shrink by half of what the cutter takes away; slits, creases and words are run along as they are. Stamps are
engraved, and crosses for marks; strips to skive or to glue are left to the hand. Layers are named and
coloured otherwise by a TOML file with lines such as: inner-cut = { name = "HOLES", color = "#0000ff" }. PVC
and chrome-tanned leather are refused, unless the cutter is a blade."""
EXAMPLES = (
    "awlwright cut badge-holder.draft --out machine --kerf '0.2 mm'",
    "awlwright cut badge-holder.draft --out machine --format dxf --layers cutter.toml",
    "awlwright cut badge-holder.draft --out machine --format dxf --dxf-version r12 --cutter blade",
)
FORMATS = ("svg", "dxf")
CUTTERS = ("laser", "blade")
BY_HAND = ("skive", "glue")


def add_arguments(parser: ArgumentParser) -> None:
    add_shared_arguments(parser, FORMATS)
    parser.add_argument(
        "--cutter",
        metavar="C",
        type=one_of("--cutter", "cutter", CUTTERS),
        default="laser",
        help="laser, or blade for whatever cuts without heat; laser if not said",
    )
    parser.add_argument(
        "--labels", action="store_true", help="engrave labels, too, which are otherwise for templates alone"
    )


def run(given: Namespace) -> int:
    asked = asked_of(given)
    checked = place_checked(asked.pattern, given, [given.size])
    for placed in checked.placed:
        sheets = sheets_for(placed, given, asked)
        files = list(named_sheets(sheets, Path(given.out), placed.placed.stem, asked.form.ending))
        for sheet, file in zip(sheets, files, strict=True):
            expect_sheet_true(file.path, sheet, placed, given.pieces)
        for path, sheet in zip(write_proved(files, asked, replacing(given)), sheets, strict=True):
            print(f"{path}: {told_of(sheet)}")
        tell_by_hand(placed, given)
        tell_sizes(asked.pattern, given)
    return checked.exit_code


def sheets_for(placed: PlacedPattern, given: Namespace, asked: Asked) -> Sequence[CutSheet]:
    from drafting.craft.lasering import UnfitForLaser

    try:
        with told_of_kerf():
            return placed.cutting(
                given.pieces, cutter=given.cutter, kerf=asked.kerf, layers=asked.layers, labels=given.labels
            )
    except UnfitForLaser as fault:
        raise WrongUse(UNFIT_FOR_LASER, **vars(fault.unfit)) from None


def named_sheets(sheets: Sequence[CutSheet], out: Path, stem: str, ending: str) -> Iterator[Sheet]:
    """One file a stock; its name tells the stock where there are several."""
    names = file_names([sheet.stock or "" for sheet in sheets])
    for sheet in sheets:
        stock = f"-{names[sheet.stock or '']}" if len(sheets) > 1 and sheet.stock else ""
        yield Sheet(out / f"{stem}-cut{stock}.{ending}", sheet.sheet.drawing)


def expect_sheet_true(file: Path, sheet: CutSheet, placed: PlacedPattern, pieces: list[str] | None) -> None:
    from drafting.proof.machine_sheet import faults_in_sheet

    expect_true(
        file, faults_in_sheet(sheet.sheet, placed.placed, list(dict.fromkeys(pieces or placed.pieces)))
    )


def told_of(sheet: CutSheet) -> str:
    """`4 pieces on 320 mm by 210 mm of body; cut 4, stitch 120`."""
    drawing, laid = sheet.sheet.drawing, sheet.sheet.laid
    operations = ", ".join(f"{group.name} {len(group.marks)}" for group in drawing.groups)
    pieces = "1 piece" if len(laid) == 1 else f"{len(laid)} pieces"
    source = f" of {sheet.stock}" if sheet.stock else ""
    wide, high = (length_in(side, "mm") for side in (drawing.width, drawing.height))
    return f"{pieces} on {wide} by {high}{source}; {operations}"


def tell_by_hand(placed: PlacedPattern, given: Namespace) -> None:
    """What the files leave to the hand, letters that cannot be engraved, and what to be careful of."""
    from drafting.drawing.caution_words import cutter_cautions
    from drafting.drawing.machine.engraving import is_for_roster

    chosen = [placed.pieces[name] for name in given.pieces or placed.pieces]
    features = [(piece.name, feature) for piece in chosen for feature in piece.features]
    left = [f"{piece}.{one.name}" for piece, one in features if one.kind in BY_HAND]
    if left:
        print(f"by hand, for no file holds them: {', '.join(left)}")
    words = ("stamp", "label") if given.labels else ("stamp",)
    lettered = [(piece, one) for piece, one in features if one.kind in words]
    rostered = [f"{piece}.{one.name}" for piece, one in lettered if is_for_roster(one)]
    if rostered:
        print(f"for `awlwright roster`, one value to each item: {', '.join(rostered)}")
    tell_missing_letters(one.text or "" for _, one in lettered if not is_for_roster(one))
    for caution in cutter_cautions(placed.placed, given.cutter):
        print(f"Caution: {caution}")
