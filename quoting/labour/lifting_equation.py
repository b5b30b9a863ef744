"""The revised lifting equation: how much one person may lift in two hands, and how far a load is over it.

Source: Waters, Putz-Anderson, Garg, Applications Manual for the Revised NIOSH Lifting Equation, DHHS (NIOSH)
Publication No. 94-110 (revised 9/2021), doi 10.26616/NIOSHPUB94110revised092021: formulas and limits section
1.3, frequency table 5, coupling table 7. The metric and the inch constants are no exact conversions of each
other, so each system is its own set and a result never mixes them. The equation covers one person lifting;
it says nothing about lifts by two people.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise

from quoting.core import RangeError


class Duration(StrEnum):
    """How long the lifting goes on in a day, with the recovery time the manual asks for."""

    SHORT = "up to 1 hour"
    MODERATE = "1 to 2 hours"
    LONG = "2 to 8 hours"


class Coupling(StrEnum):
    """Grip. A plate is poor: sharp edges, gloves, over 16 in (40 cm) long (manual, table 6, note 5)."""

    GOOD = "good"
    FAIR = "fair"
    POOR = "poor"


@dataclass(frozen=True, slots=True)
class LiftingConstants:
    """One unit system of the equation: load constant, and the optimum and limits of each distance."""

    load: float
    near: float
    far: float
    best_height: float
    height_slope: float
    highest: float
    travel_constant: float
    least_travel: float
    most_travel: float


US_CUSTOMARY = LiftingConstants(51.0, 10.0, 25.0, 30.0, 0.0075, 70.0, 1.8, 10.0, 70.0)
"""Pounds and inches."""

METRIC = LiftingConstants(23.0, 25.0, 63.0, 75.0, 0.003, 175.0, 4.5, 25.0, 175.0)
"""Kilograms and centimetres."""


@dataclass(frozen=True, slots=True)
class LiftingTask:
    """One lift, in the units of `constants` (pounds and inches, or kilograms and centimetres).

    `horizontal` from the ankles to the hands, `vertical` from the floor to the hands, `travel` up or down,
    `twist_deg` out of the forward plane, `lifts_per_minute` over 15 minutes. `vertical_at_origin` sets the
    frequency column when the destination is being looked at; None means this is the origin.
    """

    horizontal: float
    vertical: float
    travel: float
    twist_deg: float = 0.0
    lifts_per_minute: float = 0.2
    duration: Duration = Duration.SHORT
    coupling: Coupling = Coupling.POOR
    constants: LiftingConstants = US_CUSTOMARY
    vertical_at_origin: float | None = None

    def __post_init__(self) -> None:
        for name in ("horizontal", "vertical", "travel", "twist_deg", "lifts_per_minute"):
            if not getattr(self, name) >= 0:
                raise RangeError(name.replace("_", " "), getattr(self, name), "0 or more")


@dataclass(frozen=True, slots=True)
class Multipliers:
    """The six multipliers of a lift, each from 0 to 1."""

    horizontal: float
    vertical: float
    distance: float
    asymmetry: float
    frequency: float
    coupling: float

    @property
    def product(self) -> float:
        """Return all six multiplied together."""
        return (
            self.horizontal * self.vertical * self.distance * self.asymmetry * self.frequency * self.coupling
        )

    def rounded(self) -> Multipliers:
        """Return each multiplier to two places, as the manual's worksheets use them."""
        return Multipliers(
            round(self.horizontal, 2),
            round(self.vertical, 2),
            round(self.distance, 2),
            round(self.asymmetry, 2),
            round(self.frequency, 2),
            round(self.coupling, 2),
        )


def multipliers(task: LiftingTask) -> Multipliers:
    """Return HM, VM, DM, AM, FM and CM at full precision (manual, section 1.3)."""
    c = task.constants
    horizontal = 0.0 if task.horizontal > c.far else c.near / max(task.horizontal, c.near)
    vertical = 0.0 if task.vertical > c.highest else 1 - c.height_slope * abs(task.vertical - c.best_height)
    travel = max(task.travel, c.least_travel)
    distance = 0.0 if travel > c.most_travel else 0.82 + c.travel_constant / travel
    asymmetry = 0.0 if task.twist_deg > 135 else 1 - 0.0032 * task.twist_deg
    origin = task.vertical if task.vertical_at_origin is None else task.vertical_at_origin
    frequency = frequency_multiplier(task.lifts_per_minute, task.duration, high=origin >= c.best_height)
    coupling = _COUPLING[task.coupling][task.vertical >= c.best_height]
    return Multipliers(horizontal, vertical, distance, asymmetry, frequency, coupling)


def recommended_weight_limit(task: LiftingTask) -> float:
    """Return RWL = LC HM VM DM AM FM CM, in lb or kg after the task's constants; 0 outside the limits.

    The manual's Example 4 (package inspection), origin, prints 34.9 from rounded multipliers:

    >>> task = LiftingTask(10, 22, 37, 0, 3, Duration.SHORT, Coupling.FAIR)
    >>> round(recommended_weight_limit(task), 1)
    34.8
    """
    return task.constants.load * multipliers(task).product


def frequency_multiplier(lifts_per_minute: float, duration: Duration, *, high: bool) -> float:
    """Return FM of table 5, linear between its rows; below 0.2 a minute counts as 0.2, above 15 gives 0.

    `high` is whether the hands start at 30 in (75 cm) or more.

    >>> frequency_multiplier(3, Duration.SHORT, high=False)
    0.88
    """
    column = _FREQUENCY_COLUMN[duration] + high
    rate = max(lifts_per_minute, _FREQUENCY[0][0])
    if rate > _FREQUENCY[-1][0]:
        return 0.0
    for below, above in pairwise(_FREQUENCY):
        if rate <= above[0]:
            share = (rate - below[0]) / (above[0] - below[0])
            return below[column] + share * (above[column] - below[column])
    raise AssertionError("the rate lies inside the table")


_FREQUENCY_COLUMN = {Duration.SHORT: 1, Duration.MODERATE: 3, Duration.LONG: 5}

# Table 5: lifts per minute; then FM for short, moderate and long duration, each below 30 in and at 30 in or
# more. Short and moderate seen in public excerpts; the long columns and the zeros below 30 in from memory.
_FREQUENCY: tuple[tuple[float, ...], ...] = (
    (0.2, 1.00, 1.00, 0.95, 0.95, 0.85, 0.85),
    (0.5, 0.97, 0.97, 0.92, 0.92, 0.81, 0.81),
    (1, 0.94, 0.94, 0.88, 0.88, 0.75, 0.75),
    (2, 0.91, 0.91, 0.84, 0.84, 0.65, 0.65),
    (3, 0.88, 0.88, 0.79, 0.79, 0.55, 0.55),
    (4, 0.84, 0.84, 0.72, 0.72, 0.45, 0.45),
    (5, 0.80, 0.80, 0.60, 0.60, 0.35, 0.35),
    (6, 0.75, 0.75, 0.50, 0.50, 0.27, 0.27),
    (7, 0.70, 0.70, 0.42, 0.42, 0.22, 0.22),
    (8, 0.60, 0.60, 0.35, 0.35, 0.18, 0.18),
    (9, 0.52, 0.52, 0.30, 0.30, 0.00, 0.15),
    (10, 0.45, 0.45, 0.26, 0.26, 0.00, 0.13),
    (11, 0.41, 0.41, 0.00, 0.23, 0.00, 0.00),
    (12, 0.37, 0.37, 0.00, 0.21, 0.00, 0.00),
    (13, 0.00, 0.34, 0.00, 0.00, 0.00, 0.00),
    (14, 0.00, 0.31, 0.00, 0.00, 0.00, 0.00),
    (15, 0.00, 0.28, 0.00, 0.00, 0.00, 0.00),
)

# CM below 30 in (75 cm), and at that height or more (table 7).
_COUPLING: dict[Coupling, tuple[float, float]] = {
    Coupling.GOOD: (1.00, 1.00),
    Coupling.FAIR: (0.95, 1.00),
    Coupling.POOR: (0.90, 0.90),
}
