"""One call from a problem to the best plan found: rules, local search, CP-SAT, and the bound."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from .bounds import lower_bound
from .cpsat import improve
from .finish import NoPlanError, finish
from .local import local_search
from .model import Aim, SequenceProblem
from .plan import Plan, TracePoint
from .rules import best_rule
from .stop import Stop
from .tables import Opened, Tables, money, overtime_windows, tables
from .timing import Timed, time_order
from .wishes import obvious_conflict, settle

Effort = Literal["quick", "normal", "thorough"]


@dataclass(frozen=True, slots=True)
class Budget:
    """How much each part of `solve` may do."""

    local: int
    work: float
    overtime_trials: int


BUDGETS: dict[Effort, Budget] = {
    "quick": Budget(local=400, work=0.2, overtime_trials=2),
    "normal": Budget(local=800, work=6.0, overtime_trials=12),
    "thorough": Budget(local=5000, work=40.0, overtime_trials=40),
}


def solve(
    problem: SequenceProblem, *, effort: Effort = "quick", seed: int = 0, seconds: float | None = None
) -> Plan:
    """Return the best plan found with this effort, checked, with a bound.

    The same problem, effort and seed give the same plan; with `seconds` the wall clock may end the search
    earlier.
    Wishes that cannot be kept together are given up one by one and reported in `Plan.conflicts`.
    Raises `NoPlanError` when the horizon is too short or no plan that keeps the wishes was found.
    """
    if not problem.operations:
        return finish(tables(problem), _nothing(tables(problem)), "nothing to do")
    budget = BUDGETS[effort]
    problem, conflicts = settle(problem, budget.work) if _suspicious(problem) else (problem, ())
    run = _Run(problem, budget, seed, seconds)
    plan = run.plan()
    return replace(plan, conflicts=conflicts) if conflicts else plan


def _nothing(empty: Tables) -> Timed:
    return time_order(empty, [], [])


def _suspicious(problem: SequenceProblem) -> bool:
    """Whether a quick start misses a wish, so that the proof of a conflict is worth its time."""
    if not problem.wishes:
        return False
    if obvious_conflict(problem):
        return True
    everything = frozenset((m, w.start) for m, w in overtime_windows(problem))
    return best_rule(tables(problem, everything))[1].broken > 0


class _Run:
    """One run of `solve`: keeps the best plan and the trace."""

    def __init__(self, problem: SequenceProblem, budget: Budget, seed: int, seconds: float | None) -> None:
        self.problem, self.budget, self.seed, self.seconds = problem, budget, seed, seconds
        self.trace: list[TracePoint] = []
        self.method = ""
        self.tables: Tables = tables(problem)
        self.best: Timed | None = None
        self.bound = 0

    def plan(self) -> Plan:
        self._choose_overtime()
        assert self.best is not None
        self._bound(lower_bound(self.tables))
        self._local(self.budget.local // 2)
        self._constraint_model()
        self._local(self.budget.local // 2)
        if self.best.unplaced or self.best.broken:
            finish(self.tables, self.best, self.method)
        return finish(self.tables, self.best, self.method, min(self.bound, self._goal()), self.trace)

    def _goal(self) -> int:
        assert self.best is not None
        return self.best.lateness if self.problem.aim is Aim.DATES_FIRST else self.best.total

    def _bound(self, bound: int) -> None:
        self.bound = max(self.bound, bound)

    def _take(self, t: Tables, timed: Timed, method: str, step: int) -> bool:
        if self.best is not None and timed.score >= self.best.score:
            return False
        self.tables, self.best, self.method = t, timed, method
        self.trace.append(TracePoint(method, step, money(timed.total)))
        return True

    def _choose_overtime(self) -> None:
        """Start with the regular windows, then open overtime windows while a rule's plan gets cheaper."""
        self._rule(frozenset())
        offered = overtime_windows(self.problem)
        if not offered:
            return
        self._rule(frozenset((m, w.start) for m, w in offered))
        slots = sorted({(w.start, w.end) for _, w in offered})
        for start, end in slots[: self.budget.overtime_trials]:
            keys = {(m, w.start) for m, w in offered if (w.start, w.end) == (start, end)}
            opened = self.tables.opened
            self._rule(opened - keys if keys <= opened else opened | keys)

    def _rule(self, opened: Opened) -> None:
        t = tables(self.problem, opened)
        name, timed = best_rule(t, fine=self.best is None)
        self._take(t, timed, name, 0)

    def _local(self, iterations: int) -> None:
        assert self.best is not None
        if self.problem.aim is Aim.MONEY and self._goal() <= self.bound:
            return
        stop = Stop(iterations=iterations, seconds=self.seconds and self.seconds / 4)
        search = local_search(self.tables, self.best, stop, self.seed)
        self._take(self.tables, search.best, "local search", search.steps[-1][0])

    def _constraint_model(self) -> None:
        stop = Stop(work=self.budget.work, seconds=self.seconds and self.seconds / 2)
        answer = improve(self.tables, self.best, stop, self.seed)
        if answer.timed is not None:
            self._take(self.tables, answer.timed, "constraint model", 0)
        if not overtime_windows(self.problem):
            self._bound(answer.bound)


__all__: Sequence[str] = ["BUDGETS", "Budget", "Effort", "NoPlanError", "solve"]
