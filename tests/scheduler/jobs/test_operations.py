"""Won lines become operations the way the work goes through the shop."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from quoting.shop import Shop
from scheduler.jobs import DAY_MIN, make_jobs, make_work, setup_matrix
from scheduler.jobs.won_lines import RollChoice
from scheduler.sequence import per_minute
from tests.scheduler.conftest import PLATE, won

MONDAY = date(2026, 11, 30)


def test_a_line_is_rolled_after_the_last_plate_that_holds_its_blanks(shop: Shop) -> None:
    second = replace(PLATE, id="P-1 #2")
    works = make_work([won("A-1", plates=(PLATE.id, second.id))], [PLATE, second], shop)
    rolling = works[-1].operation
    assert [work.operation.id for work in works] == ["cut P-1 #1", "cut P-1 #2", "roll A-1"]
    assert [after.operation for after in rolling.after] == ["cut P-1 #1", "cut P-1 #2"]


def test_a_bought_plate_is_cut_when_it_is_in_the_house(shop: Shop) -> None:
    works = make_work([won("A-1")], [replace(PLATE, here_in_days=5)], shop)
    assert works[0].operation.release == 5 * DAY_MIN


def test_re_rounding_comes_back_from_welding_later_on(shop: Shop) -> None:
    line = won("A-1", re_round=True, choices=(RollChoice("Medium 10 ft", 60.0, 20.0),))
    rolled, again = make_work([line], [PLATE], shop)[1:]
    assert rolled.operation.modes[0].minutes == 40
    assert again.operation.modes[0].minutes == 20
    assert again.operation.after[0].operation == "roll A-1"
    assert again.operation.after[0].lag == shop.working_time.weld_days * DAY_MIN


def test_a_line_is_due_at_the_end_of_its_day_and_a_dateless_one_costs_nothing(shop: Shop) -> None:
    jobs = make_jobs([won("A-1", due=date(2026, 12, 1)), won("A-2", due=None)], [], MONDAY, shop)
    assert jobs[0].due == 2 * DAY_MIN
    assert jobs[0].weight > 0
    assert jobs[1].weight == 0


def test_set_ups_are_worked_out_only_where_a_roll_can_do_the_job(shop: Shop) -> None:
    works = make_work([won("A-1"), won("A-2", thickness_mm=9.525)], [PLATE], shop)
    medium = setup_matrix(works, shop.roll("Medium 10 ft"), shop.setups)
    light = setup_matrix(works, shop.roll("Light 5 ft"), shop.setups)
    assert medium.shape == (4, 3)
    assert medium[2, 2] > 0
    assert not medium[:, 0].any(), "cutting needs no roll set-up"
    assert not light.any()


def test_a_dearer_roll_costs_what_its_hours_cost_more_than_the_cheapest_able_one(shop: Shop) -> None:
    choices = (RollChoice("Heavy 10 ft", 80.0, 20.0), RollChoice("Medium 10 ft", 65.0, 20.0))
    works = make_work([won("A-1", re_round=True, choices=choices)], [PLATE], shop)
    more = shop.roll("Heavy 10 ft").rate_per_hour - shop.roll("Medium 10 ft").rate_per_hour
    assert more > 0
    assert [(m.minutes, m.cost) for m in works[1].operation.modes] == [(60, more), (45, 0)]
    assert [m.cost for m in works[2].operation.modes] == [per_minute(more * 20, 60), 0]
