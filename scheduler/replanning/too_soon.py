"""A day on which work cannot ship, whatever else is put off: told without a search for a plan."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta

from quoting.shop import Shop
from scheduler.replanning.floor import Floor
from scheduler.replanning.floor_problem import floor_problem
from scheduler.sequence import Crowd, SequenceProblem, alone_too_late, crowded, soonest
from scheduler.week import WeekProblem


@dataclass(frozen=True, slots=True)
class TooSoon:
    """Why a day is too soon, proven, and the first later day that is not proven to be.

    `alone` has for each line that is too late even with the shop to itself the day it is done at the soonest;
    `crowd` the work that is too much together, None when the lines of `alone` are reason enough. `first` is
    None when no day of the horizon will do.
    """

    alone: dict[str, date]
    crowd: Crowd | None
    first: date | None


def too_soon(floor: Floor, shop: Shop, names: Collection[str], by: date) -> TooSoon | None:
    """Return why lines cannot all ship by a day, None when that is not proven (a plan may still find none).

    All overtime counts as worked, people as enough, and every other job may wait.
    """
    week = floor_problem(floor, shop)
    refused = _refused(week, names, by)
    if refused is None:
        return None
    ends = {name: week.axis.moment(minute - 1).date() for name, minute in soonest(week.problem).items()}
    late, crowd = refused
    last = week.axis.moment(week.problem.horizon).date()
    days = (by + timedelta(days=k) for k in range(1, (last - by).days + 1))
    first = next((day for day in days if _refused(week, names, day) is None), None)
    return TooSoon({name: ends[name] for name in late}, crowd, first)


def _refused(week: WeekProblem, names: Collection[str], by: date) -> tuple[list[str], Crowd | None] | None:
    problem = _by(week, names, by)
    late = [ship.job for ship in alone_too_late(problem)]
    if late:
        return late, None
    crowd = crowded(problem)
    return None if crowd is None else ([], crowd)


def _by(week: WeekProblem, names: Collection[str], by: date) -> SequenceProblem:
    """Return the problem in which these lines alone have a hard date."""
    minute = week.axis.minute(datetime.combine(by + timedelta(days=1), time()))
    jobs = tuple(replace(job, must_ship=minute if job.id in names else None) for job in week.problem.jobs)
    return replace(week.problem, jobs=jobs)
