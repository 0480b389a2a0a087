"""What a whole item needs and holds: thread, punches, hardware, contents and steps, bound.

Each amount is kept by its word, and a measure reads it as `buckle.inside`. A content that is named takes its size from
the table of published sizes; which way it lies is asked for, never guessed.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from difflib import get_close_matches
from fractions import Fraction

from drafting.model.bind_expression import bind_kind
from drafting.model.expressions import Applied, Bound, Constant, Operation
from drafting.model.item_words import FITTING_KINDS
from drafting.model.pattern import (
    AllowPart,
    ContentPart,
    HardwarePart,
    LineRef,
    PassPart,
    PieceRef,
    PunchPart,
    StepPart,
    ThreadPart,
)
from drafting.model.references import LINE_KINDS, Binding, find, say_unknown_name
from drafting.syntax import tree
from drafting.text.catalogue import model as says
from drafting.text.quantities import LENGTH, NUMBER, Kind

FINEST = 10**5
"""Published sizes are exact to less than this part of a mm: 3 1/2 in is 88.9 mm, not the float nearest to it."""
CONTENT_KINDS: Mapping[str, Kind] = {"of them": NUMBER, "ease": LENGTH, "thick": LENGTH}
CONTENT_WORDS = {"of them": "count", "ease": "ease", "thick": "thick"}
USED_IN_STEPS = ("piece", "stock", "thread", "punch", "hardware", "content")
OPENINGS = ("opening", "slot", "slit")
WALLS = (*LINE_KINDS, "stitch", "skive", "glue", "turn")

Amounts = dict[str, Bound]


def bind_thread(binding: Binding, item: tree.Thread) -> ThreadPart:
    thick = bind_kind(binding, item.thick, None, LENGTH, item)
    return ThreadPart(
        binding.scope.prefix + item.name.text, {"thick": thick} if thick else {}, item.span, item.note
    )


def bind_punch(binding: Binding, item: tree.Punch) -> PunchPart:
    across = bind_kind(binding, item.across, None, LENGTH, item)
    return PunchPart(
        binding.scope.prefix + item.name.text, {"across": across} if across else {}, item.span, item.note
    )


# Hardware


def bind_hardware(binding: Binding, item: tree.Hardware) -> HardwarePart:
    amounts: Amounts = {}
    said: dict[str, tree.Node] = {}
    need = bind_kind(binding, item.need, None, NUMBER, item)
    if need is not None:
        amounts["need"] = need
    straps: list[PieceRef | LineRef | None] = []
    for fitting in item.fittings:
        if isinstance(fitting, tree.FittingAmount):
            kind = FITTING_KINDS[fitting.word]
            _keep(binding, item, said, amounts, (fitting.word, fitting.word), kind, fitting)
        else:
            straps += [_strap(binding, ref) for ref in fitting.what]
    on = tuple(strap for strap in straps if strap)
    return HardwarePart(binding.scope.prefix + item.name.text, amounts, on, item.span, item.note)


def _keep(
    binding: Binding,
    item: tree.Hardware | tree.Content,
    said: dict[str, tree.Node],
    amounts: Amounts,
    words: tuple[str, str],
    kind: Kind,
    clause: tree.FittingAmount | tree.ContentAmount,
) -> None:
    """The amount of a clause by its word, which may be said once; `words` are as written and as measured."""
    written, word = words
    bound = bind_kind(binding, clause.amount, None, kind, clause)
    if not _is_first(binding, item, said, written, clause) or bound is None:
        return
    amounts[word] = bound


def _is_first(
    binding: Binding,
    item: tree.Hardware | tree.Content,
    said: dict[str, tree.Node],
    word: str,
    clause: tree.Node,
) -> bool:
    earlier = said.setdefault(word, clause)
    if earlier is not clause:
        first, second = (" ".join(each.span.text.split()) for each in (earlier, clause))
        binding.messages.add(
            says.SAID_TWICE,
            at=clause.span,
            name=item.name.text,
            what=f"`{word}`",
            first=first,
            second=second,
        )
    return earlier is clause


def _strap(binding: Binding, ref: tree.Ref) -> PieceRef | LineRef | None:
    return _thing(binding, ref, ("slot", "hole"), "`on` takes the piece it goes on, or a slot of that piece")


def _thing(binding: Binding, ref: tree.Ref, kinds: tuple[str, ...], takes: str) -> PieceRef | LineRef | None:
    """A piece, or a thing of a piece of one of these kinds; a message if it is something else."""
    if len(ref.parts) == 1:
        return _piece(binding, ref, takes)
    found = find(binding, ref, None, "line")
    if found is None:
        return None
    if found.symbol.kind not in kinds or found.rest:
        what = f"a part of {found.symbol.what}" if found.rest else found.symbol.what
        binding.messages.add(says.NOT_FOR_ITEM, at=ref.span, name=ref.text, what=what, takes=takes)
        return None
    return LineRef(found.piece.name, found.symbol.name, found.twin)


def _piece(binding: Binding, ref: tree.Ref, takes: str) -> PieceRef | None:
    name = ref.text
    if name in binding.pieces:
        return PieceRef(name)
    symbol = binding.scope.names.get(name)
    if symbol is None:
        say_unknown_name(binding, ref.span, name, None, "piece")
    elif symbol.is_unread or symbol.kind == "piece":
        binding.quiet.append(ref.span)
    else:
        binding.messages.add(says.NOT_FOR_ITEM, at=ref.span, name=name, what=symbol.what, takes=takes)
    return None


# Contents


def bind_content(binding: Binding, item: tree.Content) -> ContentPart:
    amounts = _published_size(binding, item) if isinstance(item.size, tree.Published) else {}
    if isinstance(item.size, tree.OwnSize):
        amounts = _own_size(binding, item.size)
    said: dict[str, tree.Node] = {}
    inside: list[PieceRef | LineRef | None] = []
    through = lying = None
    for clause in item.clauses:
        match clause:
            case tree.ContentAmount(word=word):
                words = (word, CONTENT_WORDS[word])
                _keep(binding, item, said, amounts, words, CONTENT_KINDS[word], clause)
            case tree.ContentLying(how=how):
                if _is_first(binding, item, said, "lying", clause) and _may_lie(binding, item, clause):
                    lying = how
            case tree.ContentInside(lines=lines, through=opening):
                if _is_first(binding, item, said, "inside", clause):
                    inside += [_wall(binding, ref) for ref in lines]
                    through = _opening(binding, opening) if opening else None
    if lying and "long" in amounts:
        sides = ("long", "wide") if lying == "level" else ("wide", "long")
        amounts |= {"width": amounts[sides[0]], "height": amounts[sides[1]]}
    amounts.setdefault("count", Constant(Fraction(1)))
    if "thick" in amounts:
        amounts["stack"] = Operation("*", amounts["count"], amounts["thick"])
    walls = tuple(wall for wall in inside if wall)
    published = item.size.name if isinstance(item.size, tree.Published) else None
    return ContentPart(item.name.text, published, lying, amounts, walls, through, item.span, item.note)


def _published_size(binding: Binding, item: tree.Content) -> Amounts:
    assert isinstance(item.size, tree.Published)
    row = binding.published.get(item.size.name)
    if row is None:
        binding.messages.add(
            says.UNKNOWN_CONTENT,
            at=item.size.span,
            name=item.size.name,
            offers=", ".join(f"`{name}`" for name in _near(item.size.name, list(binding.published))),
        )
        return {}
    sizes = {"long": row.long, "wide": row.wide, **({} if row.thick is None else {"thick": row.thick})}
    return {word: Constant(Fraction(size).limit_denominator(FINEST)) for word, size in sizes.items()}


def _near(wanted: str, known: list[str]) -> list[str]:
    """The names most like the one wanted; the first of the table where none is."""
    words = {word.lower() for word in wanted.split() if len(word) > 2}
    alike = [name for name in known if words & set(name.lower().replace(",", "").split())]
    close = get_close_matches(wanted, known, n=4, cutoff=0.5)
    return list(dict.fromkeys([*close, *alike]))[:6] or known[:6]


def _own_size(binding: Binding, size: tree.OwnSize) -> Amounts:
    sides = {"width": size.width, "height": size.height, "thick": size.thick}
    bounds = {word: bind_kind(binding, side, None, LENGTH, size) for word, side in sides.items() if side}
    amounts = {word: bound for word, bound in bounds.items() if bound is not None}
    if "width" in amounts and "height" in amounts:
        both = (amounts["width"], amounts["height"])
        amounts |= {"long": Applied("max", both), "wide": Applied("min", both)}
    return amounts


def _may_lie(binding: Binding, item: tree.Content, clause: tree.ContentLying) -> bool:
    if isinstance(item.size, tree.Published):
        return True
    binding.messages.add(
        says.NOT_FOR_KIND,
        at=clause.span,
        kind="A size of its own, written width by height,",
        clause=f"lying {clause.how}",
        takes="`of them`, `ease` and `inside`",
    )
    return False


def _wall(binding: Binding, ref: tree.Ref) -> PieceRef | LineRef | None:
    return _thing(binding, ref, WALLS, "`inside` takes a piece, a seam, a line or an opening")


def _opening(binding: Binding, ref: tree.Ref) -> PieceRef | LineRef | None:
    kinds = (*OPENINGS, "run")
    return _thing(binding, ref, kinds, "`through` takes an opening, a slot, a slit or a run of an edge")


# What is allowed, and what goes through what


def bind_allowances(binding: Binding) -> Iterator[AllowPart]:
    """Those of the item, then those of each piece; a piece that is `like` another allows what that one does."""
    for item in binding.scope.file.items:
        if isinstance(item, tree.Allow):
            yield AllowPart(item.rule.text, item.reason, None, item.span)
    for text in binding.pieces.values():
        for part in text.parts:
            if isinstance(part, tree.Allow):
                yield AllowPart(part.rule.text, part.reason, text.name, part.span)


def bind_passes(binding: Binding) -> Iterator[PassPart]:
    for item in binding.scope.file.items:
        if isinstance(item, tree.Pass):
            strap = _piece(binding, item.strap, "what is passed through a slot is a piece")
            through = [_slot(binding, ref) for ref in item.through]
            if strap and all(through):
                yield PassPart(strap, tuple(slot for slot in through if slot), item.span)


def _slot(binding: Binding, ref: tree.Ref) -> LineRef | None:
    found = _thing(
        binding, ref, ("slot", "opening"), "a strap goes through a slot or an opening, such as `back.eye`"
    )
    return found if isinstance(found, LineRef) else None


# Steps


def bind_step(binding: Binding, item: tree.Step) -> StepPart:
    uses = tuple(ref.text for ref in item.uses if _is_used(binding, ref))
    return StepPart(item.text, uses, item.span, item.note)


def _is_used(binding: Binding, ref: tree.Ref) -> bool:
    """Whether a step may use a thing; a message if it is not there or of another kind."""
    symbol = binding.scope.names.get(ref.parts[0])
    if symbol is None:
        say_unknown_name(binding, ref.span, ref.parts[0], None, "piece, stock or the like")
        return False
    if symbol.is_unread or (symbol.kind == "piece" and symbol.name not in binding.pieces):
        return True
    owner = binding.pieces.get(symbol.name)
    if len(ref.parts) == 1 and symbol.kind in USED_IN_STEPS:
        return True
    if len(ref.parts) == 2 and owner:
        return _has_part(binding, ref, owner.name)
    takes = "a step uses pieces and their features, stock, thread, punches, hardware and content"
    binding.messages.add(says.NOT_FOR_ITEM, at=ref.span, name=ref.text, what=symbol.what, takes=takes)
    return False


def _has_part(binding: Binding, ref: tree.Ref, owner: str) -> bool:
    text = binding.pieces[owner]
    if ref.parts[1].rstrip("'") in text.table:
        return True
    say_unknown_name(binding, ref.span, ref.parts[1], text, "thing", f" in `{owner}`")
    return False
