"""Local searches, plain and compiled."""

from scheduler.sequence.search.fast import Wanted, fast_search
from scheduler.sequence.search.large_neighbourhood import neighbourhood_search
from scheduler.sequence.search.local import Search, local_search
from scheduler.sequence.search.one_row import is_one_row, one_row_search
from scheduler.sequence.search.places import Places

__all__ = [
    "Places",
    "Search",
    "Wanted",
    "fast_search",
    "is_one_row",
    "local_search",
    "neighbourhood_search",
    "one_row_search",
]
