"""What all sheets of the run schedule share: the foot, clock times and days in cells."""

from __future__ import annotations

from datetime import date, datetime, time
from typing import Any

from quoting.books import Book, BookSheet

FOOT = "General cautions; local codes and the shop's own rules come first"

CLOCK = "hh:mm"
DAY_CLOCK = "ddd hh:mm"
DATE_CLOCK = "ddd d mmm hh:mm"
DAY = "ddd d mmm"


def look(book: Book, style: str, **more: Any) -> Any:
    """Return the cell format of our styles with a few properties of its own."""
    return book.raw.add_format(book.properties(style) | more)


def moment(
    sheet: BookSheet, row: int, column: int, value: datetime, pattern: str, style: str = "line"
) -> None:
    """Write a moment as a date and time that sorts, shown by `pattern`."""
    sheet.raw.write_datetime(row, column, value, look(sheet.book, style, num_format=pattern, align="left"))


def day(sheet: BookSheet, row: int, column: int, value: date | None, style: str = "line") -> None:
    """Write a day with its weekday, or that there is none."""
    if value is None:
        sheet.text(row, column, "no date", style)
        return
    moment(sheet, row, column, datetime.combine(value, time()), DAY, style)
