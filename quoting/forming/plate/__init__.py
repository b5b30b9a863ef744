"""The plate: moment, springback, strain and its free shape."""

from quoting.forming.plate.bending import PlateLaw, bending_work, moment, plate_law, yield_curvature
from quoting.forming.plate.contour import scatter_out_of_round, shell_contour
from quoting.forming.plate.shape import FreeShape, loading_shape, unloading_shape
from quoting.forming.plate.springback import final_curvature, loaded_curvature
from quoting.forming.plate.strain import cylinder_strain, out_of_roundness_mm, roundness_rule, strain_flags

__all__ = [
    "FreeShape",
    "PlateLaw",
    "bending_work",
    "cylinder_strain",
    "final_curvature",
    "loaded_curvature",
    "loading_shape",
    "moment",
    "out_of_roundness_mm",
    "plate_law",
    "roundness_rule",
    "scatter_out_of_round",
    "shell_contour",
    "strain_flags",
    "unloading_shape",
    "yield_curvature",
]
