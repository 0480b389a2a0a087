"""Findings -> messages: what the solver found, said in facts, places and the maker's own names.

Takes the findings of a plan or of one evaluation and the Lowered pattern they speak of. A key becomes the name of a
point or a feature, a tag the clause it was made from.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Any

from drafting.geometry.faults import GeometryFault
from drafting.geometry.maths import atan2, degrees
from drafting.geometry.point import Point
from drafting.model.evaluate_measures import how_else, why_not
from drafting.model.expressions import DividesByNothing, RootOfLess, evaluate, keys_of
from drafting.solve import findings as found
from drafting.solve.amounts import mm, place, plain, shown
from drafting.solve.lines import Unbuildable
from drafting.solve.lowering import Clause, Holder, Lowered
from drafting.solve.system import Formula
from drafting.text.catalogue import model as model_says
from drafting.text.catalogue import shapes as shape_says
from drafting.text.catalogue import solve as says
from drafting.text.messages import Messages, Related
from drafting.text.quantities import ANGLE, LENGTH
from drafting.text.source import Span

COUNTS = {0: "no fact", 1: "one fact", 2: "two facts", 3: "three facts", 4: "four facts", 5: "five facts"}
SAME = 1e-6
AXIS_Y = re.compile(r"^level with | above | below ")
AXIS_X = re.compile(r"^plumb with | right of | left of ")
TURNED = re.compile(r" (?:left of|below) ")
"""What is said so is measured the other way."""
WITHOUT_AMOUNT = re.compile(r"(?:level|plumb) with |at \(|at [^\W\d]|on ")
CLEARLY = 1e-3
"""How far apart (mm) two places must be for a choice to be worth offering."""


def report(
    lowered: Lowered, findings: Iterable[found.Finding], values: Mapping[str, Any], messages: Messages
) -> None:
    """Add a message for each finding."""
    findings = list(findings)
    loose = {_base(finding.key) for finding in findings if isinstance(finding, found.Loose)}
    reporter = _Reporter(lowered, values, messages, loose)
    bodies: set[object] = set()
    for finding in findings:
        body = reporter.body_of(finding) if isinstance(finding, found.Loose) else None
        if body is None or not isinstance(finding, found.Loose):
            reporter.say(finding)
        elif body not in bodies:
            bodies.add(body)
            reporter.no_base(finding)


def report_failures(
    lowered: Lowered, failures: Mapping[str, Exception], values: Mapping[str, Any], messages: Messages
) -> None:
    """Nodes that could not be computed: shapes with a message of their own, or numbers that do not exist."""
    for key, failure in failures.items():
        if isinstance(failure, Unbuildable):
            messages.extend([failure.message, *failure.others])
            continue
        span = lowered.spans.get(key)
        if isinstance(failure, GeometryFault):
            messages.add(shape_says.NOT_DRAWN, at=span, name=_plain_key(key), why=str(failure))
            continue
        if not isinstance(failure, ZeroDivisionError | ValueError):
            raise failure
        messages.add(
            model_says.NOT_COMPUTED,
            at=span,
            name=key.split("/")[-1],
            why=why_not(failure),
            mend=how_else(_told_in_full(lowered, key, values, failure)),
        )


def _told_in_full(lowered: Lowered, key: str, values: Mapping[str, Any], failure: Exception) -> Exception:
    """What a formula fails by, worked out once more slowly: the quick way does not know what was written."""
    node = lowered.system.nodes.get(key)
    if isinstance(node, Formula):
        try:
            evaluate(node.expression, values)
        except (DividesByNothing, RootOfLess) as fault:
            return fault
        except KeyError:
            return failure
    return failure


class _Reporter:
    def __init__(
        self, lowered: Lowered, values: Mapping[str, Any], messages: Messages, loose: set[str]
    ) -> None:
        self.lowered = lowered
        self.values = values
        self.messages = messages
        self.loose = loose
        self.told_together: set[tuple[str, ...]] = set()

    # Words

    def holder(self, key: str) -> Holder | None:
        return self.lowered.holders.get(_base(key))

    def name(self, key: str) -> str:
        holder = self.holder(key)
        return f"`{holder.name}`" if holder else f"`{key.split('/')[-1].split('@')[0]}`"

    def names(self, keys: Sequence[str]) -> str:
        *some, last = dict.fromkeys(self.name(key) for key in keys)
        return f"{', '.join(some)} and {last}" if some else last

    def span(self, key: str, tags: Sequence[Any]) -> Span | None:
        holder = self.holder(key)
        if holder:
            return holder.span
        clauses = _clauses(tags)
        return clauses[0].span if clauses else None

    def facts(self, tags: Sequence[Any], owner: str | None = None) -> str:
        """The clauses; where they place several things, each with the name of its own. `owner` goes without saying."""
        groups: dict[str, dict[str, None]] = {}
        for clause in _clauses(tags):
            groups.setdefault(clause.owner, {})[f"`{clause.text}`"] = None
        if len(groups) == 1 and owner is None:
            owner = next(iter(groups))
        said = [
            ", ".join(texts) if key in ("", owner) else f"{self.name(key)}: {', '.join(texts)}"
            for key, texts in groups.items()
        ]
        return "; ".join(said)

    def related(self, tags: Sequence[Any], but: Span | None = None) -> list[Related]:
        spans = dict.fromkeys(clause.span for clause in _clauses(tags))
        return [Related(span, "takes part") for span in spans if span != but]

    def count(self, key: str, tags: Sequence[Any]) -> str:
        """How many facts a thing has, by the clauses written for it."""
        count = _count(tags)
        return COUNTS.get(count, f"{count} facts")

    def body_of(self, finding: found.Loose) -> object | None:
        """What a loose point is loose with, where it only lacks a base that the whole has not either: the group
        that keeps its shape, or the sheet of a piece on which no point has a place of its own."""
        holder = self.holder(finding.key)
        if holder is None or holder.kind == "find":
            return None
        sheet = self.lowered.pattern.pieces[holder.piece].sheet
        if finding.as_body:
            return None if self._has_more(sheet, finding) else finding.group
        enough = _count(self.lowered.facts.get(finding.key, [])) >= NEEDED
        return sheet if enough and sheet in self._baseless() else None

    def _has_more(self, sheet: str, finding: found.Loose) -> bool:
        """Whether something of a sheet is placed that does not move with a loose point."""
        group = {_base(key) for key in finding.group}
        return any(
            key in self.values
            and key not in group
            and self.lowered.pattern.pieces[holder.piece].sheet == sheet
            for key, holder in self.lowered.holders.items()
            if holder.kind != "find"
        )

    def _baseless(self) -> set[str]:
        """The sheets on which nothing is placed by coordinates, so that all of it can slide."""
        pieces = self.lowered.pattern.pieces.values()
        based = {
            clause.sheet
            for clauses in self.lowered.facts.values()
            for clause in clauses
            if clause.text.startswith("at (") and ") from " not in clause.text
        }
        return {piece.sheet for piece in pieces} - based

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
                shown_values = " or ".join(self.amount(key, value) for value in values)
                self.messages.add(
                    says.SEVERAL_VALUES,
                    at=self.span(key, tags),
                    related=self.related(tags),
                    name=self.name(key).strip("`"),
                    values=shown_values,
                )
            case found.ChoiceRefuses():
                self._refuses(finding)
            case found.NegativeLength(tag=tag, value=value):
                for clause in _clauses([tag]):
                    self.messages.add(says.NEGATIVE_LENGTH, at=clause.span, fact=clause.text, value=mm(value))
            case found.OutOfRange(key=key, tags=tags, low=low, high=high, nearest=nearest):
                hint = "" if nearest is None else f"; the nearest that does is {self.amount(key, nearest)}"
                self.messages.add(
                    says.OUT_OF_RANGE,
                    at=self.span(key, tags),
                    related=self.related(tags),
                    name=self.name(key).strip("`"),
                    low=self.amount(key, low),
                    high=self.amount(key, high),
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
            case found.Undecided():
                self._undecided(finding)
            case found.Degenerate(keys=keys, tags=tags):
                at = self.span(keys[0], tags)
                self.messages.add(
                    says.DEGENERATE,
                    at=at,
                    related=self.related(tags, at),
                    name=self.names(keys),
                    has="have" if len({self.name(key) for key in keys}) > 1 else "has",
                    facts=self.facts(tags),
                    say="say the same" if len(dict.fromkeys(_clauses(tags))) > 1 else "does not say enough",
                )

    def _undecided(self, finding: found.Undecided) -> None:
        """Of a long chain the first points are named."""
        keys = list(dict.fromkeys(_base(key) for key in finding.keys))
        many = self.names(keys) if len(keys) <= 4 else f"{self.name(keys[0])} to {self.name(keys[-1])}"
        last = self.name(keys[-1]).strip("`")
        self.messages.add(
            says.UNDECIDED,
            at=self.span(keys[-1], finding.tags),
            names=many,
            ways=finding.n_ways,
            suggestion=f"above {self.name(keys[-2 if len(keys) > 1 else 0]).strip('`')}",
            name=last,
        )

    def amount(self, key: str, value: float) -> str:
        """A value of an unknown measure with its unit."""
        holder = self.holder(key)
        return shown(value, holder.amount if holder else LENGTH)

    def _loose(self, finding: found.Loose) -> None:
        holder = self.holder(finding.key)
        span = self.span(finding.key, finding.tags)
        if holder is None or holder.kind == "find":
            self.messages.add(says.LOOSE_NUMBER, at=span, name=self.name(finding.key).strip("`"))
            return
        if self._loose_together(finding, holder):
            return
        clauses = self.lowered.facts.get(finding.key, []) or self._holds_on([_base(finding.key)])
        finding = replace(finding, motion=_own_motion(clauses) or finding.motion)
        lets = self._lets(finding, clauses)
        has = self.count(finding.key, finding.tags or clauses)
        if _count(finding.tags or clauses) >= NEEDED:
            has += " that tell one thing"
        self.messages.add(
            says.LOOSE_POINT,
            at=span,
            name=holder.name,
            has=has,
            facts=lets,
            suggestion=self._suggestion(finding, holder),
        )

    def _loose_together(self, finding: found.Loose, holder: Holder) -> bool:
        """Points that move as one are told once: where `hold` facts tie them together, or each has its two facts, with
        those facts; else only those are told that lack one of their own."""
        bases = tuple(dict.fromkeys(_base(key) for key in finding.group))
        holds = self._holds_on(bases)
        short = [base for base in bases if _count(self.lowered.facts.get(base, [])) < NEEDED]
        if len(bases) < 2 or not (holds or finding.as_body):
            return False
        if short and not holds:
            return _base(finding.key) not in short
        holds = holds or self._own(bases)
        if bases not in self.told_together:
            self.told_together.add(bases)
            missing = COUNTS.get(finding.missing, f"{finding.missing} facts")
            self.messages.add(
                says.LOOSE_TOGETHER,
                at=holder.span,
                related=[Related(clause.span, "takes part") for clause in holds],
                names=self.names(bases),
                lack="lack" if len(bases) > 1 else "lacks",
                missing=missing,
                facts=self.facts(holds),
                suggestion=self._suggestion(finding, holder),
                name=holder.name,
            )
        return True

    def _holds_on(self, bases: Sequence[str]) -> list[Clause]:
        """The `hold` facts that speak of any of some points."""
        found_holds: dict[Clause, None] = {}
        for fact in self.lowered.system.facts:
            keys = {*fact.points, *(key for scalar in fact.scalars for key in keys_of(scalar))}
            if (
                isinstance(fact.tag, Clause)
                and not fact.tag.owner
                and {_base(key) for key in keys} & set(bases)
            ):
                found_holds[fact.tag] = None
        return list(found_holds)

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
        if isinstance(finding.motion, found.Turns):
            return f"at 30 deg from {self.name(finding.motion.about).strip('`')}"
        fresh, mentioned = self._anchors(finding, holder)
        across = isinstance(finding.motion, found.Slides) and abs(finding.motion.y) < SAME
        if not (fresh or mentioned):
            return "at (0, 0)"
        if not isinstance(finding.motion, found.Slides):
            return f"at (40 mm, 25 mm) from {(fresh or mentioned)[-1]}"
        if fresh:
            return f"{'plumb' if across else 'level'} with {fresh[-1]}"
        return f"40 mm {'right of' if across else 'above'} {mentioned[0]}"

    def _anchors(self, finding: found.Loose, holder: Holder) -> tuple[list[str], list[str]]:
        """Points of the same piece that are not loose themselves: those that its facts leave out, and the others."""
        loose = self.loose | {_base(key) for key in finding.group}
        clauses = self.lowered.facts.get(_base(finding.key), [])
        words = {word for clause in clauses for word in clause.text.replace("..", " ").split()}
        piece = self.lowered.pattern.pieces[holder.piece]
        names = [part.ref.name for part in piece.points if part.ref.key not in loose]
        return [name for name in names if name not in words], [name for name in names if name in words]

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
        if not clauses or clauses[0].owner in self.loose:
            return
        others = [tag for tag in finding.tags if tag != finding.tag]
        said = self.facts(others, clauses[0].owner)
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
        is_held = any(not clause.owner for clause in _clauses(tags))
        others = "" if finding.actual is None or not clauses else _by_others(clauses[0], finding.actual)
        if finding.point and not is_held and _count(tags) > NEEDED and self.holder(finding.point):
            holder = self.holder(finding.point)
            span = holder.span if holder else None
            self.messages.add(
                says.CONTRADICTION_POINT,
                at=span,
                related=self.related(finding.tags, span),
                name=self.name(finding.point).strip("`"),
                has=self.count(finding.point, tags),
                misfit=_misfit(clauses, finding.misfit),
                facts=self.facts(tags),
                by_others=others,
            )
            return
        at = clauses[0].span if clauses else self.span(finding.point or "", finding.tags)
        self.messages.add(
            says.CONTRADICTION,
            at=at,
            related=self.related(finding.tags, at),
            misfit=_misfit(clauses, finding.misfit),
            facts=self.facts(finding.tags),
            by_others=others,
        )

    def _no_place(self, finding: found.NoPlace) -> None:
        key = finding.keys[0]
        at = self.span(key, finding.tags)
        if finding.condition is not None and finding.places:
            for clause in _clauses([finding.condition]):
                on = clause.text.startswith("on ")
                mend = f"write `{clause.text} extended`" if on else "turn the angle by 180 deg"
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
        clauses = dict.fromkeys([*self._own(finding.keys), *_clauses(finding.tags)])
        alone = "gives none" if len(clauses) == 1 else "do not meet"
        missed = _clauses([finding.missed])
        is_told = finding.gap and not (missed and missed[0].amount == ANGLE)
        miss = f"miss each other by {_misfit(missed, finding.gap or 0.0)}" if is_told else alone
        self.messages.add(
            says.NO_PLACE,
            at=at,
            related=self.related(finding.tags, at),
            name=self.names(finding.keys),
            facts=self.facts(list(clauses)),
            miss=miss,
        )

    def _own(self, keys: Sequence[str]) -> list[Clause]:
        """All clauses that place the things that `keys` stand for."""
        bases = dict.fromkeys(_base(key) for key in keys)
        return [clause for base in bases for clause in self.lowered.facts.get(base, [])]

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
        waits = self._waits(keys)
        if waits:
            self.messages.add(says.PIECES_WAIT, at=at, waits=", ".join(waits))
            return
        self.messages.add(says.CYCLE, at=at, cycle=cycle)

    def _waits(self, keys: Sequence[str]) -> list[str]:
        """Which piece needs what of another, in a circle of things of several sheets; each key needs the next."""
        pieces = self.lowered.pattern.pieces
        owned = [(re.split(r"[/.]", key)[0], key) for key in keys if re.split(r"[/.]", key)[0] in pieces]
        if len({pieces[piece].sheet for piece, _ in owned}) < 2:
            return []
        waits = [
            f"`{piece}` needs `{_dotted(other_key)}`"
            for (piece, _), (other, other_key) in zip(owned, [*owned[1:], *owned[:1]], strict=True)
            if piece != other
        ]
        return list(dict.fromkeys(waits))


def _base(key: str) -> str:
    """A point's key without its coordinate."""
    return key[:-2] if key.endswith((".x", ".y")) else key


NEEDED = 2
"""Facts that pin a point."""


def _count(tags: Iterable[Any]) -> int:
    return sum(clause.counts for clause in dict.fromkeys(_clauses(tags)))


def _misfit(clauses: Sequence[Clause], amount: float) -> str:
    """By how much a clause is missed: a length, or what else it speaks of."""
    kind = clauses[0].amount if clauses else LENGTH
    return mm(amount) if kind == LENGTH else shown(amount, kind)


def _by_others(clause: Clause, actual: float) -> str:
    """What the other facts make of the amount that a clause asks for, if it names one."""
    if clause.owner:
        if WITHOUT_AMOUNT.match(clause.text):
            return ""
        turned = -actual if TURNED.search(clause.text) else actual
        return f"; by the others `{clause.text}` would be {_misfit([clause], turned)}"
    left, equals, right = clause.text.removeprefix("hold ").partition(" = ")
    side = right if ".." in right and ".." not in left else left
    return f"; by the others `{side}` is {_misfit([clause], actual)}" if equals else ""


def _dotted(key: str) -> str:
    """A key as a maker names it from outside its piece: `back.rim.length`."""
    return _bare(key.replace("/", "."))


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


def _own_motion(clauses: Sequence[Clause]) -> found.Motion | None:
    """How a point with one level or plumb fact moves, whatever hangs on it and moves along."""
    if len(clauses) != 1:
        return None
    if AXIS_Y.search(clauses[0].text):
        return found.Slides(1.0, 0.0)
    return found.Slides(0.0, 1.0) if AXIS_X.search(clauses[0].text) else None


def _plain_key(key: str) -> str:
    return _bare(key.split("/")[-1])


def _bare(key: str) -> str:
    """Without what tells a line from its path, its stitches and the places on it."""
    return re.sub(r":(line|path|stitches)", "", key).split("@")[0]


def _clauses(tags: Iterable[Any]) -> list[Clause]:
    return [tag for tag in tags if isinstance(tag, Clause)]


def _places(places: Sequence[found.Place]) -> str:
    """Places apart by less than a hundredth still read apart."""
    return " or ".join(place(Point(x, y)) for x, y in places)
