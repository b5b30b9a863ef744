"""From a timed order to a plan that the checker has passed."""

from __future__ import annotations

from collections.abc import Sequence

from quoting.core import InputError, RollwrightError
from scheduler.sequence.checker import check
from scheduler.sequence.plan import Assignment, Cost, OvertimeUsed, Plan, TracePoint
from scheduler.sequence.timing import Tables, Timed, money, overtime_windows


class NoPlanError(InputError):
    """This order cannot be timed without breaking a hard rule; `operations` are those that found no
    place."""

    def __init__(self, problem: str, operations: tuple[str, ...] = (), would_do: str = "") -> None:
        self.operations = operations
        super().__init__(problem, would_do=would_do)


class PlanFaultError(RollwrightError):
    """A plan failed the independent checker: a fault of this program, never of the user."""


def finish(
    tables: Tables,
    timed: Timed,
    method: str,
    bound: int = 0,
    trace: Sequence[TracePoint] = (),
) -> Plan:
    """Make the plan and have it checked. `bound` in ticks.

    Raises `NoPlanError` when the timing broke a hard rule and `PlanFaultError` when the checker finds what
    the timing did not.
    """
    refuse_broken(tables, timed)
    plan = Plan(
        assignments=_assignments(tables, timed),
        cost=Cost(*map(money, (timed.setup, timed.lateness, timed.overtime, timed.wip, timed.running))),
        bound=money(bound),
        proven=bound >= timed.goal,
        method=method,
        overtime=_overtime_used(tables, timed),
        trace=tuple(trace),
        order=tuple(tables.problem.operations[i].id for i in timed.placed),
    )
    faults = check(tables.problem, plan)
    if faults:
        raise PlanFaultError(f"The plan by {method} fails its check: " + "; ".join(faults[:5]))
    return plan


def refuse_broken(tables: Tables, timed: Timed) -> None:
    """Raise `NoPlanError` in words when the timed order breaks a hard rule."""
    problem = tables.problem
    if timed.unplaced:
        names = tuple(problem.operations[i].id for i in timed.unplaced)
        jobs = sorted({problem.operations[i].job for i in timed.unplaced})
        raise NoPlanError(
            f"The plan's horizon of {problem.horizon} minutes is too short for job {', '.join(jobs)}",
            names,
            "plan more days, or take work out",
        )
    if timed.broken:
        raise NoPlanError("This order keeps not all pins and hard dates")


def _assignments(tables: Tables, timed: Timed) -> tuple[Assignment, ...]:
    problem = tables.problem
    made = [
        Assignment(
            problem.operations[i].id,
            problem.machines[timed.machine[i]].id,
            timed.setup_start[i],
            timed.setup_minutes[i],
            timed.start[i],
            timed.end[i],
        )
        for i in range(tables.size)
    ]
    return tuple(sorted(made, key=lambda a: (a.machine, a.start, a.end, a.operation)))


def _overtime_used(tables: Tables, timed: Timed) -> tuple[OvertimeUsed, ...]:
    """The opened windows between a machine's first and last work; the others were opened for nothing."""
    used = []
    for machine, window in overtime_windows(tables.problem):
        if (machine, window.start) in tables.opened:
            m = next(k for k, x in enumerate(tables.problem.machines) if x.id == machine)
            own = [i for i in range(tables.size) if timed.machine[i] == m]
            if any(timed.setup_start[i] < window.end and timed.end[i] > window.start for i in own):
                used.append(OvertimeUsed(machine, window.start, window.end))
    return tuple(used)
