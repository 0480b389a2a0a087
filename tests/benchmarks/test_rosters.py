"""A thousand people: every engraving, card and QR code made, written and read back, as a multiple of what one alone
takes, in each format."""

from __future__ import annotations

import subprocess
import sys
import time
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent.parent
MOST_SECONDS, MOST_MEGABYTES = 20.0, 500.0
"""What is to be reached on a quiet machine of two cores; printed beside what was, and never a verdict."""
MEASURED = """
import resource, sys
from drafting.cli.main import main
code = main(sys.argv[1:])
print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024, file=sys.stderr)
sys.exit(code)
"""


FORMATS = {
    "svg": ("--qr", "{name}"),
    "dxf": ("--format", "dxf"),
    "dxf of release 12": ("--format", "dxf", "--dxf-version", "r12"),
}


def seconds_and_megabytes(folder: Path, count: int, options: tuple[str, ...]) -> tuple[float, float]:
    people = "".join(f"Ona Vale {number},bosun {number % 7}\n" for number in range(count))
    table = folder / f"{count}.csv"
    table.write_text("name,role\n" + people, encoding="utf-8")
    words = [
        "roster",
        str(ROOT / "patterns/card-wallet.draft"),
        str(table),
        "--out",
        str(folder / f"{count}"),
        *options,
    ]
    begun = time.perf_counter()
    done = subprocess.run([sys.executable, "-c", MEASURED, *words], cwd=ROOT, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    return time.perf_counter() - begun, float(done.stderr.splitlines()[-1])


@pytest.mark.parametrize("form", FORMATS)
def test_a_thousand_people(tmp_path: Path, form: str) -> None:
    one, _ = seconds_and_megabytes(tmp_path, 1, FORMATS[form])
    thousand, megabytes = seconds_and_megabytes(tmp_path, 1000, FORMATS[form])
    each = (thousand - one) / 999
    print(
        f"\n1 person {one:.2f} s, 1000 people {thousand:.2f} s: {each / one:.4f} of the first for each more"
    )
    print(
        f"against {MOST_SECONDS:g} s: {thousand / MOST_SECONDS:.2f}; against {MOST_MEGABYTES:g} MB: "
        f"{megabytes / MOST_MEGABYTES:.2f}"
    )
    assert len(list((tmp_path / "1000/engraving").iterdir())) == 1000
