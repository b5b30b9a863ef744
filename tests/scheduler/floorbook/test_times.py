"""Times as a floor writes them."""

from __future__ import annotations

from datetime import time

import pytest

from scheduler.floorbook.times import NoTimeError, minutes_of


@pytest.mark.parametrize(
    ("written", "minutes"),
    [
        (45, 45), ("45 min", 45), ("1 h 20", 80), ("1.5 h", 90), ("1h20min", 80), ("7:10-8:25", 75),
        ("7.10 - 8.25", 75), ("from 7:10 to 8:25", 75), ("22:30-0:15", 105), ("7:10-8:25; 9:00-9:20", 95),
        ("7:10-8:25, 9:00-9:20", 95), ("12,5", 12.5), (0, 0),
    ],
)  # fmt: skip
def test_a_time_is_minutes_hours_or_the_clock(written: object, minutes: float) -> None:
    assert minutes_of(written) == minutes


@pytest.mark.parametrize(
    ("written", "why"),
    [
        ("soon", "is no time"), (-5, "less than no time"), ("7:10", "is no time"), (time(7, 10), "one clock"),
        ("7:70-8:00", "no clock time"), (20_000, "more than a week"), (True, "is no time"),
        ("nan", "less than"),
        ("", "is no time"),
    ],
)  # fmt: skip
def test_what_is_no_time_says_what_to_write(written: object, why: str) -> None:
    with pytest.raises(NoTimeError, match=why):
        minutes_of(written)
