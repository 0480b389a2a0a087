"""Points, facts and choices: codes S..."""

from drafting.text.messages import Entry, Severity

LOOSE_POINT = Entry(
    "S01",
    "`{name}` has {has} and needs two: {facts}.",
    "Add for instance `{suggestion}`.",
)
LOOSE_NUMBER = Entry(
    "S02", "`{name}` is to be found, and no fact gives it.", "Add for instance `hold a..b = 40 mm + {name}`."
)
NO_BASE = Entry(
    "S03",
    "The points of `{piece}` hold together, and the whole can still {motion}.",
    "{mend}",
)
CONTRADICTION_POINT = Entry(
    "S04",
    "`{name}` has {has} and needs two, and they disagree by {misfit}: {facts}.",
    "Take one away{by_others}.",
)
CONTRADICTION = Entry(
    "S05",
    "These lines cannot all hold; they disagree by {misfit}: {facts}.",
    "Take one away, or change a measure{by_others}.",
)
REPEATED = Entry(
    "S06", "`{fact}` says again what {others} already say{s}.", "Take one of them out.", Severity.WARNING
)
NO_PLACE = Entry(
    "S07", "There is no place for {name}: {facts} {miss}.", "Change a measure, or take other facts."
)
NOT_BETWEEN = Entry(
    "S08",
    "{name} would come to {places}, where `{fact}` does not hold.",
    "Change a measure, or {mend}.",
)
SEVERAL_PLACES = Entry(
    "S09", "{name} can be in {count} places, {places}.", "Choose, for instance `{suggestion}`."
)
SEVERAL_VALUES = Entry("S10", "`{name}` can be {values}.", "Narrow its range in `find`.")
CHOICE_REFUSES = Entry(
    "S11",
    "`{choice}` does not hold: {name} comes to {places}.",
    "Take the choice out, or choose the other way.",
)
NEGATIVE_LENGTH = Entry(
    "S12", "`{fact}` comes to {value}: no distance is less than nothing.", "Make it more than nothing."
)
OUT_OF_RANGE = Entry(
    "S13",
    "No `{name}` between {low} and {high} fits its facts{nearest}.",
    "Widen the range, or change a measure.",
)
CYCLE = Entry(
    "S14", "These wait for each other: {cycle}.", "Give one of them a length or a place of its own."
)
NEAR_TOUCH = Entry(
    "S15",
    "The two places of {name} are only {apart} apart: a small change of measure makes them one, or none.",
    "Cross the lines less flatly.",
    Severity.WARNING,
)
NOT_PROVEN = Entry(
    "S16",
    "The place of {name} was found by search; that there is no other is not proven.",
    "Check it on the drawing.",
    Severity.WARNING,
)
DEGENERATE = Entry(
    "S17",
    "At these measures {facts} {say}, so {name} {has} no one place.",
    "Change a measure, or take other facts.",
)
JOIN_LINES = Entry(
    "S30",
    "`{one}` is {first} and `{other}` {second}: a seam joins line with line.",
    "Name one of them by its number, such as `{several}.1`, or give both lists as many points.",
)
FITTED = Entry(
    "S31",
    "`{name}` is fitted: {value} instead of {written}, so that {lines}{off}.",
    "{others}",
    Severity.NOTE,
)
NO_FIT = Entry(
    "S32",
    "No `{name}` from {low} to {high} lets every stretch of {lines} hold whole pitches; the nearest miss is {value}, "
    "where a pitch of {line} is off by {off}.",
    "Allow it by `within {off}`, or give `{name}` a wider range.",
)
IDLE_FIT = Entry(
    "S33",
    "`{name}` does not change {lines}, so nothing is there to be fitted.",
    "Fit a measure that the line is made from.",
)
PIECES_WAIT = Entry("S18", "These pieces wait for each other: {waits}.", "Give one a length of its own.")
LOOSE_TOGETHER = Entry(
    "S19",
    "{names} {lack} {missing} between them: {facts} let them move together.",
    "Add for instance `{suggestion}` to `{name}`.",
)
UNDECIDED = Entry(
    "S20",
    "{names} hang on each other in more than {ways} ways, too many to follow.",
    "Choose a side for each, such as `{suggestion}` for `{name}`.",
)
GAPS_OFF = Entry(
    "S40",
    "The line of `{name}` is {length}: {gaps} gaps of {every}; {count} would be {true} each, {off} off.",
    "{mend}",
)
ROW_STARTS = Entry(
    "S41",
    "`{name}` goes all round, and does not say where its first hole stands.",
    "Add for instance `start at outline.top`.",
)
OPEN_ROW_STARTS = Entry(
    "S42",
    "`{name}` lies along an open line, so it starts at an end of it, and `start at {point}` says otherwise.",
    "Take it out; `5 mm short at start` moves the first hole.",
)
