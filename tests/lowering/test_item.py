"""What an item needs and holds: amounts to measure by, and numbers for every size."""

from __future__ import annotations

import pytest

from drafting.craft.contents import ROWS
from drafting.solve.placed import PlacedItem
from tests.lowering.drafted import CARD, check, codes, drafted

INCH = 25.4


def item(text: str, size: str | None = None) -> PlacedItem:
    return drafted(text, size).placed.item


def test_a_buckle_is_measured_like_a_measure() -> None:
    text = "hardware buckle: need 2; 3/4 in inside; 3 mm prong; 2.5 mm bar\nmeasure strap = buckle.inside - 1 mm\n"
    wanted = {"strap": 0.75 * INCH - 1, "buckle.prong + buckle.bar": 5.5, "buckle.need": 2}
    check(text + CARD, wanted)


def test_a_thread_is_as_thick_as_it_says() -> None:
    check("thread waxed: 1/2 oz thick\n" + CARD, {"waxed.thick": INCH / 128})


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.name)
def test_every_published_size_may_be_named(row: object) -> None:
    name, long, wide = row.name, row.long, row.wide  # type: ignore[attr-defined]
    lies = {"level": (long, wide), "plumb": (wide, long)}
    for how, (width, height) in lies.items():
        text = f'content held: "{name}"; lying {how}; 0.2 mm thick; 3 of them\n{CARD}'
        check(text, {"held.width": width, "held.height": height, "held.long": long, "held.stack": 0.6})


def test_an_own_size_is_written_width_by_height() -> None:
    text = "content rule: 30 mm by 6 in by 1.5 mm; 2 of them; 1 mm ease\n" + CARD
    wide_high = {"rule.width": 30, "rule.height": 6 * INCH, "rule.long": 6 * INCH, "rule.wide": 30}
    check(text, {**wide_high, "rule.thick": 1.5, "rule.stack": 3, "rule.count": 2, "rule.ease": 1})


def test_amounts_of_an_item_follow_the_size() -> None:
    text = "measure w = 20 mm\nsize a: as written\nsize b: w = 30 mm\n".replace(" a:", ' "a":')
    text = text.replace(" b:", ' "b":') + "hardware ring: need 1; w + 2 mm inside\n" + CARD
    assert [item(text, size).hardware[0].inside for size in "ab"] == [22, 32]


def test_an_item_holds_all_that_is_written_for_it() -> None:
    placed = item(
        """stock body: leather; 2 mm thick  "shoulder"
stock film: sheet
thread waxed: 0.6 mm thick
hardware ring: need 2; 20 mm inside; on back.eye, back  "split ring"
content card: "ID-1 card"; inside back.edge, back.view through back.side
step "Sew."  uses back.edge, waxed, ring, card, body, back
"""
        + CARD
        + "  run side: from heel to brow\n  crease edge: 3 mm inside outline\n"
        + "  slot eye: at (20 mm, 30 mm); 9 mm long; 3 mm wide; lying level\n  opening view: 8 mm across; at (20 mm, 9 mm)\n"
    )
    assert [(stock.name, stock.material, stock.thick) for stock in placed.stocks] == [
        ("body", "leather", 2),
        ("film", "sheet", None),
    ]
    assert (placed.threads[0].thick, placed.hardware[0].on) == (0.6, ("back.eye", "back"))
    card = placed.contents[0]
    assert (card.published, card.inside, card.through) == (
        "ID-1 card",
        ("back.edge", "back.view"),
        "back.side",
    )
    assert (card.long, card.wide, card.width, card.thick, card.count) == (85.6, 53.98, None, 0.76, 1)
    assert placed.steps[0].uses == ("back.edge", "waxed", "ring", "card", "body", "back")


def test_a_piece_may_be_drafted_round_what_it_holds() -> None:
    text = """content card: "ID-1 card"; 2 of them; 3 mm ease; lying plumb
piece sleeve
  outline: box card.width + card.stack + card.ease + 2*4 mm by card.height
"""
    check(text, {"sleeve.width": 53.98 + 2 * 0.76 + 3 + 8, "sleeve.height": 85.6})


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("hardware ring: need 1; 20 inside", ["M03"]),
        ("hardware ring: need 2 mm", ["M05"]),
        ('content card: "A6"; 2 mm of them', ["M05"]),
        ("content rule: 3 by 2 mm", ["M03"]),
        ('content card: "A6"; 0 ease', []),
        ("hardware ring: need 0", ["M84"]),
        ("hardware ring: need 1; 20 mm inside; 2 mm spike", ["T01"]),
        ('content card: "A6"; inside', ["T02"]),
    ],
)
def test_a_slip_in_an_item_is_told_once(line: str, said: list[str]) -> None:
    assert codes(f"{line}\n{CARD}") == said


def test_a_fault_in_what_nothing_is_made_from_hides_no_other() -> None:
    """And a fault in what a measure reads keeps what hangs on it quiet."""
    loose = "piece lining\n  point b: level with back.foot\n  outline: 9 mm across; at b\n"
    faulty = 'hardware ring: need 1; 20 inside\ncontent card: "no such"\n'
    assert codes(faulty + CARD + loose) == ["M03", "M80", *codes(CARD + loose)]
    assert codes(faulty + CARD + "  hole eye: at (9 mm, 9 mm); ring.inside across\n") == ["M03", "M80"]
