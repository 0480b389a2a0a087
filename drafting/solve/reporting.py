"""Findings -> messages: what the solver found, said in facts, places and the maker's own names.

Takes the findings of a plan or of one evaluation and the Lowered pattern they speak of. A key becomes the name of a
point or a feature, a tag the clause it was made from.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from math import atan2, degrees
from typing import Any

from drafting.geometry.point import Point
from drafting.model.evaluate_measures import why_not
from drafting.solve import findings as found
from drafting.solve.amounts import mm, place, plain
from drafting.solve.lines import Unbuildable
from drafting.solve.lowering import Clause, Holder, Lowered
from drafting.text.catalogue import model as model_says
from drafting.text.catalogue import solve as says
from drafting.text.messages import Messages, Related
from drafting.text.source import Span

COUNTS = {0: "no fact", 1: "one fact", 2: "two facts", 3: "three facts", 4: "four facts", 5: "five facts"}
SAME = 1e-6
CLEARLY = 1e-3
"""How far apart (mm) two places must be for a choice to be worth offering."""


def report(
    lowered: Lowered, findings: Iterable[found.Finding], values: Mapping[str, Any], messages: Messages
) -> None:
    """Add a message for each finding."""
    findings = list(findings)
    loose = {finding.key for finding in findings if isinstance(finding, found.Loose)}
    reporter = _Reporter(lowered, values, messages, loose)
    bodies: set[tuple[str, ...]] = set()
    for finding in findings:
        if isinstance(finding, found.Loose) and finding.as_body:
            if finding.group not in bodies:
                bodies.add(finding.group)
                reporter.no_base(finding)
            continue
        reporter.say(finding)


def report_failures(lowered: Lowered, failures: Mapping[str, Exception], messages: Messages) -> None:
    """Nodes that could not be computed: shapes with a message of their own, or numbers that do not exist."""
    for key, failure in failures.items():
        if isinstance(failure, Unbuildable):
            messages.extend([failure.message])
            continue
        if not isinstance(failure, ZeroDivisionError | ValueError):
            raise failure
        span = lowered.spans.get(key)
        messages.add(model_says.NOT_COMPUTED, at=span, name=key.split("/")[-1], why=why_not(failure))


class _Reporter:
    def __init__(
        self, lowered: Lowered, values: Mapping[str, Any], messages: Messages, loose: set[str]
    ) -> None:
        self.lowered = lowered
        self.values = values
        self.messages = messages
        self.loose = loose

    # Words

    def holder(self, key: str) -> Holder | None:
        base = key[:-2] if key.endswith((".x", ".y")) else key
        return self.lowered.holders.get(base)

    def name(self, key: str) -> str:
        holder = self.holder(key)
        return f"`{holder.name}`" if holder else f"`{key.split('/')[-1].split('@')[0]}`"

    def names(self, keys: Sequence[str]) -> str:
        return " and ".join(dict.fromkeys(self.name(key) for key in keys))

    def span(self, key: str, tags: Sequence[Any]) -> Span | None:
        holder = self.holder(key)
        if holder:
            return holder.span
        clauses = _clauses(tags)
        return clauses[0].span if clauses else None

    def facts(self, tags: Sequence[Any]) -> str:
        return ", ".join(f"`{text}`" for text in dict.fromkeys(clause.text for clause in _clauses(tags)))

    def related(self, tags: Sequence[Any], but: Span | None = None) -> list[Related]:
        spans = dict.fromkeys(clause.span for clause in _clauses(tags))
        return [Related(span, "takes part") for span in spans if span != but]

    def count(self, key: str, tags: Sequence[Any]) -> str:
        """How many facts a thing has, by the clauses written for it."""
        count = sum(2 if self._is_double(clause) else 1 for clause in dict.fromkeys(_clauses(tags)))
        return COUNTS.get(count, f"{count} facts")

    def _is_double(self, clause: Clause) -> bool:
        return (
            clause.text.startswith(("at ", "midway ", "touching ", "mirror ", "at("))
            and "deg from" not in clause.text
        ) or " along " in f" {clause.text}"

    # One method for each finding

    def say(self, finding: found.Finding) -> None:
        match finding:
            case found.Loose():
                self._loose(finding)
            case found.Repeated():
                self._repeated(finding)
            case found.Contradiction():
                self._contradiction(finding)
            case found.NoPlace():
                self._no_place(finding)
            case found.SeveralPlaces():
                self._several(finding)
            case found.SeveralValues(key=key, tags=tags, values=values):
                shown = " or ".join(plain(value) for value in values)
                self.messages.add(
                    says.SEVERAL_VALUES,
                    at=self.span(key, tags),
                    related=self.related(tags),
                    name=self.name(key).strip("`"),
                    values=shown,
                )
            case found.ChoiceRefuses():
                self._refuses(finding)
            case found.NegativeLength(tag=tag, value=value):
                for clause in _clauses([tag]):
                    self.messages.add(says.NEGATIVE_LENGTH, at=clause.span, fact=clause.text, value=mm(value))
            case found.OutOfRange(key=key, tags=tags, low=low, high=high, nearest=nearest):
                hint = "" if nearest is None else f"; the nearest that does is {plain(nearest)}"
                self.messages.add(
                    says.OUT_OF_RANGE,
                    at=self.span(key, tags),
                    related=self.related(tags),
                    name=self.name(key).strip("`"),
                    low=plain(low),
                    high=plain(high),
                    nearest=hint,
                )
            case found.Cycle(keys=keys, tags=tags):
                self._cycle(keys, tags)
            case found.NearTouch(keys=keys, tags=tags, apart=apart):
                self.messages.add(
                    says.NEAR_TOUCH, at=self.span(keys[0], tags), name=self.names(keys), apart=mm(apart)
                )
            case found.NotProven(keys=keys, tags=tags):
                self.messages.add(says.NOT_PROVEN, at=self.span(keys[0], tags), name=self.names(keys))
            case found.Degenerate(keys=keys, tags=tags):
                at = self.span(keys[0], tags)
                self.messages.add(
                    says.DEGENERATE,
                    at=at,
                    related=self.related(tags, at),
                    name=self.names(keys),
                    facts=self.facts(tags),
                )

    def _loose(self, finding: found.Loose) -> None:
        holder = self.holder(finding.key)
        span = self.span(finding.key, finding.tags)
        if holder is None or holder.kind == "find":
            self.messages.add(says.LOOSE_NUMBER, at=span, name=self.name(finding.key).strip("`"))
            return
        clauses = self.lowered.facts.get(finding.key, [])
        lets = self._lets(finding, clauses)
        self.messages.add(
            says.LOOSE_POINT,
            at=span,
            name=holder.name,
            has=self.count(finding.key, finding.tags or clauses),
            facts=lets,
            suggestion=self._suggestion(finding, holder),
        )

    def _lets(self, finding: found.Loose, clauses: Sequence[Clause]) -> str:
        motion = self.motion(finding.motion)
        said = self.facts(finding.tags or clauses)
        if not said:
            return f"it can still {motion}"
        return f"{said} {'lets' if said.count('`') == 2 else 'let'} it {motion}"

    def motion(self, motion: found.Motion | None) -> str:
        match motion:
            case found.Slides(along=(start, end)):
                return f"slide along `{start.split('/')[-1]}..{end.split('/')[-1]}`"
            case found.Slides(x=x, y=y):
                if abs(y) < SAME:
                    return "slide left and right"
                if abs(x) < SAME:
                    return "slide up and down"
                return f"slide along {plain(degrees(atan2(y, x)) % 180, 1)} deg"
            case found.Turns(about=about):
                return f"turn round {self.name(about)}"
        return "lie anywhere"

    def _suggestion(self, finding: found.Loose, holder: Holder) -> str:
        """A fact that would pin the point, naming a point of the same piece that is not loose itself."""
        anchor = self._anchor(finding, holder)
        match finding.motion:
            case found.Slides(x=x) if abs(x) < SAME:
                return f"level with {anchor}"
            case found.Slides(y=y) if abs(y) < SAME:
                return f"plumb with {anchor}"
            case found.Slides() | found.Turns():
                return f"40 mm from {anchor}"
        return f"at (40 mm, 25 mm) from {anchor}" if anchor else "at (0, 0)"

    def _anchor(self, finding: found.Loose, holder: Holder) -> str:
        loose = self.loose | set(finding.group)
        mentioned = {
            text for clause in self.lowered.facts.get(finding.key, []) for text in clause.text.split()
        }
        piece = self.lowered.pattern.pieces[holder.piece]
        names = [
            part.ref.name
            for part in piece.points
            if part.ref.key not in loose and part.ref.key != finding.key
        ]
        fresh = [name for name in names if name not in mentioned]
        return (fresh or names or [""])[-1]

    def no_base(self, finding: found.Loose) -> None:
        holder = self.holder(finding.key)
        piece = holder.piece if holder else finding.key.split("/")[0]
        motion = "slide" if finding.missing < 3 else "slide and turn"
        first = holder.name if holder else "foot"
        mend = f"Give one point a place, such as `point {first}: at (0, 0)`"
        mend += (
            ", and one more a direction, such as `level with " + first + "`." if finding.missing > 2 else "."
        )
        if isinstance(finding.motion, found.Turns):
            motion, mend = (
                f"turn round {self.name(finding.motion.about)}",
                f"Give one point a direction, such as `level with {self.name(finding.motion.about).strip('`')}`.",
            )
        self.messages.add(
            says.NO_BASE, at=self.span(finding.key, finding.tags), piece=piece, motion=motion, mend=mend
        )

    def _repeated(self, finding: found.Repeated) -> None:
        clauses = _clauses([finding.tag])
        if not clauses:
            return
        others = [tag for tag in finding.tags if tag != finding.tag]
        said = self.facts(others)
        self.messages.add(
            says.REPEATED,
            at=clauses[0].span,
            related=self.related(others, clauses[0].span),
            fact=clauses[0].text,
            others=said or "the others",
            s="" if said.count("`") > 2 or not said else "s",
        )

    def _contradiction(self, finding: found.Contradiction) -> None:
        clauses = _clauses([finding.tag])
        tags = finding.point_tags if finding.point else finding.tags
        if finding.point and len(dict.fromkeys(_clauses(tags))) > 1 and self.holder(finding.point):
            holder = self.holder(finding.point)
            span = holder.span if holder else None
            others = ""
            if finding.actual is not None and clauses:
                others = f"; by the others `{clauses[0].text}` would be {mm(finding.actual)}"
            self.messages.add(
                says.CONTRADICTION_POINT,
                at=span,
                related=self.related(finding.tags, span),
                name=self.name(finding.point).strip("`"),
                has=self.count(finding.point, tags),
                misfit=mm(finding.misfit),
                facts=self.facts(tags),
                by_others=others,
            )
            return
        at = clauses[0].span if clauses else self.span(finding.point or "", finding.tags)
        self.messages.add(
            says.CONTRADICTION,
            at=at,
            related=self.related(finding.tags, at),
            misfit=mm(finding.misfit),
            facts=self.facts(finding.tags),
        )

    def _no_place(self, finding: found.NoPlace) -> None:
        key = finding.keys[0]
        at = self.span(key, finding.tags)
        if finding.condition is not None and finding.places:
            for clause in _clauses([finding.condition]):
                mend = f"`{clause.text} extended`" if clause.text.startswith("on ") else "the other direction"
                self.messages.add(
                    says.NOT_BETWEEN,
                    at=at,
                    related=[Related(clause.span, "does not hold there")],
                    name=self.names(finding.keys),
                    places=_places(finding.places),
                    fact=clause.text,
                    mend=mend,
                )
            return
        miss = f"miss each other by {mm(finding.gap)}" if finding.gap else "do not meet"
        self.messages.add(
            says.NO_PLACE,
            at=at,
            related=self.related(finding.tags, at),
            name=self.names(finding.keys),
            facts=self.facts(finding.tags),
            miss=miss,
        )

    def _several(self, finding: found.SeveralPlaces) -> None:
        at = self.span(finding.key, finding.tags)
        count = {2: "two", 3: "three", 4: "four"}.get(len(finding.places), str(len(finding.places)))
        self.messages.add(
            says.SEVERAL_PLACES,
            at=at,
            name=self.name(finding.key),
            count=count,
            places=_places(finding.places),
            suggestion=self._choice_for(finding),
        )

    def _choice_for(self, finding: found.SeveralPlaces) -> str:
        """A choice that leaves exactly one of the places, by a point that takes part or another of the piece."""
        holder = self.holder(finding.key)
        piece = holder.piece if holder else ""
        words = {word for clause in _clauses(finding.tags) for word in clause.text.replace("..", " ").split()}
        anchors = [
            (key.split("/")[1].removesuffix(".centre"), value)
            for key, value in self.values.items()
            if isinstance(value, Point)
            and key.startswith(f"{piece}/")
            and key != finding.key
            and not set(key) & set("@':")
        ]
        anchors.sort(key=lambda anchor: anchor[0] not in words)
        for name, anchor in anchors:
            for how in ("right of", "above", "left of", "below", "nearest", "farthest from"):
                if _leaves_one(how, anchor, finding.places):
                    return f"{how} {name}"
        return "right of " + (anchors[0][0] if anchors else "a point between them")

    def _refuses(self, finding: found.ChoiceRefuses) -> None:
        for clause in _clauses([finding.choice]):
            self.messages.add(
                says.CHOICE_REFUSES,
                at=clause.span,
                related=self.related(finding.tags, clause.span),
                choice=clause.text,
                name=self.name(finding.key),
                places=_places(finding.places),
            )

    def _cycle(self, keys: Sequence[str], tags: Sequence[Any]) -> None:
        shown = list(dict.fromkeys(_plain_key(key) for key in keys))
        cycle = " → ".join(f"`{name}`" for name in [*shown, shown[0]])
        spans = [tag for tag in tags if isinstance(tag, Span)] + [clause.span for clause in _clauses(tags)]
        at = spans[0] if spans else self.lowered.spans.get(keys[0])
        pieces = list(dict.fromkeys(key.split("/")[0] for key in keys if "/" in key))
        sheets = {
            self.lowered.pattern.pieces[name].sheet for name in pieces if name in self.lowered.pattern.pieces
        }
        if len(sheets) > 1:
            waits = ", ".join(
                f"`{a}` needs `{b}`" for a, b in zip(pieces, [*pieces[1:], pieces[0]], strict=True)
            )
            self.messages.add(says.PIECES_WAIT, at=at, waits=waits)
            return
        self.messages.add(says.CYCLE, at=at, cycle=cycle)


def _leaves_one(how: str, anchor: Point, places: Sequence[found.Place]) -> bool:
    """Whether a choice by one point picks one of the places and no more."""
    if how in ("nearest", "farthest from"):
        distances = sorted(anchor.distance_to(Point(x, y)) for x, y in places)
        pair = distances[:2] if how == "nearest" else distances[-2:]
        return pair[1] - pair[0] > CLEARLY
    beyond = {
        "right of": [x - anchor.x for x, _ in places],
        "left of": [anchor.x - x for x, _ in places],
        "above": [y - anchor.y for _, y in places],
        "below": [anchor.y - y for _, y in places],
    }[how]
    return sum(amount > CLEARLY for amount in beyond) == 1 and all(abs(amount) > CLEARLY for amount in beyond)


def _plain_key(key: str) -> str:
    return key.split("/")[-1].replace(":line", "").replace(":path", "").split("@")[0]


def _clauses(tags: Iterable[Any]) -> list[Clause]:
    return [tag for tag in tags if isinstance(tag, Clause)]


def _places(places: Sequence[found.Place]) -> str:
    """Places apart by less than a hundredth still read apart."""
    return " or ".join(place(Point(x, y)) for x, y in places)
