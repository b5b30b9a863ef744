"""A sheet that is one table under its title."""

from __future__ import annotations

from collections.abc import Sequence

from quoting.books.look.style import Book, BookColumn, BookSheet

TABLE_HEAD = 3
"""The row of a table's heads; its first line is the next one."""


def table_sheet(book: Book, name: str, columns: Sequence[BookColumn], says: str) -> BookSheet:
    """Add a sheet with its title, what it `says`, and heads that stand on each page."""
    sheet = book.sheet(name, [column.width for column in columns], landscape=len(columns) > 7)
    sheet.text(0, 0, name, "title line")
    sheet.wide(1, 0, len(columns) - 1, says, "quiet")
    sheet.heads(TABLE_HEAD, columns)
    sheet.raw.repeat_rows(TABLE_HEAD)
    return sheet
