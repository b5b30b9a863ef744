"""The jobs book comes back with a person's edits, and every cell that cannot be is named."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime
from pathlib import Path
from typing import Any

import openpyxl
import pytest

from quoting.core import InputError
from quoting.ledger import STATES
from scheduler.jobsbook import (
    BookRules,
    JobRow,
    JobRules,
    JobsBook,
    PlateRow,
    StopRow,
    not_kept,
    read_jobs_book,
    write_jobs_book,
)

ROLLS = ("Light", "Heavy")
JOBS = tuple(
    JobRow(
        f"A-{number}",
        2,
        "won",
        due=date(2026, 12, 9),
        customer="Example (invented)",
        part="2 × Cylinder",
        promised=date(2026, 12, 8),
    )
    for number in (1, 2, 3)
)
PLATE = PlateRow("R-1 #1 (3)", "A36", "A-1", bought=True, expected=date(2026, 12, 3))
STOP = StopRow(datetime(2026, 12, 2, 6), datetime(2026, 12, 2, 14), "Heavy", reason="gearbox")
AWAY = StopRow(datetime(2026, 12, 3, 6), datetime(2026, 12, 3, 14, 30), people=1)
BOOK = JobsBook(JOBS, (STOP, AWAY), (PLATE,))
RULES = BookRules(
    {job.line: JobRules(job, date(2026, 11, 30), ROLLS, job.line == "A-3") for job in JOBS},
    {PLATE.name: PLATE},
    ROLLS,
    STATES,
)
Sheet = Any


@pytest.fixture
def path(tmp_path: Path) -> Path:
    found = tmp_path / "jobs.xlsx"
    write_jobs_book(
        BOOK, found, shop="A shop (invented)", paper="a4", rolls=ROLLS, states=STATES, day=date(2026, 12, 1)
    )
    return found


def edited(path: Path, edit: Callable[[Any], None]) -> Path:
    book = openpyxl.load_workbook(path)
    edit(book)
    book.save(path)
    return path


def put(sheet: Sheet, job: str, heading: str, value: object) -> None:
    column = next(cell.column for cell in sheet[4] if cell.value == heading)
    row = next(row[0].row for row in sheet.iter_rows(min_row=5) if row[0].value == job)
    sheet.cell(row, column).value = value


def test_a_book_that_nobody_touched_says_what_it_said(path: Path) -> None:
    assert read_jobs_book(path, RULES) == BOOK


def test_edits_come_back(path: Path) -> None:
    def edit(book: Any) -> None:
        put(book["Jobs"], "A-2", "Due", datetime(2026, 12, 4))
        put(book["Jobs"], "A-2", "Pin to roll", "heavy")
        put(book["Jobs"], "A-2", "Not before", "2026-12-02 10:00")
        put(book["Jobs"], "A-3", "State", "at the welder")
        put(book["Jobs"], "A-1", "Hold", "x")
        put(book["Jobs"], "A-1", "Order among equals", 2)
        book["Machines"].cell(6, 1).value = "Light"
        book["Machines"].cell(6, 2).value = datetime(2026, 12, 1, 6)
        book["Machines"].cell(6, 4).value = 4
        book["Plates"].cell(5, 5).value = datetime(2026, 12, 8)

    found = read_jobs_book(edited(path, edit), RULES)
    one, two, three = found.jobs
    assert (one.hold, one.rank) == (True, 2)
    assert (two.due, two.pin_roll, two.not_before) == (
        date(2026, 12, 4), "Heavy", datetime(2026, 12, 2, 10),
    )  # fmt: skip
    assert three.state == "at the welder"
    assert StopRow(datetime(2026, 12, 1, 6), datetime(2026, 12, 1, 10), "Light") in found.stops
    assert found.plates == (replace(PLATE, expected=date(2026, 12, 8)),)


def test_sorted_and_inserted_rows_do_no_harm(path: Path) -> None:
    def edit(book: Any) -> None:
        book["Jobs"].insert_rows(2)
        book["Jobs"].insert_rows(7)
        rows = [[cell.value for cell in row] for row in book["Jobs"].iter_rows(min_row=6)]
        for row, values in enumerate(reversed(rows), 6):
            for column, value in enumerate(values, 1):
                book["Jobs"].cell(row, column).value = value

    found = read_jobs_book(edited(path, edit), RULES)
    assert {job.line: job for job in found.jobs} == {job.line: job for job in JOBS}


WRONG = {
    "a text in a number cell": ("A-1", "Minutes left", "half", "column S"),
    "a text in a date cell": ("A-1", "Due", "soon", "is no date and time"),
    "a state that is none": ("A-1", "State", "finished", "is no state"),
    "welded away, a part that is not re-rounded": ("A-1", "State", "back", "is not re-rounded"),
    "a date before the order": (
        "A-1",
        "Due",
        datetime(2026, 11, 1),
        "before the day of the order, 2026-11-30",
    ),
    "a roll that cannot": ("A-1", "Pin to roll", "Huge", "known are: Light, Heavy"),
    "a job that is not there": ("A-1", "Job", "A-99", "no open job is called that"),
    "a job twice": ("A-1", "Job", "A-2", "stands in the book twice"),
    "on a roll, but not which": ("A-1", "State", "on the roll", "say which"),
}


@pytest.mark.parametrize("what", WRONG)
def test_what_cannot_be_is_told_with_its_cell(path: Path, what: str) -> None:
    job, heading, value, told = WRONG[what]
    with pytest.raises(InputError, match=r'jobs.xlsx, sheet "Jobs", row \d+, column [A-Z]') as error:
        read_jobs_book(edited(path, lambda book: put(book["Jobs"], job, heading, value)), RULES)
    assert told in str(error.value)


def test_a_state_does_not_go_back(path: Path) -> None:
    rolled = replace(JOBS[0], state="rolled", roll="Light")
    rules = replace(RULES, jobs=dict(RULES.jobs) | {"A-1": replace(RULES.jobs["A-1"], now=rolled)})
    with pytest.raises(InputError, match="cannot follow rolled"):
        read_jobs_book(edited(path, lambda book: put(book["Jobs"], "A-1", "State", "cut")), rules)


def test_a_deleted_sheet_is_told(path: Path) -> None:
    def edit(book: Any) -> None:
        del book["People"]

    with pytest.raises(InputError, match='sheet "People": the sheet is missing'):
        read_jobs_book(edited(path, edit), RULES)


def test_an_older_book_does_not_trip_over_what_is_done_and_cut_since(path: Path) -> None:
    left = {name: job for name, job in RULES.jobs.items() if name != "A-1"}
    found = read_jobs_book(path, replace(RULES, jobs=left, plates={}, closed={"A-1"}, cut={PLATE.name}))
    assert [job.line for job in found.jobs] == ["A-2", "A-3"]
    assert found.plates == ()


def test_a_wish_that_the_plan_does_not_keep_is_told_with_its_cell() -> None:
    begins, ends = datetime(2026, 12, 3, 8), datetime(2026, 12, 4, 10)
    kept = JobRow(
        "A-1", 1, "won", must_ship=date(2026, 12, 4), pin_day=date(2026, 12, 3),
        planned_roll="Heavy", planned_start=begins, planned_end=ends,
    )  # fmt: skip
    missed = replace(
        kept, line="A-2", must_ship=date(2026, 12, 3), pin_day=date(2026, 12, 2), pin_roll="Light"
    )
    assert not_kept(JobsBook((kept, missed))) == (
        "Jobs L6: A-2 is done on 2026-12-04 10:00, after 2026-12-03",
        "Jobs N6: A-2 is not on Light but on Heavy",
        "Jobs O6: A-2 begins on 2026-12-03, not on 2026-12-02",
    )
    assert not_kept(JobsBook((replace(missed, state="on the roll", must_ship=None),))) == ()
