"""Copies of the rack: as it stands when all of a run is cut, and as it stands now by the ledger."""

from quoting.books.rack_after.rack_after_book import rack_after, write_rack_after
from quoting.books.rack_after.rack_of_jobs import CUT, FREE, PROMISED, CutRun, write_rack_of_jobs

__all__ = [
    "CUT",
    "FREE",
    "PROMISED",
    "CutRun",
    "rack_after",
    "write_rack_after",
    "write_rack_of_jobs",
]
