"""Cautions that an item's words, stocks and features ask for.

Takes an Item; returns the cautions its documents carry, in a fixed order, each with its text, its source and what asked
for it. A caution never claims that a thing is safe or unsafe as such: it tells what to look to, and defers to local
rules and to those who are licensed to judge.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence

from drafting.craft.item import Item, Stock
from drafting.records import dataclass, field

LOCAL_RULES = "Local rules and licensed practice come first."


@dataclass(frozen=True)
class Caution:
    """One caution. `because` names what asked for it."""

    code: str
    text: str
    source: str
    mark: str
    because: str = ""


@dataclass(frozen=True)
class CautionKind:
    """A caution and the question that asks for it: `asks` gives what asked, or None."""

    caution: Caution
    asks: Callable[[Item], str | None] = field(repr=False)


def cautions_for(item: Item) -> tuple[Caution, ...]:
    """All cautions that an item asks for."""
    return tuple(_asked(item))


def _asked(item: Item) -> Iterator[Caution]:
    for kind in KINDS:
        because = kind.asks(item)
        if because is not None:
            caution = kind.caution
            yield Caution(caution.code, caution.text, caution.source, caution.mark, because)


def words_of(item: Item) -> Iterator[str]:
    """All that is written of an item and its pieces."""
    yield item.title
    yield from item.words
    yield from item.hardware
    for part in item.parts:
        yield part.name.replace("_", " ")
        yield from part.words


def _stock_words(stock: Stock) -> str:
    return f"{stock.name.replace('_', ' ')} {stock.kind} {stock.words}"


def _has_word(*stems: str) -> Callable[[Item], str | None]:
    """A question: does a word begin with one of these stems?"""
    pattern = re.compile(rf"\b(?:{'|'.join(stems)})\w*", re.IGNORECASE)

    def asks(item: Item) -> str | None:
        return _first_match(pattern, words_of(item))

    return asks


def _first_match(pattern: re.Pattern[str], texts: Iterator[str] | Sequence[str]) -> str | None:
    for text in texts:
        found = pattern.search(text)
        if found:
            return f"`{found[0]}`"
    return None


def _has_stock(*stems: str) -> Callable[[Item], str | None]:
    """A question: is a stock called so, and is it meant for a laser?"""
    pattern = re.compile(rf"\b(?:{'|'.join(stems)})\w*", re.IGNORECASE)
    laser = _has_word("laser")

    def asks(item: Item) -> str | None:
        found = _first_match(pattern, [_stock_words(stock) for stock in item.all_stocks])
        return found if found and (item.for_laser or laser(item)) else None

    return asks


def _is_lasered(item: Item) -> str | None:
    """Any output for a laser carries the caution of PVC: a stock's name does not tell what it is made of."""
    return "the laser" if item.for_laser or _has_word("laser")(item) else None


def _is_cut(item: Item) -> str | None:
    """Whatever is made is cut, and most of it is pricked or punched."""
    return "the cutting" if item.parts else None


def _is_skived(item: Item) -> str | None:
    skived = any(turn.thick is not None for part in item.parts for turn in part.turns)
    found = _has_word("skiv", r"sand(?:ed|ing|er|paper)?\b", "bevel", "burnish")(item)
    return found or ("the skiving" if skived else None)


def _has_small_parts(item: Item) -> str | None:
    """Small parts matter where children are about."""
    stems = ("child", r"kid(?:s|die)?\b", "toddler", "baby", "babies", "infant", "nursery", "toy")
    return _has_word(*stems)(item)


def _has_metal_on_skin(item: Item) -> str | None:
    worn = _has_word("strap", "belt", "bracelet", "wrist", "watch", "collar", "cuff", "necklace")(item)
    return worn if worn and item.hardware else None


KINDS: tuple[CautionKind, ...] = (
    CautionKind(
        Caution(
            "H01",
            "Never put PVC, or film that may be PVC, under a laser: heated it gives off hydrogen chloride, which is "
            f"poisonous and corrodes the machine. Ask the supplier what a film is made of. {LOCAL_RULES}",
            "laser-safety notes of several workshops and suppliers",
            "looked up",
        ),
        _is_lasered,
    ),
    CautionKind(
        Caution(
            "H02",
            "Avoid chrome-tanned leather under a laser. It holds chromium III, and strong heat may turn some of it "
            "into chromium VI, which is harmful to breathe. Vegetable-tanned leather is the usual choice; extract the "
            f"fumes of either. {LOCAL_RULES}",
            "REACH Annex XVII entry 47, as amended by Regulation (EU) 301/2014",
            "looked up",
        ),
        _has_stock("chrome", "chromium", "wet.?blue"),
    ),
    CautionKind(
        Caution(
            "H03",
            "Leather dust from sanding and skiving wheels can cause cancer when it is breathed over time: use "
            f"extraction and a mask that is made for dust. {LOCAL_RULES}",
            "IARC Monograph vol. 100C, Leather Dust",
            "looked up",
        ),
        _is_skived,
    ),
    CautionKind(
        Caution(
            "H04",
            "Solvent adhesives give off vapors that harm nerves and catch fire: work with fresh air and without a "
            f"flame, and read the data sheet of the glue. {LOCAL_RULES}",
            "NIOSH Current Intelligence Bulletin 48, Pub. 87-104; Med. Lav. 85 (1994) 309-313",
            "looked up",
        ),
        _has_word("glue", "gluing", "cement", "adhesive", "solvent"),
    ),
    CautionKind(
        Caution(
            "H05",
            "Knives, awls, irons and punches are sharp: cut away from the hand, on a solid base, and put them away "
            "covered.",
            "workshop practice",
            "common practice, no source",
        ),
        _is_cut,
    ),
    CautionKind(
        Caution(
            "H06",
            "Small parts can choke a child under three. A part that goes wholly, uncompressed, into a cylinder 1.25 in "
            "across and 1 to 2.25 in deep fails the usual test: keep rivets, studs and offcuts away, and have a thing "
            f"for small children tested before it is given or sold. {LOCAL_RULES}",
            "16 CFR 1501.4(a); EN 71-1 and ISO 8124-1 use the same cylinder",
            "looked up",
        ),
        _has_small_parts,
    ),
    CautionKind(
        Caution(
            "H07",
            "A drawing is no proof of strength. What bears a load is rated, marked and examined by those who are "
            "licensed to, and then again at intervals; nothing drawn here is meant for lifting, for climbing or for "
            f"holding persons. {LOCAL_RULES}",
            "LOLER 1998, in the national foreword of BS EN 1492-1 and in SAFed MLCC 10",
            "second-hand",
        ),
        _has_word(
            "lift",
            "climb",
            r"load(?:s|ed|.bearing)?\b",
            "hoist",
            "harness",
            "sling",
            "hauling",
            "safety line",
            "fall arrest",
        ),
    ),
    CautionKind(
        Caution(
            "H08",
            "Buckles and studs that lie on the skin may give off nickel, which many people do not bear: ask for "
            f"fittings that keep to the limit for release, 0.5 µg/cm² a week in the EU. {LOCAL_RULES}",
            "REACH Annex XVII entry 27",
            "from memory",
        ),
        _has_metal_on_skin,
    ),
    CautionKind(
        Caution(
            "H09",
            "A sheath covers an edge only while it holds: try that the blade cannot cut its thread or come through its "
            "side, that it does not fall out upside down, and that it may be carried where it is going. "
            f"{LOCAL_RULES}",
            "workshop practice",
            "common practice, no source",
        ),
        _has_word("sheath", "scabbard", "blade", "knife", "knives", "axe", "holster"),
    ),
    CautionKind(
        Caution(
            "H10",
            "Leather slows heat, it does not stop it, and it lets go when it is wet: try with warm water first that "
            "the cup can be held and cannot slip out, keep it from small hands, and keep glue, dye and finish off "
            f"whatever touches the lips or what is drunk. {LOCAL_RULES}",
            "workshop practice",
            "common practice, no source",
        ),
        _has_word(r"cups?\b", r"mugs?\b", r"hot\b", "kettle", "teapot", r"tea\b", "coffee", "flask"),
    ),
    CautionKind(
        Caution(
            "H50",
            "A laser burns what it cuts: draw its smoke off to the outside, cut nothing of which you do not know what "
            f"it is, stay with it while it runs, and have something at hand to put a fire out. {LOCAL_RULES}",
            "workshop practice",
            "common practice, no source",
        ),
        _is_lasered,
    ),
)
