"""Hard dates that no plan keeps, seen without a search.

Two proofs, both against a shop that is kinder than the real one, so what they refuse is refused for good: a
job that ends too late although it has every machine and everybody to itself, and jobs whose work is more
than the minutes in which their machines are open until their dates. All overtime counts as open.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from scheduler.sequence.plan import Conflict
from scheduler.sequence.problem import SequenceProblem
from scheduler.sequence.problem_parts import MustShip, Pin
from scheduler.sequence.timing import Tables, overtime_windows, soonest_ends, tables


@dataclass(frozen=True, slots=True)
class Crowd:
    """Dates that cannot all be kept: their work `needs` more minutes than are `open` on these machines."""

    ships: tuple[MustShip, ...]
    machines: tuple[str, ...]
    needs: int
    open: int


def soonest(problem: SequenceProblem) -> dict[str, int]:
    """Return the minute before which no plan ends each job, whatever else is put off."""
    return dict(zip((job.id for job in problem.jobs), _kind(problem)[1], strict=True))


def alone_too_late(problem: SequenceProblem) -> tuple[MustShip, ...]:
    """Return the hard dates that are too soon even for a job that has the shop to itself."""
    _, done = _kind(problem)
    return tuple(
        MustShip(job.id, job.must_ship)
        for job, end in zip(problem.jobs, done, strict=True)
        if job.must_ship is not None and end > job.must_ship
    )


def crowded(problem: SequenceProblem) -> Crowd | None:
    """Return hard dates that are too soon for all their jobs together; None when none is proven.

    Of those that are proven it is the set with the earliest dates, with no date in it that the proof can do
    without.
    """
    t, _ = _kind(problem)
    dates = sorted({must for must in t.must_ship if must is not None})
    for date in dates:
        jobs = [k for k, must in enumerate(t.must_ship) if must is not None and must <= date]
        found = _over(t, jobs, date)
        if found is None:
            continue
        for job in reversed(jobs):
            fewer = [k for k in jobs if k != job]
            less = _over(t, fewer, date)
            if less is not None:
                jobs, found = fewer, less
        machines, needs, free = found
        ships = tuple(MustShip(problem.jobs[k].id, t.must_ship[k] or 0) for k in jobs)
        return Crowd(ships, tuple(problem.machines[m].id for m in sorted(machines)), needs, free)
    return None


def given_up_at_once(problem: SequenceProblem) -> tuple[SequenceProblem, tuple[Conflict, ...]]:
    """Give up the hard dates that are too soon without a search, of a crowd the one given last."""
    found = [Conflict((ship,), ship) for ship in alone_too_late(problem)]
    problem = problem.without(tuple(conflict.dropped for conflict in found))
    while (crowd := crowded(problem)) is not None:
        found.append(Conflict(crowd.ships, crowd.ships[-1]))
        problem = problem.without((crowd.ships[-1],))
    return problem, tuple(found)


def _kind(problem: SequenceProblem) -> tuple[Tables, list[int]]:
    """Return tables without wishes but hard dates, all overtime worked, and the soonest ends."""
    pins = tuple(pin for pin in problem.wishes if isinstance(pin, Pin) and not pin.running)
    t = tables(problem.without(pins), frozenset((m, w.start) for m, w in overtime_windows(problem)))
    return t, soonest_ends(t)


def _over(t: Tables, jobs: Sequence[int], date: int) -> tuple[frozenset[int], int, int] | None:
    """Return machines whose open minutes until `date` are fewer than the jobs need there, and both."""
    wanted = set(jobs)
    mine = [i for i in range(t.size) if t.job[i] in wanted and min(t.minutes[i].values())]
    able = [frozenset(t.minutes[i]) for i in mine]
    for machines in sorted({*able, frozenset().union(*able)}, key=lambda one: (len(one), sorted(one))):
        on = [i for i, where in zip(mine, able, strict=True) if where <= machines]
        first = min((t.release[i] for i in on), default=0)
        needs = sum(min(t.minutes[i].values()) for i in on)
        free = sum(max(0, _open_before(t, m, date) - _open_before(t, m, first)) for m in machines)
        if needs > free:
            return machines, needs, free
    return None


def _open_before(t: Tables, machine: int, minute: int) -> int:
    before = t.calendars[machine].before
    return before[min(minute, len(before) - 1)]
