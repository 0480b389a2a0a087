"""Indentation says what belongs together; a line out of place is told and read where it belongs."""

from __future__ import annotations

from drafting.syntax import tree
from drafting.syntax.parse import parse
from drafting.syntax.tidy import tidy
from drafting.text.source import Source
from tests.syntax.reading import codes, part, read, statement


def test_deeper_lines_are_clauses() -> None:
    lines = "slot eye:\n      at foot\n      14 mm long; 4 mm wide\n      lying level"
    assert part(lines) == part("slot eye: at foot; 14 mm long; 4 mm wide; lying level")


def test_deeper_lines_that_begin_with_to_are_legs() -> None:
    assert part("outline: a to b\n    to c bowed out 3 mm\n     to d") == part(
        "outline: a to b to c bowed out 3 mm to d"
    )


def test_a_line_may_break_inside_brackets_and_behind_signs() -> None:
    assert part("point p: at (12 mm,\n        5 mm)") == part("point p: at (12 mm, 5 mm)")
    assert statement("measure w = 3 mm,\n   4 mm +\n  2 mm") == statement("measure w = 3 mm, 4 mm + 2 mm")
    assert statement("measure w = 3 mm\n  + 4 mm") == statement("measure w = 3 mm + 4 mm")


def test_about_clauses_stand_in_the_head_or_below() -> None:
    head = statement("piece a: over b; cut 1 from hide; grain any\n  outline: box 3 mm by 4 mm")
    below = statement("piece a:\n  over b\n  cut 1 from hide; grain any\n  outline: box 3 mm by 4 mm")
    mixed = statement("piece a: over b;\n    cut 1 from hide\n  grain any\n  outline: box 3 mm by 4 mm")
    assert head == below == mixed


def test_tabs_are_stops() -> None:
    text = "piece a\n\tpoint p: at (0, 0)\n    point q:\n\t\tat p\n"
    assert [each.name.text for each in statement(text).parts] == ["p", "q"]


def test_a_pattern_indented_as_a_whole_is_read() -> None:
    text = "  measure a = 1 mm\n  piece p\n    point q: at (0, 0)\n  measure b = 2 mm\n"
    assert [type(item) for item in read(text).items] == [tree.Measure, tree.Piece, tree.Measure]


def test_a_piece_may_be_empty() -> None:
    assert statement("piece back") == statement("piece back:")


def test_nothing_and_remarks_alone_are_a_file() -> None:
    assert read("").items == ()
    assert read("\n\n  \n").items == ()
    assert [remark.text for remark in read("# a\n   # b\n").remarks] == [" a", " b"]


def test_notes_belong_to_the_statement_on_its_first_line_and_to_the_clause_further_down() -> None:
    one_line = part('slot eye: at foot; 14 mm long  "for the strap"')
    assert one_line.note == "for the strap"
    assert [each.note for each in one_line.clauses] == [None, None]
    several = part('slot eye:  "for the strap"\n    at foot  "the middle"\n    14 mm long')
    assert several.note == "for the strap"
    assert [each.note for each in several.clauses] == ["the middle", None]
    assert part('slot eye: at foot\n    14 mm long  "long"').clauses[1].note == "long"
    assert statement('piece a\n  cut 1 from b  "shoulder"').about[0].note == "shoulder"


def test_parts_at_the_margin_are_told_once_and_read() -> None:
    text = "piece back\n  point a: at (0, 0)\npoint b: at a\npoint c: at a\nmeasure rim = 3 mm\n"
    file, messages = parse(Source("margin.draft", text))
    assert [(message.code, message.at.line) for message in messages if message.at] == [("T41", 3)]
    assert [each.name.text for each in file.items[0].parts] == ["a", "b", "c"]
    assert isinstance(file.items[1], tree.Measure)


def test_a_whole_piece_at_the_margin_is_read() -> None:
    file, messages = parse(Source("margin.draft", "piece back\npoint a: at (0, 0)\noutline: a to b\n"))
    assert [message.code for message in messages] == ["T41"]
    assert len(file.items[0].parts) == 2


def test_statements_of_the_pattern_inside_a_piece_are_told_and_put_behind_it() -> None:
    text = 'piece back\n  point a: at (0, 0)\n  step "Cut."\n  join a.b with c.d\n  point b: at a\n'
    file, messages = parse(Source("astray.draft", text))
    assert [(message.code, message.at.line) for message in messages if message.at] == [("T42", 3)]
    assert [type(item) for item in file.items] == [tree.Piece, tree.Step, tree.Join]
    assert len(file.items[0].parts) == 2


def test_a_piece_inside_a_piece_begins_a_new_one() -> None:
    file, messages = parse(
        Source("nested.draft", "piece a\n  point p: at (0, 0)\n  piece b\n    point q: at (0, 0)\n")
    )
    assert [message.code for message in messages] == ["T42"]
    assert [[each.name.text for each in item.parts] for item in file.items] == [["p"], ["q"]]


def test_measures_below_the_title_are_told_once_and_read() -> None:
    text = 'pattern "x"\n  edition "1"\n  measure a = 1 mm\nmeasure b = 2 mm\n'
    file, messages = parse(Source("below.draft", text))
    assert [message.code for message in messages] == ["T42"]
    assert len(file.items) == 2
    assert file.header is not None
    assert file.header.edition == "1"


def test_a_heading_tells_its_lines_in_any_order_and_is_tidied_to_one() -> None:
    """`author` may be a name all the same."""
    text = 'pattern "x"\n  author "Ferry crew of the Ærø line"\n  licence "CC0-1.0"\nmeasure author = 2 mm\n'
    file, messages = parse(Source("heading.draft", text))
    assert not list(messages) and file.header is not None
    assert (file.header.author, file.header.licence) == ("Ferry crew of the Ærø line", "CC0-1.0")
    assert tidy(file).splitlines()[1:3] == ['  licence "CC0-1.0"', '  author "Ferry crew of the Ærø line"']


def test_uneven_lines_are_told_and_read() -> None:
    text = "piece a\n    point p: at (0, 0)\n  point q: at p\n    point r: at p\n"
    file, messages = parse(Source("uneven.draft", text))
    assert [(message.code, message.at.line) for message in messages if message.at] == [("T40", 3)]
    assert [each.name.text for each in file.items[0].parts] == ["p", "q", "r"]


def test_a_leg_that_is_not_deeper_is_told_and_read() -> None:
    file, messages = parse(Source("leg.draft", "piece a\n  outline: p to q\n  to r\n  point p: at (0, 0)\n"))
    assert [message.code for message in messages] == ["T44"]
    assert len(file.items[0].parts[0].clauses[0].legs) == 2


def test_parts_below_a_pattern_whose_piece_is_lost_are_told_once() -> None:
    text = 'pattern "x" piece b\n  point a: at (0, 0)\n  point c: at a\n  point d: at a\npiece e\n'
    assert codes(text) == ["T01", "T43"]


def test_lines_outside_of_anything_are_told_once() -> None:
    assert codes("point p: at (0, 0)\npoint q: at p\nmeasure a = 1 mm\npoint r: at p\n") == ["T43", "T43"]
