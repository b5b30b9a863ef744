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
from quoting.pricing.risk import CostSpread, LineRisk, RiskInput, RiskReport, simulate
from quoting.pricing.risk_reasons import RiskRules
from quoting.pricing.spread import Spread
from quoting.pricing.totals import allocate, total_order

__all__ = [
    "COST_FORMULAS",
    "INPUTS",
    "LINE_FORMULAS",
    "ORDER_FORMULAS",
    "BreakPrice",
    "BreakRule",
    "CostDrivers",
    "CostSpread",
    "InputName",
    "LinePrice",
    "LineRisk",
    "OrderTotal",
    "PartFormula",
    "PriceParts",
    "RiskInput",
    "RiskReport",
    "RiskRules",
    "Spread",
    "allocate",
    "break_prices",
    "evaluate",
    "line_inputs",
    "price_line",
    "priced_at",
    "simulate",
    "total_order",
]
