"""A line of several parts is rolled in two lots, unasked, exactly where the plan then costs enough less."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from decimal import Decimal

import pytest

from quoting.core import InputError
from quoting.shop import Shop
from scheduler.jobs import PlateToCut, WonLine
from scheduler.planning import PlanAsked, plan_week
from scheduler.sequence import Aim
from scheduler.week import WeekPlan
from scheduler.wishes import NO_WISHES, LineSplit, Wishes
from scheduler.wishes.wish_kinds import KeepWhole, LinePin
from tests.scheduler.conftest import PLATE, won
from tests.scheduler.cures.test_cures import HEAVY, MEDIUM, MONDAY, busy, on


def planned(
    shop: Shop,
    lines: list[WonLine],
    plates: list[PlateToCut] | None = None,
    wishes: Wishes = NO_WISHES,
    aim: Aim = Aim.MONEY,
) -> WeekPlan:
    return plan_week(PlanAsked(lines, plates or [], shop, MONDAY, wishes=wishes, aim=aim), effort="quick")


def with_hours(shop: Shop, **changes: object) -> Shop:
    return replace(shop, working_time=replace(shop.working_time, **changes))  # type: ignore[arg-type]


def lots_of(week: WeekPlan) -> dict[str, list[tuple[int, str]]]:
    """Parts and roll of each lot, by line."""
    found: dict[str, list[tuple[int, str]]] = {}
    for slot in week.slots:
        if slot.line is not None and slot.line.lot is not None:
            found.setdefault(slot.line.id, []).append((slot.line.quantity, slot.machine))
    return found


@pytest.fixture
def shop(shop: Shop) -> Shop:
    """A shop where being late is dear and there is no overtime to be had."""
    return with_hours(shop, late_cost_per_day=Decimal(1000), overtime_hours_per_day=0.0)


@pytest.fixture
def long_batch() -> list[WonLine]:
    """Five parts that take more than three days on one roll, due on the second."""
    return [
        won(
            "A-1",
            due=MONDAY + timedelta(days=1),
            quantity=5,
            plates=(),
            crew=1,
            crane=False,
            choices=on(1500.0, MEDIUM, HEAVY),
        )
    ]


@pytest.fixture
def urgent_behind_a_batch() -> tuple[list[WonLine], list[PlateToCut]]:
    """One roll; the batch must start today to be in time, the urgent line's plate comes tomorrow."""
    tomorrow = MONDAY + timedelta(days=1)
    lines = [
        won("batch", due=MONDAY + timedelta(days=3), quantity=6, plates=(), choices=on(1390.0)),
        won("urgent", due=tomorrow, plates=(PLATE.id,), choices=on(60.0)),
    ]
    return lines, [replace(PLATE, here_in_days=1)]


def test_a_late_batch_goes_on_two_rolls(shop: Shop, long_batch: list[WonLine]) -> None:
    whole = planned(with_hours(shop, batches_may_split=False), long_batch)
    week = planned(shop, long_batch)
    assert sorted(lots_of(week)["A-1"]) in (
        sorted([(3, MEDIUM), (2, HEAVY)]),
        sorted([(2, MEDIUM), (3, HEAVY)]),
    )
    saved = whole.plan.total - week.plan.total
    assert saved >= shop.working_time.least_split_saving
    assert week.notes == (
        f"In two lots: A-1 (3 of 5 first). That saves {saved:,.2f} USD (wish against it: keep_whole).",
    )


def test_a_batch_makes_way_for_what_comes_while_it_is_rolled(
    shop: Shop, urgent_behind_a_batch: tuple[list[WonLine], list[PlateToCut]]
) -> None:
    assert planned(with_hours(shop, batches_may_split=False), *urgent_behind_a_batch).late
    week = planned(shop, *urgent_behind_a_batch)
    assert set(lots_of(week)) == {"batch"}
    order = [slot.line.work_name for slot in week.on(MEDIUM) if slot.line is not None]
    assert order == ["batch lot 1", "urgent", "batch lot 2"]
    assert not week.late


@pytest.mark.slow
def test_one_line_after_the_other_is_split(
    shop: Shop, long_batch: list[WonLine], urgent_behind_a_batch: tuple[list[WonLine], list[PlateToCut]]
) -> None:
    lines, plates = urgent_behind_a_batch
    shop = with_hours(shop, shifts=tuple(replace(one, crew=6) for one in shop.working_time.shifts))
    others = [replace(line, choices=on(1500.0, HEAVY, "Light 5 ft")) for line in long_batch]
    week = plan_week(PlanAsked([*lines, *others], plates, shop, MONDAY), effort="normal")
    assert set(lots_of(week)) == {"A-1", "batch"}
    assert {machine for _, machine in lots_of(week)["batch"]} == {MEDIUM}
    whole = plan_week(
        PlanAsked([*lines, *others], plates, with_hours(shop, batches_may_split=False), MONDAY),
        effort="normal",
    )
    assert whole.plan.total - week.plan.total >= 2 * shop.working_time.least_split_saving


def test_two_lots_by_wish_leave_the_cure_of_another_line_alone(shop: Shop, long_batch: list[WonLine]) -> None:
    other = replace(long_batch[0], id="A-2")
    wishes = Wishes("w", splits=(LineSplit("A-1", "[[split]] number 1", 2),))
    week = planned(with_hours(shop, batches_may_split=False), [*long_batch, other], wishes=wishes)
    tried = {late.line.id: late.tried for late in week.late}
    assert "split" in tried["A-2"]
    assert "split" not in tried.get("A-1", ())


@pytest.mark.parametrize("changes", [{"batches_may_split": False}, {"least_split_saving": Decimal(100_000)}])
def test_the_shop_can_say_no(shop: Shop, long_batch: list[WonLine], changes: dict[str, object]) -> None:
    week = planned(with_hours(shop, **changes), long_batch)
    assert (lots_of(week), week.notes) == ({}, ())


def test_a_line_is_kept_whole_when_that_is_wished(shop: Shop, long_batch: list[WonLine]) -> None:
    wishes = Wishes("w", whole=(KeepWhole("A-1", "[[keep_whole]] number 1"),))
    week = planned(shop, long_batch, wishes=wishes)
    assert lots_of(week) == {}
    assert "split" not in week.late[0].tried


def test_a_pinned_line_stays_where_it_is_pinned(shop: Shop, long_batch: list[WonLine]) -> None:
    wishes = Wishes("w", pins=(LinePin("A-1", "[[pin]] number 1", roll=MEDIUM),))
    assert lots_of(planned(shop, long_batch, wishes=wishes)) == {}


def test_what_is_in_time_is_not_split(shop: Shop, long_batch: list[WonLine]) -> None:
    early = [replace(long_batch[0], due=MONDAY + timedelta(days=14))]
    assert lots_of(planned(shop, early)) == {}


def test_dates_first_counts_what_being_late_costs(shop: Shop, long_batch: list[WonLine]) -> None:
    week = planned(shop, long_batch, aim=Aim.DATES_FIRST)
    assert set(lots_of(week)) == {"A-1"}
    assert "USD of late money" in week.notes[0]


def test_a_wish_to_split_and_one_to_keep_whole_contradict(shop: Shop, long_batch: list[WonLine]) -> None:
    wishes = Wishes(
        "w.toml",
        splits=(LineSplit("A-1", "[[split]] number 1", 2),),
        whole=(KeepWhole("A-1", "[[keep_whole]] number 1"), KeepWhole("A-9", "[[keep_whole]] number 2")),
    )
    with pytest.raises(InputError) as raised:
        planned(shop, long_batch, wishes=wishes)
    assert "A-1 is split as well" in str(raised.value)
    assert "no line to be made is called A-9" in str(raised.value)


@pytest.mark.slow
@pytest.mark.parametrize("seed", [0, 2, 5, 9])
def test_splitting_never_costs_and_saves_what_it_must(shop: Shop, seed: int) -> None:
    lines, plates = busy(seed)
    whole = planned(with_hours(shop, batches_may_split=False), lines, plates)
    week = planned(shop, lines, plates)
    splits = len(lots_of(week))
    assert whole.plan.total - week.plan.total >= splits * shop.working_time.least_split_saving
    for line in lines:
        parts = [parts for parts, _ in lots_of(week).get(line.id, [])]
        assert sum(parts) in (0, line.quantity)
    assert bool(week.notes) == bool(splits)
