"""The floor book written: a sheet a machine, its tasks by day, boxed cells to write what really happened."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, time
from itertools import groupby
from pathlib import Path
from typing import Any

from quoting.books import Book, BookColumn, BookSheet, new_book
from quoting.core import MM_PER_INCH
from scheduler.floorbook.rows import PLAN_WORD, SET_STATE, FloorRow
from scheduler.jobs import FLOOR_BOXES

_TOLD = (
    BookColumn("Job", 13, "bold"),
    BookColumn("Day", 11, "line"),
    BookColumn("Begins", 7, "line"),
    BookColumn("Part", 30),
    BookColumn("Pieces", 7, "whole"),
    BookColumn("Set-up planned", 8, "whole"),
    BookColumn("Run planned", 8, "whole"),
    BookColumn("State", 12, "inset"),
)
_WIDTHS = {"by": 12.0, "remark": 30.0, "heat": 12.0, "girth": 10.0, "diameter": 10.0, "readout": 9.0}
_SIZES = frozenset({"readout", "girth", "diameter"})
_HEAD = 3
_HOW = (
    "Write into the boxed cells what the papers say and give the book to `rollwright floor`; it may be given "
    "partly filled, and again. Times: minutes (45), hours (1 h 20) or the clock (7:10-8:25; 9:00-9:20). "
    "Where set-up and rolling were not kept apart, write c alone. A job is rolled when its time and all its "
    "good pieces stand here; set state only for what is not told by that."
)


@dataclass(frozen=True, slots=True)
class FloorPage:
    """What the head of every sheet says: whose, of which published plan, from which moment, in which unit."""

    shop: str
    paper: str
    inch: bool
    plan: str
    moment: datetime
    states: tuple[str, ...]


def write_floor_book(rows: Sequence[FloorRow], page: FloorPage, path: Path) -> None:
    """Write the floor book to `path` (.xlsx), a sheet a machine in the order the rows come in."""
    day = page.moment.date()
    with new_book(path, paper=page.paper, created=day, title="Floor book", author=page.shop) as book:
        for machine, tasks in groupby(rows, key=lambda row: row.task.machine):
            _machine(book, machine, tuple(tasks), page)


def _machine(book: Book, machine: str, rows: Sequence[FloorRow], page: FloorPage) -> None:
    unit = "in" if page.inch else "mm"
    boxes = [
        BookColumn(
            f"{box.label} ({unit})" if box.field in _SIZES else box.label,
            _WIDTHS.get(box.field, 8.0),
            "input",
        )
        for box in FLOOR_BOXES
    ]
    columns = (*_TOLD, *boxes, BookColumn(SET_STATE.capitalize(), 12, "input"))
    name = "".join(letter for letter in machine if letter not in "[]:*?/\\'")[:31] or "Machine"
    sheet = book.sheet(name, [column.width for column in columns])
    sheet.text(0, 0, f"What happened: {machine}", "title line")
    moment = f"{page.moment:%Y-%m-%d %H:%M}"
    sheet.wide(1, 0, len(columns) - 1, f"{page.shop} · {PLAN_WORD} {page.plan} of {moment}. {_HOW}", "quiet")
    sheet.heads(_HEAD, columns)
    sheet.raw.repeat_rows(_HEAD)
    sheet.raw.freeze_panes(_HEAD + 1, 1)
    day = ""
    for row, told in enumerate(rows, _HEAD + 1):
        _row(sheet, row, told, page.inch, new_day=told.task.start[:10] != day)
        day = told.task.start[:10]
    states = {"validate": "list", "source": list(page.states), "ignore_blank": True}
    sheet.raw.data_validation(_HEAD + 1, len(columns) - 1, _HEAD + len(rows), len(columns) - 1, states)


def _row(sheet: BookSheet, row: int, told: FloorRow, inch: bool, *, new_day: bool) -> None:
    task = told.task
    rule = "thick" if new_day else "rule"
    start = datetime.fromisoformat(task.start)
    sheet.text(row, 0, task.task, f"bold {rule}")
    day = sheet.book.properties(f"line {rule}") | {"num_format": "ddd d mmm", "align": "left"}
    sheet.raw.write_datetime(row, 1, datetime.combine(start.date(), time()), sheet.book.raw.add_format(day))
    sheet.text(row, 2, f"{start:%H:%M}", f"line {rule}")
    sheet.text(row, 3, f"{told.part} · {told.customer}".strip(" ·"), f"text {rule}")
    if task.pieces:
        sheet.number(row, 4, task.pieces, f"whole {rule}")
    else:
        sheet.text(row, 4, "", f"line {rule}")
    sheet.number(row, 5, task.setup, f"whole {rule}")
    sheet.number(row, 6, task.run, f"whole {rule}")
    sheet.text(row, 7, told.state, f"inset {rule}")
    for column, box in enumerate(FLOOR_BOXES, len(_TOLD)):
        _box(sheet, row, column, _shown(told, box.field, inch))
    _box(sheet, row, len(_TOLD) + len(FLOOR_BOXES), None)


def _shown(told: FloorRow, name: str, inch: bool) -> Any:
    """Return what was written down before, as it is written in the book."""
    value = getattr(told.known, name) if told.known else None
    if name in _SIZES and value is not None and inch:
        return round(value / MM_PER_INCH, 4)
    return value


def _box(sheet: BookSheet, row: int, column: int, value: Any) -> None:
    if value is None or value == "":
        sheet.raw.write_blank(row, column, None, sheet.book.style("input"))
    elif isinstance(value, str):
        sheet.text(row, column, value, "input text")
    else:
        sheet.number(row, column, value, "input")


def week_ahead(start: str, moment: datetime, days: int) -> bool:
    """Return whether a task begins within so many days of a moment; `start` as ISO text.

    >>> week_ahead("2026-12-07 06:00", datetime(2026, 12, 1, 6), 7)
    True
    """
    return (datetime.fromisoformat(start).date() - moment.date()).days < days
