"""Times as a floor writes them down: minutes, hours and minutes, or clock times from and to."""

from __future__ import annotations

import re
from datetime import date, time, timedelta
from typing import Any

DAY_MIN = 24 * 60
MOST_MIN = 7 * DAY_MIN
"""More than a week on one task is a slip of the pen."""

_CLOCK = r"(\d{1,2})[:.h](\d{2})"
_SPAN = re.compile(rf"\s*(?:from\s*)?{_CLOCK}\s*(?:-|–|to|until)\s*{_CLOCK}\s*")
_LENGTH = re.compile(
    r"\s*(?:(\d+(?:[.,]\d+)?)\s*h(?:ours?|rs?)?)?\s*(?:(\d+(?:[.,]\d+)?)\s*(?:min(?:utes?)?)?)?\s*"
)


class NoTimeError(ValueError):
    """A text that is no time; the second argument says what to write."""


def minutes_of(value: Any) -> float:
    """Return the minutes that a cell says; NoTimeError when it says none.

    >>> minutes_of(45), minutes_of("1 h 20"), minutes_of("7:10-8:25"), minutes_of("22:30-0:15; 0:30-1:00")
    (45.0, 80.0, 75.0, 135.0)
    """
    if isinstance(value, (date, time, timedelta)):
        raise NoTimeError("is one clock time", "write minutes, or from and to as 7:10-8:25")
    if isinstance(value, bool) or not isinstance(value, (int, float, str)):
        raise NoTimeError("is no time", "write minutes, or from and to as 7:10-8:25")
    found = float(value) if isinstance(value, (int, float)) else _written(value.casefold())
    if not found >= 0:
        raise NoTimeError("is less than no time", "write the minutes it took")
    if found > MOST_MIN:
        raise NoTimeError("is more than a week", "write the minutes it took")
    return found


def _written(text: str) -> float:
    parts = [part for part in re.split(r"[;,]\s+|;|\s*\+\s*", text) if part.strip()]
    if parts and all(_SPAN.fullmatch(part) for part in parts):
        return sum(_span(part) for part in parts)
    try:
        return float(text.replace(",", "."))
    except ValueError:
        pass
    found = _LENGTH.fullmatch(text)
    if found is None or not (found[1] or found[2]):
        raise NoTimeError("is no time", "write minutes, or from and to as 7:10-8:25")
    hours, minutes = (float((part or "0").replace(",", ".")) for part in found.groups())
    return hours * 60 + minutes


def _span(text: str) -> float:
    found = _SPAN.fullmatch(text)
    assert found is not None
    hour, minute, to_hour, to_minute = (int(part) for part in found.groups())
    if max(hour, to_hour) > 24 or max(minute, to_minute) > 59:
        raise NoTimeError("is no clock time", "write from and to as 7:10-8:25")
    # Work that ends before it begins ran past midnight.
    return float((60 * (to_hour - hour) + to_minute - minute) % DAY_MIN)
