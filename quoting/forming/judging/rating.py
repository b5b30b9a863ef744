"""What a roll is known to do: its limits, the load limits calibrated at the rated points.

A rated point proves that the roll stands every load that the point asks for, so the limit of each load is
the largest demand among the points: from pre-bend points for a task with pre-bending, from all points for
one without (a roll that pre-bends a plate also rolls it). Whatever is common to point and task (friction,
losses, an error of the lever arm) drops out of the comparison.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from quoting.core import RangeError
from quoting.forming.judging.demands import LEAST_ROWS, LOAD_ROWS, DemandRow, demands
from quoting.forming.range_checks import Floats
from quoting.forming.task_arrays import Lines, lines_of_rated
from quoting.shop import PassRules, RatedPoint, Roll


@dataclass(frozen=True, slots=True)
class Rating:
    """Rated value of every limit (see `DemandRow`), without and with pre-bending; NaN: not limited."""

    plain: Floats
    pre_bend: Floats

    def rated(self, lines: Lines) -> Floats:
        """Return the rated values as a matrix of limits by lines."""
        return np.where(lines.pre_bend, self.pre_bend[:, None], self.plain[:, None])


@lru_cache(maxsize=64)
def rating_of(roll: Roll, rules: PassRules) -> Rating:
    """Return the limits of a roll; the rules give the flat after pre-bending, which the couple arm follows.

    Raises RangeError when a rated point contradicts the roll's own geometry.
    """
    for number, point in enumerate(roll.rated, start=1):
        _check_point(roll, number, point)
    lines = lines_of_rated(roll.rated)
    asked = demands(lines, roll, rules, passes=1)
    _check_positions(roll, asked)
    plain = np.full(len(DemandRow), np.nan)
    plain[DemandRow.WIDTH] = roll.working_length_mm
    plain[DemandRow.THICKEST] = roll.largest_thickness_mm
    plain[DemandRow.THINNEST] = roll.least_thickness_mm
    plain[DemandRow.LEAST_DIAMETER] = roll.least_inside_diameter_mm
    plain[DemandRow.TOP_ROLL_FIT] = roll.top_roll_mm
    plain[DemandRow.WEIGHT] = roll.largest_weight_kg
    plain[DemandRow.CONES] = plain[DemandRow.PRE_BEND] = 0.0  # asked for only where the roll cannot do it
    if roll.power_kw is not None:
        plain[DemandRow.POWER] = max(roll.power_kw, float(np.max(asked[DemandRow.POWER])))
    if roll.slide is not None:
        plain[DemandRow.TRAVEL] = roll.slide.travel_mm
        plain[DemandRow.ROOM] = (roll.top_roll_mm + roll.bending_roll_mm) / 2
    pre_bend = plain.copy()
    for row in LOAD_ROWS:
        plain[row] = np.max(asked[row])
        pre_bend[row] = np.max(asked[row][lines.pre_bend]) if lines.pre_bend.any() else plain[row]
    return Rating(plain, pre_bend)


def used_shares(asked: Floats, rated: Floats) -> Floats:
    """Return the used share of every limit by line: demand / rated, or rated / demand for a least value.

    NaN where a limit does not apply; infinite where the roll cannot do it at all.
    """
    with np.errstate(divide="ignore", invalid="ignore"):
        used = asked / rated
        for row in LEAST_ROWS:
            used[row] = rated[row] / asked[row]
    return used


def _check_point(roll: Roll, number: int, point: RatedPoint) -> None:
    where = f"roll {roll.name}: rated point {number}: "
    if point.width_mm > roll.working_length_mm:
        raise RangeError(
            where + "width_mm", point.width_mm, f"up to the working length, {roll.working_length_mm:g} mm"
        )
    if not roll.least_thickness_mm <= point.thickness_mm <= roll.largest_thickness_mm:
        raise RangeError(
            where + "thickness_mm",
            point.thickness_mm,
            f"{roll.least_thickness_mm:g} to {roll.largest_thickness_mm:g} mm, the roll's own range",
        )
    if point.inside_diameter_mm < roll.top_roll_mm:
        raise RangeError(
            where + "inside_diameter_mm",
            point.inside_diameter_mm,
            f"at least the top roll's diameter, {roll.top_roll_mm:g} mm",
        )


def _check_positions(roll: Roll, asked: Floats) -> None:
    if roll.slide is None:
        return
    for number, (point, lift) in enumerate(zip(roll.rated, asked[DemandRow.TRAVEL], strict=True), start=1):
        if not lift <= roll.slide.travel_mm:
            needs = f"a lift of {lift:.0f} mm" if np.isfinite(lift) else "a position off the slide"
            raise RangeError(
                f"roll {roll.name}: rated point {number}: inside_diameter_mm",
                point.inside_diameter_mm,
                f"a diameter within the slide's travel, {roll.slide.travel_mm:g} mm; this one needs {needs}",
            )
