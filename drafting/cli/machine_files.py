"""What the commands for machines share: formats, layers from a file, and files that are proved before they count."""

from __future__ import annotations

import sys
import tomllib
from argparse import ArgumentParser, Namespace
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from drafting.cli.amounts import readable
from drafting.cli.failures import UntrueFile
from drafting.cli.progress import Progress
from drafting.cli.reading import add_blocks, add_pattern, add_pieces, add_size_and_measures, load_asked
from drafting.cli.terminal import page_of
from drafting.cli.together import FilesTogether, Replacing, add_out_folder, add_replace, expect_ours
from drafting.cli.values import length, one_of, typed
from drafting.cli.words import WrongUse, expect_agreement
from drafting.records import dataclass
from drafting.text.catalogue.files import (
    NO_SUCH_PAGE,
    NOT_DXF,
    UNENGRAVED,
    UNFIT_LAYERS,
    UNTRUE_FILE,
    WIDE_KERF,
)
from drafting.text.excerpt import render_message
from drafting.text.messages import Entry
from drafting.text.source import UnreadableSource, read_source

if TYPE_CHECKING:
    from drafting.drawing.machine import Layer
    from drafting.drawing.marks import Drawing
    from drafting.face import Pattern
    from drafting.output.dxf_frame import Release
    from drafting.proof.disagreement import Disagreement

RELEASES: dict[str, Release] = {"r2010": "R2010", "r12": "R12"}


@dataclass(frozen=True)
class Format:
    """How one kind of file is written, read back, and known for ours."""

    ending: str
    write: Callable[[Drawing, Mapping[str, Layer]], bytes]
    faults: Callable[[bytes, Drawing], list[Disagreement]]
    is_ours: Callable[[bytes], bool]


def add_shared_arguments(parser: ArgumentParser, formats: Sequence[str]) -> None:
    """What is asked of a file for a machine, whichever it is."""
    add_pattern(parser, takes_pipe=False)
    add_out_folder(parser)
    add_pieces(parser)
    add_size_and_measures(parser)
    add_blocks(parser)
    parser.add_argument(
        "--kerf",
        metavar="D",
        type=length("--kerf", "a width that a cutter takes away", "0.2 mm", most="20 mm"),
        default="0",
        help="how wide a line the cutter takes away, such as '0.2 mm'",
    )
    parser.set_defaults(draft=False)
    add_format(parser, formats)


def add_format(parser: ArgumentParser, formats: Sequence[str]) -> None:
    parser.add_argument(
        "--format",
        metavar="F",
        type=one_of("--format", "format", formats),
        default=formats[0],
        help=f"{' or '.join(formats)}; {formats[0]} if not said",
    )
    parser.add_argument(
        "--dxf-version",
        metavar="V",
        type=one_of("--dxf-version", "version of DXF", RELEASES),
        help="r2010, or r12 for an old machine: lines, arcs and circles alone; r2010 if not said",
    )
    parser.add_argument(
        "--layers",
        metavar="FILE",
        type=layers_from,
        help="a TOML file that sets names and colours of layers",
    )
    expect_agreement(parser, expect_dxf)
    add_replace(parser)


@dataclass(frozen=True)
class Asked:
    """The words that are said of every such file, understood."""

    pattern: Pattern
    form: Format
    kerf: float
    layers: Mapping[str, Layer]


def asked_of(given: Namespace) -> Asked:
    return Asked(load_asked(given), format_of(given), given.kerf, layers_of(given))


def expect_dxf(given: Namespace) -> None:
    if given.dxf_version is not None and given.format not in (None, "dxf"):
        raise WrongUse(NOT_DXF, version=given.dxf_version, format=given.format.upper())


def format_of(given: Namespace) -> Format:
    return FORMATS[given.format](RELEASES[given.dxf_version or "r2010"])


def _svg(_: Release) -> Format:
    from drafting.output.layers_svg import is_our_svg, layers_to_svg
    from drafting.proof.machine import faults_in_layers_svg

    return Format("svg", layers_to_svg, faults_in_layers_svg, is_our_svg)


def _pdf(_: Release) -> Format:
    from drafting.output.pdf import is_ours, to_pdf
    from drafting.proof.machine import faults_in_layers_pdf

    return Format("pdf", lambda drawing, _: to_pdf([drawing]), faults_in_layers_pdf, is_ours)


def _dxf(release: Release) -> Format:
    from drafting.output.dxf import is_our_dxf, to_dxf
    from drafting.proof.machine import faults_in_dxf

    return Format("dxf", lambda drawing, layers: to_dxf(drawing, layers, release), faults_in_dxf, is_our_dxf)


FORMATS: dict[str, Callable[[Release], Format]] = {"svg": _svg, "dxf": _dxf, "pdf": _pdf}


def layers_of(given: Namespace) -> Mapping[str, Layer]:
    from drafting.drawing.machine import LAYERS

    layers: Mapping[str, Layer] = given.layers or LAYERS
    return layers


def layers_from(file: str) -> Mapping[str, Layer]:
    """The layers, as a file sets them."""
    from drafting.drawing.machine import LayerFault, layers_set

    try:
        return layers_set(tomllib.loads(read_source(file).text))
    except UnreadableSource as fault:
        reason = fault.reason
    except (tomllib.TOMLDecodeError, LayerFault) as fault:
        reason = str(fault)
    raise WrongUse(UNFIT_LAYERS, said=typed("--layers", file), reason=reason[:1].lower() + reason[1:])


@dataclass(frozen=True)
class Sheet:
    """One file to be written."""

    path: Path
    drawing: Drawing


def write_proved(sheets: Iterable[Sheet], asked: Asked, may_replace: Replacing) -> list[Path]:
    """Write all of them, read each back from the disk, and hold it against its drawing; all stand or none does."""
    listed, form = list(sheets), asked.form
    for sheet in listed:
        expect_ours(sheet.path, form.is_ours, may_replace)
    with FilesTogether() as files:
        with Progress(len(listed)) as progress:
            for sheet in listed:
                progress.step(f"writing {sheet.path.name}")
                with told_of_pages(sheet.path):
                    data = form.write(sheet.drawing, asked.layers)
                beside = files.write(sheet.path, data)
                expect_true(sheet.path, form.faults(beside.read_bytes(), sheet.drawing))
        return list(files.waiting)


def expect_true(file: Path, faults: Sequence[Disagreement]) -> None:
    for fault in faults[:1]:
        raise UntrueFile(WrongUse(UNTRUE_FILE, file=file, difference=fault).message)


@contextmanager
def told_of_pages(file: Path) -> Iterator[None]:
    """A sheet that is larger than any page becomes a message."""
    from drafting.output.pdf import LONGEST, PageTooLarge

    try:
        yield
    except PageTooLarge as fault:
        size = " by ".join(readable(side, "mm", ("mm",)) for side in fault.sides)
        raise WrongUse(NO_SUCH_PAGE, file=file, size=size, most=f"{LONGEST:.0f} mm") from None


@contextmanager
def told_of_kerf() -> Iterator[None]:
    """A cutter too wide for a line becomes a message."""
    from drafting.drawing.machine import KerfFault

    try:
        yield
    except KerfFault as fault:
        kerf, largest = (readable(width, "mm", ("mm",)) for width in (fault.kerf, fault.largest))
        raise WrongUse(WIDE_KERF, where=fault.where, kerf=kerf, largest=largest) from None


def warn(entry: Entry, **facts: object) -> None:
    message = WrongUse(entry, **facts).message
    print("awlwright: " + render_message(message, page_of(sys.stderr)), end="", file=sys.stderr)


def tell_missing_letters(texts: Iterable[str]) -> None:
    """Letters that cannot be engraved are named, not left out in silence."""
    from drafting.drawing.fonts import way_to
    from drafting.drawing.stroke_letters import missing_letters

    missing = missing_letters("".join(texts))
    if missing:
        letters = ", ".join(f"`{letter}`" for letter in missing)
        warn(UNENGRAVED, letters=letters, way=way_to(missing))
