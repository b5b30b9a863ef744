"""Ticks below which a changed order cannot come, worked out before anything is taken back and timed again.

Set-ups depend on the order alone, and as if people and crane were always free every operation begins no later
than in truth: both follow from one cheap pass. Two of three candidates are refused by it, the same ones that
the full timing would refuse. Import this module only when it is going to be used.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from quoting.core import compiled
from scheduler.sequence.search.kernel_parts import MISSED, Ints, before, job_cost


@compiled
def room_for_bound(n: int, machines: int, jobs: int) -> Any:
    """Return room for one pass: ends, machines' ready minutes and last work, ends of jobs, set-ups, order."""
    return (
        np.zeros(n, np.int64), np.zeros(machines, np.int64), np.zeros(machines, np.int64),
        np.zeros(jobs, np.int64), np.zeros(n, np.int64), np.zeros(n, np.int64),
    )  # fmt: skip


@compiled
def _in_order(
    out: Ints, at: int, machine: Ints, ops: Any, setup_rate: int, plan: Any, room: Any, stack: Ints
) -> int:
    """Write the order as it will be placed from `at` on, with its set-ups; return what is certain of it.

    What comes before place `at` stands in `plan`.
    """
    setups, matrix_of, waits, first_wait, running = ops[2], ops[3], ops[8], ops[10], ops[11]
    held_on, held_price = ops[14], ops[17]
    soon, ready, last, done, set_up, placed = room
    n, put, total = out.size, at, at - at
    for m in range(ready.size):
        ready[m], last[m] = 0, -1
    for k in range(done.size):
        done[k] = 0
    for i in range(n):
        soon[i] = -1
    for q in range(at):
        i = out[q]
        m, k = machine[i], ops[12][i]
        if plan[6][i] >= 0:
            ready[m], last[m] = plan[6][i] + ops[0][m, i], i
        soon[i], done[k] = plan[2][i], max(done[k], plan[2][i])
    for q in range(at, n):
        depth = 1
        stack[0] = out[q]
        while depth > 0:
            i = stack[depth - 1]
            w, stop = first_wait[i], first_wait[i + 1]
            while w < stop and (soon[waits[w]] >= 0 or depth == n):
                w += 1
            if soon[i] < 0 and w < stop:
                stack[depth] = waits[w]
                depth += 1
                continue
            depth -= 1
            if soon[i] < 0:
                m = machine[i]
                set_up[put] = 0 if running[i] else setups[matrix_of[m], last[m] + 1, i]
                total += ops[1][m, i] + set_up[put] * setup_rate
                if held_on[i] >= 0 and m != held_on[i] and held_on[i] < ready.size:
                    total += held_price[i]
                soon[i], last[m], placed[put] = 0, i, i
                put += 1
    return total


@compiled
def at_least(
    out: Ints, at: int, total: int, limit: int, machine: Ints, cal: Any, ops: Any, jobs: Any, rules: Any,
    plan: Any, room: Any, stack: Ints,
) -> int:  # fmt: skip
    """Return ticks that the order `out` takes at the least, where `total` are those before place `at`.

    Ends once it is above `limit`; 0 where an operation finds no place.
    """
    due, weight, must, slack, least = jobs
    _, wip_rate, _, late_factor, horizon, slack_limit = rules
    real, size, first = cal[0], cal[2], cal[8]
    latest, held_on, held_to = ops[13], ops[14], ops[16]
    soon, ready, _, done, set_up, placed = room
    total += _in_order(out, at, machine, ops, rules[0], plan, room, stack)
    for k in range(due.size):
        if done[k] == 0:
            total += least[k]
    for q in range(at, out.size):
        if total > limit:
            break
        i = placed[q]
        m, k, earliest = machine[i], ops[12][i], ops[4][i]
        for w in range(ops[10][i], ops[10][i + 1]):
            earliest = max(earliest, soon[ops[8][w]] + ops[9][w])
        p, w = ops[0][m, i], ready[m] + set_up[q]
        if w < size[m] and real[m, w] < earliest <= horizon:
            w = before(real, first, size, m, earliest)
        if w + p > size[m] or earliest > horizon:
            return 0
        start = real[m, w] if w < size[m] else horizon
        soon[i] = real[m, w + p - 1] + 1 if p > 0 else start
        ready[m] = w + p
        total += MISSED * max(0, start - latest[i])
        if held_on[i] >= 0 and start > held_to[i] and (m == held_on[i] or held_on[i] >= size.size):
            total += ops[17][i]
        was, price = done[k], late_factor * weight[k]
        done[k] = max(was, soon[i])
        total += job_cost(done[k], was, due[k], price, must[k], slack[k], slack_limit, wip_rate)
        if was > 0:
            total -= job_cost(was, was, due[k], price, must[k], slack[k], slack_limit, wip_rate)
        else:
            total -= least[k] + wip_rate * done[k]
    return total
