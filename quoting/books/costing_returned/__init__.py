"""A costing book that came back from the estimator, read and checked."""

from quoting.books.costing_returned.edits import ReturnedCosting

__all__ = [
    "ReturnedCosting",
]
