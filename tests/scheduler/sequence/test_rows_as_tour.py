"""The bound on rows as one tour: never above the best plan, and what it sees that set-ups alone do not."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from itertools import chain, combinations, permutations, product

import numpy as np
import pytest

from scheduler.sequence import (
    Aim,
    Job,
    Machine,
    Mode,
    Operation,
    PlanRates,
    SequenceProblem,
    Window,
    overtime_windows,
    solve,
    tables,
    time_order,
)
from scheduler.sequence.exact import lower_bound, tour_bound
from scheduler.sequence.rules import best_rule
from tests.scheduler.sequence.test_solve import small
from tests.scheduler.sequence.weeks import week

DAY = (Window(0, 480), Window(1440, 1920), Window(2880, 3360))
MOST = 300


def _with_overtime(problem: SequenceProblem) -> SequenceProblem:
    """The same with less of the day and two stretches of overtime on the first roll."""
    paid = Decimal("0.4")
    windows = (Window(0, 150), Window(150, 300, paid), Window(1440, 1600), Window(1600, 1800, paid), *DAY[2:])
    return replace(problem, machines=(replace(problem.machines[0], windows=windows), *problem.machines[1:]))


def _best_of_all(problem: SequenceProblem) -> int:
    """The least ticks of all orders, rolls and choices of overtime; the least late ticks with dates first."""
    offered = [(m, w.start) for m, w in overtime_windows(problem)]
    sets = chain.from_iterable(combinations(offered, k) for k in range(len(offered) + 1))
    best = 1 << 60
    for opened in sets:
        t = tables(problem, frozenset(opened))
        choices = [sorted(modes) for modes in t.minutes]
        for order, machine in product(permutations(range(t.size)), product(*choices)):
            timed = time_order(t, order, machine)
            if not timed.broken:
                best = min(best, timed.goal)
    return best


@pytest.mark.parametrize("aim", list(Aim))
@pytest.mark.parametrize("seed", range(10, 16))
def test_no_order_of_five_works_costs_less(seed: int, aim: Aim) -> None:
    problem = small(seed, aim)
    assert tour_bound(tables(problem), MOST) <= _best_of_all(problem)


@pytest.mark.parametrize("seed", [20, 21, 22])
def test_no_choice_of_overtime_costs_less(seed: int) -> None:
    problem = small(seed)
    four = tuple(o for o in problem.operations if o.id != "e")
    setups = {name: matrix[:5, :4] for name, matrix in problem.setups.items()}
    jobs = tuple(job for job in problem.jobs if job.id != "e")
    less = _with_overtime(replace(problem, operations=four, setups=setups, jobs=jobs))
    assert tour_bound(tables(less), MOST) <= _best_of_all(less)


@pytest.mark.parametrize("seed", range(30, 36))
def test_no_plan_of_a_week_that_the_checker_accepts_costs_less(seed: int) -> None:
    problem = week(7, 1 + seed % 2, seed=seed).problem
    bound = tour_bound(tables(problem), MOST)
    assert 0 < bound <= int(solve(problem).total * 10_000)
    assert bound <= best_rule(tables(problem))[1].total


def _rolled(releases: dict[str, int], due: int = 480, late: str = "1") -> SequenceProblem:
    """Works of two gaps on one roll: 3 minutes to the same gap, 30 to the other one and at the start."""
    names = list(releases)
    operations = tuple(Operation(n, n, (Mode("roll", 20),), release=releases[n]) for n in names)
    rows = [[30 for _ in names], *([3 if a[0] == b[0] else 30 for b in names] for a in names)]
    return SequenceProblem(
        (Machine("roll", "roll", DAY),),
        operations,
        tuple(Job(n, due, Decimal(late)) for n in names),
        {"roll": np.array(rows, np.int64)},
        rates=PlanRates(Decimal(1)),
    )


def test_each_gap_has_to_be_set_once_at_least() -> None:
    t = tables(_rolled(dict.fromkeys(("a1", "a2", "b1", "b2"), 0)))
    assert lower_bound(t) == 10_000 * 4 * 3  # circles inside a gap are allowed there
    assert tour_bound(t, MOST) == pytest.approx(10_000 * (30 + 3 + 30 + 3), abs=100)


def test_waiting_for_a_late_plate_costs_late_money_or_another_set_up() -> None:
    early = tables(_rolled({"a1": 0, "a2": 0, "b1": 0}))
    late = tables(_rolled({"a1": 0, "a2": 1440, "b1": 0}))
    alone = 1440 + 20 - 480  # the late plate's own job is late whatever is done
    assert tour_bound(early, MOST) == pytest.approx(10_000 * (30 + 3 + 30), abs=100)
    assert tour_bound(late, MOST) == pytest.approx(10_000 * (alone + 30 + 30 + 3), abs=100)


def test_a_tour_of_too_many_works_is_not_begun() -> None:
    assert tour_bound(tables(_rolled(dict.fromkeys(("a1", "a2", "b1"), 0))), 3) == 0
