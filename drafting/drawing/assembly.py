"""Views, footer and title block put together on a sheet.

The footer stands beside the title block where the sheet is wide enough for both, else above it. What is left of the
frame is room for views.
"""

from __future__ import annotations

from drafting.drawing import title_block
from drafting.drawing.arrows import straight
from drafting.drawing.footer import WIDTH as FOOTER_WIDTH
from drafting.drawing.footer import FooterFacts, columns, footer
from drafting.drawing.lines import FRAME, TABLE
from drafting.drawing.marks import Drawing, Group, Lettering, Stroke
from drafting.drawing.sheets import Sheet
from drafting.drawing.title_block import TitleFacts, rectangle
from drafting.geometry.bounds import Bounds
from drafting.geometry.point import Point, Vector
from drafting.records import dataclass

PADDING = 5.0
"""Between the frame and what stands in it."""
BESIDE = FOOTER_WIDTH + title_block.WIDTH + 2 * PADDING
DRAFT_WORDS = "DRAFT – not checked"
DRAFT_HEIGHT = 10.0
BANNER = 1.8 * DRAFT_HEIGHT
"""How high the strip is that says a sheet is a draft."""


@dataclass(frozen=True)
class Base:
    """What frames the views: title block and footer below, whose texts are known before the sheet's size is, and above
    the strip that a draft has."""

    footer: Group
    columns: tuple[Group, Group]
    """The footer for a sheet on which it stands beside the title block: the part beside it, and the one above it."""
    is_draft: bool = False

    def height_in(self, width: float) -> float:
        """What the lower part takes of a frame so wide, the space above it included."""
        if width < BESIDE:
            return title_block.HEIGHT + _height(self.footer) + 2 * PADDING
        beside, above = (_height(column) for column in self.columns)
        right = title_block.HEIGHT + (above + PADDING if above else 0.0)
        return max(right, beside + PADDING) + PADDING

    def room_in(self, sheet: Sheet) -> Bounds:
        """Where views may stand."""
        frame = sheet.frame
        return Bounds(
            frame.min_x + PADDING,
            frame.min_y + self.height_in(frame.width),
            frame.max_x - PADDING,
            frame.max_y - PADDING - self._banner_height,
        )

    @property
    def _banner_height(self) -> float:
        return BANNER if self.is_draft else 0.0

    def size_for(self, width: float, height: float) -> tuple[float, float]:
        """The frame that views of this size need."""
        wide = max(width + 2 * PADDING, title_block.WIDTH)
        return wide, height + PADDING + self._banner_height + self.height_in(wide)


def make_base(facts: FooterFacts, is_draft: bool) -> Base:
    return Base(footer(facts), columns(facts, title_block.HEIGHT), is_draft)


def _height(group: Group) -> float:
    bounds = group.bounds
    return bounds.height if bounds else 0.0


def assemble(
    sheet: Sheet, base: Base, facts: TitleFacts, views: list[Group], note: str, scale: float
) -> Drawing:
    """The finished sheet; the views are in their places already."""
    frame = sheet.frame
    border = Stroke(FRAME, rectangle(frame.min_x, frame.min_y, frame.max_x, frame.max_y))
    block = title_block.title_block(facts, frame.max_x, frame.min_y)
    groups = (
        *views,
        Group("frame", "frame", (border,), title="Frame"),
        block,
        *_placed_footer(sheet, base),
        *([_banner(sheet)] if base.is_draft else []),
    )
    title = f"{facts.title}: {facts.subtitle}" if facts.subtitle else facts.title
    title = f"DRAFT, not checked: {title}" if base.is_draft else title
    return Drawing(title, note, sheet.width, sheet.height, sheet.name, scale, groups)


def _banner(sheet: Sheet) -> Group:
    """A strip across the top of the frame, in letters that nobody overlooks."""
    frame = sheet.frame
    low = frame.max_y - BANNER
    words = Lettering(DRAFT_WORDS, Point(frame.center.x, low + 0.4 * DRAFT_HEIGHT), DRAFT_HEIGHT, use="draft")
    line = straight(TABLE, Point(frame.min_x, low), Point(frame.max_x, low))
    return Group("draft", "draft", (line, words), title="This drawing is a draft and was not checked")


def _placed_footer(sheet: Sheet, base: Base) -> list[Group]:
    """Beside the title block, what is left of it above; or all of it above."""
    frame = sheet.frame
    over_block = Point(frame.max_x - title_block.WIDTH + 2.0, frame.min_y + title_block.HEIGHT + PADDING)
    if frame.width < BESIDE:
        return [_standing(base.footer, over_block)]
    beside, above = base.columns
    corner = Point(frame.min_x + PADDING, frame.min_y + PADDING)
    return [_standing(beside, corner), *([_standing(above, over_block)] if above.marks else [])]


def _standing(group: Group, corner: Point) -> Group:
    """A group with its lower left corner at a place."""
    bounds = group.bounds
    return group.moved(Vector(corner.x - bounds.min_x, corner.y - bounds.min_y)) if bounds else group
