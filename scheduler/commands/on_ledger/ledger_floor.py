"""From the ledger to the floor at a moment, to the jobs book, and back from its edits."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime
from typing import Any

from sqlalchemy import Connection

from quoting.ledger import (
    STATES,
    LedgerJob,
    LedgerPlate,
    LedgerStop,
    RackNow,
    change_job,
    cut_plates,
    damaged,
    expect_plate,
    jobs_of,
    keep_stops,
    note_event,
    plates_of,
    run_record,
    stops_of,
)
from quoting.record import PlateRecord, RunRecord
from quoting.shop import Shop
from scheduler.jobs import CUTTING_STATIONS, PlateToCut, WonLine, in_house_on, plates_to_cut, won_lines
from scheduler.jobsbook import BookRules, JobRow, JobRules, JobsBook, PlateRow, StopRow
from scheduler.replanning import Floor, FloorJob, FloorStop, Published


class LedgerFloor:
    """The open jobs of the ledger with what each is made of, read once."""

    def __init__(self, connection: Connection, shop: Shop) -> None:
        self.connection, self.shop = connection, shop
        self.jobs: dict[str, LedgerJob] = {job.line: job for job in jobs_of(connection)}
        self.records: dict[int, RunRecord] = {
            run: run_record(connection, run) for run in dict.fromkeys(job.run for job in self.jobs.values())
        }
        self.plates: dict[str, LedgerPlate] = {plate.words: plate for plate in plates_of(connection)}
        self.lines: dict[str, WonLine] = {}
        for run, record in self.records.items():
            mine = [job.line for job in self.jobs.values() if job.run == run]
            for line in won_lines(record, mine):
                self.lines[line.id] = own_names(line, run)
        for plate in self.plates.values():
            if plate.run not in self.records:
                raise damaged(f"no job is of the run that plate {plate.words} was nested in")

    def floor(self, moment: datetime) -> Floor:
        """Return the floor at a moment."""
        jobs = tuple(self._job(job) for job in self.jobs.values())
        stops = tuple(
            FloorStop(_moment(stop.start), _moment(stop.end), stop.machine, stop.people, stop.reason)
            for stop in stops_of(self.connection)
        )
        return Floor(moment, jobs, self._plates(moment), stops)

    def facts(self) -> dict[str, str]:
        """Return for each line what a plan is made from: another text means that the job has changed."""
        found = {}
        for name, job in self.jobs.items():
            plates = [plate for plate in self.plates.values() if name in plate.lines]
            days = sorted(self.expected(plate).isoformat() for plate in plates if self._to_come(plate))
            parts = (
                job.quantity, job.due, job.must_ship, job.not_before, job.pin_roll, job.pin_day, job.hold,
                job.rank, job.minutes_left, job.state, *days,
            )  # fmt: skip
            found[name] = " ".join(str(part) for part in parts)
        return found

    def expected(self, plate: LedgerPlate) -> date:
        """Return the day a plate is in the house: as typed for its job or for it, else order day and lead."""
        jobs = [self.jobs[line] for line in plate.lines if line in self.jobs]
        typed = [job.plate_in for job in jobs if job.plate_in]
        if typed:
            return date.fromisoformat(max(typed))
        if plate.expected:
            return date.fromisoformat(plate.expected)
        ordered = date.fromisoformat(
            min((job.order_day for job in jobs if job.order_day), default="2000-01-01")
        )
        cut = self._recorded(plate)
        return in_house_on(cut, ordered, self.shop) if cut else ordered

    def _recorded(self, plate: LedgerPlate) -> PlateRecord | None:
        """Return the plate as the record of its run has it."""
        cuts = (cut for group in self.records[plate.run].nest for cut in group.plates)
        return next((cut for cut in cuts if cut.id == plate.name), None)

    def book(self, published: Published | None) -> JobsBook:
        """Return the jobs book as the ledger has it, in the order of the plan."""
        planned = _planned(published)
        rows = [
            replace(row_of(job, self.lines[name]), **planned.get(name, {})) for name, job in self.jobs.items()
        ]
        late = datetime(9999, 1, 1)
        rows.sort(key=lambda row: (row.planned_start or late, row.line))
        stops = tuple(
            StopRow(_moment(stop.start), _moment(stop.end), stop.machine, stop.people, stop.reason)
            for stop in stops_of(self.connection)
        )
        plates = tuple(
            PlateRow(
                plate.words,
                plate.material,
                ", ".join(plate.lines),
                plate.bought,
                self.expected(plate) if self._to_come(plate) else None,
            )
            for plate in self.plates.values()
        )
        return JobsBook(tuple(rows), stops, plates)

    def rules(self) -> BookRules:
        """Return what the jobs book may say."""
        jobs = {
            name: JobRules(
                row_of(job, self.lines[name]),
                date.fromisoformat(job.order_day),
                tuple(choice.roll for choice in self.lines[name].choices),
                self.lines[name].re_round,
            )
            for name, job in self.jobs.items()
        }
        plates = {row.name: row for row in self.book(None).plates}
        machines = (*(roll.name for roll in self.shop.rolls), *CUTTING_STATIONS.values())
        closed = {job.line for job in jobs_of(self.connection, closed=True)} - set(jobs)
        return BookRules(jobs, plates, machines, STATES, closed=closed, cut=cut_plates(self.connection))

    def take(self, book: JobsBook, moment: datetime, rack: RackNow) -> int:
        """Write a book's edits into the ledger; return how many jobs changed."""
        changed = 0
        for row in book.jobs:
            job = self.jobs[row.line]
            values = _edits(row, job, moment)
            if values:
                changed += 1
                change_job(self.connection, job, rack, **values)
                told = ", ".join(f"{name} {value}" for name, value in values.items() if name != "since")
                note_event(self.connection, moment.isoformat(" ", "minutes"), "edited", row.line, told)
        keep_stops(
            self.connection,
            [
                LedgerStop(_text(stop.start), _text(stop.end), stop.machine, stop.people, stop.reason)
                for stop in book.stops
            ],
        )
        for plate in book.plates:
            known = self.plates[plate.name]
            if plate.expected and plate.expected != self.expected(known):
                expect_plate(self.connection, known, plate.expected.isoformat())
        return changed

    def _job(self, job: LedgerJob) -> FloorJob:
        line = self.lines[job.line]
        line = replace(line, due=date.fromisoformat(job.due) if job.due else None)
        if job.quantity != line.quantity:
            line = _of_quantity(line, job.quantity)
        not_before = _moment(job.not_before) if job.not_before else None
        return FloorJob(
            line=line,
            state=job.state,
            since=_moment(job.since) if job.since else None,
            roll=job.roll,
            minutes_left=job.minutes_left,
            back_on=not_before.date() if not_before and job.state == "at the welder" else None,
            must_ship=date.fromisoformat(job.must_ship) if job.must_ship else None,
            not_before=not_before,
            pin_roll=job.pin_roll,
            pin_day=date.fromisoformat(job.pin_day) if job.pin_day else None,
            hold=job.hold,
            rank=job.rank,
        )

    def _to_come(self, plate: LedgerPlate) -> bool:
        """Return whether a plate is still to come: it is bought and none of its jobs says that it is in."""
        states = {self.jobs[line].state for line in plate.lines if line in self.jobs}
        cut = self._recorded(plate)
        coming = plate.bought or bool(plate.expected) or bool(cut and cut.here_on)
        return coming and "plate in" not in states

    def _plates(self, moment: datetime) -> tuple[PlateToCut, ...]:
        found = []
        for run, record in self.records.items():
            mine = [line for name, line in self.lines.items() if self.jobs[name].run == run]
            plain = won_lines(record, [line.id for line in mine])
            for plate in plates_to_cut(record, plain, self.shop, moment.date(), moment.date()):
                known = self.plates.get(f"{plate.id} ({run})")
                if known is None:
                    continue
                days = (self.expected(known) - moment.date()).days if self._to_come(known) else 0
                found.append(replace(plate, id=known.words, here_in_days=max(0, days)))
        return tuple(found)


def row_of(job: LedgerJob, line: WonLine) -> JobRow:
    """Return a job as its row in the jobs book."""
    return JobRow(
        line=job.line,
        quantity=job.quantity,
        state=job.state,
        due=_day(job.due),
        must_ship=_day(job.must_ship),
        not_before=_moment(job.not_before) if job.not_before else None,
        pin_roll=job.pin_roll,
        pin_day=_day(job.pin_day),
        hold=job.hold,
        rank=job.rank,
        minutes_left=job.minutes_left,
        roll=job.roll,
        plate_in=_day(job.plate_in),
        customer=job.customer,
        order_no=job.order_no,
        part=f"{job.quantity} × {line.part}",
        promised=_day(job.promised),
    )


def _edits(row: JobRow, job: LedgerJob, moment: datetime) -> dict[str, Any]:
    """Return the fields of a job that its row changes, as the ledger keeps them."""
    texts = {
        "due": row.due, "must_ship": row.must_ship, "not_before": row.not_before, "pin_day": row.pin_day,
        "plate_in": row.plate_in,
    }  # fmt: skip
    new: dict[str, Any] = {name: "" if value is None else _text(value) for name, value in texts.items()}
    for name in ("quantity", "state", "pin_roll", "hold", "rank", "minutes_left", "roll"):
        new[name] = getattr(row, name)
    if row.state == "rolled" and job.state != "rolled":
        new["minutes_left"] = None
    changed = {name: value for name, value in new.items() if value != getattr(job, name)}
    if "state" in changed:
        changed["since"] = _text(moment)
    return changed


def own_names(line: WonLine, run: int) -> WonLine:
    """Return a line whose plates bear the names that are theirs alone: two runs may use one name."""
    return replace(
        line,
        plates=tuple(f"{plate} ({run})" for plate in line.plates),
        blanks_on={f"{plate} ({run})": count for plate, count in line.blanks_on.items()},
    )


def _of_quantity(line: WonLine, quantity: int) -> WonLine:
    """Return a line with its minutes for another quantity, by parts, as if each took as long."""
    share = quantity / line.quantity
    choices = tuple(
        replace(choice, minutes=choice.minutes * share, re_round_minutes=choice.re_round_minutes * share)
        for choice in line.choices
    )
    return replace(line, quantity=quantity, choices=choices, blanks_on={})


def _planned(published: Published | None) -> dict[str, dict[str, Any]]:
    found: dict[str, dict[str, Any]] = {}
    for work in sorted(published.works.values() if published else (), key=lambda work: work.start):
        if work.line:
            had = found.setdefault(work.line, {"planned_roll": work.machine, "planned_start": work.start})
            had["planned_end"] = work.end
    return found


def _day(text: str) -> date | None:
    return date.fromisoformat(text) if text else None


def _moment(text: str) -> datetime:
    return datetime.fromisoformat(text)


def _text(value: date) -> str:
    return value.isoformat(" ", "minutes") if isinstance(value, datetime) else value.isoformat()
