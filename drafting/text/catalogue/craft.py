"""The trade: codes K.. for work that cannot be done as asked.

`{line}` and `{piece}` are the maker's names, given by the caller; the other facts come with the fault.
"""

from drafting.text.messages import Entry

NO_PITCH = Entry("K01", "`{line}` asks for a pitch of {pitch}.", "Write a pitch, such as `every 3.85 mm`.")
PITCH_TOO_LONG = Entry(
    "K02",
    "`{line}` holds no stitch of {pitch}: its {stretch}stretch is {length} long.",
    "Write a pitch of {length} or less, or lengthen the line.",
)
PITCH_OFF = Entry(
    "K03",
    "`{line}` is {length}: {pitches} pitches of {pitch}; {stitches} would be {true_pitch} each, {off} off.",
    "Accept with `{count} stitches`, or end it {short} for {true_whole}.",
)
PITCH_OFF_IN_STRETCH = Entry(
    "K04",
    "The {stretch}stretch of `{line}` is {length}: {pitches} pitches of {pitch}; {stitches} would be {true_pitch} "
    "each, {off} off.",
    "{mend}",
)
NO_STITCHES = Entry(
    "K05",
    "`{line}` asks for {stitches}, and its {stretches} needs at least {least}.",
    "Write `{least} stitches` or more.",
)
COUNTS_DIFFER = Entry(
    "K06",
    "`{line}` falls into {stretches}, and the line it copies its counts from into {others}.",
    "Give both the same corners and the same `hole at` places.",
)
NEEDS_START = Entry(
    "K07",
    "`{line}` goes all round without a corner, and does not say where its first hole stands.",
    "Add for instance `start at outline.top`.",
)
NO_ONE_PLACE = Entry(
    "K08",
    "{point} is as near to one place of `{line}` as to another, so it does not say where a hole stands.",
    "Name a point that lies on the line or nearer to one part of it.",
)
CANNOT_STEP = Entry(
    "K09",
    "`{line}` cannot be stepped evenly straight across: near {place} it turns back within one pitch.",
    "Measure the pitch along the line, or write a shorter pitch.",
)
TOO_MANY_HOLES = Entry(
    "K10",
    "`{line}` would have {holes} holes; {most} are the most.",
    "Write a longer pitch, or fewer stitches.",
)
BACK_STITCHES = Entry(
    "K11",
    "`{line}` has {stitches}, too few to stitch {back} of them twice.",
    "Back-stitch {stitches} or fewer.",
)
JOIN_STRETCHES = Entry(
    "K12",
    "`{first}` falls into {first_stretches} and `{second}` into {second_stretches}; a seam is sewn stretch by stretch.",
    "Say `as many as {first}` of `{second}`, or give both the same corners.{hint}",
)
JOIN_COUNTS = Entry(
    "K13",
    "`{changed}` has {changed_stitches} and `{kept}` {kept_stitches}{stretch}; a seam needs as many.",
    "Say `as many as {kept}` (pitch {pitch}).{hint}",
)
JOIN_LENGTHS = Entry(
    "K14",
    "`{longer}` is {longer_length} and `{shorter}` {shorter_length}{stretch}: {difference} apart, and {allowed} is the "
    "most.",
    "{change} `{changed}` by {difference}{alternative}.",
)
HOLES_APART = Entry(
    "K15",
    "Holes of `{first}` and `{second}` do not meet: {count} are apart, by up to {worst} at {place}.",
    "Prick the one through the other: `same holes as {first}`.",
)
TURN_RANGE = Entry(
    "K16", "A bend of {turn} is no bend.", "A bend turns through more than 0 deg, up to 360 deg."
)
SET_BACK_ENDLESS = Entry(
    "K17",
    "A bend of {turn} has no outside corner to measure to.",
    "Give the straight lengths and add the bend's allowance.",
)
NOT_POSITIVE = Entry("K18", "{what} is {given}, and must be more than 0.", "Write a positive amount.")
NO_CONE = Entry(
    "K19",
    "A cone with two ends of radius {radius} is a cylinder, and rolls out to a box.",
    "Draw a box, {length} long.",
)
SLIT_TOO_SHORT = Entry(
    "K20",
    "Between its holes the slit `{line}` has nothing left to cut: near {place} {length} is shorter than the "
    "{needs} its holes take.",
    "Write smaller holes, or lengthen the slit.",
)
SLIT_CLOSES = Entry(
    "K21", "The slit `{line}` comes back on itself and cuts a window.", "Write it as an `opening`."
)
UNKNOWN_PUNCH = Entry(
    "K22", "The table `{table}` has no punch `{name}`.", "It has {offers}. Or give the hole in mm.{near}"
)
TURN_TOO_NARROW = Entry(
    "K23",
    "A turn of {width} in leather {thickness} thick leaves nothing to glue: {bend} goes into the bend.",
    "Turn {least} or more, or skive it thinner.",
)
TURN_TOO_SHARP = Entry(
    "K24",
    "At {place} the turned edge goes round a radius of {radius}, sharper than the leather is thick ({thickness}).",
    "Round it by {thickness} or more, or skive it thinner.",
)
TURN_NEEDS_CORNERS = Entry(
    "K25",
    "The turned edge has a corner at {place}, and does not say how it is made.",
    "Add `corners mitred`, `corners cut` or `corners pleated`.",
)
TURN_OVERLAPS = Entry(
    "K26",
    "At {place} a turn of {width} with corners {corners} runs into itself.",
    "Turn less, or lengthen the leg.",
)
UNKNOWN_CONTENT = Entry("K27", "There is no content `{name}` in the table.", "There are {offers}.{near}")
UNKNOWN_RULE = Entry("K28", "There is no rule `{code}` to allow.", "There are {offers}.")
NEVER_ALLOWED = Entry(
    "K29", "`{code}` cannot be allowed: {reason}.", "Mend the piece, and take `allow {code}` out."
)
NO_REASON = Entry(
    "K30", "`allow {code}` gives no reason.", 'Write for instance `allow {code} "tried in scrap"`.'
)
TOLERANCE_RANGE = Entry("K31", "A cut {tolerance} off is no measure of care.", "Write 0 mm or more.")
