"""`awlwright roster FILE people.csv --out DIR`: one set for each row of a table of people.

Writes an engraving for each person, one PDF of cards and a work list. Every file is read back and compared before any
of them comes to stand in its place; a fault in the pattern or in any row leaves the folder as it was.
"""

from __future__ import annotations

import sys
from argparse import ArgumentParser, Namespace
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING
from unicodedata import category

from drafting.cli.checking import tell
from drafting.cli.draw import file_names
from drafting.cli.exits import FAULTS, FINE
from drafting.cli.machine_files import Format, add_format, expect_true, format_of, layers_of
from drafting.cli.print import add_paper, expect_our_pdf
from drafting.cli.progress import Progress
from drafting.cli.reading import (
    add_blocks,
    add_pattern,
    add_size_and_measures,
    load_named,
    settings_of,
    wrong_names,
)
from drafting.cli.together import FilesTogether, Replacing, add_out_folder, expect_ours, replacing
from drafting.cli.values import any_name, is_pipe, length, one_of, typed, unknown_value
from drafting.cli.words import WrongUse, WrongWords, never_together
from drafting.records import replace
from drafting.text.catalogue.roster import CARD_TOO_LARGE, UNFIT_PAIR, UNKNOWN_ENCODING, UNREADABLE_TABLE
from drafting.text.messages import Messages, Severity, did_you_mean
from drafting.text.source import UnreadableSource
from drafting.text.table import KNOWN_ENCODINGS, SEPARATORS, Table, is_text_encoding, read_table

if TYPE_CHECKING:
    from drafting.drawing.roster import CardSheet, Person, Roster, Wishes
    from drafting.face import Pattern

TELLS = """\
Makes one set for each row of a table: the words of every stamp fitted to its box as lines for an engraver, in
one SVG a person; cards to go into the item, on sheets with cut marks, in one PDF; and a work list that says
which file is whose. A stamp with `roster "name"` takes the column `name`, else the one called like the stamp;
--column says otherwise, and also sets the size or a measure from a column, each cell with its unit (`85 cm`).
Cards are as large as the content of the pattern that is no thicker than 1 mm, and say every column unless
--line says what. The table is CSV in UTF-8 with a line of headings; comma, semicolon and tab are told apart. It
is read on this machine and nothing of it goes anywhere else; a fault in any row is told with its line, and then
nothing is written.
"""
EXAMPLES = (
    "awlwright roster belt.draft crew.csv --out belts",
    "awlwright roster belt.draft crew.csv --out belts --column owner=Initials --column size=Belt",
    "awlwright roster belt.draft crew.csv --out belts --column waist=Waist --letters outline --even",
    "awlwright roster badge-holder.draft choir.csv --out badges --line '{name}' --line '{voice}, {town}'",
    "awlwright roster badge-holder.draft choir.csv --out badges --qr '{number}' --encoding cp1252",
    "awlwright roster key-fob.draft fleet.csv --out stamps --mirror",
)
KINDS = ("stroke", "outline")
MOST_TOLD = 40
LONGEST_NAME = 40


def add_arguments(parser: ArgumentParser) -> None:
    add_pattern(parser)
    parser.add_argument(
        "people", metavar="PEOPLE.csv", type=table_file, help="the table, a row for each person"
    )
    add_out_folder(parser)
    parser.add_argument(
        "--column",
        dest="columns",
        metavar="WHAT=HEADING",
        action="append",
        default=[],
        type=pair,
        help="the heading that feeds a stamp (`owner`, or `front.owner`), a measure, or `size`; may be said again",
    )
    parser.add_argument(
        "--encoding",
        metavar="E",
        type=encoding_named,
        help="what the table is saved as, if not UTF-8, such as cp1252",
    )
    parser.add_argument(
        "--separator",
        metavar="S",
        type=separator_named,
        help="what stands between cells: comma, semicolon or tab",
    )
    add_engraving(parser)
    add_format(parser, ("svg", "dxf"))
    add_cards(parser)
    add_size_and_measures(parser)
    add_blocks(parser)


def add_engraving(parser: ArgumentParser) -> None:
    parser.add_argument(
        "--letters",
        metavar="KIND",
        type=one_of("--letters", "kind of letters", KINDS),
        default="stroke",
        help="stroke, of single lines, or outline; stroke if not said",
    )
    parser.add_argument(
        "--least",
        metavar="D",
        type=length("--least", "a height of capitals", "2 mm", most="100 mm", is_above_zero=True),
        default="1.5 mm",
        help="the lowest capitals to engrave; 1.5 mm if not said",
    )
    parser.add_argument("--even", action="store_true", help="letters of one height for everybody")
    parser.add_argument(
        "--mirror",
        action="store_true",
        help="only the boxes of the stamps, mirrored, to make a stamp that prints",
    )


def add_cards(parser: ArgumentParser) -> None:
    parser.add_argument(
        "--card",
        metavar="CONTENT",
        type=any_name("--card", "card"),
        help="the content of the pattern that cards are for",
    )
    parser.add_argument("--no-cards", action="store_true", help="no cards, whatever the pattern holds")
    parser.add_argument(
        "--line",
        dest="lines",
        metavar="TEXT",
        action="append",
        default=[],
        type=any_name("--line", "{name}"),
        help="a line of the card, headings in braces, such as '{name}, {town}'; may be said again",
    )
    parser.add_argument(
        "--qr",
        metavar="TEXT",
        type=any_name("--qr", "{number}"),
        help="put a QR code on each card that says this, such as '{number}'",
    )
    add_paper(parser, "of the cards: ")
    for option in ("--card", "--line", "--qr"):
        never_together(parser, "--no-cards", option)


def run(given: Namespace) -> int:
    wishes = wishes_of(given)
    form = format_of(given)
    out = Path(given.out)
    expect_our_pdf(out / "cards.pdf", replacing(given))
    expect_our_list(out / "roster.csv", replacing(given))
    pattern = load_named(given.file, given.blocks)
    table, said = read_table(given.people, given.encoding, given.separator)
    wrong = wrong_asked(pattern, table, given)
    if wrong.has_errors:
        raise WrongWords(wrong)
    unsound = Messages() if given.settings else pattern.check()
    if table is None or unsound.has_errors:
        tell_some([said, unsound])
        return FAULTS
    with Progress(len(table.rows)) as progress:
        told = lambda who: progress.step(f"fitting {who}")  # noqa: E731
        roster, found = pattern.roster_with(table, wishes, settings_of(given.settings), told)
    if tell_some([said, unsound, found]) or roster is None:
        return FAULTS
    write_roster(roster, out, form, replacing(given))
    return FINE


def wishes_of(given: Namespace) -> Wishes:
    return replace(
        named_wishes(given),
        size=given.size,
        letters=given.letters,
        layers=layers_of(given),
        least=given.least,
        is_even=given.even,
        is_mirrored=given.mirror,
        paper=given.paper,
    )


def named_wishes(given: Namespace) -> Wishes:
    """What is asked for by names that the pattern or the table should have; a word that is wrong already is None."""
    from drafting.drawing.roster import Wishes

    return Wishes(
        columns=dict(pair_of(word) for word in given.columns if word is not None),
        card=given.card,
        has_cards=not given.no_cards,
        lines=tuple(line for line in given.lines if line is not None),
        qr=given.qr,
    )


def wrong_asked(pattern: Pattern, table: Table | None, given: Namespace) -> Messages:
    """All that is asked for by names that are not there."""
    wrong = wrong_names(pattern, given)
    if table is not None and not pattern.messages.has_errors:
        wrong.extend(pattern.roster_wishes_messages(table, named_wishes(given)))
    return wrong


def wrong_in_roster(given: Namespace) -> Messages:
    """The same where other words are wrong already, and some could not be read."""
    if given.file in (None, "-") or given.settings is None:
        return Messages()
    people = None if given.people is None or is_pipe(given.people) else given.people
    table = read_table(people, given.encoding, given.separator)[0] if people else None
    return wrong_asked(load_named(given.file, given.blocks), table, given)


def table_file(file: str) -> str:
    """A table that can be opened."""
    try:
        if not is_pipe(file):
            read_table(file)
    except UnreadableSource as fault:
        raise WrongUse(UNREADABLE_TABLE, file=file, reason=fault.reason) from None
    return file


def pair(word: str) -> str:
    """A word that says which column feeds what, as it is."""
    if not all(pair_of(word)):
        raise WrongUse(UNFIT_PAIR, said=typed("--column", word))
    return word


def pair_of(word: str) -> tuple[str, str]:
    what, _, heading = word.partition("=")
    return what.strip(), heading.strip()


def encoding_named(given: str) -> str:
    if not is_text_encoding(given):
        near = did_you_mean(given, KNOWN_ENCODINGS)
        raise WrongUse(UNKNOWN_ENCODING, said=typed("--encoding", given), near=near)
    return given


def separator_named(given: str) -> str:
    """By its name or as it is typed."""
    marks = {called: mark for mark, called in SEPARATORS.items()}
    if given in SEPARATORS:
        return given
    if given.casefold() not in marks:
        raise unknown_value("--separator", "separator", given, marks)
    return marks[given.casefold()]


def tell_some(found: Iterable[Messages]) -> bool:
    """Show what was found, of very many only the first; whether there are errors in it. Errors go before warnings."""
    every = [message for messages in found for message in messages]
    errors = [message for message in every if message.severity is Severity.ERROR]
    shown = Messages()
    shown.extend((errors or every)[:MOST_TOLD] if len(every) > MOST_TOLD else every)
    tell(shown)
    if len(every) > len(shown):
        print(f"and {len(every) - len(shown)} more that are not shown here", file=sys.stderr)
    return bool(errors)


# Writing


def expect_our_list(place: Path, may_replace: Replacing) -> None:
    """A place where no table of another program stands, such as that of the people."""
    from drafting.output.signed import is_signed

    expect_ours(place, is_signed, may_replace)


def write_roster(roster: Roster, out: Path, form: Format, may_replace: Replacing) -> None:
    """All files, each read back from the disk and compared with what is to be made."""
    from drafting.output.work_list import work_list

    names = engraving_names(roster, form.ending)
    sheets = sheets_of_cards(roster)
    for name in names.values():
        expect_ours(out / name, form.is_ours, may_replace)
    with FilesTogether() as files:
        with Progress(len(names)) as progress:
            for person in roster.people:
                if person.number in names:
                    progress.step(f"engraving {person.title}")
                    write_engraving(files, out / names[person.number], roster, person, form)
        if sheets:
            write_cards(files, out / "cards.pdf", sheets)
        files.write(out / "roster.csv", work_list(roster, names, sheets).encode())
    tell_written(roster, out, names, sheets)


def engraving_names(roster: Roster, ending: str) -> dict[int, str]:
    """A file name for each person who has words engraved, safe on any system and different from all others."""
    digits = max(3, len(str(len(roster.people))))
    wanted = {
        f"{person.number:0{digits}}-{short(person.title)}": person.number
        for person in roster.people
        if person.inscriptions
    }
    return {
        number: f"engraving/{name}.{ending}"
        for fit, name in file_names(wanted).items()
        for number in [wanted[fit]]
    }


def short(title: str) -> str:
    """At most so many letters, without marks that are not seen; in any script that fits a file system's 255 bytes."""
    seen = "".join(letter for letter in title if category(letter) not in ("Cf", "Cc", "Co", "Cs", "Cn"))
    return seen[:LONGEST_NAME].strip(". ") or "_"


def sheets_of_cards(roster: Roster) -> list[CardSheet]:
    from drafting.drawing.roster import NoRoom, card_sheets

    try:
        return card_sheets(roster)
    except NoRoom as fault:
        raise WrongUse(CARD_TOO_LARGE, reason=fault) from None


def write_engraving(files: FilesTogether, path: Path, roster: Roster, person: Person, form: Format) -> None:
    from drafting.drawing.roster import blanks_of, engraving
    from drafting.proof.engraving import check_engraving

    blanks, record = blanks_of(person, roster.wishes), roster.record("engraving", person.number)
    drawing = engraving(person, roster.wishes, blanks, record)
    beside = files.write(path, form.write(drawing, roster.wishes.layers))
    faults = check_engraving if form.ending == "svg" else form.faults
    expect_true(path, faults(beside.read_bytes(), drawing))


def write_cards(files: FilesTogether, path: Path, sheets: list[CardSheet]) -> None:
    from drafting.output.pdf import to_pdf
    from drafting.proof.cards import check_cards

    beside = files.write(path, to_pdf([sheet.drawing for sheet in sheets]))
    expect_true(path, check_cards(beside.read_bytes(), sheets))


def tell_written(roster: Roster, out: Path, names: dict[int, str], sheets: list[CardSheet]) -> None:
    """What stands where; engravings of an earlier run are named, for they are easily taken for these."""
    if names:
        print(f"{out / 'engraving'}: {counted(len(names), 'engraving')}")
    if sheets:
        cards = sum(len(sheet.laid) for sheet in sheets)
        print(f"{out / 'cards.pdf'}: {counted(cards, 'card')} on {counted(len(sheets), 'sheet')}")
    print(f"{out / 'roster.csv'}: {counted(len(roster.people), 'row')}")
    folder = out / "engraving"
    kept = {Path(name).name for name in names.values()}
    old = (
        [path for path in folder.iterdir() if path.is_file() and path.name not in kept]
        if folder.is_dir()
        else []
    )
    if old:
        told = f"{folder} also holds {counted(len(old), 'file')} that this roster did not write, such as"
        print(f"{told} `{min(old).name}`", file=sys.stderr)


def counted(count: int, what: str) -> str:
    return f"{count} {what}{'s' * (count != 1)}"
