"""The strokes of a shear, worked out from a finished layout."""

from quoting.nesting.shear.cut_list import TOLERANCE_MM, Area, free_parts, shear_cuts, stages
from quoting.nesting.shear.edge_trims import beyond_the_blade, plate_cuts, trimmed

__all__ = [
    "TOLERANCE_MM",
    "Area",
    "beyond_the_blade",
    "free_parts",
    "plate_cuts",
    "shear_cuts",
    "stages",
    "trimmed",
]
