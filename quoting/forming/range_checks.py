"""Range checks that name the first bad value of an array."""

from __future__ import annotations

from typing import TypeAlias

import numpy as np
from numpy.typing import ArrayLike, NDArray

from quoting.core import RangeError

Floats: TypeAlias = NDArray[np.float64]


def floats(value: ArrayLike) -> Floats:
    """Return the value as an array of float64."""
    return np.asarray(value, dtype=np.float64)


def require(name: str, value: ArrayLike, ok: ArrayLike, allowed: str) -> None:
    """Raise RangeError naming the first value for which `ok` is false (NaN counts as false)."""
    good = np.asarray(ok, dtype=bool)
    if good.all():
        return
    values, fine = np.broadcast_arrays(floats(value), good)
    raise RangeError(name, f"{values[~fine][0]:.6g}", allowed)


def positive(**values: ArrayLike) -> None:
    """Raise RangeError for the first of the named values that is not a finite number above 0."""
    for name, value in values.items():
        array = floats(value)
        require(name, array, (array > 0) & np.isfinite(array), "more than 0")
