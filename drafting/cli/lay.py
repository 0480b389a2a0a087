"""`awlwright lay FILE… --out DIR`: where the parts of many copies come to lie on panels, a roll or hides.

Writes DIR/lay.json, which draws again to the same bytes; a drawing of each sheet; and each leftover as a hide. A lay is
verified apart from the search before any file is written, and every file comes to stand in its place, or none does.
"""

from __future__ import annotations

import re
import sys
import time
from argparse import ArgumentParser, Namespace
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Self

from drafting.cli.exits import FAULTS, FINE
from drafting.cli.failures import UntrueFile
from drafting.cli.list import Wanted, add_order, order_of, placed_of
from drafting.cli.print import paper_named
from drafting.cli.progress import QUIET_SECONDS, WIPE
from drafting.cli.reading import add_blocks, load_named, read_lay
from drafting.cli.together import (
    FilesTogether,
    Replacing,
    add_out_folder,
    add_replace,
    expect_ours,
    replacing,
)
from drafting.cli.values import any_name, file_there, length, typed
from drafting.cli.words import WrongUse, WrongWords, expect_agreement, never_together
from drafting.text.catalogue.files import UNTRUE_FILE
from drafting.text.catalogue.lays import (
    ALTERED_LAY,
    ENDLESS_PANEL,
    LEFT_FROM_BEFORE,
    NO_GRAIN_TO_LIE_BY,
    NO_SUCH_PIECE,
    NO_SUCH_STOCK,
    NO_TILED_SHEET,
    NOT_WITH_LAY,
    NOTHING_TO_CUT_FROM,
    OTHER_HIDE_PIECES,
    SEVERAL_STOCKS,
    TOO_MANY_PARTS,
    UNFIT_COUNT,
    UNFIT_FREEDOM,
    UNFIT_PANEL,
    UNFIT_STRAY,
    UNFIT_TIME,
    UNTRUE_LAY,
)
from drafting.text.messages import Messages, did_you_mean

if TYPE_CHECKING:
    from drafting.drawing.marks import Drawing
    from drafting.drawing.prints import Paper
    from drafting.face import LaidOut, PlacedPattern
    from drafting.lay import Freedom, Limits
    from drafting.lay.laying import Progress
    from drafting.proof.disagreement import Disagreement

TELLS = """\
Lay the parts of many copies on panels, on a roll or on hides: as many as go in, pairs turned over, each along the
backbone as its `grain` says. Writes lay.json, which draws again to the same bytes, a drawing of each sheet, and what is
left over as hides to lay on again. With --steps the same seed gives the same lay; a search by the clock may give
another one each time, of the same kind. Ctrl-C keeps the best so far."""
EXAMPLES = (
    "awlwright lay tag.draft --copies 24 --panel 600x400 --out lay",
    "awlwright lay tag.draft:12 badge-holder.draft:6/visitor --stock body --hide shoulder.draft --time 60 --out lay",
    "awlwright lay belt.draft --copies 10 --stock bridle --roll '1400 mm' --gap '3 mm' --steps 500 --seed 7 --out lay",
    "awlwright lay card-wallet.draft --copies 6 --panel 600x400 --grain upper=any --grain lower=across --out lay",
    "awlwright lay tag.draft --copies 40 --panel 600x400:2 --panel 450x300:1 --panel 900x600 --out lay",
    "awlwright lay lay/lay.json --out again",
)
MOST_PARTS = 5000
MOST_PANELS = 1000
LONGEST_SIDE = 20_000.0
"""Of a panel, in mm."""
MOST_SECONDS = 86400.0
PANEL = re.compile(
    r"\s*([0-9]+(?:\.[0-9]+)?)\s*[x×]\s*([0-9]+(?:\.[0-9]+)?)\s*(?:mm)?\s*(?::\s*([0-9]{1,4}))?\s*"
)
FREEDOM = re.compile(r"\s*([^=]+?)\s*=\s*(?:(along)|(across)|(any)|([0-9]+(?:\.[0-9]+)?)\s*(?:deg|°)?)\s*")
DRAWING = ("--paper", "--dxf", "--png", "--out", "--replace", "--blocks")
"""Options that say how a lay is drawn, and not what lies where."""
FILES = re.compile(r"lay\.(json|pdf)|sheet-[0-9]+\.(svg|png|dxf)|leftover-[0-9]+-[0-9]+\.draft")
"""What the files of a lay are called."""
SECONDS = 20.0
"""Without a word on it, and without steps."""
WORKERS = 2


def add_arguments(parser: ArgumentParser) -> None:
    add_order(parser, "a pattern file, such as tag.draft or tag.draft:12; or a lay.json, to draw it again")
    _add_stock(parser)
    _add_freedom(parser)
    _add_search(parser)
    parser.add_argument(
        "--paper",
        metavar="P",
        type=paper_named,
        help="write lay.pdf, too: all sheets at true size on this paper",
    )
    parser.add_argument(
        "--dxf", action="store_true", help="write the outlines on each sheet at true size for a machine, too"
    )
    parser.add_argument("--png", action="store_true", help="write a picture beside each drawing, too")
    add_out_folder(parser)
    add_replace(parser)
    add_blocks(parser)
    expect_agreement(parser, expect_stock_or_lay)


def _add_stock(parser: ArgumentParser) -> None:
    parser.add_argument(
        "--panel",
        dest="panels",
        action="append",
        default=[],
        metavar="WxH[:K]",
        type=panel_of,
        help="panels so wide and high in mm, K of them, or as many as are needed; may be said again for others that "
        "are cut when these are full",
    )
    parser.add_argument(
        "--roll",
        metavar="W",
        type=length("--roll", "a width of a roll", "1400 mm", most="20000 mm", is_above_zero=True),
        help="a roll so wide, such as '1400 mm'; it is used as short as can be found",
    )
    parser.add_argument(
        "--hide",
        dest="hides",
        metavar="HIDE",
        action="append",
        default=[],
        type=file_there("--hide", "shoulder.draft"),
        help="a hide: a pattern file whose pieces are hides; may be said again",
    )
    never_together(parser, "--panel", "--roll", "--hide")
    parser.add_argument(
        "--stock",
        dest="stocks",
        metavar="NAME",
        action="append",
        default=[],
        type=any_name("--stock", "body"),
        help="lay the parts of this stock; may be said again",
    )
    for option, usual, tells in (
        ("--gap", "2 mm", "between parts, for the blade"),
        ("--margin", "5 mm", "from the edge and from defects"),
    ):
        parser.add_argument(
            option,
            metavar="D",
            type=length(option, "room to leave", usual, most="1000 mm"),
            default=usual,
            help=f"{tells}; {usual} if not said",
        )


def _add_freedom(parser: ArgumentParser) -> None:
    parser.add_argument(
        "--across", action="store_true", help="parts with a grain may lie square to the backbone, too"
    )
    parser.add_argument(
        "--stray",
        metavar="DEG",
        type=stray_of,
        default="0",
        help="how many degrees a grain may be off the backbone; 0 if not said",
    )
    parser.add_argument(
        "--grain",
        dest="grains",
        metavar="PIECE=HOW",
        action="append",
        default=[],
        type=grain_word,
        help="how one piece may lie, whatever holds for the others: `along` the backbone, `across` it too, "
        "so many degrees off it, or `any` way; may be said again",
    )
    for option, tells in (
        ("firm", "must come from the firm zone"),
        ("poor", "may come from poor zones, too"),
    ):
        parser.add_argument(
            f"--{option}",
            metavar="PIECE",
            action="append",
            default=[],
            type=any_name(f"--{option}", "front"),
            help=f"a piece that {tells}; may be said again",
        )


def _add_search(parser: ArgumentParser) -> None:
    parser.add_argument(
        "--time",
        metavar="S",
        type=seconds_of,
        help=f"search so many seconds, but fill each sheet once; else {SECONDS:.0f}",
    )
    parser.add_argument(
        "--steps",
        metavar="N",
        type=whole_number("--steps", 1, 10**9, 500),
        help="search so many steps on each sheet, however long it takes",
    )
    parser.add_argument(
        "--seed",
        metavar="N",
        type=whole_number("--seed", 0, 10**9, 7),
        default="1",
        help="another number, another lay; 1 if not said",
    )


def run(given: Namespace) -> int:
    expect_free(Path(given.out), replacing(given))
    if is_drawn_again(given):
        write_all(sound_lay(given.files[0]), Path(given.out), given.paper, given)
        return FINE
    laid = lay_named(given)
    if laid is None:
        return FAULTS
    expect_true(laid)
    written = write_all(laid, Path(given.out), given.paper, given)
    print(laid.to_text(), end="")
    tell_of_others(Path(given.out), written)
    return FINE


def is_drawn_again(given: Namespace) -> bool:
    """Whether a lay is named that was kept as a file."""
    return len(given.files) == 1 and str(given.files[0]).endswith(".json")


def expect_stock_or_lay(given: Namespace) -> None:
    """Either there is something to cut from, or a lay which says all that but how it is to be drawn."""
    if is_drawn_again(given):
        other = [option for option in given.said if option not in DRAWING]
        if other:
            raise WrongUse(NOT_WITH_LAY, option=other[0], file=given.files[0])
    elif any(panel and panel[2] is None for panel in (given.panels or [])[:-1]):
        raise WrongUse(ENDLESS_PANEL)
    elif not {"--panel", "--roll", "--hide"} & set(given.said):
        raise WrongUse(NOTHING_TO_CUT_FROM)


def expect_free(out: Path, may_replace: Replacing) -> None:
    """Nothing of another program stands where a file of a lay may go; asked before the search, which may be long."""
    there = sorted(out.iterdir()) if out.is_dir() else []
    named = [path for path in there if FILES.fullmatch(path.name)]
    drawn_again = Replacing(may_replace.others)
    for path in named:
        expect_ours(path, knows_ours(path.suffix), drawn_again if path.suffix == ".json" else may_replace)


def knows_ours(suffix: str) -> Callable[[bytes], bool]:
    """What tells whether a file was written here. Only its own writer is loaded: the search has not begun yet."""
    if suffix == ".json":
        from drafting.output.lays import is_our_lay

        return is_our_lay
    if suffix == ".pdf":
        from drafting.output.pdf import is_ours

        return is_ours
    if suffix == ".png":
        from drafting.output.png import is_our_picture

        return is_our_picture
    if suffix == ".dxf":
        from drafting.output.dxf import is_our_dxf

        return is_our_dxf
    from drafting.output.signed import is_signed

    return is_signed


def sound_lay(file: str) -> LaidOut:
    laid = read_lay(file)
    for violation in laid.violations():
        raise WrongUse(ALTERED_LAY, file=file, difference=violation)
    return laid


def lay_named(given: Namespace) -> LaidOut | None:
    """The lay that the command asks for; None where faults are told that keep it from being searched."""
    import drafting
    from drafting.cli.checking import tell

    wrong = Messages()
    wanted = order_of(given.files, wrong)
    for panel in given.panels if given.paper else ():
        expect_printable(panel, given.paper)
    placed, is_sound = placed_of(wanted, given, wrong)
    if not is_sound or len(placed) < len(wanted):
        return None
    order = [(one, each.copies or given.copies) for one, each in zip(placed, wanted, strict=True)]
    expect_few_parts(order)
    expect_names(placed, given)
    freedoms = freedoms_of(given, placed)
    hides = [hide for file in given.hides for hide in hides_of(file, given)]
    if given.hides and not hides:
        return None
    with ToldProgress() as progress:
        laid = drafting.lay_order(
            order, panels=given.panels, roll=given.roll, hides=hides, stocks=given.stocks or None, gap=given.gap,
            margin=given.margin, freedom=freedom_of(given), freedoms=freedoms, firm=given.firm, poor=given.poor,
            limits=limits_of(given), tell=progress.tell,
        )  # fmt: skip
    tell(laid.messages)
    return laid


def expect_printable(panel: tuple[float, float, int | None], paper: Paper) -> None:
    """A panel that tiles of the paper can carry; asked before the search, whose finds would be lost."""
    from drafting.drawing.prints import expect_few_tiles
    from drafting.geometry.bounds import Bounds

    wide, high, _ = panel
    with told_of_tiles():
        expect_few_tiles("sheet 1", Bounds(0.0, 0.0, wide, high), wide * high, paper)


@contextmanager
def told_of_tiles() -> Iterator[None]:
    """A sheet of stock that no tiles of the paper can carry becomes a message."""
    from drafting.drawing.prints import TooManyTiles

    try:
        yield
    except TooManyTiles as fault:
        facts = {"sheet": fault.piece, "tiles": f"{fault.tiles:,}", "paper": fault.paper}
        raise WrongUse(NO_TILED_SHEET, **facts) from None


def freedom_of(given: Namespace) -> Freedom:
    from drafting.lay import Freedom

    return Freedom(given.stray, given.across)


def stray_of(given: str) -> float:
    """Degrees."""
    if not re.fullmatch(r"[0-9]+(\.[0-9]+)?", given.strip()) or float(given) > 90:
        raise WrongUse(UNFIT_STRAY, said=typed("--stray", given))
    return float(given)


def grain_word(word: str) -> str:
    """A word that says how a piece may lie, as it is."""
    read = FREEDOM.fullmatch(word)
    if read is None or float(read[5] or 0) > 90:
        raise WrongUse(UNFIT_FREEDOM, said=typed("--grain", word))
    return word


def freedoms_of(given: Namespace, placed: list[PlacedPattern]) -> dict[str, Freedom | None]:
    """How single pieces may lie; None is any way."""
    from drafting.lay import Freedom

    found: dict[str, Freedom | None] = {}
    for word in given.grains:
        read = FREEDOM.fullmatch(word)
        assert read is not None, "the word was read before"
        found[read[1]] = None if read[4] else Freedom(float(read[5] or 0), bool(read[3]))
        if found[read[1]] is not None and not has_grain(placed, read[1]):
            raise WrongUse(NO_GRAIN_TO_LIE_BY, given=word, piece=read[1])
    return found


def has_grain(placed: list[PlacedPattern], name: str) -> bool:
    return any(one.pieces[name].grain not in (None, "any") for one in placed if name in one.pieces)


def limits_of(given: Namespace) -> Limits:
    """By steps, by the clock, or by both, whichever ends first."""
    from drafting.lay import Limits

    seconds = SECONDS if given.time is None and given.steps is None else given.time
    return Limits(seconds, given.steps, given.seed, WORKERS)


def seconds_of(given: str) -> float:
    if (
        not re.fullmatch(r"\s*[0-9]+(\.[0-9]+)?\s*s?\s*", given)
        or not 0 < (seconds := float(given.strip().rstrip("s"))) <= MOST_SECONDS
    ):
        raise WrongUse(UNFIT_TIME, said=typed("--time", given))
    return seconds


def whole_number(option: str, least: int, most: int, example: int) -> Callable[[str], int]:
    def read(given: str) -> int:
        if re.fullmatch(r"[0-9]{1,10}", given.strip()) and least <= int(given) <= most:
            return int(given)
        facts = {"option": option, "least": least, "most": f"{most:,}", "example": example}
        raise WrongUse(UNFIT_COUNT, said=typed(option, given), **facts)

    return read


def panel_of(given: str) -> tuple[float, float, int | None]:
    """`600x400:3` as its sides and how many there are."""
    found = PANEL.fullmatch(given)
    sides = (float(found[1]), float(found[2])) if found else (0.0, 0.0)
    if (
        found is None
        or not (0 < min(sides) and max(sides) <= LONGEST_SIDE)
        or (found[3] and int(found[3]) < 1)
    ):
        raise WrongUse(UNFIT_PANEL, said=typed("--panel", given), most=f"{LONGEST_SIDE:,.0f} mm")
    return *sides, min(int(found[3]), MOST_PANELS) if found[3] else None


def expect_few_parts(order: list[tuple[PlacedPattern, int]]) -> None:
    counts = (
        copies * piece.count * (2 if piece.pair else 1)
        for one, copies in order
        for piece in one.pieces.values()
    )
    parts = sum(counts)
    if parts > MOST_PARTS:
        raise WrongUse(TOO_MANY_PARTS, parts=f"{parts:,}", most=f"{MOST_PARTS:,}")


def expect_names(placed: list[PlacedPattern], given: Namespace) -> None:
    """The stock is one, or chosen; pieces named are pieces of the order. WrongWords tells all that are not."""
    wrong = Messages()
    stocks = list(dict.fromkeys(piece.stock or "" for one in placed for piece in one.pieces.values()))
    known = ", ".join(f"`{name}`" for name in stocks if name) or "none"
    for stock in given.stocks:
        if stock not in stocks:
            near = did_you_mean(stock, stocks)
            wrong.add(NO_SUCH_STOCK, at=None, said=typed("--stock", stock), known=known, meant=near)
    if len(stocks) > 1 and not given.stocks:
        first = next(name for name in stocks if name)
        wrong.add(SEVERAL_STOCKS, at=None, stocks=known, first=first)
    pieces = list(dict.fromkeys(name for one in placed for name in one.pieces))
    for option, word, piece in pieces_named(given):
        if piece not in pieces:
            said, near = typed(option, word), did_you_mean(piece, pieces)
            listed = ", ".join(f"`{name}`" for name in pieces)
            wrong.add(NO_SUCH_PIECE, at=None, said=said, known=listed, meant=near)
    if wrong.has_errors:
        raise WrongWords(wrong)


def pieces_named(given: Namespace) -> Iterator[tuple[str, str, str]]:
    """Each option that names a piece, with its word and the piece."""
    yield from (("--firm", piece, piece) for piece in given.firm)
    yield from (("--poor", piece, piece) for piece in given.poor)
    yield from (("--grain", word, word.partition("=")[0].strip()) for word in given.grains)


def hides_of(file: str, given: Namespace) -> list[PlacedPattern]:
    """The hide file, placed; nothing where it has faults, which are told."""
    if not load_named(file, given.blocks).pieces:
        raise WrongUse(OTHER_HIDE_PIECES, file=file)
    placed, is_sound = placed_of(
        [Wanted(file, None, None)], Namespace(settings=[], size=None, blocks=given.blocks), Messages()
    )
    return placed if is_sound else []


def expect_true(laid: LaidOut) -> None:
    """Judged apart from the search that found it."""
    for violation in laid.violations():
        raise UntrueFile(WrongUse(UNTRUE_LAY, difference=violation).message)


def write_all(laid: LaidOut, out: Path, paper: Paper | None, given: Namespace) -> list[Path]:
    """Write what is wanted of a lay, tell of each file, and give them back."""
    from drafting.proof.lays import check_lay_svg

    with FilesTogether() as files:
        files.write(out / "lay.json", laid.to_json().encode())
        for number, sheet in enumerate(laid.drawings(), start=1):
            beside = files.write(out / f"sheet-{number}.svg", sheet.to_svg().encode())
            expect_drawn(
                check_lay_svg(beside.read_text("utf-8"), laid.lay, number), out / f"sheet-{number}.svg"
            )
            if given.png:
                files.write(out / f"sheet-{number}.png", sheet.to_png())
        for number, drawing in enumerate(laid.cuts() if given.dxf else (), start=1):
            write_dxf(files, drawing, out / f"sheet-{number}.dxf")
        for name, text in laid.leftovers().items():
            files.write(out / f"{name}.draft", text.encode())
        if paper is not None:
            write_prints(files, laid, out / "lay.pdf", paper)
        written = list(files.waiting)
    for path in written:
        print(path)
    return written


def tell_of_others(out: Path, written: list[Path]) -> None:
    """Files of an earlier lay lie beside these as if they were of this one."""
    from drafting.cli.checking import tell

    names = {path.name for path in written}
    others = sorted(
        path.name for path in out.iterdir() if FILES.fullmatch(path.name) and path.name not in names
    )
    if others:
        first, *more = others
        files = f"`{first}` and {len(more)} more" if more else f"`{first}`"
        messages = Messages()
        messages.add(LEFT_FROM_BEFORE, at=None, files=files, are="are" if more else "is", out=out)
        tell(messages)


def write_dxf(files: FilesTogether, drawing: Drawing, out: Path) -> None:
    """Read back by another reader before it counts."""
    from drafting.drawing.machine.layers import LAYERS
    from drafting.output.dxf import to_dxf
    from drafting.proof.machine import faults_in_dxf

    beside = files.write(out, to_dxf(drawing, LAYERS))
    expect_drawn(faults_in_dxf(beside.read_bytes(), drawing), out)


def write_prints(files: FilesTogether, laid: LaidOut, out: Path, paper: Paper) -> None:
    """True size, measured again before it counts."""
    from drafting.proof.pdf import check_pdf

    with told_of_tiles():
        prints = laid.prints(paper)
    beside = files.write(out, prints.to_pdf())
    expect_drawn(check_pdf(beside.read_bytes(), laid.placed, prints.sheets), out)


def expect_drawn(found: Iterable[Disagreement], out: Path) -> None:
    for disagreement in found:
        raise UntrueFile(WrongUse(UNTRUE_FILE, file=out, difference=disagreement).message)


class ToldProgress:
    """Tells the best so far on the error output: on a terminal on one line, elsewhere now and then."""

    def __init__(self) -> None:
        self.told = self.started = time.monotonic()
        self.is_shown = False

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *error: object) -> None:
        if self.is_shown and sys.stderr.isatty():
            print(WIPE, end="", file=sys.stderr, flush=True)

    def tell(self, best: Progress) -> None:
        on_terminal, now = sys.stderr.isatty(), time.monotonic()
        if now - self.started < QUIET_SECONDS or now - self.told < (0.2 if on_terminal else 5.0):
            return
        line = (
            f"sheet {best.sheet + 1}: {best.parts} parts, {100 * best.of_usable:.1f} % used, "
            f"{best.length:.0f} mm long; Ctrl-C keeps the best"
        )
        print(
            WIPE + line if on_terminal else line, end="" if on_terminal else "\n", file=sys.stderr, flush=True
        )
        self.told, self.is_shown = now, True
