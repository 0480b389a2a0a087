"""The work on a piece in words: how a fold is bent, how a slit ends, how many stitches a seam has and how far apart."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from drafting.drawing.amounts import Figures, trimmed
from drafting.geometry.path import Ring
from drafting.solve.placed import (
    PlacedFeature,
    PlacedFold,
    PlacedPiece,
    PlacedSlit,
    PlacedStitches,
    PlacedTurn,
)

SAME_PITCH = 0.005
"""Pitches that differ by less, in mm, print the same."""
EDGE_SAMPLES = 12
EVENLY_OFF = 0.02
"""How much the way to the edge may differ along a seam that lies evenly beside it, in mm."""


def work_words(feature: PlacedFeature, figures: Figures) -> str:
    """What is done there, or nothing for a feature that is told by its sizes alone."""
    match feature.work:
        case PlacedFold():
            return _fold_words(feature.work, figures)
        case PlacedSlit():
            return _slit_words(feature, feature.work, figures)
        case PlacedTurn():
            return _turn_words(feature.work, figures)
    return ""


def _fold_words(fold: PlacedFold, figures: Figures) -> str:
    bent = f"fold, bent {trimmed(fold.turn, 2)}° round |{{}}"
    if fold.allowance is None:
        return figures.phrase(bent, fold.inside)
    return figures.phrase(f"{bent}, allowance {{}}", fold.inside, fold.allowance)


def _turn_words(turn: PlacedTurn, figures: Figures) -> str:
    corners = f", corners {turn.corners}" if turn.corners else ""
    return figures.phrase(f"turn |{{}}| wide{corners}", turn.width)


def _slit_words(feature: PlacedFeature, slit: PlacedSlit, figures: Figures) -> str:
    """Its length from end to end, the holes that stop it, the radius of its corners."""
    words, amounts = ["slit |{} long"], [slit.whole.length]
    for across in sorted({round(hole.across, 6) for hole in feature.holes}):
        words.append("holes ⌀{}")
        amounts.append(across)
    if feature.sizes.get("radius"):
        words.append("R {}")
        amounts.append(feature.sizes["radius"])
    return figures.phrase(", ".join(words), *amounts)


def punch_words(feature: PlacedFeature) -> str:
    """`, punch no_5`: which of the shop's punches its holes are made with, where that is said."""
    made_with = (feature.punch, *(hole.punch for hole in feature.holes))
    names = dict.fromkeys(punch for punch in made_with if punch)
    return f", punch {' and '.join(names)}" if names else ""


def seam_remarks(piece: PlacedPiece, figures: Figures) -> tuple[str, ...]:
    """What the notes of a sheet tell of every stitch line; twins, and lines of a kind, are told once."""
    told = (
        f"Stitch {base_name(feature)}: {words}."
        for feature in piece.features
        for _, words in alike_lines(feature.stitches, piece.outline, figures)
    )
    return tuple(dict.fromkeys(told))


def alike_lines(
    lines: Sequence[PlacedStitches], outline: Ring, figures: Figures
) -> Iterator[tuple[list[PlacedStitches], str]]:
    """The lines of one stitch in words: those that differ in no more than their way to the edge together."""
    alike: dict[str, list[PlacedStitches]] = {}
    for line in lines:
        key = f"{_alike_words([line], [], figures)}{edge_gap(line, outline) is None}"
        alike.setdefault(key, []).append(line)
    for group in alike.values():
        gaps = [gap for line in group if (gap := edge_gap(line, outline)) is not None]
        yield group, _alike_words(group, gaps, figures)


def base_name(feature: PlacedFeature) -> str:
    """The name as it is written: a twin is called like what it is the twin of."""
    return feature.name.rstrip("'")


def count_words(line: PlacedStitches) -> str:
    count = line.layout.stitches
    return f"{count} stitch{'' if count == 1 else 'es'}"


def lines_words(lines: Sequence[PlacedStitches]) -> str:
    """`31 stitches`, `7 lines of 31 stitches`, `5 lines of 28 to 31 stitches`."""
    if len(lines) == 1:
        return count_words(lines[0])
    counts = sorted(lines, key=lambda line: line.layout.stitches)
    low, high = counts[0].layout.stitches, counts[-1].layout.stitches
    return f"{len(lines)} lines of {f'{low} to ' if low < high else ''}{count_words(counts[-1])}"


def _alike_words(lines: Sequence[PlacedStitches], gaps: Sequence[float], figures: Figures) -> str:
    """`72 stitches, 3.85 mm asked, 3.84 mm true, 4 mm from the edge, 2 back at the start`, of lines that are alike
    but for their ways to the edge."""
    layout = lines[0].layout
    words, amounts = [f"{lines_words(lines)}|"], list[float]()
    if layout.nominal is not None:
        words.append("{} asked")
        amounts.append(layout.nominal)
    low, high = pitch_range(lines[0])
    words.append("{} true" if high - low < SAME_PITCH else "{} to {} true")
    amounts += [layout.pitch] if high - low < SAME_PITCH else [low, high]
    if gaps:
        ways = list({round(gap, 2): gap for gap in gaps}.values())
        words.append(f"{', '.join(['{}'] * len(ways))} from the edge")
        amounts += ways
    told = figures.told(", ".join(words).replace("|, ", ", |"), *amounts)
    return ", ".join([told, *_back_words(lines[0])])


def pitch_range(line: PlacedStitches) -> tuple[float, float]:
    """The least and the largest true pitch of a line; of holes pricked singly there is none, and it is 0."""
    pitches = [pitch for pitch in line.layout.pitches if pitch > 0]
    return (min(pitches), max(pitches)) if pitches else (0.0, 0.0)


def edge_gap(line: PlacedStitches, outline: Ring) -> float | None:
    """How far a seam lies from the edge of the piece, if it lies evenly beside it."""
    holes = line.layout.holes
    inner = holes[1:-1] or holes
    step = -(-len(inner) // EDGE_SAMPLES)
    gaps = [outline.distance_to_point(hole.point) for hole in inner[:: max(step, 1)]]
    if not gaps or max(gaps) - min(gaps) > EVENLY_OFF or min(gaps) < EVENLY_OFF:
        return None
    return sorted(gaps)[len(gaps) // 2]


def _back_words(line: PlacedStitches) -> list[str]:
    """How many stitches are sewn twice at the start and at the end."""
    twice, holes = set(line.layout.stitched_twice), len(line.layout.holes)
    start = next((count for count in range(holes) if count not in twice), holes) - 1
    turned = line.layout.is_ring
    end = next((count for count in range(holes) if holes - 1 - count not in twice), holes) - (not turned)
    parts = [(start, "both ends")] if start == end else [(start, "the start"), (end, "the end")]
    return [f"{count} back at {where}" for count, where in parts if count > 0]
