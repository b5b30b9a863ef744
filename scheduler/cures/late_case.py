"""One late line, the plan it is late in, and what comes of trying a change."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from quoting.shop import Shop
from scheduler.jobs import DAY_MIN, WonLine
from scheduler.sequence import (
    Opened,
    Plan,
    SequenceProblem,
    Tables,
    Timed,
    aim_rank,
    bring_forward,
    job_end,
    opened_in,
    tables,
    timed_again,
)
from scheduler.week import WeekProblem

LEAST_GAIN_MIN = 60
"""A change that leaves a line late is told when it takes at least this much off; fewer minutes are noise."""


@dataclass(frozen=True, slots=True)
class Trial:
    """A change that was tried: its kind, what to do in words, and the plan found with it."""

    kind: str
    do: str
    tables: Tables
    timed: Timed


@dataclass(frozen=True)
class Case:
    """A late line in a plan; `places` is how many places in the order a change tries it at."""

    week: WeekProblem
    plan: Plan
    shop: Shop
    line: WonLine
    places: int

    @cached_property
    def problem(self) -> SequenceProblem:
        """The problem that the plan solves: wishes it gave up are left out."""
        return self.week.problem.without(self.plan.dropped)

    @cached_property
    def job(self) -> int:
        """The line's place among the jobs."""
        return next(k for k, job in enumerate(self.problem.jobs) if job.id == self.line.id)

    @cached_property
    def operations(self) -> tuple[str, ...]:
        """The line's operations, the first rolling first, then the cuts of its plates."""
        own = [work for work in self.week.works if work.line is not None and work.line.id == self.line.id]
        cuts = [work for work in self.week.works if work.plate and work.plate.id in self.line.plates]
        return tuple(work.operation.id for work in (*own, *cuts))

    @cached_property
    def machines(self) -> frozenset[str]:
        """The machines that the plan does the line and its cuts on."""
        return frozenset(self.plan.of(operation).machine for operation in self.operations)

    @cached_property
    def ends(self) -> dict[str, int]:
        """The minute at which each job ends in the plan."""
        return ends(self.problem, self.plan)

    @property
    def end(self) -> int:
        """The minute at which the line ends in the plan."""
        return self.ends[self.line.id]

    @property
    def late(self) -> int:
        """Minutes the line is late in the plan."""
        return self.end - self.problem.jobs[self.job].due

    @cached_property
    def workdays(self) -> tuple[int, ...]:
        """Days of the plan, the first one is 0, on which a machine of the line is open in regular time."""
        days = {
            window.start // DAY_MIN
            for machine in self.problem.machines
            for window in machine.windows
            if machine.id in self.machines and window.overtime_cost_per_min is None
        }
        return tuple(sorted(days))

    def solved(self, problem: SequenceProblem, opened: Opened | None = None) -> tuple[Tables, Timed]:
        """Return the plan's order in a changed problem, with the line brought forward.

        It is brought on time at any price, but when it stays late only as far as that pays.
        """
        t = tables(problem, opened_in(self.plan) if opened is None else opened)
        again = timed_again(t, self.plan)
        timed = bring_forward(t, again, self.job, self.places)
        if LEAST_GAIN_MIN <= self.late - self.late_in(t, timed) < self.late:
            timed = bring_forward(t, again, self.job, self.places, aim_rank)
        return t, timed

    def late_in(self, t: Tables, timed: Timed) -> int:
        """Return the minutes the line is late in another timed order."""
        return max(0, job_end(t, timed, self.job) - t.due[self.job])


def ends(problem: SequenceProblem, plan: Plan) -> dict[str, int]:
    """Return the minute at which each job ends in a plan."""
    job = {operation.id: operation.job for operation in problem.operations}
    found: dict[str, int] = {}
    for assignment in plan.assignments:
        name = job[assignment.operation]
        found[name] = max(assignment.end, found.get(name, 0))
    return found
