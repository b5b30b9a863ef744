"""Later pieces may wait: the weeks nested apart against all together, and what waiting may cost."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from decimal import Decimal

from quoting.nesting.nest_problem import NestProblem, Waiting, week_of
from quoting.nesting.nest_result import Nest, Waited
from quoting.nesting.priorities.in_turns import Solve, in_turns


def with_waiting(problem: NestProblem, rule: Waiting, together: Nest, solve: Solve) -> Nest:
    """Return the nest in which later pieces wait, or `together` when that costs more than the shop allows.

    Tried are every week by itself, and the first week against all the others. Of those allowed, and all
    together, the one is taken that ties up the least money in the plates of the first week, then of the
    second, and so on.
    """
    weeks = sorted({piece.week for piece in problem.pieces})
    if len(weeks) < 2:
        return together
    turns = [[piece.id for piece in problem.pieces if piece.week == week] for week in weeks]
    tried = [in_turns(problem, turns, solve, together.bound)]
    if len(turns) > 2:
        rest = [id for turn in turns[1:] for id in turn]
        tried.append(in_turns(problem, [turns[0], rest], solve, together.bound))
    most = together.cost * (1 + rule.most_extra_share)
    allowed = [one for one in tried if one.missing <= together.missing and one.cost <= most]
    if not allowed:
        cheapest = min(one.cost for one in tried)
        return replace(together, waited=Waited(False, together.cost, cheapest))
    best = min((together, *allowed), key=lambda one: _tied_up(one, weeks))
    return replace(best, waited=Waited(True, together.cost, best.cost))


def _tied_up(nest: Nest, weeks: Sequence[date]) -> list[Decimal]:
    """Return the money of the plates that are cut up to each week, then the cost of the nest."""
    spent = [
        sum((cut.price for cut in nest.cut_plates if _week(cut.cut_by) <= week), Decimal(0)) for week in weeks
    ]
    return [*spent, nest.cost]


def _week(day: date | None) -> date:
    return date.max if day is None else week_of(day)
