"""Whether a problem makes sense by itself: names, machines, shapes. Raises `InputError` with the name that
is wrong."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from quoting.errors import InputError

from .precedence import find_cycle

if TYPE_CHECKING:
    from .model import Operation, SequenceProblem


def check_problem(problem: SequenceProblem) -> None:
    """Raise `InputError` naming the first thing that is wrong."""
    _check_ids(problem)
    for operation in problem.operations:
        _check_operation(problem, operation)
    _check_setups(problem)
    _check_pins(problem)
    _check_order(problem)


def _check_ids(problem: SequenceProblem) -> None:
    for what, things in (
        ("machine", problem.machines),
        ("operation", problem.operations),
        ("job", problem.jobs),
    ):
        seen: set[str] = set()
        for thing in things:
            if thing.id in seen:
                raise InputError(f"Two {what}s are both called {thing.id}", would_do="give each its own name")
            seen.add(thing.id)


def _check_operation(problem: SequenceProblem, operation: Operation) -> None:
    machines = {m.id for m in problem.machines}
    name = f"Operation {operation.id} of job {operation.job}"
    if operation.job not in {j.id for j in problem.jobs}:
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
    known = {o.id for o in problem.operations}
    for after in operation.after:
        if after.operation not in known:
            raise InputError(f"{name} waits for {after.operation}, which is not in the plan")
    if operation.release < 0 or operation.crew < 0:
        raise InputError(f"{name} has a negative release or crew")


def _check_setups(problem: SequenceProblem) -> None:
    n = len(problem.operations)
    for machine, matrix in problem.setups.items():
        if machine not in {m.id for m in problem.machines}:
            raise InputError(f"Set-ups are given for {machine}, which is not in the plan")
        if matrix.shape != (n + 1, n) or not np.issubdtype(matrix.dtype, np.integer):
            raise InputError(
                f"Set-ups of {machine} must be whole minutes, {n + 1} rows by {n} columns",
                read=f"{matrix.dtype}, {matrix.shape}",
            )
        if matrix.size and int(matrix.min()) < 0:
            raise InputError(f"Set-ups of {machine} hold a negative number of minutes")


def _check_pins(problem: SequenceProblem) -> None:
    known = {o.id: o for o in problem.operations}
    running: dict[str, str] = {}
    for pin in problem.pins:
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


def _check_order(problem: SequenceProblem) -> None:
    """The process order must make sense by itself; a circle closed by a pin is a wish in conflict, found
    later."""
    before = {o.id: [a.operation for a in o.after] for o in problem.operations}
    cycle = find_cycle(before)
    if cycle:
        raise InputError("Operations wait for each other in a circle: " + " after ".join(cycle))
