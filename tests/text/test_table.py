"""Tables of people: the form of RFC 4180, in any encoding that is said, with every fault at its place."""

from __future__ import annotations

import csv
from io import StringIO

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting.text.table import Table, table_of


def read(data: bytes | str, **how: str) -> Table:
    table, messages = table_of(data.encode() if isinstance(data, str) else data, "crew.csv", **how)
    assert table is not None, [message.says for message in messages]
    return table


def rows(table: Table) -> list[tuple[str, ...]]:
    return [row.texts for row in table.rows]


def codes(data: bytes | str, **how: str) -> list[str]:
    table, messages = table_of(data.encode() if isinstance(data, str) else data, "crew.csv", **how)
    assert table is None or messages.has_errors
    return [message.code for message in messages]


@pytest.mark.parametrize(
    "data",
    [
        b"name,voice\nOna,alto\n",
        b"\xef\xbb\xbfname,voice\r\nOna,alto\r\n",
        b"name;voice\rOna;alto",
        b"\n\nname\tvoice\nOna\talto\n\n",
        b' "name" , "voice"\n"Ona",  alto \n',
        "name,voice\nOna,alto\n".encode("utf-16"),
        "name,voice\nOna,alto\n".encode("utf-32"),
    ],
)
def test_a_table_in_any_form_that_is_known(data: bytes) -> None:
    assert (read(data).headings, rows(read(data))) == (("name", "voice"), [("Ona", "alto")])


def test_quotes_separators_and_line_ends_stand_inside_quotes() -> None:
    table = read('name,town\n"Vale, ""Ona""","Low\nHarbour"\nTam,Quay\n')
    assert rows(table) == [('Vale, "Ona"', "Low\nHarbour"), ("Tam", "Quay")]
    assert [row.line for row in table.rows] == [2, 4]
    assert table.rows[1].cells["town"].at.text == "Quay"


def test_an_encoding_that_is_said_is_taken() -> None:
    assert rows(read("name\nJosé\n".encode("cp1252"), encoding="cp1252")) == [("José",)]
    assert rows(read("name\nЛуция\n".encode("koi8-r"), encoding="koi8-r")) == [("Луция",)]


def test_another_encoding_is_told_with_how_it_would_read() -> None:
    _, messages = table_of("name\nOna\nJosé\n".encode("cp1252"), "crew.csv")
    (message,) = messages
    assert message.says == "Line 3 of `crew.csv` is no text in the encoding utf-8."
    assert "`--encoding cp1252` if it reads `José`" in message.mend


def test_the_separator_is_the_one_that_divides_every_row() -> None:
    assert rows(read("name;town, quay\nOna;Low\nTam;High\n")) == [("Ona", "Low"), ("Tam", "High")]
    assert codes("name,a;b\nx,y;z\n") == ["C132"]
    assert rows(read("name,a;b\nx,y;z\n", separator=";")) == [("x,y", "z")]
    assert rows(read("name\nOna\n")) == [("Ona",)]


@pytest.mark.parametrize(
    ("data", "found"),
    [
        ("", ["C133"]),
        ("\n , \n", ["C133"]),
        ("name,voice\n", ["C134"]),
        ("name,voice\nOna\nTam,bass,2\n", ["C135", "C135"]),
        ("name,Name \nOna,x\n", ["C136"]),
        ('name,voice\nOna,"alto\nTam,bass\n', ["C137"]),
        (b"name\nOna\0\n", ["C131"]),
        ("name\nOna\n".encode("utf-16-le"), ["C131"]),
    ],
)
def test_what_is_no_table_is_told(data: bytes | str, found: list[str]) -> None:
    assert codes(data) == found


def test_headings_are_found_capitals_and_blanks_aside() -> None:
    table = read("Full  name,Größe\nOna,M\n")
    assert table.heading("full name") == "Full  name"
    assert table.heading("GRÖSSE") == "Größe"
    assert table.heading("town") is None


def test_columns_without_a_heading_are_passed_over() -> None:
    table = read("name,,\nOna,,x\n")
    assert (table.headings, rows(table)) == (("name",), [("Ona",)])


CELLS = st.text(
    st.characters(codec="utf-8", exclude_categories=["Cs", "Cc"], include_characters="\n"), max_size=8
)


@settings(max_examples=60)
@given(st.lists(st.tuples(CELLS, CELLS), min_size=1, max_size=5), st.sampled_from(",;\t"))
def test_what_the_standard_writer_writes_is_read_back(cells: list[tuple[str, str]], separator: str) -> None:
    """csv of the standard library is the outside truth; blanks round a cell are not kept here."""
    held = StringIO()
    writer = csv.writer(held, delimiter=separator, quoting=csv.QUOTE_ALL, lineterminator="\r\n")
    writer.writerows([("first", "second"), *cells])
    found = rows(read(held.getvalue(), separator=separator))
    assert found == [tuple(cell.strip() for cell in row) for row in cells]
