"""The floor book read back: a row that cannot be is told by its cell and left out, every other is taken.

Rows are found by the task's id and boxes by their letter or word, so a book may be sorted, cut down or partly
filled. Nothing is counted twice: a task has one report, which a later reading adds to.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import Any

from quoting.core import InputError, Place
from quoting.ledger import BOX_FIELDS, FloorReport, FloorTask
from quoting.shop import Findings, did_you_mean, read_size
from quoting.tables import SheetTable, find_table, read_plain_sheets
from scheduler.floorbook.rows import HEADINGS, PLAN_WORD
from scheduler.floorbook.times import NoTimeError, minutes_of
from scheduler.jobsbook import CellReader

_TIMES, _COUNTS = ("setup", "run", "both"), ("good", "scrap", "passes")
_SIZES, _TEXTS = ("readout", "girth", "diameter"), ("heat", "by", "remark")
_PLAN = re.compile(rf"\b{PLAN_WORD} (\d+-[0-9a-f]{{8}})\b")
_APART_MIN = 1.0
"""Set-up and rolling may differ by this from their total: people round."""
_MANY_TIMES, _MANY_MIN = 4.0, 60.0
_MOST_TEXT = 500


@dataclass(frozen=True, slots=True)
class FloorRules:
    """What a floor book may say: tasks by plan, what is known, pieces by job, dropped jobs, states, unit."""

    plans: Mapping[str, Mapping[str, FloorTask]]
    known: Mapping[str, FloorReport]
    jobs: Mapping[str, int]
    dropped: Collection[str]
    states: tuple[str, ...]
    inch: bool


@dataclass(slots=True)
class FloorRead:
    """What was read: reports with the state that was set (empty: none), what cannot be, what looks odd."""

    reports: list[tuple[FloorReport, str]] = field(default_factory=list)
    problems: list[str] = field(default_factory=list)
    odd: list[str] = field(default_factory=list)


def read_floor_book(path: Path, rules: FloorRules) -> FloorRead:
    """Return what a floor book says; InputError when no sheet of it has the headings of one."""
    read = FloorRead()
    seen: dict[str, str] = {}
    found = False
    for name, rows in read_plain_sheets(path).items():
        table = find_table(rows, HEADINGS, ("task", "run"), Place(path.name, name))
        if table is None:
            continue
        found = True
        plan = _plan(table, rows, rules, read)
        if plan is not None:
            for number, cells in table.rows:
                _row(_RowAt(table, number, cells, plan), rules, read, seen)
    if not found:
        raise InputError(
            "is no floor book: no sheet has the headings Job and b rolling min",
            place=Place(path.name),
            would_do="write a new one with `rollwright floor --shop DIR --out DIR`",
        )
    return read


@dataclass(frozen=True, slots=True)
class _RowAt:
    """A row and where it stands; `plan` is the name of the plan its sheet was written for."""

    table: SheetTable
    number: int
    cells: Mapping[str, Any]
    plan: str


def _plan(table: SheetTable, rows: list[list[Any]], rules: FloorRules, read: FloorRead) -> str | None:
    """Return the plan that a sheet was written for, the newest where it says none; None for a strange one."""
    for number, cells in enumerate(rows[:4], start=1):
        for cell in cells[:3]:
            said = _PLAN.search(str(cell))
            if said is None:
                continue
            if said[1] in rules.plans:
                return said[1]
            read.problems.append(
                f"{table.place.at(row=number, column='A')}: the ledger has published no plan {said[1]}; "
                "no row of this sheet is taken: give the book to the shop's folder it was written for"
            )
            return None
    return next(iter(list(rules.plans)[-1:]), "")


def _row(at: _RowAt, rules: FloorRules, read: FloorRead, seen: dict[str, str]) -> None:
    if not any(_filled(at.cells.get(name)) for name in (*BOX_FIELDS, "state")):
        return
    found = Findings(at.table.place.file)
    cell = CellReader(at.table, at.number, at.cells, found)
    task = _task(cell, at, rules)
    if task is not None and task.task in seen:
        cell.wrong("task", f"stands in the book twice, first at {seen[task.task]}", "leave one row out")
    if task is not None and not found.problems:
        seen[task.task] = str(at.table.at(at.number, "task"))
        report = _report(cell, task, at, rules)
        state = cell.one_of("state", rules.states, "is no state")
        if not found.problems:
            _odd(report, task, at, read)
            read.reports.append((report, state))
    read.problems += found.problems


def _filled(value: Any) -> bool:
    return value is not None and str(value).strip() != ""


def _task(cell: CellReader, at: _RowAt, rules: FloorRules) -> FloorTask | None:
    name = str(at.cells.get("task", "")).strip()
    task = rules.plans.get(at.plan, {}).get(name)
    if task is None:
        others = (tasks[name] for tasks in reversed(list(rules.plans.values())) if name in tasks)
        task = next(others, None)
    if task is None:
        known = {*rules.jobs, *(one for tasks in rules.plans.values() for one in tasks)}
        hint = did_you_mean(name, known)
        what = "was in no published plan" if name in rules.jobs else "the ledger knows no job of this id"
        cell.wrong("task", what, hint or "write the id of the papers, or leave the row out")
    elif task.line in rules.dropped:
        cell.wrong("task", "the job was dropped", "leave the row out, or ask the scheduler")
    return task


def _report(cell: CellReader, task: FloorTask, at: _RowAt, rules: FloorRules) -> FloorReport:
    known = rules.known.get(task.task)
    values: dict[str, Any] = {name: _time(cell, name) for name in _TIMES}
    values |= {name: cell.whole(name) for name in _COUNTS}
    values |= {name: _size(cell, name, rules.inch) for name in _SIZES}
    values |= {name: _text(cell.value(name)) for name in _TEXTS}
    day = cell.day("day") if _filled(at.cells.get("day")) else None
    report = FloorReport(
        task.task, task.kind, task.line, task.machine,
        day=(day or date.fromisoformat(task.start[:10])).isoformat(),
        cells={
            name: str(at.table.at(at.number, name)) for name in BOX_FIELDS if _filled(at.cells.get(name))
        },
        planned=(known.planned if known else None) or _whole(task, rules),
        plan=at.plan,
        **values,
    )  # fmt: skip
    _together(cell, report)
    _pieces(cell, report, task, rules)
    if known is not None and known.plan != report.plan and _differs(known, report):
        was = known.cells.get("run") or known.cells.get("both") or "an earlier book"
        cell.wrong("run", f"{task.task} was finished already: {was}", "correct it in the book it stands in")
    return report


def _whole(task: FloorTask, rules: FloorRules) -> FloorTask:
    """Return a task as it was planned before it began: a plan made while it runs has only what is left."""
    if task.counts or not task.line:
        return task
    earlier = [tasks[task.task] for tasks in rules.plans.values() if task.task in tasks]
    whole = [one for one in earlier if one.machine == task.machine and one.counts and one.run >= task.run]
    return whole[-1] if whole else task


def _time(cell: CellReader, name: str) -> float | None:
    value = cell.value(name)
    if value is None:
        return None
    try:
        found = minutes_of(value)
    except NoTimeError as error:
        cell.wrong(name, str(error.args[0]), str(error.args[1]))
        return None
    if found == 0 and name != "setup":
        cell.wrong(name, "is no time at all", "write the minutes it took, or leave the box empty")
    return round(found, 2)


def _size(cell: CellReader, name: str, inch: bool) -> float | None:
    value = cell.value(name)
    if value is None:
        return None
    in_inches = inch and "mm" not in cell.table.headers.get(name, "").casefold()
    try:
        return read_size(value, inch=in_inches, gauge_table="")
    except (ValueError, KeyError) as error:
        cell.wrong(name, str(error.args[0]), "write one size as it was read")
        return None


def _text(value: Any) -> str:
    return "" if value is None else str(value).strip()[:_MOST_TEXT]


def _together(cell: CellReader, report: FloorReport) -> None:
    if report.both is None or report.run is None:
        return
    apart = report.both - report.run - (report.setup or 0.0)
    if abs(apart) > _APART_MIN:
        cell.wrong("both", "is not set-up and rolling added up", "leave this box or the two others empty")


def _pieces(cell: CellReader, report: FloorReport, task: FloorTask, rules: FloorRules) -> None:
    """Tell more good pieces than there are: of the task, or of its job over all its lots."""
    if not report.good or not task.line:
        return
    whole = min(task.pieces, rules.jobs.get(task.line, task.pieces))
    others = sum(
        one.good or 0
        for name, one in rules.known.items()
        if one.line == task.line and one.kind == task.kind and name != task.task
    )
    if report.good > task.pieces or report.good + others > rules.jobs.get(task.line, task.pieces):
        told = f", {others} of the job are good already" if others else ""
        cell.wrong("good", f"is more than the {whole} pieces made{told}", "write how many of them are good")


def _differs(known: FloorReport, report: FloorReport) -> bool:
    """Return whether two reports of one task tell other minutes or pieces."""
    return known.timed and any(
        getattr(report, name) is not None and getattr(report, name) != getattr(known, name)
        for name in (*_TIMES, "good", "scrap")
    )


def _odd(report: FloorReport, task: FloorTask, at: _RowAt, read: FloorRead) -> None:
    for name, planned in (("setup", task.setup), ("run", task.run), ("both", task.setup + task.run)):
        took = getattr(report, name)
        if took is not None and planned and took > _MANY_TIMES * planned and took - planned > _MANY_MIN:
            read.odd.append(
                f"{at.table.at(at.number, name)}: {took:g} minutes where {planned:g} were planned; taken as "
                "it stands, and set aside by `rollwright learn` if nothing else is like it"
            )
