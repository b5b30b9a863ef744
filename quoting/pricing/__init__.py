"""From cost drivers to a price that explains itself."""

from quoting.pricing.breaks import break_prices
from quoting.pricing.formulas import INPUTS, LINE_FORMULAS, ORDER_FORMULAS, InputName, evaluate
from quoting.pricing.inputs import DROP_OWNERS, line_inputs
from quoting.pricing.line import price_line, priced_at
from quoting.pricing.price_parts import BreakPrice, CostDrivers, LinePrice, OrderTotal
from quoting.pricing.price_settings import KEEPS_DROP, roll_rate_name, settings_of, with_settings
from quoting.pricing.risk_draws import CostSpread, Drawing, LineRisk, RiskInput, RiskReport, simulate
from quoting.pricing.risk_reasons import RiskRules
from quoting.pricing.totals import allocate, total_order

__all__ = [
    "DROP_OWNERS",
    "INPUTS",
    "KEEPS_DROP",
    "LINE_FORMULAS",
    "ORDER_FORMULAS",
    "BreakPrice",
    "CostDrivers",
    "CostSpread",
    "Drawing",
    "InputName",
    "LinePrice",
    "LineRisk",
    "OrderTotal",
    "RiskInput",
    "RiskReport",
    "RiskRules",
    "allocate",
    "break_prices",
    "evaluate",
    "line_inputs",
    "price_line",
    "priced_at",
    "roll_rate_name",
    "settings_of",
    "simulate",
    "total_order",
    "with_settings",
]
