"""Trees of every form of the language, drawn at random.

Each strategy gives a node that some text stands for; `files` gives whole pattern files. Places are all the same,
since no two texts are compared by place.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from hypothesis import strategies as st

from drafting.syntax import tree
from drafting.text.quantities import Quantity
from drafting.text.source import Source, Span

SOURCE = Source("drawn.draft", "")
HERE = Span(SOURCE, 0, 0)

NAMES = (
    "foot",
    "tip",
    "heel",
    "right",
    "left",
    "wide",
    "start",
    "end",
    "of",
    "with",
    "by",
    "holes",
    "long",
    "rim",
)
NAMES += (
    "Größe",
    "mål",
    "つま先",
    "ठेका",
    "n_2",
    "outline",
    "piece",
    "through",
    "corner",
    "bowed",
    "short",
    "mid",
)

plain_names = st.sampled_from(NAMES)
twin_names = st.builds(lambda name, twin: name + twin, plain_names, st.sampled_from(("", "", "'")))
names = st.builds(lambda text: tree.Name(HERE, text), plain_names)
texts = st.text(
    st.characters(exclude_characters='"“”„‟\n\r', exclude_categories=("Cs", "Cc", "Zl", "Zp")), max_size=12
)
notes = st.none() | st.just("a note") | texts


def node(kind: Any, *strategies: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    """A node without a note."""
    return st.tuples(*strategies).map(lambda parts: kind(HERE, *parts))


def noted(kind: Any, *strategies: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    """A node that may have a note."""
    return st.tuples(notes, *strategies).map(lambda parts: kind(HERE, *parts[1:], note=parts[0]))


def several(strategy: st.SearchStrategy[Any], least: int = 1, most: int = 3) -> st.SearchStrategy[Any]:
    return st.lists(strategy, min_size=least, max_size=most).map(tuple)


# Names and amounts

refs = st.builds(
    lambda first, rest: tree.Ref(HERE, (first, *rest)),
    twin_names,
    st.lists(twin_names | st.sampled_from(("1", "2", "17")), max_size=2),
)
stretches = node(tree.Stretch, refs, refs)


def amount(written: str, unit: str) -> tree.Amount:
    number = sum((Fraction(part) for part in written.split()), Fraction(0))
    return tree.Amount(HERE, Quantity.of(number, unit), f"{written} {unit}".rstrip())


whole = st.integers(0, 400).map(str)
decimals = st.builds(lambda before, after: f"{before}.{after}", st.integers(0, 99), st.integers(0, 99))
mixed = st.builds(lambda before, over: f"{before} {over}/8", st.integers(1, 9), st.sampled_from((1, 3, 5)))
fractions = st.builds(lambda over: f"{over}/16", st.integers(1, 15))
units = st.sampled_from(("mm", "cm", "in", "deg"))
amounts = st.builds(amount, whole | decimals | mixed, st.just("")) | st.builds(
    amount, whole | decimals | mixed | fractions, units
)
ounces = st.builds(amount, whole | decimals | mixed | fractions, st.just("oz"))
leaves = amounts | refs | stretches | node(tree.AngleOf, refs, refs, refs)


def arguments(values: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return several(node(tree.Argument, st.none() | plain_names, values))


def larger(values: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return (
        node(tree.Binary, st.sampled_from("+-*/"), values, values)
        | node(tree.Negative, values)
        | node(tree.Call, names, arguments(values))
    )


expressions = st.recursive(leaves, larger, max_leaves=5)

# Ways, directions, legs

walks = node(tree.Walk, refs, several(refs, 0, 2), refs, st.none() | refs)
ways = refs | walks
spots = refs | stretches
directions = (
    node(tree.Direction, st.sampled_from(("level", "plumb")), st.none())
    | node(tree.Direction, st.sampled_from(("along", "square to")), stretches)
    | node(tree.Direction, st.just("angle"), expressions)
)
plain_bows = st.one_of(
    node(
        tree.Bowed, st.sampled_from(("out", "in", "left", "right", "up", "down")), st.booleans(), expressions
    ),
    node(tree.Through, refs),
    node(tree.About, refs, st.booleans()),
    node(tree.Tangent),
    node(tree.Following, refs),
)
smooth_bows = node(tree.Smooth, several(refs, 0, 2), st.none() | directions, st.none() | directions)
bows = st.builds(lambda plain, last: (*plain, *last), several(plain_bows, 0, 2), several(smooth_bows, 0, 1))
legs = node(tree.Leg, refs, bows)

# Clauses

sheet_directions = st.sampled_from(("right of", "left of", "above", "below"))
sheet_sides = node(tree.Side, sheet_directions, spots)
clauses = st.one_of(
    noted(tree.OffsetFrom, expressions, sheet_directions, refs),
    noted(tree.Aligned, st.sampled_from(("level", "plumb")), refs),
    noted(tree.DistanceFrom, expressions, spots),
    noted(tree.On, stretches, st.booleans()),
    noted(tree.On, refs, st.just(False)),
    noted(tree.SquareOff, stretches, refs),
    noted(tree.AtCoordinates, expressions, expressions, st.none() | refs),
    noted(tree.AtPoint, refs),
    noted(tree.Ray, expressions, refs),
    noted(tree.Midway, spots),
    noted(tree.Along, expressions, stretches, st.booleans()),
    noted(tree.Along, expressions, ways, st.just(False)),
    noted(tree.MirrorOf, refs, spots),
    noted(tree.Touching, refs, refs),
    noted(tree.Lying, directions),
    noted(tree.Side, sheet_directions, spots),
    noted(tree.Side, st.sampled_from(("nearest", "farthest from", "inside", "outside")), refs),
    noted(tree.PathShape, refs, several(legs, 0, 5)),
    noted(tree.BoxShape, expressions, expressions),
    noted(tree.RoundShape, expressions),
    noted(tree.OffsetShape, expressions, st.sampled_from(("inside", "outside", "beside", "round")), ways),
    noted(tree.BandShape, expressions, st.sampled_from(("inside", "outside")), ways),
    noted(tree.AlongShape, ways | stretches),
    noted(tree.ThroughShape, st.sampled_from(("level", "plumb")), refs),
    noted(tree.LinesShape, refs, refs),
    noted(
        tree.Property,
        expressions,
        st.sampled_from(
            ("long", "wide", "high", "deep", "rounded", "apart", "holes", "stitches", "per inch", "iron")
        ),
    ),
    noted(tree.Short, expressions, st.none() | st.sampled_from(("start", "end"))),
    noted(tree.Every, expressions),
    noted(tree.LikeLine, st.sampled_from(("as many as", "same holes as", "start at")), refs),
    noted(tree.HoleAt, several(refs)),
    noted(tree.Once),
    noted(tree.EndDetail, st.sampled_from(("end holes", "corner holes", "down to")), expressions),
    noted(tree.Bent, expressions, expressions),
    noted(tree.Steps, several(expressions)),
    noted(tree.Corners, st.sampled_from(("mitred", "cut", "pleated", "flowing"))),
    noted(tree.BackStitch, expressions, st.none() | st.sampled_from(("start", "end"))),
    noted(tree.PitchMeasured, st.sampled_from(("across", "along"))),
    noted(tree.StitchMarks, st.sampled_from(("slanted", "round")), st.none() | expressions),
    noted(tree.Wording, st.sampled_from(("text", "roster")), texts),
)
clause_lists = several(clauses, 1, 4)

# Statements

facts = st.one_of(
    node(tree.Equal, expressions, expressions),
    node(tree.Relation, stretches, st.sampled_from(("parallel", "square to")), stretches),
    node(tree.Straight, stretches, st.sampled_from(("level", "plumb"))),
    node(tree.Touches, stretches, refs),
)
FEATURES = ("slot", "hole", "row", "opening", "slit", "stitch", "crease", "fold", "turn", "skive", "glue")
FEATURES += ("notch", "mark", "label", "stamp")
ranges = st.none() | st.tuples(expressions, expressions)
measures = st.builds(
    lambda note, name, values, low_high: tree.Measure(
        HERE, name, values, *(low_high or (None, None)), note=note
    ),
    notes,
    names,
    several(expressions),
    ranges,
)
checks = noted(
    tree.Check,
    expressions,
    st.sampled_from((">=", "<=", ">", "<", "=")),
    expressions,
    st.none() | expressions,
)
allows = noted(tree.Allow, names, texts)
parts = st.one_of(
    noted(tree.PointStatement, names, clause_lists),
    noted(tree.PointsStatement, names, clause_lists),
    noted(tree.Guide, names, clause_lists),
    noted(tree.Feature, st.sampled_from(FEATURES), names, clause_lists),
    noted(tree.Outline, clause_lists),
    noted(tree.Run, names, ways),
    measures,
    noted(tree.Find, names, expressions, expressions),
    noted(tree.Hold, facts),
    noted(tree.Fillet, several(refs), expressions),
    noted(tree.Clip, several(refs), expressions, st.none() | expressions),
    noted(tree.Dim, stretches, st.none() | st.sampled_from(("level", "plumb"))),
    noted(tree.CutAway, sheet_sides, several(names, 0, 2)),
    checks,
    allows,
)
about = st.one_of(
    noted(tree.Cut, st.integers(0, 12), st.booleans(), refs),
    noted(tree.MirroredOver, stretches),
    noted(tree.Over, refs),
    noted(tree.Grain, st.just("along"), stretches),
    noted(tree.Grain, st.sampled_from(("level", "plumb", "any")), st.none()),
    noted(tree.Like, refs, st.just(()) | arguments(expressions)),
    noted(tree.Without, several(node(tree.WithoutItem, twin_names, st.booleans()))),
)
settings = st.one_of(
    node(tree.Setting, names, several(expressions), st.none(), st.none()),
    node(tree.Setting, names, expressions.map(lambda value: (value,)), expressions, expressions),
)
stock_amounts = st.one_of(
    node(tree.StockAmount, st.just("thick"), (expressions | ounces).map(lambda value: (value,))),
    node(tree.StockAmount, st.just("neutral"), expressions.map(lambda value: (value,))),
    node(tree.StockAmount, st.just("comes"), st.tuples(expressions, expressions)),
)
pieces = noted(tree.Piece, names, several(about, 0, 3), several(parts, 0, 3))
blocks = noted(
    tree.Block,
    names,
    several(node(tree.Parameter, names, st.none() | expressions)),
    several(about, 0, 3),
    several(parts, 0, 3),
)
fittings = node(tree.FittingAmount, st.sampled_from(("inside", "prong", "bar")), expressions) | node(
    tree.FittingOn, several(refs)
)
content_sizes = node(tree.Published, texts) | node(
    tree.OwnSize, expressions, expressions, st.none() | expressions
)
content_clauses = st.one_of(
    node(tree.ContentAmount, st.sampled_from(("of them", "ease")), expressions),
    node(tree.ContentAmount, st.just("thick"), expressions | ounces),
    node(tree.ContentLying, st.sampled_from(("level", "plumb"))),
    node(tree.ContentInside, several(refs), st.none() | refs),
)
items = st.one_of(
    measures,
    noted(tree.Size, texts, several(settings, 0, 4)),
    noted(tree.Stock, names, plain_names, several(stock_amounts, 0, 3)),
    noted(tree.Thread, names, expressions | ounces),
    noted(tree.Hardware, names, expressions, several(fittings, 0, 3)),
    noted(tree.Content, names, content_sizes, several(content_clauses, 0, 4)),
    noted(tree.Use, texts, st.none() | names),
    pieces,
    blocks,
    noted(tree.Join, several(refs, 2, 3), st.booleans(), st.none() | expressions),
    checks,
    allows,
    noted(tree.Pass, refs, several(refs)),
    noted(tree.Fit, names, several(refs), st.none() | expressions),
    noted(tree.Step, texts, several(refs, 0, 2)),
)
headers = noted(
    tree.Header,
    texts,
    st.none() | texts,
    st.none() | texts,
    st.none() | texts,
    several(texts, 0, 2),
    several(st.sampled_from(("mm", "cm", "in")), 0, 2),
)
files = st.builds(
    lambda header, listed: tree.File(SOURCE, header, listed, ()), st.none() | headers, several(items, 0, 4)
)
