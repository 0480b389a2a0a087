"""Lists as data: tables for the eye, records for machines. Takes an Order or sizes; knows no format of a file."""

from __future__ import annotations

from drafting.drawing.lists.order_records import ROW, order_record, order_rows
from drafting.drawing.lists.order_tables import order_tables
from drafting.drawing.lists.size_tables import size_columns, size_record, size_records, size_table
from drafting.drawing.lists.table import Column, Table

__all__ = [
    "ROW",
    "Column",
    "Table",
    "order_record",
    "order_rows",
    "order_tables",
    "size_columns",
    "size_record",
    "size_records",
    "size_table",
]
