"""Faults in what is written, before any meaning: codes T..."""

from drafting.text.messages import Entry

UNEXPECTED = Entry("T01", "{before} comes {expected}, not {found}.", "Write for instance `{example}`.")
ENDS_EARLY = Entry("T02", "{text} ends too early: next comes {expected}.", "Write for instance `{example}`.")
LACKS = Entry("T03", "`{text}` lacks {what}.", "Write `{mended}`.")
TOO_MANY = Entry("T04", "`{text}` has a word too many: `{word}`.", "Write `{mended}`.")
MISSPELLED = Entry("T05", "There is no word `{word}` here.", "Write `{near}`.")
NO_STATEMENT = Entry("T06", "No statement begins with `{word}`.", "{mend}")
NAME_FIRST = Entry(
    "T07", "A statement begins with a word of the language, never with a name such as `{name}`.", "{mend}"
)
CAPITALS = Entry("T08", "The words of the language are written small.", "Write `{small}`.")
RESERVED = Entry(
    "T09", "`{word}` is one of the language's own words and cannot name {what}.", "Try `{instead}`."
)
AMOUNT_FIRST = Entry("T10", "{owner} has no `{text}`.", "The amount comes first: `{mended}`.")
HYPHENED = Entry(
    "T11",
    "`{written}` takes a fraction from the bare number {whole}.",
    "For a whole number and a fraction write `{meant}`.",
)
INCH_MARK = Entry(
    "T12", "`{written}` marks inches with a quote, and a quote begins a note.", "Write `{meant}`."
)
HYPHEN_NAME = Entry(
    "T13", "`{text}` holds a hyphen, which means minus; names hold none.", "Write `{joined}`{wherever}."
)
TWO_WORDS = Entry("T14", "`{text}` is two words, and a name is one.", "Write `{joined}`.")
DIGIT_FIRST = Entry(
    "T15", "`{text}` begins with a digit, and a name begins with a letter.", "Write `{name}`."
)
QUOTED_NAME = Entry("T16", "A name stands without quotes.", "Write `{name}`.")
NO_QUOTES = Entry("T17", "{what} stands in quotes.", "Write `{mended}`.")
WRONG_SIGN = Entry("T18", "After `{before}` comes `{right}`, not `{found}`.", "Write `{mended}`.")
COMPARISON = Entry("T19", "`{found}` is no comparison.", "Write `{right}`.")
NO_UNIT = Entry("T20", "Expected a unit after `{number}`, such as mm or in, not `{found}`.", "{mend}")
UNIT_ELSEWHERE = Entry("T21", "`{text}` has its unit by another name.", "Write `{mended}`.")
UNIT_UNKNOWN = Entry("T22", "There is no unit `{unit}`: lengths are in mm, cm or in.", "Write `{mended}`.")
OUNCES = Entry(
    "T23",
    "Ounces measure how thick leather is and stand only before `thick`: `{text}` cannot stand here.",
    "Write `{mended}`.",
)
DECIMAL_COMMA = Entry("T24", "`{text}` has a comma inside its number.", "Write `{mended}`.")
LEADING_POINT = Entry("T25", "`{written}` has nothing before its point.", "Write `{meant}`.")
DEGREE_SIGN = Entry("T26", "`{written}` marks degrees with a sign.", "Write `{meant}`.")
DIVIDED_BY_NOTHING = Entry(
    "T27", "`{written}` divides by nothing.", "Write a number above 0 below the line, such as 8."
)
ODD = Entry("T28", "{what} means nothing here.", "{mend}")
UNCLOSED = Entry("T29", "The quote `{text}` does not end on its line.", 'Close it with `"`.')
SLASHES = Entry("T30", "`{text}` means nothing here.", "A remark begins with `#`.")
NOTE_EARLY = Entry(
    "T31",
    "A note ends its line, and `{rest}` stands behind this one.",
    "Move the note to the end of the line.",
)
NOTHING_BETWEEN = Entry("T32", "Nothing stands {where} this `{sign}`.", "Take it out.")
OPEN_BRACKET = Entry("T33", "This bracket is never closed.", "Add `)`.")
BARE_COORDINATES = Entry("T34", "Two coordinates stand in brackets.", "Write `{mended}`.")
NO_TO = Entry("T35", "Corners are joined by `to`.", "Write `{mended}`.")
TWO_BOWS = Entry("T36", "A smooth leg takes no other bow: `{bow}`.", "Leave one of the two.")
THREE_POINTS = Entry(
    "T37", "`{text}` names three points: a stretch has two, an angle three.", "Write `{mended}`."
)
CUT_WHOLE = Entry("T38", "`cut {count}`: pieces are cut whole.", "Write a whole number, such as `cut 2`.")
TOO_DEEP = Entry(
    "T39", "This amount holds too many others inside it.", "Give parts of it a name: `measure part = 8 mm`."
)
UNEVEN = Entry(
    "T40",
    "`{word}` stands {columns} {side} than the statements before it, so it is not clear what it belongs to.",
    "Let all statements of a {owner} begin in the same column.",
)
AT_MARGIN = Entry(
    "T41", "`{word}` stands at the left margin, but belongs inside `{owner}`.", "Indent it by two spaces."
)
NOT_INSIDE = Entry(
    "T42", "`{word}` belongs to the whole pattern, not inside a {owner}.", "Begin it at the left margin."
)
NO_PIECE = Entry(
    "T43",
    "`{word}` stands inside a piece, and no piece is open here.",
    "Move it below a line such as `piece back: cut 1 from body`, and indent it.",
)
GOES_ON = Entry(
    "T44", "This line goes on with the `{word}` above it, but stands no deeper.", "Indent it further."
)
PATTERN_LATE = Entry(
    "T45", "`pattern` opens a file and is said once.", "Move it to the first line, or take it out."
)
STARTS_WRONG = Entry(
    "T46",
    "A statement begins with a word of the language, not with {found}.",
    "Write for instance `{example}`, or indent the line to go on with the statement above.",
)
NO_PATTERN = Entry(
    "T47",
    "`{word}` stands below `pattern`, and none is open here.",
    'Move it below a line such as `pattern "Choir robe tag"`, and indent it.',
)
SAID_TWICE = Entry("T48", "`{word}` is said twice.", "Take one of the two out.")
NO_CENTRE = Entry(
    "T49",
    "`{text}` does not say {what}.",
    "Write `at {of}.centre`, or `midway a..b` between two points.",
)
ONE_COORDINATE = Entry(
    "T50", "`{text}` has one coordinate, and a place has two: so far right, so far up.", "Write `{mended}`."
)
TOO_MANY_DIGITS = Entry(
    "T51", "This number has {count} digits; no rule reads more than a dozen.", "Write at most {most} digits."
)
