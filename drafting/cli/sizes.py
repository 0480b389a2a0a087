"""`awlwright sizes FILE`: every size beside the others, as a chart or as a drawing of all over each other."""

from __future__ import annotations

import sys
from argparse import ArgumentParser, Namespace
from typing import TYPE_CHECKING

from drafting.cli.checking import tell
from drafting.cli.exits import FAULTS, FINE
from drafting.cli.list import add_format, expect_free, give
from drafting.cli.progress import Progress
from drafting.cli.reading import (
    add_blocks,
    add_pattern,
    add_size_and_measures,
    load_asked,
    settings_of,
    told_of_words,
)
from drafting.cli.values import any_name
from drafting.cli.words import WrongUse, expect_agreement
from drafting.text.catalogue.files import LACKING_WORDS, ONLY_WITH, TOO_MANY_DRAWN, TOO_MANY_SIZES

if TYPE_CHECKING:
    from drafting.craft.lists.sizing import Asked, SizedRow
    from drafting.face import Pattern, Sizes

TELLS = """\
Charts every size of a pattern: measures, the size of each piece, stitches of each seam, stock, thread, and which rules
hold. A measure may be swept: --with rim=7mm..14mm/0.5mm goes from 7 mm to 14 mm in steps of 0.5 mm; several sweeps are
combined. A size with faults keeps its row and says what is wrong. With --format svg all sizes are drawn over each
other, of one piece at true size if it is named.
"""
EXAMPLES = (
    "awlwright sizes belt.draft",
    "awlwright sizes badge-holder.draft --size visitor --with rim=7mm..14mm/0.5mm --format csv --out rim.csv",
    "awlwright sizes badge-holder.draft --format svg --piece front --out front-sizes.svg",
)
FORMATS = ("table", "csv", "json", "md", "svg")
MOST_SIZES = 20_000
MOST_STEPS = 50
"""Steps of progress that a long run is told in."""


def add_arguments(parser: ArgumentParser) -> None:
    add_pattern(parser)
    add_size_and_measures(parser, "this size alone; without it all of them")
    parser.add_argument(
        "--quick",
        action="store_true",
        help="thousands of sizes in seconds: measures, outer sizes, stock, ranges and checks of measures; no seams and "
        "no rules of the workshop",
    )
    parser.add_argument(
        "--piece",
        metavar="P",
        type=any_name("--piece", "front"),
        help="of a drawing (`--format svg`), this piece only, at true size",
    )
    add_format(parser, FORMATS, "a chart")
    add_blocks(parser)
    parser.set_defaults(takes_sweeps=True)
    expect_agreement(parser, expect_drawing)


def run(given: Namespace) -> int:
    expect_free(given, "sizes")
    pattern = load_asked(given)
    if pattern.messages.has_errors:
        tell(pattern.messages)
        return FAULTS
    with told_of_words(pattern):
        asked = pattern.asked_sizes(given.size, settings_of(given.settings))
    expect_so_many(len(asked), given.format)
    sizes = worked_out(pattern, asked, given)
    if given.format == "svg":
        tell_left_out(sizes)
    give(text_of(sizes, given), given, sizes.made_from())
    return FINE if all(row.is_sound for row in sizes.rows) else FAULTS


def expect_drawing(given: Namespace) -> None:
    """A drawing goes into a file, and of one piece there is nothing but a drawing."""
    if given.format == "svg" and "--out" not in given.said:
        raise WrongUse(
            LACKING_WORDS, command="awlwright sizes --format svg", lacking="--out", example=EXAMPLES[2]
        )
    if given.piece is not None and given.format not in (None, "svg"):
        raise WrongUse(ONLY_WITH, option="--piece", other="--format svg", example=EXAMPLES[2])


def expect_so_many(count: int, form: str) -> None:
    from drafting.drawing import MOST_DRAWN

    if count > MOST_SIZES:
        raise WrongUse(TOO_MANY_SIZES, count=f"{count:,} sizes", most=f"{MOST_SIZES:,}")
    if form == "svg" and count > MOST_DRAWN:
        raise WrongUse(TOO_MANY_DRAWN, count=f"{count:,}", most=MOST_DRAWN)


def worked_out(pattern: Pattern, asked: list[Asked], given: Namespace) -> Sizes:
    import drafting
    from drafting.craft.lists.in_processes import rows_of
    from drafting.craft.lists.quick_sizes import quick_rows

    rows: list[SizedRow] = []
    share = -(-len(asked) // MOST_STEPS)
    with Progress(-(-len(asked) // share), is_even=True) as progress:
        for row in (quick_rows if given.quick else rows_of)(pattern.draft, asked):
            if len(rows) % share == 0:
                progress.step(f"working out {row.asked.name or 'the pattern'}")
            rows.append(row)
    return drafting.Sizes(pattern, tuple(rows), given.size, settings_of(given.settings), given.quick)


def tell_left_out(sizes: Sizes) -> None:
    """A drawing has no rows in which faults could stand."""
    for row in sizes.rows:
        if not row.is_sound:
            said = "; ".join(dict.fromkeys(f"{one.code} {one.says}" for one in row.found))
            print(f"left out of the drawing: {row.asked.name or 'the pattern'}: {said}", file=sys.stderr)


def text_of(sizes: Sizes, given: Namespace) -> str:
    match given.format:
        case "csv":
            return sizes.to_csv()
        case "json":
            return sizes.to_json()
        case "md":
            return sizes.to_markdown()
        case "svg":
            return sizes.drawing(given.piece).to_svg()
    return sizes.to_text()
