"""The owner's page: what the run earns, where it is thin, and who allowed what."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

from quoting.books import write_costing
from quoting.estimating import Estimate, with_risk
from quoting.estimating.result import Override
from quoting.pricing import priced_at
from tests.quoting.books import factories
from tests.quoting.books.package import book, texts


def _owner(run: Estimate, folder: Path) -> list[tuple[object, ...]]:
    write_costing(run, folder / "c.xlsx")
    sheet = book(folder / "c.xlsx", values=True)["Owner"]
    return list(sheet.iter_rows(values_only=True))


def _below(rows: list[tuple[object, ...]], heading: str) -> list[tuple[object, ...]]:
    start = next(index for index, row in enumerate(rows) if str(row[0]).startswith(heading)) + 1
    end = next(index for index in range(start, len(rows) + 1) if index == len(rows) or rows[index][0] is None)
    return rows[start:end]


def test_customers_add_up_to_all(tmp_path: Path) -> None:
    rows = _below(_owner(factories.run(), tmp_path), "Customer")
    *customers, every = rows
    assert every[0] == "All"
    for column in (1, 2, 3, 6):
        parts = [float(str(row[column])) for row in customers]
        assert sum(parts) == pytest.approx(float(str(every[column])))


def test_profit_an_hour_is_profit_over_roll_hours_with_set_up(tmp_path: Path) -> None:
    for row in _below(_owner(factories.run(), tmp_path), "Lines, weakest first"):
        profit, hours, an_hour = (float(str(row[column])) for column in (3, 6, 7))
        assert an_hour == pytest.approx(profit / hours)


def test_the_weakest_line_stands_first(tmp_path: Path) -> None:
    rows = _below(_owner(factories.run(), tmp_path), "Lines, weakest first")
    earned = [float(str(row[7])) for row in rows]
    assert earned == sorted(earned)
    assert len(rows) == 7


def test_a_line_under_the_floor_says_why_it_was_allowed(tmp_path: Path) -> None:
    run = factories.run()
    order = run.orders[0]
    first = order.lines[0]
    assert first.price is not None
    cheap = priced_at(first.price, Decimal("2.00"))
    allowed = replace(first, price=cheap, override=Override("first order of a new customer", Decimal("2.00")))
    silent = replace(order.lines[1], price=priced_at(order.lines[1].price or first.price, Decimal("1.00")))
    lines = (allowed, silent, *order.lines[2:])
    changed = replace(run, orders=(replace(order, lines=lines), *run.orders[1:]))
    write_costing(changed, tmp_path / "c.xlsx")
    said = " ".join(texts(book(tmp_path / "c.xlsx", values=True), "Owner"))
    assert "2 lines are sold under the floor of 11.9%" in said
    assert "Why: first order of a new customer" in said
    assert "No reason is written." in said


def test_the_lines_likeliest_to_lose_money_stand_with_chance_and_reasons(tmp_path: Path) -> None:
    run = with_risk(factories.run())
    risks = [result.risk for result in run.lines if result.risk and result.risk.cost.loss_chance > 0]
    assert risks, "the invented run needs a line that may lose money"
    rows = _below(_owner(run, tmp_path), "Likeliest to lose money")
    assert [row[4] for row in rows] == sorted((risk.cost.loss_chance for risk in risks), reverse=True)[:6]
