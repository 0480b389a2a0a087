"""Which facts pin a thing, in the maker's words.

Takes one size worked out and a name; gives a few lines: the facts and choices, how they come to one place, where that
is, and which measures move it. Measures and lengths are explained by their formula.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from drafting.geometry.point import Point
from drafting.model.expressions import keys_of
from drafting.model.pattern import Fact, MeasurePart, Pattern, Piece, Placing, PointRef
from drafting.solve.amounts import mm, place, plain, shown
from drafting.solve.draft import Sized
from drafting.solve.findings import SeveralPlaces
from drafting.solve.fitting import Fitted
from drafting.solve.lowering import Clause
from drafting.solve.steps import distinct_places

SHOWN = 5e-4
WAYS = {"offset x": "x", "offset y": "y", "coordinate x": "x", "coordinate y": "y"}


def explain_point(sized: Sized, point: PointRef, name: str) -> str:
    """Where a point or a feature's middle comes from."""
    pattern = sized.planned.lowered.pattern
    value = sized.solution.values[point.key]
    lines = [f"`{name}` lies at {place(value)}."]
    placing = _placing_of(pattern, point)
    if placing is None:
        lines.extend(_derived(pattern, point))
    else:
        lines.extend(_pinned(sized, point, placing))
    lines.extend(_moves(sized, point.key))
    return "\n".join(lines)


def explain_undecided(sized: Sized, point: PointRef, name: str) -> str | None:
    """A point that its facts leave several places: all of them, and what leaves them; None for any other point."""
    finding = next((one for one in sized.solution.findings if _leaves_several(one, point.key)), None)
    placing = _placing_of(sized.planned.lowered.pattern, point)
    if not isinstance(finding, SeveralPlaces) or placing is None:
        return None
    at = finding.places if finding.key == point.key else _places_in(finding, point.key)
    listed = " or ".join(place(Point(x, y)) for x, y in at)
    lines = [f"`{name}` can lie at {listed}.", *_pinned(sized, point, placing)]
    lines.append("Nothing picks one of these places: `awlwright check` names a choice that does.")
    return "\n".join(lines)


def _leaves_several(finding: object, key: str) -> bool:
    return isinstance(finding, SeveralPlaces) and key in (finding.key, *finding.keys)


def _places_in(finding: SeveralPlaces, key: str) -> list[tuple[float, float]]:
    """Where the whole solutions have one of their points, each place once."""
    places = [at for solution in finding.solutions for at in [dict(solution)[key]] if isinstance(at, tuple)]
    return [(x, y) for x, y in distinct_places(places)]


def _placing_of(pattern: Pattern, point: PointRef) -> Placing | None:
    piece = pattern.pieces[point.piece]
    if point.twin:
        return None
    if point.part == "centre":
        shape = piece.shape(point.name)
        return shape.placing if shape and shape.placing.facts else None
    return next((part.placing for part in piece.points if part.ref == point), None)


def _derived(pattern: Pattern, point: PointRef) -> Iterator[str]:
    """Points that take no facts of their own."""
    piece = pattern.pieces[point.piece]
    if point.twin and piece.mirror:
        line = f"{piece.mirror.start.text}..{piece.mirror.end.text}"
        yield f"It is the twin of `{point.twinned().text}`, mirrored over `{line}`; it takes no facts."
    elif point.part and any(part.corner.name == point.name for part in piece.corners):
        yield f"It is where the rounding of `{point.name}` {_corner_word(point.part)}."
    elif point.part and point.part.isdigit():
        yield f"It is point {point.part} of the list `{point.name}`, counted along its line."
    elif piece.shape(point.name) is not None or any(run.name == point.name for run in piece.runs):
        yield f"It is the `{point.part}` of `{point.name}`, read off its line."
    else:
        yield "It is a corner that the cut made on the outline."


def _corner_word(part: str) -> str:
    return {"start": "starts", "mid": "is halfway", "end": "ends"}[part]


def _pinned(sized: Sized, point: PointRef, placing: Placing) -> Iterator[str]:
    """Facts and choices, and the place they come to."""
    for fact in _by_clause(placing):
        yield f"  {_quoted(fact)}: {_meaning(fact)}"
    holds = _holds_on(sized, point)
    for clause in holds:
        yield f"  `{clause.text}`: solved together with the points it names"
    closed = _closed_form(placing)
    if closed and not holds:
        yield f"So {closed}."
    for choice in placing.choices:
        yield f"  `{' '.join(choice.span.text.split())}` picks among the places that these leave."


def _by_clause(placing: Placing) -> list[Fact]:
    """One fact for each clause written; a clause of two facts is told once."""
    seen: dict[tuple[int, int], Fact] = {}
    for fact in placing.facts:
        seen.setdefault((fact.span.start, fact.span.end), fact)
    return list(seen.values())


def _quoted(fact: Fact) -> str:
    return f"`{' '.join(fact.span.text.split())}`"


def _amount(fact: Fact, before: str) -> str:
    """The words of a clause before a word of its own: its amount."""
    return " ".join(fact.span.text.split()).split(f" {before} ")[0]


def _point_text(fact: Fact, index: int) -> str:
    operand = fact.operands[index]
    return operand.text if isinstance(operand, PointRef) else ""


MEANINGS: dict[str, Callable[[Fact], str]] = {
    "distance": lambda fact: (
        f"on the circle round `{_point_text(fact, 0)}` with radius {_amount(fact, 'from')}"
    ),
    "line distance": lambda fact: (
        f"on one of the two lines {_amount(fact, 'from')} beside `{_stretch(fact)}`"
    ),
    "on line": lambda fact: f"on the endless line through `{_stretch(fact)}`",
    "on stretch": lambda fact: f"on the line `{_stretch(fact)}`, between its ends",
    "square off": lambda fact: f"on the line through `{_point_text(fact, 2)}` square to `{_stretch(fact)}`",
    "ray": lambda fact: f"on the ray from `{_point_text(fact, 0)}`",
    "on path": lambda fact: "on that line, straight and curved legs alike",
    "at": lambda fact: f"in the same place as `{_point_text(fact, 0)}`",
    "touching": lambda fact: f"where a straight line from `{_point_text(fact, 1)}` just touches it",
    "mirror": lambda fact: f"`{_point_text(fact, 0)}` mirrored",
}


def _stretch(fact: Fact) -> str:
    return f"{_point_text(fact, 0)}..{_point_text(fact, 1)}"


def _meaning(fact: Fact) -> str:
    if fact.kind in MEANINGS:
        return MEANINGS[fact.kind](fact)
    if fact.kind in WAYS:
        return _coordinates(fact)
    return "a place measured along that line"


def _coordinates(fact: Fact) -> str:
    """`level with foot` gives the y; `at (x, y)` gives both."""
    text = " ".join(fact.span.text.split())
    if text.startswith("at"):
        return "gives x and y"
    way = WAYS[fact.kind]
    return f"gives {'x, its place across' if way == 'x' else 'y, its height'}"


def _closed_form(placing: Placing) -> str:
    """The place as a formula in the maker's names, or as the meeting of two lines or circles."""
    facts = placing.facts
    if len(facts) == 2 and {WAYS.get(fact.kind) for fact in facts} == {"x", "y"}:
        parts = sorted(((WAYS[fact.kind], _formula(fact)) for fact in facts), key=lambda part: part[0])
        return ", ".join(f"{way} = {formula}" for way, formula in parts)
    if len(facts) == 2:
        return "it is where " + " and ".join(_curve(fact) for fact in facts) + " meet"
    return ""


def _formula(fact: Fact) -> str:
    way = WAYS[fact.kind]
    text = " ".join(fact.span.text.split())
    origin = _point_text(fact, 0)
    if text.startswith("at"):
        inside = text[text.index("(") + 1 : text.rindex(")")]
        amount = inside.split(",")[0 if way == "x" else 1].strip()
        return f"{origin}.{way} + {amount}" if origin else amount
    for word, sign in (("right of", "+"), ("above", "+"), ("left of", "-"), ("below", "-")):
        if f" {word} " in text:
            amount = _amount(fact, word)
            grouped = f"({amount})" if sign == "-" and any(mark in amount for mark in "+-") else amount
            return f"{origin}.{way} {sign} {grouped}"
    return f"{origin}.{way}"


def _curve(fact: Fact) -> str:
    if fact.kind in WAYS:
        return f"the {'plumb' if WAYS[fact.kind] == 'x' else 'level'} line {_quoted(fact)}"
    if fact.kind == "distance":
        return f"the circle {_quoted(fact)}"
    return f"the line {_quoted(fact)}"


def _holds_on(sized: Sized, point: PointRef) -> list[Clause]:
    """The `hold` facts that take part in placing a point."""
    info = sized.planned.plan.explain(point.key)
    tags = info.tags if info else ()
    clauses = [tag for tag in tags if isinstance(tag, Clause) and tag.owner == ""]
    return list(dict.fromkeys(clauses))


def _moves(sized: Sized, key: str) -> Iterator[str]:
    """Which measures move it, and how far for each mm (or degree, or one more) of them."""
    told = [
        f"`{measure}` ({_way(across, 'right', 'left')}{_way(up, 'up', 'down')}".rstrip(", ") + ")"
        for measure, (across, up) in sized.influence(key).items()
    ]
    if told:
        yield "It moves with " + ", ".join(told) + ", for each mm or degree more."
    else:
        yield "No measure moves it."


def _way(amount: float, plus: str, minus: str) -> str:
    if abs(amount) < SHOWN:
        return ""
    return f"{plain(abs(amount))} {plus if amount > 0 else minus}, "


# Measures


def explain_measure(sized: Sized, part: MeasurePart) -> str:
    """A measure by its formula, its value and what it is made from."""
    values = [sized.solution.values[key] for key in part.keys if key in sized.solution.values]
    amounts = ", ".join(shown(float(value), part.kind) for value in values)
    text = " ".join(part.span.text.split())
    note = f' "{part.note}"' if part.note else ""
    lines = [f"`{part.name}` is {amounts}.{note}", f"  written: {text}"]
    made_from = list(dict.fromkeys(key for value in part.values for key in keys_of(value)))
    if made_from:
        lines.append(
            "  made from " + ", ".join(f"`{key.replace('/', '.').replace(':line', '')}`" for key in made_from)
        )
    lines += [told for fit in sized.fits if fit.wanted.name == part.key for told in _fitted(fit)]
    return "\n".join(lines)


def _fitted(fit: Fitted) -> Iterator[str]:
    """What a fit came to, and by how much each stretch of its lines is off."""
    wanted = fit.wanted
    values = ", ".join(mm(value) for value in sorted(set(fit.solutions)))
    yield f"  fitted to {wanted.lines} from {mm(wanted.written)}: the nearest of {values}"
    for key, offs in zip(wanted.keys, fit.offs, strict=True):
        line = key.replace("/", ".").removesuffix(":held")
        told = ", ".join(f"{'+' if off > 0 else ''}{mm(off)}" for off in offs)
        yield f"    pitches of `{line}`, stretch by stretch, are off by {told}"


def explain_found(sized: Sized, piece: Piece, name: str) -> str:
    """An unknown measure: what it comes to, and the facts that give it."""
    find = next(each for each in piece.finds if each.name == name)
    value = float(sized.solution.values[find.key])
    info = sized.planned.plan.explain(find.key)
    tags = info.tags if info else ()
    clauses = dict.fromkeys(tag for tag in tags if isinstance(tag, Clause))
    facts = ", ".join(f"`{clause.text}`" for clause in clauses)
    return f"`{name}` comes to {mm(value)}; it is given by {facts}."
