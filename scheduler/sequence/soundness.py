"""Whether a problem makes sense by itself: names, machines, shapes. Raises `InputError` with the name that
is wrong."""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set

import numpy as np

from quoting.core import InputError
from scheduler.sequence.precedence import find_cycle
from scheduler.sequence.problem_parts import Job, Machine, Operation, Pin, SetupMatrix


def check_problem(
    machines: Sequence[Machine],
    operations: Sequence[Operation],
    jobs: Sequence[Job],
    setups: Mapping[str, SetupMatrix],
    pins: Sequence[Pin],
) -> None:
    """Raise `InputError` naming the first thing that is wrong."""
    _check_ids("machine", [machine.id for machine in machines])
    _check_ids("operation", [operation.id for operation in operations])
    _check_ids("job", [job.id for job in jobs])
    named = {machine.id for machine in machines}
    jobs_named = {job.id for job in jobs}
    known = {operation.id: operation for operation in operations}
    for operation in operations:
        _check_operation(operation, named, jobs_named, known)
    _check_setups(setups, named, len(operations))
    _check_pins(pins, known)
    _check_order(operations)


def _check_ids(what: str, ids: Sequence[str]) -> None:
    seen: set[str] = set()
    for id in ids:
        if id in seen:
            raise InputError(f"Two {what}s are both called {id}", would_do="give each its own name")
        seen.add(id)


def _check_operation(
    operation: Operation, machines: Set[str], jobs: Set[str], known: Mapping[str, Operation]
) -> None:
    name = f"Operation {operation.id} of job {operation.job}"
    if operation.job not in jobs:
        raise InputError(f"{name} belongs to a job that is not in the plan")
    if not operation.modes:
        raise InputError(
            f"{name} can be done on no machine", would_do="leave the job out or give it a machine"
        )
    if len({m.machine for m in operation.modes}) < len(operation.modes):
        raise InputError(f"{name} names a machine twice")
    for mode in operation.modes:
        if mode.machine not in machines:
            raise InputError(f"{name} wants machine {mode.machine}, which is not in the plan")
        if mode.minutes < 0:
            raise InputError(f"{name} takes {mode.minutes} minutes on {mode.machine}: less than nothing")
    for after in operation.after:
        if after.operation not in known:
            raise InputError(f"{name} waits for {after.operation}, which is not in the plan")
    if operation.release < 0 or operation.crew < 0:
        raise InputError(f"{name} has a negative release or crew")


def _check_setups(setups: Mapping[str, SetupMatrix], machines: Set[str], n: int) -> None:
    for machine, matrix in setups.items():
        if machine not in machines:
            raise InputError(f"Set-ups are given for {machine}, which is not in the plan")
        if matrix.shape != (n + 1, n) or not np.issubdtype(matrix.dtype, np.integer):
            raise InputError(
                f"Set-ups of {machine} must be whole minutes, {n + 1} rows by {n} columns",
                read=f"{matrix.dtype}, {matrix.shape}",
            )
        if matrix.size and int(matrix.min()) < 0:
            raise InputError(f"Set-ups of {machine} hold a negative number of minutes")


def _check_pins(pins: Sequence[Pin], known: Mapping[str, Operation]) -> None:
    running: dict[str, str] = {}
    for pin in pins:
        if pin.operation not in known:
            raise InputError(f"A pin names operation {pin.operation}, which is not in the plan")
        modes = {m.machine for m in known[pin.operation].modes}
        if pin.machine is not None and pin.machine not in modes:
            raise InputError(
                f"Operation {pin.operation} is pinned to {pin.machine}, which cannot do it",
                would_do="pin it to one of: " + ", ".join(sorted(modes)),
            )
        if pin.before is not None and pin.before not in known:
            raise InputError(f"{pin.operation} is pinned before {pin.before}, which is not in the plan")
        if pin.running:
            machine = pin.machine or (next(iter(modes)) if len(modes) == 1 else None)
            if machine is None:
                raise InputError(f"Operation {pin.operation} is running: say on which machine")
            if machine in running:
                raise InputError(f"Both {running[machine]} and {pin.operation} are running on {machine}")
            running[machine] = pin.operation


def _check_order(operations: Sequence[Operation]) -> None:
    """The process order must make sense by itself; a circle closed by a pin is a wish in conflict, found
    later."""
    before = {o.id: [a.operation for a in o.after] for o in operations}
    cycle = find_cycle(before)
    if cycle:
        raise InputError("Operations wait for each other in a circle: " + " after ".join(cycle))
