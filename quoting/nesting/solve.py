"""The one way in: all together; by week when later pieces may wait; by rank when stock runs short."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

from quoting.core import Effort
from quoting.nesting.nest_problem import NestProblem
from quoting.nesting.nest_result import Nest
from quoting.nesting.priorities import by_rank, with_waiting
from quoting.nesting.together import may_cost_less, nest_together, passed


def nest(
    problem: NestProblem,
    *,
    effort: Effort = "quick",
    seed: int = 0,
    stop: Callable[[], bool] | None = None,
    layouts: int | None = None,
) -> Nest:
    """Return the cheapest checked nest found for one group of pieces.

    The same problem, effort and seed give the same nest: only counted steps end the search. `stop` is
    asked often; when it returns True the best layout so far is returned, with `stopped` set. Pieces that
    fit nowhere come back as `unplaced` with a reason, the others still nest; when stock runs short, these
    are the ones of least priority. With `problem.waiting`, later pieces wait for later plates as far as the
    shop pays for that. With `layouts` only so many usual layouts are compared (at least two) and none is
    improved: a first idea of the plate, the same however busy the machine is. Raises NestRefusedError if a
    layout fails the checker.
    """

    def solve(part: NestProblem) -> Nest:
        return nest_together(
            replace(part, waiting=None), effort=effort, seed=seed, stop=stop, layouts=layouts
        )

    together = solve(problem)
    found = by_rank(problem, together, solve)
    if found is together and problem.waiting is not None:
        found = with_waiting(problem, problem.waiting, together, solve)
    return found if found is together else passed(problem, found)


def nest_for_less(problem: NestProblem, than: Decimal, *, layouts: int) -> Nest | None:
    """Return the nest of so many usual layouts, as `nest` does, where it holds all pieces and its plates less
    its drops cost less than this; else None, most often before the work of a nest that is handed out."""
    if not may_cost_less(problem, than, layouts):
        return None
    found = nest(problem, layouts=layouts)
    return None if found.unplaced or found.plate_cost - found.drop_value >= than else found
