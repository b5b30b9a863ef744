"""The shop's own book: machines, materials, rates, stock rack and working time."""

from quoting.shop.findings import BookError
from quoting.shop.loader import load_shop
from quoting.shop.materials import find_material
from quoting.shop.model import (
    Band,
    Closure,
    Cutting,
    Edge,
    Family,
    LabourSteps,
    LiftRules,
    Material,
    PassRules,
    PricingRules,
    RatedPoint,
    Rates,
    Roll,
    SetupMinutes,
    Shift,
    Shop,
    SlideGeometry,
    StockPlate,
    WeightBand,
    WorkingTime,
)

__all__ = [
    "Band",
    "BookError",
    "Closure",
    "Cutting",
    "Edge",
    "Family",
    "LabourSteps",
    "LiftRules",
    "Material",
    "PassRules",
    "PricingRules",
    "RatedPoint",
    "Rates",
    "Roll",
    "SetupMinutes",
    "Shift",
    "Shop",
    "SlideGeometry",
    "StockPlate",
    "WeightBand",
    "WorkingTime",
    "find_material",
    "load_shop",
]
