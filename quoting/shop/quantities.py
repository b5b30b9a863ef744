"""The units a setting's key may end in, and the factor of each to the unit used inside.

Conversion factors are exact by definition (inch, pound) or follow from those and standard gravity; see NIST
Special Publication 811 (2008), appendix B.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from quoting.core import MM_PER_INCH

KG_PER_POUND = 0.45359237
MPA_PER_KSI = 6.894757293168361


@dataclass(frozen=True, slots=True)
class Quantity:
    """A physical quantity: its name for messages, the factor of each unit suffix to the inside unit, and the
    most, in the inside unit, that a job shop can mean by it: far beyond any machine or price, but no slip of
    the pen and no nonsense.
    """

    name: str
    units: Mapping[str, float]
    most: float

    def keys(self, stem: str) -> tuple[str, ...]:
        """Return the keys under which a setting of this quantity may stand.

        >>> WEIGHT.keys("largest_weight")
        ('largest_weight_kg', 'largest_weight_lb', 'largest_weight_cwt')
        """
        return tuple(f"{stem}_{unit}" for unit in self.units)


LENGTH = Quantity("length", {"mm": 1.0, "in": MM_PER_INCH, "m": 1000.0, "ft": 12 * MM_PER_INCH}, 100_000.0)
WEIGHT = Quantity("weight", {"kg": 1.0, "lb": KG_PER_POUND, "cwt": 100 * KG_PER_POUND}, 500_000.0)
"""A hundredweight is the short one of 100 lb, as plate is sold by it in North America."""
STRESS = Quantity("stress", {"mpa": 1.0, "ksi": MPA_PER_KSI, "gpa": 1000.0}, 1_000_000.0)
SPEED = Quantity(
    "speed", {"mm_min": 1.0, "in_min": MM_PER_INCH, "m_min": 1000.0, "ft_min": 12 * MM_PER_INCH}, 1_000_000.0
)
POWER = Quantity("power", {"kw": 1.0, "hp": 0.745699871582270}, 10_000.0)
DENSITY = Quantity("density", {"kg_m3": 1.0, "lb_in3": KG_PER_POUND / (MM_PER_INCH / 1000) ** 3}, 30_000.0)
ANGLE = Quantity("angle", {"deg": 1.0}, 360.0)
MINUTES = Quantity("time", {"min": 1.0}, 10_000.0)
HOURS = Quantity("time", {"hours": 1.0}, 10_000.0)
DAYS = Quantity("time", {"days": 1.0}, 3_650.0)
MINUTES_PER_LENGTH = Quantity("time per length", {"min_per_mm": 1.0, "min_per_in": 1 / MM_PER_INCH}, 1_000.0)
MINUTES_PER_CUT = Quantity("time per length", {"min_per_m": 1.0, "min_per_ft": 1 / 0.3048}, 1_000.0)
MINUTES_PER_CUT_THICKNESS = Quantity(
    "time per length and thickness", {"min_per_m_mm": 1.0, "min_per_ft_in": 1 / 0.3048 / MM_PER_INCH}, 1_000.0
)
MONEY_PER_VOLUME = Quantity("price per volume", {"per_m3": 1.0, "per_ft3": 1 / 0.3048**3}, 1_000_000.0)
WEIGHT_PER_HOUR = Quantity("weight per hour", {"kg_hour": 1.0, "lb_hour": KG_PER_POUND}, 100_000.0)
MONEY_PER_WEIGHT = Quantity(
    "price per weight",
    {"per_kg": 1.0, "per_lb": 1 / KG_PER_POUND, "per_cwt": 1 / KG_PER_POUND / 100},
    1_000_000.0,
)
MONEY_PER_CUT = Quantity("cost per length", {"per_m": 1.0, "per_ft": 1 / 0.3048}, 1_000_000.0)
