"""The shop's own book as frozen values: machines, materials, rates, minutes, stock, working time.

Everything is SI inside (mm, N, MPa, kg, minutes); money is `Decimal` in the shop's currency. Every minute,
rate and allowance here is a setting of the shop: the defaults that ship with the starter book are examples,
because the trade publishes none.
"""

from quoting.shop.model.cutting import Cutting
from quoting.shop.model.labour import Band, LabourSteps, LiftRules, PassRules, SetupMinutes, WeightBand
from quoting.shop.model.ledger_settings import LedgerSettings
from quoting.shop.model.machines import RatedPoint, Roll, SlideGeometry
from quoting.shop.model.materials import Family, Material
from quoting.shop.model.money import PricingRules, Rates, RiskSettings
from quoting.shop.model.operations import (
    EdgeRules,
    FreightRules,
    HandworkRules,
    Operations,
    PressRules,
    ToleranceRules,
    WeldRules,
)
from quoting.shop.model.promise_settings import PromiseSettings
from quoting.shop.model.shop import Letterhead, Shop
from quoting.shop.model.stock import Edge, StockPlate
from quoting.shop.model.working_time import Closure, Shift, WorkingTime

__all__ = [
    "Band",
    "Closure",
    "Cutting",
    "Edge",
    "EdgeRules",
    "Family",
    "FreightRules",
    "HandworkRules",
    "LabourSteps",
    "LedgerSettings",
    "Letterhead",
    "LiftRules",
    "Material",
    "Operations",
    "PassRules",
    "PressRules",
    "PricingRules",
    "PromiseSettings",
    "RatedPoint",
    "Rates",
    "RiskSettings",
    "Roll",
    "SetupMinutes",
    "Shift",
    "Shop",
    "SlideGeometry",
    "StockPlate",
    "ToleranceRules",
    "WeightBand",
    "WeldRules",
    "WorkingTime",
]
