"""Tidying gives one layout, and loses neither remark, note nor spelling."""

from __future__ import annotations

from pathlib import Path

import pytest

from drafting.syntax.parse import parse
from drafting.syntax.tidy import WIDTH, tidy
from drafting.text.source import Source, read_source
from tests.syntax.reading import read

ITEMS = sorted((Path(__file__).parent / "items").glob("*.draft"))


def check(text: str, expected: str) -> None:
    """The text becomes the expected one, which says the same and is tidy itself."""
    file = read(text)
    assert tidy(file) == expected
    again = read(expected)
    assert again == file
    assert tidy(again) == expected
    assert [remark.text for remark in again.remarks] == [remark.text for remark in file.remarks]


@pytest.mark.parametrize("item", ITEMS, ids=lambda item: item.stem)
def test_every_item_says_the_same_when_tidied(item: Path) -> None:
    file = read(read_source(item).text)
    once = tidy(file)
    again = read(once)
    assert again == file
    assert [remark.text for remark in again.remarks] == [remark.text for remark in file.remarks]
    assert tidy(again) == once


def test_blanks_are_evened_out() -> None:
    check(
        'measure   rim=8mm  ,9   mm   between 2 mm   and 3 in   "a  b"\npiece  a :cut 2 from b ;grain  any\n',
        'measure rim = 8 mm, 9 mm between 2 mm and 3 in  "a  b"\npiece a: cut 2 from b; grain any\n',
    )


def test_amounts_keep_their_spelling() -> None:
    check("measure a = 5  1/4in\nmeasure b = 3.50 cm\n", "measure a = 5 1/4 in\nmeasure b = 3.50 cm\n")


def test_brackets_stand_where_they_are_needed() -> None:
    check(
        "measure a = ((b)) - (c - (d*e)) + -(f + g)*(2)/(h/2) - (5)/(3 mm)\n",
        "measure a = b - (c - d*e) + -(f + g)*2/(h/2) - 5/(3 mm)\n",
    )


def test_at_most_one_blank_line_stays() -> None:
    check(
        "\n\nmeasure a = 1 mm\n\n\n\nmeasure b = 1 mm\nmeasure c = 1 mm\n\n\n",
        "measure a = 1 mm\n\nmeasure b = 1 mm\nmeasure c = 1 mm\n",
    )


def test_a_short_statement_comes_on_one_line() -> None:
    check(
        "piece a:\n    over b\n    cut 1 from c\n    slot eye:\n      at p\n      3 mm long\n",
        "piece a: over b; cut 1 from c\n  slot eye: at p; 3 mm long\n",
    )


def test_a_long_statement_has_a_line_for_each_clause() -> None:
    clauses = [
        "at the_middle_of_the_whole_thing",
        "140 mm long",
        "40 mm wide",
        "lying along foot_of_it..tip_of_it",
    ]
    check(
        f'piece a\n  slot eye: {"; ".join(clauses)}  "for the strap"\n',
        'piece a\n  slot eye:  "for the strap"\n' + "".join(f"    {clause}\n" for clause in clauses),
    )


def test_a_long_path_goes_on_with_its_legs() -> None:
    names = [f"corner_{index}" for index in range(12)]
    text = f"piece a\n  outline: {' to '.join(names)}\n"
    expected = f"piece a\n  outline: {' to '.join(names[:7])}\n    to {' to '.join(names[7:])}\n"
    check(text, expected)
    assert all(len(line) <= WIDTH for line in expected.splitlines())


def test_a_long_head_has_its_clauses_below() -> None:
    about = [
        "like a_piece_with_a_long_name(wide = 20 mm, reach = 140 mm)",
        "cut 1 pair from shoulder",
        "without eye, rim",
    ]
    check(f"piece a: {'; '.join(about)}\n", "piece a:\n" + "".join(f"  {each}\n" for each in about))


def test_a_block_has_its_clauses_below() -> None:
    check(
        "block a(wide,lap=3 mm): grain level\n  point p: at (0,0)\n",
        "block a(wide, lap = 3 mm)\n  grain level\n  point p: at (0, 0)\n",
    )


def test_the_title_and_what_stands_below_it() -> None:
    check(
        'pattern "x"  # window\n  show mm and in\n  # said at the fair\n  note "b"\n  edition "2"\n',
        'pattern "x"  # window\n  edition "2"\n  # said at the fair\n  note "b"\n  show mm and in\n',
    )


def test_notes_of_clauses_keep_their_lines() -> None:
    text = 'piece a\n  slot eye:  "strap"\n    at p  "middle"\n    3 mm long\n'
    check(text, text)
    text = 'piece a\n  slot eye:\n    at p\n    3 mm long  "long"\n'
    check(text, text)
    text = 'piece a:\n  cut 1 from b  "shoulder"\n  grain any\n'
    check(text, text)


def test_remarks_stay_where_they_are() -> None:
    check(
        """\
#first
measure a = 1 mm    # behind
   # above b

measure b = 1 mm
piece p   # head
  # above q
  point q: at (0, 0) # q
  # below q

  # last of p

# above r
piece r
  outline: a to b   # first leg
      # above the second
      to c
      to d
# end
""",
        """\
#first
measure a = 1 mm  # behind
# above b

measure b = 1 mm
piece p  # head
  # above q
  point q: at (0, 0)  # q
  # below q

  # last of p

# above r
piece r
  outline:
    a to b  # first leg
      # above the second
      to c to d
# end
""",
    )


def test_remarks_among_the_clauses_of_a_head() -> None:
    check(
        "piece a:  # head\n  # the lining\n  over b\n  cut 1 from c  # thin\n  outline: box 3 mm by 4 mm\n",
        "piece a:  # head\n  # the lining\n  over b\n  cut 1 from c  # thin\n  outline: box 3 mm by 4 mm\n",
    )


def test_remarks_inside_a_sentence_go_above_it() -> None:
    check(
        "measure a = 1 mm,  # one\n  2 mm  # two\n",
        "# one\nmeasure a = 1 mm, 2 mm  # two\n",
    )


def test_names_that_make_a_pair_with_the_word_behind_them_get_brackets() -> None:
    check("piece a\n  row r: (end) holes; start holes\n", "piece a\n  row r: (end) holes; start holes\n")


def test_a_text_with_a_slip_is_not_tidied() -> None:
    file, _ = parse(Source("slip.draft", "piece a\n  point p: at\n"))
    with pytest.raises(ValueError, match="without slips"):
        tidy(file)
