"""The problem of one machine and nothing else in the way: a compiled iterated local search that tries
millions of orders."""

from __future__ import annotations

import time

import numpy as np
from numpy.typing import NDArray

from scheduler.sequence.problem_parts import Aim
from scheduler.sequence.search.search_result import Search
from scheduler.sequence.stop import Stop
from scheduler.sequence.timing import Tables, Timed, time_order

CHUNK = 50  # escapes between two looks at the clock
BLOCK = 8  # operations moved together at most
EPOCH = 160
FRESH = 0.6  # share of starts afresh


def is_one_row(t: Tables) -> bool:
    """Whether all work is on one machine and only its order, its calendar, releases and due dates
    matter."""
    machines = {m for modes in t.minutes for m in modes}
    free = not any(t.running) and not any(t.before) and all(s is None for s in t.fixed_start)
    dates = all(m is None for m in t.must_ship) and len(set(t.job)) == t.size
    people = t.people is None and not (t.problem.cranes == 0 and any(t.crane))
    if len(machines) != 1 or not (free and dates and people) or t.problem.aim is not Aim.MONEY:
        return False
    calendar = t.calendars[machines.pop()]
    one_stretch = len(calendar.at) > 0 and calendar.resume[0] == len(calendar.at)
    return (all(t.may_pause) or one_stretch) and not calendar.has_overtime


def one_row_search(t: Tables, start: Timed, stop: Stop, seed: int = 0) -> Search:
    """Improve the order of the one row. `stop.iterations` counts escapes, each followed by a full
    descent."""
    from scheduler.sequence.search.one_row_kernel import search  # noqa: PLC0415 - compiled, so only when used

    chance = np.random.default_rng(seed)
    jobs, setup, wall = _arrays(t)
    plain = int(wall[-1]) == len(wall) - 1 and not jobs[:, 1].any()
    present = np.array(start.order(), dtype=np.int32)
    top, value = present.copy(), -1
    best = present.copy()
    found = Search(start, [(0, start.total)])
    ends_at = None if stop.seconds is None else time.monotonic() + stop.seconds
    for chunk in range(-(-stop.iterations // CHUNK)):
        if value == 0 or (ends_at is not None and time.monotonic() > ends_at):
            break
        if chunk and chunk % EPOCH == 0:
            present = _fresh(jobs, chance) if chance.random() < FRESH else top.copy()
            best = present.copy()
        rounds = min(CHUNK, stop.iterations - chunk * CHUNK)
        new, _ = search(
            present, best, jobs, setup, wall, t.setup_rate, plain, rounds, BLOCK, seed * 7919 + chunk
        )
        if value < 0 or new < value:
            value, top = int(new), best.copy()
            timed = time_order(t, top.tolist(), start.machine)
            if timed.score < found.best.score:
                found.best = timed
                found.steps.append((chunk * CHUNK + rounds, timed.total))
    return found


def _fresh(jobs: NDArray[np.int64], chance: np.random.Generator) -> NDArray[np.int32]:
    """Return an order by due date with noise, to start from somewhere else."""
    due = jobs[:, 3].astype(np.float64)
    noise = chance.normal(0.0, 0.3 * float(due.std()) + float(jobs[:, 0].mean()), len(due))
    return np.argsort(due + noise).astype(np.int32)


def _arrays(t: Tables) -> tuple[NDArray[np.int64], NDArray[np.int32], NDArray[np.int64]]:
    """Jobs, set-ups and the clock minute of each working minute, as the kernel wants them."""
    machine = next(iter(t.minutes[0]))
    calendar = t.calendars[machine]
    last = len(calendar.before) - 1
    n = t.size
    jobs = np.zeros((n, 5), dtype=np.int64)
    for j in range(n):
        k = t.job[j]
        due = t.due[k]
        release = calendar.before[min(t.release[j], last)]
        in_time = calendar.before[min(max(due, 0), last)]
        jobs[j] = (t.minutes[j][machine], release, in_time, due, t.weight[k])
    matrix = t.setups[machine]
    rows = np.zeros((n + 1, n), dtype=np.int32) if matrix is None else np.array(matrix, dtype=np.int32)
    setup = np.ascontiguousarray(np.roll(rows, -1, axis=0))
    longest = int(jobs[:, 0].sum() + setup.max(axis=0).sum() + jobs[:, 1].max()) + 1
    beyond = np.arange(max(0, longest - len(calendar.at)), dtype=np.int64) * 1000 + t.problem.horizon
    wall = np.concatenate(([0], np.array(calendar.at, dtype=np.int64) + 1, beyond))
    return jobs, setup, wall
