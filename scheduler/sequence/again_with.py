"""What a change of the shop would be worth: the plan taken up in it and searched on a little."""

from __future__ import annotations

from decimal import Decimal

from scheduler.sequence.plan import Plan
from scheduler.sequence.problem import SequenceProblem
from scheduler.sequence.resume import opened_in, timed_again
from scheduler.sequence.search import Wanted, fast_search
from scheduler.sequence.stop import Stop
from scheduler.sequence.timing import money, tables


def money_again(problem: SequenceProblem, plan: Plan, orders: int, seed: int = 0) -> Decimal:
    """Return the money of the best plan found from `plan` in a changed problem, by timing `orders` orders.

    To say what a change is worth, hold it against the same search in the unchanged problem.
    """
    t = tables(problem, opened_in(plan))
    start = timed_again(t, plan)
    if t.size < 2:
        return money(start.total)
    return money(fast_search(t, start, Stop(iterations=orders), seed, Wanted()).best.total)
