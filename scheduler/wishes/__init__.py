"""The scheduler's wishes: read, checked, and said with clock times."""

from scheduler.wishes.check import check_wishes
from scheduler.wishes.read_wishes import read_wishes
from scheduler.wishes.wish_kinds import (
    NO_WISHES,
    LinePin,
    LineSplit,
    ShipDate,
    Wishes,
    conflict_words,
    wish_words,
)

__all__ = [
    "NO_WISHES",
    "LinePin",
    "LineSplit",
    "ShipDate",
    "Wishes",
    "check_wishes",
    "conflict_words",
    "read_wishes",
    "wish_words",
]
