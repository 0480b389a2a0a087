"""Lines with headings in braces, `{name}, {town}`, filled from a row."""

from __future__ import annotations

import re

from drafting.drawing.roster.feeds import heading_line
from drafting.text.catalogue import roster as says
from drafting.text.messages import Messages, did_you_mean
from drafting.text.table import Row, Table

FIELD = re.compile(r"\{([^{}]*)\}")


def expect_headings(template: str, table: Table, messages: Messages) -> None:
    """Every heading in braces is one of the table's, and every brace has its other half."""
    listed = ", ".join(f"`{{{heading}}}`" for heading in table.headings)
    at = heading_line(table)
    if set("{}") & set(FIELD.sub("", template)):
        messages.add(says.LONE_BRACE, at=at, template=template, headings=listed)
    for wanted in FIELD.findall(template):
        if table.heading(wanted) is None:
            near = did_you_mean(wanted, table.headings)
            messages.add(
                says.UNFIT_TEMPLATE, at=at, template=template, column=wanted, headings=listed, near=near
            )


def filled(template: str, table: Table, row: Row) -> str:
    """What is left without a word, such as a lone comma between two empty cells, is nothing."""
    fields = FIELD.findall(template)
    if fields and not any(row.cells[table.heading(name) or ""].text for name in fields):
        return ""
    return FIELD.sub(lambda found: row.cells[table.heading(found[1]) or ""].text, template).strip(" ,;")
