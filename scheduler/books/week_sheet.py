"""The first sheet: what matters this week on one page, late lines first, with the picture of the week."""

from __future__ import annotations

from datetime import datetime

from quoting.books import Book, BookSheet
from scheduler.books.cells import DATE_CLOCK, FOOT, day, moment
from scheduler.books.gantt import axes_of, put_gantt, width_in
from scheduler.books.late_sheet import LATE_ON_FIRST_PAGE, LEFT_OUT_ON_FIRST_PAGE, latest_first, overflows
from scheduler.books.worth import cost_words, proof_words, saving_words, slack_words
from scheduler.calendar import day_short, hours_words, week_number
from scheduler.cures import best_words
from scheduler.jobs import WonLine
from scheduler.sequence import Plan
from scheduler.week import MachineLoad, WeekPlan

SHEET = "Week"
_WIDTHS = (11.0, 33.0, 17.0, 11.5, 11.0, 2.5, 22.0, 12.5, 12.5, 12.5, 12.5, 12.5)
_LINE, _CUSTOMER, _FINISH, _DUE, _DAYS = range(5)
_NAME, _LAST = 6, 11
_BY_HAND = (
    "By hand: whenever a machine is free it takes, of the jobs that are ready there, the first in that "
    "order; on the quoted roll, without overtime."
)
_PAGE_RATIO = 0.66
"""Height over width between the margins of A4 landscape, the lower of the two papers."""


def week_sheet(book: Book, week: WeekPlan) -> None:
    """Write the sheet "Week", always on one page."""
    sheet = book.sheet(SHEET, _WIDTHS, footer=FOOT)
    sheet.raw.fit_to_pages(1, 1)
    sheet.text(0, 0, f"Run schedule from {day_short(week.start)} {week.start.year}", "title line")
    sheet.text(1, 0, _sum_words(week), "line")
    row = max(_left(sheet, 3, week), _right(sheet, 3, week))
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


def _left(sheet: BookSheet, row: int, week: WeekPlan) -> int:
    for block in (_late, _left_out, _notes, _fullest, _tightest):
        row = block(sheet, row, week)
    return row


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


def _late(sheet: BookSheet, row: int, week: WeekPlan) -> int:
    sheet.wide(row, _LINE, _DAYS, "Late lines", "section")
    if not week.late:
        sheet.wide(row + 1, _LINE, _DAYS, "None: every line with a date keeps it.", "text")
        return row + 3
    _left_heads(sheet, row + 1, "Days late")
    row += 2
    for late in latest_first(week)[:LATE_ON_FIRST_PAGE]:
        _dated(sheet, row, late.line, late.finish, late.days)
        row += 1
        if words := best_words(late, week.currency):
            sheet.wide(row, _CUSTOMER, _DAYS, f"{'Cure: ' if late.cures else 'Cure: none, '}{words}", "quiet")
            row += 1
    more = len(week.late) - LATE_ON_FIRST_PAGE
    if more > 0:
        sheet.wide(row, _LINE, _DAYS, f"and {more} more on the sheet Late and left out", "quiet")
        row += 1
    return row + 1


def _left_heads(sheet: BookSheet, row: int, days: str) -> None:
    for column, words in enumerate(("Line", "Customer", "Finish", "Due", days)):
        sheet.head(row, column, words, "whole" if column == _DAYS else "")


def _dated(sheet: BookSheet, row: int, line: WonLine, finish: datetime, days: int) -> None:
    sheet.text(row, _LINE, line.id, "bold rule")
    sheet.text(row, _CUSTOMER, line.customer, "text rule")
    moment(sheet, row, _FINISH, finish, DATE_CLOCK, "line rule")
    day(sheet, row, _DUE, line.due, "line rule")
    sheet.number(row, _DAYS, days, "bold whole rule")


def _tightest(sheet: BookSheet, row: int, week: WeekPlan) -> int:
    """Write the lines with the least time to spare, as many as the late lines leave room for."""
    late = {item.line.id for item in week.late}
    kept = {line.id: line for line in week.lines if line.due and line.id not in late}
    spare = sorted(
        ((line.due - week.finish_of(line.id).date()).days, line.due, line.id)
        for line in kept.values()
        if line.due
    )[: max(0, LATE_ON_FIRST_PAGE - len(week.late))]
    if not spare:
        return row
    sheet.wide(row, _LINE, _DAYS, "Tightest dates kept", "section")
    _left_heads(sheet, row + 1, "Days spare")
    row += 2
    for days, _, line_id in spare:
        _dated(sheet, row, kept[line_id], week.finish_of(line_id), days)
        row += 1
    return row + 1


def _left_out(sheet: BookSheet, row: int, week: WeekPlan) -> int:
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


def _notes(sheet: BookSheet, row: int, week: WeekPlan) -> int:
    if not week.notes:
        return row
    sheet.wide(row, _LINE, _DAYS, "Notes", "section")
    for note in week.notes:
        row += 1
        sheet.wide(row, _LINE, _DAYS, note, "text")
    return row + 2


def _fullest(sheet: BookSheet, row: int, week: WeekPlan) -> int:
    if not week.fullest:
        return row
    sheet.wide(row, _LINE, _DAYS, "What holds the plan back", "section")
    sheet.wide(row + 1, _LINE, _DAYS, week.fullest, "text")
    return row + 3


def _right(sheet: BookSheet, row: int, week: WeekPlan) -> int:
    row = _loads(sheet, row, week)
    row = _savings(sheet, row, week)
    sheet.wide(row, _NAME, _LAST, "How good this order is", "section")
    for words in (cost_words(week.plan, week.currency), proof_words(week), slack_words(week)):
        if words:
            row += 1
            sheet.wide(row, _NAME, _LAST, words, "text")
    return row + 1


def _heads(sheet: BookSheet, row: int, words: tuple[str, ...]) -> None:
    for column, text in enumerate(words, _NAME):
        sheet.head(row, column, text, "whole" if column > _NAME else "")


def _loads(sheet: BookSheet, row: int, week: WeekPlan) -> int:
    """Write the share used of every roll's open hours, a roll a row and a week a column."""
    loads = {(load.machine, load.monday): load for load in week.loads if load.machine in week.rolls}
    mondays = sorted({monday for _, monday in loads})
    shown = mondays[: _LAST - _NAME]
    sheet.wide(row, _NAME, _LAST, "Rolls: load against open time", "section")
    _heads(sheet, row + 1, ("Roll", *(f"wk {week_number(monday)}" for monday in shown)))
    sheet.fill(row + 1, range(_NAME + 1 + len(shown), _LAST + 1), "head")
    row += 2
    for roll in week.rolls:
        sheet.text(row, _NAME, roll, "bold rule")
        for column, monday in enumerate(shown, _NAME + 1):
            load = loads.get((roll, monday))
            sheet.text(row, column, load_words(load) if load else "", "text right rule")
        sheet.fill(row, range(_NAME + 1 + len(shown), _LAST + 1), "line rule")
        row += 1
    if len(mondays) > len(shown):
        sheet.wide(row, _NAME, _LAST, "Further weeks: see the sheet Load.", "quiet")
        row += 1
    return row + 1


def load_words(load: MachineLoad) -> str:
    """Return a load as a share and in hours, or that the machine is closed."""
    if not load.open_minutes:
        return "closed"
    used = (load.setup_minutes + load.run_minutes) / 60
    return f"{load.share:.0%}\n{used:.0f} of {load.open_minutes / 60:.0f} h"


def _savings(sheet: BookSheet, row: int, week: WeekPlan) -> int:
    """Write what the order is worth against the orders that people go by."""
    if not week.savings:
        return row
    sheet.wide(row, _NAME, _LAST, f"What this order saves, money in {week.currency}", "section")
    sheet.wide(row + 1, _NAME, _LAST, saving_words(week.savings[0], week.currency), "text")
    _heads(
        sheet, row + 2, ("Order", "Set-up min", "Late money", "All money", "Set-up min saved", "Money saved")
    )
    row += 3
    _order(sheet, row, "As planned", week.plan)
    sheet.fill(row, (_LAST - 1, _LAST), "line rule")
    for saving in week.savings:
        row += 1
        _order(sheet, row, saving.name.capitalize(), saving.plain)
        sheet.number(row, _LAST - 1, saving.setup_minutes, "bold whole rule")
        sheet.number(row, _LAST, saving.money, "money rule")
    sheet.wide(row + 1, _NAME, _LAST, _BY_HAND, "quiet")
    return row + 3


def _order(sheet: BookSheet, row: int, name: str, plan: Plan) -> None:
    sheet.text(row, _NAME, name, "bold rule")
    sheet.number(row, _NAME + 1, plan.setup_minutes, "whole rule")
    sheet.number(row, _NAME + 2, plan.cost.lateness, "money rule")
    sheet.number(row, _NAME + 3, plan.total, "money rule")
