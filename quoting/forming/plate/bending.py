"""Moment against curvature of a plate, per mm of width.

The stress of a fibre is `min(E' e, max(Y', K' e^n))`: elastic, then a yield plateau, then power-law hardening
once that lies above the plateau. Without K and n it is elastic-perfectly-plastic; with Y = 0 and a stiff E it
is the pure power law. All formulas are closed, take numpy arrays and broadcast.

Range of validity: bending without tension, neutral axis in the middle (radius above about 5 t), no reversed
bending before, so that the moment depends on the largest curvature only.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

import numpy as np
from numpy.typing import ArrayLike

from quoting.forming.range_checks import Floats, floats, positive, require

PLANE_STRAIN_FROM_T = 8.0
"""Width in thicknesses from which a plate bends in plane strain (8 to 10 t; from memory)."""
PLANE_STRESS_UP_TO_T = 1.0
"""Width in thicknesses up to which a bar bends in plane stress; in between the two are interpolated, so
that no verdict jumps. The interpolation has no source."""


@dataclass(frozen=True, slots=True)
class PlateLaw:
    """What one mm of plate width does in bending; arrays that broadcast, stresses in MPa.

    `elastic_mpa` is E', `yield_mpa` is Y', `strength_mpa` is K' (0: no hardening) and `hardening` is n, all
    already for the state of the plate (plane strain or plane stress).
    """

    thickness_mm: Floats
    elastic_mpa: Floats
    yield_mpa: Floats
    strength_mpa: Floats
    hardening: Floats

    @property
    def stiffness(self) -> Floats:
        """Return E' t^3 / 12 in N mm per unit of curvature and mm of width."""
        return self.elastic_mpa * self.thickness_mm**3 / 12

    def take(self, index: ArrayLike) -> PlateLaw:
        """Return the law of some of the lines; every field must have the shape of the whole."""
        i = np.asarray(index)
        return PlateLaw(
            self.thickness_mm[i],
            self.elastic_mpa[i],
            self.yield_mpa[i],
            self.strength_mpa[i],
            self.hardening[i],
        )


def plate_law(
    thickness_mm: ArrayLike,
    width_mm: ArrayLike,
    elastic_mpa: ArrayLike,
    poisson: ArrayLike,
    yield_mpa: ArrayLike,
    strength_mpa: ArrayLike = 0.0,
    hardening: ArrayLike = 0.0,
) -> PlateLaw:
    """Return the bending law of a plate: plane strain from a width of 8 t, plane stress up to 1 t.

    In plane strain (von Mises) E' = E / (1 - nu^2), Y' = 2 Y / sqrt(3) and K' = K (2 / sqrt 3)^(n + 1);
    from memory, any plasticity text (Hill 1950). Lengths in mm, stresses in MPa.

    Raises RangeError when a value is not physical.

    >>> law = plate_law(6.35, 1000, 200e3, 0.3, 250)
    >>> round(float(law.yield_mpa), 2), round(float(law.elastic_mpa))
    (288.68, 219780)
    """
    t, w, e, y = floats(thickness_mm), floats(width_mm), floats(elastic_mpa), floats(yield_mpa)
    nu, k, n = floats(poisson), floats(strength_mpa), floats(hardening)
    positive(thickness_mm=t, width_mm=w, elastic_mpa=e)
    require("yield_mpa", y, (y >= 0) & (y < e / 10), "0 up to a tenth of the elastic modulus")
    require("poisson", nu, (nu >= 0) & (nu < 0.5), "0 up to 0.5")
    require("hardening", n, (n >= 0) & (n < 1), "0 up to 1")
    require("strength_mpa", k, k >= 0, "0 (no hardening) or more")
    require("yield_mpa", y, (y > 0) | (k > 0), "more than 0 unless the plate hardens")
    wide = np.clip((w / t - PLANE_STRESS_UP_TO_T) / (PLANE_STRAIN_FROM_T - PLANE_STRESS_UP_TO_T), 0.0, 1.0)
    rise = 1 + (2 / sqrt(3) - 1) * wide
    shape = np.broadcast_shapes(t.shape, w.shape, e.shape, y.shape, nu.shape, k.shape, n.shape)
    return PlateLaw(
        np.broadcast_to(t, shape),
        np.broadcast_to(e / (1 - wide * nu**2), shape),
        np.broadcast_to(y * rise, shape),
        np.broadcast_to(k * rise ** (n + 1), shape),
        np.broadcast_to(n, shape),
    )


def elastic_strain(law: PlateLaw) -> tuple[Floats, Floats]:
    """Return the strain at the end of the elastic line and the strain at the end of the yield plateau."""
    e_y = law.yield_mpa / law.elastic_mpa
    hard = law.strength_mpa > 0
    if not hard.any():
        return e_y, np.full_like(e_y, np.inf)
    strength = np.where(hard, law.strength_mpa, 1.0)
    n = np.where(hard, law.hardening, 0.5)
    crossing = np.where(hard, (strength / law.elastic_mpa) ** (1 / (1 - n)), 0.0)
    end = np.maximum(e_y, crossing)
    with np.errstate(divide="ignore", over="ignore"):
        plateau = (law.yield_mpa / strength) ** (1 / n)
    return end, np.where(hard, np.maximum(plateau, end), np.inf)


def yield_curvature(law: PlateLaw) -> Floats:
    """Return the curvature in 1/mm at which the outer fibre leaves the elastic line, 2 Y' / (E' t)."""
    return 2 * elastic_strain(law)[0] / law.thickness_mm


def moment(law: PlateLaw, curvature: ArrayLike) -> Floats:
    """Return the moment in N mm per mm of width that first bends flat plate to a curvature (1/mm, 0 or more).

    M = (2 / k^2) integral of stress x strain from 0 to k t / 2. Elastic: E' t^3 k / 12; perfectly plastic:
    (Y' t^2 / 4)(1 - (k_e / k)^2 / 3); pure power law: 2 K' / (n + 2) (t / 2)^(n + 2) k^n.
    From memory, Hill 1950.

    >>> law = plate_law(10, 1000, 200e3, 0.3, 250)
    >>> k = yield_curvature(law)
    >>> round(float(moment(law, k)) / (float(law.yield_mpa) * 10**2 / 4), 9)      # elastic over fully plastic
    0.666666667
    """
    k = floats(curvature)
    end, plateau = elastic_strain(law)
    outer = k * law.thickness_mm / 2
    area = law.elastic_mpa * np.minimum(outer, end) ** 3 / 3
    area = area + law.yield_mpa * (np.clip(outer, end, plateau) ** 2 - end**2) / 2
    if np.any(law.strength_mpa > 0):
        area = area + _hardening_area(law, outer, plateau)
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where(k > 0, 2 * area / np.where(k > 0, k, 1.0) ** 2, 0.0)


def _hardening_area(law: PlateLaw, outer: Floats, plateau: Floats) -> Floats:
    start = np.where(np.isfinite(plateau), plateau, 0.0)
    power = law.hardening + 2
    grown = law.strength_mpa * (np.maximum(outer, start) ** power - start**power) / power
    # Before hardening starts the difference is nought but rounding, which a late start makes large.
    return np.where(outer > plateau, grown, 0.0)


def stiffness_at(law: PlateLaw, curvature: ArrayLike) -> Floats:
    """Return dM/dk in N mm^2 per mm of width: (t^2 / 2) x stress of the outer fibre / k - 2 M / k."""
    k = floats(curvature)
    outer = k * law.thickness_mm / 2
    safe = np.where(k > 0, k, 1.0)
    slope = (law.thickness_mm**2 / 2 * fibre_stress(law, outer) - 2 * moment(law, k)) / safe
    return floats(np.where(outer <= elastic_strain(law)[0], law.stiffness, slope))


def fibre_stress(law: PlateLaw, strain: ArrayLike) -> Floats:
    """Return the stress in MPa of a fibre on first loading to a strain of 0 or more."""
    e = floats(strain)
    with np.errstate(invalid="ignore"):
        hard = np.where(law.strength_mpa > 0, law.strength_mpa * e**law.hardening, 0.0)
    return floats(np.minimum(law.elastic_mpa * e, np.maximum(law.yield_mpa, hard)))


def bending_work(law: PlateLaw, curvature: ArrayLike) -> Floats:
    """Return the work of bending in N mm per mm^2 of plate: the integral of M over curvature from 0."""
    k = floats(curvature)
    t = law.thickness_mm
    end, plateau = elastic_strain(law)
    k1, k2 = 2 * end / t, 2 * plateau / t
    elastic = law.stiffness * np.minimum(k, k1) ** 2 / 2
    a1 = 2 * law.elastic_mpa * end**3 / 3 - law.yield_mpa * end**2
    kp = np.clip(k, k1, k2)
    work = elastic + a1 * (1 / k1 - 1 / kp) + law.yield_mpa * t**2 / 4 * (kp - k1)
    if not np.any(np.isfinite(k2)):
        return floats(work)
    start = np.where(np.isfinite(k2), k2, 1.0)
    e2 = np.where(np.isfinite(plateau), plateau, 0.0)
    kh = np.maximum(k, start)
    n = law.hardening
    a2 = a1 + law.yield_mpa * e2**2 - 2 * law.strength_mpa * e2 ** (n + 2) / (n + 2)
    factor = 2 * law.strength_mpa * (t / 2) ** (n + 2) / (n + 2)
    grown = a2 * (1 / start - 1 / kh) + factor * (kh ** (n + 1) - start ** (n + 1)) / (n + 1)
    return floats(work + np.where(k > k2, grown, 0.0))
