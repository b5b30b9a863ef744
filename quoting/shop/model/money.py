"""Rates, the rules of pricing, and when a line is called risky."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal


@dataclass(frozen=True, slots=True)
class Rates:
    """Money per hour and per event."""

    currency: str
    operator_hour: Decimal
    helper_hour: Decimal
    setup_hour: Decimal
    crane_hour: Decimal
    outside_markup: Decimal
    bench_hour: Decimal = Decimal(0)
    welder_hour: Decimal = Decimal(0)


@dataclass(frozen=True, slots=True)
class PricingRules:
    """How a price grows out of a cost. Shares are fractions: 0.30 is thirty per cent.

    An order that adds up to more than `ask_above_total` is asked about: give about a hundred times the
    largest order ever quoted.
    """

    overhead_share: Decimal
    margin: Decimal
    floor_margin: Decimal
    line_minimum: Decimal
    order_minimum: Decimal
    material_markup: Decimal
    drop_owner: str
    break_quantities: tuple[int, ...]
    rounding: Decimal
    validity_days: int
    tax_share: Decimal
    tax_name: str
    certificate_charge: Decimal
    expedite_share: Decimal
    ask_above_total: Decimal = Decimal(1_000_000)


@dataclass(frozen=True, slots=True)
class RiskSettings:
    """When a line is called risky, and how far set-up and delivered plate scatter; all examples.

    `heavy_kg` is one piece, `thin_wide` width over thickness, `loss_chance` the chance of losing money worth
    a word. A set-up takes `setup_least_share` to `setup_most_share` of its typical minutes. Plate comes
    `thickness_under_mm` under to `thickness_over_mm` over its nominal thickness. Of a lost free-issue plate
    the shop owes `free_issue_owed_share` of its value at the grade's price.

    When a roll proves too weak for the plate, another set-up and `trouble_redo_share` of the rolling are done
    on another one; that, times its chance and `trouble_weight`, counts when the roll is chosen. A roll with a
    greater chance than `most_trouble_chance` is taken only where no other can.
    """

    heavy_kg: float = 1000.0
    thin_wide: float = 300.0
    loss_chance: float = 0.10
    setup_least_share: float = 0.7
    setup_most_share: float = 1.8
    thickness_under_mm: float = 0.25
    thickness_over_mm: float = 0.75
    free_issue_owed_share: float = 0.0
    draws: int = 10_000
    trouble_weight: float = 1.0
    trouble_redo_share: float = 1.0
    most_trouble_chance: float = 0.25
