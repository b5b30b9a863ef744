"""The plates to cut, station by station, in order: what, when, for which lines, when the plate is there."""

from __future__ import annotations

from datetime import date, timedelta

from quoting.books import Book, BookColumn, BookSheet, listed
from quoting.core import format_stock
from scheduler.books.cells import DATE_CLOCK, FOOT, day, moment
from scheduler.jobs import ROLL, PlateToCut
from scheduler.week import PlannedOperation, WeekPlan

SHEET = "Cutting"
COLUMNS = (
    BookColumn("No.", 5, "whole"),
    BookColumn("Start", 18, "line inset"),
    BookColumn("Min", 6, "whole"),
    BookColumn("Plate", 22, "bold inset"),
    BookColumn("Thickness", 11),
    BookColumn("Material", 13),
    BookColumn("Lines on it", 34),
    BookColumn("First rolled", 17, "line"),
    BookColumn("Plate in house", 14),
    BookColumn("Actual min", 10),
)
NUMBER, START, MINUTES, PLATE, THICKNESS, MATERIAL, LINES, ROLLED, IN_HOUSE, DONE = range(len(COLUMNS))
HEAD_ROW = 3


def cut_numbers(week: WeekPlan) -> dict[str, int]:
    """Return the running number of every plate to cut, by plate id; the Gantt shows the same numbers."""
    cuts = [slot.work.plate for station in week.stations for slot in week.on(station)]
    return {plate.id: number for number, plate in enumerate((p for p in cuts if p), 1)}


def cutting_sheet(book: Book, week: WeekPlan, *, inch: bool) -> None:
    """Write the sheet "Cutting"; nothing when there is nothing to cut."""
    numbers = cut_numbers(week)
    if not numbers:
        return
    sheet = book.sheet(SHEET, [column.width for column in COLUMNS], footer=FOOT)
    sheet.text(0, 0, "Plates to cut, in order", "title line")
    sheet.text(1, 0, "A line can be rolled when the last plate that holds one of its blanks is cut.", "line")
    sheet.heads(HEAD_ROW, COLUMNS)
    sheet.raw.repeat_rows(HEAD_ROW)
    sheet.raw.freeze_panes(HEAD_ROW + 1, 0)
    row = HEAD_ROW + 1
    for station in week.stations:
        slots = [slot for slot in week.on(station) if slot.work.plate]
        if slots:
            minutes = sum(slot.run_minutes for slot in slots)
            words = f"{station}: {len(slots)} plate{'s' if len(slots) > 1 else ''}, {minutes} min"
            sheet.wide(row, 0, DONE, words, "section")
            row += 1
        for slot in slots:
            _plate(sheet, row, week, slot, numbers, inch=inch)
            row += 1
    sheet.raw.print_area(0, 0, row - 1, DONE)


def _plate(
    sheet: BookSheet, row: int, week: WeekPlan, slot: PlannedOperation, numbers: dict[str, int], *, inch: bool
) -> None:
    plate = slot.work.plate
    assert plate is not None
    rolled = [
        other
        for other in week.slots
        if other.work.kind == ROLL and other.line and plate.id in other.line.plates
    ]
    sheet.number(row, NUMBER, numbers[plate.id], "whole rule")
    moment(sheet, row, START, slot.start, DATE_CLOCK, "bold inset rule")
    sheet.number(row, MINUTES, slot.run_minutes, "whole rule")
    sheet.text(row, PLATE, plate.id, "bold inset rule")
    sheet.text(row, THICKNESS, format_stock(plate.thickness_mm, inch=inch), "text rule")
    sheet.text(row, MATERIAL, plate.material, "text rule")
    sheet.text(row, LINES, listed([other.line.name for other in rolled if other.line]), "text rule")
    if rolled:
        moment(sheet, row, ROLLED, min(other.start for other in rolled), DATE_CLOCK, "line rule")
    else:
        sheet.text(row, ROLLED, "", "line rule")
    _in_house(sheet, row, plate, week.start)
    sheet.fill(row, (DONE,), "input")


def _in_house(sheet: BookSheet, row: int, plate: PlateToCut, start: date) -> None:
    if plate.here_in_days:
        day(sheet, row, IN_HOUSE, start + timedelta(days=plate.here_in_days), "bold rule")
    else:
        sheet.text(row, IN_HOUSE, "in the house", "text rule")
