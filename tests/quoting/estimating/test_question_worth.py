"""What a choice is said to be worth is what the total changes by when it is chosen, plates nested anew."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from quoting.core import Order
from quoting.estimating import Estimate, estimate
from quoting.intake.answers import resolve
from quoting.intake.read_orders import read_orders
from quoting.shop import Shop, load_shop

DAY = date(2026, 12, 1)
HEAD = "Item,Qty,Dia (in),Thk (in),Length (in),Material,Ends"


@pytest.fixture(scope="module")
def shop() -> Shop:
    return load_shop(Path(__file__).parents[3] / "demo_orders" / "shop")


def _read(folder: Path, shop: Shop, *rows: str) -> Order:
    file = folder / "order.csv"
    file.write_text("\n".join((HEAD, *rows)))
    return read_orders(file, shop, today=DAY)


def _quoted(order: Order, shop: Shop) -> Estimate:
    return estimate([order], shop, today=DAY, effort="quick")


def _total(run: Estimate) -> Decimal:
    return run.orders[0].total.lines


def test_a_waiting_line_is_worth_what_it_adds_beside_the_others(tmp_path: Path, shop: Shop) -> None:
    order = _read(tmp_path, shop, "1,2,48 ID,1/4,60,A36,pre-bend", "2,3,24,1/4,36,A36,pre-bend")
    run = _quoted(order, shop)
    worths = run.worth["2/basis"]
    assert len(worths) == 3
    for worth in worths:
        answered = _quoted(resolve(order, {"2/basis": worth.label}, shop), shop)
        assert worth.price == _total(answered) - _total(run)


def test_a_priced_line_is_worth_the_difference(tmp_path: Path, shop: Shop) -> None:
    order = _read(tmp_path, shop, "1,2,48 ID,1/4,60,A36,", "2,3,24 ID,1/4,36,A36,pre-bend")
    run = _quoted(order, shop)
    worths = {worth.label: worth for worth in run.worth["all/ends"]}
    assert worths["pre-bend"].price == 0
    for label in ("leave flat", "trim after rolling"):
        answered = _quoted(resolve(order, {"all/ends": label}, shop), shop)
        assert worths[label].price == _total(answered) - _total(run)
