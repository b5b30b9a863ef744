"""Every price of the demo orders is borne out to the cent by a second reckoning, and no figure can be changed
without its saying so."""

from __future__ import annotations

import json
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from tests.quoting.conftest import DEMO
from tests.quoting.price_again import Book, differences

Path_ = tuple[str | int, ...]


@pytest.fixture(scope="module")
def record(demo_quote: Path) -> dict[str, Any]:
    """The record of the three demo sheets, as the command writes it."""
    found: dict[str, Any] = json.loads((demo_quote / "result.json").read_text(encoding="utf-8"))
    return found


@pytest.fixture(scope="module")
def book() -> Book:
    return Book(DEMO / "shop")


@pytest.mark.slow
def test_every_price_of_the_demo_orders_is_borne_out_to_the_cent(record: dict[str, Any], book: Book) -> None:
    priced = [line for line in record["lines"] if line["state"] == "priced"]
    assert len(priced) >= 45
    assert {line["place"]["file"] for line in priced} == {order["file"] for order in record["orders"]}
    assert list(differences(record, book)) == []


def _figures(value: Any, path: Path_ = ()) -> Iterator[tuple[Path_, Any]]:
    """Every number, amount and yes or no below a place of the record."""
    if isinstance(value, dict | list):
        for key, inner in value.items() if isinstance(value, dict) else enumerate(value):
            yield from _figures(inner, (*path, key))
    elif isinstance(value, bool | int | float) or (isinstance(value, str) and _is_amount(value)):
        yield path, value


def _is_amount(text: str) -> bool:
    return text.replace(".", "", 1).replace("-", "", 1).isdigit()


def _wrong(value: Any) -> Any:
    """A cent more, a piece more, the other answer."""
    if isinstance(value, bool):
        return not value
    return str(Decimal(value) + Decimal("0.01")) if isinstance(value, str) else value + 1


def _attacks(record: dict[str, Any]) -> Iterator[tuple[Path_, Any]]:
    """Every figure of a price: of lines one of each kind, of the plates and of the orders all."""
    kinds = set()
    for k, line in enumerate(record["lines"]):
        if line["state"] != "priced":
            continue
        kind = (line["shape"]["kind"], line["family"] == "carbon", line["drivers"]["certificate"])
        if kind not in kinds:
            kinds.add(kind)
            for name in ("price", "drivers"):
                yield from _figures(line[name], ("lines", k, name))
            for m in range(len(line["breaks"])):
                yield from _figures(line["breaks"][m], ("lines", k, "breaks", m))
    for k, group in enumerate(record["nest"]):
        for m, plate in enumerate(group["plates"]):
            yield ("nest", k, "plates", m, "price"), plate["price"]
            for n, drop in enumerate(plate["drops"]):
                yield ("nest", k, "plates", m, "drops", n, "value"), drop["value"]
    for k, order in enumerate(record["orders"]):
        yield from _figures(order["total"], ("orders", k, "total"))


@pytest.mark.slow
def test_no_figure_of_a_price_can_be_changed_unseen(record: dict[str, Any], book: Book) -> None:
    tried = 0
    for path, value in list(_attacks(record)):
        place: Any = record
        for key in path[:-1]:
            place = place[key]
        place[path[-1]] = _wrong(value)
        try:
            assert any(differences(record, book)), (
                f"{path} = {_wrong(value)!r} instead of {value!r} is not seen"
            )
        finally:
            place[path[-1]] = value
        tried += 1
    assert tried > 300


@pytest.mark.parametrize(
    ("table", "name", "value"),
    [
        ("pricing", "margin", "0.29"),
        ("pricing", "material_markup", "0.13"),
        ("pricing", "overhead_share", "0.13"),
        ("pricing", "floor_margin", "0.13"),
        ("pricing", "certificate_charge", "16"),
        ("pricing", "line_minimum", "860"),
        ("pricing", "order_minimum", "99999"),
        ("pricing", "tax_share", "0.07"),
        ("rates", "operator_per_hour", "43"),
        ("rates", "helper_per_hour", "31"),
        ("rates", "setup_per_hour", "49"),
        ("rates", "crane_per_hour", "19"),
        ("cutting", "cost_per_ft", "0.60"),
        ("cutting", "cost_per_pierce", "0.45"),
        ("cutting", "cost_per_stroke", "0.70"),
        ("cutting", "rate_per_hour", "56"),
        ("cutting", "drop_value_share", "0.4"),
        ("labour", "cutting_per_plate_min", "10"),
        ("setups", "first_off_min", "7"),
    ],
)
def test_another_rate_makes_another_price(record: dict[str, Any], table: str, name: str, value: str) -> None:
    book = Book(DEMO / "shop")
    book.settings[table][name] = Decimal(value)
    assert any(differences(record, book))
