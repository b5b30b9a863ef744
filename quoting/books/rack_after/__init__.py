"""A copy of the rack as it stands when all of a run is cut."""

from quoting.books.rack_after.rack_after_book import write_rack_after

__all__ = [
    "write_rack_after",
]
