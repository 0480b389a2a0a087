"""What an overview tells of the whole item beside its pieces: stocks, thread, punches, hardware, contents,
steps."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.drawing.amounts import Figures
from drafting.solve.placed import (
    PlacedContent,
    PlacedHardware,
    PlacedItem,
    PlacedPunch,
    PlacedStock,
    PlacedThread,
)


def item_remarks(item: PlacedItem, figures: Figures) -> tuple[str, ...]:
    """A paragraph for each kind of thing, and one for each step."""
    kinds = (
        ("Stock", [_stock(one, figures) for one in item.stocks]),
        ("Thread", [_thread(one, figures) for one in item.threads]),
        ("Punches", [_punch(one, figures) for one in item.punches]),
        ("Hardware", [_hardware(one, figures) for one in item.hardware]),
        ("Holds", [content_words(one, figures) for one in item.contents]),
    )
    lists = [f"{title}: {'; '.join(words)}." for title, words in kinds if words]
    return (*lists, *_steps(item))


def _steps(item: PlacedItem) -> Iterator[str]:
    for number, step in enumerate(item.steps, start=1):
        uses = f" Uses {', '.join(step.uses)}." if step.uses else ""
        note = f" ({step.note})" if step.note else ""
        yield f"Step {number}: {sentence(step.text)}{uses}{note}"


def sentence(text: str) -> str:
    return text if text.endswith((".", "!", "?", "。", "…")) else f"{text}."


def _stock(stock: PlacedStock, figures: Figures) -> str:
    thick = f" {figures.told('|{}| thick', stock.thick)}" if stock.thick is not None else ""
    return f"{stock.name}, {stock.material}{thick}{_noted(stock.note)}"


def _thread(thread: PlacedThread, figures: Figures) -> str:
    thick = f" {figures.told('|{}| thick', thread.thick)}" if thread.thick is not None else ""
    return f"{thread.name}{thick}{_noted(thread.note)}"


def _punch(punch: PlacedPunch, figures: Figures) -> str:
    return f"{punch.name} {figures.told('⌀|{}', punch.across)}{_noted(punch.note)}"


def _hardware(hardware: PlacedHardware, figures: Figures) -> str:
    sizes = [("|{}| inside", hardware.inside), ("prong |{}|", hardware.prong), ("bar |{}|", hardware.bar)]
    told = [figures.told(words, size) for words, size in sizes if size is not None]
    on = f" on {', '.join(hardware.on)}" if hardware.on else ""
    return (
        ", ".join([f"{hardware.need} {hardware.name.replace('_', ' ')}", *told]) + on + _noted(hardware.note)
    )


def content_words(content: PlacedContent, figures: Figures) -> str:
    """`3 × ID-1 card, …`; of a single one its name alone, which may be a word such as glasses."""
    name = content.published or content.name.replace("_", " ")
    size = figures.told("|{} × {}", content.long, content.wide)
    thick = f", {figures.told('|{}| thick', content.thick)}" if content.thick is not None else ""
    inside = f", in {', '.join(content.inside)}" if content.inside else ""
    many = f"{content.count} × " if content.count > 1 else ""
    return f"{many}{name}, {size}{thick}{inside}{_noted(content.note)}"


def _noted(note: str | None) -> str:
    return f" ({note})" if note else ""
