"""Lots at random of an invented shop, as short as learning takes them."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta

import numpy as np

from quoting.hindsight import BookPlace, LotDone

LOAD, UNLOAD = BookPlace("labour.handling[2]", "load"), BookPlace("labour.handling[2]", "unload")
SQUARE, ADJUST = BookPlace("labour", "square"), BookPlace("labour", "adjust_per_pass")
FIRST_OFF = BookPlace("setups", "first_off")
TODAY = date(2026, 12, 14)


def lots(
    count: int, off: Mapping[BookPlace, float], *, seed: int = 1, scatter: float = 0.1, days_ago: int = 0
) -> list[LotDone]:
    """So many lots whose settings take `off` times the book's minutes, give or take `scatter`."""
    rng = np.random.default_rng(seed)
    found = []
    for number in range(count):
        pieces = int(rng.integers(1, 12))
        light, ends = int(rng.integers(2)), int(rng.integers(1, 3))
        book = {
            LOAD: 1.5 * pieces * light, UNLOAD: 1.5 * pieces * light, SQUARE: 2.0 * pieces * ends,
            ADJUST: 0.8 * pieces * int(rng.integers(1, 6)), FIRST_OFF: 6.0,
        }  # fmt: skip
        book = {place: minutes for place, minutes in book.items() if minutes}
        took = sum(minutes * off.get(place, 1.0) for place, minutes in book.items())
        took *= float(np.exp(rng.normal(0, scatter)))
        day = TODAY - timedelta(days=days_ago)
        found.append(LotDone(f"A-{number}", "both", day, took, book, f"floor.xlsx, row {number}"))
    return found
