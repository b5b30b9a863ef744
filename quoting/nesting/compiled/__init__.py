"""The compiled search. Imports numba, so import this room lazily."""

from quoting.nesting.compiled.reduce import cheaper, fewest_of_one_kind, one_kind

__all__ = [
    "cheaper",
    "fewest_of_one_kind",
    "one_kind",
]
