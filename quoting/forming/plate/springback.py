"""Springback: what curvature is left when the moment is gone, and how far to over-bend for a wanted one.

Unloading is elastic: k_final = k_loaded - M(k_loaded) / (E' t^3 / 12). When a plate is rolled again in the
same direction it follows the elastic line up to its largest loaded curvature and then the first-loading
curve, so the last (largest) loaded curvature alone decides the final one.
"""

from __future__ import annotations

from dataclasses import fields

import numpy as np
from numpy.typing import ArrayLike, NDArray

from quoting.forming.plate.bending import PlateLaw, elastic_strain, moment, stiffness_at, yield_curvature
from quoting.forming.range_checks import Floats, floats, require

_MOST_STEPS = 60
_ROUNDING = 1e-13


def final_curvature(law: PlateLaw, loaded: ArrayLike) -> Floats:
    """Return the curvature (1/mm) that stays after unloading from a loaded curvature of 0 or more.

    For elastic-perfectly-plastic plate this is the cubic Ri/Rf = 4 x^3 - 3 x + 1 with x = Ri Y'/(E' t)
    (Gardiner, Trans. ASME 79 (1957) 1-9; from memory).
    """
    k = floats(loaded)
    return np.maximum(k - moment(law, k) / law.stiffness, 0.0)


def loaded_curvature(law: PlateLaw, final: ArrayLike) -> Floats:
    """Return the loaded curvature (1/mm) that springs back to a wanted final one; the inverse of the above.

    Closed for elastic-perfectly-plastic plate: with u = k_loaded / k_e and v = k_final / k_e the cubic
    u^3 - (1.5 + v) u^2 + 0.5 = 0 has one root of 1 or more. With hardening a safeguarded Newton iteration
    starts from there.
    """
    k = floats(final)
    require("final curvature", k, k >= 0, "0 or more")
    k_e = yield_curvature(law)
    a = 1.5 + k / k_e
    angle = np.arccos(np.clip(1 - 6.75 / a**3, -1.0, 1.0))
    start = np.maximum(k_e * a / 3 * (1 + 2 * np.cos(angle / 3)), k_e)
    hardens = start * law.thickness_mm / 2 > elastic_strain(law)[1]
    if not hardens.any():
        return floats(start)
    # Only lines whose outer fibre gets past the yield plateau need the iteration.
    start, k, hardens = np.broadcast_arrays(start, k, hardens)
    found = start.copy()
    found[hardens] = _newton(_lines(law, start.shape, hardens), k[hardens], start[hardens])
    return found


def _lines(law: PlateLaw, shape: tuple[int, ...], which: NDArray[np.bool_]) -> PlateLaw:
    """Return the law of some of the lines, whatever shape its fields were given in."""
    return PlateLaw(*(np.broadcast_to(getattr(law, field.name), shape)[which] for field in fields(law)))


def _newton(law: PlateLaw, final: Floats, start: Floats) -> Floats:
    """Solve k - M(k)/D = final; the upper end of the bracket is grown until it holds the root."""
    low = yield_curvature(law)
    high = start
    for _ in range(_MOST_STEPS):
        short = high - moment(law, high) / law.stiffness < final
        if not short.any():
            break
        high = np.where(short, 2 * high, high)
    k = np.clip(start, low, high)
    for _ in range(_MOST_STEPS):
        miss = k - moment(law, k) / law.stiffness - final
        high = np.where(miss > 0, k, high)
        low = np.where(miss <= 0, k, low)
        with np.errstate(divide="ignore", invalid="ignore"):
            step = k - miss / (1 - stiffness_at(law, k) / law.stiffness)
        # Rounding may carry a converged line a hair past the bracket's end, which is no reason to bisect.
        inside = (step >= low * (1 - _ROUNDING)) & (step <= high * (1 + _ROUNDING))
        following = np.where(inside, step, (low + high) / 2)
        done = np.abs(following - k) <= _ROUNDING * following
        k = following
        if done.all():
            break
    return k
