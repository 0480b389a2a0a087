"""Outlines, guides and features: turned into a form, a place and the properties their kind has.

Takes the clauses of one statement. Which clauses a kind takes, and which it cannot do without, stand in one table;
a clause that the kind does not know is a message, never passed over.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, TypeVar

from drafting.model.bind_cut import WORKED, bind_work
from drafting.model.bind_expression import bind_kind
from drafting.model.bind_place import (
    NOWHERE,
    bind_choice,
    bind_direction,
    bind_placing,
    bind_way,
)
from drafting.model.bind_row import bind_row_along
from drafting.model.bind_stitch import OWN, SPACING_WORDS, bind_stitch, is_unfit, line_clauses, takes_holes
from drafting.model.expressions import Bound
from drafting.model.pattern import (
    AlongForm,
    BandForm,
    BoundBow,
    BoundLeg,
    BoxForm,
    Form,
    LinesForm,
    OffsetForm,
    PathForm,
    PointRef,
    RoundForm,
    RowAlongForm,
    RowForm,
    ShapePart,
    SlotForm,
    SpotForm,
    ThroughForm,
)
from drafting.model.references import Binding, expect_line, expect_point, expect_stretch
from drafting.model.scope import PieceText
from drafting.records import dataclass
from drafting.syntax import tree
from drafting.text.catalogue import model as says
from drafting.text.quantities import LENGTH, NUMBER
from drafting.text.source import Span

ClauseType = type[tree.Clause]
SHAPES_WITH_A_PLACE = (tree.BoxShape, tree.RoundShape)
"""Those whose middle is placed; the others lie where their points or their line do."""
OneClause = TypeVar("OneClause", bound=tree.Clause)


@dataclass(frozen=True)
class KindRule:
    """What a kind of thing takes: forms, properties by word, and an example of the whole."""

    forms: tuple[ClauseType, ...]
    words: tuple[str, ...]
    others: tuple[ClauseType, ...]
    placed: bool
    directed: bool
    takes: str
    example: str


LINES = (tree.PathShape, tree.OffsetShape, tree.AlongShape, tree.ThroughShape)
RINGS = (tree.PathShape, tree.BoxShape, tree.RoundShape, tree.OffsetShape, tree.BandShape)

STRIPS = (tree.BandShape, *LINES, tree.BoxShape, tree.RoundShape)
STRIP = "a band, a closed shape, or a line and how `wide` the strip along it is"

RULES: dict[str, KindRule] = {
    "outline": KindRule(
        RINGS, ("rounded",), (), True, False, "a path, a box, a circle, an offset or a band", "a to b to c"
    ),
    "guide": KindRule(
        (*RINGS, tree.AlongShape, tree.ThroughShape),
        ("rounded",),
        (tree.Short,),
        True,
        False,
        "a path, a box, a circle, an offset, a band or a line from edge to edge",
        "40 mm across; at hub",
    ),
    "opening": KindRule(
        RINGS,
        ("rounded",),
        (tree.Once,),
        True,
        True,
        "a path, a box, a circle or an offset, a place and how it lies",
        "box 40 mm by 60 mm; at mid; lying level",
    ),
    "slot": KindRule(
        (),
        ("long", "wide"),
        (tree.Once,),
        True,
        True,
        "`long`, `wide`, a place and how it lies",
        "14 mm long; 4 mm wide; at mid; lying level",
    ),
    "hole": KindRule(
        (tree.RoundShape,), (), (tree.Once,), True, False, "`across` and a place", "3 mm across"
    ),
    "row": KindRule(
        (tree.RoundShape,),
        ("holes", "apart"),
        (tree.Once,),
        True,
        True,
        "`holes`, `apart`, `across`, a place and how it lies",
        "at mid; lying level; 5 holes; 10 mm apart; 2.5 mm across",
    ),
    "crease": KindRule(
        (*LINES, tree.LinesShape, tree.BandShape),
        (),
        (tree.Short, tree.Once),
        False,
        False,
        "a path, an offset or a line from edge to edge",
        "2 mm inside outline",
    ),
    "slit": KindRule(
        LINES,
        ("rounded", "end holes", "corner holes"),
        (tree.Short, tree.Once),
        False,
        False,
        "a line, `end holes`, and `corner holes` or `rounded`",
        "a to b; end holes 2 mm",
    ),
    "skive": KindRule(
        STRIPS,
        ("wide", "rounded", "down to"),
        (tree.Short, tree.Once),
        True,
        True,
        f"{STRIP}, and `down to`",
        "band 12 mm inside from a to b; down to 0.6 mm",
    ),
    "glue": KindRule(
        STRIPS,
        ("wide", "rounded"),
        (tree.Short, tree.Once),
        True,
        True,
        STRIP,
        "band 8 mm inside from a to b",
    ),
    "turn": KindRule(
        (tree.OffsetShape,),
        (),
        (tree.Once, tree.Corners),
        False,
        False,
        "how far it reaches outside an edge, and `corners`",
        "9 mm outside outline; corners mitred",
    ),
    "fold": KindRule(
        (*LINES, tree.LinesShape),
        (),
        (tree.Short, tree.Once, tree.Bent),
        False,
        False,
        "a line and how far it is bent",
        "plumb through mid; bent 180 deg round 3 mm",
    ),
    "stitch": KindRule(
        (*LINES, tree.LinesShape, tree.BoxShape, tree.RoundShape),
        ("rounded", *SPACING_WORDS),
        (tree.Short, tree.Once, *OWN),
        True,
        True,
        "a line and how its stitches are spaced",
        "3.5 mm inside outline; every 3.85 mm",
    ),
    "mark": KindRule((), (), (tree.Once,), True, False, "a place", "at mid"),
    "notch": KindRule(
        (),
        ("deep", "wide"),
        (tree.Once,),
        True,
        False,
        "a place on the edge and `deep`",
        "on outline; level with mid; 2 mm deep",
    ),
    "label": KindRule(
        (),
        ("high",),
        (tree.Once, tree.Wording),
        True,
        True,
        "`text`, `high`, a place and how it lies",
        'at mid; lying level; 5 mm high; text "face out"',
    ),
    "stamp": KindRule(
        (tree.BoxShape,),
        ("high",),
        (tree.Once, tree.Wording),
        True,
        True,
        "`box` or `high`, `text` or `roster`, a place and how it lies",
        'box 40 mm by 9 mm; at mid; lying level; roster "name"',
    ),
}


ROW_ALONG = KindRule(
    (tree.RoundShape, *LINES),
    ("holes", "apart"),
    (tree.Short, tree.Once, tree.Every, tree.LikeLine),
    False,
    False,
    "a line, `across`, and `holes`, `apart` or `every`",
    "along side; 5 holes; 2.5 mm across",
)
"""A row that lies along a line is placed by it."""

SHAPE_WORDS = {
    "hole": "how large it is",
    "crease": "where it runs",
    "fold": "where it runs",
    "slit": "where it runs",
    "stitch": "where it runs",
    "turn": "how far it reaches outside which edge",
    "skive": "which strip it is",
    "glue": "which strip it is",
}
"""What a kind lacks that has no form; the others lack a shape."""
ALWAYS_LIES = ("slot", "row", "label", "stamp")


def bind_shape(
    binding: Binding,
    kind: str,
    name: str,
    statement: tree.Outline | tree.Guide | tree.Feature,
    piece: PieceText,
) -> ShapePart | None:
    """One outline, guide or feature."""
    clauses = statement.clauses
    rule = ROW_ALONG if _is_row_along(kind, clauses) else RULES[kind]
    _refuse_unfit(binding, kind, rule, clauses)
    stitched = None
    if kind == "stitch":
        at = statement.name.span if isinstance(statement, tree.Feature) else statement.span
        stitched = bind_stitch(binding, name, clauses, piece, at)
        clauses = line_clauses(clauses)
    if rule.placed:
        _refuse_second_place(binding, name, clauses)
    if kind == "outline":
        _refuse_rounded_path(binding, clauses)
    form: Form | None = stitched.form if stitched else None
    if kind != "stitch" or not any(takes_holes(clause) for clause in statement.clauses):
        form = _bind_form(binding, kind, name, rule, statement, piece)
    beside = _beside(clauses)
    placing_clauses = [clause for clause in clauses if not (beside and isinstance(clause, tree.Side))]
    placing = bind_placing(binding, placing_clauses, piece, name) if rule.placed else NOWHERE
    _expect_direction(binding, kind, name, rule, clauses, statement)
    work = bind_work(binding, kind, name, statement, piece)
    if form is None or (kind in WORKED and work is None) or (kind == "stitch" and stitched is None):
        return None
    deep, wide = _amount(binding, clauses, "deep", piece), _amount(binding, clauses, "wide", piece)
    high = _amount(binding, clauses, "high", piece)
    wording = _only(binding, clauses, tree.Wording, name, "its words")
    return ShapePart(
        kind,
        name,
        form,
        placing,
        _amount(binding, clauses, "rounded", piece),
        _shortenings(binding, name, clauses, piece),
        any(isinstance(clause, tree.Once) for clause in clauses),
        deep,
        wide,
        high,
        wording.text if wording and wording.how == "text" else None,
        wording.text if wording and wording.how == "roster" else None,
        statement.span,
        statement.span if isinstance(statement, tree.Outline) else statement.name.span,
        statement.note or _clause_note(statement.clauses),
        work,
        stitched.part if stitched else None,
    )


def _is_row_along(kind: str, clauses: Sequence[tree.AnyClause]) -> bool:
    return kind == "row" and any(isinstance(clause, LINES) for clause in clauses)


def _clause_note(clauses: Sequence[tree.AnyClause]) -> str | None:
    return next((clause.note for clause in clauses if clause.note), None)


def _refuse_unfit(binding: Binding, kind: str, rule: KindRule, clauses: Sequence[tree.AnyClause]) -> None:
    """A message for each clause that this kind has no use for."""
    for clause in clauses:
        fits = isinstance(clause, (*rule.forms, *rule.others))
        if isinstance(clause, tree.Property):
            fits = clause.word in rule.words
        elif isinstance(clause, tree.EndDetail):
            fits = clause.how in rule.words
        elif isinstance(clause, tree.Lying):
            fits = rule.placed and (kind in ALWAYS_LIES or _has(clauses, tree.BoxShape))
        elif isinstance(clause, tree.Side):
            fits = rule.placed or _beside(clauses) is not None
        elif isinstance(clause, tree.Place):
            fits = rule.placed
        fits = fits and not is_unfit(clause, kind)
        if not fits:
            binding.messages.add(
                says.NOT_FOR_KIND,
                at=clause.span,
                kind=("An " if kind[0] in "aeiou" else "A ") + kind,
                clause=" ".join(clause.span.text.split()),
                takes=rule.takes,
            )


def _has(clauses: Sequence[tree.AnyClause], kind: type[tree.Node]) -> bool:
    return any(isinstance(clause, kind) for clause in clauses)


def _refuse_second_place(binding: Binding, name: str, clauses: Sequence[tree.AnyClause]) -> None:
    """A path, an offset, a band lie where they lie: what else is said of their place would be passed over."""
    shapes = [clause for clause in clauses if isinstance(clause, tree.Shape)]
    if all(isinstance(shape, SHAPES_WITH_A_PLACE) for shape in shapes):
        return
    beside = _beside(clauses)
    for clause in clauses:
        second = isinstance(clause, tree.Place) or (isinstance(clause, tree.Side) and beside is None)
        if second and not isinstance(clause, tree.Lying):
            said = " ".join(clause.span.text.split())
            binding.messages.add(says.PLACES_ITSELF, at=clause.span, name=name, clause=said)


def _refuse_rounded_path(binding: Binding, clauses: Sequence[tree.AnyClause]) -> None:
    path = next((clause for clause in clauses if isinstance(clause, tree.PathShape)), None)
    rounded = next((clause for clause in clauses if isinstance(clause, tree.Property)), None)
    if path and rounded and rounded.word == "rounded":
        corners = ", ".join(dict.fromkeys(leg.to.text for leg in path.legs))
        binding.messages.add(
            says.ROUNDED_BY_NAME,
            at=rounded.span,
            clause=" ".join(rounded.span.text.split()),
            example=f"fillet {corners} by {rounded.amount.span.text}",
        )


def _beside(clauses: Sequence[tree.AnyClause]) -> tree.OffsetShape | None:
    """The `beside` offset whose side the choices tell, if there is one."""
    for clause in clauses:
        if isinstance(clause, tree.OffsetShape) and clause.side == "beside":
            return clause
    return None


def _only(
    binding: Binding, clauses: Sequence[tree.AnyClause], kind: type[OneClause], name: str, what: str
) -> OneClause | None:
    found = [clause for clause in clauses if isinstance(clause, kind)]
    _refuse_second(binding, found, name, what)
    return found[0] if found else None


def _only_shape(binding: Binding, clauses: Sequence[tree.AnyClause], name: str) -> tree.Shape | None:
    found = [clause for clause in clauses if isinstance(clause, tree.Shape)]
    _refuse_second(binding, found, name, "its shape")
    return found[0] if found else None


def _refuse_second(binding: Binding, found: Sequence[tree.Clause], name: str, what: str) -> None:
    if len(found) > 1:
        first, second = found[0].span.text, found[1].span.text
        binding.messages.add(
            says.SAID_TWICE, at=found[1].span, name=name, what=what, first=first, second=second
        )


def _property(
    binding: Binding, clauses: Sequence[tree.AnyClause], word: str, name: str
) -> tree.Property | None:
    found = [clause for clause in clauses if isinstance(clause, tree.Property) and clause.word == word]
    _refuse_second(binding, found, name, f"`{word}`")
    return found[0] if found else None


def _amount(binding: Binding, clauses: Sequence[tree.AnyClause], word: str, piece: PieceText) -> Bound | None:
    found = _property(binding, clauses, word, word)
    return bind_kind(binding, found.amount, piece, LENGTH, found) if found else None


def _shortenings(
    binding: Binding, name: str, clauses: Sequence[tree.AnyClause], piece: PieceText
) -> tuple[tuple[Literal["start", "end"], Bound], ...]:
    """How much earlier a line begins and ends; without `at` both ends alike."""
    found: list[tuple[Literal["start", "end"], Bound]] = []
    said: dict[str, tree.Short] = {}
    for clause in clauses:
        if not isinstance(clause, tree.Short):
            continue
        ends: tuple[Literal["start", "end"], ...] = (clause.at,) if clause.at else ("start", "end")
        earlier = next((said[end] for end in ends if end in said), None)
        if earlier:
            _say_twice(binding, name, "how short it is", earlier, clause)
        said.update(dict.fromkeys(ends, clause))
        amount = bind_kind(binding, clause.amount, piece, LENGTH, clause)
        if amount is not None:
            found.extend((end, amount) for end in ends)
    return tuple(found)


def _say_twice(binding: Binding, name: str, what: str, first: tree.Clause, second: tree.Clause) -> None:
    one, other = (" ".join(clause.span.text.split()) for clause in (first, second))
    binding.messages.add(says.SAID_TWICE, at=second.span, name=name, what=what, first=one, second=other)


def _expect_direction(
    binding: Binding,
    kind: str,
    name: str,
    rule: KindRule,
    clauses: Sequence[tree.AnyClause],
    statement: tree.Outline | tree.Guide | tree.Feature,
) -> None:
    is_box = any(isinstance(clause, tree.BoxShape) for clause in clauses)
    needs = rule.directed and (kind in ALWAYS_LIES or is_box)
    if needs and not any(isinstance(clause, tree.Lying) for clause in clauses):
        span = statement.name.span if isinstance(statement, tree.Feature) else statement.span
        binding.messages.add(
            says.LACKS, at=span, kind=kind, name=name, what="how it lies", example="lying level"
        )


# Forms


def _bind_form(
    binding: Binding,
    kind: str,
    name: str,
    rule: KindRule,
    statement: tree.Outline | tree.Guide | tree.Feature,
    piece: PieceText,
) -> Form | None:
    clauses = statement.clauses
    span = statement.name.span if isinstance(statement, tree.Guide | tree.Feature) else statement.span
    if kind == "slot":
        return _slot_form(binding, name, clauses, piece, span)
    if _is_row_along(kind, clauses):
        return _row_along_form(binding, name, clauses, piece, span)
    if kind == "row":
        return _row_form(binding, name, clauses, piece, span)
    shape = _only_shape(binding, clauses, name) if rule.forms else None
    if shape is not None and isinstance(shape, rule.forms):
        return bind_form(binding, shape, clauses, piece, kind, name)
    if kind in ("mark", "notch", "label", "stamp"):
        return _spot_form(binding, kind, name, clauses, span)
    if shape is None:
        binding.messages.add(
            says.LACKS,
            at=span,
            kind=kind,
            name=name,
            what=SHAPE_WORDS.get(kind, "what its shape is"),
            example=rule.example,
        )
    return None


def _needed(
    binding: Binding,
    kind: str,
    name: str,
    clauses: Sequence[tree.AnyClause],
    word: str,
    example: str,
    span: Span,
) -> tree.Property | None:
    found = _property(binding, clauses, word, name)
    if found is None:
        binding.messages.add(
            says.LACKS,
            at=span,
            kind=kind,
            name=name,
            what=AMOUNT_WORDS.get(word, f"how {word} it is"),
            example=example,
        )
    return found


AMOUNT_WORDS = {"holes": "how many holes it has", "apart": "how far apart its holes are"}


def _slot_form(
    binding: Binding, name: str, clauses: Sequence[tree.AnyClause], piece: PieceText, span: Span
) -> SlotForm | None:
    long = _needed(binding, "slot", name, clauses, "long", "14 mm long", span)
    wide = _needed(binding, "slot", name, clauses, "wide", "4 mm wide", span)
    if long is None or wide is None:
        return None
    long_bound = bind_kind(binding, long.amount, piece, LENGTH, long)
    wide_bound = bind_kind(binding, wide.amount, piece, LENGTH, wide)
    return (
        SlotForm(long_bound, wide_bound, span) if long_bound is not None and wide_bound is not None else None
    )


def _row_form(
    binding: Binding, name: str, clauses: Sequence[tree.AnyClause], piece: PieceText, span: Span
) -> RowForm | None:
    holes = _needed(binding, "row", name, clauses, "holes", "5 holes", span)
    apart = _needed(binding, "row", name, clauses, "apart", "10 mm apart", span)
    across = _only(binding, clauses, tree.RoundShape, name, "how large its holes are")
    if across is None:
        binding.messages.add(
            says.LACKS,
            at=span,
            kind="row",
            name=name,
            what="how large its holes are",
            example="2.5 mm across",
        )
    if holes is None or apart is None or across is None:
        return None
    bounds = (
        bind_kind(binding, holes.amount, piece, NUMBER, holes),
        bind_kind(binding, apart.amount, piece, LENGTH, apart),
        bind_kind(binding, across.across, piece, LENGTH, across),
    )
    count, gap, size = bounds
    return (
        RowForm(count, gap, size, span)
        if count is not None and gap is not None and size is not None
        else None
    )


def _row_along_form(
    binding: Binding, name: str, clauses: Sequence[tree.AnyClause], piece: PieceText, span: Span
) -> RowAlongForm | None:
    lines = [clause for clause in clauses if isinstance(clause, LINES)]
    _refuse_second(binding, lines, name, "its line")
    line = bind_form(binding, lines[0], clauses, piece, "row", name)
    row = bind_row_along(binding, name, clauses, piece, span)
    if row is None or not isinstance(line, PathForm | OffsetForm | AlongForm | ThroughForm):
        return None
    return RowAlongForm(line, row.holes, row.apart, row.every, row.across, row.start, span)


def _spot_form(
    binding: Binding, kind: str, name: str, clauses: Sequence[tree.AnyClause], span: Span
) -> SpotForm | None:
    """Marks, notches and lettering without a box; each says what it cannot do without."""
    complete = True
    words = {"notch": ("deep",), "label": ("high",), "stamp": ("high",), "mark": ()}[kind]
    for word in words:
        example = "2 mm deep" if word == "deep" else "5 mm high"
        complete = _needed(binding, kind, name, clauses, word, example, span) is not None and complete
    if kind in ("label", "stamp") and not any(isinstance(clause, tree.Wording) for clause in clauses):
        binding.messages.add(
            says.LACKS, at=span, kind=kind, name=name, what="what it says", example='text "face out"'
        )
    return SpotForm(span) if complete else None


def bind_form(
    binding: Binding,
    shape: tree.Shape,
    clauses: Sequence[tree.AnyClause],
    piece: PieceText,
    kind: str,
    name: str,
) -> Form | None:
    span = shape.span

    def length(node: tree.Expression) -> Bound | None:
        return bind_kind(binding, node, piece, LENGTH, shape)

    match shape:
        case tree.PathShape():
            return _path_form(binding, shape, piece)
        case tree.BoxShape(width=width, height=height):
            wide, high = length(width), length(height)
            return BoxForm(wide, high, span) if wide is not None and high is not None else None
        case tree.RoundShape(across=across):
            size = length(across)
            return RoundForm(size, span) if size is not None else None
        case tree.OffsetShape():
            return _offset_form(binding, shape, clauses, piece, kind, name)
        case tree.BandShape(distance=distance, side=side, way=way):
            amount, bound_way = length(distance), bind_way(binding, way, piece)
            return BandForm(amount, side, bound_way, span) if amount is not None and bound_way else None
        case tree.AlongShape(way=tree.Stretch() as stretch):
            bound = expect_stretch(binding, stretch, piece, piece)
            return AlongForm(bound, span) if bound else None
        case tree.AlongShape(way=way):
            bound_way = bind_way(binding, way, piece)  # type: ignore[arg-type]
            return AlongForm(bound_way, span) if bound_way else None
        case tree.ThroughShape(how=how, point=ref):
            point = expect_point(binding, ref, piece, piece)
            return ThroughForm(how, point, span) if point else None
        case tree.LinesShape(start=start, end=end):
            return _lines_form(binding, shape, start, end, piece)


def _offset_form(
    binding: Binding,
    shape: tree.OffsetShape,
    clauses: Sequence[tree.AnyClause],
    piece: PieceText,
    kind: str,
    name: str,
) -> OffsetForm | None:
    amount = bind_kind(binding, shape.distance, piece, LENGTH, shape)
    way = bind_way(binding, shape.way, piece)
    choice = None
    if shape.side == "beside":
        sides = [clause for clause in clauses if isinstance(clause, tree.Side)]
        side = sides[0] if sides else None
        if len(sides) > 1:
            _say_twice(binding, name, "on which side it runs", sides[0], sides[1])
        if side is None:
            binding.messages.add(
                says.LACKS,
                at=shape.span,
                kind=kind,
                name=name,
                what=f"on which side of `{' '.join(shape.way.span.text.split())}` it runs",
                example=f"right of {shape.way.span.text}"
                if isinstance(shape.way, tree.Ref)
                else "right of a..b",
            )
            return None
        choice = bind_choice(binding, side, piece, beside=True)
        if choice is None:
            return None
    return OffsetForm(amount, shape.side, way, choice, shape.span) if amount is not None and way else None


def _lines_form(
    binding: Binding, shape: tree.LinesShape, start: tree.Ref, end: tree.Ref, piece: PieceText
) -> LinesForm | None:
    """One line from each point of a list to its partner in another."""
    lists: list[tuple[PointRef, ...]] = []
    for ref in (start, end):
        base = ref.parts[0].rstrip("'")
        symbol = piece.table.get(base)
        if symbol is None or symbol.kind != "points" or len(ref.parts) > 1:
            if symbol is None or not symbol.is_unread:
                what = symbol.what if symbol else "not known here"
                binding.messages.add(says.NOT_A_LIST, at=ref.span, name=ref.text, what=what)
            return None
        count = binding.step_counts.get(f"{piece.name}/{base}")
        if count is None:
            binding.quiet.append(ref.span)
            return None
        twin = ref.parts[0].endswith("'")
        lists.append(tuple(PointRef(piece.name, base, twin, str(index)) for index in range(1, count + 1)))
    if len(lists[0]) != len(lists[1]):
        binding.messages.add(
            says.LISTS_DIFFER, at=shape.span, text=shape.span.text, first=len(lists[0]), second=len(lists[1])
        )
        return None
    return LinesForm(lists[0], lists[1], shape.span)


# Legs


def _path_form(binding: Binding, shape: tree.PathShape, piece: PieceText) -> PathForm | None:
    start = expect_point(binding, shape.start, piece, piece)
    legs = [_bind_leg(binding, leg, piece) for leg in shape.legs]
    if start is None or any(leg is None for leg in legs):
        return None
    if not legs:
        binding.messages.add(
            says.LACKS,
            at=shape.span,
            kind="path",
            name=shape.start.text,
            what="where it goes to",
            example="to b",
        )
        return None
    return PathForm(start, tuple(leg for leg in legs if leg), shape.span)


def _bind_leg(binding: Binding, leg: tree.Leg, piece: PieceText) -> BoundLeg | None:
    to = expect_point(binding, leg.to, piece, piece)
    if len(leg.bows) > 1:
        binding.messages.add(says.TWO_BOWS, at=leg.bows[1].span, to=leg.to.text)
        return None
    bow = _bind_bow(binding, leg.bows[0], leg, piece) if leg.bows else BoundBow("straight")
    return BoundLeg(to, bow, leg.span) if to and bow else None


def _bind_bow(binding: Binding, bow: tree.Bow, leg: tree.Leg, piece: PieceText) -> BoundBow | None:
    match bow:
        case tree.Bowed(toward=toward, with_radius=with_radius, amount=amount):
            bound = bind_kind(binding, amount, piece, LENGTH, bow)
            kind = "radius" if with_radius else "bowed"
            return BoundBow(kind, toward=toward, amount=bound) if bound is not None else None
        case tree.Through(point=ref):
            point = expect_point(binding, ref, piece, piece)
            return BoundBow("through", point=point) if point else None
        case tree.About(center=ref, long=long):
            point = expect_point(binding, ref, piece, piece)
            return BoundBow("about", point=point, long=long) if point else None
        case tree.Tangent():
            return BoundBow("tangent")
        case tree.Following(line=ref):
            line = expect_line(binding, ref, piece, piece)
            return BoundBow("following", line=line) if line else None
        case tree.Smooth():
            return _bind_smooth(binding, bow, leg, piece)


def _bind_smooth(binding: Binding, bow: tree.Smooth, leg: tree.Leg, piece: PieceText) -> BoundBow | None:
    points = [expect_point(binding, ref, piece, piece) for ref in bow.through]
    if any(point is None for point in points):
        return None
    leaving = bind_direction(binding, bow.leaving, piece) if bow.leaving else None
    arriving = bind_direction(binding, bow.arriving, piece) if bow.arriving else None
    if (bow.leaving and leaving is None) or (bow.arriving and arriving is None):
        return None
    if not bow.through and leaving is None and arriving is None:
        binding.messages.add(
            says.LACKS,
            at=bow.span,
            kind="smooth leg to",
            name=leg.to.text,
            what="which way it bends",
            example="leaving 45 deg",
        )
        return None
    return BoundBow(
        "smooth", points=tuple(point for point in points if point), leaving=leaving, arriving=arriving
    )
