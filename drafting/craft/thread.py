"""How much thread a saddle-stitched seam takes.

Takes the pitches and the thickness sewn through; returns the length of the one thread that has a needle at each end.
Between two holes one of its ends lies on each face, so every stitch takes two pitches; in every hole both ends pass
through the thickness, in the first hole the thread lies once: 2Np + (2N + 1)t for N stitches. A ring takes as much: its
thread comes back to the first hole with both ends.

The trade cuts three or four times the seam. Three times is exact where t = p/2, four times where t = p (common
practice, no source; the comparison is derived). Needle tails and back-stitches are extra.
"""

from __future__ import annotations

from collections.abc import Sequence

from drafting.craft.faults import expect_not_negative
from drafting.craft.stitches import Layout
from drafting.records import dataclass

TRADE_MULTIPLES = (3.0, 4.0)
"""How many times the seam a workshop cuts its thread, without reckoning."""

NEEDLES = 2


@dataclass(frozen=True)
class ThreadNeed:
    """The thread one seam takes. `in_seam` lies in the leather, `extra` are back-stitches and needle tails."""

    seam: float
    in_seam: float
    extra: float

    @property
    def length(self) -> float:
        """All that is cut from the spool."""
        return self.in_seam + self.extra

    @property
    def ratio(self) -> float:
        """The thread in the seam against the seam's length."""
        return self.in_seam / self.seam

    def multiple(self, times: float) -> float:
        """What a rule of so many times the seam would cut."""
        return times * self.seam

    def shortfall(self, times: float) -> float:
        """By how much that rule cuts too little; negative when it cuts enough."""
        return self.length - self.multiple(times)


def thread_of(
    gaps: Sequence[float], thickness: float, tail: float = 0.0, back: Sequence[float] = ()
) -> ThreadNeed:
    """The thread of a seam with these pitches, one for each stitch.

    `tail` is what each of the two needles keeps at the end; `back` are the pitches sewn a second time.
    """
    expect_not_negative(thickness=thickness, tail=tail)
    in_seam = NEEDLES * sum(gaps) + (NEEDLES * len(gaps) + 1) * thickness
    again = NEEDLES * (sum(back) + len(back) * thickness)
    return ThreadNeed(sum(gaps), in_seam, again + NEEDLES * tail)


def thread_of_even(
    pitch: float, stitches: int, thickness: float, tail: float = 0.0, back: int = 0
) -> ThreadNeed:
    """The thread of so many stitches of one pitch."""
    expect_not_negative(pitch=pitch)
    return thread_of([pitch] * stitches, thickness, tail, [pitch] * back)


def thread_of_layout(layout: Layout, thickness: float, tail: float = 0.0) -> ThreadNeed:
    """The thread of a laid-out seam: it lies straight from hole to hole, and twice where it is back-stitched."""
    return thread_through(layout, [thickness] * len(layout.holes), tail)


def thread_through(layout: Layout, thicknesses: Sequence[float], tail: float = 0.0) -> ThreadNeed:
    """The same where the layers end under the seam: one thickness for each hole.

    Back-stitches at the start begin so many holes on and come back to the first; those at the end go back from the
    last.
    """
    expect_not_negative(thickness=min(thicknesses), tail=tail)
    gaps, (at_start, at_end) = layout.gaps, layout.request.back
    n_holes, n_gaps = len(thicknesses), len(gaps)
    back = sum(gaps[:at_start]) + sum(gaps[n_gaps - at_end :])
    passed = [(thicknesses[at % n_holes] + thicknesses[(at + 1) % n_holes]) / 2 for at in range(at_start)]
    passed += [thicknesses[at] for at in range(n_gaps - at_end, n_gaps)]
    in_seam = _in_seam(sum(gaps), thicknesses, layout.is_ring)
    return ThreadNeed(sum(gaps), in_seam, NEEDLES * (back + sum(passed) + tail))


def thread_together(
    parts: Sequence[ThreadNeed], thicknesses: Sequence[float], is_ring: bool, tail: float = 0.0
) -> ThreadNeed:
    """Lines that meet, sewn on with one thread: through the holes that they share it passes as through any other."""
    seam, extra = sum(part.seam for part in parts), sum(part.extra for part in parts)
    return ThreadNeed(seam, _in_seam(seam, thicknesses, is_ring), extra + NEEDLES * tail)


def _in_seam(seam: float, thicknesses: Sequence[float], is_ring: bool) -> float:
    """Two pitches a stitch and both ends through every hole, but once through the first of an open line."""
    round_again = thicknesses[0] if is_ring else -thicknesses[0]
    return NEEDLES * seam + NEEDLES * sum(thicknesses) + round_again


def thickness_where_exact(times: float) -> float:
    """The thickness, as a part of the pitch, at which a long seam takes just so many times its length."""
    return (times - NEEDLES) / NEEDLES
