"""The day that can be promised: many draws of the weeks ahead, with all that may go wrong on the way."""

from scheduler.promising.asked import OpenQuote, Promise, PromiseAsked
from scheduler.promising.kept import wanted_level, win_chance
from scheduler.promising.promise import promises

__all__ = ["OpenQuote", "Promise", "PromiseAsked", "promises", "wanted_level", "win_chance"]
