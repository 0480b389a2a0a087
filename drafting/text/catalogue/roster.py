"""Rosters: codes C130 to C149, C170, C171, C200, C216, C217 and H80 to H84. Where they can, they point at the row of
the table that they speak of."""

from __future__ import annotations

from drafting.text.messages import Entry, Severity

# The table itself

UNREADABLE_TABLE = Entry(
    code="C170",
    says="The table `{file}` cannot be read: {reason}.",
    mend="Name a CSV file that is there, such as `crew.csv`: a line of headings, and a line for each person below it.",
)
UNKNOWN_ENCODING = Entry(
    code="C130",
    says="`{said}` names no encoding of text.",
    mend="Leave `--encoding` out for UTF-8, or name one such as `--encoding cp1252`.{near}",
)
NOT_THIS_ENCODING = Entry(
    code="C131",
    says="Line {line} of `{file}` is no text in the encoding {encoding}.",
    mend="{mend}",
)
NO_TEXT = Entry(
    code="C217",
    says="`{file}` is a spreadsheet as its program keeps it, and no table of text.",
    mend="Save its sheet from that program as CSV in UTF-8, and name that file, such as `crew.csv`.",
)
WHICH_SEPARATOR = Entry(
    code="C132",
    says="The headings hold {found}, and the rows do not tell which of them stands between the cells.",
    mend="Say which, such as `--separator {first}`.",
)
NO_HEADINGS = Entry(
    code="C133",
    says="`{file}` is empty: there are no headings in it.",
    mend="Write a line of headings, such as `name,initials`, and a line for each person below it.",
)
NO_ROWS = Entry(
    code="C134",
    says="`{file}` has headings, and nobody below them.",
    mend="Write a line for each person below the headings.",
)
UNEVEN_ROW = Entry(
    code="C135",
    says="Line {line} has {cells}, and there are {headings} headings.",
    mend='Put a cell that holds a {mark} in double quotes (`"`), and write every cell, empty ones too.',
)
HEADING_TWICE = Entry(
    code="C136",
    says="The heading `{heading}` is written {times} times.",
    mend="Give each column a heading of its own.",
)
OPEN_QUOTE = Entry(
    code="C137",
    says="The quote opened in line {line} is never closed, so all that follows would be one cell.",
    mend='Close it with `"`, and write a quote that is part of the text twice.',
)

# What feeds what

NO_COLUMN = Entry(
    code="C138",
    says="{what} takes its text from the column `{column}`, and the table has none of that name.",
    mend="The headings are {headings}; say which one feeds it, such as `--column {offer}`.{near}",
)
NOTHING_TO_FEED = Entry(
    code="C139",
    says="`{key}` names nothing that a column can feed.",
    mend="There are {known}.{near}",
)
UNFIT_PAIR = Entry(
    code="C140",
    says="`{said}` does not say which column feeds what.",
    mend="Write the name of a stamp or a measure, `=`, and a heading, such as `--column owner=initials`.",
)
NOTHING_TO_MAKE = Entry(
    code="C141",
    says="The pattern has no stamp to engrave and no content that a card could be printed for.",
    mend='Add a stamp such as `stamp owner: box 40 mm by 9 mm; at mid; lying level; roster "name"` to a piece, or name '
    "the content with `--card`.",
)
UNFIT_CARD = Entry(
    code="C142",
    says="No card can be printed for the content `{content}`: {reason}.",
    mend="{mend}",
)
UNFIT_TEMPLATE = Entry(
    code="C143",
    says="`{template}` names the column `{column}`, which the table does not have.",
    mend="Write headings in braces: {headings}.{near}",
)
NO_CARDS = Entry(
    code="C216",
    says="`{template}` is to stand on cards, and the pattern has no content that a card could be printed for.",
    mend="{mend}",
)
LONE_BRACE = Entry(
    code="C200",
    says="`{template}` has a brace without its other half, and would stand on every card as it is written.",
    mend="Put each heading in two braces: {headings}.",
)

# The people

UNKNOWN_SIZE = Entry(
    code="C144",
    says="Line {line}: the pattern is not made in the size `{size}`.",
    mend="Sizes are {known}.{near}{other}",
)
NOT_SAID = Entry(
    code="C171",
    says="Line {line}: there is nothing under `{column}`, which tells {what}.",
    mend="Write it there, such as `{known}`.",
)
LACKING_LETTERS = Entry(
    code="C145",
    says="Line {line}: {letters} cannot be written with {font}, which `{text}` on {what} needs.",
    mend="Write it in other letters, or {way}.",
)
TOO_LONG = Entry(
    code="C146",
    says="Line {line}: `{text}` finds no room on {what}: its capitals would be {height} high; {least} is the least.",
    mend="Shorten it, make the room larger{other}.",
)
ROW_TWICE = Entry(
    code="C147",
    says="Line {line} says the same as line {first}; both are made.",
    mend="Take one of them out if this is one person.",
    severity=Severity.WARNING,
)
ROW_EMPTY = Entry(
    code="C148",
    says="Line {line} says nobody's name or anything else, and is passed over.",
    mend="Take the line out, or fill it in.",
    severity=Severity.WARNING,
)
CELL_EMPTY = Entry(
    code="C149",
    says="Line {line}: there is nothing under `{column}`, so {what} stays plain.",
    mend="Write the words for it under `{column}`.",
    severity=Severity.WARNING,
)
SIZE_FAULT = Entry(
    code="H80",
    says="Line {line}: nothing true can be drafted of these measures: {fault}",
    mend="{mend}",
)
OFF_THE_LEATHER = Entry(
    code="H81",
    says="Line {line}: `{text}` with capitals {height} high runs off the leather of `{piece}`.",
    mend="Shorten it, or give the stamp a box that it is fitted to, such as `stamp {stamp}: box 40 mm by 9 mm; ...`.",
)
CARD_TOO_LARGE = Entry(
    code="H83",
    says="No card finds room on the paper: {reason}.",
    mend="Take a larger paper, such as `--paper a3`.",
)
QR_TOO_FINE = Entry(
    code="H82",
    says="Line {line}: the QR code for `{text}` would have squares of {module}; {least} is the least that printers "
    "and cameras keep apart.",
    mend="Let `--qr` say less.",
)
