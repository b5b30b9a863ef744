"""The costing book worked out again by a spreadsheet program: same prices, and inputs that drive them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from decimal import ROUND_HALF_UP, Decimal
from pathlib import Path
from typing import Any

import pytest
from openpyxl.workbook import Workbook

from quoting.books import write_costing
from quoting.books.costing import FIRST_ROW, INDEX
from quoting.estimating import LineResult
from quoting.pricing import CostDrivers, price_line, total_order
from quoting.shop import Shop
from tests.office import recalculated
from tests.quoting.books import factories
from tests.quoting.books.package import book, named

CENT = Decimal("0.01")


@dataclass(frozen=True)
class Change:
    """One input changed in the book, and the same change made in the shop or the drivers."""

    name: str
    value: object
    shop: Callable[[Shop], Shop] = lambda shop: shop
    drivers: Callable[[CostDrivers], CostDrivers] = lambda drivers: drivers


def _rates(**changes: Any) -> Callable[[Shop], Shop]:
    return lambda shop: replace(shop, rates=replace(shop.rates, **changes))


def _rules(**changes: Any) -> Callable[[Shop], Shop]:
    return lambda shop: replace(shop, pricing=replace(shop.pricing, **changes))


def _dearer(drivers: CostDrivers) -> CostDrivers:
    more = Decimal("1.08")
    return replace(drivers, plate_cost=drivers.plate_cost * more, drop_credit=drivers.drop_credit * more)


CHANGES = (
    Change("operator_hour", 61.5, _rates(operator_hour=Decimal("61.5"))),
    Change("helper_hour", 35.25, _rates(helper_hour=Decimal("35.25"))),
    Change("setup_hour", 90, _rates(setup_hour=Decimal(90))),
    Change("crane_hour", 33, _rates(crane_hour=Decimal(33))),
    Change("margin", 0.41, _rules(margin=Decimal("0.41"))),
    Change("overhead_share", 0.2, _rules(overhead_share=Decimal("0.2"))),
    Change("material_markup_share", 0.3, _rules(material_markup=Decimal("0.3"))),
    Change("line_minimum", 1999, _rules(line_minimum=Decimal(1999))),
    Change("rounding", 5, _rules(rounding=Decimal(5))),
    Change("certificate_charge", 77, _rules(certificate_charge=Decimal(77))),
    Change("drop_owner", "customer", _rules(drop_owner="customer")),
    Change("floor_margin", 0.35, _rules(floor_margin=Decimal("0.35"))),
    Change("order_minimum", 1500, _rules(order_minimum=Decimal(1500))),
    Change("tax_share", 0.19, _rules(tax_share=Decimal("0.19"))),
    Change("roll_rate_1", 71, drivers=lambda drivers: replace(drivers, roll_rate=Decimal(71))),
    Change("plate_change", 0.08, drivers=_dearer),
)


@pytest.fixture(scope="module")
def books(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Workbook]:
    """The book as written and with each input changed, all worked out again in one go."""
    folder = tmp_path_factory.mktemp("recalculated")
    first = folder / "as-written.xlsx"
    write_costing(factories.run(), first)
    paths = [first]
    for change in CHANGES:
        workbook = book(first)
        named(workbook, change.name).value = change.value  # type: ignore[assignment]
        paths.append(folder / f"{change.name}.xlsx")
        workbook.save(paths[-1])
    made = recalculated(paths, folder / "out")
    return {path.stem: book(path, values=True) for path in made}


def _priced() -> list[LineResult]:
    return [result for result in factories.run().lines if result.price]


def _shown(workbook: Workbook, position: int, name: str) -> Any:
    return workbook["Lines"].cell(FIRST_ROW + position + 1, INDEX[name] + 1).value


def _money(value: object) -> Decimal:
    return Decimal(str(value)).quantize(CENT, ROUND_HALF_UP)


@pytest.mark.slow
def test_recalculation_gives_every_price_to_the_cent(books: dict[str, Workbook]) -> None:
    workbook = books["as-written"]
    for position, result in enumerate(_priced()):
        assert result.price is not None
        assert _money(_shown(workbook, position, "unit")) == result.price.unit
        assert _money(_shown(workbook, position, "extended")) == result.price.extended
    for row, order in enumerate(factories.run().orders, 5):
        assert _money(workbook["Orders"].cell(row, 10).value) == order.total.total


def test_recalculation_changes_no_value_of_the_book(books: dict[str, Workbook], tmp_path: Path) -> None:
    """What a preview shows is what a spreadsheet program works out, on every sheet."""
    write_costing(factories.run(), tmp_path / "c.xlsx")
    formulas, shown = book(tmp_path / "c.xlsx"), book(tmp_path / "c.xlsx", values=True)
    again = books["as-written"]
    compared = 0
    for sheet in formulas.worksheets:
        for row in sheet.iter_rows():
            for cell in row:
                if cell.data_type != "f":
                    continue
                before = shown[sheet.title][cell.coordinate].value
                after = again[sheet.title][cell.coordinate].value
                where = f"{sheet.title}!{cell.coordinate}"
                if isinstance(before, str):
                    assert after == before, where
                else:
                    assert after == pytest.approx(before, abs=1e-6), where
                compared += 1
    assert compared > 300


@pytest.mark.parametrize("change", CHANGES, ids=[change.name for change in CHANGES])
def test_a_changed_input_gives_the_price_of_the_changed_setting(
    change: Change, books: dict[str, Workbook]
) -> None:
    shop = change.shop(factories.shop())
    workbook = books[change.name]
    prices = []
    for position, result in enumerate(_priced()):
        assert result.drivers is not None
        price = price_line(change.drivers(result.drivers), shop.rates, shop.pricing, shop.cutting)
        prices.append(price)
        assert _money(_shown(workbook, position, "unit")) == price.unit, result.line.id
        assert _shown(workbook, position, "under_floor") == ("UNDER FLOOR" if price.under_floor else "kept")
    first = factories.run().orders[0]
    count = sum(result.price is not None for result in first.lines)
    assert _money(workbook["Orders"].cell(5, 10).value) == total_order(prices[:count], shop.pricing).total
