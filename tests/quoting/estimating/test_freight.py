"""Freight: ex works unless the book has rates; a shell goes by the air inside it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from quoting.estimating import estimate, freight_of
from quoting.shop import Shop
from quoting.shop.model import FreightRules
from tests.quoting.lines import order, shell


def with_rates(shop: Shop, **rates: Decimal) -> Shop:
    return replace(shop, operations=replace(shop.operations, freight=FreightRules(**rates)))


def test_without_rates_there_is_no_freight(shop: Shop) -> None:
    found = estimate([order(shell("A-1"))], shop, today=date(2026, 11, 30), effort="quick")
    assert freight_of(found.lines, shop) is None


def test_a_shell_goes_by_its_box_and_a_heavy_rate_by_weight(shop: Shop) -> None:
    found = estimate([order(shell("A-1", quantity=2))], shop, today=date(2026, 11, 30), effort="quick")
    by_volume = freight_of(found.lines, with_rates(shop, per_m3=Decimal(100)))
    assert by_volume
    assert by_volume.by_volume
    # 762 mm outside, 1219.2 mm long, two of them.
    assert by_volume.volume_m3 == pytest.approx(2 * 0.762**2 * 1.2192, rel=1e-6)
    assert by_volume.cost == Decimal("141.58")
    by_weight = freight_of(found.lines, with_rates(shop, per_kg=Decimal(1), per_m3=Decimal(1)))
    assert by_weight
    assert not by_weight.by_volume
    assert by_weight.cost == pytest.approx(Decimal(str(by_weight.weight_kg)), abs=Decimal("0.01"))
    least = freight_of(found.lines, with_rates(shop, per_kg=Decimal("0.01"), least=Decimal(75)))
    assert least
    assert least.cost == 75
