"""`awlwright rules`: every rule of the workshop is taught, and a code that is none gets the nearest."""

from __future__ import annotations

import json
import re

import pytest

import drafting
from drafting import face
from drafting.text.source import Source
from tests.cli.conftest import Run

CODES = [rule.code for rule in drafting.rules()]


def test_the_list_names_every_rule_once(run: Run) -> None:
    ran = run("rules")
    rows = ran.out.split("\n\n")[0].splitlines()
    assert [row[:3] for row in rows] == CODES
    assert (ran.code, ran.err) == (0, "")
    assert "R08  warning  a slot or an opening near the edge" in rows


def test_a_rule_is_taught_whole(run: Run) -> None:
    assert run("rules", "R08").out == (
        "R08 warning: a slot or an opening near the edge\n"
        "  limit:  3 mm of leather to the edge at least; 2 times as much as it is thick where that is more\n"
        "  reason: a thinner strip stretches and tears\n"
        "  source: workshop practice; common practice, no source\n"
        '  allow:  `allow R08 "the reason"` in a piece, or by itself for the whole item\n'
    )


def test_several_are_taught_in_the_order_asked_for(run: Run) -> None:
    ran = run("rules", "r12", "R08")
    assert re.findall(r"^R\d\d", ran.out, re.MULTILINE) == ["R12", "R08"]


def test_the_machines_record_tells_the_same(run: Run) -> None:
    records = json.loads(run("rules", "--json").out)
    assert [record["code"] for record in records] == CODES
    for record, rule in zip(records, drafting.rules(), strict=True):
        assert list(record) == ["code", "severity", "title", "limit", "reason", "source", "mark", "allow"]
        assert all(record.values())
        assert (record["limit"], record["reason"]) == (rule.limit, rule.reason)
    assert json.loads(run("rules", "r37", "--json").out) == [records[-1]]


@pytest.mark.parametrize(
    ("wrong", "meant"), [("R8", "R08"), ("8", "R08"), ("R13", "R12"), ("R99", "R37"), ("Ro8", "R08")]
)
def test_a_code_that_is_none_gets_the_nearest(run: Run, wrong: str, meant: str) -> None:
    ran = run("rules", wrong)
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.startswith(
        f"awlwright: error C10\n  There is no rule `{wrong}`.\n  mend: Known are R01, R02"
    )
    assert ran.err.endswith(f" Did you mean `{meant}`?\n")


@pytest.mark.parametrize("code", CODES)
def test_what_is_said_of_allowing_can_be_typed(run: Run, code: str) -> None:
    """The statement is taken, and all that is left to tell is that it allows nothing here."""
    statement = re.search(r"`(allow .*?)`", run("rules", code).out)
    assert statement
    for text in (f"{statement[1]}\npiece tag\n", f"piece tag\n  {statement[1]}\n"):
        pattern = face.read(
            Source("tag.draft", text.replace("piece tag\n", "piece tag\n  outline: 40 mm across\n"))
        )
        assert [message.code for message in pattern.check()] == ["K41"]
