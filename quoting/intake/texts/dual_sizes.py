"""Sizes given twice in one cell, in inches and in millimetres: 24 (609.6), 48"/1219mm, 3/16 (0.188)."""

from __future__ import annotations

import re
from dataclasses import replace

from quoting.core import Measure, NumberStyle, SizeError, Unit, parse_measure

_TWO = re.compile(r"^(.+?)\s*(?:[(\[]\s*(.+?)\s*[)\]]|/\s*(.+?))$")
_APART = 0.005
"""Two forms of one size differ by rounding only: less than half a per cent."""


def dual_size(text: str, style: NumberStyle) -> Measure | None:
    """Return the one size that a cell gives in two forms, with its unit; None when it does not.

    >>> size = dual_size("24 (609.6)", NumberStyle.POINT)
    >>> size.low, size.unit
    (24.0, <Unit.INCH: 'in'>)
    >>> dual_size("24 (36)", NumberStyle.POINT)
    """
    match = _TWO.match(text)
    if match is None:
        return None
    try:
        first = parse_measure(match.group(1), style)
        second = parse_measure(match.group(2) or match.group(3), style)
    except SizeError:
        return None
    lengths = (None, Unit.INCH, Unit.MM)
    if first.is_range or second.is_range or first.unit not in lengths or second.unit not in lengths:
        return None
    for unit, other, factor in ((Unit.INCH, Unit.MM, 25.4), (Unit.MM, Unit.INCH, 1 / 25.4)):
        fits = first.unit in (None, unit) and second.unit in (None, other)
        if fits and abs(first.low * factor - second.low) <= _APART * second.low:
            return replace(first, unit=unit)
    same = first.unit is second.unit or first.unit is None or second.unit is None
    if same and abs(first.low - second.low) <= _APART * second.low:
        return replace(first, unit=first.unit or second.unit, fraction=first.fraction or second.fraction)
    return None
