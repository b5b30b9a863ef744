"""From the floor at a moment to the sequencing problem of what is left to do.

It is the problem of a week (`scheduler.week`) with what is done taken out, closed until the moment, and with
machines down and people away.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime, time, timedelta
from itertools import pairwise

import numpy as np

from quoting.shop import Shop
from scheduler.calendar import MinuteAxis
from scheduler.jobs import RE_ROUND, ROLL, ShopOperation
from scheduler.replanning.floor import BEFORE_CUT, Floor, FloorJob, FloorStop
from scheduler.sequence import Aim, Machine, SequenceProblem, Staffing, Window
from scheduler.week import WeekProblem, week_problem
from scheduler.wishes import LinePin, ShipDate, Wishes

BOOK = "the jobs book"


def floor_problem(floor: Floor, shop: Shop, aim: Aim = Aim.MONEY) -> WeekProblem:
    """Return the problem of what is left to do from the floor's moment on.

    Minute 0 is the midnight before the moment. Jobs on hold are not in it.
    """
    jobs = floor.working
    lines = [
        job.line if job.state in BEFORE_CUT else replace(job.line, plates=(), blanks_on={}) for job in jobs
    ]
    needed = {plate for line in lines for plate in line.plates}
    plates = [plate for plate in floor.plates if plate.id in needed]
    first = floor.moment.date()
    week = week_problem(lines, plates, as_set_up(floor, shop), first, _wishes(jobs, floor.moment), aim)
    rolled = {job.line.id: job for job in jobs if not job.still_to_roll}
    kept = [
        index for index, work in enumerate(week.works) if not (_line(work) in rolled and work.kind == ROLL)
    ]
    works = tuple(_re_round_only(week.works[index], rolled, floor, shop) for index in kept)
    return replace(week, works=works, problem=_closed(_with(week.problem, works, kept), week.axis, floor))


def _line(work: ShopOperation) -> str:
    return work.line.id if work.line else ""


def _re_round_only(
    work: ShopOperation, rolled: dict[str, FloorJob], floor: Floor, shop: Shop
) -> ShopOperation:
    """Return an operation; the re-rounding of a part that is rolled waits for the welder alone."""
    job = rolled.get(_line(work))
    if job is None or work.kind != RE_ROUND:
        return work
    midnight = datetime.combine(floor.moment.date(), time())
    back = floor.moment
    if job.state != "back":
        usual = (job.since or floor.moment) + timedelta(days=shop.working_time.weld_days)
        back = datetime.combine(job.back_on, time()) if job.back_on else usual
    release = max(0, (back - midnight) // timedelta(minutes=1))
    return replace(work, operation=replace(work.operation, after=(), release=release))


def _with(problem: SequenceProblem, works: Sequence[ShopOperation], kept: Sequence[int]) -> SequenceProblem:
    names = {work.operation.id for work in works}
    rows = [0, *(index + 1 for index in kept)]
    return replace(
        problem,
        operations=tuple(work.operation for work in works),
        setups={name: matrix[np.ix_(rows, list(kept))] for name, matrix in problem.setups.items()},
        pins=tuple(pin for pin in problem.pins if {pin.operation, pin.before or pin.operation} <= names),
    )


def _closed(problem: SequenceProblem, axis: MinuteAxis, floor: Floor) -> SequenceProblem:
    now = axis.minute(floor.moment)
    away = [stop for stop in floor.stops if not stop.machine and stop.people]
    machines = tuple(
        replace(machine, windows=_open(machine, axis, now, floor.stops)) for machine in problem.machines
    )
    staffing = tuple(
        part for level in problem.staffing for part in _present(level, axis, away) if part.people > 0
    )
    return replace(problem, machines=machines, staffing=staffing)


def _open(machine: Machine, axis: MinuteAxis, now: int, stops: Sequence[FloorStop]) -> tuple[Window, ...]:
    """Return a machine's windows without the past and without the times it is down."""
    shut = [(0, now)] if now > 0 else []
    shut += [(axis.minute(stop.start), axis.minute(stop.end)) for stop in stops if stop.machine == machine.id]
    windows = list(machine.windows)
    for begin, end in shut:
        windows = [
            replace(window, start=a, end=b)
            for window in windows
            for a, b in ((window.start, min(window.end, begin)), (max(window.start, end), window.end))
            if a < b
        ]
    return tuple(windows)


def _present(level: Staffing, axis: MinuteAxis, away: Sequence[FloorStop]) -> list[Staffing]:
    cuts = {level.start, level.end}
    for stop in away:
        cuts |= {
            minute
            for minute in (axis.minute(stop.start), axis.minute(stop.end))
            if level.start < minute < level.end
        }
    edges = sorted(cuts)
    found = []
    for begin, end in pairwise(edges):
        gone = sum(stop.people for stop in away if axis.minute(stop.start) <= begin < axis.minute(stop.end))
        found.append(Staffing(begin, end, max(0, level.people - gone)))
    return found


def _wishes(jobs: Sequence[FloorJob], moment: datetime) -> Wishes:
    pins = [pin for job in jobs if (pin := _pin(job, moment)) is not None]
    ranked = sorted((job for job in jobs if job.rank is not None and job.still_to_roll), key=_rank)
    for one, other in pairwise(ranked):
        if one.rank != other.rank:
            pins.append(LinePin(one.line.id, BOOK, before=other.line.id))
    ships = tuple(ShipDate(job.line.id, BOOK, job.must_ship) for job in jobs if job.must_ship)
    return Wishes(BOOK, tuple(pins), ships)


def _rank(job: FloorJob) -> int:
    return job.rank or 0


def _pin(job: FloorJob, moment: datetime) -> LinePin | None:
    if not job.still_to_roll:
        return None
    if job.on_roll:
        return LinePin(job.line.id, BOOK, roll=job.roll or None, running=True, minutes_left=job.minutes_left)
    soonest = [job.not_before] if job.not_before else []
    if job.pin_day:
        soonest.append(datetime.combine(job.pin_day, time()))
    not_before = max([each for each in soonest if each > moment], default=None)
    if not job.pin_roll and not_before is None:
        return None
    return LinePin(job.line.id, BOOK, roll=job.pin_roll or None, not_before=not_before)


def as_set_up(floor: Floor, shop: Shop) -> Shop:
    """Return the shop with each roll set up as the last job that went over it left it."""
    last: dict[str, FloorJob] = {}
    for job in sorted((job for job in floor.jobs if job.roll and job.since), key=lambda job: str(job.since)):
        if not job.still_to_roll or job.on_roll:
            last[job.roll] = job
    rolls = tuple(
        replace(
            roll,
            set_thickness_mm=last[roll.name].line.thickness_mm,
            set_family=last[roll.name].line.family,
        )
        if roll.name in last
        else roll
        for roll in shop.rolls
    )
    return replace(shop, rolls=rolls)
