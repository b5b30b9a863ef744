"""One call from a problem to the best plan found: rules, local search, CP-SAT, and the bound."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import partial

from quoting.core import Effort, worked_ahead
from scheduler.sequence.checked_plan import NoPlanError, finish
from scheduler.sequence.exact import (
    fewest_setups,
    improve,
    lateness_bound,
    lower_bound,
    obvious_conflict,
    running_bound,
    settle,
    tour_bound,
)
from scheduler.sequence.plan import Plan, TracePoint
from scheduler.sequence.problem import SequenceProblem
from scheduler.sequence.problem_parts import Aim
from scheduler.sequence.resume import aim_rank, forward_on_any_machine, latest_jobs, opened_in, timed_again
from scheduler.sequence.rules import HandOrders, as_pinned, best_rule, by_hand
from scheduler.sequence.search import Mixing, Wanted, fast_search, is_one_row, mixed_search, one_row_search
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

    `timed` operations are looked at by the compiled search, about, but no more than `each` orders for each
    operation there is: a small plan is soon searched through. They are timed in rounds, each from the best
    plan so far: `a_round` operations in each, more where there are many. After `idle` rounds in a row that
    hardly paid there is none. `work` is CP-SAT's deterministic time, spent on models of at most `arcs` arcs:
    larger ones take longer to build than they are worth. `nodes` is the size up to which all rows together
    are bounded as one tour.
    """

    timed: int
    each: int
    a_round: int
    idle: int
    work: float
    arcs: int
    nodes: int

    def candidates(self, size: int) -> int:
        """Return how many orders of `size` operations are timed at most."""
        return max(500, min(self.timed // size, self.each * size))

    def in_a_round(self, size: int) -> int:
        """Return how many of them are timed in a round: many operations need long rounds."""
        if size <= FEW:
            return min(self.candidates(size), A_START * size)
        return min(self.candidates(size), max(self.a_round // size, LONG * size))


FEW, A_START = 80, 5_000
"""So few operations are searched anew from the plan by rules in each round, of so many orders for each: by
trial, a search that goes on from the best plan of so few stays in what it is stuck in, however long it is."""

LONG = 950
"""Orders for each operation in a round of a large plan: by trial, shorter rounds end in dearer plans."""

BUDGETS: dict[Effort, Budget] = {
    "quick": Budget(25_000_000, 5_000, a_round=25_000_000, idle=1, work=0.05, arcs=1_000, nodes=60),
    "normal": Budget(67_000_000, 16_500, a_round=20_000_000, idle=2, work=0.3, arcs=2_000, nodes=120),
    "thorough": Budget(400_000_000, 100_000, a_round=67_000_000, idle=2, work=5.0, arcs=30_000, nodes=300),
}
"""Each effort does all that the ones before it do, and then goes on from their plan: more is never dearer."""

FOR_PINS = 3
"""Times as many orders where much is pinned: what is left has to be fitted in between."""

LONG_ENOUGH = 2_000
WAYS, HOT = 4, 3
"""A round of so many orders for each operation goes so many ways, so many times as hot as else: by trial."""

PAYS = 0.005
"""A round of the search that saves a smaller share of the money than this hardly paid."""

FOR_SLACK = 6
"""One part in so many of a round is spent on slack."""

LONGEST_MODEL = 10 * 7 * 1440
"""Minutes ahead up to which the constraint model is built: it holds a capacity for every shift."""

MOST_BROUGHT_FORWARD = 6
PLACES = 12


def solve(
    problem: SequenceProblem,
    *,
    effort: Effort = "quick",
    seed: int = 0,
    seconds: float | None = None,
    orders: HandOrders | None = None,
    known: Plan | None = None,
) -> Plan:
    """Return the best plan found with this effort, checked, with a bound.

    The same problem, effort and seed give the same plan; with `seconds` the wall clock may end the search
    earlier. `orders` are those that people go by (see `compare`): no plan comes out dearer than by hand.
    `known` is a plan of a lesser effort, or of nearly the same problem: the search goes on from it.
    Wishes that cannot be kept together are given up one by one and reported in `Plan.conflicts`.
    Raises `NoPlanError` when the horizon is too short or no plan that keeps the wishes was found.
    """
    if not problem.operations:
        return finish(tables(problem), time_order(tables(problem), [], []), "nothing to do")
    work = BUDGETS[effort].work
    problem, conflicts = settle(problem, work) if _suspicious(problem) else (problem, ())
    run = _Run(problem, seed, seconds, orders or {})
    plan = run.plan(effort, known)
    return replace(plan, conflicts=conflicts) if conflicts else plan


def _suspicious(problem: SequenceProblem) -> bool:
    """Whether a quick start misses a wish, so that the proof of a conflict is worth its time."""
    if not problem.wishes:
        return False
    if obvious_conflict(problem):
        return True
    t, start = _widest_start(problem)
    if not start.broken:
        return False
    stop = Stop(iterations=BUDGETS["quick"].candidates(t.size) // 4)
    return fast_search(t, start, stop, 0, Wanted()).best.broken > 0


def _widest_start(problem: SequenceProblem) -> tuple[Tables, Timed]:
    """Return the start that breaks least, with all overtime or none."""
    found = []
    for opened in _ends(problem):
        t = tables(problem, opened)
        starts = [best_rule(t)[1], *([as_pinned(t)] if any(s is not None for s in t.fixed_start) else [])]
        found += [(t, start) for start in starts]
    return min(found, key=lambda one: one[1].score)


def _ends(problem: SequenceProblem) -> list[Opened]:
    """No overtime, and all that is on offer."""
    offered = frozenset((m, w.start) for m, w in overtime_windows(problem))
    return [frozenset(), offered] if offered else [frozenset()]


def _paid(before: Timed, after: Timed) -> bool:
    """Whether a round of the search made the plan so much better that another one is likely to."""
    least = 1 - PAYS
    cheaper = after.goal < least * before.goal or after.total < least * before.total
    return after.broken < before.broken or cheaper


class _Run:
    """One run of `solve`: keeps the best plan and the trace."""

    def __init__(
        self, problem: SequenceProblem, seed: int, seconds: float | None, orders: HandOrders
    ) -> None:
        self.problem, self.seed, self.seconds, self.orders = problem, seed, seconds, orders
        self.ends_at = None if seconds is None else time.monotonic() + seconds
        self.budget = BUDGETS["quick"]
        self.trace: list[TracePoint] = []
        self.method = ""
        self.by_rules: tuple[Tables, Timed] | None = None
        self.tables: Tables = tables(problem)
        self.best: Timed | None = None
        self.bound = 0

    def plan(self, effort: Effort, known: Plan | None) -> Plan:
        """Search, then make the plan and have it checked."""
        self.search(effort, known)
        assert self.best is not None
        if self.best.unplaced or self.best.broken:
            finish(self.tables, self.best, self.method)
        self._slack_and_bound()
        late = late_setups(self.tables, self.best)
        return finish(self.tables, late, self.method, min(self.bound, self._goal()), self.trace)

    def _slack_and_bound(self) -> None:
        """Search for slack, which makes nothing dearer, while the last bound is worked out."""
        if self._goal() <= self.bound:
            self._slack()
            return

        def slack() -> int:
            self._slack()
            return 0

        both: list[Callable[[], int]] = [slack, partial(tour_bound, self.tables, self.budget.nodes)]
        self._bound(max(worked_ahead(both)))

    def search(self, effort: Effort, known: Plan | None = None) -> None:
        """Run the parts one after the other, stopping early when nothing better can exist."""
        efforts = tuple(BUDGETS)[: tuple(BUDGETS).index(effort) + 1]
        if known is not None:
            t = tables(self.problem, opened_in(known))
            self._take(t, timed_again(t, known), known.method, 0)
            efforts = efforts[-1:]
        self._starts()
        self._bound(lower_bound(self.tables))
        for one in efforts:
            self.budget = BUDGETS[one]
            self._compiled()
            self._constraint_model()
            if self.problem.aim is Aim.DATES_FIRST:
                self._from_least_money(one)

    def _starts(self) -> None:
        """Take the best of the plans that need no search: by rules, and what people do by hand."""
        for opened in _ends(self.problem):
            t = tables(self.problem, opened)
            name, timed = best_rule(t)
            self._take(t, timed, name, 0)
            self.by_rules = self.by_rules or (t, timed)
            if any(start is not None for start in t.fixed_start):
                self._take(t, as_pinned(t), "as pinned", 0)
            if opened:
                continue
            for key in (None, *self.orders.values()):
                hand = by_hand(t, key)
                self._take(t, hand, "by hand", 0)
                self._take(t, time_order(t, hand.placed, hand.machine), "by hand, set up early", 0)

    def _from_least_money(self, effort: Effort) -> None:
        """Start from the plan of least money and bring its late jobs forward.

        Searches that look at dates first leave much of the rest undone; this often has the same dates for
        less money.
        """
        money_run = _Run(replace(self.problem, aim=Aim.MONEY), self.seed, self._share(1 / 2), self.orders)
        money_run.search(effort)
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
        elif self.tables.size > 1:
            self._fast()

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
        escapes = max(200, self.budget.timed // (1600 * t.size))
        stop = Stop(iterations=escapes, seconds=self._share(1 / 4))
        if self._goal() > self.bound:
            search = one_row_search(t, self.best, stop, self.seed)
            self._take(t, search.best, "one row search", search.steps[-1][0])

    def _fast(self) -> None:
        assert self.best is not None
        if self.problem.aim is Aim.MONEY and self._goal() <= self.bound:
            return
        pinned = sum(start is not None for start in self.tables.fixed_start) > self.tables.size // 4
        size, often = self.tables.size, FOR_PINS if pinned else 1
        orders, idle = self.budget.in_a_round(size) * often, 0
        rounds = max(1, self.budget.candidates(size) * often // orders)
        for number in range(rounds):
            before = self.best
            self._round(orders, self._share(2 / 3 / rounds), number)
            idle = 0 if _paid(before, self.best) else idle + 1
            if idle == self.budget.idle:
                break

    def _round(self, orders: int, seconds: float | None, number: int) -> None:
        """Search from a plan: many orders for each operation go several ways, which are then mixed."""
        assert self.best is not None
        t, begun = self._begun_from(number)
        stop = Stop(iterations=orders, seconds=seconds)
        seed = self.seed + 1_000 * tuple(BUDGETS.values()).index(self.budget) + 10 * number
        if orders >= LONG_ENOUGH * t.size:
            search = mixed_search(t, begun, stop, seed, Mixing(WAYS, HOT * (begun.total - self.bound)))
        else:
            search = fast_search(t, begun, stop, seed, Wanted())
        self._take(search.tables or t, search.best, "annealing", search.steps[-1][0])

    def _begun_from(self, number: int) -> tuple[Tables, Timed]:
        """Return the plan that a round begins from: the best, or with few operations that by rules."""
        assert self.best is not None
        t = self.tables
        anew = t.size <= FEW and not self.best.broken and all(start is None for start in t.fixed_start)
        goes_on = number == 0 and self.budget is BUDGETS["quick"]
        if goes_on or not anew or self.by_rules is None:
            return t, self.best
        return self.by_rules

    def _slack(self) -> None:
        """Of plans that are no dearer take one that leaves more days before the due days."""
        assert self.best is not None
        if not self.problem.rates.slack or self.tables.size < 2 or is_one_row(self.tables):
            return
        steps = self.budget.in_a_round(self.tables.size) // FOR_SLACK
        stop = Stop(iterations=steps, seconds=self._share(1 / 6))
        search = fast_search(self.tables, self.best, stop, self.seed, Wanted(slack=True))
        self.tables, self.best = search.tables or self.tables, search.best

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

    def _constraint_model(self) -> None:
        assert self.best is not None
        if self.best.unplaced or self.problem.horizon > LONGEST_MODEL:
            return
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
