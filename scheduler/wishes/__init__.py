"""The scheduler's wishes: read, checked, and said with clock times."""

from scheduler.wishes.check import check_wishes
from scheduler.wishes.model import NO_WISHES, LineSplit, Wishes, conflict_words, wish_words
from scheduler.wishes.read import read_wishes

__all__ = [
    "NO_WISHES",
    "LineSplit",
    "Wishes",
    "check_wishes",
    "conflict_words",
    "read_wishes",
    "wish_words",
]
