"""From problem to plan: optima of small problems, repeatability, wishes."""

from __future__ import annotations

import random
from dataclasses import replace
from decimal import Decimal
from itertools import permutations, product

import numpy as np
import pytest

from quoting.core import InputError
from scheduler.sequence import (
    After,
    Aim,
    Job,
    Machine,
    Mode,
    NoPlanError,
    Operation,
    Pin,
    PlanRates,
    SequenceProblem,
    Staffing,
    Window,
    compare,
    solve,
    tables,
    time_order,
)
from scheduler.sequence.checker import check
from scheduler.sequence.exact import improve
from scheduler.sequence.plan import Cost
from scheduler.sequence.solve import FEW
from scheduler.sequence.stop import Stop
from tests.scheduler.sequence.weeks import week

LONG = (Window(0, 200), Window(230, 480), Window(1440, 1640), Window(1670, 1920), Window(2880, 3360))


def small(seed: int, aim: Aim = Aim.MONEY) -> SequenceProblem:
    """Five invented operations on two rolls with short windows, people and a crane."""
    chance = random.Random(seed)
    names = ["a", "b", "c", "d", "e"]
    operations = tuple(
        Operation(
            n,
            n,
            tuple(
                Mode(m, chance.randint(30, 150), Decimal(cost))
                for m, cost in (("roll 1", 0), ("roll 2", 8))[: chance.choice((1, 2))]
            ),
            release=chance.choice((0, 0, 100)),
            crew=chance.randint(0, 2),
            crane=chance.random() < 0.4,
            may_pause=chance.random() < 0.6,
            after=(After("a", 40),) if n == "e" else (),
        )
        for n in names
    )
    jobs = tuple(Job(n, chance.randint(100, 1800), Decimal(chance.randint(0, 3))) for n in names)
    matrix = np.array([[chance.randint(0, 60) for _ in names] for _ in range(6)], dtype=np.int64)
    machines = (Machine("roll 1", "roll", LONG), Machine("roll 2", "roll", (Window(0, 480), *LONG[2:])))
    people = (Staffing(0, 3400, 2),)
    return SequenceProblem(
        machines,
        operations,
        jobs,
        {"roll 1": matrix, "roll 2": matrix[::-1].copy()},
        staffing=people,
        setup_crew=0,
        aim=aim,
        rates=PlanRates(Decimal("0.5"), Decimal("0.01")),
    )


def best_of_all(problem: SequenceProblem) -> tuple[int, int, int]:
    t = tables(problem)
    choices = [sorted(m) for m in t.minutes]
    return min(
        time_order(t, order, machine).score
        for order in permutations(range(t.size))
        for machine in product(*choices)
    )


@pytest.mark.parametrize("seed", range(6))
@pytest.mark.parametrize("aim", list(Aim))
def test_small_problems_are_solved_as_well_as_by_trying_every_order(seed: int, aim: Aim) -> None:
    problem = small(seed, aim)
    plan = solve(problem)
    t = tables(problem)
    best = best_of_all(problem)
    lateness = int(plan.cost.lateness * 10_000)
    found = (0, lateness, int(plan.total * 10_000) - lateness)
    if aim is Aim.MONEY:
        found = (0, int(plan.total * 10_000), 0)
    assert found <= best
    assert int(plan.bound * 10_000) <= best[1]
    assert t.size == len(plan.assignments)


def _two_equal_rolls(dearer: str) -> SequenceProblem:
    """One job that two equal rolls can do, one of them at a price."""
    names = ("roll 1", "roll 2")
    modes = tuple(Mode(m, 60, Decimal("12.5") if m == dearer else Decimal(0)) for m in names)
    machines = tuple(Machine(m, "roll", LONG) for m in names)
    return SequenceProblem(machines, (Operation("a", "a", modes),), (Job("a", 500, Decimal(1)),))


@pytest.mark.parametrize("dearer", ["roll 1", "roll 2"])
def test_of_two_equal_machines_the_cheaper_is_taken(dearer: str) -> None:
    plan = solve(_two_equal_rolls(dearer))
    assert plan.of("a").machine != dearer
    assert (plan.total, plan.bound, plan.proven) == (Decimal(0), Decimal(0), True)


def test_a_dear_machine_is_taken_when_the_date_is_worth_it_and_paid_for() -> None:
    problem = _two_equal_rolls("roll 2")
    second = replace(problem.operations[0], id="b", job="b")
    jobs = (Job("a", 60, Decimal(1)), Job("b", 60, Decimal(1)))
    plan = solve(replace(problem, operations=(*problem.operations, second), jobs=jobs))
    assert plan.cost == Cost(running=Decimal("12.5"))
    assert plan.proven


@pytest.mark.slow
def test_the_constraint_model_and_trying_every_order_agree_on_dearer_machines() -> None:
    for seed in range(4):
        problem = small(seed)
        t = tables(problem)
        answer = improve(t, None, Stop(work=3.0))
        assert answer.timed is not None
        assert answer.timed.score == best_of_all(problem)


def test_a_negative_running_cost_is_refused() -> None:
    with pytest.raises(InputError, match="cost of running on roll 1 is negative"):
        Mode("roll 1", 5, Decimal(-1))


def test_the_same_seed_gives_the_same_plan() -> None:
    problem = week(12, 2, seed=1).problem
    assert solve(problem, seed=5) == solve(problem, seed=5)


def test_a_plan_beats_what_people_do_and_says_by_how_much() -> None:
    made = week(20, 2, seed=2)
    plan = solve(made.problem)
    savings = compare(made.problem, plan, {"thickness order": made.thickness})
    assert {s.name for s in savings} == {"due-day order", "thickness order"}
    assert savings[0].plain.total <= savings[1].plain.total
    assert all(s.money > 0 for s in savings)
    best = savings[0]
    assert best.setup_minutes == best.plain.setup_minutes - plan.setup_minutes


@pytest.mark.slow
def test_pins_and_hard_dates_are_kept() -> None:
    problem = week(12, 2, seed=4).problem
    jobs = tuple(replace(j, must_ship=4 * 1440) if j.id == "job 5" else j for j in problem.jobs)
    pins = (
        Pin("roll 3", machine="roll 1", running=True),
        Pin("roll 7", before="roll 2"),
        Pin("roll 4", not_before=2000),
        Pin("roll 6", machine="roll 1", start=1440 + 400),
    )
    problem = replace(problem, pins=pins, jobs=jobs)
    problem = replace(
        problem,
        operations=tuple(replace(o, after=()) if o.id == "roll 3" else o for o in problem.operations),
    )
    plan = solve(problem)
    assert plan.conflicts == ()
    assert check(problem, plan) == ()
    assert plan.of("roll 6").start == 1840


def test_wishes_in_conflict_come_back_as_the_smallest_set_in_words() -> None:
    problem = week(8, 1, seed=4).problem
    pins = (
        Pin("roll 1", before="roll 2"),
        Pin("roll 3", not_before=500),
        Pin("roll 2", before="roll 4"),
        Pin("roll 4", before="roll 1"),
    )
    plan = solve(replace(problem, pins=pins))
    (conflict,) = plan.conflicts
    assert set(conflict.wishes) == {pins[0], pins[2], pins[3]}
    assert str(conflict).startswith("These 3 wishes cannot all be kept: pin: roll 1 before roll 2")


def test_a_hard_date_no_plan_reaches_is_given_up_and_named() -> None:
    problem = week(8, 1, seed=4).problem
    jobs = tuple(replace(j, must_ship=370) if j.id == "job 5" else j for j in problem.jobs)
    plan = solve(replace(problem, jobs=jobs))
    assert [str(c) for c in plan.conflicts] == [
        "This wish cannot be kept by any plan, so it was given up: must ship: job 5 done by minute 370"
    ]
    assert check(replace(problem, jobs=jobs), plan) == ()


def test_a_horizon_too_short_names_the_jobs() -> None:
    problem = week(30, 1, seed=4, days=2).problem
    with pytest.raises(NoPlanError, match=r"too short for job job \d+") as caught:
        solve(problem)
    assert caught.value.operations


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"modes": ()}, "on no machine"),
        ({"modes": (Mode("roll 9", 5),)}, "wants machine roll 9"),
        ({"after": (After("nothing"),)}, "waits for nothing"),
        ({"after": (After("e"),)}, "in a circle: a after e after a"),
        ({"job": "ghost"}, "job that is not in the plan"),
    ],
)
def test_a_problem_that_makes_no_sense_is_refused_by_name(change: dict[str, object], words: str) -> None:
    problem = small(0)
    wrong = replace(problem.operations[0], **change)  # type: ignore[arg-type]
    with pytest.raises(InputError, match=words):
        replace(problem, operations=(wrong, *problem.operations[1:]))


def test_nothing_to_do_is_a_plan_too() -> None:
    problem = SequenceProblem((Machine("roll 1", "roll", LONG),), (), ())
    assert solve(problem).assignments == ()


@pytest.mark.slow
def test_with_few_operations_each_effort_begins_anew_and_is_never_dearer() -> None:
    problem = week(8, 2).problem
    assert tables(problem).size <= FEW
    totals = [solve(problem, effort=effort).total for effort in ("quick", "normal", "thorough")]
    assert totals == sorted(totals, reverse=True)
    assert solve(problem, effort="normal") == solve(problem, effort="normal")
