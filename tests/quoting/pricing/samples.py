"""An invented shop's rates and rules, and a line whose price can be worked out on paper."""

from __future__ import annotations

from decimal import Decimal

from quoting.pricing import CostDrivers
from quoting.shop import Cutting, PricingRules, Rates

RATES = Rates(
    currency="USD",
    operator_hour=Decimal(38),
    helper_hour=Decimal(27),
    setup_hour=Decimal(80),
    crane_hour=Decimal(24),
    outside_markup=Decimal("0.10"),
)

RULES = PricingRules(
    overhead_share=Decimal("0.25"),
    margin=Decimal("0.24"),
    floor_margin=Decimal("0.10"),
    line_minimum=Decimal(90),
    order_minimum=Decimal(250),
    material_markup=Decimal("0.15"),
    drop_owner="shop",
    break_quantities=(1, 2, 5, 10),
    rounding=Decimal("0.01"),
    validity_days=14,
    tax_share=Decimal("0.0825"),
    tax_name="sales tax",
    certificate_charge=Decimal(15),
    expedite_share=Decimal("0.25"),
)

CUTTING = Cutting(
    shear_up_to_mm=6,
    shear_longest_mm=3000,
    shear_least_strip_t=8,
    shear_stages=3,
    thermal_kerf_mm=2,
    thermal_spacing_t=1,
    thermal_least_spacing_mm=6,
    edge_margin_mm=10,
    mill_trim_mm=12,
    cost_per_m=Decimal("1.2"),
    cost_per_pierce=Decimal("0.5"),
    cost_per_stroke=Decimal(2),
    rate_per_hour=Decimal(90),
    least_drop_width_mm=300,
    least_drop_length_mm=600,
    drop_value_share=Decimal("0.5"),
    edge_prep_cost_per_m=Decimal(4),
)

DRIVERS = CostDrivers(
    quantity=8,
    plate_cost=Decimal(400),
    drop_credit=Decimal(40),
    cutting_cost=Decimal(50),
    edge_m=10.0,
    setup_minutes=30.0,
    rolling_minutes=120.0,
    crew=2,
    crane_minutes=15.0,
    outside_cost=Decimal(60),
    certificate=True,
    roll_rate=Decimal(95),
)
