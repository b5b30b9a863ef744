"""The picture of the first days on the sheet "Week", of further days on sheets of their own."""

from __future__ import annotations

from io import BytesIO
from math import ceil

from quoting.books import Book, BookSheet
from scheduler.books.cells import FOOT
from scheduler.books.gantt.picture import gantt_picture
from scheduler.books.gantt.time_axis import DayAxis, axes_of
from scheduler.calendar import day_short
from scheduler.week import WeekPlan

_ROW_POINTS = 15.0
_COLUMNS = (13.3,) * 10


def gantt_sheets(book: Book, week: WeekPlan) -> None:
    """Write a sheet with a picture for every few worked days after the first ones."""
    for axis in axes_of(week)[1:]:
        sheet = book.sheet(f"Gantt from {day_short(axis.days[0])[4:]}", _COLUMNS, footer=FOOT)
        sheet.raw.fit_to_pages(1, 1)
        sheet.text(0, 0, axis_words(axis), "title line")
        last = put_gantt(sheet, 2, week, axis, room_in=6.2)
        sheet.raw.print_area(0, 0, last, len(_COLUMNS) - 1)


def axis_words(axis: DayAxis) -> str:
    """Return the days of a picture in words."""
    first, last = axis.days[0], axis.days[-1]
    return f"{day_short(first)} to {day_short(last)} {last.year}" if first != last else day_short(first)


def width_in(sheet: BookSheet) -> float:
    """Return the width of a sheet's columns in inches (7 px a character and 5 px a column, 96 px an inch)."""
    return sum(7 * width + 5 for width in sheet.widths) / 96


def put_gantt(sheet: BookSheet, row: int, week: WeekPlan, axis: DayAxis, *, room_in: float) -> int:
    """Put the picture of some days at a row, no higher than `room_in`; return the last row it covers."""
    height = min(room_in, 0.8 + 0.95 * (len(week.rolls) + len(week.stations)))
    picture = gantt_picture(week, axis, width_in=width_in(sheet), height_in=height)
    sheet.raw.insert_image(
        row,
        0,
        "gantt.png",
        {
            "image_data": BytesIO(picture),
            "object_position": 2,
            "description": f"Gantt of {axis_words(axis)}: rolls and cutting stations over the days",
        },
    )
    return row + ceil(height * 72 / _ROW_POINTS)
