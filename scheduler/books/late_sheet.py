"""Every late line and every line left out, when there are more of them than the first page holds."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from quoting.books.style import Book, Column, Sheet
from scheduler.books.cells import DATE_CLOCK, FOOT, day, moment
from scheduler.week import Late, WeekPlan

LATE_ON_FIRST_PAGE = 8
LEFT_OUT_ON_FIRST_PAGE = 3
_COLUMNS = (
    Column("Line", 12, "bold"),
    Column("Customer", 28),
    Column("Part", 46),
    Column("Finish", 16, "line"),
    Column("Due", 12, "line"),
    Column("Days late", 7, "whole"),
    Column("Late money", 12, "money"),
)


def latest_first(week: WeekPlan) -> Sequence[Late]:
    """Return the late lines, the one that is late by most days first, of equals the dearest."""
    return sorted(week.late, key=lambda late: (-late.days, -late.cost, late.line.id))


def overflows(week: WeekPlan) -> bool:
    """Return whether the first page cannot hold every late line and every line left out."""
    return len(week.late) > LATE_ON_FIRST_PAGE or len(week.unplanned) > LEFT_OUT_ON_FIRST_PAGE


def late_sheet(book: Book, week: WeekPlan) -> None:
    """Write the sheet "Late and left out" when the first page cannot hold them all."""
    if not overflows(week):
        return
    sheet = book.sheet("Late and left out", [column.width for column in _COLUMNS], footer=FOOT)
    sheet.text(0, 0, "Late lines, the latest first", "title line")
    sheet.heads(2, _COLUMNS)
    sheet.raw.repeat_rows(2)
    row = 3
    for late in latest_first(week):
        _late(sheet, row, late)
        row += 1
    if not week.late:
        sheet.wide(row, 0, 6, "Every line with a date keeps it.", "text")
        row += 1
    row = _left_out(sheet, row + 1, week)
    sheet.raw.print_area(0, 0, row - 1, len(_COLUMNS) - 1)


def _late(sheet: Sheet, row: int, late: Late) -> None:
    sheet.text(row, 0, late.line.id, "bold rule")
    sheet.text(row, 1, late.line.customer, "text rule")
    sheet.text(row, 2, f"{late.line.quantity} × {late.line.part}", "text rule")
    moment(sheet, row, 3, late.finish, DATE_CLOCK, "line rule")
    day(sheet, row, 4, late.due, "line rule")
    sheet.number(row, 5, late.days, "whole rule")
    sheet.number(row, 6, late.cost.quantize(Decimal("0.01")), "money rule")


def _left_out(sheet: Sheet, row: int, week: WeekPlan) -> int:
    if not week.unplanned:
        return row
    sheet.wide(row, 0, 6, "Not planned, and why", "section")
    row += 1
    for item in week.unplanned:
        sheet.text(row, 0, item.line.id, "bold rule")
        sheet.text(row, 1, item.line.customer, "text rule")
        sheet.wide(row, 2, 6, item.reason, "text rule")
        row += 1
    return row
