"""Searches for the cheapest set of plates, and the exact combination of what they found."""

from quoting.nesting.search.combine import Combining, Proving, combined
from quoting.nesting.search.pool import Pool
from quoting.nesting.search.ruin_and_recreate import (
    Solution,
    Stop,
    first_solutions,
    improve,
    layouts_of,
    solution,
)
from quoting.nesting.search.surplus import cheapest_plate

__all__ = [
    "Combining",
    "Pool",
    "Proving",
    "Solution",
    "Stop",
    "cheapest_plate",
    "combined",
    "first_solutions",
    "improve",
    "layouts_of",
    "solution",
]
