"""Every rule tried on a text: straight and curved edges, twins, sizes, blocks, and allowances with their reason."""

from __future__ import annotations

import re

import pytest

from drafting import face
from drafting.craft.rules import RULES
from drafting.text.messages import Message
from drafting.text.source import Source
from tests.craft.rule_trials import TRIALS, Trial

CODES = [rule.code for rule in RULES]
STRAIGHT = [trial for trial in TRIALS if trial.shape == "straight"]
NAMES = [trial.name for trial in TRIALS]
STRAIGHT_NAMES = [trial.code for trial in STRAIGHT]


def read(text: str) -> face.Pattern:
    return face.read(Source("try.draft", text))


def told(text: str, code: str) -> list[Message]:
    """What is said by a rule; nothing else may be wrong with a pattern than what rules say."""
    found = list(read(text).check())
    strange = [message.says for message in found if not re.match(r"R\d\d|K4\d", message.code)]
    assert strange == []
    return [message for message in found if message.code == code]


def test_every_rule_is_tried() -> None:
    assert [trial.code for trial in STRAIGHT] == CODES


@pytest.mark.parametrize("trial", TRIALS, ids=NAMES)
def test_a_rule_fires_beyond_its_limit_once(trial: Trial) -> None:
    """However many twins and copies there are."""
    (message,) = told(trial.text(trial.breaks), trial.code)
    assert "{" not in message.says + message.mend


@pytest.mark.parametrize("trial", TRIALS, ids=NAMES)
def test_a_rule_is_quiet_just_inside_its_limit(trial: Trial) -> None:
    assert told(trial.text(trial.keeps), trial.code) == []


@pytest.mark.parametrize("trial", STRAIGHT, ids=STRAIGHT_NAMES)
def test_of_two_sizes_the_one_that_breaks_is_named(trial: Trial) -> None:
    sizes = f'size "sound": as written\nsize "broken": x = {trial.breaks}\n'
    (message,) = told(trial.text(trial.keeps, sizes=sizes), trial.code)
    assert message.sizes == ("broken",)


@pytest.mark.parametrize("trial", STRAIGHT, ids=STRAIGHT_NAMES)
def test_inside_a_block_it_is_told_once_however_many_pieces_are_made_from_it(trial: Trial) -> None:
    """But how its grain lies each of the two pieces says, or does not say, for itself."""
    found = told(trial.as_block(trial.breaks), trial.code)
    assert len(found) == (2 if trial.code in ("R32", "R33") else 1)
    assert told(trial.as_block(trial.keeps), trial.code) == []


REASON = "the ferry crew tried it in scrap"


@pytest.mark.parametrize("where", ["piece", "item"])
@pytest.mark.parametrize("trial", STRAIGHT, ids=STRAIGHT_NAMES)
def test_what_is_allowed_is_quiet_and_its_reason_stays_visible(trial: Trial, where: str) -> None:
    """In what `check` says, and on the sheets."""
    allow = f'allow {trial.code} "{REASON}"\n'
    text = (
        trial.text(trial.breaks, body_more=f"  {allow}")
        if where == "piece"
        else trial.text(trial.breaks, before=allow)
    )
    assert told(text, trial.code) == []
    notes = told(text, "K40")
    assert notes and all(REASON in note.says and f"`{trial.code}`" in note.says for note in notes)
    assert any(
        f"{trial.code} is allowed" in line and REASON in line for line in read(text).place().verdict.allowed
    )
