"""The first sheet: what matters this week on one page, late lines first, with the picture of the week."""

from __future__ import annotations

from decimal import Decimal

from quoting.books.style import Book, Sheet
from scheduler.books.cells import DATE_CLOCK, FOOT, day, moment
from scheduler.books.days import day_short, hours_words, week_number
from scheduler.books.gantt_axis import axes_of
from scheduler.books.gantt_sheet import put_gantt, width_in
from scheduler.books.late_sheet import LATE_ON_FIRST_PAGE, LEFT_OUT_ON_FIRST_PAGE, latest_first, overflows
from scheduler.books.worth import cost_words, price_of_saving, proof_words
from scheduler.sequence import Plan
from scheduler.week import WeekPlan

SHEET = "Week"
_WIDTHS = (11.0, 24.0, 16.5, 11.0, 7.0, 2.0, 19.0, 10.0, 10.5, 10.5, 10.0, 12.0)
_LINE, _CUSTOMER, _FINISH, _DUE, _DAYS = range(5)
_NAME, _LAST = 6, 11
_LOADS = 9
_PAGE_RATIO = 0.66
"""Height over width between the margins of A4 landscape, the lower of the two papers."""


def week_sheet(book: Book, week: WeekPlan) -> None:
    """Write the sheet "Week", always on one page."""
    sheet = book.sheet(SHEET, _WIDTHS, footer=FOOT)
    sheet.raw.fit_to_pages(1, 1)
    sheet.text(0, 0, f"Run schedule from {day_short(week.start)} {week.start.year}", "title line")
    sheet.text(1, 0, _sum_words(week), "line")
    row = max(_notes(sheet, _left_out(sheet, _late(sheet, 3, week), week), week), _right(sheet, 3, week))
    axes = axes_of(week)
    if axes:
        row += 1
        used = sum(sheet.points(above) for above in range(row)) / 72
        room = max(3.2, width_in(sheet) * _PAGE_RATIO - used)
        row = put_gantt(sheet, row, week, axes[0], room_in=room)
        if len(axes) > 1:
            sheet.wide(row, 0, _LAST, "Further days: see the sheets named Gantt.", "quiet")
            row += 1
    sheet.raw.print_area(0, 0, row, _LAST)


def _sum_words(week: WeekPlan) -> str:
    if not week.slots:
        return f"{week.shop} · nothing is planned"
    lines = {slot.line.id for slot in week.slots if slot.line}
    finish = week.last_finish
    last = f" · last finish {day_short(finish)} {finish:%H:%M}" if finish else ""
    late = f"{len(week.late)} late" if week.late else "none late"
    plates = sum(slot.work.plate is not None for slot in week.slots)
    return (
        f"{week.shop} · {len(lines)} lines, {late} · {plates} plates to cut"
        f" · {hours_words(week.roll_minutes)} on the rolls{last}"
    )


def _late(sheet: Sheet, row: int, week: WeekPlan) -> int:
    sheet.wide(row, _LINE, _DAYS, "Late lines", "section")
    if not week.late:
        sheet.wide(row + 1, _LINE, _DAYS, "None: every line with a date keeps it.", "text")
        return row + 3
    for column, words in enumerate(("Line", "Customer", "Finish", "Due", "Days late")):
        sheet.head(row + 1, column, words, "whole" if column == _DAYS else "")
    row += 2
    for late in latest_first(week)[:LATE_ON_FIRST_PAGE]:
        sheet.text(row, _LINE, late.line.id, "bold rule")
        sheet.text(row, _CUSTOMER, late.line.customer, "text rule")
        moment(sheet, row, _FINISH, late.finish, DATE_CLOCK, "line rule")
        day(sheet, row, _DUE, late.due, "line rule")
        sheet.number(row, _DAYS, late.days, "bold whole rule")
        row += 1
    more = len(week.late) - LATE_ON_FIRST_PAGE
    if more > 0:
        sheet.wide(row, _LINE, _DAYS, f"and {more} more on the sheet Late and left out", "quiet")
        row += 1
    return row + 1


def _left_out(sheet: Sheet, row: int, week: WeekPlan) -> int:
    if not week.unplanned:
        return row
    sheet.wide(row, _LINE, _DAYS, "Not planned, and why", "section")
    row += 1
    for item in week.unplanned[:LEFT_OUT_ON_FIRST_PAGE]:
        sheet.text(row, _LINE, item.line.id, "bold rule")
        sheet.wide(row, _CUSTOMER, _DAYS, f"{item.line.customer}: {item.reason}", "text rule")
        row += 1
    more = len(week.unplanned) - LEFT_OUT_ON_FIRST_PAGE
    if more > 0 and overflows(week):
        sheet.wide(row, _LINE, _DAYS, f"and {more} more on the sheet Late and left out", "quiet")
        row += 1
    return row + 1


def _notes(sheet: Sheet, row: int, week: WeekPlan) -> int:
    if not week.notes:
        return row
    sheet.wide(row, _LINE, _DAYS, "Notes", "section")
    for note in week.notes:
        row += 1
        sheet.wide(row, _LINE, _DAYS, note, "text")
    return row + 2


def _right(sheet: Sheet, row: int, week: WeekPlan) -> int:
    row = _loads(sheet, row, week)
    row = _savings(sheet, row, week)
    sheet.wide(row, _NAME, _LAST, "How good this order is", "section")
    for words in (cost_words(week.plan, week.currency), proof_words(week.plan, week.currency)):
        row += 1
        sheet.wide(row, _NAME, _LAST, words, "text")
    return row + 1


def _heads(sheet: Sheet, row: int, words: tuple[str, ...]) -> None:
    for column, text in enumerate(words, _NAME):
        sheet.head(row, column, text, "whole" if column > _NAME else "")


def _loads(sheet: Sheet, row: int, week: WeekPlan) -> int:
    loads = sorted((load for load in week.loads if load.machine in week.rolls), key=lambda load: load.monday)
    sheet.wide(row, _NAME, _LAST, "Rolls: load against open time", "section")
    _heads(sheet, row + 1, ("Roll", "Week", "Open h", "Set-up h", "Run h", "Used"))
    row += 2
    for load in loads[:_LOADS]:
        sheet.text(row, _NAME, load.machine, "bold rule")
        sheet.number(row, _NAME + 1, week_number(load.monday), "whole rule")
        for column, minutes in enumerate(
            (load.open_minutes, load.setup_minutes, load.run_minutes), _NAME + 2
        ):
            sheet.number(row, column, minutes / 60, "number rule")
        sheet.number(row, _LAST, load.share, "bold percent rule")
        row += 1
    if len(loads) > _LOADS:
        sheet.wide(row, _NAME, _LAST, "Further weeks and the cutting stations: see the sheet Load.", "quiet")
        row += 1
    return row + 1


def _savings(sheet: Sheet, row: int, week: WeekPlan) -> int:
    if not week.savings:
        return row
    sheet.wide(row, _NAME, _LAST, f"What this order saves, money in {week.currency}", "section")
    _heads(
        sheet,
        row + 1,
        ("Order", "Set-up min", "Late money", "All money", "Set-up min saved", "Late money a saved min"),
    )
    row += 2
    _order(sheet, row, "As planned", week.plan)
    sheet.fill(row, (_LAST - 1, _LAST), "line rule")
    for saving in week.savings:
        row += 1
        _order(sheet, row, saving.name.capitalize(), saving.plain)
        sheet.number(row, _LAST - 1, saving.setup_minutes, "bold whole rule")
        each = price_of_saving(saving)
        if isinstance(each, Decimal):
            sheet.number(row, _LAST, each, "money rule")
        else:
            sheet.text(row, _LAST, each, "right rule")
    return row + 2


def _order(sheet: Sheet, row: int, name: str, plan: Plan) -> None:
    sheet.text(row, _NAME, name, "bold rule")
    sheet.number(row, _NAME + 1, plan.setup_minutes, "whole rule")
    sheet.number(row, _NAME + 2, plan.cost.lateness, "money rule")
    sheet.number(row, _NAME + 3, plan.total, "money rule")
