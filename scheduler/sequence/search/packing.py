"""A problem as the arrays that the compiled search reads."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from scheduler.sequence.problem_parts import Aim
from scheduler.sequence.timing import NEVER, Tables, least_late, ticks

ENOUGH = 10_000  # people in a shop that does not count them

FACTS = range(11)
RELEASE, CREW, CRANE, PAUSE, RUNNING, JOB, LATEST, HELD_ON, HELD_FROM, HELD_TO, HELD_PRICE = FACTS
"""The rows of what is known of operations, a column each."""
DUE, WEIGHT, MUST, SLACK, LEAST = range(5)
"""The rows of jobs."""
END, START, BEGIN, SETUP, WORK = range(5)
"""The rows of what a plan says of operations: minutes of the clock, then of the machine's working time."""
READY, LAST = range(2)
"""The rows of what a plan says of machines."""
DONE, BEGUN, AWAY = range(3)
"""The rows of what a plan says of jobs: end, begin, held operations away; last how many jobs have such."""


@dataclass(frozen=True, slots=True)
class HeldPlaces:
    """Operations that are to stay: by number their machine, first and last minute to begin, ticks if not.

    A machine beyond the last one means any. Each job beyond `most` of which some is away costs `more` ticks.
    """

    places: Mapping[int, tuple[int, int, int, int]]
    most: int = 0
    more: int = 0


NOTHING_HELD = HeldPlaces({})


def pack(
    t: Tables, *, windows: bool = False, slack: bool = False, held: HeldPlaces = NOTHING_HELD
) -> tuple[Any, ...]:
    """Return calendars, windows, operations, jobs, rules and people in the shape the kernel wants.

    With `windows` it may open and close overtime, with `slack` missing slack counts as the rates say; the
    ticks of `held` are part of its total. What has one shape is one array: compiling takes time for each.
    """
    horizon = t.problem.horizon
    people = ENOUGH if t.people is None else np.array(t.people)
    staff = np.empty((2, horizon + 1), np.int16)
    staff[0], staff[1] = people, t.problem.cranes
    hard = [NEVER // 2 if m is None else m for m in t.must_ship]
    rate = ticks(t.problem.rates.slack) if slack else 0
    factor = late_factor(t)
    least = [factor * late for late in least_late(t)] if windows else [0] * len(t.due)
    jobs = np.array([t.due, t.weight, hard, [rate if weight else 0 for weight in t.weight], least], np.int64)
    crew = t.problem.setup_crew if t.people is not None else 0
    away = held.most, held.more
    rules = (t.setup_rate, t.wip_rate, crew, factor, horizon, t.problem.rates.slack_limit, *away)
    return _calendars(t), _windows(t, windows), _operations(t, held), jobs, rules, staff


def late_factor(t: Tables) -> int:
    """Return how many times late money counts: with dates first, more than all else."""
    return 1000 if t.problem.aim is Aim.DATES_FIRST else 1


def _calendars(t: Tables) -> tuple[Any, ...]:
    """Room for each machine's working minutes, what they were paid, how many, and the first of each day."""
    machines = t.problem.machines
    longest = max((sum(w.end - w.start for w in m.windows) for m in machines), default=0) + 2
    return (
        np.zeros((len(machines), longest), np.int32),
        np.zeros((len(machines), longest), np.int64),
        np.zeros(len(machines), np.int64),
        np.zeros((len(machines), t.problem.horizon // 1440 + 3), np.int64),
    )


def _windows(t: Tables, optional: bool) -> tuple[Any, ...]:
    """Windows of each machine: begin, end and rate; how many; which are opened, which may be or not.

    Of overtime those are opened that the tables open.
    """
    machines = t.problem.machines
    most = max((len(m.windows) for m in machines), default=0) + 1
    spans = np.zeros((3, len(machines), most), np.int64)
    marks = np.zeros((2, len(machines), most), np.bool_)
    for k, machine in enumerate(machines):
        for j, window in enumerate(machine.windows):
            cost = window.overtime_cost_per_min
            spans[:, k, j] = window.start, window.end, 0 if cost is None else ticks(cost)
            marks[:, k, j] = (
                cost is None or (machine.id, window.start) in t.opened,
                optional and cost is not None,
            )
    return spans, np.array([len(m.windows) for m in machines], dtype=np.int64), marks


def _operations(t: Tables, held: HeldPlaces) -> tuple[Any, ...]:
    """Minutes and money by machine, set-ups, which machine has which, a row for each fact, what waits."""
    n, m = t.size, len(t.calendars)
    costs = np.zeros((2, m, n), dtype=np.int64)
    for i, modes in enumerate(t.minutes):
        for k, p in modes.items():
            costs[:, k, i] = p, t.running_cost[i][k]
    matrices: list[Any] = [np.zeros((n + 1, n), dtype=np.int32)]
    matrix_of = []
    seen: dict[int, int] = {}
    for machine in t.problem.machines:
        given = t.problem.setups.get(machine.id)
        if given is not None and id(given) not in seen:
            seen[id(given)] = len(matrices)
            matrices.append(given.astype(np.int32))
        matrix_of.append(0 if given is None else seen[id(given)])
    waits = [pair for pairs in t.before for pair in pairs]
    first = np.concatenate(([0], np.cumsum([len(pairs) for pairs in t.before])))
    return (
        costs,
        np.stack(matrices),
        np.array(matrix_of, dtype=np.int64),
        _facts(t, held),
        np.array(waits, dtype=np.int64).reshape(-1, 2).T.copy(),
        first.astype(np.int64),
    )


def _facts(t: Tables, held: HeldPlaces) -> Any:
    """Return a row for each of `FACTS`, a column for each operation."""
    # a pinned start is a release and a latest start at once
    release = [max(soonest, pinned or 0) for soonest, pinned in zip(t.release, t.fixed_start, strict=True)]
    latest = [NEVER // 2 if pinned is None else pinned for pinned in t.fixed_start]
    facts = np.full((len(FACTS), t.size), -1, dtype=np.int64)
    facts[:7] = release, t.crew, t.crane, t.may_pause, t.running, t.job, latest
    for i, place in held.places.items():
        facts[7:, i] = place
    return facts
