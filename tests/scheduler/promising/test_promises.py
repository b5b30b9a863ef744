"""A promised day: later on a loaded floor, later the surer it has to be, and what a rush costs the others."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from quoting.shop import PromiseSettings, Shop
from scheduler.promising import OpenQuote, PromiseAsked, promises_and_rushes, wanted_level, win_chance
from scheduler.promising.present_order import present_order
from scheduler.promising.promise import promises
from scheduler.replanning import Floor, Published, ReplanRules, published_of, replan
from scheduler.sequence import Drawn, drawn_ends, time_order
from tests.scheduler.replanning.floors import MONDAY, facts, floor

ORDER_BY = date(2026, 12, 2)


@pytest.fixture(scope="module")
def shop(shop: Shop) -> Shop:
    return replace(shop, promise=replace(shop.promise, draws=100))


@pytest.fixture(scope="module")
def loaded(shop: Shop) -> tuple[Floor, Published]:
    """Forty jobs, planned on Monday morning."""
    monday = floor(40, 11, shop)
    plan = replan(monday, shop, None, {}, ReplanRules(shop.pricing.line_minimum, 4.0, "quick"))
    return monday, published_of(plan.week, MONDAY, facts(monday))


def quote(name: str, seed: int, shop: Shop, chance: float = 0.5, lines: int = 3) -> OpenQuote:
    jobs = floor(lines, seed, shop)
    plates = tuple(replace(plate, id=f"{name} {plate.id}") for plate in jobs.plates)
    made = tuple(
        replace(
            job.line,
            id=f"{name}-{job.line.number}",
            due=None,
            plates=tuple(f"{name} {plate}" for plate in job.line.plates),
            blanks_on={},
        )
        for job in jobs.jobs
    )
    return OpenQuote(name, made, plates, ORDER_BY, chance)


def asked(
    shop: Shop, loaded: tuple[Floor, Published], *others: OpenQuote, level: float = 0.9
) -> PromiseAsked:
    quotes = (*others, quote("Q", 5, shop))
    return PromiseAsked(loaded[0], loaded[1], quotes, frozenset("Q"), shop, level=0.9)


def last(ask: PromiseAsked) -> date:
    return max(one.safe for one in promises(ask).values())


def together(ask: PromiseAsked) -> int:
    """The safe days of all lines, added up."""
    return sum(one.safe.toordinal() for one in promises(ask).values())


def test_the_days_of_a_quote_are_the_same_each_time_and_stand_in_order(
    shop: Shop, loaded: tuple[Floor, Published]
) -> None:
    found = promises(asked(shop, loaded))
    assert list(found) == ["Q-1", "Q-2", "Q-3"]
    assert all(one.earliest <= one.safe and one.order_by == ORDER_BY for one in found.values())
    assert found == promises(asked(shop, loaded))


def test_an_empty_floor_promises_sooner_and_a_surer_day_is_later(
    shop: Shop, loaded: tuple[Floor, Published]
) -> None:
    usual = asked(shop, loaded)
    empty = replace(usual, floor=replace(loaded[0], jobs=(), plates=()), published=None)
    assert together(empty) < together(usual)
    assert together(replace(usual, level=0.5)) < together(usual) < together(replace(usual, level=1.2))


def test_quotes_that_are_sure_to_be_won_push_the_day_and_lost_ones_do_not(
    shop: Shop, loaded: tuple[Floor, Published]
) -> None:
    def with_others(chance: float) -> int:
        others = [quote(f"R{k}", 20 + k, shop, chance, lines=8) for k in range(3)]
        return together(asked(shop, loaded, *others))

    assert with_others(0.0) < with_others(1.0)


def test_a_rush_is_sooner_and_costs_what_the_others_lose(shop: Shop, loaded: tuple[Floor, Published]) -> None:
    behind = [quote(f"R{k}", 20 + k, shop, 1.0, lines=8) for k in range(3)]
    ask = asked(shop, loaded, *behind)
    days, rushes = promises_and_rushes(ask)
    rush = rushes["Q"]
    assert rush.safe < last(ask)
    assert rush.cost >= 0
    assert days == promises(ask)


def test_where_nothing_goes_otherwise_the_draws_end_as_the_plan_does(
    shop: Shop, loaded: tuple[Floor, Published]
) -> None:
    present = present_order(asked(shop, loaded))
    t = present.tables
    shape = (2, t.size)
    lags = [lag for waits in t.before for _, lag in waits]
    plain = Drawn(
        np.ones(shape), np.ones(shape), np.zeros(shape, np.int64), np.tile(np.array(t.release), (2, 1)),
        np.tile(np.array(lags), (2, 1)), np.ones(shape, np.bool_),
    )  # fmt: skip
    ends = drawn_ends(t, plain, present.timed.start, present.timed.machine)
    again = time_order(t, sorted(range(t.size), key=lambda i: present.timed.start[i]), present.timed.machine)
    expected = [0] * len(t.due)
    for i, job in enumerate(t.job):
        expected[job] = max(expected[job], again.end[i])
    assert ends.tolist() == [expected, expected]


def test_missed_promises_make_the_next_day_safer_and_kept_ones_sharper() -> None:
    usual = PromiseSettings()
    assert wanted_level([False] * 3, usual) > usual.kept_share > wanted_level([True] * 30, usual)
    nine_of_ten = ([True] * 9 + [False]) * 20
    assert wanted_level(nine_of_ten, usual) == pytest.approx(usual.kept_share, abs=0.02)


@pytest.mark.parametrize(
    "spread", [(-0.2, 0.8), (0.0, 1.0), (0.3, 1.2)], ids=["too safe", "right", "too bold"]
)
def test_whatever_the_draws_leave_out_nine_of_ten_promises_of_a_year_are_kept(
    spread: tuple[float, float],
) -> None:
    """Draws that are wrong to either side, and eighty promises open before one is known to be kept."""
    usual, rng = PromiseSettings(), np.random.default_rng(2)
    kept: list[bool] = []
    for week in range(125):
        level = wanted_level(kept[: max(0, week - 4) * 20], usual)
        kept += list(rng.uniform(*spread, 20) < level)
    assert 0.88 < np.mean(kept) < 0.92


def test_the_share_of_won_quotes_counts_once_enough_are_decided() -> None:
    usual = PromiseSettings()
    assert win_chance(9, 0, usual) == usual.win_chance
    assert win_chance(15, 5, usual) == 0.75
