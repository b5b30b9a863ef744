"""The day that can be promised: many draws of the weeks ahead, with all that may go wrong on the way."""

from scheduler.promising.asked import OpenQuote, Promise, PromiseAsked, Rush
from scheduler.promising.kept import wanted_level, win_chance
from scheduler.promising.promise import promises_and_rushes

__all__ = [
    "OpenQuote",
    "Promise",
    "PromiseAsked",
    "Rush",
    "promises_and_rushes",
    "wanted_level",
    "win_chance",
]
