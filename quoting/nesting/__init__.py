"""Nesting: the cheapest set of plates for one group of pieces, checked, with a lower bound beside it."""

from __future__ import annotations

from quoting.nesting.checker import Fault, check
from quoting.nesting.engine import Effort, NestRefusedError, nest
from quoting.nesting.model import (
    CuttingRule,
    DropRule,
    NestProblem,
    Notch,
    Piece,
    StockPlate,
)
from quoting.nesting.result import (
    CutPlate,
    CutStats,
    Drop,
    Nest,
    Placement,
    PlateRemark,
    ShearCut,
    Unplaced,
    Why,
)
from quoting.outlines import Rectangle, Sector

__all__ = [
    "CutPlate",
    "CutStats",
    "CuttingRule",
    "Drop",
    "DropRule",
    "Effort",
    "Fault",
    "Nest",
    "NestProblem",
    "NestRefusedError",
    "Notch",
    "Piece",
    "Placement",
    "PlateRemark",
    "Rectangle",
    "Sector",
    "ShearCut",
    "StockPlate",
    "Unplaced",
    "Why",
    "check",
    "nest",
]
