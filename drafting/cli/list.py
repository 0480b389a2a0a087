"""`awlwright list FILE…`: what a batch takes, part by part, and what it costs."""

from __future__ import annotations

import re
import sys
from argparse import ArgumentParser, Namespace
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

from drafting.cli.checking import place_checked, tell
from drafting.cli.exits import FAULTS, FINE
from drafting.cli.reading import add_blocks, add_measures, load_named, wrong_names
from drafting.cli.together import FilesTogether, add_replace, expect_ours, replacing
from drafting.cli.values import any_name, file_to_write, is_pipe, length, one_of, readable, typed
from drafting.cli.words import WrongUse, WrongWords, expect_agreement, told_with
from drafting.records import dataclass
from drafting.text.catalogue.files import (
    NO_SUCH_SIZE,
    UNFIT_COPIES,
    UNFIT_YIELD,
    UNREADABLE_PRICES,
)
from drafting.text.messages import Messages, did_you_mean
from drafting.text.prices import PriceList, read_prices
from drafting.text.source import UnreadableSource, read_source

if TYPE_CHECKING:
    from drafting.face import Listed, Pattern, PlacedPattern

TELLS = """\
Lists every part with its stock, number, size and area; then what the whole batch takes: leather in dm² and ft²,
straps, hardware, thread of every seam, glue, and costs where a price list is given. Say the copies of a pattern
behind a colon and its size behind a stroke. A --yield is the part of a hide that becomes parts: net areas are divided
by it. A price list is a TOML file: `currency = "EUR"`, then for each thing a heading such as `[body]` with
`price = "95.00"`, `per = "m2"` (or dm2, ft2; m, yd of thread; 10 pieces) and for leather
`weight = "1600 g/m2"`; or a CSV file with the columns name, price, per, weight, currency. `[tag.body]` prices the
body of tag.draft alone.
"""
EXAMPLES = (
    "awlwright list tag.draft --copies 24",
    "awlwright list tag.draft:12 'belt.draft:6/90 cm' --yield 70% --prices prices.toml",
    "awlwright list belt.draft --size '90 cm' --format csv --out belt.csv",
)
FORMATS = ("table", "csv", "json", "md")
MOST_COPIES = 1_000_000
YIELD = re.compile(r"([0-9]+(?:\.[0-9]+)?)\s*%")


@dataclass(frozen=True)
class Wanted:
    """A pattern file, how many copies of it, and in which size; None where nothing is said of it."""

    file: str
    copies: int | None
    size: str | None


def add_order(parser: ArgumentParser, files: str) -> None:
    """The patterns of an order; `files` tells what the words may be."""
    parser.add_argument(
        "files",
        metavar="FILE[:COPIES][/SIZE]",
        nargs="+",
        type=order_word,
        help=files,
    )
    parser.add_argument(
        "--copies",
        metavar="N",
        type=copies_said,
        default=1,
        help="how many of each pattern that does not say so itself; else 1",
    )
    parser.add_argument(
        "--size",
        metavar="NAME",
        type=any_name("--size", "90 cm"),
        help="the size of each that does not say so itself",
    )
    add_measures(parser)


def add_arguments(parser: ArgumentParser) -> None:
    add_order(parser, "a pattern file, such as tag.draft, tag.draft:12 or 'belt.draft:6/90 cm'")
    parser.add_argument(
        "--yield",
        dest="fraction",
        metavar="PERCENT",
        type=fraction_of,
        default="100%",
        help="what part of a hide becomes parts, such as 70%%",
    )
    parser.add_argument("--prices", metavar="FILE", type=price_file, help="a price list, .toml or .csv")
    parser.add_argument(
        "--tail",
        metavar="D",
        type=length("--tail", "what a needle keeps of its thread", "150 mm", most="10000 mm"),
        default="150 mm",
        help="what each needle keeps of its thread at the end of a seam; 150 mm if not said",
    )
    add_format(parser, FORMATS, "a list")
    add_blocks(parser)


def add_format(parser: ArgumentParser, formats: tuple[str, ...], what: str) -> None:
    """`what` is what the command writes, such as `a list`."""
    parser.add_argument(
        "--format",
        metavar="F",
        type=one_of("--format", "format", formats),
        default="table",
        help=f"one of {', '.join(formats)}; without it what FILE ends in, else a table",
    )
    parser.add_argument("--out", metavar="FILE", type=file_to_write(what, ()), help="write it to a file")
    add_replace(parser)
    expect_agreement(parser, lambda given: format_by_name(given, formats))


def format_by_name(given: Namespace, formats: tuple[str, ...]) -> None:
    """A file called `list.csv` is written as such where no other format is said."""
    ending = Path(given.out or "").suffix.lower().removeprefix(".")
    if "--format" not in given.said and ending in formats:
        given.format = ending


def run(given: Namespace) -> int:
    import drafting

    expect_free(given, "list")
    wrong = Messages()
    wanted = order_of(given.files, wrong)
    prices, is_priced = prices_of(given.prices)
    placed, is_sound = placed_of(wanted, given, wrong)
    if not (is_sound and is_priced) or len(placed) < len(wanted):
        return FAULTS
    order = [(one, one_wanted.copies or given.copies) for one, one_wanted in zip(placed, wanted, strict=True)]
    listed = drafting.list_order(order, fraction=given.fraction, prices=prices, tail=given.tail)
    tell(listed.messages)
    give(text_of(listed, given.format), given, listed.made_from)
    return FINE


def prices_of(file: str | None) -> tuple[PriceList | None, bool]:
    """The price list of a file, if one is named, and whether it is sound; its faults are told at their rows."""
    if file is None:
        return None, True
    prices, messages = read_prices(file)
    return prices, not tell(messages)


def text_of(listed: Listed, form: str) -> str:
    writers = {
        "table": listed.to_text,
        "csv": listed.to_csv,
        "json": listed.to_json,
        "md": listed.to_markdown,
    }
    return writers[form]()


def expect_free(given: Namespace, what: str) -> None:
    """No file of another program, or of another kind, stands where this one goes; asked before the work is done."""
    from drafting.output.signed import is_signed

    if given.out is not None:
        expect_ours(Path(given.out), is_signed, replacing(given), what)


def give(text: str, given: Namespace, made_from: str) -> None:
    """To a file that says what it was made from, whole or not at all, or to the output."""
    from drafting.output.signed import signed

    if given.out is None:
        print(text, end="")
        return
    with FilesTogether() as files:
        files.write(Path(given.out), signed(text, given.format, made_from).encode("utf-8"))
    print(given.out, file=sys.stderr)


def order_word(word: str) -> str:
    """A word of an order whose copies are a count and whose file is there, as it is."""
    readable(wanted_of(word).file)
    return word


def copies_said(word: str) -> int:
    return copies_of(word, typed("--copies", word))


def price_file(file: str) -> str:
    """A price list that is there, as text."""
    try:
        if not is_pipe(file):
            read_source(file)
    except UnreadableSource as unreadable:
        raise WrongUse(UNREADABLE_PRICES, said=typed("--prices", file), reason=unreadable.reason) from None
    return file


def wrong_sizes(given: Namespace) -> Messages:
    """Faults of the price list, and sizes that are not there, where other words are wrong and some unread."""
    wrong = Messages()
    if vars(given).get("prices") is not None:
        wrong.extend(read_prices(given.prices)[1])
    for one in (wanted_of(word) for word in given.files if word not in (None, "-")):
        tell_names(one.file, [one], load_named(one.file, given.blocks), given, wrong)
    return wrong


def order_of(words: list[str], wrong: Messages) -> list[Wanted]:
    """What the words of an order ask for; copies that are none are kept in `wrong`."""
    wanted: list[Wanted] = []
    for word in words:
        with told_with(wrong):
            wanted.append(wanted_of(word))
    return wanted


def placed_of(wanted: list[Wanted], given: Namespace, wrong: Messages) -> tuple[list[PlacedPattern], bool]:
    """Each pattern in its size; every fault of every one is told.

    WrongWords tells what is in `wrong` already, every file that cannot be read and every name that is not there.
    """
    placed: dict[Wanted, PlacedPattern] = {}
    is_sound = True
    words = Namespace(settings=given.settings, draft=False)
    for file in dict.fromkeys(one.file for one in wanted):
        of_file = list(dict.fromkeys(one for one in wanted if one.file == file))
        sizes = [given.size if one.size is None else one.size for one in of_file]
        pattern = None
        with told_with(wrong):
            pattern = load_named(file, given.blocks)
        if pattern is None:
            continue
        if tell_names(file, of_file, pattern, given, wrong):
            continue
        checked = place_checked(pattern, words, sizes)
        placed |= dict(zip(of_file, checked.placed, strict=False))
        is_sound = is_sound and not checked.has_faults
    if wrong.has_errors:
        raise WrongWords(wrong)
    return [placed[one] for one in wanted if one in placed], is_sound


def tell_names(
    file: str, wanted: list[Wanted], pattern: Pattern, given: Namespace, messages: Messages
) -> bool:
    """Every size and measure asked of a pattern that it has not; whether there are any."""
    if pattern.messages.has_errors:
        return False
    by_option = Namespace(settings=given.settings)
    if any(one.size is None for one in wanted):
        by_option.size = given.size
    wrong = wrong_names(pattern, by_option)
    tell_sizes(file, [one.size for one in wanted], pattern.sizes, wrong)
    messages.extend(wrong)
    return wrong.has_errors


def tell_sizes(file: str, asked: list[str | None], known: tuple[str, ...], messages: Messages) -> None:
    """Every size that a pattern is not made in."""
    titles = ", ".join(f"`{title}`" for title in known)
    for size in (size for size in asked if size is not None and size not in known):
        mend = (
            f"Its sizes are {titles}.{did_you_mean(size, known)}"
            if known
            else "It has none: leave the size out."
        )
        messages.add(NO_SUCH_SIZE, at=None, file=file, size=size, mend=mend)


def wanted_of(word: str) -> Wanted:
    """`a.draft:12/"A5"`: a file whose own name has a colon or a stroke is known by being there."""
    if word == "-" or Path(word).is_file():
        return Wanted(word, None, None)
    ways = list(_ways(word))
    there = next((way for way in ways if way[0] == "-" or Path(way[0]).is_file()), None)
    numbered = next((way for way in ways if way[1] and way[1].strip().isdecimal()), None)
    file, copies, size = there or numbered or (word, None, None)
    return Wanted(file, copies_of(copies, word) if copies is not None else None, _unquoted(size))


def _ways(word: str) -> Iterator[tuple[str, str | None, str | None]]:
    """The ways to read a word as a file, copies and a size, the longest name of a file first."""
    for colon in reversed([found.start() for found in re.finditer(":", word)]):
        copies, stroke, size = word[colon + 1 :].partition("/")
        if copies.strip() and "\\" not in copies and colon > 0:
            yield word[:colon], copies, size if stroke else None
    for stroke_at in reversed([found.start() for found in re.finditer("/", word)]):
        yield word[:stroke_at], None, word[stroke_at + 1 :]


def _unquoted(size: str | None) -> str | None:
    if size is None:
        return None
    quoted = re.fullmatch(r"\s*([\"'“])(.*)([\"'”])\s*", size)
    return quoted[2] if quoted else size


def copies_of(text: str, given: str) -> int:
    """A whole number from 1 to a million."""
    if re.fullmatch(r"[0-9]{1,9}", text.strip()) and 1 <= int(text) <= MOST_COPIES:
        return int(text)
    raise WrongUse(UNFIT_COPIES, given=given, copies=text.strip(), most=f"{MOST_COPIES:,}")


def fraction_of(given: str) -> Fraction:
    """`70%` as 7/10."""
    found = YIELD.fullmatch(given.strip())
    if found is None or not 0 < Fraction(found[1]) <= 100:
        raise WrongUse(UNFIT_YIELD, said=typed("--yield", given))
    return Fraction(found[1]) / 100
