"""The workshop rules on a text: what they find stands at its statement, with the sizes it holds in."""

from __future__ import annotations

import pytest

from drafting import face
from drafting.text.messages import Message
from drafting.text.source import Source

TAG = """pattern "Boat-house tag"
measure off = 5 mm
size "near": as written
size "far": off = 20 mm
stock body: leather; 2 mm thick
piece tag: cut 1 from body; grain any
  outline: box 60 mm by 40 mm
  hole eye: off below outline.top; plumb with outline.top; 4 mm across
"""


def found(text: str, tolerance: float = 0.0) -> list[Message]:
    return list(face.read(Source("tag.draft", text)).check(tolerance))


def test_a_finding_stands_at_its_feature_in_its_sizes() -> None:
    (message,) = found(TAG)
    assert (message.code, message.sizes) == ("R04", ("near",))
    assert message.at is not None and (message.at.line, message.at.text) == (8, "eye")
    assert "5 mm from the edge; 6 mm is the least" in message.says


def test_what_just_keeps_its_limit_is_not_told() -> None:
    assert found(TAG.replace("off = 5", "off = 6")) == []


def test_edges_cut_off_the_line_are_judged_at_the_worst() -> None:
    (message,) = found(TAG.replace("off = 5", "off = 6"), 0.5)
    assert "6 mm (5.5 mm with edges 0.5 mm off) from the edge" in message.says


BUCKLED = """pattern "Boat-house strap"
stock body: leather; 2 mm thick
hardware buckle: need 1; 20 mm inside; on strap
piece strap: cut 1 from body; grain level
  outline: box 200 mm by 20 mm
"""


def test_a_strap_is_held_against_the_buckle_that_is_on_it() -> None:
    assert found(BUCKLED) == []
    (message,) = found(BUCKLED.replace("by 20 mm", "by 21 mm"))
    assert message.code == "R14"


@pytest.mark.parametrize("wide, codes", [(16, []), (19, ["R26"]), (24, ["R25"])])
def test_a_sheet_drafted_over_a_piece_lies_behind_its_window(wide: int, codes: list[str]) -> None:
    text = f"""pattern "Boat-house pass"
stock body: leather; 1 mm thick
stock film: sheet; 0.3 mm thick
piece front: cut 1 from body; grain any
  point middle: at (0, 0)
  outline: box 60 mm by 60 mm; at middle
  opening view: box {wide} mm by {wide} mm; at middle; lying level
piece pane: over front; cut 1 from film
  outline: box 22 mm by 22 mm; at front.middle
"""
    assert [message.code for message in found(text)] == codes


@pytest.mark.parametrize("tolerance", [-1.0, float("nan"), float("inf")])
def test_no_tolerance(tolerance: float) -> None:
    with pytest.raises(ValueError, match="no measure of care"):
        found(TAG, tolerance)
