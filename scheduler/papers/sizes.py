"""Sizes in the words of the floor: what is read off a rule, a tape, a display."""

from __future__ import annotations

from dataclasses import dataclass
from math import isinf

from quoting.core import MM_PER_INCH, format_length, format_weight

_INCHES_SAID_IN_FEET = 96.0


@dataclass(frozen=True, slots=True)
class Sizes:
    """How lengths and weights are said: in inches, or in millimetres."""

    inch: bool

    @property
    def unit(self) -> str:
        """Return the unit of a display."""
        return "in" if self.inch else "mm"

    def exact(self, mm: float) -> str:
        """Return a size as it is asked for; an odd one in inches also to the nearest 16th, for the rule.

        >>> Sizes(True).exact(1524.0), Sizes(True).exact(2849.0), Sizes(False).exact(1500.0)
        ('60"', '112.165" (112-3/16)', '1500 mm')
        """
        told = format_length(mm, inch=self.inch)
        if not self.inch or "." not in told or mm < MM_PER_INCH:
            return told
        return f"{told} ({self.near(mm).removesuffix(chr(34))})"

    def long(self, mm: float) -> str:
        """Return a long size; from 8 ft up also in feet and inches.

        >>> Sizes(True).long(12192.0), Sizes(True).long(50.8)
        ('480" = 40\\'-0"', '2"')
        """
        told = self.exact(mm)
        if not self.inch or mm / MM_PER_INCH < _INCHES_SAID_IN_FEET:
            return told
        near = round(mm / MM_PER_INCH * 16) / 16 * MM_PER_INCH
        return f"{format_length(mm, inch=True)} = {format_length(near, inch=True, feet=True)}"

    def near(self, mm: float, parts: int = 16) -> str:
        """Return a size to the nearest 16th of an inch or whole millimetre: enough for a template.

        >>> Sizes(True).near(339.2), Sizes(False).near(339.2)
        ('13-3/8"', '339 mm')
        """
        if isinf(mm):
            return "flat"
        if self.inch:
            return format_length(round(mm / MM_PER_INCH * parts) / parts * MM_PER_INCH, inch=True)
        return f"{mm:.0f} mm"

    def both(self, mm: float) -> str:
        """Return a size in the shop's unit, and in the other one when that is the round one.

        >>> Sizes(True).both(609.6), Sizes(True).both(1200.0), Sizes(False).both(609.6)
        ('24"', '47.244" (1200 mm)', '609.6 mm')
        """
        told = format_length(mm, inch=self.inch)
        if self.inch and "." in told and abs(mm - round(mm)) < 1e-6:
            return f"{told} ({mm:.0f} mm)"
        return told

    def weight(self, kg: float) -> str:
        """Return a weight in the shop's own unit: the crane's plate says it in one.

        >>> Sizes(True).weight(217.0), Sizes(False).weight(217.0)
        ('478 lb', '217 kg')
        """
        return format_weight(kg, inch=self.inch)
