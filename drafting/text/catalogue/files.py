"""Files and commands: codes C...

Their places are words of a command line, so they carry no span. `{meant}` ends a mend with the nearest name, or with
nothing.
"""

from __future__ import annotations

from drafting.text.messages import Entry, Severity

UNREADABLE_FILE = Entry(
    code="C01",
    says="`{file}` cannot be read: {reason}.",
    mend="Name a pattern file that is there and saved as UTF-8 text, such as `tag.draft`, or `-` for what comes in "
    "from a pipe.",
)
UNWRITABLE_FILE = Entry(
    code="C02",
    says="`{file}` cannot be written: {reason}.",
    mend="Name another place; what was there before is as it was.",
)
ALREADY_THERE = Entry(
    code="C03",
    says="`{file}` is already there and stays as it is.",
    mend="Choose another name, or move that file away first.",
)
UNKNOWN_COMMAND = Entry(
    code="C04",
    says="There is no command `{name}`.",
    mend="The commands are {known}; `awlwright --help` tells what each does.{meant}",
)
UNKNOWN_OPTION = Entry(
    code="C05",
    says="`{command}` has no option `{option}`.",
    mend="Its options are {known}.{meant}",
)
LACKING_WORDS = Entry(
    code="C06",
    says="`{command}` lacks {lacking}.",
    mend="Write for instance `{example}`.",
)
SPARE_WORD = Entry(
    code="C07",
    says="`{command}` has no use for `{word}`.",
    mend="Write for instance `{example}`.",
)
OPTION_WITHOUT_VALUE = Entry(
    code="C08",
    says="`{option}` lacks its value.",
    mend="Write for instance `{example}`.",
)
OPTION_WITH_VALUE = Entry(
    code="C09",
    says="`{option}` takes no value.",
    mend="Write `{option}` alone.",
)
UNKNOWN_NAME = Entry(
    code="C10",
    says="There is no {kind} `{name}`.",
    mend="{known}.{meant}",
)
UNFIT_SETTING = Entry(
    code="C11",
    says="`{given}` sets no measure.",
    mend="Write a measure, `=` and its value, such as `--with 'rim = 10 mm'`.",
)
UNKNOWN_VALUE = Entry(
    code="C221",
    says="`{said}` names no {kind}.",
    mend="{known}{meant}",
)
UNFIT_LENGTH = Entry(
    code="C222",
    says="`{said}` is not {what}: {why}.",
    mend="Give a length {least} and up to {most} with its unit, such as `{option} '{example}'`.",
)
UNREADABLE_VALUE = Entry(
    code="C228",
    says="`{said}` cannot be read: {reason}.",
    mend="Name a file that is there and saved as UTF-8 text, such as `{option} {example}`.",
)
NO_FILE_TO_WRITE = Entry(
    code="C223",
    says="`{said}` names no file to write: {why}.",
    mend="Name it for instance `--out {example}`.",
)
NO_FOLDER_TO_WRITE = Entry(
    code="C224",
    says="`{said}` names no folder to write into: {why}.",
    mend="Name one, such as `--out drawings`; it is made if need be.",
)
NO_NAME = Entry(
    code="C225",
    says="`{said}` names nothing.",
    mend="Write for instance `{option} {example}`, or leave `{option}` out.",
)
ONLY_WITH = Entry(
    code="C227",
    says="`{option}` does nothing without `{other}`.",
    mend="Add `{other}`, such as `{example}`; or leave `{option}` out.",
)
OVER_INPUT = Entry(
    code="C226",
    says="`{file}` would be written over itself: this command reads it.",
    mend="Choose another name for what is written.",
)
UNFIT_PATTERN_NAME = Entry(
    code="C12",
    says="`{name}` cannot name a pattern: {reason}.",
    mend="Give it a plain name in any script, such as `tool-roll`.",
)
NOT_TOGETHER = Entry(
    code="C13",
    says="`{first}` and `{second}` cannot both be said.",
    mend="Leave one of them out.",
)
NOT_DXF = Entry(
    code="C201",
    says="`--dxf-version {version}` says how DXF is written, and what is asked for is {format}.",
    mend="Write `--format dxf --dxf-version {version}`, or leave the version out.",
)
NOT_TIDY = Entry(
    code="C14",
    says="`{file}` is not laid out the tidy way.",
    mend="Let `awlwright tidy --write` lay it out.",
    severity=Severity.WARNING,
)
UNTRUE_FILE = Entry(
    code="C15",
    says="`{file}` does not measure as drafted, so no file was kept: {difference}.",
    mend="This is a fault of the tool, not of the pattern: please report it with the pattern file.",
)
BROKEN_TOOL = Entry(
    code="C16",
    says="The tool itself has failed: {failure}.",
    mend="Please report these lines with the command and the pattern file; no file was changed.",
)
UNFIT_PAPER = Entry(
    code="C40",
    says="`{said}` is nothing to print on: {reason}.",
    mend="Name one of {known}, or a size such as `--paper 320x450` in mm.",
)
UNFIT_CORRECTION = Entry(
    code="C41",
    says="`{said}` is no scale of a printer.",
    mend="Measure the 100 mm scale on a printed sheet: of 99.2 mm say `--correct 99.2%`. From 90 % to 110 % will do.",
)
NOT_OURS = Entry(
    code="C42",
    says="`{file}` is already there and {why}, so it stays as it is.",
    mend="Choose another name, or say `--replace` to write over it.",
)
TOO_MANY_TILES = Entry(
    code="C70",
    says="`{piece}` would be spread over at least {tiles} tiles of {paper}, too many to find one's way through.",
    mend="Take a larger paper, such as `--paper {larger}`, or leave that piece out by `--piece`.",
)
NO_TILING = Entry(
    code="C192",
    says="`{piece}` is {size}, at least {tiles} tiles of {paper}: no paper carries it.",
    mend="Look at the measures that make it so large, or print other pieces alone by `--piece`.",
)
NO_SUCH_PAGE = Entry(
    code="C193",
    says="`{file}` would have a page of {size}, and no page of a PDF is longer than {most} (ISO 32000-1).",
    mend="Take `--format svg` or `--format dxf`, which are as large as you like.",
)
UNFIT_BATCH = Entry(
    code="C71",
    says="`{said}` is no count of items to print at once.",
    mend="Give a whole number from 1 to {most}, such as `--copies 12`.",
)
UNREADABLE_MADE_FILE = Entry(
    code="C74",
    says="`{file}` cannot be read: {reason}.",
    mend="Name a file that this tool wrote and that is there.",
)
NOT_MADE_HERE = Entry(
    code="C75",
    says="`{file}` does not say that this tool made it, so there is nothing to hold it against.",
    mend="Name a file as the tool wrote it; what another program saves again has lost that word.",
)
NO_PATTERN = Entry(
    code="C76",
    says="`{file}` was made from `{pattern}`, which is not beside it, above it or here.",
    mend="Say where it is: `--pattern {pattern}`.",
)
NOTHING_TO_PROVE = Entry(
    code="C190",
    says="`{file}` is of a {what}, which has nothing of its own to be held against a pattern.",
    mend="Write it anew by `awlwright {what}` where its pattern has changed.",
)
NO_PEOPLE = Entry(
    code="C191",
    says="`{file}` was made for the people of `{people}`, and that table is not beside it, above it or here.",
    mend="Go to the folder that holds `{people}`, or put the table beside the file.",
)
TEXT_CHANGED = Entry(
    code="C77",
    says="`{pattern}` has changed since `{file}` was made from it: its text was {then} and is {now}.",
    mend="Write the file anew, unless what has changed does not matter for it.",
    severity=Severity.WARNING,
)
DIFFERS = Entry(
    code="C78",
    says="`{file}` is not true to `{pattern}`: {differences}.",
    mend="Do not cut by it; write it anew. With `--json` every difference is told.",
)
MISSING_LETTERS = Entry(
    code="C72",
    says="No font that is at hand has {letters}.",
    mend="Write other letters, or {way}.",
)
WIDE_KERF = Entry(
    code="C51",
    says="A cutter that takes away {kerf} is too wide for `{where}`: {largest} is the most there.",
    mend="Say what your cutter takes away, such as `--kerf '0.1 mm'`, or draw `{where}` wider.",
)
UNFIT_LAYERS = Entry(
    code="C52",
    says="`{said}` sets no layers: {reason}.",
    mend="Write for each operation what you want otherwise, such as "
    '`inner-cut = {{ name = "HOLES", color = "#0000ff" }}`.',
)
UNFIT_FOR_LASER = Entry(
    code="C53",
    says="The stock `{stock}` is {what}, for `{word}` is written of it, and a laser must not cut that: {why}.",
    mend="Cut it with a knife and say `--cutter blade`. If it is something else, say so beside it, such as "
    '`stock {stock}: leather "vegetable-tanned"`.',
)
UNENGRAVED = Entry(
    code="C54",
    says="No stroke and no outline is known of {letters}, so the engraved words lack them.",
    mend="Write the words with other letters, engrave them by hand, or {way}.",
    severity=Severity.WARNING,
)
NO_ROOM_ON_TEMPLATE = Entry(
    code="C55",
    says="The template of `{piece}` has no room for {what}.",
    mend="Make do without, or take narrower holes, such as `--pin '0.6 mm'`.",
    severity=Severity.WARNING,
)
NO_FOLDER = Entry(
    code="C20",
    says="`{said}` is no folder.",
    mend="Name a folder that is there, such as `{option} patterns/blocks`.",
)
NO_SUCH_SIZE = Entry(
    code="C172",
    says="`{file}` is not made in the size `{size}`.",
    mend="{mend}",
)
UNFIT_COPIES = Entry(
    code="C101",
    says="`{given}` asks for `{copies}` copies, and a batch is from 1 to {most}.",
    mend="Write a whole number, such as `--copies 24` or `tag.draft:24`.",
)
UNFIT_YIELD = Entry(
    code="C102",
    says="`{said}` is no part of a hide.",
    mend="Say how much of a hide becomes parts, more than 0 and up to 100 %, such as `--yield 70%`.",
)
SWEEP = Entry(
    code="C105",
    says="The sweep `{text}` does not come out: {why}.",
    mend="Write for instance `--with {example}`.",
)
TOO_MANY_SIZES = Entry(
    code="C106",
    says="The sweeps and sizes make {count} together, and {most} can be worked out in one run.",
    mend="Take fewer steps, or one size by `--size`.",
)
TOO_MANY_DRAWN = Entry(
    code="C107",
    says="{count} sizes cannot be told apart when they are drawn over each other.",
    mend="Draw {most} or fewer: take longer steps, or write a table by `--format csv`.",
)
UNREADABLE_PRICES = Entry(
    code="C108",
    says="`{said}` names no price list: {reason}.",
    mend="Name a `.toml` or `.csv` file that is there and saved as UTF-8 text, such as `--prices prices.toml`.",
)
