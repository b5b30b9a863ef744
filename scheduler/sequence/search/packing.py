"""A problem as the arrays that the compiled search reads."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from scheduler.sequence.problem_parts import Aim
from scheduler.sequence.timing import NEVER, Tables, least_late, ticks

ENOUGH = 10_000  # people in a shop that does not count them


@dataclass(frozen=True, slots=True)
class HeldPlaces:
    """Operations that are to stay: by number their machine, first and last minute to begin, ticks if not.

    A machine beyond the last one means any.
    """

    places: Mapping[int, tuple[int, int, int, int]]


NOTHING_HELD = HeldPlaces({})


def pack(
    t: Tables, *, windows: bool = False, slack: bool = False, held: HeldPlaces = NOTHING_HELD
) -> tuple[Any, ...]:
    """Return calendars, operations, jobs, rules and people in the shape the kernel wants.

    With `windows` it may open and close overtime, with `slack` missing slack counts as the rates say; the
    ticks of `held` are part of its total.
    """
    horizon = t.problem.horizon
    people = np.full(horizon + 1, ENOUGH, np.int16) if t.people is None else np.array(t.people, np.int16)
    staff = (people, np.full(horizon + 1, t.problem.cranes, dtype=np.int16))
    hard = [NEVER // 2 if m is None else m for m in t.must_ship]
    rate = ticks(t.problem.rates.slack) if slack else 0
    factor = late_factor(t)
    least = [factor * late for late in least_late(t)] if windows else [0] * len(t.due)
    jobs = tuple(
        np.array(values, dtype=np.int64)
        for values in (t.due, t.weight, hard, [rate if weight else 0 for weight in t.weight], least)
    )
    crew = t.problem.setup_crew if t.people is not None else 0
    rules = (t.setup_rate, t.wip_rate, crew, factor, horizon, t.problem.rates.slack_limit)
    return _windows(t, windows), (*_operations(t), *_held(t.size, held)), jobs, rules, staff


def late_factor(t: Tables) -> int:
    """Return how many times late money counts: with dates first, more than all else."""
    return 1000 if t.problem.aim is Aim.DATES_FIRST else 1


def _windows(t: Tables, optional: bool) -> tuple[Any, ...]:
    """Windows of each machine, of overtime those opened in the tables, and room for working minutes."""
    machines = t.problem.machines
    most = max((len(m.windows) for m in machines), default=0) + 1
    longest = max((sum(w.end - w.start for w in m.windows) for m in machines), default=0) + 2
    shape = (len(machines), most)
    begin, end, rate = (np.zeros(shape, np.int64) for _ in range(3))
    opened, may = np.zeros(shape, np.bool_), np.zeros(shape, np.bool_)
    for k, machine in enumerate(machines):
        for j, window in enumerate(machine.windows):
            cost = window.overtime_cost_per_min
            begin[k, j], end[k, j] = window.start, window.end
            rate[k, j] = 0 if cost is None else ticks(cost)
            opened[k, j] = cost is None or (machine.id, window.start) in t.opened
            may[k, j] = optional and cost is not None
    return (
        np.zeros((len(machines), longest), np.int32),
        np.zeros((len(machines), longest), np.int64),
        np.zeros(len(machines), np.int64),
        begin,
        end,
        rate,
        np.array([len(m.windows) for m in machines], dtype=np.int64),
        opened,
        np.zeros((len(machines), t.problem.horizon // 1440 + 3), np.int64),
        may,
    )


def _held(n: int, held: HeldPlaces) -> tuple[Any, ...]:
    table = np.full((4, n), -1, dtype=np.int64)
    for i, place in held.places.items():
        table[:, i] = place
    return tuple(np.ascontiguousarray(row) for row in table)


def _operations(t: Tables) -> tuple[Any, ...]:
    n, m = t.size, len(t.calendars)
    minutes, running_cost = np.zeros((2, m, n), dtype=np.int64)
    for i, modes in enumerate(t.minutes):
        for k, p in modes.items():
            minutes[k, i] = p
            running_cost[k, i] = t.running_cost[i][k]
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
    # a pinned start is a release and a latest start at once
    release = [max(soonest, pinned or 0) for soonest, pinned in zip(t.release, t.fixed_start, strict=True)]
    latest = [NEVER // 2 if pinned is None else pinned for pinned in t.fixed_start]
    return (
        minutes,
        running_cost,
        np.stack(matrices),
        np.array(matrix_of, dtype=np.int64),
        np.array(release, dtype=np.int64),
        np.array(t.crew, dtype=np.int64),
        np.array(t.crane, dtype=np.int64),
        np.array(t.may_pause, dtype=np.bool_),
        np.array([j for j, _ in waits], dtype=np.int64),
        np.array([lag for _, lag in waits], dtype=np.int64),
        first.astype(np.int64),
        np.array(t.running, dtype=np.bool_),
        np.array(t.job, dtype=np.int64),
        np.array(latest, dtype=np.int64),
    )
