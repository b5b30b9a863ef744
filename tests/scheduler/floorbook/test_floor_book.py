"""The floor book written, filled in with what a floor writes, and read back by cell."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from pathlib import Path
from typing import Any

import openpyxl
import pytest

from quoting.core import InputError
from quoting.ledger import STATES, FloorReport, FloorTask
from scheduler.floorbook import FloorPage, FloorRow, FloorRules, read_floor_book, write_floor_book

PLAN, OLDER = "4-1a2b3c4d", "3-00000000"
ROLL = FloorTask("A-1", "roll", "A-1", "Small 6 ft", "2026-12-02 07:00", 21, 60, 4, {"first_off": 1.0})
LOT = FloorTask("A-2 lot 1", "roll", "A-2", "Small 6 ft", "2026-12-03 07:00", 8, 30, 3)
OTHER = FloorTask("A-2 lot 2", "roll", "A-2", "Medium 10 ft", "2026-12-03 07:00", 8, 30, 3)
GONE = FloorTask("A-9", "roll", "A-9", "Medium 10 ft", "2026-12-04 07:00", 8, 30, 3)
CUT = FloorTask("R-3 #1 (7)", "cut", "", "Shear", "2026-12-02 06:00", 0, 12, 0)
TASKS = (ROLL, LOT, OTHER, GONE, CUT)


def rules(**known: FloorReport) -> FloorRules:
    return FloorRules(
        plans={OLDER: {"A-0": ROLL}, PLAN: {task.task: task for task in TASKS}},
        known={report.task: report for report in known.values()},
        jobs={"A-1": 4, "A-2": 6, "A-9": 3, "A-7": 1},
        dropped={"A-9"},
        states=STATES,
        inch=True,
    )


@pytest.fixture
def book(tmp_path: Path) -> Path:
    page = FloorPage("A shop (invented)", "letter", True, PLAN, datetime(2026, 12, 2, 6), STATES)
    path = tmp_path / "floor.xlsx"
    write_floor_book([FloorRow(task, "Customer", "Cylinder", "won") for task in TASKS], page, path)
    return path


def fill(path: Path, *writes: tuple[str, str, str, Any], sheet_head: str = "") -> Path:
    """Write into boxes: sheet, task, letter of the box (or a heading), value."""
    book: Any = openpyxl.load_workbook(path)
    for name, task, letter, value in writes:
        sheet = book[name]
        column = next(c.column for c in sheet[4] if str(c.value).split(" ")[0] == letter or c.value == letter)
        row = next(r[0].row for r in sheet.iter_rows(min_row=5) if r[0].value == task)
        sheet.cell(row, column).value = value
    if sheet_head:
        for sheet in book:
            sheet["A2"].value = sheet_head
    book.save(path)
    return path


SMALL, MEDIUM = "Small 6 ft", "Medium 10 ft"


def test_what_the_floor_writes_is_read_in_minutes_and_mm(book: Path) -> None:
    fill(
        book,
        (SMALL, "A-1", "a", "6:40-7:00"), (SMALL, "A-1", "b", "1 h 10"), (SMALL, "A-1", "d", 4),
        (SMALL, "A-1", "g", "1-1/2"), (SMALL, "A-1", "i", 48), (SMALL, "A-1", "j", "H-77"),
        (MEDIUM, "A-2 lot 2", "c", 41), ("Shear", "R-3 #1 (7)", "b", 15),
    )  # fmt: skip
    read = read_floor_book(book, rules())
    assert read.problems == []
    one, lot, cut = (report for report, _ in read.reports)
    assert (one.setup, one.run, one.good, one.readout, one.diameter) == (20, 70, 4, 38.1, 1219.2)
    assert (one.heat, one.day, one.machine, one.planned) == ("H-77", "2026-12-02", SMALL, ROLL)
    assert one.cells["run"].startswith('floor.xlsx, sheet "Small 6 ft", row 5, column J')
    assert (lot.both, lot.run, cut.kind, cut.run) == (41, None, "cut", 15)


def test_an_empty_book_says_nothing(book: Path) -> None:
    read = read_floor_book(book, rules())
    assert (read.reports, read.problems) == ([], [])


@pytest.mark.parametrize(
    ("task", "letter", "value", "told"),
    [
        ("A-1", "b", -30, "is less than no time"),
        ("A-1", "b", 99_999, "is more than a week"),
        ("A-1", "b", 0, "is no time at all"),
        ("A-1", "d", "all", "is no whole number"),
        ("A-1", "d", 5, "is more than the 4 pieces made"),
        ("A-1", "g", "tight", "read as it was"),
        ("A-1", "Set state", "perhaps", "is no state"),
    ],
)
def test_a_box_that_cannot_be_is_told_by_its_cell_and_the_other_rows_are_taken(
    book: Path, task: str, letter: str, value: Any, told: str
) -> None:
    fill(book, (SMALL, task, letter, value), (SMALL, "A-2 lot 1", "b", 28))
    read = read_floor_book(book, rules())
    assert [report.task for report, _ in read.reports] == ["A-2 lot 1"]
    (problem,) = read.problems
    assert 'sheet "Small 6 ft", row 5, column ' in problem
    assert told in problem or letter == "g"


def test_a_job_nobody_knows_or_that_was_dropped_is_told(book: Path) -> None:
    changed: Any = openpyxl.load_workbook(book)
    changed[SMALL]["A5"].value = "Z-77"
    changed[SMALL]["A6"].value = "A-7"
    changed.save(book)
    fill(book, (SMALL, "Z-77", "b", 50), (SMALL, "A-7", "b", 50), (MEDIUM, "A-9", "b", 50))
    read = read_floor_book(book, rules())
    assert read.reports == []
    assert [problem.partition(": ")[2].partition(" - ")[0] for problem in read.problems] == [
        "the ledger knows no job of this id", "was in no published plan", "the job was dropped",
    ]  # fmt: skip


def test_a_row_twice_and_a_total_that_does_not_add_up_are_told(book: Path) -> None:
    changed: Any = openpyxl.load_workbook(book)
    changed[SMALL]["A6"].value = "A-1"
    changed[SMALL]["J5"].value, changed[SMALL]["J6"].value = 50, 60
    changed.save(book)
    fill(book, (MEDIUM, "A-2 lot 2", "a", 10), (MEDIUM, "A-2 lot 2", "b", 30), (MEDIUM, "A-2 lot 2", "c", 90))
    read = read_floor_book(book, rules())
    assert [report.run for report, _ in read.reports] == [50]
    assert "stands in the book twice, first at" in read.problems[0]
    assert "is not set-up and rolling added up" in read.problems[1]


def test_a_book_of_another_plan(book: Path) -> None:
    fill(book, (SMALL, "A-1", "b", 50), sheet_head="plan 9-ffffffff of 2026-12-02")
    read = read_floor_book(book, rules())
    assert read.reports == []
    assert len(read.problems) == 4 - 1
    assert "has published no plan 9-ffffffff" in read.problems[0]
    assert "row 2, column A" in read.problems[0]


def test_a_book_of_an_older_plan_is_taken_where_its_tasks_are_known(book: Path) -> None:
    fill(book, (SMALL, "A-1", "b", 50), sheet_head=f"plan {OLDER} of 2026-12-01")
    (report, _), *_ = read_floor_book(book, rules()).reports
    assert (report.task, report.run, report.plan) == ("A-1", 50, OLDER)


def test_a_job_that_ran_when_the_plan_was_made_is_held_against_the_whole_of_it(book: Path) -> None:
    fill(book, (SMALL, "A-2 lot 1", "b", 44))
    before = replace(LOT, run=40, counts={"first_off": 1.0})
    known = rules()
    asked = replace(known, plans={OLDER: {"A-2 lot 1": before}, PLAN: known.plans[PLAN]})
    ((report, _),) = read_floor_book(book, asked).reports
    assert report.planned == before


def test_a_job_finished_in_an_earlier_book_is_not_finished_again(book: Path) -> None:
    earlier = FloorReport(
        "A-1", "roll", "A-1", SMALL, "2026-12-01", run=47, plan=OLDER, cells={"run": "old J5"}
    )
    fill(book, (SMALL, "A-1", "b", 50))
    read = read_floor_book(book, rules(earlier=earlier))
    assert read.reports == []
    assert "A-1 was finished already: old J5" in read.problems[0]
    fill(book, (SMALL, "A-1", "b", 47))
    assert read_floor_book(book, rules(earlier=earlier)).problems == []


def test_the_lots_of_a_job_have_no_more_good_pieces_than_the_job(book: Path) -> None:
    known = FloorReport("A-2 lot 1", "roll", "A-2", SMALL, "2026-12-01", run=47, good=3, plan=PLAN)
    more = rules(known=known)
    fill(book, (MEDIUM, "A-2 lot 2", "b", 50), (MEDIUM, "A-2 lot 2", "d", 3))
    assert read_floor_book(book, more).problems == []
    four = FloorRules(more.plans, more.known, {**more.jobs, "A-2": 5}, more.dropped, STATES, inch=True)
    assert "3 of the job are good already" in read_floor_book(book, four).problems[0]


def test_six_hundred_minutes_for_sixty_are_taken_and_called_odd(book: Path) -> None:
    fill(book, (SMALL, "A-1", "b", 600))
    read = read_floor_book(book, rules())
    assert [report.run for report, _ in read.reports] == [600]
    assert "600 minutes where 60 were planned" in read.odd[0]
    assert "column J" in read.odd[0]


def test_a_book_that_is_none_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "other.xlsx"
    openpyxl.Workbook().save(path)
    with pytest.raises(InputError, match="is no floor book"):
        read_floor_book(path, rules())
