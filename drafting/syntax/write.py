"""Nodes -> text, each on one line, as a maker would type it.

Takes any node below a statement and gives its canonical text. Amounts keep the maker's spelling; brackets
stand only where the meaning needs them. How lines are broken is `tidy`'s business.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from drafting.syntax import tree

SUM, PRODUCT, SIGNED, ATOM = range(4)
"""How tightly an expression holds together."""

STRENGTH = {"+": SUM, "-": SUM, "*": PRODUCT, "/": PRODUCT}
PAIR_ENDS = {
    "holes": ("end", "corner"),
    "across": ("measured",),
    "along": ("measured",),
    "round": ("marks",),
}
"""Names that would make a pair of words with the word behind them."""


def expression(node: tree.Expression) -> str:
    """`2*(rim + play)`, `angle a..b..c`, `loop(wide = 12 mm)`."""
    match node:
        case tree.Amount(written=written):
            return written
        case tree.Ref():
            return node.text
        case tree.Stretch():
            return stretch(node)
        case tree.AngleOf(start=start, vertex=vertex, end=end):
            return f"angle {start.text}..{vertex.text}..{end.text}"
        case tree.Negative(of=of):
            return f"-{_bracketed(of, SIGNED)}"
        case tree.Binary():
            return _binary(node)
        case tree.Call(function=function, arguments=given):
            return f"{function.text}({arguments(given)})"


def _binary(node: tree.Binary) -> str:
    strength = STRENGTH[node.operator]
    left = _bracketed(node.left, strength)
    right = _bracketed(node.right, strength + 1)
    if node.operator in "+-":
        return f"{left} {node.operator} {right}"
    if node.operator == "/" and _joins_numbers(node):
        right = f"({right})"
    return f"{left}{node.operator}{right}"


def _joins_numbers(node: tree.Binary) -> bool:
    """Whether `5` over `3 mm` would be read as the fraction `5/3 mm`."""
    right = node.right
    return (
        isinstance(right, tree.Amount) and " " in right.written and isinstance(_last(node.left), tree.Amount)
    )


def _last(node: tree.Expression) -> tree.Expression:
    """What the text of an expression ends with."""
    while isinstance(node, tree.Binary | tree.Negative):
        node = node.right if isinstance(node, tree.Binary) else node.of
    return node


def _bracketed(node: tree.Expression, strength: int) -> str:
    text = expression(node)
    return f"({text})" if _strength(node) < strength else text


def _strength(node: tree.Expression) -> int:
    if isinstance(node, tree.Binary):
        return STRENGTH[node.operator]
    return SIGNED if isinstance(node, tree.Negative) else ATOM


def arguments(given: Iterable[tree.Argument]) -> str:
    return ", ".join(
        f"{argument.name} = {expression(argument.value)}" if argument.name else expression(argument.value)
        for argument in given
    )


def expressions(nodes: Iterable[tree.Expression]) -> str:
    return ", ".join(expression(node) for node in nodes)


def refs(nodes: Iterable[tree.Ref]) -> str:
    return ", ".join(node.text for node in nodes)


def names(nodes: Iterable[tree.Name]) -> str:
    return ", ".join(node.text for node in nodes)


def stretch(node: tree.Stretch) -> str:
    return f"{node.start.text}..{node.end.text}"


def place(node: tree.Ref | tree.Stretch | tree.Walk) -> str:
    """A name, a stretch or a way."""
    match node:
        case tree.Ref():
            return node.text
        case tree.Stretch():
            return stretch(node)
        case tree.Walk(start=start, round=passed, end=end, of=of):
            middle = f" round {refs(passed)}" if passed else ""
            ring = f" of {of.text}" if of else ""
            return f"from {start.text}{middle} to {end.text}{ring}"


def direction(node: tree.Direction) -> str:
    match node.how:
        case "level" | "plumb":
            return node.how
        case "angle":
            assert node.of is not None
            return expression(node.of)
        case _:
            assert isinstance(node.of, tree.Stretch)
            return f"{node.how} {stretch(node.of)}"


def leg(node: tree.Leg) -> str:
    return " ".join([f"to {node.to.text}", *(bow(each) for each in node.bows)])


def bow(node: tree.Bow) -> str:
    match node:
        case tree.Bowed(toward=toward, with_radius=with_radius, amount=amount):
            return f"bowed {toward} {'with radius ' if with_radius else ''}{expression(amount)}"
        case tree.Through(point=point):
            return f"through {point.text}"
        case tree.About(center=center, long=long):
            return f"about {center.text}{' long' if long else ''}"
        case tree.Tangent():
            return "tangent"
        case tree.Following(line=line):
            return f"along {line.text}"
        case tree.Smooth():
            return smooth(node)


def smooth(node: tree.Smooth) -> str:
    words = ["smooth"]
    if node.through:
        words.append(f"through {refs(node.through)}")
    if node.leaving:
        words.append(f"leaving {direction(node.leaving)}")
    if node.arriving:
        words.append(f"arriving {direction(node.arriving)}")
    return " ".join(words)


def clause(node: tree.AnyClause) -> str:
    """A clause without its note."""
    match node:
        case tree.OffsetFrom(distance=distance, direction=toward, origin=origin):
            return f"{expression(distance)} {toward} {origin.text}"
        case tree.Aligned(how=how, to=to):
            return f"{how} with {to.text}"
        case tree.DistanceFrom(distance=distance, of=of):
            return f"{expression(distance)} from {place(of)}"
        case tree.On(what=what, extended=extended):
            return f"on {place(what)}{' extended' if extended else ''}"
        case tree.SquareOff(line=line, at=at):
            return f"square off {stretch(line)} at {at.text}"
        case tree.AtCoordinates(x=x, y=y, origin=from_point):
            return f"at ({expression(x)}, {expression(y)})" + (
                f" from {from_point.text}" if from_point else ""
            )
        case tree.AtPoint(point=point):
            return f"at {point.text}"
        case tree.Ray(angle=angle, origin=origin):
            return f"at {expression(angle)} from {origin.text}"
        case tree.Midway(what=what):
            return f"midway {place(what)}"
        case tree.Along(amount=amount, what=along, extended=extended):
            return f"{_before(expression(amount), 'along')} {place(along)}{' extended' if extended else ''}"
        case tree.MirrorOf(of=of, over=over):
            return f"mirror of {place(of)} over {place(over)}"
        case tree.Touching(line=touched, origin=origin):
            return f"touching {touched.text} from {origin.text}"
        case tree.Lying(direction=lie):
            return f"lying {direction(lie)}"
        case tree.Side(how=how, of=of):
            return f"{how} {place(of)}"
        case _:
            return _shape_or_property(node)


def _shape_or_property(node: tree.Shape | tree.AnyClause) -> str:
    match node:
        case tree.PathShape(start=start, legs=legs):
            return " ".join([start.text, *(leg(each) for each in legs)])
        case tree.BoxShape(width=width, height=height):
            return f"box {expression(width)} by {expression(height)}"
        case tree.RoundShape(across=across):
            return _before(expression(across), "across")
        case tree.OffsetShape(distance=distance, side=side, way=way):
            return f"{_before(expression(distance), side)} {place(way)}"
        case tree.BandShape(distance=distance, side=side, way=way):
            return f"band {expression(distance)} {side} {place(way)}"
        case tree.AlongShape(way=line):
            return f"along {place(line)}"
        case tree.ThroughShape(how=how, point=point):
            return f"{how} through {point.text}"
        case tree.LinesShape(start=start, end=end):
            return f"lines {start.text} to {end.text}"
        case tree.Property(amount=amount, word=word):
            return _before(expression(amount), word)
        case tree.Short(amount=amount, at=at):
            return f"{expression(amount)} short{f' at {at}' if at else ''}"
        case tree.Every(amount=amount):
            return f"every {expression(amount)}"
        case tree.LikeLine(how=how, line=ref):
            return f"{how} {ref.text}"
        case tree.HoleAt(points=points):
            return f"hole at {refs(points)}"
        case tree.Once():
            return "once"
        case tree.EndDetail(how=how, amount=amount):
            return f"{how} {expression(amount)}"
        case tree.Bent(angle=angle, round=round_what):
            return f"bent {expression(angle)} round {expression(round_what)}"
        case tree.Steps(amounts=amounts):
            return f"steps {expressions(amounts)}"
        case tree.Corners(how=how):
            return f"corners {how}"
        case tree.BackStitch(amount=amount, at=at):
            return f"{expression(amount)} back{f' at {at}' if at else ''}"
        case tree.PitchMeasured(how=how):
            return f"measured {how}"
        case tree.StitchMarks(how=how, size=size):
            return f"marks {how}" + (f" {expression(size)}" if size else "")
        case tree.Wording(how=how, text=text):
            return f"{how} {quoted(text)}"
        case _:
            raise TypeError(f"no clause: {node!r}")


def _before(amount: str, word: str) -> str:
    """An amount and the word behind it; in brackets where its last name would make a pair with that word."""
    is_pair = amount.endswith(PAIR_ENDS.get(word, ())) and re.split(r"\W", amount)[-1] in PAIR_ENDS[word]
    return f"({amount}) {word}" if is_pair else f"{amount} {word}"


def quoted(text: str) -> str:
    return f'"{text}"'


def about(node: tree.AboutClause) -> str:
    """A clause about a whole piece, without its note."""
    match node:
        case tree.Cut(count=count, pair=pair, stock=stock):
            return f"cut {count}{' pair' if pair else ''} from {stock.text}"
        case tree.MirroredOver(line=line):
            return f"mirrored over {stretch(line)}"
        case tree.Over(piece=piece):
            return f"over {piece.text}"
        case tree.Grain(how=how, of=of):
            return f"grain {stretch(of) if of else how}"
        case tree.Like(piece=piece, arguments=given):
            return f"like {piece.text}" + (f"({arguments(given)})" if given else "")
        case tree.Without(items=items):
            return "without " + ", ".join(
                f"fillet {item.name}" if item.of_fillet else item.name for item in items
            )


def fact(node: tree.Fact) -> str:
    match node:
        case tree.Equal(left=left, right=right):
            return f"{expression(left)} = {expression(right)}"
        case tree.Relation(first=first, how=how, second=second):
            return f"{stretch(first)} {how} {stretch(second)}"
        case tree.Straight(line=line, how=how):
            return f"{stretch(line)} {how}"
        case tree.Touches(line=line, curve=curve):
            return f"{stretch(line)} touches {curve.text}"


def setting(node: tree.Setting) -> str:
    values = f"{node.name.text} = {expressions(node.values)}"
    if node.last is None or node.step is None:
        return values
    return f"{values} to {expression(node.last)} by {expression(node.step)}"


def stock_amount(node: tree.StockAmount) -> str:
    if node.word == "comes":
        width, height = node.amounts
        return f"comes {expression(width)} by {expression(height)}"
    return f"{expression(node.amounts[0])} {node.word}"


def fitting(node: tree.FittingAmount | tree.FittingOn) -> str:
    if isinstance(node, tree.FittingOn):
        return f"on {refs(node.what)}"
    return f"{expression(node.amount)} {node.word}"


def content_size(node: tree.Published | tree.OwnSize) -> str:
    if isinstance(node, tree.Published):
        return quoted(node.name)
    sides = [node.width, node.height, *([node.thick] if node.thick else [])]
    return " by ".join(expression(side) for side in sides)


def content_clause(node: tree.ContentClause) -> str:
    match node:
        case tree.ContentAmount(word=word, amount=amount):
            return f"{expression(amount)} {word}"
        case tree.ContentLying(how=how):
            return f"lying {how}"
        case tree.ContentInside(lines=lines, through=through):
            return f"inside {refs(lines)}" + (f" through {through.text}" if through else "")


def parameter(node: tree.Parameter) -> str:
    return node.name.text + (f" = {expression(node.default)}" if node.default else "")
