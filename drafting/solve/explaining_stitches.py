"""How a stitch line is laid out, in the maker's words: what was asked, what came of it, and what it is sewn to.

Takes one size worked out and the name of a stitch line; gives a few lines of text.
"""

from __future__ import annotations

from collections.abc import Iterator

from drafting.model.pattern import HolesForm, MirrorForm, Pattern, ShapePart
from drafting.solve.amounts import mm, plain
from drafting.solve.placed import Placed, PlacedFeature, PlacedJoin, PlacedStitches
from drafting.solve.trade import StitchLayout, StitchStretch

SHOWN = 5e-4
"""A part of a pitch that is told as a share: less reads as nothing."""


def stitch_line(placed: Placed, name: str) -> tuple[str, PlacedFeature, tuple[PlacedStitches, ...]] | None:
    """The piece, the feature and the lines of a stitch by its name, such as `back.edge`, `gusset.near'` or
    `roll.seams.2`."""
    piece, _, rest = name.partition(".")
    for feature in placed.pieces[piece].features if piece in placed.pieces else ():
        lines = tuple(line for line in feature.stitches if rest in (feature.name, line.name))
        if lines:
            return piece, feature, lines
    return None


def explain_stitches(
    pattern: Pattern, placed: Placed, piece: str, feature: PlacedFeature, lines: tuple[PlacedStitches, ...]
) -> str:
    """What is known of the lines of a stitch."""
    shape = pattern.pieces[piece].shape(feature.name.rstrip("'"))
    if shape is None:
        raise AssertionError("a placed feature stands in its pattern")
    told: list[str] = []
    for line in lines:
        told += [
            f"`{piece}.{line.name}` {_sum(line)}.",
            *_asked(shape, feature),
            *_stretches(line.layout),
        ]
        told += _joined(placed.joins, f"{piece}.{line.name}")
    return "\n".join(told)


def _sum(line: PlacedStitches) -> str:
    layout = line.layout
    holes = len(layout.holes)
    kind = "goes all round" if layout.is_ring else "is open"
    stitches = f"{layout.stitches} stitch{'es' * (layout.stitches != 1)}"
    if line.is_pricked:
        return f"is pricked through, {stitches} and {holes} hole{'s' * (holes != 1)}"
    return f"{kind}, {mm(layout.line.length)} long, with {stitches} and {holes} hole{'s' * (holes != 1)}"


def _asked(shape: ShapePart, feature: PlacedFeature) -> Iterator[str]:
    """What the text says of the holes."""
    stitch = shape.stitch
    if feature.is_twin:
        yield f"  It is the twin of `{shape.name}`, mirrored."
    if isinstance(shape.form, MirrorForm | HolesForm):
        yield f"  Its holes are those of `{_one_line(shape.form.span.text)}`."
    if stitch is None or stitch.spacing is None:
        return
    measured = "straight across, hole to hole" if stitch.across else "along the line"
    yield f"  asked: `{_one_line(stitch.spacing.span.text)}`; a pitch is measured {measured}."
    corners = (
        "Holes flow round the corners" if stitch.flowing else "A hole stands on each corner of 30 deg or more"
    )
    held = ", ".join(f"`{hole.point.text}`" for hole in stitch.held)
    yield f"  {corners}{f', and at {held}' if held else ''}."


def _stretches(layout: StitchLayout) -> Iterator[str]:
    for number, stretch in enumerate(layout.stretches, 1):
        name = f"  stretch {number}: " if len(layout.stretches) > 1 else "  "
        yield name + _stretch(stretch)
    if layout.remainder > SHOWN:
        yield f"  {mm(layout.remainder)} are left over at the end."


def _stretch(stretch: StitchStretch) -> str:
    """`12 stitches on 46.5 mm, 3.875 mm each (3.85 mm asked, 0.65 % more)`."""
    count = f"{stretch.stitches} stitch{'es' * (stretch.stitches != 1)}"
    true = f"{count} on {mm(stretch.length)}, {mm(stretch.pitch)} each"
    if stretch.nominal is None:
        return true
    off = stretch.pitch / stretch.nominal - 1
    much = (
        "just that"
        if abs(off) < SHOWN / 10
        else f"{plain(abs(off) * 100, 2)} % {'more' if off > 0 else 'less'}"
    )
    return f"{true} ({mm(stretch.nominal)} asked, {much})"


def _joined(joins: tuple[PlacedJoin, ...], name: str) -> Iterator[str]:
    """The lines it is sewn to, and by how much it is longer or shorter than each."""
    for join in joins:
        for other in join.lines if name in join.lines else ():
            if other != name:
                backward = ", reversed" if join.is_reversed else ""
                yield f"  sewn to `{other}`{backward}{_difference(join, name, other)}."


def _difference(join: PlacedJoin, name: str, other: str) -> str:
    """Nothing where the one is pricked through from the other: then they have the same holes."""
    for pair in join.pairs:
        if {pair.first, pair.second} == {name, other}:
            longer = pair.difference if pair.first == name else -pair.difference
            if abs(longer) < SHOWN:
                return ", as long as it"
            return f", {mm(abs(longer))} {'longer' if longer > 0 else 'shorter'} than it"
    return ""


def _one_line(text: str) -> str:
    return " ".join(text.split())
