"""Whether a print shows each piece as often as it must, and all of it where it is spread over tiles."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence

from drafting.drawing.prints import PrintSheet, Shown
from drafting.geometry.bounds import Bounds
from drafting.proof.disagreement import SAME_LENGTH, Disagreement
from drafting.solve.placed import Placed, PlacedPiece

ALONG = 5.0
"""mm from place to place at which it is asked whether a tile shows a line."""


def check_times(
    placed: Placed, sheets: Sequence[PrintSheet], times: Mapping[str, int]
) -> Iterator[Disagreement]:
    """Each piece as often as it must be, whole or in tiles that show all of its cutting line."""
    shown: dict[str, list[Shown]] = defaultdict(list)
    for one in (one for sheet in sheets for one in sheet.shown):
        shown[one.piece].append(one)
    for name in dict.fromkeys([*times, *shown]):
        wanted, parts = times.get(name, 0), Counter(window_of(one) for one in shown[name])
        if set(parts.values()) != {wanted}:
            counts = ", ".join(str(count) for count in sorted(set(parts.values()))) or "0"
            yield Disagreement(name, "how often it is there", str(wanted), counts)
        elif None not in parts and not _is_all_shown(placed.pieces[name], parts):
            yield Disagreement(name, "what its tiles show", "all of it", "less")


def window_of(shown: Shown) -> tuple[float, ...] | None:
    """What of its piece it shows, in the piece's own places."""
    if shown.window is None:
        return None
    window = shown.window.moved(-shown.move)
    for _ in range(-shown.quarters % 4):
        window = window.quarter_turned()
    return tuple(round(side, 6) for side in (window.min_x, window.min_y, window.max_x, window.max_y))


def _is_all_shown(piece: PlacedPiece, parts: Iterable[tuple[float, ...] | None]) -> bool:
    """Whether places all along the cutting line lie on some tile."""
    windows = [Bounds(*part).grown(SAME_LENGTH) for part in parts if part]
    line = piece.cutting
    count = max(int(line.length / ALONG), len(line.legs))
    places = (line.point_at(line.length * index / count) for index in range(count))
    return all(any(window.contains(place) for window in windows) for place in places)
