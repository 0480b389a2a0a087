"""Messages to the maker: an entry of the catalogue, filled in and put in its place.

A room adds messages to a Messages collection as it goes; nothing is thrown. The sentence and the mend are written
once, in `drafting.text.catalogue`; place and facts arrive with the call.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from difflib import get_close_matches
from enum import Enum

from drafting.records import dataclass, field, replace
from drafting.text.source import Span


class Severity(Enum):
    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


@dataclass(frozen=True)
class Entry:
    """One line of the catalogue. `says` and `mend` are format strings; backquotes mark what can be typed.

    A code is a letter for the room that finds the fault, and two digits.
    """

    code: str
    says: str
    mend: str = ""
    severity: Severity = Severity.ERROR


@dataclass(frozen=True)
class Related:
    """Another place that takes part in a message, and what it does there."""

    at: Span
    says: str


@dataclass(frozen=True)
class Message:
    """A finished message. `sizes` names the sizes it holds in when it does not hold in all."""

    entry: Entry
    at: Span | None
    says: str
    mend: str
    related: tuple[Related, ...] = ()
    sizes: tuple[str, ...] = ()

    @property
    def code(self) -> str:
        return self.entry.code

    @property
    def severity(self) -> Severity:
        return self.entry.severity

    @property
    def sort_key(self) -> tuple[str, int, int, str, str]:
        """Messages come in the order of the text."""
        place = ("", 0, 0) if self.at is None else (self.at.source.name, self.at.start, self.at.end)
        return (*place, self.code, self.says)


MOST_PLACES = 12
"""So many further places are shown of one message; a name that is lacking may stand in thousands."""


@dataclass(frozen=True)
class _Gathered:
    """The places of which one message, the one of this `index`, is said."""

    index: int
    places: dict[Span, None]

    def told(self, message: Message) -> Message:
        """The message at the first of its places, with the next ones and how many more there are."""
        first, *others = sorted(self.places, key=lambda place: place.start)
        shown = others if len(others) <= MOST_PLACES else others[: MOST_PLACES - 1]
        again = [Related(place, "here too") for place in shown]
        if len(shown) < len(others):
            more = len(others) - len(shown)
            again.append(Related(others[len(shown)], f"here too, the first of {more} more places"))
        return replace(message, at=first, related=tuple(again))


@dataclass
class Messages:
    """What has been found so far, each fault once."""

    found: list[Message] = field(default_factory=list)
    seen: set[tuple[str, Span | None, str, tuple[str, ...]]] = field(default_factory=set)
    gathered: dict[tuple[str, str], _Gathered] = field(default_factory=dict)

    def add(
        self,
        entry: Entry,
        *,
        at: Span | None,
        related: Iterable[Related] = (),
        sizes: tuple[str, ...] = (),
        **facts: object,
    ) -> None:
        """Fill in `entry` with `facts` and keep it, unless the same is already said of the same place."""
        self.say(entry, at, facts, tuple(related), sizes)

    def say(
        self,
        entry: Entry,
        at: Span | None,
        facts: Mapping[str, object],
        related: tuple[Related, ...] = (),
        sizes: tuple[str, ...] = (),
    ) -> None:
        """The same, with the facts in a mapping."""
        says, mend = entry.says.format(**facts), entry.mend.format(**facts)
        self.extend([Message(entry, at, says, mend, related, sizes)])

    def gather(self, entry: Entry, *, at: Span, of: str, **facts: object) -> None:
        """Say the same of several places once: at the first of them, with the others as places that take part.

        `of` tells apart what reads alike: the same name may lack in two pieces.
        """
        message = Message(entry, at, entry.says.format(**facts), entry.mend.format(**facts))
        gathered = self.gathered.get((of, message.says))
        if gathered is None:
            gathered = self.gathered[of, message.says] = _Gathered(len(self.found), {})
            self.found.append(message)
        gathered.places[at] = None

    def extend(self, messages: Iterable[Message]) -> None:
        for message in messages:
            key = (message.code, message.at, message.says, message.sizes)
            if key not in self.seen:
                self.seen.add(key)
                self.found.append(message)

    @property
    def has_errors(self) -> bool:
        return any(message.severity is Severity.ERROR for message in self.found)

    def __iter__(self) -> Iterator[Message]:
        """In the order of the text."""
        for gathered in self.gathered.values():
            self.found[gathered.index] = gathered.told(self.found[gathered.index])
        return iter(sorted(self.found, key=lambda message: message.sort_key))

    def __len__(self) -> int:
        return len(self.found)


def nearest_name(wanted: str, known: Iterable[str]) -> str | None:
    """The known name most like `wanted`, if one is near enough to be a slip of the finger."""
    names = sorted(known)
    alike = [name for name in names if name.casefold() == wanted.casefold()]
    close = alike or get_close_matches(wanted, names, n=1, cutoff=0.6)
    return close[0] if close else None


def did_you_mean(wanted: str, known: Iterable[str]) -> str:
    """` Did you mean `x`?` with a leading blank, or nothing: made to end a mend."""
    near = nearest_name(wanted, known)
    return f" Did you mean `{near}`?" if near else ""
