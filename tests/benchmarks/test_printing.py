"""How long true-size sheets take: large rolls over more than twenty tiles, batches of 300 pieces in one file, and files
for machines.

Baseline is the composing of the sheets; writing and proving are ratios to it in the same run, and the proof to both
together (`extra_info`): that is to stay below 1, the roll below 2 s and a batch below 5 s and 300 MB. Of a file for a
machine the proof is both that the sheet holds the pattern and that the file holds the sheet. All are seconds of the
processor, which other work on the machine lengthens less than those of the clock. Run with
`pytest tests/benchmarks/test_printing.py`.
"""

from __future__ import annotations

import resource
import time
from collections.abc import Callable
from itertools import pairwise

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

import drafting
from drafting.cli.machine_files import FORMATS
from drafting.drawing.machine import LAYERS
from drafting.drawing.prints import PrintFacts, paper_called, print_sheets, times_needed
from drafting.geometry.curves import box, circle
from drafting.geometry.point import Point
from drafting.output.pdf import to_pdf
from drafting.proof.machine_sheet import faults_in_sheet
from drafting.proof.pdf import check_pdf
from drafting.solve.placed import Placed
from tests.drawing.samples import SAMPLES, piece, placed
from tests.patterns.starters import starter_path

FACTS = PrintFacts("0123abcd")


def roll() -> Placed:
    return placed("Loft tool roll", [piece("roll", box(Point(0, 0), 1000, 760, rounded=20))])


def batch() -> Placed:
    tag = SAMPLES["badge_holder"]().pieces
    first = next(iter(tag.values()))
    rounds = [piece(f"disc {number}", circle(Point(0, 0), 20 + number % 7)) for number in range(250)]
    return placed("Ferry batch", [*rounds, *[piece(f"tag {n}", first.outline) for n in range(50)]])


def starter(name: str, size: str | None = None) -> Callable[[], Placed]:
    return lambda: drafting.load(starter_path(name)).place(size).placed


PRINTED: dict[str, tuple[Callable[[], Placed], int | None, int]] = {
    "roll": (roll, None, 20),
    "tool roll": (starter("tool-roll", "pipe mandrels"), None, 20),
    "300 shapes": (batch, None, 10),
    "300 pieces of a pouch": (starter("coin-pouch"), 100, 100),
    "300 pieces of a badge holder": (starter("badge-holder"), 75, 50),
}
"""What is printed, in how many copies, and how many sheets it takes at least."""


@pytest.mark.parametrize("name", PRINTED)
def test_printing(benchmark: BenchmarkFixture, name: str) -> None:
    drafted, copies, least = PRINTED[name]
    pattern = drafted()
    times = (
        times_needed(pattern, list(pattern.pieces), copies) if copies else dict.fromkeys(pattern.pieces, 1)
    )
    taken = {"composing": 0.0, "writing": 0.0, "proving": 0.0}

    def work() -> int:
        marks = [time.process_time()]
        sheets = print_sheets(pattern, paper_called("a4"), list(pattern.pieces), FACTS, times)
        marks.append(time.process_time())
        data = to_pdf([sheet.drawing for sheet in sheets])
        marks.append(time.process_time())
        assert check_pdf(data, pattern, sheets, 1.0, times) == []
        marks.append(time.process_time())
        taken.update(zip(taken, (b - a for a, b in pairwise(marks)), strict=True))
        return len(sheets)

    count = benchmark.pedantic(work, rounds=2, iterations=1)
    assert count >= least
    tell(benchmark, taken)
    benchmark.extra_info["sheets"] = count
    benchmark.extra_info["MB"] = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024


def tell(benchmark: BenchmarkFixture, taken: dict[str, float]) -> None:
    """Each part as a ratio to the composing, and the proof to what is made."""
    made = taken["composing"] + taken["writing"]
    benchmark.extra_info.update(
        {part: round(seconds / taken["composing"], 2) for part, seconds in taken.items()}
    )
    benchmark.extra_info["proving to composing and writing"] = round(taken["proving"] / made, 2)


CUT = {"coin pouch": ("coin-pouch", None), "tool roll": ("tool-roll", "pipe mandrels")}


@pytest.mark.parametrize("ending", ["svg", "dxf"])
@pytest.mark.parametrize("name", CUT)
def test_cutting(benchmark: BenchmarkFixture, name: str, ending: str) -> None:
    file, size = CUT[name]
    pattern = drafting.load(starter_path(file)).place(size)
    form = FORMATS[ending]("R2010")
    taken = {"composing": 0.0, "writing": 0.0, "proving": 0.0}

    def work() -> int:
        marks = [time.process_time()]
        sheets = [cut.sheet for cut in pattern.cutting(cutter="blade")]
        marks.append(time.process_time())
        files = [form.write(sheet.drawing, LAYERS) for sheet in sheets]
        marks.append(time.process_time())
        for sheet, data in zip(sheets, files, strict=True):
            assert faults_in_sheet(sheet, pattern.placed, list(pattern.placed.pieces)) == []
            assert form.faults(data, sheet.drawing) == []
        marks.append(time.process_time())
        taken.update(zip(taken, (b - a for a, b in pairwise(marks)), strict=True))
        return len(sheets)

    assert benchmark.pedantic(work, rounds=2, iterations=1) >= 1
    tell(benchmark, taken)
