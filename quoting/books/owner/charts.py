"""The charts of the owner's page, drawn by the spreadsheet program from the tables beside them."""

from __future__ import annotations

from typing import Any

from quoting.books.look import Book, BookSheet
from quoting.books.owner.tables import AN_HOUR, TablePlace

_SHEET = "Owner"
_FILLS = ("#1F3A4A", "#8FA6B2", "#D3DCE1", "#5E7F63", "#B9CDB5", "#A89B6A")
"""Dark to light, so that they differ in grey as well."""
_HIGH = 320


def hour_chart(book: Book, sheet: BookSheet, row: int, column: int, table: TablePlace) -> None:
    """Draw what an hour on the roll earns, customer by customer."""
    if not table.rows:
        return
    last = table.first + table.rows - 1
    chart = book.raw.add_chart({"type": "bar"})
    chart.add_series(
        {
            "name": "Profit a roll hour",
            "categories": [_SHEET, table.first, 0, last, 0],
            "values": [_SHEET, table.first, AN_HOUR, last, AN_HOUR],
            "fill": {"color": _FILLS[1]},
            "border": {"color": _FILLS[0]},
            "gap": 60,
            "data_labels": {"value": True, "num_format": "#,##0", "font": {"size": 9}},
        }
    )
    _dress(chart, "What an hour on the roll earns, by customer")
    chart.set_legend({"none": True})
    chart.set_y_axis({"reverse": True, "num_font": {"size": 9}})
    chart.set_x_axis({"visible": False, "major_gridlines": {"visible": False}})
    _insert(sheet, row, column, chart, 505)


def week_chart(book: Book, sheet: BookSheet, row: int, column: int, table: TablePlace) -> None:
    """Draw the quoted hours of each roll by week, and the hours that one roll is open."""
    if not table.rows or table.capacity_column is None:
        return
    last = table.first + table.rows - 1
    chart = book.raw.add_chart({"type": "column"})
    for index in range(1, table.last_column + 1):
        chart.add_series(
            {
                "name": [_SHEET, table.first - 1, index],
                "categories": [_SHEET, table.first, 0, last, 0],
                "values": [_SHEET, table.first, index, last, index],
                "fill": {"color": _FILLS[(index - 1) % len(_FILLS)]},
                "border": {"color": _FILLS[0]},
                "gap": 60,
            }
        )
    line = book.raw.add_chart({"type": "line"})
    line.add_series(
        {
            "name": "One roll is open",
            "categories": [_SHEET, table.first, 0, last, 0],
            "values": [_SHEET, table.first, table.capacity_column, last, table.capacity_column],
            "line": {"color": "#000000", "dash_type": "dash", "width": 1.5},
        }
    )
    chart.combine(line)
    _dress(chart, "Quoted hours by week, if all is won")
    chart.set_legend({"position": "bottom", "font": {"size": 9}})
    chart.set_x_axis({"num_font": {"size": 8}})
    _insert(sheet, row, column, chart, 520)


def yield_chart(book: Book, sheet: BookSheet, row: int, column: int, table: TablePlace) -> None:
    """Draw how much of the plate became parts, material by material."""
    if not table.rows:
        return
    last = table.first + table.rows - 1
    chart = book.raw.add_chart({"type": "column"})
    chart.add_series(
        {
            "name": "Yield",
            "categories": [_SHEET, table.first, 0, last, 0],
            "values": [_SHEET, table.first, table.last_column, last, table.last_column],
            "fill": {"color": _FILLS[1]},
            "border": {"color": _FILLS[0]},
            "gap": 60,
            "data_labels": {"value": True, "num_format": "0%", "font": {"size": 9}},
        }
    )
    _dress(chart, "How much of the plate became parts")
    chart.set_legend({"none": True})
    chart.set_y_axis({"min": 0, "max": 1, "num_format": "0%", "major_gridlines": {"visible": False}})
    _insert(sheet, row, column, chart, 1000)


def _dress(chart: Any, title: str) -> None:
    chart.set_title({"name": title, "name_font": {"size": 11}, "overlay": False})
    chart.set_chartarea({"border": {"none": True}})


def _insert(sheet: BookSheet, row: int, column: int, chart: Any, width: int) -> None:
    chart.set_size({"width": width, "height": _HIGH})
    sheet.raw.insert_chart(row, column, chart, {"object_position": 2, "x_offset": 4, "y_offset": 4})
