"""A table that lacks a whole column is one message, not a question for every line."""

from __future__ import annotations

from collections.abc import Sequence

from quoting.core import InputError
from quoting.intake.layout.find_tables import OrderTable
from quoting.intake.row_record import Record
from quoting.tables import Sheet

_ROUND = frozenset((
    "diameter", "radius", "large", "small", "top", "bottom", "size", "girth", "circumference", "chord",
    "arc_length", "nominal",
))  # fmt: skip
_NEEDED: tuple[tuple[str, frozenset[str], str], ...] = (
    ("quantity", frozenset(("quantity", "breaks")), "Qty"),
    ("thickness", frozenset(("thickness", "gauge", "size", "schedule")), "Thk (in)"),
    ("diameter", _ROUND, "ID (in) or OD (in)"),
    ("length", frozenset(("length", "width", "height", "slant", "size")), "Length (in)"),
)


def check_columns(tables: Sequence[tuple[Sheet, OrderTable]], records: Sequence[Record]) -> None:
    """Raise InputError when no line of the file has a value that its tables have no column for."""
    columns = [column for _, table in tables for column in table.columns]
    fields = {column.meaning.field for column in columns}
    if any(record.texts for record in records):
        return  # the sizes may stand in words: each line asks for what it lacks
    lacking = [
        (name, header)
        for name, holders, header in _NEEDED
        if not fields & holders and records and all(_missing(record, name) for record in records)
    ]
    if not lacking:
        return
    sheet, table = tables[0]
    unknown = [column.header for column in columns if not column.meaning.field]
    raise InputError(
        f"no column gives the {' or the '.join(name for name, _ in lacking)}",
        place=sheet.place(table.first_row),
        read=", ".join(unknown or [column.header for column in table.columns])[:80],
        would_do=f"head it {', '.join(header for _, header in lacking)}, or pin the columns of this customer",
    )


def _missing(record: Record, name: str) -> bool:
    doubt = record.doubts.get(name)
    return doubt is not None and not doubt.read
