"""Insert cards: lines of words, and a QR code if asked, on a card as large as a content of the pattern.

All lines are in the middle of the room that the code leaves; the first is larger. Words wrap at blanks and are never
broken; what fits at no height of the series is told.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from drafting.drawing.amounts import Figures
from drafting.drawing.fonts import set_width
from drafting.drawing.lettering import HEIGHTS, LINE_PITCH, font_size, has_known_width, natural_width, wrap
from drafting.drawing.marks import DESCENT, Group, Lettering
from drafting.drawing.roster.asked import expect_content
from drafting.drawing.roster.letters import lines_of_words, say_lacking, shortened
from drafting.drawing.roster.qr import LEAST_MODULE, Code, code_of
from drafting.drawing.roster.templates import expect_headings, filled
from drafting.drawing.roster.wishes import Wishes
from drafting.geometry.point import Point, Vector
from drafting.records import dataclass, replace
from drafting.solve.placed import Placed, PlacedContent
from drafting.text.catalogue import roster as says
from drafting.text.messages import Messages
from drafting.text.table import Row, Table

FLAT = 1.0
"""mm: what is thicker is no card (ISO/IEC 7810 cards are 0.76 mm)."""
MARGIN = 3.0
"""mm, left free round the words; of small cards SMALL_MARGIN of the shorter side."""
SMALL_MARGIN = 0.1
HIGHEST = 7.0
"""mm: the first line is no higher than this."""
Lacking = Callable[[str], Iterable[str]]
"""What of some words no font at hand can print; fonts are no business of this room."""
MOST_FOR_CODE = 0.5
"""Of the longer side of a card, for the QR code."""


@dataclass(frozen=True)
class CardForm:
    """How large a card is, in mm."""

    width: float
    height: float

    @property
    def margin(self) -> float:
        return min(MARGIN, SMALL_MARGIN * min(self.width, self.height))

    @property
    def has_code_beside(self) -> bool:
        """On an upright card the code stands below the words."""
        return self.width >= self.height

    @property
    def code_side(self) -> float:
        """The side of the square for a code with the white round it, which may lie in the margin."""
        long, short = max(self.width, self.height), min(self.width, self.height)
        return min(short, MOST_FOR_CODE * long)

    def room(self, has_code: bool) -> tuple[Point, float, float]:
        """The middle of the room for words, its width and its height."""
        wide, high = self.width - 2 * self.margin, self.height - 2 * self.margin
        middle = Point(self.width / 2, self.height / 2)
        taken = self.code_side - self.margin
        if not has_code:
            return middle, wide, high
        if self.has_code_beside:
            return middle + Vector(-taken / 2, 0), wide - taken, high
        return middle + Vector(0, taken / 2), wide, high - taken

    @property
    def code_middle(self) -> Point:
        half = self.code_side / 2
        return (
            Point(self.width - half, self.height / 2) if self.has_code_beside else Point(self.width / 2, half)
        )


@dataclass(frozen=True)
class Card:
    """The words of a card, the first line `height` high, and its code."""

    form: CardForm
    words: tuple[str, ...]
    height: float
    code: Code | None

    def with_height(self, height: float) -> Card:
        return replace(self, height=height)

    def lines(self) -> list[tuple[str, float]]:
        """Each line with its height, as it wraps."""
        _, wide, _ = self.form.room(self.code is not None)
        return _wrapped(self.words, self.height, wide)

    def group(self, name: str) -> Group:
        """The card as it is printed, its lower left corner at (0, 0)."""
        middle, _, _ = self.form.room(self.code is not None)
        marks: list[Lettering | Group] = []
        lines = self.lines()
        up = middle.y + _height_of(lines) / 2
        for number, (text, height) in enumerate(lines):
            up -= height if number == 0 else LINE_PITCH * height
            marks.append(Lettering(text, Point(middle.x, up), height, use="card"))
        if self.code:
            marks.append(self.code.group(self.form.code_middle, self.form.code_side))
        return Group("card", name, tuple(marks), title=name)


def _wrapped(words: Sequence[str], height: float, wide: float) -> list[tuple[str, float]]:
    smaller = _below(height)
    return [
        (line, each)
        for number, text in enumerate(words)
        for each in (height if number == 0 else smaller,)
        for line in wrap(text, each, wide, printed_width)
    ]


def printed_width(text: str, height: float) -> float:
    """How wide a line is on paper: letters that Arimo lacks are as wide there as their own font has them."""
    reckoned = natural_width(text, height)
    if all(map(has_known_width, text)):
        return reckoned
    return min(reckoned, set_width(text) * font_size(height))


def _below(height: float) -> float:
    """The next height of the series, if there is one."""
    return max((step for step in HEIGHTS if step < height), default=HEIGHTS[0])


def _height_of(lines: Sequence[tuple[str, float]]) -> float:
    """From the top of the first line to below the last."""
    heights = [height for _, height in lines]
    return heights[0] + sum(LINE_PITCH * height for height in heights[1:]) + DESCENT * heights[-1]


def _fits(words: Sequence[str], height: float, wide: float, high: float) -> bool:
    smaller = _below(height)
    sized = [
        (word, smaller if number else height) for number, text in enumerate(words) for word in text.split()
    ]
    if any(printed_width(word, each) > wide for word, each in sized):
        return False
    return _height_of(_wrapped(words, height, wide)) <= high


class CardMaker:
    """Makes the card of each row, once it is chosen which content cards are for."""

    def __init__(
        self, table: Table, wishes: Wishes, passed_over: frozenset[str], lacking: Lacking, messages: Messages
    ) -> None:
        self.table, self.wishes, self.lacking, self.messages = table, wishes, lacking, messages
        self.content: str | None = None
        self.is_chosen = False
        own = [f"{{{name}}}" for name in table.headings if name not in passed_over]
        self.templates = wishes.lines or tuple(own)
        self.figures = Figures(("mm",), with_units=True)

    def choose(self, placed: Placed) -> None:
        """Which content cards are for: the one named, else the only flat one."""
        if self.is_chosen or not self.wishes.has_cards:
            return
        self.is_chosen = True
        contents = {content.name: content for content in placed.item.contents}
        flat = [name for name, content in contents.items() if is_flat(content)]
        expect_content(self.wishes, contents, self.messages)
        if self.wishes.card is not None:
            self.content = self.wishes.card if self.wishes.card in contents else None
        elif len(flat) > 1:
            mend = f"Say which of them, such as `--card {flat[0]}`, or `--no-cards`."
            self._say_unfit(", ".join(flat), "it is not said which of them is meant", mend)
        elif flat:
            self.content = flat[0]
        elif contents and self.wishes.templates:
            thick = next(iter(contents))
            mend = f"Name the content that cards are to be as large as, such as `--card {thick}`, or leave it out."
            self.messages.add(says.NO_CARDS, at=None, template=self.wishes.templates[0], mend=mend)
        if self.content is not None:
            for template in (*self.templates, *([self.wishes.qr] if self.wishes.qr else [])):
                expect_headings(template, self.table, self.messages)
            if self.messages.has_errors:
                self.content = None

    def _say_unfit(self, content: str, reason: str, mend: str) -> None:
        self.messages.add(says.UNFIT_CARD, at=None, content=content, reason=reason, mend=mend)

    def card(self, row: Row, placed: Placed) -> Card | None:
        if self.content is None:
            return None
        form = form_of(next(one for one in placed.item.contents if one.name == self.content))
        texts = (filled(template, self.table, row) for template in self.templates)
        words = tuple(line for text in texts for line in lines_of_words(text))
        code = self.code(row, form)
        facts = {"line": row.line, "text": shortened(words), "what": f"the card `{self.content}`"}
        if not words and code is None:
            self.messages.say(says.CELL_EMPTY, row.at, {**facts, "column": ", ".join(self.templates)})
            return None
        missing = dict.fromkeys(letter for line in words for letter in self.lacking(line))
        if missing:
            say_lacking(missing, "any font that is at hand", row.at, facts, self.messages)
            return None
        height = fitted_height(form, words, code is not None)
        if height is None:
            least = self.figures.length(HEIGHTS[0])
            figures = {"height": f"less than {least}", "least": least, "other": ", or ask for fewer lines"}
            self.messages.say(says.TOO_LONG, row.at, {**facts, **figures})
            return None
        return Card(form, words, height, code)

    def code(self, row: Row, form: CardForm) -> Code | None:
        """None where none is asked for, or where its squares would be too fine."""
        text = filled(self.wishes.qr, self.table, row) if self.wishes.qr else ""
        if not text:
            return None
        code = code_of(text)
        module = code.module(form.code_side) if code else 0.0
        if code and module >= LEAST_MODULE:
            return code
        figures = {"module": self.figures.length(module), "least": self.figures.length(LEAST_MODULE)}
        self.messages.say(says.QR_TOO_FINE, row.at, {"line": row.line, "text": shortened([text]), **figures})
        return None


def fitted_height(form: CardForm, words: Sequence[str], has_code: bool) -> float | None:
    """The highest first line of the series with which all words find room; None where no height does."""
    _, wide, high = form.room(has_code)
    heights = (height for height in reversed(HEIGHTS) if height <= HIGHEST)
    return next((height for height in heights if not words or _fits(words, height, wide, high)), None)


def is_flat(content: PlacedContent) -> bool:
    return content.thick is None or content.thick <= FLAT


def form_of(content: PlacedContent) -> CardForm:
    """As it lies, or with the longer side level where nobody says how."""
    return CardForm(content.width or content.long, content.height or content.wide)
