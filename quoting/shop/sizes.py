"""A size in a cell of the rack to mm."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from typing import Any


def read_size(value: Any, *, inch: bool, gauge_table: str) -> float:
    """Return a cell's size in mm."""
    if isinstance(value, date):
        raise ValueError("the spreadsheet has turned this size into a date")
    if isinstance(value, (int, float)):
        number = float(value)
    else:
        text = str(value).strip().casefold()
        if text.endswith("mm"):
            inch, text = False, text[:-2]
        text = text.removesuffix("in").strip().strip('"')
        number = float(sum(Fraction(part) for part in text.replace("-", " ").split()))
    if number <= 0:
        raise ValueError("must be more than 0")
    return number * (25.4 if inch else 1.0)
