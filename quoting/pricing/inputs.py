"""The named inputs of the formulas, from what the line takes and what the shop has set."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal

from quoting.core import RangeError
from quoting.pricing.price_parts import CostDrivers
from quoting.shop import Cutting, PricingRules, Rates

AMOUNT_QUANTUM = Decimal("0.0001")
"""Minutes and metres, which are floats, become money through this step: a ten-thousandth of one.

At 600 an hour that is a tenth of a cent; one line carries at most six such amounts.
"""

DROP_OWNERS = ("shop", "customer")


def exact(amount: float) -> Decimal:
    """Return minutes or metres as a Decimal, rounded half up to a ten-thousandth.

    >>> exact(12.345678)
    Decimal('12.3457')
    """
    return Decimal(amount).quantize(AMOUNT_QUANTUM, ROUND_HALF_UP)


def line_inputs(
    drivers: CostDrivers, rates: Rates, rules: PricingRules, cutting: Cutting
) -> dict[str, Decimal]:
    """Return every input of the line's formulas by name, as the costing book writes it into its cells.

    Raises RangeError for a margin of 100 % or more, a negative rate or share, and an unknown drop owner.
    """
    _check(rates, rules, cutting)
    return {
        "quantity": Decimal(drivers.quantity),
        "plate_cost": drivers.plate_cost,
        "drop_credit": drivers.drop_credit,
        "cutting_cost": drivers.cutting_cost,
        "edge_m": exact(drivers.edge_m),
        "setup_minutes": exact(drivers.setup_minutes),
        "rolling_minutes": exact(drivers.rolling_minutes),
        "crew": Decimal(drivers.crew),
        "crane_minutes": exact(drivers.crane_minutes),
        "bench_minutes": exact(drivers.bench_minutes),
        "weld_minutes": exact(drivers.weld_minutes),
        "consumables": drivers.consumables,
        "outside_cost": drivers.outside_cost,
        "certified": Decimal(int(drivers.certificate)),
        "roll_rate": drivers.roll_rate,
        "operator_hour": rates.operator_hour,
        "helper_hour": rates.helper_hour,
        "setup_hour": rates.setup_hour,
        "crane_hour": rates.crane_hour,
        "bench_hour": rates.bench_hour,
        "welder_hour": rates.welder_hour,
        "outside_markup_share": rates.outside_markup,
        "material_markup_share": rules.material_markup,
        "overhead_share": rules.overhead_share,
        "margin": rules.margin,
        "floor_margin": rules.floor_margin,
        "line_minimum": rules.line_minimum,
        "rounding": rules.rounding,
        "certificate_charge": rules.certificate_charge,
        "shop_keeps_drop": Decimal(int(rules.drop_owner == "shop")),
        "edge_cost_per_m": cutting.edge_prep_cost_per_m,
    }


def _check(rates: Rates, rules: PricingRules, cutting: Cutting) -> None:
    for name in ("margin", "floor_margin"):
        check_margin(name.replace("_", " "), getattr(rules, name))
    if not rules.rounding > 0:
        raise RangeError("rounding step", rules.rounding, "more than 0")
    if rules.drop_owner not in DROP_OWNERS:
        raise RangeError("drop owner", rules.drop_owner, " or ".join(DROP_OWNERS))
    not_negative = {
        "operator hour": rates.operator_hour,
        "helper hour": rates.helper_hour,
        "set-up hour": rates.setup_hour,
        "crane hour": rates.crane_hour,
        "bench hour": rates.bench_hour,
        "welder hour": rates.welder_hour,
        "markup on outside work": rates.outside_markup,
        "markup on plate": rules.material_markup,
        "overhead share": rules.overhead_share,
        "least charge for a line": rules.line_minimum,
        "certificate charge": rules.certificate_charge,
        "edge preparation per metre": cutting.edge_prep_cost_per_m,
    }
    for name, value in not_negative.items():
        if not value >= 0:
            raise RangeError(name, value, "0 or more")


def check_margin(name: str, margin: Decimal) -> None:
    """Raise RangeError unless a margin is a share of the price that leaves room for a cost."""
    if not 0 <= margin < 1:
        raise RangeError(name, margin, "0 or more and less than 1 (100 % of the price would leave no cost)")
