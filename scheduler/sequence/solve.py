"""One call from a problem to the best plan found: rules, local search, CP-SAT, and the bound."""

from __future__ import annotations

import time
from collections.abc import Sequence
from dataclasses import dataclass, replace

from quoting.core import Effort
from scheduler.sequence.checked_plan import NoPlanError, finish
from scheduler.sequence.exact import (
    fewest_setups,
    improve,
    lateness_bound,
    lower_bound,
    obvious_conflict,
    running_bound,
    settle,
)
from scheduler.sequence.plan import Plan, TracePoint
from scheduler.sequence.problem import SequenceProblem
from scheduler.sequence.problem_parts import Aim
from scheduler.sequence.resume import aim_rank, forward_on_any_machine, latest_jobs
from scheduler.sequence.rules import best_rule
from scheduler.sequence.search import (
    can_go_fast,
    fast_search,
    is_one_row,
    local_search,
    neighbourhood_search,
    one_row_search,
)
from scheduler.sequence.stop import Stop
from scheduler.sequence.timing import (
    Opened,
    Tables,
    Timed,
    late_setups,
    money,
    overtime_windows,
    tables,
    time_order,
)


@dataclass(frozen=True, slots=True)
class Budget:
    """How much each part of `solve` may do.

    `candidates` of the plain local search; `timed` operations timed by the compiled one (0: not used, so
    nothing is compiled);
    `work` is CP-SAT's deterministic time, spent on models of at most `arcs` arcs: larger ones take longer to
    build than they are worth. `overtime_trials` are the overtime windows tried one by one.
    """

    candidates: int
    timed: int
    work: float
    arcs: int
    overtime_trials: int


BUDGETS: dict[Effort, Budget] = {
    "quick": Budget(candidates=600, timed=0, work=0.05, arcs=1_000, overtime_trials=2),
    "normal": Budget(candidates=1000, timed=6_000_000, work=0.3, arcs=30_000, overtime_trials=4),
    "thorough": Budget(candidates=6000, timed=90_000_000, work=5.0, arcs=30_000, overtime_trials=40),
}
MOST_BROUGHT_FORWARD = 6
PLACES = 12


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
        self.ends_at = None if seconds is None else time.monotonic() + seconds
        self.trace: list[TracePoint] = []
        self.method = ""
        self.tables: Tables = tables(problem)
        self.best: Timed | None = None
        self.bound = 0

    def plan(self) -> Plan:
        """Search, then make the plan and have it checked."""
        self.search()
        if self.problem.aim is Aim.DATES_FIRST:
            self._from_least_money()
        assert self.best is not None
        if self.best.unplaced or self.best.broken:
            finish(self.tables, self.best, self.method)
        late = late_setups(self.tables, self.best)
        return finish(self.tables, late, self.method, min(self.bound, self._goal()), self.trace)

    def search(self) -> None:
        """Run the parts one after the other, stopping early when nothing better can exist."""
        self._choose_overtime()
        assert self.best is not None
        self._bound(lower_bound(self.tables))
        if self.budget.timed:
            self._compiled()
            self._constraint_model()
        else:
            self._local(self.budget.candidates // 2)
            self._constraint_model()
            self._local(self.budget.candidates // 2)

    def _from_least_money(self) -> None:
        """Start from the plan of least money and bring its late jobs forward.

        Searches that look at dates first leave much of the rest undone; this often has the same dates for
        less money.
        """
        money_run = _Run(replace(self.problem, aim=Aim.MONEY), self.budget, self.seed, self._share(1 / 2))
        money_run.search()
        assert money_run.best is not None
        t = tables(self.problem, money_run.tables.opened)
        timed = time_order(t, money_run.best.placed, money_run.best.machine)
        for job in latest_jobs(t, timed)[:MOST_BROUGHT_FORWARD]:
            timed = forward_on_any_machine(t, timed, job, PLACES, aim_rank)
        self._take(t, timed, "least money, late jobs forward", 0)

    def _compiled(self) -> None:
        """The compiled searches, and without late money the exact order of fewest set-ups."""
        if is_one_row(self.tables):
            self._one_row()
        elif can_go_fast(self.tables):
            self._fast(self.budget.timed)
            self._try_overtime()
        else:
            self._local(self.budget.candidates)
            self._neighbourhoods()

    def _neighbourhoods(self) -> None:
        assert self.best is not None
        stop = Stop(12, self.budget.work, self._share(1 / 4))
        search = neighbourhood_search(self.tables, self.best, stop, self.seed)
        self._take(self.tables, search.best, "large-neighbourhood search", search.steps[-1][0])

    def _one_row(self) -> None:
        assert self.best is not None
        t = self.tables
        machine = self.best.machine[0]
        matrix = t.problem.setups.get(t.problem.machines[machine].id)
        if matrix is not None:
            limits = Stop(work=self.budget.work * 4, seconds=self._share(1 / 4))
            tour = fewest_setups(matrix, limits, self.seed)
            self._bound(lateness_bound(t) + tour.bound * t.setup_rate + running_bound(t))
            order = [node - 1 for node in tour.order[1:]]
            self._take(t, time_order(t, order, self.best.machine), "fewest set-ups", 0)
        escapes = max(200, self.budget.timed // (1200 * t.size))
        stop = Stop(iterations=escapes, seconds=self._share(1 / 4))
        if self._goal() > self.bound:
            search = one_row_search(t, self.best, stop, self.seed)
            self._take(t, search.best, "one row search", search.steps[-1][0])

    def _fast(self, timed: int) -> None:
        assert self.best is not None
        stop = Stop(iterations=max(500, timed // self.tables.size), seconds=self._share(1 / 2))
        search = fast_search(self.tables, self.best, stop, self.seed)
        self._take(self.tables, search.best, "annealing", search.steps[-1][0])

    def _try_overtime(self) -> None:
        """Open or close each overtime window in turn and see whether a short search then finds a cheaper
        plan."""
        assert self.best is not None
        for keys in self._slots()[: self.budget.overtime_trials]:
            limit = self._share(0.1)
            if limit == 0.0:
                break
            opened = self.tables.opened
            t = tables(self.problem, opened - keys if keys <= opened else opened | keys)
            timed = time_order(t, self.best.order(), self.best.machine)
            stop = Stop(iterations=max(200, self.budget.timed // (20 * t.size)), seconds=limit)
            search = fast_search(t, timed, stop, self.seed)
            self._take(t, search.best, "annealing with other overtime", search.steps[-1][0])

    def _slots(self) -> list[Opened]:
        """Overtime windows at the same time on several machines are opened together."""
        offered = overtime_windows(self.problem)
        slots = sorted({(w.start, w.end) for _, w in offered})
        return [frozenset((m, w.start) for m, w in offered if (w.start, w.end) == slot) for slot in slots]

    def _share(self, share: float) -> float | None:
        """A share of the wall time allowed, but no more than is left; None without a limit."""
        if self.seconds is None or self.ends_at is None:
            return None
        return max(0.0, min(share * self.seconds, self.ends_at - time.monotonic()))

    def _goal(self) -> int:
        assert self.best is not None
        return self.best.goal

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
        for keys in self._slots()[: self.budget.overtime_trials]:
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
        stop = Stop(iterations=iterations, seconds=self._share(1 / 4))
        search = local_search(self.tables, self.best, stop, self.seed)
        self._take(self.tables, search.best, "local search", search.steps[-1][0])

    def _constraint_model(self) -> None:
        able = [sum(m in modes for modes in self.tables.minutes) for m in range(len(self.tables.calendars))]
        if sum(n * n for n in able) > self.budget.arcs or (
            self.problem.aim is Aim.MONEY and self._goal() <= self.bound
        ):
            return
        stop = Stop(work=self.budget.work, seconds=self._share(1 / 2))
        answer = improve(self.tables, self.best, stop, self.seed)
        if answer.timed is not None:
            self._take(self.tables, answer.timed, "constraint model", 0)
        if not overtime_windows(self.problem):
            self._bound(answer.bound)


__all__: Sequence[str] = ["BUDGETS", "Budget", "Effort", "NoPlanError", "solve"]
