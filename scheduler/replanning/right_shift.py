"""The published order kept: every operation where it was, each pushed only as far as it must.

Right-shift repair, a method of the framework of Vieira, Herrmann & Lin (Journal of Scheduling 6, 2003,
39-62). A job whose plate is late goes in when it can, and does not hold up those that came after it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from scheduler.calendar import MinuteAxis
from scheduler.jobs import ShopOperation
from scheduler.replanning.published import Published
from scheduler.sequence import Opened, SequenceProblem, Tables, tables
from scheduler.week import WeekProblem


@dataclass(frozen=True)
class Was:
    """Where the published plan has an operation: machine and minute on the new axis."""

    machine: int
    start: int


@dataclass(frozen=True, slots=True)
class PublishedOrder:
    """The order of what was published and what runs, the machine of every operation, overtime worked."""

    order: tuple[int, ...]
    machine: tuple[int, ...]
    opened: Opened


def published_order(week: WeekProblem, published: Published | None) -> PublishedOrder:
    """Return the published order in a new problem; without a published plan only what runs is in it."""
    problem = week.problem
    was = {} if published is None else was_in(problem, week.works, week.axis, published)
    opened = frozenset() if published is None else overtime_worked(problem, week.axis, published)
    t = tables(problem, opened)
    order, machine = right_shifted(t, was)
    kept = [i for i in order if i in was or t.running[i]]
    return PublishedOrder(tuple(sorted(kept, key=lambda i: not t.running[i])), tuple(machine), opened)


def was_in(
    problem: SequenceProblem, works: Sequence[ShopOperation], axis: MinuteAxis, published: Published
) -> dict[int, Was]:
    """Return where the published plan has each operation that it has."""
    number = {machine.id: index for index, machine in enumerate(problem.machines)}
    found = {}
    for index, work in enumerate(works):
        old = published.works.get(work.operation.id)
        if old is not None and old.machine in number:
            found[index] = Was(number[old.machine], axis.minute(old.start))
    return found


def overtime_worked(problem: SequenceProblem, axis: MinuteAxis, published: Published) -> Opened:
    """Return the overtime windows that the published plan works."""
    return frozenset(
        (machine.id, window.start)
        for machine in problem.machines
        for window in machine.windows
        if window.overtime_cost_per_min is not None
        and (machine.id, axis.moment(window.start)) in published.overtime
    )


def right_shifted(t: Tables, was: Mapping[int, Was]) -> tuple[list[int], list[int]]:
    """Return the published order of all operations, new ones behind by due minute, and their machines."""
    machine = [min(modes, key=modes.__getitem__) for modes in t.minutes]
    for index, old in was.items():
        if old.machine in t.minutes[index]:
            machine[index] = old.machine
    never = t.problem.horizon + 1
    soonest: dict[int, int] = {}
    order = sorted(
        range(t.size),
        key=lambda i: (
            max(was[i].start, _soonest(t, i, soonest)) if i in was else never,
            t.due[t.job[i]],
            i,
        ),
    )
    return order, machine


def both_right_shifted(t: Tables, was: Mapping[int, Was]) -> Iterator[tuple[list[int], list[int]]]:
    """Yield the published order by the starts of the work, and by those of the set-ups before it.

    Who gets people first where they are short the starts alone do not tell: a set-up takes some too.
    """
    order, machine = right_shifted(t, was)
    yield order, machine
    last = [-1] * len(t.calendars)
    begin = {}
    for i in order:
        begin[i] = (
            max(0, was[i].start - t.setup(machine[i], last[machine[i]], i)) if i in was else t.problem.horizon
        )
        last[machine[i]] = i
    yield sorted(order, key=begin.__getitem__), machine


def _soonest(t: Tables, index: int, known: dict[int, int]) -> int:
    """Return the minute before which an operation cannot begin, by its own release and what it waits for."""
    if index not in known:
        waits = [_soonest(t, j, known) + min(t.minutes[j].values()) + lag for j, lag in t.before[index]]
        known[index] = max([t.release[index], *waits])
    return known[index]
