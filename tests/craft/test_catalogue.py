"""Every message of this room can come about, and comes out whole."""

from __future__ import annotations

import importlib
import pkgutil
from math import pi, radians

import pytest

from drafting import craft
from drafting.craft.bends import bend_allowance, set_back
from drafting.craft.contents import content_named
from drafting.craft.faults import CraftFault, NotPositive, expect_positive
from drafting.craft.joins import Side, compare
from drafting.craft.marks import Slanted
from drafting.craft.meeting_holes import expect_holes_meet, holes_meet
from drafting.craft.rows import RowRequest, row_along
from drafting.craft.rules import RULES, Allowance, check_rules
from drafting.craft.slits import SlitRequest, cut_slit
from drafting.craft.spacing import AsManyAs, Every, Stitches
from drafting.craft.standards import hide_needed, stitch_class
from drafting.craft.stitches import Request, lay_out
from drafting.craft.turns import TurnRequest, turn_edge
from drafting.geometry.curves import box, circle
from drafting.geometry.point import Point
from drafting.text.catalogue import craft as catalogue
from drafting.text.catalogue import entries_of
from drafting.text.messages import Messages
from tests.craft.items import plate
from tests.craft.samples import chain, straight

HAIRPIN = chain((0, 0), (100, 0), (100, 0.5), (0, 0.5))
SQUARE = box(Point(0, 0), 100, 100)
SIDE = Side("rim", (10, 20), (40.0, 80.0))


def hairpin_in_steps() -> None:
    for count in range(2, 25):
        lay_out(HAIRPIN, Request(Stitches(count), "round", "across"))


def seam(second: Side) -> None:
    raise compare([SIDE, second]).faults[0]


ASKS = {
    "K01": lambda: lay_out(straight(40), Request(Every(0))),
    "K02": lambda: lay_out(straight(3), Request(Every(4))),
    "K03": lambda: lay_out(straight(14.2), Request(Every(4))),
    "K04": lambda: lay_out(chain((0, 0), (41, 0), (41, 14.2)), Request(Every(4))),
    "K05": lambda: lay_out(straight(40), Request(Stitches(0))),
    "K06": lambda: lay_out(straight(40), Request(AsManyAs((3, 4)))),
    "K07": lambda: lay_out(circle(Point(0, 0), 20), Request(Every(4))),
    "K08": lambda: lay_out(circle(Point(0, 0), 20), Request(Every(4), start=Point(0, 0))),
    "K09": hairpin_in_steps,
    "K10": lambda: lay_out(straight(40), Request(Every(1e-6))),
    "K11": lambda: lay_out(straight(40), Request(Every(4), back=(11, 0))),
    "K12": lambda: seam(Side("strip", (30,), (120.0,))),
    "K13": lambda: seam(Side("strip", (10, 21), (40.0, 80.0))),
    "K14": lambda: seam(Side("strip", (10, 20), (40.0, 90.0))),
    "K15": lambda: expect_holes_meet(("rim", "strip"), holes_meet([Point(0, 0)], [Point(0, 1)])),
    "K16": lambda: bend_allowance(0, 3, 2),
    "K17": lambda: set_back(pi, 3, 2),
    "K18": lambda: expect_positive(height_of_the_stack=0),
    "K20": lambda: cut_slit(straight(6), SlitRequest(end_holes=7)),
    "K21": lambda: cut_slit(chain((0, 0), (40, 0), (40, 20), (20, -10)), SlitRequest()),
    "K23": lambda: turn_edge(SQUARE, TurnRequest(0, 100, 2, 1.5)),
    "K24": lambda: turn_edge(box(Point(0, 0), 100, 60, rounded=1), TurnRequest(0, 0, 9, 1.5)),
    "K25": lambda: turn_edge(SQUARE, TurnRequest(0, 150, 9, 1)),
    "K26": lambda: turn_edge(box(Point(0, 0), 12, 60), TurnRequest(0, 0, 9, 0, "mitred")),
    "K27": lambda: content_named("pasport"),
    "K28": lambda: check_rules(plate(), allowances=[Allowance("R99", "so")]),
    "K30": lambda: check_rules(plate(), allowances=[Allowance("R11", "")]),
    "K31": lambda: check_rules(plate(), tolerance=-1),
    "K32": lambda: Slanted(2, radians(200)),
    "K33": lambda: row_along(straight(100), RowRequest(7, 20)),
    "K34": lambda: row_along(straight(100), RowRequest(0, 20)),
    "K35": lambda: stitch_class(99),
    "K36": lambda: hide_needed(100, 0),
}


TOLD_OF_PATTERNS = {"K40", "K41"}
"""What the judging of a whole pattern tells of its allowances; tests/messages/cases/workshop.draft shows it."""


TOLD_OF_BATCHES = {"K55", "K56", "K57"}
"""What a batch is told of; tests/craft/test_lists.py brings each out."""


def test_every_entry_has_its_fault_or_its_rule() -> None:
    codes = {entry.code for entry in entries_of(catalogue)}
    assert codes == set(ASKS) | {rule.code for rule in RULES} | TOLD_OF_PATTERNS | TOLD_OF_BATCHES


@pytest.mark.parametrize("code", list(ASKS))
def test_a_fault_fills_its_line_of_the_catalogue(code: str) -> None:
    with pytest.raises(CraftFault) as caught:
        ASKS[code]()  # type: ignore[operator]
    fault = caught.value
    assert fault.entry.code == code
    messages = Messages()
    messages.add(fault.entry, at=None, **{"line": "edge", **fault.facts})
    (message,) = messages
    text = f"{message.says} {message.mend}"
    assert "{" not in text and "None" not in text and "  " not in text
    assert str(fault)


def test_every_kind_of_fault_is_in_the_catalogue_once() -> None:
    for module in pkgutil.walk_packages(craft.__path__, "drafting.craft."):
        importlib.import_module(module.name)
    kinds = CraftFault.__subclasses__()
    assert sorted(kind.entry.code for kind in kinds) == sorted(ASKS)


def test_an_amount_is_named_in_words() -> None:
    with pytest.raises(NotPositive) as caught:
        expect_positive(height_of_the_stack=-2)
    assert caught.value.facts == {"what": "height of the stack", "given": "-2 mm"}
