"""Lengths in whole micrometres, and what every plate gets on top so that rounded sizes still fill it."""

from __future__ import annotations

UNIT = 1000
SLACK = 10


def micrometres(length_mm: float) -> int:
    """Return a length in mm as whole micrometres."""
    return round(length_mm * UNIT)
