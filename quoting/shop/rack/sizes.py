"""A size in a cell of the rack to mm."""

from __future__ import annotations

from datetime import date, time
from typing import Any

from quoting.core import MM_PER_INCH, RangeError, SizeError, Unit, parse_measure


def read_size(value: Any, *, inch: bool, gauge_table: str) -> float:
    """Return the size in mm; a bare number is in inches when `inch`. Raises ValueError saying what is wrong.

    >>> round(read_size("10 ga", inch=True, gauge_table="galvanized"), 2)
    3.51
    """
    if isinstance(value, (date, time)):
        raise ValueError("the spreadsheet has turned this size into a date")
    if isinstance(value, bool) or value in ("", None):
        raise ValueError("a size is missing")
    if isinstance(value, (int, float)):
        size = value * (MM_PER_INCH if inch else 1.0)
    else:
        size = _written(str(value), inch=inch, gauge_table=gauge_table)
    if not 0 < size < float("inf"):
        raise ValueError("must be more than 0")
    return round(size, 6)


def _written(text: str, *, inch: bool, gauge_table: str) -> float:
    try:
        measure = parse_measure(text)
        if measure.is_range or measure.basis or measure.unit in (Unit.NPS, Unit.DN):
            raise ValueError("must be one plain size")
        return measure.to_mm(inch=inch, gauge_table=gauge_table)
    except (SizeError, RangeError) as error:
        raise ValueError(str(error)) from error
