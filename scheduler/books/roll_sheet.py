"""One sheet a roll and week: what to set, roll and mind, in running order, to hang on the roll."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from itertools import groupby

from quoting.books import Book, BookColumn, BookSheet
from scheduler.books.care import cautions_of, shared_cautions, told
from scheduler.books.cells import CLOCK, FOOT, moment
from scheduler.books.job_words import blank_words, gap_words, job_words, lift_words, passes_words, plate_words
from scheduler.books.sheet_names import sheet_names
from scheduler.calendar import day_short, hours_words, week_words
from scheduler.jobs import WonLine
from scheduler.week import PlannedOperation, WeekPlan, begin_of, by_week

HEAD_ROW = 3
(
    DAY, START, SETUP, WHY, FROM, RUN, END, LINE, JOB, PLATE, GAP, PASSES, LIFT, CARE, SETUP_DONE, RUN_DONE,
) = range(16)  # fmt: skip
NEW_DAY = "thick"
"""The style whose line above a row opens a new day."""


@dataclass(frozen=True, slots=True)
class Page:
    """One sheet: a roll in a week, its jobs, which lines are late, and the cautions that every job shares."""

    roll: str
    monday: date
    slots: tuple[PlannedOperation, ...]
    late: frozenset[str]
    shared: tuple[str, ...]
    inch: bool


def columns(*, inch: bool) -> tuple[BookColumn, ...]:
    """Return the columns of a roll's sheet, positions in the unit that is dialled."""
    unit = "in" if inch else "mm"
    return (
        BookColumn("Day", 7),
        BookColumn("Start", 7, "line"),
        BookColumn("Set-up min", 6.5, "whole"),
        BookColumn("Set-up: why", 18, "text inset"),
        BookColumn("Roll from", 7.5, "text inset"),
        BookColumn("Run min", 5.5, "whole"),
        BookColumn("End", 7.5, "text inset"),
        BookColumn("Line", 9, "bold"),
        BookColumn("Job and due day", 27),
        BookColumn("Plate; blank, width × length", 20, "text inset"),
        BookColumn(f"Pinch gap, {unit}", 8),
        BookColumn(f"Bending roll shows, {unit} (first try)", 19),
        BookColumn("Heaviest blank, lift", 14, "text inset"),
        BookColumn("Mind", 25, "text inset"),
        BookColumn("Actual set-up", 7),
        BookColumn("Actual run", 7),
    )


def roll_sheets(book: Book, week: WeekPlan, *, inch: bool) -> None:
    """Write a sheet for every roll and week in which it works."""
    pages = [
        _page(week, roll, monday, slots, inch=inch)
        for roll in week.rolls
        for monday, slots in by_week(week.on(roll)).items()
    ]
    taken = [sheet.name for sheet in book.raw.worksheets()] + ["Cutting", "Load"]
    names = sheet_names([(page.roll, page.monday) for page in pages], taken)
    for page in pages:
        _write(book, week, page, names[page.roll, page.monday])


def _page(
    week: WeekPlan, roll: str, monday: date, slots: tuple[PlannedOperation, ...], *, inch: bool
) -> Page:
    return Page(
        roll=roll,
        monday=monday,
        slots=slots,
        late=frozenset(late.line.id for late in week.late),
        shared=shared_cautions([cautions_of(slot, slot.line) for slot in slots if slot.line]),
        inch=inch,
    )


def _write(book: Book, week: WeekPlan, page: Page, name: str) -> None:
    table = columns(inch=page.inch)
    sheet = book.sheet(name, [column.width for column in table], footer=FOOT)
    sheet.raw.set_margins(left=0.3, right=0.3, top=0.4, bottom=0.6)
    sheet.text(0, 0, f"{page.roll} · {week_words(page.monday)}", "title line")
    sheet.text(1, 0, _sum_words(week, page), "line")
    if page.shared:
        sheet.wide(2, 0, len(table) - 1, f"Every job on this sheet: {told(page.shared)}.", "bold")
    sheet.heads(HEAD_ROW, table)
    sheet.raw.repeat_rows(HEAD_ROW)
    sheet.raw.freeze_panes(HEAD_ROW + 1, 0)
    row = HEAD_ROW + 1
    for _, slots in groupby(page.slots, key=lambda slot: begin_of(slot).date()):
        rule = NEW_DAY
        for slot in slots:
            if slot.line is not None:
                _job(sheet, row, page, slot, slot.line, rule)
                rule, row = "rule", row + 1
    sheet.raw.print_area(0, 0, row - 1, len(table) - 1)


def _sum_words(week: WeekPlan, page: Page) -> str:
    load = next((one for one in week.loads if (one.machine, one.monday) == (page.roll, page.monday)), None)
    jobs = f"{len(page.slots)} job{'s' if len(page.slots) > 1 else ''}"
    if load is None:
        return jobs
    setup, run = hours_words(load.setup_minutes), hours_words(load.run_minutes)
    return f"{week.shop} · {jobs} · set-up {setup}, rolling {run}, open {hours_words(load.open_minutes)}"


def _job(sheet: BookSheet, row: int, page: Page, slot: PlannedOperation, line: WonLine, rule: str) -> None:
    _times(sheet, row, slot, rule)
    late = "LATE" if line.id in page.late else ""
    due = f"Due {day_short(line.due)}" if line.due else "No due day"
    own = [text for text in cautions_of(slot, line) if text not in page.shared]
    plate = plate_words(line, inch=page.inch)
    cells = (
        (LINE, "\n".join(filter(None, (line.name, late))), "bold large"),
        (JOB, f"{job_words(slot, line)}\n{due}", "text"),
        (PLATE, f"{plate}\n{blank_words(line, inch=page.inch)}", "text inset"),
        (GAP, gap_words(slot, line, inch=page.inch), "bold large"),
        (PASSES, passes_words(slot, line, inch=page.inch), "text large"),
        (LIFT, lift_words(line, inch=page.inch), "text inset"),
        (CARE, told(own), "text inset"),
    )
    for column, words, style in cells:
        sheet.text(row, column, words, f"{style} {rule}")
    sheet.fill(row, (SETUP_DONE, RUN_DONE), "input")


def _times(sheet: BookSheet, row: int, slot: PlannedOperation, rule: str) -> None:
    today = begin_of(slot).date()
    sheet.text(row, DAY, day_short(today).replace(" ", "\n", 1), f"bold {rule}")
    moment(sheet, row, START, begin_of(slot), CLOCK, f"bold large {rule}")
    sheet.number(row, SETUP, slot.setup_minutes, f"whole {rule}")
    sheet.text(row, WHY, slot.setup.why if slot.setup else "", f"text inset {rule}")
    sheet.number(row, RUN, slot.run_minutes, f"whole {rule}")
    for column, when, style in ((FROM, slot.start, "text inset"), (END, slot.end, "text inset")):
        if column == FROM and slot.waits_for:
            clock = f"{when:%H:%M}" if when.date() == today else f"{day_short(when)[:3]} {when:%H:%M}"
            sheet.text(row, column, f"{clock}\nwaits for {slot.waits_for}", f"{style} {rule}")
        elif when.date() == today:
            moment(sheet, row, column, when, CLOCK, f"{style} {rule}")
        else:
            sheet.text(row, column, f"{day_short(when)[:3]} {when:%H:%M}", f"{style} {rule}")
