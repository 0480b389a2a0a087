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
    "The outline goes {order}.",
)
NOT_ON_RING = Entry(
    "P05", "`{point}` is not on {ring}: it lies {distance} off.", "Put it `on {ring}`, or name a corner."
)
FILLET_TOO_LARGE = Entry(
    "P06", "A {done} by {by} does not fit at `{corner}`.", "The largest that fits is {largest}."
)
CORNER_NOT_ON_OUTLINE = Entry(
    "P07", "`{corner}` is no corner of the outline, so it cannot be {done}.", "Its corners are {offers}."
)
BOW_TOO_HIGH = Entry(
    "P08",
    "The leg to `{to}` is {chord} long; a bow of {amount} is more than half a circle.",
    "Take {largest} or less.",
)
RADIUS_TOO_SMALL = Entry(
    "P09", "The leg to `{to}` is {chord} long; a radius of {amount} does not reach.", "Take {least} or more."
)
NO_SUCH_SIDE = Entry("P10", "The {what} runs {lies}, so it has no side {toward}.", "Say {sides}.")
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
OFFSET_BREAKS = Entry(
    "P15", "{distance} {side} `{way}` breaks up{where}.", "The largest that fits is {largest}."
)
OPEN_HAS_NO_INSIDE = Entry(
    "P16",
    "`{way}` is an open line and has no inside or outside.",
    "Write `{distance} beside {way}; right of {way}`, or another side.",
)
RING_HAS_NO_ENDS = Entry(
    "P17", "`{way}` is closed and has no `{part}`.", "Take another point of it, such as `{way}.top`."
)
TOO_SHORT = Entry(
    "P18", "`{name}` is {length} long, less than the {short} it should end short.", "Shorten it less."
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
    "`{name}` lies {amount} along `{line}`, which is {length} long.",
    "Stay within it, or say `extended`.",
)
NOT_POSITIVE = Entry("P23", "{what} of `{name}` is {amount}.", "It must be more than nothing.")
SLOT_TOO_WIDE = Entry(
    "P24",
    "The slot `{name}` is {long} long and {wide} wide.",
    "A slot is longer than it is wide; else it is a hole.",
)
COUNT_NOT_WHOLE = Entry(
    "P25", "The row `{name}` should have {count} holes.", "Give a whole number, 1 or more."
)
ROUNDED_TOO_MUCH = Entry("P26", "`{name}` cannot be rounded by {by}.", "The largest that fits is {largest}.")
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
    "P29", "`{first}` and `{second}` are one place, and a leg needs length.", "Leave one of them out."
)
NOT_SYMMETRIC = Entry(
    "P30",
    "The outline of `{piece}` is not the same on both sides of its mirror line `{line}`.",
    "Place its middle on the line, or leave `mirrored over` out.",
)
CUT_MISSES = Entry(
    "P31", "The cut {side} does not cross the outline of `{piece}`.", "Move the line, or take the cut out."
)
CUT_NAMES = Entry(
    "P32",
    "The cut {side} makes {count} new corners on the drafted half, and {given} are named.",
    "Name {count}: `naming {example}`.",
)
LOST_GROUND = Entry(
    "P33",
    "`{name}` lost ground to the cut {side} in `{piece}`.",
    "Leave it out of this piece: `without {without}`.",
)
NOTCH_OFF_EDGE = Entry("P34", "The notch `{name}` is {distance} off the edge.", "Place it `on outline`.")
SEVERAL_TOPS = Entry(
    "P35", "`{name}` has several places equally far {side}.", "Name a point of your own instead."
)
DIRECTION_UNSURE = Entry(
    "P36",
    "The leg to `{to}` should go {how}, and its next point lies square to that.",
    "Say an angle, such as `leaving 90 deg`.",
)
AWAY_FROM_PIECE = Entry("P37", "`{name}` lies off the piece{where}.", "Move it inside the outline.")
PLACES_ITSELF = Entry(
    "P38", "`{name}` is placed by its own line and takes no `{clause}`.", "Take the clause out."
)
NOT_STRAIGHT = Entry(
    "P39", "`{line}` is not straight, so nothing can be mirrored over it.", "Name a straight line, or `A..B`."
)
EITHER_WAY_ROUND = Entry(
    "P40",
    "Along `{line}` the leg to `{to}` is as long either way round.",
    "Put a point on the line between them and go there first.",
)
NO_WIDTH = Entry("P41", "The mirror line `{line}` has no length.", "Its two points must lie apart.")
FILLETS_MEET = Entry(
    "P42",
    "The corners `{first}` and `{second}` together take {needs} of a leg {has} long.",
    "Make one of them smaller.",
)
CUT_FALLS_APART = Entry(
    "P43", "The cut {side} leaves `{piece}` in parts, near {places}.", "Move the line until one part is left."
)
