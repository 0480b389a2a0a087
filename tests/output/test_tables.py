"""Tables as text, Markdown, CSV and JSON."""

from __future__ import annotations

import csv
import io

from drafting.drawing.lists import Table
from drafting.output.tables import to_csv, to_json, to_markdown, to_text

TABLE = Table.of("Parts", "part | >count", [("face|front", "12"), ("皮革", "3")], ["All of them."])


def test_columns_of_text_stand_under_their_names() -> None:
    assert (
        to_text([TABLE])
        == "Parts\n  part        count\n  face|front     12\n  皮革            3\nAll of them.\n"
    )


def test_markdown_keeps_a_bar_inside_its_cell() -> None:
    assert to_markdown([TABLE]).splitlines() == [
        "## Parts", "", "| part | count |", "| --- | ---: |", "| face\\|front | 12 |", "| 皮革 | 3 |", "", "All of them.",
    ]  # fmt: skip


def test_a_csv_reads_back() -> None:
    rows = [{"name": 'said "so", twice', "long": 1.5}, {"name": "two\nlines", "long": None}, {"name": "bare"}]
    read = list(csv.DictReader(io.StringIO(to_csv(("name", "long"), rows))))
    assert read == [{"name": row["name"], "long": str(row.get("long") or "")} for row in rows]


def test_json_keeps_every_script() -> None:
    assert to_json({"näme": "皮"}) == '{\n  "näme": "皮"\n}\n'


def test_a_column_that_says_nothing_is_left_out() -> None:
    assert [column.name for column in Table.of("", "a | b", [("1", ""), ("2", "")]).filled.columns] == ["a"]
