"""Writes the tables of a rack into a workbook that a shop goes on filling in by hand."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime, timedelta
from typing import Any

from quoting.books.look import cell_text
from quoting.books.rack_after.copy import RackSheet
from quoting.core import PAPERS
from quoting.shop import add_list, as_text, set_up_page

_SPARE_ROWS = 200
_NARROWEST, _WIDEST = 9, 26
_NAME_LENGTH = 31
"""Characters that the name of a sheet may have (limit of the file format)."""
_LISTS = {
    "edge": ("mill", "trimmed"),
    "per": ("lb", "kg", "plate"),
    "remnant": ("yes", "no"),
    "grain": ("length", "width"),
}
_PRICES = ("price", "price_kg", "price_lb", "price_plate")


def write_table(book: Any, formats: Mapping[str, Any], table: RackSheet, paper: str) -> None:
    """Add a sheet of the rack with all its cells, in the look of a rack that the shop fills in."""
    page = book.add_worksheet(cell_text(table.name)[:_NAME_LENGTH])
    page.set_paper(PAPERS[paper].workbook_code)
    rows = [cells for index, cells in enumerate(table.rows) if index not in table.gone]
    header = -1 if table.header is None else table.header
    money = {table.columns[name] for name in _PRICES if name in table.columns}
    across = len(rows[header]) if header >= 0 else 0
    for number, cells in enumerate(rows):
        padding = [""] * (across - len(cells)) if number > header else []
        for column, value in enumerate([*cells, *padding]):
            style = _style(number - header, column in money, value)
            _write(page, number, column, value, formats, style)
    for column, width in enumerate(_widths(table)):
        page.set_column(column, column, width)
    if table.header is None:
        return
    page.set_row(header, 30)
    page.freeze_panes(header + 1, 1)
    for name, words in _LISTS.items():
        if name in table.columns:
            add_list(page, (header + 1, len(rows) + _SPARE_ROWS), table.columns[name], words)
    last_column = max(len(cells) for cells in table.rows) - 1
    set_up_page(page, header_row=header, last_row=len(rows), last_column=last_column)


def _style(below_header: int, money: bool, value: Any) -> str:
    """Return the style of a cell: title rows above the headings, the headings, then text and numbers."""
    if below_header < 0:
        return "note"
    if below_header == 0:
        return "head"
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        return "money" if money else "number"
    return "date" if isinstance(value, date) else "text"


def _write(page: Any, row: int, column: int, value: Any, formats: Mapping[str, Any], style: str) -> None:
    """Write a cell as the kind of value it is; text stays text."""
    form = formats[style]
    if value is None or value == "":
        if style not in ("note", "head"):
            page.write_blank(row, column, None, form)
    elif isinstance(value, bool):
        page.write_boolean(row, column, value, form)
    elif isinstance(value, (int, float)):
        page.write_number(row, column, value, form)
    elif isinstance(value, datetime):
        page.write_datetime(row, column, value, form)
    elif isinstance(value, date):
        page.write_datetime(row, column, datetime(value.year, value.month, value.day), form)
    elif isinstance(value, timedelta):
        page.write_string(row, column, str(value), form)
    else:
        page.write_string(row, column, cell_text(str(value)), form)


def _widths(table: RackSheet) -> list[float]:
    """Return a width for each column: its longest text from the headings down, within reason."""
    count = max((len(cells) for cells in table.rows), default=0)
    body = table.rows[(table.header or 0) :]
    longest = [
        max((len(as_text(cells[k])) for cells in body if k < len(cells)), default=0) for k in range(count)
    ]
    return [min(max(_NARROWEST, width + 2), _WIDEST) for width in longest]
