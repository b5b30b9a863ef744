"""The floor of an invented year as it really goes: days played with true minutes, seen by the planner."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, datetime, time, timedelta

from quoting.shop import Shop
from scheduler.calendar import working_days_after
from scheduler.jobs import CUT, RE_ROUND, ROLL, PlateToCut
from scheduler.replanning import Floor, FloorJob, FloorStop, floor_problem
from scheduler.sequence import Opened, Tables, Timed, tables
from scheduler.week import WeekProblem
from tests.benchmarks.year.invented import Breakdown, Come, Inquiry

AT = time(6, 0)
"""When a day begins: what the morning's plan is made from."""

Order = Callable[[WeekProblem], tuple[Opened, Callable[[Tables], Timed]]]
"""How a shop works a day: overtime, and the order of work as it is timed."""


@dataclass
class Job:
    """A job as it stands; `true_left` are true minutes left of what is on a roll, `worked` those done."""

    come: Come
    quote: str
    quoted: date
    ordered: date
    promised: date
    rush: bool
    plate_day: date
    expected: date
    state: str = "won"
    since: datetime | None = None
    roll: str = ""
    cut_left: float = 0.0
    true_left: int = 0
    worked: int = 0
    re_rounded: int = 0
    back: date | None = None
    done: date | None = None


@dataclass
class Played:
    """The jobs of one shop through the year, and what was done in it."""

    shop: Shop
    jobs: dict[str, Job] = field(default_factory=dict)
    finished: list[Job] = field(default_factory=list)
    stops: list[FloorStop] = field(default_factory=list)
    setup_minutes: int = 0
    overtime_minutes: int = 0

    def take(self, inquiry: Inquiry, promised: dict[str, date]) -> None:
        """Take a won quote in; its plates are ordered on the day it is decided."""
        for come in inquiry.lines:
            day = inquiry.decided
            expected = working_days_after(day, come.lead, self.shop)
            late = come.truth.plate_late if come.lead else 0
            self.jobs[come.line.id] = Job(
                come, inquiry.name, inquiry.day, day, promised[come.line.id], inquiry.rush_by is not None,
                working_days_after(expected, late, self.shop), expected, cut_left=come.plate.minutes,
            )  # fmt: skip

    def floor(self, moment: datetime, *, true: bool = False, down: Sequence[Breakdown] = ()) -> Floor:
        """Return the floor as the planner sees it, or as it really is with the breakdowns of the day."""
        jobs = tuple(self._job(job, moment, true) for job in self.jobs.values())
        plates = tuple(self._plate(job, moment, true) for job in self.jobs.values() if job.state == "won")
        stops = [stop for stop in self.stops if stop.end > moment]
        if true:
            stops += [_stop(one) for one in down]
        return Floor(moment, jobs, plates, tuple(stops))

    def _job(self, job: Job, moment: datetime, true: bool) -> FloorJob:
        factor = job.come.truth.minutes if true else 1.0
        choices = tuple(
            replace(
                choice,
                minutes=choice.minutes * factor,
                re_round_minutes=max(1.0, choice.re_round_minutes * factor - job.re_rounded),
            )
            for choice in job.come.line.choices
        )
        line = replace(job.come.line, choices=choices, due=job.promised)
        left = None
        if job.state == "on the roll":
            told = next(c for c in job.come.line.choices if c.roll == job.roll).rolling_minutes
            left = job.true_left if true else max(1, told // 10, told - job.worked)
        back = None
        if job.state == "at the welder":
            usual = (job.since or moment) + timedelta(days=self.shop.working_time.weld_days)
            late = max(usual, moment + timedelta(days=1)) if usual <= moment else usual
            back = job.back if true else late.date()
        return FloorJob(line, job.state, job.since, job.roll, left, back)

    def _plate(self, job: Job, moment: datetime, true: bool) -> PlateToCut:
        today = moment.date()
        told = job.expected if job.expected >= today or job.plate_day <= today else today + timedelta(days=1)
        day = job.plate_day if true else told
        return replace(
            job.come.plate,
            minutes=max(1, round(job.cut_left * (job.come.truth.minutes if true else 1.0))),
            here_in_days=max(0, (day - today).days),
        )

    def facts(self) -> dict[str, str]:
        """Return what each job's plan is made from."""
        return {
            name: f"{job.promised} {job.expected if job.state == 'won' else ''} {job.worked}"
            for name, job in self.jobs.items()
        }

    def play(self, moment: datetime, until: datetime, order: Order, down: Sequence[Breakdown]) -> None:
        """Let the floor go from a moment to the next with true minutes, in the order of the shop."""
        week = self._true(floor_problem(self.floor(moment, true=True, down=down), self.shop))
        opened, timing = order(week)
        t = tables(week.problem, opened)
        timed = timing(t)
        end = week.axis.minute(until)
        for i, work in enumerate(week.works):
            if work.kind == CUT and work.plate:
                self._cut(self.jobs[work.plate.id.removeprefix("P")], t, timed, i, end)
            elif work.kind == ROLL and work.line:
                self._rolled(self.jobs[work.line.id], week, t, timed, i, end)
            elif work.kind == RE_ROUND and work.line:
                self._re_rounded(self.jobs[work.line.id], week, t, timed, i, end)
        self.stops = [stop for stop in (*self.stops, *map(_stop, down)) if stop.end > until]
        for job in [job for job in self.jobs.values() if job.done]:
            self.finished.append(self.jobs.pop(job.come.line.id))
        for job in self.jobs.values():
            if job.state == "at the welder" and job.back and job.back <= until.date():
                job.state = "back"

    def _true(self, week: WeekProblem) -> WeekProblem:
        factor = [self.jobs[w.line.id].come.truth.setup if w.line else 1.0 for w in week.works]
        setups = {
            name: (matrix * factor).round().astype(matrix.dtype)
            for name, matrix in week.problem.setups.items()
        }
        return replace(week, problem=replace(week.problem, setups=setups))

    def _worked(self, t: Tables, timed: Timed, i: int, end: int) -> int:
        """Return working minutes done on an operation before a minute; its set-up and overtime are booked."""
        if timed.start[i] >= end:
            return 0
        calendar = t.calendars[timed.machine[i]]
        first, last = calendar.before[timed.start[i]], calendar.before[min(end, timed.end[i])]
        if calendar.has_overtime:
            machine = t.problem.machines[timed.machine[i]]
            for window in machine.windows:
                if window.overtime_cost_per_min is not None and (machine.id, window.start) in t.opened:
                    a, b = max(window.start, timed.start[i]), min(window.end, timed.end[i], end)
                    self.overtime_minutes += max(0, b - a)
        self.setup_minutes += timed.setup_minutes[i]
        return last - first

    def _cut(self, job: Job, t: Tables, timed: Timed, i: int, end: int) -> None:
        worked = self._worked(t, timed, i, end)
        if timed.end[i] <= end and timed.start[i] < end:
            job.state, job.cut_left = "cut", 0.0
        elif worked:
            job.cut_left = max(1.0, job.cut_left - worked / job.come.truth.minutes)

    def _rolled(self, job: Job, week: WeekProblem, t: Tables, timed: Timed, i: int, end: int) -> None:
        worked = self._worked(t, timed, i, end)
        if timed.start[i] >= end:
            return
        machine = timed.machine[i]
        if job.state != "on the roll":
            job.since = week.axis.moment(timed.start[i])
            job.worked = 0
        job.roll = t.problem.machines[machine].id
        if timed.end[i] > end:
            job.state = "on the roll"
            job.true_left, job.worked = max(1, t.minutes[i][machine] - worked), job.worked + worked
            return
        finish = week.axis.moment(timed.end[i])
        job.since = finish
        if job.come.line.re_round:
            job.state = "at the welder"
            late = job.come.truth.weld_late
            usual = finish.date() + timedelta(days=self.shop.working_time.weld_days)
            job.back = working_days_after(usual, late, self.shop)
        else:
            job.state, job.done = "done", finish.date()

    def _re_rounded(self, job: Job, week: WeekProblem, t: Tables, timed: Timed, i: int, end: int) -> None:
        if job.state in ("won", "cut", "on the roll") or timed.start[i] >= end:
            return
        worked = self._worked(t, timed, i, end)
        if timed.end[i] <= end:
            job.state, job.done = "done", week.axis.moment(timed.end[i] - 1).date()
        else:
            job.re_rounded += worked


def _stop(one: Breakdown) -> FloorStop:
    """Return a breakdown as it is noted: worked hours are put on working days of eight, roughly."""
    begin = datetime.combine(one.day, time()) + timedelta(minutes=one.minute)
    return FloorStop(begin, begin + timedelta(hours=one.hours * 2), one.roll, reason="broken down")


def names(inquiry: Inquiry) -> list[str]:
    """Return the ids of a quote's lines."""
    return [one.line.id for one in inquiry.lines]
