"""The compiled local searches: of a whole plan, and of one machine's row."""

from scheduler.sequence.search.ahead import compile_beside, compile_search, search_is_compiled
from scheduler.sequence.search.drawn import Drawn, drawn_ends
from scheduler.sequence.search.fast import Wanted, fast_search
from scheduler.sequence.search.mixing import Mixing, mixed_from, mixed_search
from scheduler.sequence.search.one_row import is_one_row, one_row_search
from scheduler.sequence.search.packing import HeldPlaces
from scheduler.sequence.search.places import Places

__all__ = [
    "Drawn",
    "HeldPlaces",
    "Mixing",
    "Places",
    "Wanted",
    "compile_beside",
    "compile_search",
    "drawn_ends",
    "fast_search",
    "is_one_row",
    "mixed_from",
    "mixed_search",
    "one_row_search",
    "search_is_compiled",
]
