"""Plate is wanted on days when somebody is there to cut it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from quoting.estimating import estimate
from quoting.shop import Shop
from quoting.shop.model.working_time import Closure
from tests.quoting.lines import order, shell


@pytest.mark.parametrize(
    ("due", "wanted"),
    [
        (date(2026, 12, 18), date(2026, 12, 11)),  # a week before: a Friday
        (date(2026, 12, 20), date(2026, 12, 11)),  # a Sunday
        (date(2026, 12, 16), date(2026, 12, 4)),  # a Wednesday in the stocktaking, which begins on a Monday
        (date(2026, 12, 2), date(2026, 11, 30)),  # never before the day of the quote
    ],
)
def test_plate_is_cut_on_the_last_day_that_the_shop_works(shop: Shop, due: date, wanted: date) -> None:
    shut = Closure(date(2026, 12, 7), date(2026, 12, 9), "Stocktaking")
    one = Closure(date(2026, 12, 10), date(2026, 12, 11), "Roll stands", machine=shop.rolls[0].name)
    book = replace(shop.working_time, closures=(shut, one))
    found = estimate(
        [order(shell("A-1", due=due))],
        replace(shop, working_time=book),
        today=date(2026, 11, 30),
        effort="quick",
    )
    (group,) = found.nests
    assert {piece.cut_by for piece in group.problem.pieces} == {wanted}
