"""Rules of the leather itself: thread and pitch, grain, folds and turned edges."""

from __future__ import annotations

from collections.abc import Iterator

from drafting.craft.item import PlacedPart
from drafting.craft.rules import limits
from drafting.craft.rules.edges import lines_of
from drafting.craft.rules.rule import ROUNDING, Bench, Breach, Figure, named
from drafting.craft.rules.shapes import Lying, angle_between, lying_of
from drafting.geometry.maths import degrees, sin
from drafting.geometry.point import Vector
from drafting.solve.amounts import mm, mm_at_least, mm_at_most, plain


def pitch_and_thread(bench: Bench) -> Iterator[Breach]:
    low, high = limits.PITCH_PER_THREAD
    for part, line in lines_of(bench):
        if not line.thread:
            continue
        pitch = line.layout.pitch
        ratio = pitch / line.thread
        if low - ROUNDING <= ratio <= high + ROUNDING:
            continue
        facts = {
            "line": named(part, line.name),
            "measured": mm(pitch),
            "thread": mm(line.thread),
            "ratio": plain(ratio, 1),
            "limit": f"{plain(low)} to {plain(high)}",
            "thinnest": mm_at_least(pitch / high),
            "thickest": mm_at_most(pitch / low),
        }
        yield Breach(part.name, Figure(ratio, ratio, low if ratio < low else high), facts, (line.name,))


def short_last_stitch(bench: Bench) -> Iterator[Breach]:
    for part, line in lines_of(bench):
        rest, pitch = line.layout.remainder, line.layout.nominal
        if pitch and 0 < rest < pitch / 2 - ROUNDING:
            facts = {"line": named(part, line.name), "measured": mm(rest), "pitch": mm(pitch)}
            yield Breach(part.name, Figure(rest, rest, pitch / 2), facts, (line.name,))


def long_leather(bench: Bench) -> Iterator[tuple[PlacedPart, Lying]]:
    """Pieces of leather so long and narrow that it matters which way they stretch."""
    for part in bench.item.parts:
        if part.stock and part.stock.kind == "leather":
            lying = lying_of(part.outline)
            if lying.long >= max(limits.LONG_PIECE * lying.wide, limits.LONG_AT_LEAST):
                yield part, lying


def no_grain(bench: Bench) -> Iterator[Breach]:
    for part, lying in long_leather(bench):
        if part.grain is None:
            ratio = lying.long / lying.wide
            facts = {
                "piece": part.name,
                "measured": mm(lying.long),
                "ratio": plain(ratio, 1),
                "grain": _grain_along(lying),
            }
            yield Breach(part.name, Figure(ratio, ratio, limits.LONG_PIECE), facts)


def grain_across(bench: Bench) -> Iterator[Breach]:
    for part, lying in long_leather(bench):
        if part.grain is None or isinstance(part.grain, str):
            continue
        off = angle_between(Vector.at_angle(part.grain), lying.direction)
        if off > limits.GRAIN_OFF + ROUNDING:
            facts = {
                "piece": part.name,
                "measured": f"{plain(degrees(off), 1)} deg",
                "limit": f"{plain(degrees(limits.GRAIN_OFF))} deg",
                "grain": _grain_along(lying),
            }
            yield Breach(part.name, Figure(off, off, limits.GRAIN_OFF), facts)


def _grain_along(lying: Lying) -> str:
    """The words that lay the grain along a piece; two points of it, if it lies aslant on the sheet."""
    if abs(lying.direction.cross(LEVEL)) <= sin(limits.GRAIN_OFF):
        return "grain level"
    if abs(lying.direction.dot(LEVEL)) <= sin(limits.GRAIN_OFF):
        return "grain plumb"
    return "grain A..B"


LEVEL = Vector(1.0, 0.0)


def sharp_fold(bench: Bench) -> Iterator[Breach]:
    for part in bench.item.parts:
        for fold in part.folds:
            thick = part.thick if fold.thick is None else fold.thick
            if abs(fold.turn) < limits.SHARP_FOLD_TURN - ROUNDING or not part.stock:
                continue
            figure = bench.too_little(fold.inside, limits.FOLD_THICKNESSES * thick, 0)
            if figure:
                facts = {
                    "fold": named(part, fold.name),
                    "thick": mm(thick),
                    "measured": mm(fold.inside),
                    "limit": mm(figure.limit),
                }
                yield Breach(part.name, figure, facts, (fold.name,), fold.line.midpoint)


def thick_turn(bench: Bench) -> Iterator[Breach]:
    for part in bench.item.parts:
        for turn in part.turns:
            thick = part.thick if turn.thick is None else turn.thick
            figure = bench.too_much(thick, limits.THICKEST_TURN, 0)
            if figure:
                facts = {
                    "turn": named(part, turn.name),
                    "measured": mm(thick),
                    "limit": mm(figure.limit),
                    "band": mm(turn.width + limits.SKIVED_BEYOND),
                    "thin": mm(limits.THICKEST_TURN / 2),
                }
                yield Breach(part.name, figure, facts, (turn.name,))


def turn_width(bench: Bench) -> Iterator[Breach]:
    low, high = limits.TURN_WIDTHS
    for part in bench.item.parts:
        for turn in part.turns:
            figure = bench.too_little(turn.width, low, 1) or bench.too_much(turn.width, high, 1)
            if figure:
                facts = {
                    "turn": named(part, turn.name),
                    "measured": bench.text(figure),
                    "limit": f"{mm(low)} to {mm(high)}",
                    "nearest": bench.at_least(low, 1) if figure.limit == low else bench.at_most(high, 1),
                }
                yield Breach(part.name, figure, facts, (turn.name,))
