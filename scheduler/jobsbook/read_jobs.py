"""The jobs book read back: every cell that cannot be is named, and then nothing of it is taken.

Rows are found by the job's id and columns by their heading, so a book may be sorted or have rows put in.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import Any

from quoting.core import InputError, Place
from quoting.shop import Findings, did_you_mean
from quoting.tables import SheetTable, find_table, read_plain_sheets
from scheduler.jobsbook.cells import CellReader
from scheduler.jobsbook.rows import (
    JOB_HEADINGS,
    JOBS,
    MACHINE_HEADINGS,
    MACHINES,
    PEOPLE,
    PEOPLE_HEADINGS,
    PLATE_HEADINGS,
    PLATES,
    JobRow,
    JobsBook,
    PlateRow,
    StopRow,
)


@dataclass(frozen=True, slots=True)
class JobRules:
    """What the ledger knows of a job: as it is, ordered when, the rolls it can, whether it is re-rounded."""

    now: JobRow
    ordered: date
    able: tuple[str, ...]
    re_round: bool


@dataclass(frozen=True, slots=True)
class BookRules:
    """What a jobs book may say: the jobs and plates there are, machines, and states in their order.

    Rows of `closed` jobs and of plates that are `cut` since the book was written are passed over.
    """

    jobs: Mapping[str, JobRules]
    plates: Mapping[str, PlateRow]
    machines: tuple[str, ...]
    states: tuple[str, ...]
    welded: Collection[str] = field(default=("at the welder", "back"))
    closed: Collection[str] = ()
    cut: Collection[str] = ()


def read_jobs_book(path: Path, rules: BookRules) -> JobsBook:
    """Return the jobs book as edited; jobs that it does not list are left out of it.

    Raises InputError when a sheet is missing, and BookError naming every cell that cannot be.
    """
    sheets = read_plain_sheets(path)
    found = Findings(path.name)
    jobs = _jobs(_table(path, sheets, JOBS, JOB_HEADINGS, ("line", "state")), found, rules)
    machines = _table(path, sheets, MACHINES, MACHINE_HEADINGS, ("machine", "start"))
    people = _table(path, sheets, PEOPLE, PEOPLE_HEADINGS, ("people", "start"))
    plates = _table(path, sheets, PLATES, PLATE_HEADINGS, ("name", "expected"))
    stops = (*_machines(machines, found, rules), *_people(people, found))
    expected = _plates(plates, found, rules)
    found.raise_if_any()
    return JobsBook(jobs, stops, expected)


def _table(
    path: Path,
    sheets: Mapping[str, list[list[Any]]],
    name: str,
    headings: Mapping[str, Sequence[str]],
    needed: Sequence[str],
) -> SheetTable:
    place = Place(path.name, name)
    if name not in sheets:
        raise InputError(
            "the sheet is missing", place=place, would_do="write a new book with `rollwright plan`"
        )
    table = find_table(sheets[name], headings, needed, place)
    if table is None:
        raise InputError(
            "has no row of headings",
            place=place,
            would_do="put back the headings " + ", ".join(headings[name][0] for name in needed),
        )
    return table


def _jobs(table: SheetTable, found: Findings, rules: BookRules) -> tuple[JobRow, ...]:
    rows: dict[str, JobRow] = {}
    for number, cells in table.rows:
        line = str(cells.get("line", ""))
        read = CellReader(table, number, cells, found)
        if line in rules.closed:
            continue
        if line not in rules.jobs:
            read.wrong(
                "line", "no open job is called that", did_you_mean(line, rules.jobs) or "leave the row out"
            )
        elif line in rows:
            read.wrong("line", "the job stands in the book twice", "leave one of the rows out")
        else:
            rows[line] = _job(read, rules.jobs[line], rules)
    return tuple(rows.values())


def _job(read: CellReader, job: JobRules, rules: BookRules) -> JobRow:
    now = job.now
    row = replace(
        now,
        quantity=read.whole("quantity", least=1) or now.quantity,
        state=_state(read, job, rules),
        due=read.day("due"),
        must_ship=read.day("must_ship"),
        not_before=read.moment("not_before"),
        pin_roll=read.one_of("pin_roll", job.able, f"cannot do {now.line}"),
        pin_day=read.day("pin_day"),
        hold=read.flag("hold"),
        rank=read.whole("rank"),
        minutes_left=read.whole("minutes_left", least=1),
        roll=read.one_of("roll", job.able, f"cannot do {now.line}"),
        plate_in=read.day("plate_in"),
    )
    for name, day in (("due", row.due), ("must_ship", row.must_ship)):
        if day is not None and day < job.ordered:
            read.wrong(name, f"is before the day of the order, {job.ordered}", "write a later day")
    if row.state == "on the roll" and not row.roll:
        read.wrong("roll", "is on a roll: say which", "able are: " + ", ".join(job.able))
    return row


def _state(read: CellReader, job: JobRules, rules: BookRules) -> str:
    now = job.now.state
    state = read.one_of("state", rules.states, "is no state") or now
    if state == now:
        return now
    order = rules.states.index
    if state in rules.welded and not job.re_round:
        read.wrong("state", f"{job.now.line} is not re-rounded after welding", "write rolled or done")
    elif state != "dropped" and order(state) < order(now):
        read.wrong("state", f"cannot follow {now}", "write a later state, or leave it as it was")
    return state


def _machines(table: SheetTable, found: Findings, rules: BookRules) -> tuple[StopRow, ...]:
    stops = []
    for number, cells in table.rows:
        read = CellReader(table, number, cells, found)
        machine = read.one_of("machine", rules.machines, "is no machine of the plan")
        start, end, hours = read.moment("start"), read.moment("end"), read.number("hours")
        if end is None and hours and start is not None:
            end = start + timedelta(hours=hours)
        if not machine:
            if read.value("machine") is None:
                read.wrong("machine", "is empty", "name the machine, or clear the row")
        elif stop := _stop(read, start, end):
            stops.append(replace(stop, machine=machine, reason=str(cells.get("reason", ""))))
    return tuple(stops)


def _people(table: SheetTable, found: Findings) -> tuple[StopRow, ...]:
    stops = []
    for number, cells in table.rows:
        read = CellReader(table, number, cells, found)
        people = read.whole("people", least=1)
        if people is None:
            if read.value("people") is None:
                read.wrong("people", "is empty", "write how many are away, or clear the row")
        elif stop := _stop(read, read.moment("start"), read.moment("end")):
            stops.append(replace(stop, people=people, reason=str(cells.get("reason", ""))))
    return tuple(stops)


def _stop(read: CellReader, start: datetime | None, end: datetime | None) -> StopRow | None:
    if start is None:
        read.wrong("start", "is no moment", "write it as 2026-12-01 08:00")
    elif end is None:
        read.wrong("end", "is no moment", "write it as 2026-12-01 16:30")
    elif end <= start:
        read.wrong("end", "is not after its start", "write a later one")
    else:
        return StopRow(start, end)
    return None


def _plates(table: SheetTable, found: Findings, rules: BookRules) -> tuple[PlateRow, ...]:
    rows = []
    for number, cells in table.rows:
        read = CellReader(table, number, cells, found)
        name = str(cells.get("name", ""))
        if name in rules.cut:
            continue
        if name not in rules.plates:
            read.wrong(
                "name", "no plate that is still to be cut is called that", did_you_mean(name, rules.plates)
            )
            continue
        rows.append(replace(rules.plates[name], expected=read.day("expected")))
    return tuple(rows)
