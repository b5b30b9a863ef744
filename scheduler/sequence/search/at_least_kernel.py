"""Ticks below which a changed order cannot come, worked out before anything is taken back and timed again.

Set-ups depend on the order alone, and as if people and crane were always free every operation begins no later
than in truth: both follow from one cheap pass. Two of three candidates are refused by it, the same ones that
the full timing would refuse. Import this module only when it is going to be used.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from quoting.core import inner
from scheduler.sequence.search.kernel_parts import MISSED, Ints, bare, before, job_cost, nat
from scheduler.sequence.search.packing import (
    DUE,
    END,
    HELD_ON,
    HELD_PRICE,
    HELD_TO,
    JOB,
    LAST,
    LATEST,
    LEAST,
    MUST,
    READY,
    RELEASE,
    RUNNING,
    SLACK,
    WEIGHT,
    WORK,
)  # fmt: skip

SOON, SET_UP, PLACED = range(3)
"""Rows of one pass: the soonest end of an operation; by place in the order its set-up, and the operation."""


@inner
def room_for_bound(n: int, machines: int, jobs: int) -> Any:
    """Return room for one pass: `SOON` and so on; machines' ready minutes and last work; ends of jobs."""
    return np.zeros((3, n), np.int64), np.zeros((2, machines), np.int64), np.zeros(jobs, np.int64)


@inner
def _in_order(
    out: Ints, at: int, machine: Ints, ops: Any, setup_rate: int, plan: Any, room: Any, stack: Ints
) -> int:
    """Write the order as it will be placed from `at` on, with its set-ups; return what is certain of it.

    What comes before place `at` stands in `plan`.
    """
    costs, setups, matrix_of, facts, waits, first_wait = ops
    _, planned, _, _ = plan
    passed, rolls, done = room
    n, put, total = out.size, at, at - at
    for m in range(rolls.shape[1]):
        rolls[READY, m], rolls[LAST, m] = 0, -1
    for k in range(done.size):
        done[k] = 0
    for i in range(n):
        passed[SOON, i] = -1
    for q in range(nat(at)):
        i = nat(out[q])
        m, k = nat(machine[i]), nat(facts[JOB, i])
        if planned[WORK, i] >= 0:
            rolls[READY, m], rolls[LAST, m] = planned[WORK, i] + costs[0, m, i], i
        passed[SOON, i], done[k] = planned[END, i], max(done[k], planned[END, i])
    for q in range(at, n):
        depth = 1
        stack[0] = out[nat(q)]
        while depth > 0:
            i = nat(stack[nat(depth - 1)])
            w, stop = first_wait[i], first_wait[nat(i + 1)]
            while w < stop and (passed[SOON, nat(waits[0, nat(w)])] >= 0 or depth == n):
                w += 1
            if passed[SOON, i] < 0 and w < stop:
                stack[nat(depth)] = waits[0, nat(w)]
                depth += 1
                continue
            depth -= 1
            if passed[SOON, i] < 0:
                m, held_on = nat(machine[i]), facts[HELD_ON, i]
                last = nat(rolls[LAST, m] + 1)
                minutes = 0 if facts[RUNNING, i] else setups[nat(matrix_of[m]), last, i]
                total += costs[1, m, i] + minutes * setup_rate
                if held_on >= 0 and m != held_on and held_on < rolls.shape[1]:
                    total += facts[HELD_PRICE, i]
                passed[SOON, i], rolls[LAST, m] = 0, i
                passed[SET_UP, nat(put)], passed[PLACED, nat(put)] = minutes, i
                put += 1
    return total


@inner
def at_least(
    out: Ints, at: int, total: int, limit: int, machine: Ints, cal: Any, ops: Any, jobs: Any, rules: Any,
    plan: Any, room: Any, stack: Ints,
) -> int:  # fmt: skip
    """Return ticks that the order `out` takes at the least, where `total` are those before place `at`.

    Ends once it is above `limit`; 0 where an operation finds no place.
    """
    out, machine, cal, ops, jobs, plan, room, stack = bare((out, machine, cal, ops, jobs, plan, room, stack))
    _, wip_rate, _, late_factor, horizon, slack_limit, _, _ = rules
    real, _, size, first = cal
    costs, _, _, facts, waits, first_wait = ops
    passed, rolls, done = room
    total += _in_order(out, at, machine, ops, rules[0], plan, room, stack)
    for k in range(done.size):
        if done[k] == 0:
            total += jobs[LEAST, k]
    for q in range(at, out.size):
        if total > limit:
            break
        i = nat(passed[PLACED, nat(q)])
        m, k, earliest = nat(machine[i]), nat(facts[JOB, i]), facts[RELEASE, i]
        for v in range(nat(first_wait[i]), nat(first_wait[nat(i + 1)])):
            earliest = max(earliest, passed[SOON, nat(waits[0, v])] + waits[1, v])
        p, w = costs[0, m, i], rolls[READY, m] + passed[SET_UP, nat(q)]
        if w < size[m] and real[m, nat(w)] < earliest <= horizon:
            w = before(real, first, size, m, earliest)
        if w + p > size[m] or earliest > horizon:
            return 0
        start = real[m, nat(w)] if w < size[m] else horizon
        end = real[m, nat(w + p - 1)] + 1 if p > 0 else start
        passed[SOON, i] = end
        rolls[READY, m] = w + p
        total += MISSED * max(0, start - facts[LATEST, i])
        held_on = facts[HELD_ON, i]
        if held_on >= 0 and start > facts[HELD_TO, i] and (m == held_on or held_on >= size.size):
            total += facts[HELD_PRICE, i]
        was, price = done[k], late_factor * jobs[WEIGHT, k]
        due, must, slack = jobs[DUE, k], jobs[MUST, k], jobs[SLACK, k]
        done[k] = max(was, end)
        total += job_cost(done[k], was, due, price, must, slack, slack_limit, wip_rate)
        if was > 0:
            total -= job_cost(was, was, due, price, must, slack, slack_limit, wip_rate)
        else:
            total -= jobs[LEAST, k] + wip_rate * done[k]
    return total
