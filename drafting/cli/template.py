"""`awlwright template FILE --out DIR`: templates of card or acrylic, to lay on leather and trace round many times.

Writes STEM-template-PIECE.svg, .dxf or .pdf for each piece. Each is held against its piece, and read back, before any
of them comes to stand in its place.
"""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

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
    warn,
    write_proved,
)
from drafting.cli.together import replacing
from drafting.cli.values import any_name, length, unknown_value
from drafting.cli.words import WrongWords
from drafting.text.catalogue.files import NO_ROOM_ON_TEMPLATE
from drafting.text.messages import Messages

if TYPE_CHECKING:
    from drafting.drawing.machine import Template
    from drafting.face import CutSheet, PlacedPattern

TELLS = """\
Write templates to cut from card or acrylic and to trace round: outline and openings are cut, a pin hole goes
through wherever a point is marked on the leather (where a stitch line starts and ends, where a slit ends, in the
middle of each hole, at each mark), a hole to hang it by lies clear of everything, and the name, the edition and
which side is up are engraved. --awl-slot names a line that an awl is to run along: a stitch line, a crease, a
fold, a slit. It stays short of the ends of its line and is bridged every 60 mm, so that nothing falls out. A piece
that is cut in pairs says that it is to be turned over; with --mirrored it has a second template instead. Layers are
those of `awlwright cut` and are named and coloured by the same file; a PDF has them by name, to be shown and hidden,
and all in black."""
EXAMPLES = (
    "awlwright template badge-holder.draft --out templates",
    "awlwright template badge-holder.draft --out templates --format dxf --awl-slot front.edge --kerf '0.2 mm'",
    "awlwright template blade-sheath.draft --out templates --format pdf --mirrored",
)
FORMATS = ("svg", "dxf", "pdf")
WIDEST_PIN = "5 mm"


def add_arguments(parser: ArgumentParser) -> None:
    add_shared_arguments(parser, FORMATS)
    parser.add_argument(
        "--awl-slot",
        dest="slots",
        metavar="NAME",
        action="append",
        default=[],
        type=any_name("--awl-slot", "front.edge"),
        help="a slot along this line, as `front.edge`, or `edge` on every piece; may be said again",
    )
    parser.add_argument(
        "--pin",
        metavar="D",
        type=length("--pin", "a width of pin holes", "1 mm", most=WIDEST_PIN, is_above_zero=True),
        default="1 mm",
        help="how wide pin holes and awl slots are; 1 mm if not said",
    )
    parser.add_argument(
        "--mirrored", action="store_true", help="a second template, turned over, of each piece cut in pairs"
    )


def run(given: Namespace) -> int:
    asked = asked_of(given)
    checked = place_checked(asked.pattern, given, [given.size])
    for placed in checked.placed:
        templates = templates_for(placed, given, asked)
        files = list(named_templates(templates, Path(given.out), placed.placed.stem, asked.form.ending))
        for template, file in zip(templates, files, strict=True):
            expect_template_true(file.path, template, placed)
        for path in write_proved(files, asked, replacing(given)):
            print(path)
        tell_the_rest(placed, templates, asked.form.ending)
        tell_sizes(asked.pattern, given)
    return checked.exit_code


def templates_for(placed: PlacedPattern, given: Namespace, asked: Asked) -> Sequence[CutSheet]:
    with told_of_kerf(), told_of_slots(given.slots):
        return placed.templates(
            given.pieces,
            pin=given.pin,
            awl_slots=given.slots,
            mirrored=given.mirrored,
            kerf=asked.kerf,
            layers=asked.layers,
        )


@contextmanager
def told_of_slots(slots: list[str]) -> Iterator[None]:
    """Every slot that is to be along no line becomes a message."""
    from drafting.face import UnknownName

    try:
        yield
    except UnknownName as fault:
        wrong = Messages()
        for slot in slots:
            if slot == fault.name or slot.rpartition(".")[2] not in fault.known:
                wrong.extend([unknown_value("--awl-slot", "line for an awl", slot, fault.known).message])
        raise WrongWords(wrong) from None


def named_templates(templates: Sequence[CutSheet], out: Path, stem: str, ending: str) -> Iterator[Sheet]:
    names = file_names(dict.fromkeys(template_of(one).piece for one in templates))
    for one in templates:
        template = template_of(one)
        side = "-turned" if template.is_turned else ""
        yield Sheet(out / f"{stem}-template-{names[template.piece]}{side}.{ending}", one.sheet.drawing)


def template_of(sheet: CutSheet) -> Template:
    assert sheet.template is not None, "a template is made as one"
    return sheet.template


def expect_template_true(file: Path, sheet: CutSheet, placed: PlacedPattern) -> None:
    from drafting.proof.machine_sheet import faults_in_template

    expect_true(file, faults_in_template(template_of(sheet), placed.placed))


def tell_the_rest(placed: PlacedPattern, templates: Sequence[CutSheet], ending: str) -> None:
    """What found no room, letters that cannot be engraved, and what to be careful of."""
    from drafting.drawing.caution_words import cutter_cautions
    from drafting.drawing.machine.templates import engraved_words

    for template in (template_of(one) for one in templates):
        for what in template.lacking:
            warn(NO_ROOM_ON_TEMPLATE, piece=template.piece, what=what)
        if template.left_out and not template.is_turned:
            points = ", ".join(dict.fromkeys(pin.where for pin in template.left_out))
            print(f"marked from the edge, for no pin hole holds there: {points}")
    pieces = dict.fromkeys(template_of(one).piece for one in templates)
    tell_missing_letters(
        words for name in pieces for words in engraved_words(placed.placed, placed.pieces[name])
    )
    for caution in cutter_cautions(placed.placed, "blade" if ending == "pdf" else "laser", of_stock=False):
        print(f"Caution: {caution}")
