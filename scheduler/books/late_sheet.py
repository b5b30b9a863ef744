"""Every late line with what would cure it, and every line left out."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from quoting.books import Book, BookColumn, BookSheet
from scheduler.books.cells import DATE_CLOCK, FOOT, day, moment
from scheduler.cures import others_words, outcome_words, price_words, tried_words
from scheduler.week import Cure, Late, WeekPlan

LATE_ON_FIRST_PAGE = 8
LEFT_OUT_ON_FIRST_PAGE = 3
_COLUMNS = (
    BookColumn("Line", 12, "bold"),
    BookColumn("Customer", 28),
    BookColumn("Part", 52),
    BookColumn("Finish", 16, "line"),
    BookColumn("Due", 12, "line"),
    BookColumn("Days late", 7, "whole"),
    BookColumn("Late money", 12, "money"),
)
_LAST = len(_COLUMNS) - 1
_HOW = (
    "Cures are worked out by planning again with one thing changed: the line put ahead, overtime, a "
    "Saturday, a wish dropped, another roll, its plate sooner, two lots. Money is what the whole plan then "
    "costs more or less: set-ups, lateness, overtime and dearer rolls."
)


def latest_first(week: WeekPlan) -> Sequence[Late]:
    """Return the late lines, the one that is late by most days first, of equals the dearest."""
    return sorted(week.late, key=lambda late: (-late.days, -late.cost, late.line.id))


def overflows(week: WeekPlan) -> bool:
    """Return whether the first page cannot hold every late line and every line left out."""
    return len(week.late) > LATE_ON_FIRST_PAGE or len(week.unplanned) > LEFT_OUT_ON_FIRST_PAGE


def late_sheet(book: Book, week: WeekPlan) -> None:
    """Write the sheet "Late and left out" when there are cures or the first page cannot hold all lines."""
    looked = any(late.tried for late in week.late)
    if not overflows(week) and not looked:
        return
    sheet = book.sheet("Late and left out", [column.width for column in _COLUMNS], footer=FOOT)
    cures = ", and what would cure them" if looked else ""
    sheet.text(0, 0, f"Late lines, the latest first{cures}", "title line")
    if looked:
        sheet.wide(1, 0, _LAST, _HOW, "quiet")
    sheet.heads(3, _COLUMNS)
    sheet.raw.repeat_rows(3)
    row = 4
    for late in latest_first(week):
        _late(sheet, row, late)
        row += 1
        if looked:
            row = _cures(sheet, row, late, week.currency)
    if not week.late:
        sheet.wide(row, 0, _LAST, "Every line with a date keeps it.", "text")
        row += 1
    row = _left_out(sheet, row + 1, week)
    sheet.raw.print_area(0, 0, row - 1, _LAST)


def _late(sheet: BookSheet, row: int, late: Late) -> None:
    sheet.text(row, 0, late.line.id, "bold rule")
    sheet.text(row, 1, late.line.customer, "text rule")
    sheet.text(row, 2, f"{late.line.ordered} × {late.line.part}", "text rule")
    moment(sheet, row, 3, late.finish, DATE_CLOCK, "line rule")
    day(sheet, row, 4, late.due, "line rule")
    sheet.number(row, 5, late.days, "whole rule")
    sheet.number(row, 6, late.cost.quantize(Decimal("0.01")), "money rule")


def _cures(sheet: BookSheet, row: int, late: Late, currency: str) -> int:
    for cure in late.cures:
        _cure(sheet, row, cure, currency)
        row += 1
    if not late.cures:
        words = (
            f"No change tried cures it ({tried_words(late)})."
            if late.tried
            else "Not looked into at this effort."
        )
        sheet.wide(row, 1, _LAST, words, "quiet")
        row += 1
    return row


def _cure(sheet: BookSheet, row: int, cure: Cure, currency: str) -> None:
    """Write what to do; beside it what comes of it, what it costs and whom it hurts."""
    sheet.wide(row, 1, 2, cure.do[0].upper() + cure.do[1:], "text")
    comes = f"{outcome_words(cure)}: {price_words(cure, currency)}; {others_words(cure)}"
    sheet.wide(row, 3, _LAST, comes[0].upper() + comes[1:], "text")


def _left_out(sheet: BookSheet, row: int, week: WeekPlan) -> int:
    if not week.unplanned:
        return row
    sheet.wide(row, 0, _LAST, "Not planned, and why", "section")
    row += 1
    for item in week.unplanned:
        sheet.text(row, 0, item.line.id, "bold rule")
        sheet.text(row, 1, item.line.customer, "text rule")
        sheet.wide(row, 2, _LAST, item.reason, "text rule")
        row += 1
    return row
