"""The run schedule as a workbook: the week on one page, then one sheet a roll and week, cutting and load."""

from __future__ import annotations

from pathlib import Path

from quoting.books import new_book
from scheduler.books.changes_sheet import changes_sheet
from scheduler.books.cutting_sheet import cutting_sheet
from scheduler.books.gantt import gantt_sheets
from scheduler.books.late_sheet import late_sheet
from scheduler.books.load_sheet import load_sheet
from scheduler.books.roll_sheet import roll_sheets
from scheduler.books.week_sheet import week_sheet
from scheduler.replanning import Replanned
from scheduler.week import WeekPlan


def write_run_schedule(
    week: WeekPlan, path: Path, *, inch: bool, paper: str | None = None, replanned: Replanned | None = None
) -> None:
    """Write the run schedule of a planned week to `path` (.xlsx).

    Sizes are in inches with `inch`, else in millimetres. `paper` is "letter" or "a4"; left out, it is
    Letter for inches and A4 for millimetres. With `replanned` the second sheet says what changed. The same
    week gives the same bytes.
    """
    with new_book(
        path,
        paper=paper or ("letter" if inch else "a4"),
        created=week.start,
        title="Run schedule",
        author=week.shop,
    ) as book:
        week_sheet(book, week)
        if replanned is not None:
            changes_sheet(book, replanned)
        late_sheet(book, week)
        gantt_sheets(book, week)
        roll_sheets(book, week, inch=inch)
        cutting_sheet(book, week, inch=inch)
        load_sheet(book, week)
