"""The search of whole plans that mixes what several searches found."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest

from scheduler.sequence import HeldPlaces, Pin, Tables, Timed, overtime_windows, tables
from scheduler.sequence.checked_plan import finish
from scheduler.sequence.checker import check
from scheduler.sequence.rules.dispatch import apparent_tardiness_cost, date_order, in_order
from scheduler.sequence.search import Mixing, mixed_from, mixed_search
from scheduler.sequence.search.fast import MOST
from scheduler.sequence.search.mixing import _order_of, _Plans, _Whole
from scheduler.sequence.search.packing import NOTHING_HELD
from scheduler.sequence.stop import Stop
from tests.scheduler.sequence.weeks import week

STOP = Stop(iterations=6_000)


def test_a_mixed_search_is_repeatable_on_any_number_of_cores_and_its_plan_passes_the_checker(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    problem = week(20, 2, seed=7).problem
    t = tables(problem)
    start = apparent_tardiness_cost(t)
    found = []
    for workers in ("1", "3"):
        monkeypatch.setenv("ROLLWRIGHT_WORKERS", workers)
        found.append(mixed_search(t, start, STOP, 3, Mixing(3, start.total)))
    assert found[0].best == found[1].best
    assert found[0].best.score < start.score
    assert found[0].tables is not None
    assert check(problem, finish(found[0].tables, found[0].best, "mixed")) == ()


def test_a_mixture_has_every_operation_once_on_a_machine_of_one_of_the_two_and_what_runs_first() -> None:
    problem = replace(week(20, 2, seed=8).problem, pins=(Pin("cut 3", running=True),))
    t = tables(problem, frozenset((m, w.start) for m, w in overtime_windows(week(20, 2).problem)))
    start = apparent_tardiness_cost(t)
    plans = _Plans(_Whole(t, start.total, NOTHING_HELD))
    one = plans.timed(*_order_of(t, start))
    other = plans.searched(one, 500, 1, 1e6)
    assert one.value == start.total + 1_000_000 * start.broken
    chance = random.Random(0)
    for _ in range(30):
        mixed = plans.mixed(one, other, chance)
        assert sorted(mixed.order) == list(range(t.size))
        assert t.running[mixed.order[0]]
        assert all(m in {a, b} for m, a, b in zip(mixed.machine, one.machine, other.machine, strict=True))
        assert plans.timed(mixed.order, mixed.machine, mixed.opened).value == mixed.value


def test_mixed_from_several_plans_none_is_lost_and_what_is_held_dear_stays_where_it_was() -> None:
    problem = week(20, 2, seed=9).problem
    every = tables(problem, frozenset((m, w.start) for m, w in overtime_windows(problem)))
    starts = [(t, date_order_timed(t)) for t in (tables(problem), every)]
    starts.append((starts[0][0], apparent_tardiness_cost(starts[0][0])))
    least = min(timed.total for _, timed in starts)
    found = mixed_from(starts, STOP, 1, Mixing(3, least))
    assert found[0][1].total <= least
    assert found == mixed_from(starts, STOP, 1, Mixing(3, least))
    for t, timed in found:
        assert check(problem, finish(t, timed, "mixed")) == ()
    t, timed = starts[2]
    held = HeldPlaces({i: (timed.machine[i], timed.start[i], timed.start[i], 10**9) for i in range(t.size)})
    (_, kept), *_ = mixed_from(starts, STOP, 1, Mixing(3, least, held))
    assert (kept.machine, kept.start) == (timed.machine, timed.start)


def test_each_job_away_beyond_so_many_costs_more_and_the_search_counts_them_as_the_timing_does() -> None:
    problem = week(12, 2, seed=9).problem
    t = tables(problem)
    start = apparent_tardiness_cost(t)
    places = {i: (start.machine[i], start.start[i], start.start[i], 0) for i in range(t.size)}
    nowhere = {i: (m, -1, -1, 0) for i, (m, _, _, _) in places.items()}
    for most in (0, 5, len(t.due)):
        plans = _Plans(_Whole(t, start.total, HeldPlaces(nowhere, most, 100)))
        away = max(0, len(t.due) - most)
        assert plans.timed(*_order_of(t, start)).value == _free(t, start) + 100 * away
        plans = _Plans(_Whole(t, start.total, HeldPlaces(places, most, 50_000)))
        begun = plans.timed(*_order_of(t, start))
        assert begun.value == _free(t, start)
        order, machine, opened, value = plans.search(
            begun.order.copy(), begun.machine.copy(), *plans.able, 3_000, 1e5, 10.0, 1, MOST, *plans.packed
        )
        assert plans.timed(order, machine, opened).value == value


def _free(t: Tables, timed: Timed) -> int:
    """Ticks of an order in which nothing is held."""
    return _Plans(_Whole(t, timed.total, NOTHING_HELD)).timed(*_order_of(t, timed)).value


def date_order_timed(t: Tables) -> Timed:
    return in_order(t, date_order(t))
