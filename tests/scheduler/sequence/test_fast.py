"""The compiled searches time orders exactly as the plain timing code does."""

from __future__ import annotations

import random
from dataclasses import replace
from decimal import Decimal
from typing import Any

import numpy as np
import pytest

from scheduler.sequence import (
    Aim,
    Job,
    Machine,
    Mode,
    Operation,
    Pin,
    PlanRates,
    SequenceProblem,
    Window,
    overtime_windows,
    tables,
    time_order,
)
from scheduler.sequence.checked_plan import finish
from scheduler.sequence.checker import check
from scheduler.sequence.rules.dispatch import apparent_tardiness_cost, date_order, in_order
from scheduler.sequence.search import fast_search, is_one_row, one_row_search
from scheduler.sequence.search.packing import pack
from scheduler.sequence.stop import Stop
from tests.scheduler.sequence.test_solve import LONG, best_of_all, small
from tests.scheduler.sequence.weeks import week, with_dearer_roll


def _shuffled(order: list[int], chance: random.Random) -> list[int]:
    mixed = list(order)
    for _ in range(20):
        i, j = chance.randrange(len(mixed)), chance.randrange(len(mixed))
        mixed[i], mixed[j] = mixed[j], mixed[i]
    return mixed


@pytest.mark.parametrize("overtime", [False, True])
def test_both_timings_give_the_same_money_for_any_order(overtime: bool) -> None:
    from scheduler.sequence.search.row_kernel import evaluate  # noqa: PLC0415

    chance = random.Random(0)
    problem = with_dearer_roll(week(30, 2, seed=6).problem)
    jobs = tuple(replace(j, must_ship=j.due + 4000) for j in problem.jobs)
    running = Pin("cut 3", running=True)
    problem = replace(problem, jobs=jobs, pins=(running, Pin("roll 4", before="roll 9")))
    every = frozenset((m, w.start) for m, w in overtime_windows(problem))
    t = tables(problem, every if overtime else frozenset())
    packed = pack(t)
    kept = 0
    for _ in range(60):
        order = _shuffled(date_order(t), chance)
        order.sort(key=lambda i: not t.running[i])
        machine = [chance.choice(sorted(m)) for m in t.minutes]
        plain = time_order(t, order, machine)
        start = np.zeros(t.size, dtype=np.int64)
        money = evaluate(np.array(order), np.array(machine), start, *packed)
        assert money == plain.total + 1_000_000 * plain.broken or plain.unplaced
        if not plain.unplaced:
            assert start.tolist() == plain.start
            kept += 1
    assert kept > 20


def _from_python(function: Any) -> Any:
    """Return what calls a compiled function that only compiled ones may call."""
    from numba import njit  # noqa: PLC0415

    decorate: Any = njit

    @decorate  # type: ignore[untyped-decorator]
    def call(*things: Any) -> Any:
        return function(*things)

    return call


def test_a_few_of_two_machines_change_over_where_both_can_do_them() -> None:
    from scheduler.sequence.search.fast import able_machines  # noqa: PLC0415
    from scheduler.sequence.search.row_kernel import _cross  # noqa: PLC0415

    chance, cross = random.Random(2), _from_python(_cross)
    t = tables(with_dearer_roll(week(30, 2, seed=6).problem))
    able, ables = able_machines(t)
    block, goes = np.zeros(t.size + 2, dtype=np.int64), np.zeros(t.size + 2, dtype=np.int64)
    taken, out, sizes = np.zeros(t.size, dtype=np.bool_), np.zeros(t.size, dtype=np.int64), set()
    for _ in range(300):
        order = np.array(_shuffled(date_order(t), chance))
        machine = np.array([chance.choice(sorted(m)) for m in t.minutes])
        at = chance.choice([k for k in range(t.size) if ables[order[k]] > 1])
        first, moved = cross(order, machine, at, able, ables, out, block, goes, taken)
        assert not taken.any()
        if first < 0:
            continue
        assert sorted(out) == list(range(t.size))
        assert first <= at
        assert out[:first].tolist() == order[:first].tolist()
        assert out[first] != order[first]
        gone = [(int(x), int(to)) for x, to in zip(block[:moved], goes[:moved], strict=True)]
        assert all(to in t.minutes[x] and to != machine[x] for x, to in gone)
        assert {to for _, to in gone} == {machine[x] for x, _ in gone}
        sizes.add(moved)
    assert min(sizes) == 2
    assert max(sizes) > 4


@pytest.mark.parametrize("enough", [False, True])
def test_no_order_comes_below_its_bound_and_with_enough_people_it_is_the_money(enough: bool) -> None:
    from scheduler.sequence.search.at_least_kernel import at_least, room_for_bound  # noqa: PLC0415
    from scheduler.sequence.search.row_kernel import _fresh, evaluate  # noqa: PLC0415

    fresh, room_of, bound_of = map(_from_python, (_fresh, room_for_bound, at_least))
    chance = random.Random(1)
    problem = with_dearer_roll(week(30, 2, seed=6).problem)
    problem = replace(problem, pins=(Pin("cut 3", running=True), Pin("roll 4", before="roll 9")))
    if enough:
        paused = tuple(replace(o, may_pause=True) for o in problem.operations)
        rates = PlanRates(Decimal("1.5"))
        problem = replace(problem, operations=paused, staffing=(), cranes=1_000, rates=rates)
    t = tables(problem)
    packed = pack(t)
    cal, _, ops, jobs, rules, _ = packed
    top, share, met = 2**62, [], 0
    for _ in range(60):
        order = np.array(sorted(_shuffled(date_order(t), chance), key=lambda i: not t.running[i]))
        machine = np.array([chance.choice(sorted(m)) for m in t.minutes])
        money = evaluate(order, machine, np.zeros(t.size, dtype=np.int64), *packed)
        plan = fresh(t.size, len(t.calendars), jobs, rules)
        room = room_of(t.size, len(t.calendars), len(t.due))
        stack = np.zeros(t.size + 1, dtype=np.int64)
        bound = bound_of(order, 0, 0, top, machine, cal, ops, jobs, rules, plan, room, stack)
        assert bound <= money
        if bound:
            share.append(bound / money)
            met += bound == money
    assert len(share) > 20
    assert met == len(share) if enough else max(share) > 0.8


@pytest.mark.parametrize("aim", list(Aim))
def test_annealing_finds_the_best_order_of_small_problems(aim: Aim) -> None:
    for seed in range(4):
        problem = small(seed, aim)
        t = tables(problem)
        found = fast_search(t, in_order(t, date_order(t)), Stop(iterations=20000), seed=1)
        assert found.best.score == best_of_all(problem)


def test_annealing_is_repeatable_and_its_plan_passes_the_checker() -> None:
    problem = week(30, 2, seed=7).problem
    t = tables(problem)
    start = apparent_tardiness_cost(t)
    first, again = (fast_search(t, start, Stop(iterations=2000), seed=3).best for _ in range(2))
    assert first == again
    assert first.score < start.score
    assert check(problem, finish(t, first, "annealing")) == ()


def test_the_search_means_the_money_of_its_plan_where_what_runs_takes_people() -> None:
    """The kernel's own ticks of its best plan: with work put before what runs they would be too few."""
    from scheduler.sequence.search.fast import MOST, able_machines, running_first  # noqa: PLC0415
    from scheduler.sequence.search.row_kernel import search  # noqa: PLC0415

    problem = with_dearer_roll(week(30, 2, seed=6).problem)
    cut = tuple(replace(o, after=()) if o.id.startswith("roll") else o for o in problem.operations)
    rolls = {o.modes[0].machine: o.id for o in cut if o.id.startswith("roll")}
    pins = tuple(Pin(work, machine, running=True) for machine, work in rolls.items())
    few = tuple(replace(one, people=2) for one in problem.staffing)
    t = tables(replace(problem, operations=cut, pins=pins, staffing=few))
    order = np.array(running_first(t, date_order(t)))
    machine = np.array([min(minutes) for minutes in t.minutes])
    for seed in range(3):
        *best, _, ticks = search(
            order.copy(), machine.copy(), *able_machines(t), 4_000, 20_000.0, 100.0, seed, MOST, *pack(t)
        )
        timed = time_order(t, best[0].tolist(), best[1].tolist())
        assert ticks == timed.total + 1_000_000 * timed.broken


def test_the_search_keeps_a_pinned_start() -> None:
    problem = replace(week(12, 1).problem, pins=(Pin("roll 4", start=4 * 1440 + 400),))
    t = tables(problem)
    found = fast_search(t, in_order(t, date_order(t)), Stop(iterations=3000), seed=1).best
    assert found.broken == 0
    assert found.start[[o.id for o in problem.operations].index("roll 4")] == 4 * 1440 + 400


def one_row_problem(seed: int, n: int) -> SequenceProblem:
    chance = random.Random(seed)
    names = [str(k) for k in range(n)]
    setups = np.array([[chance.randint(0, 50) for _ in names] for _ in range(n + 1)], dtype=np.int64)
    return SequenceProblem(
        (Machine("roll", "roll", LONG),),
        tuple(
            Operation(k, k, (Mode("roll", chance.randint(20, 160)),), chance.choice((0, 300))) for k in names
        ),
        tuple(Job(k, chance.randint(100, 1800), Decimal(chance.randint(0, 3))) for k in names),
        {"roll": setups},
        rates=PlanRates(Decimal("0.5")),
    )


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(4))
def test_one_row_search_finds_the_best_order_over_breaks_and_nights(seed: int) -> None:
    problem = one_row_problem(seed, 6)
    t = tables(problem)
    assert is_one_row(t)
    found = one_row_search(t, in_order(t, date_order(t)), Stop(iterations=100))
    assert found.best.score == best_of_all(problem)


def test_one_row_is_told_from_what_only_looks_like_it() -> None:
    problem = one_row_problem(0, 6)
    pause = tuple(replace(o, may_pause=False) for o in problem.operations)
    assert not is_one_row(tables(replace(problem, operations=pause)))
    assert not is_one_row(tables(replace(problem, pins=(Pin("1", before="2"),))))
    assert not is_one_row(tables(replace(problem, aim=Aim.DATES_FIRST)))
    overtime = (Machine("roll", "roll", (*LONG[:-1], Window(2880, 3360, Decimal(1)))),)
    assert is_one_row(tables(replace(problem, machines=overtime)))
    assert not is_one_row(tables(replace(problem, machines=overtime), frozenset({("roll", 2880)})))
