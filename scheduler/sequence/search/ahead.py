"""Compiles the search before it is needed: the first run of an installation does it beside its other work."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import numpy as np

from quoting.core import compile_for, never_compiled
from scheduler.sequence.problem import SequenceProblem
from scheduler.sequence.problem_parts import Job, Machine, Mode, Operation, Window
from scheduler.sequence.rules import best_rule
from scheduler.sequence.search.fast import Wanted, able_machines, fast_search
from scheduler.sequence.search.packing import pack
from scheduler.sequence.search.places import Places
from scheduler.sequence.stop import Stop
from scheduler.sequence.timing import Tables, tables


def search_is_compiled() -> bool:
    """Return whether machine code of the search is on disk."""
    return not never_compiled(Path(__file__).resolve().parent)


def compile_search() -> None:
    """Search the smallest week there is, so that the machine code is made and kept.

    What `compile_beside` of another process has made by then is loaded.
    """
    from scheduler.sequence.search.row_kernel import search  # noqa: PLC0415 - compiled

    t = _smallest_week()
    start = best_rule(t)[1]
    none, ticks, order = np.int64(0), np.float64(0), np.zeros(t.size, np.int64)
    how = (none, ticks, ticks, none, none)
    with _nothing_collected():
        compile_for(search, order, order, *able_machines(t), *how, *pack(t, windows=True))
        fast_search(t, start, Stop(iterations=1), 0, Wanted(slack=True))
        Places(t).scan([0], [1], [0, 1], 0, [0, 0])


def compile_beside() -> None:
    """Compile the parts of the search that time nothing, on arrays as it hands them over, and then `scan`.

    `compile_search` of another process begins with the timing meanwhile, and then loads them; `scan` takes
    the timing from there.
    """
    from scheduler.sequence.search.at_least_kernel import at_least  # noqa: PLC0415 - compiled, as below
    from scheduler.sequence.search.row_kernel import change, put_back, scan  # noqa: PLC0415

    t = _smallest_week()
    n, jobs_of = t.size, len(t.due)
    none: Any = np.int64(0)
    packed = pack(t, windows=True)
    cal, _, ops, jobs, rules, staff = packed
    order, machine = np.arange(n), np.zeros(n, np.int64)
    out, taken = order.copy(), np.zeros(n, np.bool_)
    block, goes = np.zeros(n + 2, np.int64), np.zeros(n + 2, np.int64)
    able, ables = able_machines(t)
    plan = tuple(np.zeros(shape, np.int64) for shape in ((2, 2), (5, n), (3, jobs_of + 1), (n, 4)))
    room = (np.zeros((3, n), np.int64), np.zeros((2, 2), np.int64), np.zeros(jobs_of, np.int64))
    stack, kept = np.zeros(n + 1, np.int64), np.zeros((5, n), np.int64)
    with _nothing_collected():
        compile_for(change, order, machine, able, ables, order, out, block, goes, taken, ops[1], ops[2])
        compile_for(at_least, order, none, none, none, machine, cal, ops, jobs, rules, plan, room, stack)
        compile_for(put_back, none, order, out, out, kept, machine, cal, ops, rules, staff, plan, order)
        compile_for(scan, order, order, order, none, machine, order, *packed)


@contextmanager
def _nothing_collected() -> Iterator[None]:
    """Look for nothing to let go of: the compiler makes much, and looking took a sixth of its time."""
    collecting = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if collecting:
            gc.enable()


def _smallest_week() -> Tables:
    window = (Window(0, 60),)
    problem = SequenceProblem(
        machines=(Machine("roll 1", "roll", window), Machine("roll 2", "roll", window)),
        operations=tuple(Operation(name, name, (Mode("roll 1", 5), Mode("roll 2", 5))) for name in "ab"),
        jobs=tuple(Job(name, 60) for name in "ab"),
    )
    return tables(problem)
