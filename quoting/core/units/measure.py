"""What one size on an order sheet says: a number, its unit, what it measures, and how sure it is."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from quoting.core.errors import RollwrightError
from quoting.core.order import Basis
from quoting.core.units.gauges import MM_PER_INCH, gauge_to_mm, pipe_outside_mm


class Unit(StrEnum):
    """Unit written with a number. Feet are kept as inches; GAUGE, NPS and DN are numbers of a table."""

    MM = "mm"
    CM = "cm"
    M = "m"
    INCH = "in"
    DEGREE = "deg"
    GAUGE = "ga"
    NPS = "NPS"
    DN = "DN"


class Mark(StrEnum):
    """What a number was marked as, in the cell itself."""

    DIAMETER = "dia"
    RADIUS = "R"
    THICKNESS = "thk"
    LENGTH = "long"
    WIDTH = "wide"
    HEIGHT = "high"
    GIRTH = "girth"
    ARC_LENGTH = "arc length"
    CHORD = "chord"
    RISE = "rise"
    SLANT = "slant"
    LARGE = "large end"
    SMALL = "small end"


class NumberStyle(StrEnum):
    """Which sign is the decimal mark; UNKNOWN refuses numbers like 1,500 that could be either."""

    POINT = "point"
    COMMA = "comma"
    UNKNOWN = "unknown"


MM_PER_UNIT = {Unit.MM: 1.0, Unit.CM: 10.0, Unit.M: 1000.0, Unit.INCH: MM_PER_INCH}


class SizeError(RollwrightError, ValueError):
    """A size that the grammar did not understand, with the part that it stopped at.

    `start` and `end` index `text`, so that a caller can point at `text[start:end]`.
    """

    def __init__(self, text: str, start: int, end: int, expected: str) -> None:
        self.text, self.start, self.end, self.expected = text, start, end, expected
        part = f'"{text[start:end]}"' if text[start:end] else "the end"
        super().__init__(f'"{text}" was not understood at {part} (character {start + 1}): {expected}')


@dataclass(frozen=True, slots=True)
class Measure:
    """One size as written, in `unit`: `low` and `high` differ for a range; `plus`, `minus` are tolerances.

    `unit` is None for a bare number. `fraction` tells that it was written as a fraction, which only the inch
    trade does. `metal` names the gauge table a gauge was written with. `start` and `end` index the text.
    """

    low: float
    high: float
    unit: Unit | None = None
    mark: Mark | None = None
    basis: Basis | None = None
    metal: str = ""
    plus: float | None = None
    minus: float | None = None
    fraction: bool = False
    start: int = 0
    end: int = 0

    @property
    def is_range(self) -> bool:
        """Return whether two values were given, so that one must be chosen."""
        return self.high != self.low

    @property
    def inch_like(self) -> bool:
        """Return whether the writing itself says inches: an inch mark, feet, a fraction or a gauge."""
        return self.unit in (Unit.INCH, Unit.GAUGE, Unit.NPS) or (self.unit is None and self.fraction)

    @property
    def metric_like(self) -> bool:
        """Return whether the writing itself says metric."""
        return self.unit in (Unit.MM, Unit.CM, Unit.M, Unit.DN)

    def to_mm(self, *, inch: bool, gauge_table: str = "") -> float:
        """Return the (low) value in mm; `inch` gives a bare number its unit.

        Raises RangeError for a gauge or pipe size no table holds, and ValueError for an angle or a gauge
        whose metal is not known.
        """
        return self.value_mm(self.low, inch=inch, gauge_table=gauge_table)

    def value_mm(self, value: float, *, inch: bool, gauge_table: str = "") -> float:
        """Return any number of this measure (an end of the range, a tolerance) in mm."""
        if self.unit is Unit.GAUGE:
            table = self.metal or gauge_table
            if not table:
                raise ValueError(f"{value:g} ga has no metal, so it has no thickness")
            return gauge_to_mm(round(value), table)
        if self.unit in (Unit.NPS, Unit.DN):
            return pipe_outside_mm(value, dn=self.unit is Unit.DN)
        if self.unit is Unit.DEGREE:
            raise ValueError(f"{value:g} degrees is an angle, not a length")
        unit = self.unit or (Unit.INCH if inch else Unit.MM)
        return value * MM_PER_UNIT[unit]
