"""What no nest can cost less than, and proofs of small groups."""

from quoting.nesting.bounds.area_bounds import Side, bin_bound, money_bound, reachable, sides, single_sizes
from quoting.nesting.bounds.proof import provable, prove

__all__ = [
    "Side",
    "bin_bound",
    "money_bound",
    "provable",
    "prove",
    "reachable",
    "sides",
    "single_sizes",
]
