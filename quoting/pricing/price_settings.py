"""The settings that prices are built from, by the names that the formulas and the costing book give them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal
from typing import Any

from quoting.pricing.inputs import DROP_OWNERS
from quoting.shop import Shop

_RATES = {
    "operator_hour": "operator_hour",
    "helper_hour": "helper_hour",
    "setup_hour": "setup_hour",
    "crane_hour": "crane_hour",
    "bench_hour": "bench_hour",
    "welder_hour": "welder_hour",
    "outside_markup_share": "outside_markup",
}
_RULES = {
    "material_markup_share": "material_markup",
    "overhead_share": "overhead_share",
    "margin": "margin",
    "floor_margin": "floor_margin",
    "line_minimum": "line_minimum",
    "rounding": "rounding",
    "certificate_charge": "certificate_charge",
    "order_minimum": "order_minimum",
    "tax_share": "tax_share",
}
KEEPS_DROP = "shop_keeps_drop"
EDGE = "edge_cost_per_m"


def roll_rate_name(number: int) -> str:
    """Return the name of a roll's rate, rolls numbered from 1 in the shop's own order."""
    return f"roll_rate_{number}"


def settings_of(shop: Shop) -> dict[str, Decimal]:
    """Return every setting by name: rates, rules, edge cost, who keeps the drop (1 the shop), roll rates."""
    values: dict[str, Decimal] = {name: getattr(shop.rates, field) for name, field in _RATES.items()}
    values |= {name: getattr(shop.pricing, field) for name, field in _RULES.items()}
    values[KEEPS_DROP] = Decimal(int(shop.pricing.drop_owner == DROP_OWNERS[0]))
    values[EDGE] = shop.cutting.edge_prep_cost_per_m
    return values | {
        roll_rate_name(number): roll.rate_per_hour for number, roll in enumerate(shop.rolls, start=1)
    }


def with_settings(shop: Shop, values: Mapping[str, Decimal]) -> Shop:
    """Return the shop with these settings; names that are left out keep theirs, KeyError for unknown ones."""
    known = settings_of(shop)
    for name in values:
        if name not in known:
            raise KeyError(name)
    every = known | dict(values)
    rates: dict[str, Any] = {field: every[name] for name, field in _RATES.items()}
    rules: dict[str, Any] = {field: every[name] for name, field in _RULES.items()}
    return replace(
        shop,
        rates=replace(shop.rates, **rates),
        pricing=replace(
            shop.pricing,
            **rules,
            drop_owner=DROP_OWNERS[0] if every[KEEPS_DROP] else DROP_OWNERS[1],
        ),
        cutting=replace(shop.cutting, edge_prep_cost_per_m=every[EDGE]),
        rolls=tuple(
            replace(roll, rate_per_hour=every[roll_rate_name(number)])
            for number, roll in enumerate(shop.rolls, start=1)
        ),
    )
