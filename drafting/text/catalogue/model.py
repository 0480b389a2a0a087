"""Names, kinds and units: codes M..."""

from drafting.text.messages import Entry

UNKNOWN_NAME = Entry("M01", "There is no {what} `{name}`{where}.", "{mend}")
HYPHEN = Entry(
    "M02",
    "There is no measure `{left}` to take `{right}` from.",
    "Names hold no hyphen: did you mean `{joined}`?",
)
BARE_NUMBER = Entry("M03", "`{text}`: {number} what?", "Write `{number} mm`, `{number} cm` or `{number} in`.")
BARE_ANGLE = Entry("M04", "`{text}`: {number} what?", "An angle carries its unit too: write `{number} deg`.")
WRONG_KIND = Entry(
    "M05", "`{text}` is {kind}; {wanted} belongs here.", "Write {wanted}, such as `{example}`."
)
MIXED_KINDS = Entry(
    "M06",
    "`{left}` is {left_kind} and `{right}` is {right_kind}: they can be neither added nor compared.",
    "Give both the same kind of amount.",
)
NAME_TWICE = Entry("M07", "`{name}` is already {what} here.", "Give one of them another name{without}.")
PATTERN_NAME = Entry(
    "M08",
    "`{name}` is {what} of the whole pattern, so the piece `{piece}` may not use the name again.",
    "Give it another name, such as `{piece}_{name}`.",
)
MEASURE_CYCLE = Entry(
    "M09", "These measures wait for each other: {cycle}.", "Give one of them a value of its own."
)
NOT_A_POINT = Entry("M10", "`{name}` is {what}, and a point belongs here.", "{mend}")
NOT_A_LINE = Entry("M11", "`{name}` is {what}, and a line belongs here.", "{mend}")
NO_PROPERTY = Entry("M12", "`{name}` is {what} and has no `.{part}`.", "It has {offers}.{near}")
OTHER_SHEET = Entry(
    "M13",
    "`{name}` lies on the sheet of `{other}`, and `{piece}` is drafted on a sheet of its own: "
    "other pieces give lengths, never places.",
    "To share the sheet add `over {other}` to the piece `{piece}`.",
)
NOT_FOR_KIND = Entry("M14", "{kind} takes no `{clause}`.", "Take it out; it takes {takes}.")
LACKS = Entry("M15", "The {kind} `{name}` does not say {what}.", "Add for instance `{example}`.")
SAID_TWICE = Entry("M16", "`{name}` says {what} twice: `{first}` and `{second}`.", "Take one of them out.")
TWO_BOWS = Entry("M17", "The leg to `{to}` bends in two ways.", "Take one of them out: each leg bends once.")
NOT_MIRRORED = Entry(
    "M18",
    "`{name}` is a twin, but the piece `{piece}` has no mirror line.",
    "Add `mirrored over A..B` to the piece, or leave the `'` out.",
)
TWIN_FACTS = Entry(
    "M19",
    "`{name}` is fixed by its twin and takes no facts.",
    "Take the statement out: `{base}` places both.",
)
LIKE_CYCLE = Entry(
    "M20",
    "Each of these is made like the next: {cycle}.",
    "Give `{name}` an `outline` of its own in place of `{like}`.",
)
NOTHING_WITHOUT = Entry("M21", "There is no `{name}` in `{base}` to leave out.", "It has {offers}.{near}")
NO_FUNCTION = Entry("M22", "There is no function `{name}`.", "There are {offers}.{near}")
ARGUMENTS = Entry("M23", "`{function}` takes {takes}, not {given}.", "Write for instance `{example}`.")
A_LIST = Entry(
    "M24",
    "`{name}` is a list of {count} amounts, and one amount belongs here.",
    "Say `sum({name})`, or one of them, such as `{name}.1`.",
)
NOT_A_CORNER = Entry(
    "M27",
    "`{name}` is no corner of the outline, so it cannot be {done}.",
    "The outline's corners are {offers}.",
)
ROUNDED_END = Entry(
    "M28",
    "`{name}` is {done}: does the run end where the {rounding} starts, halfway or where it ends?",
    "Write `{name}.start`, `{name}.mid` or `{name}.end`.",
)
NOT_ROUNDED = Entry(
    "M29",
    "`{name}` is a sharp corner and has no `.{part}`.",
    "Write `{name}` alone, or `fillet {name} by 6 mm`.",
)
SIZE_UNKNOWN = Entry(
    "M30",
    "There is no measure `{name}` for the size `{title}` to set.",
    "A size sets the pattern's own measures.{near}",
)
SIZE_TWICE = Entry("M31", "There are two sizes called `{title}`.", "Give one another title{hint}.")
SIZE_SERIES = Entry(
    "M32",
    "The series `{text}` does not come out: {why}.",
    "Write for instance `{example}`.",
)
SIZE_BRACES = Entry(
    "M33", "The title `{title}` asks for `{{{name}}}`, which this size does not set.", "It sets {offers}."
)
MEASURE_RANGE = Entry("M34", "`{name}`{note} is {value}, outside its range {low} to {high}.", "{mend}")
RANGE_UPSIDE_DOWN = Entry(
    "M107",
    "The range of `{name}` begins at {low} and ends at {high}.",
    "Say the smaller first: `between {high} and {low}`.",
)
NO_OUTLINE = Entry("M35", "The piece `{piece}` has no outline.", "Add for instance `outline: a to b to c`.")
NOT_COMPUTED = Entry("M36", "`{name}` cannot be worked out: {why}.", "{mend} the amounts it is made from.")
NOT_IN_LIST = Entry(
    "M37", "`{name}` holds {expected}, and none is `.{part}`.", "Name one from `{name}.1` to `{name}.{last}`."
)
CHECK_FAILS = Entry(
    "M38",
    "The check `{text}` does not hold: {left} against {right}{note}.",
    "Change a measure, or {otherwise}.",
)
CUT_COUNT = Entry("M39", "`cut {count}` makes no piece.", "Write `cut 1` or more.")
EMPTY_PATTERN = Entry(
    "M40", "The pattern has no piece to draw.", "Add for instance `piece back: cut 1 from body`."
)
BASE_FAULTY = Entry("M41", "`{name}` is {what}, and `{how}` takes a {kinds}.", "There are {offers}.")
ONE_TOO_MANY = Entry("M42", "The piece `{piece}` says `{what}` twice.", "Take one of them out.")
LIST_LENGTH = Entry(
    "M43", "`{name}` holds {expected}, and {given} stand here.", "Give {expected}, in every size."
)
NOT_AN_AMOUNT = Entry(
    "M44", "`{name}` is {what}, and an amount belongs here.", "Say what of it, such as {offers}."
)
TWIN_CORNER = Entry(
    "M45",
    "`{name}` is {done} with its twin `{base}`.",
    "Name `{base}` alone: what is said of it holds for both.",
)
NOT_A_LIST = Entry(
    "M46",
    "`{name}` is {what}, and a list of points belongs here.",
    "Name one made by `points`, such as `points low: along a..b; steps 10 mm, 10 mm`.",
)
PLACES_ITSELF = Entry(
    "M48", "`{name}` is placed by its own line and takes no `{clause}`.", "Take `{clause}` out."
)
ROUNDED_BY_NAME = Entry(
    "M49",
    "The corners of a path are rounded by their names, not by `{clause}`.",
    "Write `{example}` instead.",
)
TOO_LARGE = Entry(
    "M50", "`{text}` is larger than anything that is drafted.", "Check its digits and its unit."
)
RANGE_KIND = Entry(
    "M51", "`{name}` comes to {kind}, and its range is {range_kind}.", "Give both the same kind of amount."
)
NOT_A_STOCK = Entry("M52", "`{name}` is {what}, and `cut` takes a stock.", "The stocks are {offers}.")
NOT_HOW_THICK = Entry("M70", "`{name}` needs to know how thick the leather is, and {silent}.", "{mend}")
ROUNDED_AND_PUNCHED = Entry(
    "M71",
    "The corners of `{name}` are rounded by `{rounded}`, and `{holes}` asks for holes at its corners.",
    "Take one of the two out.",
)
HOLES_TAKEN = Entry(
    "M60",
    "`{name}` takes its holes from another line by `{source}`, and says `{clause}` besides.",
    "Take `{clause}` out.",
)
JOINED_TWICE = Entry("M62", "The seam names `{line}` twice.", "Name each stitch line once.")
NO_RANGE = Entry(
    "M63",
    "`{name}` is to be fitted, and is no single length with a range to move in.",
    "Write for instance `measure {name} = 8 mm between 6.5 mm and 10 mm`.",
)
FITTED_TWICE = Entry(
    "M64",
    "`{name}` is fitted twice.",
    "Name all its lines in one `fit`: `fit {name} so a.edge, b.edge stitch whole`.",
)
NO_PITCH_TO_FIT = Entry(
    "M65",
    "`{line}` asks for no pitch: it holds a whole number of stitches as it is.",
    "Write `every 3.85 mm` there, or name a line that asks for a pitch.",
)
NOT_STITCHED = Entry("M61", "`{name}` is {what}, and a stitch line belongs here.", "{offers}")
TURNED_INSIDE = Entry(
    "M72",
    "`{name}` is turned over from outside the finished edge, and says `{said}`.",
    "Write `{wide} outside {way}`: the outline is the finished edge.",
)
LISTS_DIFFER = Entry("M47", "`{text}` pairs {first} points with {second}.", "Give both lists as many steps.")
UNKNOWN_CONTENT = Entry(
    "M80",
    "There is no published size called `{name}`.",
    "There are {offers}; or give its own size, such as `80 mm by 50 mm by 3 mm`.",
)
CONTENT_LIES = Entry(
    "M81",
    "`{name}` does not say which way it lies, so it has no {part}.",
    "Add `lying level` or `lying plumb` for its longer side, or ask for `{name}.long` or `{name}.wide`.",
)
CONTENT_THICK = Entry(
    "M82",
    "`{name}` does not say how thick it is, and no thickness of it is published.",
    "Add for instance `0.2 mm thick`.",
)
NOT_FOR_ITEM = Entry("M83", "`{name}` is {what}; {takes}.", "Name one of those.")
NOT_WHOLE = Entry(
    "M84", "`{name}` comes to {value}, and things come whole.", "Write a whole number, 1 or more."
)
NOT_MORE_THAN_NOTHING = Entry(
    "M85", "`{name}` comes to {value}, and a thing has a size.", "Write an amount above nothing."
)
BARE_MEASURE = Entry(
    "M53",
    "`{name}` is the bare number {number}, and {wanted} is asked of it.",
    "Give it its unit, such as `measure {name} = {number} {unit}`.",
)
NOT_A_BLOCK = Entry(
    "M86",
    "`{name}` is a piece and takes no arguments.",
    "Write `like {name}`, and what is to differ as statements of your own.",
)
ARGUMENT_UNNAMED = Entry(
    "M87", "`{text}` does not say which argument of `{name}` it is.", "Write `{example}`; there are {offers}."
)
ARGUMENT_UNKNOWN = Entry("M88", "The block `{block}` has no argument `{name}`.", "It has {offers}.{near}")
ARGUMENT_TWICE = Entry("M89", "The argument `{name}` is given twice.", "Take one of them out.")
ARGUMENT_MISSING = Entry(
    "M90", "The block `{name}` needs {lacking} as well.", "Write for instance `like {name}({example})`."
)
BLOCK_SEES = Entry(
    "M91",
    "`{name}` is {what}, and a block sees its arguments and the measures and stocks of its own file only.",
    "Make it an argument of the block, and give it where a piece is made.",
)
NOT_IN_FILE = Entry("M92", "There is no `{name}` in `{file}`.", "It brings {offers}.{near}")
NOT_BROUGHT = Entry(
    "M93",
    "`{name}` is {what} of `{file}`, and `use` brings blocks, stocks and measures only.",
    "It brings {offers}.",
)
USE_WITHOUT_NAME = Entry(
    "M94", "`{stem}` cannot be a name for the file `{path}`.", 'Give it one: `use "{path}" as {example}`.'
)
USE_OUTSIDE = Entry(
    "M95",
    "`{path}` lies outside the folder of this pattern, and a pattern uses only what lies below it.",
    "Put the file there, or name the folder of shared blocks when you start: `--blocks DIR`.",
)
USE_UNREADABLE = Entry("M96", "`{path}` cannot be used: {reason}.", "Name a pattern file that is there.")
USE_CYCLE = Entry(
    "M97", "These files use each other: {cycle}.", "Move what both need into a file that uses neither."
)
TIED_TO_PIECES = Entry(
    "M98",
    "`{name}` hangs on pieces of `{file}`, and `use` brings no pieces.",
    "Give it an amount of its own there.",
)
A_FILE = Entry(
    "M99", "`{name}` is a used file, and {what} belongs here.", "Say what of it, such as {offers}."
)
