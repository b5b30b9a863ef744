"""Every way to order the work behind one call: `sequencer(problem, stop=..., seed=...) -> Plan`, to swap
and compare them.

Each returns a checked plan with the search-free bound or a better one, and raises `NoPlanError` when its
order breaks a hard rule.
Overtime windows are all worked: which of them pay is a question for `solve`.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Protocol

from scheduler.sequence.checked_plan import finish
from scheduler.sequence.exact import improve, lower_bound
from scheduler.sequence.plan import Plan, TracePoint
from scheduler.sequence.problem import SequenceProblem
from scheduler.sequence.rules import best_rule
from scheduler.sequence.rules.dispatch import apparent_tardiness_cost, date_order, in_order
from scheduler.sequence.search import fast_search, is_one_row, one_row_search
from scheduler.sequence.search.search_result import Search
from scheduler.sequence.stop import Stop
from scheduler.sequence.timing import Tables, Timed, money, overtime_windows, tables


class Sequencer(Protocol):
    """What every sequencer is called like."""

    def __call__(self, problem: SequenceProblem, *, stop: Stop, seed: int = 0) -> Plan:
        """Return a plan found within the limits."""


def by_date(problem: SequenceProblem, *, stop: Stop, seed: int = 0) -> Plan:
    """Earliest due date first."""
    t = _all_windows(problem)
    return _plan(t, in_order(t, date_order(t)), "date order")


def by_index(problem: SequenceProblem, *, stop: Stop, seed: int = 0) -> Plan:
    """Apparent tardiness cost with set-ups."""
    t = _all_windows(problem)
    return _plan(t, apparent_tardiness_cost(t), "apparent tardiness cost")


def _searcher(search: Callable[[Tables, Timed, Stop, int], Search], method: str) -> Sequencer:
    def sequencer(problem: SequenceProblem, *, stop: Stop, seed: int = 0) -> Plan:
        t = _all_windows(problem)
        found = search(t, best_rule(t)[1], stop, seed)
        trace = tuple(TracePoint(method, step, money(total)) for step, total in found.steps)
        return _plan(t, found.best, method, trace=trace)

    return sequencer


def _compiled(t: Tables, start: Timed, stop: Stop, seed: int) -> Search:
    if is_one_row(t):
        return one_row_search(t, start, stop, seed)
    return fast_search(t, start, stop, seed)


by_compiled_search = _searcher(_compiled, "compiled search")


def by_constraints(problem: SequenceProblem, *, stop: Stop, seed: int = 0) -> Plan:
    """The whole constraint model, warm-started by the best hand rule."""
    t = _all_windows(problem)
    start = best_rule(t)[1]
    answer = improve(t, start, stop, seed)
    found = [x for x in (start, answer.timed) if x is not None]
    bound = 0 if overtime_windows(problem) else answer.bound
    return _plan(t, min(found, key=lambda x: x.score), "constraint model", bound)


def _all_windows(problem: SequenceProblem) -> Tables:
    return tables(problem, frozenset((m, w.start) for m, w in overtime_windows(problem)))


def _plan(t: Tables, timed: Timed, method: str, bound: int = 0, trace: tuple[TracePoint, ...] = ()) -> Plan:
    return finish(t, timed, method, min(timed.goal, max(bound, lower_bound(t))), trace)


SEQUENCERS: dict[str, Sequencer] = {
    "date order": by_date,
    "apparent tardiness cost": by_index,
    "compiled search": by_compiled_search,
    "constraint model": by_constraints,
}
