"""The forming room's curvatures as radii, the way sources print springback."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from quoting.forming.plate import PlateLaw, final_curvature, loaded_curvature


def final_radius(law: PlateLaw, loaded_radius_mm: ArrayLike) -> NDArray[np.float64]:
    """Return the mean radius in mm after unloading; infinite where the plate stays elastic."""
    with np.errstate(divide="ignore"):
        return 1 / final_curvature(law, 1 / np.asarray(loaded_radius_mm, dtype=np.float64))


def loaded_radius(law: PlateLaw, final_radius_mm: ArrayLike) -> NDArray[np.float64]:
    """Return the loaded mean radius in mm that springs back to the wanted one."""
    return 1 / loaded_curvature(law, 1 / np.asarray(final_radius_mm, dtype=np.float64))


def plastic_moment(law: PlateLaw) -> float:
    """Return Y t^2 / 4 in N mm per mm: 1.5 times first yield of a rectangle (Hill 1950; from memory)."""
    return float(law.yield_mpa * law.thickness_mm**2 / 4)
