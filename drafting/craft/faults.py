"""What the trade cannot do as asked, with the figures a message needs.

Every fault is a CraftFault: `entry` is its line in the catalogue and `facts` fill it, but for the maker's names
(`line`, `piece`), which the caller adds: `messages.add(fault.entry, at=span, line=name, **fault.facts)`. The figures
themselves are attributes, for whoever wants to reckon with them.
"""

from __future__ import annotations

from drafting.geometry.maths import degrees, in_words
from drafting.geometry.point import Point
from drafting.solve.amounts import mm, place, plain
from drafting.text.catalogue import craft as says
from drafting.text.messages import Entry

ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")


def ordinal(index: int) -> str:
    """`first` for 0, in figures past the tenth."""
    return ORDINALS[index] if index < len(ORDINALS) else f"no. {index + 1}"


def which_stretch(index: int, count: int) -> str:
    """`second ` of several stretches, nothing of a single one."""
    return f"{ordinal(index)} " if count > 1 else ""


def counted(number: int, word: str, plural: str | None = None) -> str:
    """`1 stretch`, `2 stretches`."""
    return f"{number} {word if number == 1 else plural or word + 's'}"


def stitches_text(number: int) -> str:
    return counted(number, "stitch", "stitches")


def stretches_text(number: int) -> str:
    return counted(number, "stretch", "stretches")


NUMBERS = (
    "no",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
)


def number_word(number: int) -> str:
    """`two` for 2; in figures past twelve."""
    return NUMBERS[number] if number < len(NUMBERS) else str(number)


@in_words
def percent(share: float) -> str:
    """`17 %`; below a tenth one more digit."""
    return f"{plain(abs(share) * 100, 0 if abs(share) >= 0.1 else 1)} %"


def degrees_text(angle: float) -> str:
    return f"{plain(degrees(angle))} deg"


class CraftFault(Exception):
    """Something asked of the trade that cannot be done."""

    entry: Entry

    def __init__(self, **facts: str) -> None:
        self.facts = facts
        super().__init__(self.entry.says.format(**{"line": "this line", **facts}))


PITCH = "a pitch of {}"
PER_INCH = "{} stitches per inch"
IRON = "an iron numbered {}"


class NoPitch(CraftFault):
    """A pitch of nothing, or of less."""

    entry = says.NO_PITCH

    def __init__(self, number: float, of: str) -> None:
        super().__init__(pitch=of.format(mm(number) if of == PITCH else plain(number)))


class PitchTooLong(CraftFault):
    """A pitch longer than a stretch it should be sewn along."""

    entry = says.PITCH_TOO_LONG

    def __init__(self, pitch: float, length: float, stretch: int, of: int) -> None:
        super().__init__(pitch=mm(pitch), length=mm(length), stretch=which_stretch(stretch, of))
        self.pitch, self.length, self.stretch = pitch, length, stretch


class TooFewStitches(CraftFault):
    """A count that leaves some stretch without a stitch."""

    entry = says.NO_STITCHES

    def __init__(self, stitches: int, least: int) -> None:
        super().__init__(stitches=stitches_text(stitches), stretches=stretches_text(least), least=str(least))
        self.stitches, self.least = stitches, least


class CountsDiffer(CraftFault):
    """A line that should copy its counts from one with another number of stretches."""

    entry = says.COUNTS_DIFFER

    def __init__(self, stretches: int, others: int) -> None:
        super().__init__(stretches=stretches_text(stretches), others=str(others))
        self.stretches, self.others = stretches, others


class NeedsStart(CraftFault):
    """A ring without corners that has no place for its first hole."""

    entry = says.NEEDS_START


class NoOnePlace(CraftFault):
    """A point that two places of a line are equally near to."""

    entry = says.NO_ONE_PLACE

    def __init__(self, point: Point) -> None:
        super().__init__(point=place(point))
        self.point = point


class CannotStep(CraftFault):
    """A line that doubles back so closely that equal steps across it do not end on its end."""

    entry = says.CANNOT_STEP

    def __init__(self, where: Point) -> None:
        super().__init__(place=place(where))
        self.place = where


class TooManyHoles(CraftFault):
    """More holes than any piece of leather has."""

    entry = says.TOO_MANY_HOLES

    def __init__(self, holes: int, most: int) -> None:
        super().__init__(holes=str(holes), most=str(most))
        self.holes, self.most = holes, most


class TooManyBackStitches(CraftFault):
    """More stitches to be sewn twice than there are."""

    entry = says.BACK_STITCHES

    def __init__(self, back: int, stitches: int) -> None:
        super().__init__(back=str(back), stitches=stitches_text(stitches))
        self.back, self.stitches = back, stitches


class TurnOutOfRange(CraftFault):
    """A bend through nothing, or through more than a whole turn."""

    entry = says.TURN_RANGE

    def __init__(self, turn: float) -> None:
        super().__init__(turn=degrees_text(turn))
        self.turn = turn


class SetBackEndless(CraftFault):
    """A bend of half a turn or more: its outside faces never meet in a corner."""

    entry = says.SET_BACK_ENDLESS

    def __init__(self, turn: float) -> None:
        super().__init__(turn=degrees_text(turn))
        self.turn = turn


class NotPositive(CraftFault):
    """An amount that must be more than nothing. `what` is the word for it."""

    entry = says.NOT_POSITIVE

    def __init__(self, what: str, given: float) -> None:
        super().__init__(what=what, given=mm(given))
        self.what, self.given = what, given


def expect_positive(**amounts: float) -> None:
    """Every amount is more than nothing; its word is its name, `_` read as a blank."""
    for name, value in amounts.items():
        if not value > 0:
            raise NotPositive(name.replace("_", " "), value)


def expect_not_negative(**amounts: float) -> None:
    for name, value in amounts.items():
        if not value >= 0:
            raise NotPositive(name.replace("_", " "), value)
