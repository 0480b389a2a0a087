"""A fit finds every value that a dense scan of the range finds, and none that it does not."""

from __future__ import annotations

from math import sin

import numpy
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.solve.fit_search import Held, fit_values

STEPS = 40_000
PITCHES = (3.0, 3.38, 3.85, 5.0)
stretches = st.tuples(
    st.floats(40, 200), st.floats(-8, 8), st.floats(-0.2, 0.2), st.floats(0, 0.3), st.sampled_from(PITCHES)
)


def shape(stretch: tuple[float, float, float, float, float], value: float) -> float:
    """A length that grows, bends and waves with the value."""
    length, slope, bend, wave, _ = stretch
    return length + slope * value + bend * value * value + wave * sin(2 * value)


def misses(lines: list[tuple[float, float, float, float, float]], low: float, high: float) -> list[float]:
    values = numpy.linspace(low, high, STEPS + 1)
    worst = numpy.zeros_like(values)
    for length, slope, bend, wave, pitch in lines:
        held = (length + slope * values + bend * values**2 + wave * numpy.sin(2 * values)) / pitch
        fewer = numpy.maximum(numpy.floor(held), 1.0)
        off = numpy.minimum(numpy.abs(held / fewer - 1), numpy.abs(held / (fewer + 1) - 1))
        worst = numpy.maximum(worst, pitch * off)
    return [float(one) for one in worst]


@given(st.lists(stretches, min_size=1, max_size=3), st.floats(3, 8), st.floats(0.5, 4))
@settings(max_examples=60)
def test_every_solution_of_a_dense_scan_is_found(
    lines: list[tuple[float, float, float, float, float]], low: float, size: float
) -> None:
    """Those a scan sees clearly: a hundredth of a millimetre deep on either side."""
    high = low + size

    def held(value: float) -> Held:
        return tuple((shape(line, value) / line[-1], line[-1]) for line in lines)

    values = numpy.linspace(low, high, STEPS + 1)
    if any(shape(line, float(value)) < line[-1] for line in lines for value in values[::400]):
        return
    if all(abs(slope) + abs(bend) + wave < 1e-3 for _, slope, bend, wave, _ in lines):
        return
    found = fit_values(held, low, high)
    worst = misses(lines, low, high)
    for index in clear_dips(worst):
        near = min(abs(one.value - float(values[index])) for one in found)
        assert near <= 40 * size / STEPS or any(abs(one.worst - worst[index]) < 1e-4 for one in found)
    for one in found:
        index = round((one.value - low) / size * STEPS)
        around = worst[max(index - 1, 0) : index + 2]
        assert one.worst <= min(around) + 8 * 60 * size / STEPS


def clear_dips(worst: list[float]) -> list[int]:
    """Where the misses rise by a hundredth on either side before they are lower again."""
    found: list[int] = []
    lowest, rises = 0, worst[0]
    for index, here in enumerate(worst):
        if here < worst[lowest]:
            lowest, rises = index, here
        rises = max(rises, here)
        if rises > worst[lowest] + 0.01 and here < rises - 0.01:
            found.append(lowest)
            lowest, rises = index, here
    return found


@given(st.floats(50, 300), st.floats(0.5, 8), st.sampled_from(PITCHES))
def test_one_stretch_comes_out_exact_at_every_whole_count(length: float, slope: float, pitch: float) -> None:
    low, high = 5.0, 9.0
    found = fit_values(lambda value: (((length + slope * value) / pitch, pitch),), low, high)
    first, last = (length + slope * low) / pitch, (length + slope * high) / pitch
    whole = [count for count in range(1, int(last) + 1) if first < count < last]
    exact = [one.value for one in found if one.worst < 1e-9]
    expected = [(count * pitch - length) / slope for count in whole]
    assert len(exact) >= len(expected)
    assert all(min(abs(value - one) for one in exact) < 1e-8 for value in expected)
