"""From cost drivers to a price that explains itself."""

from quoting.pricing.breaks import break_prices
from quoting.pricing.formulas import (
    COST_FORMULAS,
    INPUTS,
    LINE_FORMULAS,
    ORDER_FORMULAS,
    InputName,
    PartFormula,
    evaluate,
)
from quoting.pricing.inputs import line_inputs
from quoting.pricing.line import price_line, priced_at
from quoting.pricing.model import (
    BreakPrice,
    BreakRule,
    CostDrivers,
    LinePrice,
    OrderTotal,
    PriceParts,
)
from quoting.pricing.totals import allocate, total_order

__all__ = [
    "COST_FORMULAS",
    "INPUTS",
    "LINE_FORMULAS",
    "ORDER_FORMULAS",
    "BreakPrice",
    "BreakRule",
    "CostDrivers",
    "InputName",
    "LinePrice",
    "OrderTotal",
    "PartFormula",
    "PriceParts",
    "allocate",
    "break_prices",
    "evaluate",
    "line_inputs",
    "price_line",
    "priced_at",
    "total_order",
]
