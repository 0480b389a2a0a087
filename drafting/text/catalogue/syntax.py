"""Faults in what is written, before any meaning: codes T.."""

from drafting.text.messages import Entry

UNEXPECTED = Entry("T01", "{found} cannot stand here{after}.", "{mend}")
INCH_MARK = Entry(
    "T02", "`{written}` marks inches with a quote, which begins a note here.", "Write `{meant}`."
)
DIVIDED_BY_NOTHING = Entry("T03", "`{written}` divides by nothing.", "Write a number above 0 below the line.")
CUT_WHOLE = Entry("T04", "`cut {count}`: pieces are cut whole.", "Write a whole number, such as `cut 2`.")
TOO_DEEP = Entry(
    "T05", "This sum holds too many others inside it.", "Give parts of it a name: `measure part = …`."
)
UNEVEN = Entry(
    "T06",
    "`{word}` stands {columns} {side} than the statements before it, so it is not clear what it belongs to.",
    "Let all statements of a piece begin in the same column.",
)
AT_MARGIN = Entry(
    "T07", "`{word}` stands at the left margin, but belongs inside `{owner}`.", "Indent it by two spaces."
)
NOT_INSIDE = Entry(
    "T08",
    "`{word}` belongs to the whole pattern and cannot stand inside a {owner}.",
    "Begin it at the left margin.",
)
