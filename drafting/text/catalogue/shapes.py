"""Outlines, runs and features: codes P..."""

from drafting.text.messages import Entry, Severity

OFF_MIRROR = Entry(
    "P01",
    "The outline of `{piece}` {does} at `{point}`, {distance} off its mirror line `{line}`.",
    "{mend}",
)
CROSSES_ITSELF = Entry(
    "P02", "{what} crosses itself at {place}.", "Go round its points in order, or bow a leg less."
)
TWO_WAYS = Entry("P03", "From `{start}` to `{end}` there are two ways.", "Say {ways}.")
NOT_THAT_WAY = Entry(
    "P04",
    "From `{start}` to `{end}` no way round passes {passed} in that order.",
    "Say {ways}; the outline goes {order}.",
)
NOT_ON_RING = Entry(
    "P05", "`{point}` is not on {ring}: it lies {distance} off.", "Put it `on {line}`, or name a corner."
)
FILLET_TOO_LARGE = Entry("P06", "A {done} by {by} does not fit at `{corner}`.", "{mend}")
NO_CORNER = Entry(
    "P07",
    "The outline goes on smoothly at `{corner}`, so nothing is there to be {done}.",
    "Take the {kind} out.",
)
BOW_TOO_HIGH = Entry(
    "P08",
    "The leg to `{to}` is {chord} long; a bow of {amount} is more than half a circle.",
    "Take {largest} or less.",
)
RADIUS_TOO_SMALL = Entry(
    "P09", "The leg to `{to}` is {chord} long; a radius of {amount} does not reach.", "Take {least} or more."
)
NO_SUCH_SIDE = Entry("P10", "The {what} runs {lies}, so it has no side `{toward}`.", "Say {sides}.")
ABOUT_UNEVEN = Entry(
    "P11",
    "`{center}` is {first} from one end of the leg to `{to}` and {second} from the other.",
    "The center of an arc is as far from both: move one, or bow the leg otherwise.",
)
NO_ARC = Entry("P12", "The leg to `{to}` has no such arc: {why}.", "{mend}")
FIRST_TANGENT = Entry(
    "P13",
    "The leg to `{to}` goes on from the leg before, and there is none.",
    "Bow it otherwise, or begin the path elsewhere.",
)
NOT_ALONG = Entry(
    "P14", "`{point}` is {distance} off `{line}`, which the leg should follow.", "Put it `on {line}`."
)
OFFSET_BREAKS = Entry("P15", "{distance} {side} `{way}` breaks up{where}.", "{mend}")
OPEN_HAS_NO_INSIDE = Entry(
    "P16",
    "`{way}` is an open line and has no inside or outside.",
    "Write `{distance} beside {way}; right of {way}`, or another side.",
)
RING_HAS_NO_ENDS = Entry(
    "P17", "`{way}` is closed and has no `{part}`.", "Take another point of it, such as `{way}.top`."
)
TOO_SHORT = Entry(
    "P18", "`{name}` is {length} long: {short} short leave nothing of it.", "Shorten it by less."
)
NOT_INSIDE = Entry(
    "P19",
    "`{point}` is not inside the piece, so no line runs {how} through it from edge to edge.",
    "Move the point, or draw the line from a point to a point.",
)
HALF_TWIN = Entry(
    "P20",
    "`{name}` lies across the mirror line and is not its own twin.",
    "Add `once` to make it as drawn, or draw it on one side of the line.",
)
STEPS_TOO_LONG = Entry(
    "P21",
    "The steps of `{name}` come to {total}, and the line is {length} long.",
    "Take {over} off the steps.",
)
BEYOND_LINE = Entry(
    "P22",
    "`{name}` goes beyond `{line}`, which is {length} long.",
    "{mend}",
)
NOT_POSITIVE = Entry("P23", "{what} of `{name}` is {amount}.", "Make it more than nothing.")
SLOT_TOO_WIDE = Entry(
    "P24",
    "The slot `{name}` is {long} long and {wide} wide.",
    "Make it longer than wide; round it is a hole: `hole {name}: {wide} across`.",
)
COUNT_NOT_WHOLE = Entry(
    "P25", "The row `{name}` should have {count} holes.", "Give a whole number, from 1 to 10000."
)
ROUNDED_TOO_MUCH = Entry("P26", "`{name}` cannot be rounded by {by}.", "{mend}")
SWINGS = Entry(
    "P27",
    "The smooth leg to `{to}` swings both ways after {place}.",
    "Add a point it goes through, or say how it leaves or arrives.",
    Severity.WARNING,
)
NEARLY_STRAIGHT = Entry(
    "P28",
    "The outline of `{piece}` has a corner of {angle} on its mirror line at `{point}`.",
    "Arrive square to the mirror line if it should be smooth.",
    Severity.WARNING,
)
POINT_LIKE = Entry(
    "P29",
    "`{first}` and `{second}` are one place, so nothing leads from one to the other.",
    "Leave one of them out.",
)
NOT_SYMMETRIC = Entry(
    "P30",
    "The outline of `{piece}` is not the same on both sides of its mirror line `{line}`.",
    "Place its middle on the line, or leave `mirrored over` out.",
)
CUT_MISSES = Entry(
    "P31", "The cut `{side}` does not cross the outline of `{piece}`.", "Move the line, or take the cut out."
)
CUT_NAMES = Entry(
    "P32",
    "The cut `{side}` makes {made}, and {given} named.",
    "Write `naming {example}`, with names of your own.",
)
LOST_GROUND = Entry(
    "P33",
    "`{name}` lost ground to the cut `{side}` in `{piece}`.",
    "Leave it out of this piece: `without {without}`.",
)
NOTCH_OFF_EDGE = Entry("P34", "The notch `{name}` is {distance} off the edge.", "Place it `on outline`.")
SEVERAL_TOPS = Entry(
    "P35", "`{name}` could be several places, all as far {side}.", "Name a point of your own instead."
)
DIRECTION_UNSURE = Entry(
    "P36",
    "The leg to `{to}` should go {how}, which has two ways, and neither is nearer to where it goes.",
    "Say which: `{one}` or `{other}`.",
)
AWAY_FROM_PIECE = Entry(
    "P37",
    "`{name}` reaches {distance} off the piece `{piece}` at {where}.",
    "Move it {distance} inwards, or make it smaller by as much.",
)
OPEN_NOT_ROUNDED = Entry(
    "P38",
    "`{name}` is an open line, and `rounded` rounds the corners of a closed one.",
    "Take `{by} rounded` out.",
)
NOT_STRAIGHT = Entry(
    "P39", "`{line}` is not straight, so nothing can be mirrored over it.", "Name a straight line, or `A..B`."
)
EITHER_WAY_ROUND = Entry(
    "P40",
    "Along `{line}` the leg to `{to}` is as long either way round.",
    "Put a point on the line between them and go there first.",
)
NO_WIDTH = Entry(
    "P41", "{what} `{line}` has no length, so it has no direction.", "Name two points that lie apart."
)
FILLETS_MEET = Entry(
    "P42",
    "The corners `{first}` and `{second}` together take {needs} of a leg {has} long.",
    "Make `{first}` smaller: it leaves no room for the other.",
)
CUT_FALLS_APART = Entry(
    "P43",
    "The cut `{side}` leaves `{piece}` in parts, near {places}.",
    "Move the line until one part is left.",
)
RING_BESIDE = Entry(
    "P44",
    "`{way}` is closed: nothing runs beside it, only inside or outside.",
    "Write `{distance} inside {way}` or `{distance} outside {way}`.",
)
RING_BAND = Entry(
    "P45",
    "A band all round `{way}` has two edges, and {what} has one.",
    "Say from where to where, such as "
    "`band {distance} {side} from {way}.top round {way}.left to {way}.bottom of {way}`.",
)
RING_SHORT = Entry("P46", "`{name}` is closed and ends nowhere, so it cannot be short.", "Take `short` out.")
EITHER_SIDE = Entry(
    "P47",
    "`{choice}` holds for {which} sides of `{way}`.",
    "Choose otherwise, for instance `{suggestion}`.",
)
NO_CORNERS = Entry(
    "P49", "`{name}` has no corners, and `rounded` rounds corners.", "Take `{by} rounded` out."
)
NOTHING_PRICKED = Entry(
    "P60",
    "No hole of `{other}` falls on `{piece}`, so `{name}` has none.",
    "Move the piece or the line, or take `{name}` out.",
)
OPEN_STARTS = Entry(
    "P61",
    "`{name}` is open, so its first hole stands at its start, and `{clause}` says otherwise.",
    "Write `hole at {point}` for a hole there.",
)
STITCHES_NOT_WHOLE = Entry(
    "P62",
    "`{name}` asks for {count} stitches; a line has a whole number of them, 1 or more.",
    "Write for instance `24`.",
)
NOT_DRAWN = Entry("P48", "`{name}` cannot be drawn: {why}.", "Change the points or amounts it is made from.")
ROUND_LESS_THAN_NOTHING = Entry(
    "P70", "`{name}` is bent round {amount}.", "Write the thickness of what lies inside; 0 for nothing."
)
SLIT_AND_TWIN_CLOSE = Entry(
    "P71",
    "Both ends of the slit `{name}` lie on the mirror line, so with its twin it cuts a window.",
    "Write it as an `opening`, or end it before the line.",
)
SLIT_DIVIDES = Entry(
    "P72",
    "The slit `{name}` runs from edge to edge and cuts `{piece}` in two.",
    "End it before the edge, such as `5 mm short at end`.",
)
NOT_SKIVED = Entry(
    "P73",
    "`{name}` is skived down to {left}, and the leather is {thick} thick.",
    "Write less than {thick}, or take `{name}` out.",
)
LESS_THAN_NOTHING_LEFT = Entry("P74", "`{name}` is skived down to {left}.", "Write `down to 0` or more.")
NO_STRIP = Entry(
    "P75",
    "`{name}` is an open line, and a strip needs a width.",
    "Say how wide it is, such as `12 mm wide`; half of it lies on either side.",
)
STRIP_ON_RING = Entry(
    "P76",
    "`{name}` goes along a closed line, and `{wide} wide` makes a strip along an open one.",
    "Take `{wide} wide` out, or write a band, such as `band {wide} inside outline`.",
)
NOT_ON_EDGE = Entry(
    "P77",
    "`{way}` is not on the edge of `{piece}`, so nothing can be turned over there: it lies {distance} off.",
    "Turn along `outline`, a run, or `from … to …`.",
)
TURNED_TWICE = Entry(
    "P78",
    "`{first}` and `{second}` both turn the edge of `{piece}` near {where}.",
    "End the one where the other begins.",
)
TURNS_MEET = Entry(
    "P79",
    "The turned edges of `{piece}` run into each other at {where}.",
    "Turn less, or turn them as one, round the corner.",
)
TWO_EDGES = Entry(
    "P50",
    "`{way}` is a band all round and has two edges, so no one line goes along it.",
    "Name the line that the band is drawn on instead.",
)
FAR_SIDE = Entry(
    "P51",
    "`{name}` is drafted on the far side of the mirror line `{line}`: "
    "the outline is drafted on the side of `{corner}`.",
    "Draft it on that side; its twin `{name}'` comes by itself{once}.",
    Severity.WARNING,
)
