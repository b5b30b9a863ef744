"""The capability chart of a roll as a table: the largest thickness over plate width and inside diameter."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import isnan

import numpy as np

from quoting.forming.judging.demands import NAMES, DemandRow, demands
from quoting.forming.judging.rating import rating_of, used_shares
from quoting.forming.judging.ways_out import THIN_SECTIONS, fits, largest
from quoting.forming.range_checks import Floats, floats, positive
from quoting.forming.task import RollTask
from quoting.forming.task_arrays import Lines, lines_of
from quoting.shop import Material, PassRules, Roll


@dataclass(frozen=True, slots=True)
class CapabilityTable:
    """Largest thickness in mm for each inside diameter (rows) and plate width (columns), both in mm.

    None where the roll cannot make the diameter at that width in any thickness. Closed cylinders. `rated` are
    the rated points that count for the table, as width, thickness and inside diameter. `stops` says for each
    diameter which limit stops the widest plate just above its largest thickness, or at the thinnest plate
    where there is none.
    """

    roll: str
    material: str
    yield_mpa: float
    pre_bend: bool
    widths_mm: tuple[float, ...]
    diameters_mm: tuple[float, ...]
    thickness_mm: tuple[tuple[float | None, ...], ...]
    rated: tuple[tuple[float, float, float], ...] = ()
    stops: tuple[str, ...] = ()


def capability_table(
    roll: Roll,
    material: Material,
    rules: PassRules,
    *,
    pre_bend: bool,
    yield_mpa: float | None = None,
    widths_mm: Sequence[float] = (),
    diameters_mm: Sequence[float] = (),
) -> CapabilityTable:
    """Return the capability table of a roll for a material, at its least yield unless another is given.

    Widths default to twelve steps up to the working length, diameters to 1, 1.5, 2, 3, 5 and 8 times the
    least one. Every value is found by solving all limits at once, the weight of the piece included.
    """
    widths, diameters = _sizes(roll, widths_mm, diameters_mm)
    strength = yield_mpa or material.yield_low_mpa
    inside, width = (grid.ravel() for grid in np.meshgrid(diameters, widths, indexing="ij"))
    lines = _cylinders(material, strength, roll.least_thickness_mm, width, inside, pre_bend)
    low = lines.thickness_mm
    found = largest(
        lines,
        Lines.with_thickness,
        low,
        np.full_like(low, roll.largest_thickness_mm),
        lambda x: fits(x, roll, rules),
        THIN_SECTIONS,
    )
    rows = found.reshape(len(diameters), len(widths)).tolist()
    return CapabilityTable(
        roll=roll.name,
        material=material.key,
        yield_mpa=strength,
        pre_bend=pre_bend,
        widths_mm=tuple(widths.tolist()),
        diameters_mm=tuple(diameters.tolist()),
        thickness_mm=tuple(tuple(None if isnan(x) else x for x in row) for row in rows),
        rated=tuple(
            (point.width_mm, point.thickness_mm, point.inside_diameter_mm)
            for point in roll.rated
            if point.pre_bend is pre_bend
        ),
        stops=_stops(
            lines.take(np.arange(len(diameters)) * len(widths) + len(widths) - 1), rows, roll, rules
        ),
    )


_JUST_ABOVE = 1.005
"""Share of the largest thickness at which one asks what forbids it."""


def _stops(widest: Lines, rows: list[list[float]], roll: Roll, rules: PassRules) -> tuple[str, ...]:
    """Return which limit is passed by most, of the widest plate of each diameter."""
    most = floats([row[-1] for row in rows])
    above = widest.with_thickness(np.where(np.isnan(most), widest.thickness_mm, most * _JUST_ABOVE))
    used = used_shares(demands(above, roll, rules), rating_of(roll, rules).rated(above))
    return tuple(NAMES[DemandRow(int(row))][0] for row in np.nanargmax(used, axis=0))


def _sizes(roll: Roll, widths_mm: Sequence[float], diameters_mm: Sequence[float]) -> tuple[Floats, Floats]:
    """Return the asked or the usual widths and diameters."""
    length, least = roll.working_length_mm, roll.least_inside_diameter_mm
    widths = floats(widths_mm or np.linspace(length / 12, length, 12))
    diameters = floats(diameters_mm or np.array([1, 1.5, 2, 3, 5, 8]) * least)
    positive(width_mm=widths, diameter_mm=diameters)
    return widths, diameters


def least_inside_diameter_mm(task: RollTask, roll: Roll, rules: PassRules) -> float:
    """Return the least inside diameter in mm that the roll can make of a task's plate and take off.

    All limits count: bending force and the others, travel of the bending roll and its room under the top
    roll, the loaded shell round the top roll, and for a closed shell the least diameter that comes off. NaN
    if there is none up to forty times the top roll.
    """
    lines = lines_of([task], [task.load_yield_mpa])
    low, high = floats([1 / (40 * roll.top_roll_mm)]), floats([1 / roll.top_roll_mm])

    def change(some: Lines, curvature: Floats) -> Lines:
        return some.with_inside_diameter(1 / curvature)

    return 1 / float(largest(lines, change, low, high, lambda x: fits(x, roll, rules), THIN_SECTIONS)[0])


def _cylinders(
    material: Material,
    strength: float,
    thickness: float,
    width: Floats,
    inside: Floats,
    pre_bend: bool,
) -> Lines:
    """Return closed cylinders of one thickness."""
    t = np.full(len(width), thickness)
    one = np.ones(len(width))
    hardens = material.strength_mpa is not None and material.hardening is not None
    weight = np.pi * (inside + t) * t * width * material.density_kg_m3 * 1e-9
    return Lines(
        thickness_mm=t,
        width_mm=width,
        radius_mm=(inside + t) / 2,
        inside_diameter_mm=inside,
        weight_kg=weight,
        yield_mpa=one * strength,
        elastic_mpa=one * material.elastic_mpa,
        poisson=one * material.poisson,
        strength_mpa=one * ((material.strength_mpa or 0.0) if hardens else 0.0),
        hardening=one * ((material.hardening or 0.0) if hardens else 0.0),
        closed=one > 0,
        pre_bend=np.full(len(width), pre_bend),
        cone=one < 0,
    )
