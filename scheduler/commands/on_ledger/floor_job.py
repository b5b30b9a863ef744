"""The floor book written from the plan published last, and read back into the ledger."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import partial
from pathlib import Path

from sqlalchemy import Connection

from quoting.books import OutputFolder
from quoting.commands import Writer
from quoting.core import InputError, first_few
from quoting.ledger import (
    STATES,
    FloorReport,
    FloorTask,
    Ledger,
    LedgerJob,
    RackNow,
    change_job,
    jobs_of,
    keep_report,
    last_plan,
    ledger_of,
    note_event,
    plan_names,
    plates_by_job,
    reports_of,
    tasks_of,
)
from quoting.ledger_commands import reading_rows
from quoting.shop import Shop, load_shop
from scheduler.floorbook import (
    FloorPage,
    FloorRead,
    FloorRow,
    FloorRules,
    read_floor_book,
    week_ahead,
    write_floor_book,
)
from scheduler.jobs import CUT, RE_ROUND, ROLL

WEEK = 7
_NOT_CUT = STATES[: STATES.index("cut")]


@dataclass(frozen=True, slots=True)
class FloorRequest:
    """Which books are read back; without any a new one is written to `out_dir`, for so many days."""

    shop_dir: Path
    books: tuple[Path, ...] = ()
    out_dir: Path | None = None
    days: int = WEEK
    force: bool = False


def floor_job(request: FloorRequest) -> int:
    """Read floor books into the ledger, or write a new one; return the exit code."""
    shop = load_shop(request.shop_dir)
    ledger = ledger_of(request.shop_dir)
    if not request.books:
        return _write(request, shop, ledger)
    code = 0
    for path in request.books:
        with ledger.writing("floor") as connection:
            taken = FloorTaking(connection, shop, ledger.rack_now(shop))
            read = taken.take(path)
            readings = reading_rows(connection, shop) if taken.new else []
        print("\n".join(taken.rows(path, read) + readings))
        code = max(code, 1 if read.problems else 0)
    return code


def _write(request: FloorRequest, shop: Shop, ledger: Ledger) -> int:
    if request.out_dir is None:
        raise InputError(
            "no floor book is given", would_do="name a book to read, or --out to write a new one"
        )
    with ledger.reading() as connection:
        writers = floor_writers(connection, shop, request.days)
    if not writers:
        raise InputError("no plan is published yet", would_do="plan the jobs with `rollwright plan`")
    for path in OutputFolder(request.out_dir, force=request.force).write(writers):
        print(f"wrote {path}")
    return 0


def floor_writers(connection: Connection, shop: Shop, days: int = WEEK) -> dict[str, Writer]:
    """Return a writer of the floor book of the plan published last; none without a plan that has tasks."""
    names = plan_names(connection)
    name, plan = next(reversed(names.items()), ("", 0))
    tasks = tasks_of(connection, plan) if name else ()
    if not tasks:
        return {}
    published = last_plan(connection) or {}
    moment = datetime.fromisoformat(published["moment"])
    rows = _rows(connection, [task for task in tasks if week_ahead(task.start, moment, days)])
    page = FloorPage(shop.name, shop.paper, shop.inch, name, moment, STATES)
    return {f"floor-{moment:%Y-%m-%d-%H%M}.xlsx": partial(write_floor_book, rows, page)}


def _rows(connection: Connection, tasks: Sequence[FloorTask]) -> list[FloorRow]:
    jobs = {job.line: job for job in jobs_of(connection, closed=True)}
    known = {report.task: report for report in reports_of(connection)}
    cut_for: dict[str, list[str]] = defaultdict(list)
    for line, plates in plates_by_job(connection).items():
        for plate in plates:
            cut_for[plate].append(line)
    machines = list(dict.fromkeys(task.machine for task in tasks))
    rows = []
    for task in sorted(tasks, key=lambda task: (machines.index(task.machine), task.start)):
        if task.kind == CUT:
            said, state = ("", f"cut for {', '.join(cut_for[task.task])}"), ""
        else:
            job = jobs[task.line]
            again = "re-round: " if task.kind == RE_ROUND else ""
            said, state = (job.customer, again + job.part), job.state
        rows.append(FloorRow(task, *said, state, known.get(task.task)))
    return rows


class FloorTaking:
    """One book on its way into the ledger."""

    def __init__(self, connection: Connection, shop: Shop, rack: RackNow) -> None:
        self.connection, self.rack = connection, rack
        self.jobs = {job.line: job for job in jobs_of(connection, closed=True)}
        self.known = {report.task: report for report in reports_of(connection)}
        self.plans = {
            name: {task.task: task for task in tasks_of(connection, plan)}
            for name, plan in plan_names(connection).items()
        }
        self.pieces = {line: _pieces(line, self.plans) for line in self.jobs}
        dropped = [line for line, job in self.jobs.items() if job.state == "dropped"]
        self.rules = FloorRules(self.plans, self.known, self.pieces, dropped, STATES, shop.inch)
        self.new = self.same = 0
        self.moved: list[str] = []

    def take(self, path: Path) -> FloorRead:
        """Write what a book says into the ledger, and move the jobs; return what was read."""
        read = read_floor_book(path, self.rules)
        for report, state in read.reports:
            kept = keep_report(self.connection, report, self.known.get(report.task))
            self.new, self.same = self.new + (kept is not None), self.same + (kept is None)
            if kept is not None:
                self.known[report.task] = kept
                told = ", ".join(f"{name} {value}" for name, value in report.told().items())
                note_event(self.connection, report.day, "floor", report.task, told)
            if report.kind == CUT:
                self._cut()
            else:
                self._move(report, state)
        return read

    def rows(self, path: Path, read: FloorRead) -> list[str]:
        """Return what was taken, moved and refused, for the person who gave the book."""
        rows = [f"floor       {path.name}: {self.new} tasks taken, {self.same} as known"]
        if self.moved:
            rows.append(f"moved       {first_few(self.moved, 8)}")
        rows += [f"{'odd' if not k else '':<12}{one}" for k, one in enumerate(read.odd)]
        rows += [f"{'not taken' if not k else '':<12}{one}" for k, one in enumerate(read.problems)]
        return rows

    def _move(self, report: FloorReport, set_state: str) -> None:
        job = self.jobs[report.line]
        state = set_state or self._state(job, report)
        values = {"roll": report.machine} if report.kind == ROLL else {}
        self._change(job, state, report.day, **values)

    def _state(self, job: LedgerJob, report: FloorReport) -> str:
        """Return where a job stands by what is written down of it."""
        mine = [one for one in self.known.values() if one.line == job.line and one.kind == report.kind]
        good = sum(one.good or 0 for one in mine)
        all_good = good >= self.pieces[job.line] and all(one.timed for one in mine)
        if report.kind == RE_ROUND:
            return "done" if all_good else job.state
        return "rolled" if all_good else "on the roll"

    def _cut(self) -> None:
        """Move jobs of which every plate is cut."""
        cut = {name for name, report in self.known.items() if report.kind == CUT and report.timed}
        for line, plates in plates_by_job(self.connection).items():
            job = self.jobs[line]
            if job.state in _NOT_CUT and plates and cut.issuperset(plates):
                day = max(self.known[plate].day for plate in plates)
                self._change(job, "cut", day)

    def _change(self, job: LedgerJob, state: str, day: str, **values: str) -> None:
        """Move a job forward; a job never goes back by what the floor writes."""
        if state == job.state or (state != "dropped" and STATES.index(state) < STATES.index(job.state)):
            return
        done = {"minutes_left": None} if state == "rolled" else {}
        after = change_job(
            self.connection, job, self.rack, state=state, since=f"{day} 00:00", **values, **done
        )
        self.jobs[job.line] = after
        self.moved.append(f"{job.line} {state}")


def _pieces(line: str, plans: Mapping[str, Mapping[str, FloorTask]]) -> int:
    """Return how many blanks a job is rolled from: of all its lots, in the plan that has most of them."""
    return max(
        (
            sum(task.pieces for task in tasks.values() if task.line == line and task.kind == ROLL)
            for tasks in plans.values()
        ),
        default=0,
    )
