"""The trade: codes K.. for work that cannot be done as asked, R.. for the rules of the workshop.

In a K entry `{line}` is the maker's name, given by the caller; the other facts come with the fault. An R entry is
filled in by its rule; `{why}` is the rule's reason, in the maker's terms.
"""

from drafting.text.messages import Entry, Severity

NO_PITCH = Entry("K01", "`{line}` asks for {pitch}.", "Write a pitch, such as `every 3.85 mm`.")
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
    "`{line}` asks for {stitches}; it falls into {stretches} and needs at least {least}.",
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
    "Say `as many as {first}` of `{second}`, or give both the same corners.",
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
SLIT_TOO_SHORT = Entry(
    "K20",
    "Between its holes the slit `{line}` has nothing left to cut: near {place} {length} is shorter than the "
    "{needs} its holes take.",
    "Write smaller holes, or lengthen the slit.",
)
SLIT_CLOSES = Entry(
    "K21", "The slit `{line}` comes back on itself and cuts a window.", "Write it as an `opening`."
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
UNKNOWN_RULE = Entry("K28", "There is no rule `{code}` to allow.", "`awlwright rules` lists them.{meant}")
NO_REASON = Entry(
    "K30", "`allow {code}` gives no reason.", 'Write for instance `allow {code} "tried in scrap"`.'
)
ALLOWED = Entry(
    "K40",
    "`{code}` is allowed here: {says} The reason given: {reason}",
    "",
    Severity.NOTE,
)
ALLOWS_NOTHING = Entry(
    "K41",
    "`allow {code}` allows nothing: the rule holds without it.",
    "Take it out.",
    Severity.WARNING,
)
LEAN_RANGE = Entry(
    "K32", "A mark that leans {lean} is no slanted mark.", "Lean it by 0 deg up to less than 180 deg."
)
ROW_TOO_LONG = Entry(
    "K33",
    "The row `{line}` needs {needs} and its line is {length} long: it holds {fits} {apart} apart.",
    "Punch fewer, or set them nearer to each other.",
)
EMPTY_ROW = Entry("K34", "The row `{line}` has no hole.", "Write `1 holes` or more.")
UNKNOWN_STITCH = Entry(
    "K35", "There is no stitch {number}.", "Stitch numbers run from 100 to 699; two needles by hand are 201."
)
YIELD_RANGE = Entry(
    "K36", "A yield of {part} is none.", "Say what part of a hide is used, such as 60 % of it."
)
TOLERANCE_RANGE = Entry("K31", "A cut {tolerance} off is no measure of care.", "Write 0 mm or more.")

STITCH_TO_EDGE = Entry(
    "R01",
    "`{line}` comes {measured} from the edge; {limit} is the least: {why}.",
    "Stitch it `{needed} inside` or more.",
    Severity.WARNING,
)
STITCH_FAR_FROM_EDGE = Entry(
    "R02",
    "`{line}` runs {measured} from the edge; {limit} is the most in common use: {why}.",
    "Stitch it `{needed} inside` or less, or leave it.",
    Severity.NOTE,
)
SEWN_THICKNESS = Entry(
    "R03",
    "`{line}` sews {sewn} and stands {measured} from the edge; {limit} is the least: {why}.",
    "Stitch it `{needed} inside` or more, or skive the seam thinner.",
    Severity.WARNING,
)
HOLE_TO_EDGE = Entry(
    "R04",
    "`{hole}` ({across} across) has its middle {measured} from the edge; {limit} is the least{loaded}: {why}.",
    "Set its middle {lacking} farther in{smaller}.",
    Severity.WARNING,
)
HOLE_TO_HOLE = Entry(
    "R05",
    "{left}; {limit} is the least: {why}.",
    "Set them {apart} apart or more from middle to middle{smaller}.",
    Severity.WARNING,
)
FILLET_AND_INSET = Entry(
    "R06",
    "Near {place} `{line}` turns a sharp corner, for the edge is rounded by {measured} and the line stands {limit} "
    "inside: {why}.",
    "Round the corner by {limit} or more; half a pitch on top is better.",
    Severity.NOTE,
)
NOTCH_TO_SEAM = Entry(
    "R07",
    "`{notch}` {left} `{line}`; {limit} is the least: {why}.",
    "{mend}",
    Severity.WARNING,
)
OPENING_TO_EDGE = Entry(
    "R08",
    "`{opening}` leaves {measured} of leather to the edge; {limit} is the least in {thick}: {why}.",
    "Set it {lacking} farther in, or make it smaller by as much on that side.",
    Severity.WARNING,
)
SLIT_TO_EDGE = Entry(
    "R09",
    "`{slit}` comes {measured} from the edge; {limit} is the least in {thick}: {why}.",
    "Set it {lacking} farther in, or end it sooner by as much.",
    Severity.WARNING,
)
CUT_TO_SEAM = Entry(
    "R10",
    "`{cut}` {comes} the holes of `{line}`; {limit} is the least: {why}.",
    "Set one of them {lacking} or more farther from the other.",
    Severity.WARNING,
)
BARE_SLIT = Entry(
    "R11",
    "`{slit}` ends at {place} without a hole: {why}.",
    "Add `end holes 2 mm`.",
    Severity.WARNING,
)
THIN_BRIDGE = Entry(
    "R12",
    "Between `{first}` and `{second}` {measured} of leather are left; {limit} is the least in {thick}: {why}.",
    "Set them {lacking} farther apart, or make one of them smaller by as much on that side.",
    Severity.WARNING,
)
STRAP_WIDER_THAN_BUCKLE = Entry(
    "R14",
    "`{strap}` is {measured} wide and `{buckle}` {limit} inside: {why}.",
    "Make the strap {needed} wide or a little less.",
)
STRAP_SLACK_IN_BUCKLE = Entry(
    "R15",
    "`{strap}` is {measured} wide; in `{buckle}`, {inside} inside, {limit} is the least: {why}.",
    "Make it {needed} wide or a little more, or take a buckle {narrower} inside or less.",
    Severity.WARNING,
)
STRAP_AND_SLOT = Entry(
    "R16",
    "`{strap}` is {strap_size} {way} and `{slot}` {measured}; {limit} is the least: {why}.",
    "Make the slot {needed} or more.",
)
TURN_BACK_TOO_SHORT = Entry(
    "R17",
    "The end of `{piece}` reaches {measured} past `{fold}`, and `{seam}` needs {limit}: {why}.",
    "Lengthen the turn-back by {lacking}, or sew nearer to the fold by as much.",
)
SLOT_TO_STITCHING = Entry(
    "R18",
    "`{slot}` {ends} `{seam}`; {limit} is the least: {why}.",
    "Sew {lacking} farther from the fold, or cut the slot shorter by {twice}.",
    Severity.WARNING,
)
SLOT_OFF_FOLD = Entry(
    "R19",
    "The middle of `{slot}` is {measured} off the middle of `{fold}`; {limit} is the most: {why}.",
    "Place its middle `{at}`.",
    Severity.WARNING,
)
PRONG_IN_SLOT = Entry(
    "R20",
    "`{slot}` is {measured} wide and the prong of `{buckle}` {prong}; {limit} is the least: {why}.",
    "Make the slot {needed} wide.",
    Severity.WARNING,
)
EVEN_STRAP_HOLES = Entry(
    "R21",
    "`{row}` has {measured} holes: {why}.",
    "Punch {fewer} or {more}.",
    Severity.WARNING,
)
STRAP_HOLES_OFF_CENTER = Entry(
    "R22",
    "{what} of `{row}` is {measured} off {center}; {limit} is the most: {why}.",
    "Place the row `{place}`.",
    Severity.WARNING,
)
WINDOW_TOO_LARGE = Entry(
    "R23",
    "`{window}` is {measured} {way} and `{content}` {content_size}: {why}.",
    "Make the window {needed} or less.",
)
WINDOW_OVERLAP = Entry(
    "R24",
    "`{window}` laps over `{content}` by {measured} {way} at each side; {limit} is the least: {why}.",
    "Make the window {needed} or less.",
    Severity.WARNING,
)
INSERT_TOO_SMALL = Entry(
    "R25",
    "`{insert}` does not cover `{window}`: near {place} it ends {measured} short{off}: {why}.",
    "Make it larger: `3 mm outside {window}`.",
)
INSERT_GLUE = Entry(
    "R26",
    "`{insert}` reaches {measured} past `{window}`; {limit} is the least: {why}.",
    "Make it larger by {lacking} on every side, if the seam leaves room.",
    Severity.WARNING,
)
INSERT_IN_SEAM = Entry(
    "R27",
    "`{insert}` {comes} the holes of `{line}`; {limit} is the least: {why}.",
    'Make it smaller by {lacking} or more on that side, or sew it in on purpose and write `allow R27 "sewn in"`.',
    Severity.WARNING,
)
CONTENT_BETWEEN_SEAMS = Entry(
    "R28",
    "`{pocket}` is {measured} from {walls}; `{content}` needs {limit}{ease}: {why}.",
    "Make the pocket {lacking} wider.",
)
CONTENT_PAST_OPENING = Entry(
    "R29",
    "The opening `{opening}` is {measured} long; `{content}` needs {limit} to get past: {why}.",
    "Make the opening {lacking} longer.",
)
PITCH_AND_THREAD = Entry(
    "R30",
    "`{line}` has a pitch of {measured} for thread {thread} thick, {ratio} times; {limit} is common: {why}.",
    "Take thread between {thinnest} and {thickest}, or another pitch.",
    Severity.WARNING,
)
SHORT_LAST_STITCH = Entry(
    "R31",
    "`{line}` leaves {measured} over, less than half a pitch of {pitch}: {why}.",
    "Say `every {pitch}`, or change the length of the line.",
    Severity.NOTE,
)
NO_GRAIN = Entry(
    "R32",
    "`{piece}` is {measured} long, {ratio} times its width, and does not say how its grain lies: {why}.",
    "Add `{grain}` along its length, or `grain any`.",
    Severity.WARNING,
)
GRAIN_ACROSS = Entry(
    "R33",
    "The grain of `{piece}` lies {measured} off its length; {limit} is the most: {why}.",
    "Write `{grain}`, along its length.",
    Severity.WARNING,
)
SHARP_FOLD = Entry(
    "R34",
    "`{fold}` bends leather {thick} thick round {measured}; {limit} is the least: {why}.",
    "Bend it `round {limit}` or more, or skive the fold.",
    Severity.WARNING,
)
THICK_TURN = Entry(
    "R35",
    "`{turn}` turns leather {measured} thick; {limit} is the most: {why}.",
    "Skive it, such as `skive thin: band {band} outside outline; down to {thin}`.",
    Severity.WARNING,
)
TURN_WIDTH = Entry(
    "R36",
    "`{turn}` is {measured} wide; {limit} is common: {why}.",
    "Turn it `{nearest} outside`, or leave it.",
    Severity.NOTE,
)
HOLE_OF_NO_PUNCH = Entry(
    "R37",
    "`{hole}` has a hole {across} across, and no punch of the table makes it: `{punch}`, {punch_across} across, comes "
    "nearest, and {limit} off is the most: {why}.",
    "Write `{punch}` for its size, or add a punch of that size to the table, such as `punch another: {across} across`.",
    Severity.WARNING,
)
SEAM_OF_UNKNOWN = Entry(
    code="K55",
    says="`{stock}` does not say how thick it is, so the thread of {seams} is reckoned as if it were nothing.",
    mend="Say it in its statement, such as `1.8 mm thick`.",
    severity=Severity.WARNING,
)
NO_PRICE = Entry(
    code="K56",
    says="The price list has no price for the {kind} `{name}`, so the costs are without it.",
    mend="Give it one, such as {row}.{meant}",
    severity=Severity.WARNING,
)
SOLD_OTHERWISE = Entry(
    code="K57",
    says="The price of `{name}` is for {priced}, but it is {kind} and comes by {needed}, so the costs are without it.",
    mend="Say what the price is for, such as {said}.",
    severity=Severity.WARNING,
)
