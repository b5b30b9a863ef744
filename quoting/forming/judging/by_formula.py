"""A roll's chart beside published formulas that know nothing of its geometry, scaled from its rated point.

1. Bending force: F = k L R t^2 / d, k and the support d fixed, so t goes as sqrt(1 / (R L)) for a length L
   and a strength R (bending-force page of calculator.academy, with a worked example).
2. Rolls as beams with a load over the plate's width w in the middle of a span L (beam tables of
   civilengcalculations.com): the largest moment goes as R t^2 w (2 L - w).
3. Power-law plate (H. V. Gajjar, A. H. Gandhi, T. A. Jafri, H. K. Raval, Bendability analysis for bending of
   C-Mn steel plates on heavy duty 3-roller bending machine, WASET 1(8) 2007): the moment at a curvature k is
   2 K' / (n + 2) (t / 2)^(n + 2) k^n, K' = (2 / sqrt 3)^(n + 1) K (the moment from memory); the rated plate
   as perfectly plastic. K and n where the grade has none: annealed low-carbon and 304 steel as Wikipedia's
   page on the strain hardening exponent lists them after Callister 2005. A power law says little below a
   strain of 2 %, so it is the roughest of the three.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from quoting.forming.judging.chart import capability_table
from quoting.forming.judging.demands import span_mm
from quoting.shop import Family, Material, PassRules, RatedPoint, Roll

FORMULAS = (
    ("bending force", "force as strength x width x thickness squared (calculator.academy, bend force)"),
    (
        "rolls as beams",
        "load over the width in the middle of the span (civilengcalculations.com, beam tables)",
    ),
    ("power-law plate", "moment of hardening plate (Gajjar, Gandhi, Jafri and Raval 2007)"),
)
_HARDENS = {Family.CARBON: (600.0, 0.21), Family.STAINLESS: (1400.0, 0.44)}
"""K in MPa and n by family, as published (see above)."""
_SOFT_MPA = 275.0
"""Grades of a higher least yield are not the plate that these were measured on."""
_SHARES = (1.0, 0.75, 0.5, 0.25)


@dataclass(frozen=True, slots=True)
class ByFormula:
    """Largest thickness in mm at one width, by the chart and by each of `FORMULAS`; None where it has none.

    `opens` is true where the chart's is only as thick as the rolls open.
    """

    width_mm: float
    chart_mm: float | None
    formulas_mm: tuple[float | None, ...]
    opens: bool


def by_formula(
    roll: Roll, material: Material, rules: PassRules, *, pre_bend: bool
) -> tuple[RatedPoint, tuple[ByFormula, ...]] | None:
    """Return the rated point, and the comparison at four widths up to its own, at its diameter and at the
    least yield of the material; None without a rated point.
    """
    rated = next((point for point in roll.rated if point.pre_bend is pre_bend), None)
    if rated is None:
        return None
    widths = [share * rated.width_mm for share in _SHARES]
    table = capability_table(
        roll, material, rules, pre_bend=pre_bend, widths_mm=widths, diameters_mm=[rated.inside_diameter_mm]
    )
    rows = tuple(
        ByFormula(
            width,
            most,
            (
                _force(rated, width, table.yield_mpa),
                _beam(rated, width, table.yield_mpa, span_mm(roll)),
                _power_law(rated, width, material),
            ),
            most is not None and most > 0.999 * roll.largest_thickness_mm,
        )
        for width, most in zip(widths, table.thickness_mm[0], strict=True)
    )
    return rated, rows


def bend_force(k: float, length: float, strength: float, thickness: float, support: float) -> float:
    """Return the published bending force, in the unit of strength times area.

    >>> round(bend_force(1.33, 3, 50, 1.5, 12), 3)          # the page's worked example
    37.406
    """
    return k * length * strength * thickness**2 / support


def _force(rated: RatedPoint, width_mm: float, yield_mpa: float) -> float:
    most = bend_force(1, rated.width_mm, rated.yield_mpa, rated.thickness_mm, 1)
    return sqrt(most / bend_force(1, width_mm, yield_mpa, 1, 1))


def _beam(rated: RatedPoint, width_mm: float, yield_mpa: float, span: float) -> float:
    most = rated.width_mm * (2 * span - rated.width_mm) * rated.yield_mpa
    return rated.thickness_mm * sqrt(most / (width_mm * (2 * span - width_mm) * yield_mpa))


def _power_law(rated: RatedPoint, width_mm: float, material: Material) -> float | None:
    known = (material.strength_mpa or 0.0, material.hardening or 0.0)
    soft = _HARDENS.get(material.family) if material.yield_low_mpa <= _SOFT_MPA else None
    found = known if all(known) else soft
    if found is None:
        return None
    strength, n = found
    plane = 2 / sqrt(3)
    most = plane * rated.yield_mpa * rated.thickness_mm**2 / 4 * rated.width_mm
    curvature = 2 / (rated.inside_diameter_mm + rated.thickness_mm)
    unit = 2 * plane ** (n + 1) * strength / (n + 2) * curvature**n * width_mm
    return float(2 * (most / unit) ** (1 / (n + 2)))
