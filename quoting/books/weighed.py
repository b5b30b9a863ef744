"""The weighed settings as a book: a bar picture of the first dozen, and the table of all."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

from quoting.books.look import Book, BookColumn, BookSheet, new_book
from quoting.shop import Shop, StillExample

_COLUMNS = (
    BookColumn("", 5, "line"),
    BookColumn("Setting", 30, "text"),
    BookColumn("Where", 17, "quiet"),
    BookColumn("Now", 12, "right"),
    BookColumn("Low", 10, "right"),
    BookColumn("High", 10, "right"),
    BookColumn("With low", 11, "money"),
    BookColumn("With high", 11, "money"),
    BookColumn("Moves", 11, "money"),
    BookColumn("", 2, "text"),
    BookColumn("How to find your own in an hour", 62, "text"),
)
_SETTING, _LOW, _HIGH, _MOVES, _WAY = 1, 6, 7, 8, 10
_BARS, _PICTURE_ROWS = 12, 18
_NOTE = (
    "Low and high are our assumption, no source: a figure with a spread of its own at its ends, one of the "
    "machine a tenth off, any other a third lower and half as much higher. They only rank what to find first."
)


@dataclass(frozen=True, slots=True)
class WeighedSetting:
    """An example setting with what its low and high value add to the orders, and how many lines fall out."""

    example: StillExample
    low: Decimal
    high: Decimal
    lost: int

    @property
    def swing(self) -> Decimal:
        """Return how far the orders move between the two."""
        return max(self.low, self.high, Decimal(0)) - min(self.low, self.high, Decimal(0))


def write_weighed(
    found: Sequence[WeighedSetting], source: str, shop: Shop, path: Path, *, today: date
) -> None:
    """Write the settings, weightiest first, to `path` (.xlsx); `source` says what was priced with them."""
    with new_book(path, paper=shop.paper, created=today, title="Settings weighed", author=shop.name) as book:
        sheet = book.sheet("Settings", [column.width for column in _COLUMNS], footer=shop.name)
        sheet.text(0, 0, "Which example settings matter", "title line")
        sheet.wide(1, 0, len(_COLUMNS) - 1, f"Priced with each: {source}. {_NOTE}", "quiet")
        moving = [one for one in found if one.swing]
        top = 3 + (_PICTURE_ROWS if moving else 0)
        sheet.heads(top, _COLUMNS)
        sheet.raw.repeat_rows(top)
        for rank, one in enumerate(moving, 1):
            _row(sheet, top + rank, rank, one)
        rest = f"{len(found) - len(moving)} more example figures move none of these orders."
        sheet.wide(top + len(moving) + 2, 0, len(_COLUMNS) - 1, rest, "quiet")
        if moving:
            _picture(book, sheet, 3, top + 1, min(_BARS, len(moving)))


def _row(sheet: BookSheet, row: int, rank: int, one: WeighedSetting) -> None:
    example = one.example
    lost = f" {one.lost} lines cannot be made then." if one.lost else ""
    sheet.number(row, 0, rank, "whole rule")
    sheet.text(row, _SETTING, example.words, "text rule")
    sheet.text(row, 2, example.where, "quiet rule")
    for column, text in ((3, example.now), (4, example.low), (5, example.high)):
        sheet.text(row, column, text, "right rule")
    for column, money in ((_LOW, one.low), (_HIGH, one.high), (_MOVES, one.swing)):
        sheet.number(row, column, money, "money rule")
    sheet.text(row, _WAY - 1, "", "text rule")
    sheet.text(row, _WAY, example.way + lost, "text rule")


def _picture(book: Book, sheet: BookSheet, row: int, first: int, bars: int) -> None:
    chart: Any = book.raw.add_chart({"type": "bar", "subtype": "stacked"})
    for column, name, fill in ((_LOW, "with low", "#8FA6B2"), (_HIGH, "with high", "#1F3A4A")):
        chart.add_series(
            {
                "name": name,
                "categories": ["Settings", first, _SETTING, first + bars - 1, _SETTING],
                "values": ["Settings", first, column, first + bars - 1, column],
                "fill": {"color": fill},
                "gap": 40,
            }
        )
    chart.set_title({"name": "What the orders gain or lose", "name_font": {"size": 11}, "overlay": False})
    chart.set_y_axis({"reverse": True, "num_font": {"size": 9}, "label_position": "low"})
    chart.set_x_axis({"num_font": {"size": 9}, "num_format": "#,##0"})
    chart.set_legend({"position": "bottom"})
    chart.set_size({"width": 1000, "height": 340})
    sheet.raw.insert_chart(row, 1, chart)
