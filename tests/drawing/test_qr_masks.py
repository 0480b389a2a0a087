"""Of the eight masks of a QR code the best, held against segno, which tries them one by one."""

from __future__ import annotations

import numpy
import pytest
import segno
from segno.encoder import evaluate_mask

from drafting.drawing.roster.qr import code_of
from drafting.drawing.roster.qr_masks import least_penalty, penalties

TEXTS = ("7", "Ona Vale, bosun", "https://example.org/choir/00417", "Zoë Håkansson · alt", "quay " * 60)


def under_all_masks(text: str) -> list[tuple[tuple[bool, ...], ...]]:
    encoding = None if text.isascii() else "utf-8"
    codes = [
        segno.make_qr(text, error="m", mask=mask, encoding=encoding, eci=encoding is not None)
        for mask in range(8)
    ]
    return [tuple(tuple(map(bool, row)) for row in code.matrix) for code in codes]


@pytest.mark.parametrize("text", TEXTS)
def test_penalties_are_those_that_segno_counts(text: str) -> None:
    masked = under_all_masks(text)
    size = len(masked[0])
    counted = [evaluate_mask([bytearray(row) for row in code], size, size) for code in masked]
    assert penalties(numpy.array(masked)).tolist() == counted


@pytest.mark.parametrize("text", TEXTS)
def test_a_code_is_the_one_under_its_best_mask(text: str) -> None:
    masked = under_all_masks(text)
    code = code_of(text)
    assert code is not None
    assert code.rows in masked
    points = penalties(numpy.array(masked)).tolist()
    assert points[masked.index(code.rows)] == min(points)


def test_a_checkerboard_has_no_points_and_white_has_most() -> None:
    board = numpy.indices((21, 21)).sum(axis=0) % 2 == 0
    white = numpy.zeros((21, 21), dtype=bool)
    masked = numpy.array([white, board])
    # White: 42 lines of 21 (19 points each), 400 blocks, ten steps from half (ISO/IEC 18004, table 11).
    assert penalties(masked).tolist() == [42 * 19 + 3 * 400 + 100, 0]
    assert least_penalty(masked).tolist() == board.tolist()
