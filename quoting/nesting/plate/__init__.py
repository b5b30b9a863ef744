"""One plate: the problem in whole micrometres, packers, cone sectors, what cannot be cut."""

from quoting.nesting.plate.fill import (
    Filled,
    Packer,
    Put,
    drops_value,
    fill,
    fill_into,
    keepable,
    metal,
    rules,
)
from quoting.nesting.plate.lengths import SLACK, UNIT, micrometres
from quoting.nesting.plate.packers import Box, GuillotineRects, MaxRects
from quoting.nesting.plate.packing_problem import Bin, PackedPiece, PackingProblem, prepare
from quoting.nesting.plate.variants import Variant

__all__ = [
    "SLACK",
    "UNIT",
    "Bin",
    "Box",
    "Filled",
    "GuillotineRects",
    "MaxRects",
    "PackedPiece",
    "Packer",
    "PackingProblem",
    "Put",
    "Variant",
    "drops_value",
    "fill",
    "fill_into",
    "keepable",
    "metal",
    "micrometres",
    "prepare",
    "rules",
]
