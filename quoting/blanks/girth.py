"""Developed length of rolled plate: on the mean diameter, with the neutral layer moved in for tight bends."""

from __future__ import annotations

from math import log10, pi

from quoting.core import RangeError

TIGHT_RADIUS_T = 5.0
"""Inside radius over thickness at and below which the neutral layer is no longer in the middle (DIN 6935)."""

LEAST_RADIUS_T = 0.65
"""Tightest inside radius over thickness that the DIN 6935 formula is used for here (from memory)."""


def neutral_layer_factor(inside_radius_mm: float, thickness_mm: float) -> float:
    """Return k: the neutral layer lies k t/2 from the inner face; 1 means the middle of the plate.

    k = 0.65 + 0.5 log10(r/t) up to r/t = 5 and 1 above it (DIN 6935, cold bending of flat steel; formula as
    quoted in public texts, see tests/published/test_neutral_layer.py). Lengths in mm. Range: r/t of 0.65 or
    more; RangeError below, where a plate roll never comes.

    >>> neutral_layer_factor(10, 10)
    0.65
    >>> neutral_layer_factor(600, 10)
    1.0
    """
    ratio = inside_radius_mm / thickness_mm
    if ratio < LEAST_RADIUS_T:
        raise RangeError("inside radius over thickness", round(ratio, 3), f"{LEAST_RADIUS_T} or more")
    if ratio > TIGHT_RADIUS_T:
        return 1.0
    return min(1.0, 0.65 + 0.5 * log10(ratio))


def neutral_diameter(mean_diameter_mm: float, thickness_mm: float) -> float:
    """Return the diameter in mm that the blank is developed on: the mean one unless r/t <= 5.

    RangeError when the inside diameter would be zero or less, or tighter than `neutral_layer_factor` covers.

    >>> neutral_diameter(622.3, 12.7)
    622.3
    >>> round(neutral_diameter(40, 10), 3)  # inside radius 15 mm: k = 0.738
    37.38
    """
    inside = mean_diameter_mm - thickness_mm
    if inside <= 0:
        raise RangeError(
            "mean diameter", f"{mean_diameter_mm:g} mm", f"more than the thickness, {thickness_mm:g} mm"
        )
    factor = neutral_layer_factor(inside / 2, thickness_mm)
    return mean_diameter_mm if factor == 1.0 else inside + factor * thickness_mm


def developed_girth(mean_diameter_mm: float, thickness_mm: float, arc_deg: float = 360.0) -> float:
    """Return the developed length in mm of `arc_deg` degrees of a cylinder: pi D angle/360.

    D is the mean diameter (inside + t = outside - t): accepted practice for rolled plate. The worked case is
    610 mm outside, 25.4 mm thick (see tests/published/test_developed_length.py).

    >>> round(developed_girth(610 - 25.4, 25.4), 2)
    1836.58
    """
    return pi * neutral_diameter(mean_diameter_mm, thickness_mm) * arc_deg / 360.0
