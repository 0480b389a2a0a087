"""What is said of a lay: by the command (C), and of pieces and hides at their places (K)."""

from __future__ import annotations

from drafting.text.messages import Entry, Severity

NOTHING_TO_CUT_FROM = Entry(
    code="C110",
    says="Nothing is said of what the parts are cut from.",
    mend="Say `--panel 600x400` (mm), `--roll '1400 mm'` or `--hide hide.draft`.",
)
UNFIT_PANEL = Entry(
    code="C111",
    says="`{said}` is no panel.",
    mend="Write its sides in mm, up to {most}, and how many there are if that is known: `--panel 600x400` or "
    "`--panel 600x400:3`.",
)
LEFT_FROM_BEFORE = Entry(
    code="C213",
    says="{files} in `{out}` {are} of a lay before this one.",
    mend="Delete what you do not need, or lay into a folder of its own: `--out {out}-2`.",
    severity=Severity.WARNING,
)
ENDLESS_PANEL = Entry(
    code="C212",
    says="Of the panels that are cut first there are as many as are needed, so those named after them are never cut.",
    mend="Say how many there are, such as `--panel 600x400:3`; only the last may go without.",
)
TOO_MANY_PARTS = Entry(
    code="C113",
    says="The order has {parts} parts; one lay holds {most} at the most.",
    mend="Lay fewer copies at once; the yield of some of them holds for the rest.",
)
UNFIT_TIME = Entry(
    code="C114",
    says="`{said}` is no time to search for.",
    mend="Write seconds above 0, such as `--time 20`.",
)
UNFIT_COUNT = Entry(
    code="C115",
    says="`{said}` is no whole number from {least} up to {most}.",
    mend="Write one, such as `{option} {example}`.",
)
UNFIT_STRAY = Entry(
    code="C117",
    says="`{said}` is no angle that a grain may stray by.",
    mend="Write 0 up to 90 degrees, such as `--stray 10`.",
)
UNFIT_FREEDOM = Entry(
    code="C180",
    says="`{said}` does not say how a piece may lie.",
    mend="Write the piece and `along`, `across` (along, too), `any`, or degrees off the backbone: `--grain front=10`.",
)
NO_GRAIN_TO_LIE_BY = Entry(
    code="C181",
    says="`--grain {given}` goes by the grain of `{piece}`, which the pattern does not say.",
    mend="Say it in the pattern, such as `grain level`; or leave it out: without a grain a piece may lie any way.",
)
NOT_WITH_LAY = Entry(
    code="C229",
    says="`{option}` does nothing where the lay of `{file}` is drawn again as it is.",
    mend="Leave `{option}` out, or lay the patterns themselves.",
)
SEVERAL_STOCKS = Entry(
    code="C118",
    says="The parts come from several stocks, {stocks}, and one lay is cut from one.",
    mend="Choose, such as `--stock {first}`; say it again for another that lies on the same sheet.",
)
NO_SUCH_STOCK = Entry(
    code="C119",
    says="`{said}` names no stock that a part comes from.",
    mend="There are {known}.{meant}",
)
NO_SUCH_PIECE = Entry(
    code="C120",
    says="`{said}` names no piece of the order.",
    mend="There are {known}.{meant}",
)
NO_LAY = Entry(
    code="C121",
    says="`{file}` is no lay that can be drawn again: {reason}.",
    mend="Name a `lay.json` as this command wrote it, or lay the pattern anew.",
)
UNTRUE_LAY = Entry(
    code="C122",
    says="The lay does not hold what it must, so no file was kept: {difference}.",
    mend="This is a fault of the tool, not of the pattern: please report it with the files and the command.",
)
ALTERED_LAY = Entry(
    code="C182",
    says="`{file}` holds a lay that cannot be cut, so it is not drawn: {difference}.",
    mend="Take the file as the command wrote it, or lay the pattern anew.",
)
OTHER_HIDE_PIECES = Entry(
    code="C123",
    says="`{file}` has no piece, so there is no hide in it.",
    mend="Draw the hide as a piece: `piece shoulder:` with its outline.",
)
ROOMLESS_PIECE = Entry(
    code="K60",
    says="`{piece}` is {size} and goes on no {sheets}, turned as it may be.",
    mend="Take a larger one or less margin, or let the piece turn, such as by `grain any`.",
)
NO_BACKBONE = Entry(
    code="K61",
    says="The hide `{hide}` has no backbone, and `{piece}` must lie along it.",
    mend="Draw it: `guide backbone: tail to neck`, between two points of the hide.",
)
NOTHING_SOUND = Entry(
    code="K62",
    says="Nothing can be cut from the hide `{hide}`: defects, poor zones and the margin of {margin} take all of it.",
    mend="Say `--margin` smaller, or take out a defect that covers everything.",
)
CLOSED_BACKBONE = Entry(
    code="K63",
    says="The backbone of `{hide}` is a closed line and so has no direction.",
    mend="Draw it from one end to the other: `guide backbone: tail to neck`.",
)
OPEN_ZONE = Entry(
    code="K64",
    says="The zone `{zone}` of `{hide}` is an open line, so nothing lies in it.",
    mend="Close it with a leg back to its start, or draw it as a shape such as `200 mm across`.",
)
NO_FIRM_ZONE = Entry(
    code="K65",
    says="`{piece}` must come from a firm zone, and `{hide}` shows none, so all of it is taken for firm.",
    mend="Draw one: `guide firm: 400 mm across; at middle`.",
    severity=Severity.WARNING,
)
NO_TILED_SHEET = Entry(
    code="C194",
    says="`{sheet}` of the lay would be spread over at least {tiles} tiles of {paper}, too many to find one's way "
    "through.",
    mend="Take a larger paper, such as `--paper 914x1200`, or go by the drawings alone: leave `--paper` out.",
)
