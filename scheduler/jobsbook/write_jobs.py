"""The jobs book written: boxed cells are the scheduler's to change, everything else is for reading."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime, time
from pathlib import Path
from typing import Any

from quoting.books import Book, BookColumn, BookSheet, new_book
from scheduler.jobsbook.rows import JOBS, MACHINES, PEOPLE, PLATES, JobRow, JobsBook, PlateRow, StopRow

_DAY, _MOMENT = "yyyy-mm-dd", "yyyy-mm-dd hh:mm"
SPARE_ROWS = 8
_JOB_COLUMNS = (
    BookColumn("Job", 9, "bold"),
    BookColumn("Customer", 22),
    BookColumn("Order", 10),
    BookColumn("Part", 34),
    BookColumn("Planned on", 14),
    BookColumn("Begins", 15.5),
    BookColumn("Ends", 15.5),
    BookColumn("State", 13),
    BookColumn("Quantity", 9, "whole"),
    BookColumn("Promised", 11.5),
    BookColumn("Due", 11.5),
    BookColumn("Must ship", 11.5),
    BookColumn("Not before", 15.5),
    BookColumn("Pin to roll", 14),
    BookColumn("Pin to day", 11.5),
    BookColumn("Hold", 6),
    BookColumn("Order among equals", 8.5, "whole"),
    BookColumn("On roll", 14),
    BookColumn("Minutes left", 8.5, "whole"),
    BookColumn("Plate in on", 11.5),
)
_PROMISED = 9
_HEAD = 3
_HOW = (
    "Change the boxed cells, save, and give the book to `rollwright plan --book`. A cell left as it is stays "
    "as it is; an edit holds until you take it out. Not before: for a job at the welder, when it is back. "
    "Promised: the safe day of its quote."
)


def cell_of(heading: str, row: int) -> str:
    """Return the cell of a column in the row of a job, the first job's is row 0.

    >>> cell_of("Due", 0)
    'K5'
    """
    column = next(k for k, one in enumerate(_JOB_COLUMNS) if one.heading == heading)
    return f"{chr(ord('A') + column)}{_HEAD + 2 + row}"


def write_jobs_book(
    book: JobsBook,
    path: Path,
    *,
    shop: str,
    paper: str,
    rolls: Sequence[str],
    states: Sequence[str],
    day: date,
) -> None:
    """Write the jobs book to `path` (.xlsx)."""
    with new_book(path, paper=paper, created=day, title="Jobs book", author=shop) as made:
        _jobs(made, book.jobs, rolls, states)
        _machines(made, [stop for stop in book.stops if stop.machine], rolls)
        _people(made, [stop for stop in book.stops if not stop.machine])
        _plates(made, book.plates)


def _sheet(book: Book, name: str, columns: Sequence[BookColumn], title: str, how: str) -> BookSheet:
    sheet = book.sheet(name, [column.width for column in columns])
    sheet.text(0, 0, title, "title line")
    sheet.wide(1, 0, len(columns) - 1, how, "quiet")
    sheet.heads(_HEAD, columns)
    sheet.raw.repeat_rows(_HEAD)
    sheet.raw.freeze_panes(_HEAD + 1, 1)
    return sheet


def _jobs(book: Book, jobs: Sequence[JobRow], rolls: Sequence[str], states: Sequence[str]) -> None:
    sheet = _sheet(book, JOBS, _JOB_COLUMNS, "Open jobs, in the order they are planned", _HOW)
    for row, job in enumerate(jobs, _HEAD + 1):
        told: tuple[Any, ...] = (job.line, job.customer, job.order_no, job.part, job.planned_roll)
        for column, text in enumerate(told):
            sheet.text(row, column, text, "bold rule" if column == 0 else "text rule")
        _cell(sheet, row, 5, job.planned_start, "text rule")
        _cell(sheet, row, 6, job.planned_end, "text rule")
        values = (
            job.state, job.quantity, job.promised, job.due, job.must_ship, job.not_before, job.pin_roll,
            job.pin_day, "yes" if job.hold else None, job.rank, job.roll, job.minutes_left, job.plate_in,
        )  # fmt: skip
        for column, value in enumerate(values, 7):
            _cell(sheet, row, column, value, "text rule" if column == _PROMISED else "input")
    last = _HEAD + max(1, len(jobs))
    for column, choices in ((7, states), (13, rolls), (15, ["yes"]), (17, rolls)):
        sheet.raw.data_validation(
            _HEAD + 1,
            column,
            last,
            column,
            {"validate": "list", "source": list(choices), "ignore_blank": True},
        )
    sheet.raw.autofilter(_HEAD, 0, last, len(_JOB_COLUMNS) - 1)


def _machines(book: Book, stops: Sequence[StopRow], rolls: Sequence[str]) -> None:
    columns = [
        BookColumn(name, width)
        for name, width in (
            ("Machine", 20),
            ("Down from", 18),
            ("Down to", 18),
            ("Or hours", 9),
            ("Reason", 40),
        )
    ]
    sheet = _sheet(book, MACHINES, columns, "Machines that are down", "Down to, or the hours on the clock.")
    for row in range(_HEAD + 1, _HEAD + 1 + len(stops) + SPARE_ROWS):
        index = row - _HEAD - 1
        stop = stops[index] if index < len(stops) else None
        values = (stop.machine, stop.start, stop.end, None, stop.reason) if stop else (None,) * 5
        for column, value in enumerate(values):
            _cell(sheet, row, column, value, "input")


def _people(book: Book, stops: Sequence[StopRow]) -> None:
    columns = [
        BookColumn(name, width)
        for name, width in (("How many", 9), ("Away from", 18), ("Away to", 18), ("Reason", 40))
    ]
    sheet = _sheet(
        book, PEOPLE, columns, "People who are away", "Of those the shifts in the shop's book have."
    )
    for row in range(_HEAD + 1, _HEAD + 1 + len(stops) + SPARE_ROWS):
        index = row - _HEAD - 1
        stop = stops[index] if index < len(stops) else None
        values = (stop.people, stop.start, stop.end, stop.reason) if stop else (None,) * 4
        for column, value in enumerate(values):
            _cell(sheet, row, column, value, "input")


def _plates(book: Book, plates: Sequence[PlateRow]) -> None:
    columns = [
        BookColumn(name, width)
        for name, width in (
            ("Plate", 26),
            ("Material", 14),
            ("Bought", 9),
            ("For jobs", 40),
            ("Expected on", 14),
        )
    ]
    how = (
        "In brackets the run that it was nested in. In the house already: leave the day empty on rack plates."
    )
    sheet = _sheet(book, PLATES, columns, "Plates promised and not cut yet", how)
    for row, plate in enumerate(plates, _HEAD + 1):
        for column, text in enumerate(
            (plate.name, plate.material, "to buy" if plate.bought else "", plate.jobs)
        ):
            sheet.text(row, column, text, "bold rule" if column == 0 else "text rule")
        _cell(sheet, row, 4, plate.expected, "input")


def _cell(sheet: BookSheet, row: int, column: int, value: Any, style: str) -> None:
    """Write a value of any kind; None is an empty cell of that style."""
    if value is None or value == "":
        sheet.raw.write_blank(row, column, None, sheet.book.style(style))
    elif isinstance(value, datetime):
        sheet.raw.write_datetime(row, column, value, _dated(sheet.book, style, _MOMENT))
    elif isinstance(value, date):
        sheet.raw.write_datetime(
            row, column, datetime.combine(value, time()), _dated(sheet.book, style, _DAY)
        )
    elif isinstance(value, int):
        sheet.number(row, column, value, f"{style} whole")
    else:
        sheet.text(row, column, value, style)


def _dated(book: Book, style: str, pattern: str) -> Any:
    return book.raw.add_format(book.properties(style) | {"num_format": pattern, "align": "left"})
