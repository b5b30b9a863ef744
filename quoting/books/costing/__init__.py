"""The internal costing book: live formulas, how each part is rolled, nests, rows and the owner's page."""

from quoting.books.costing.columns import COLUMNS, DRIVER_NAMES, FIRST_ROW, HEAD_ROW, INDEX, SHEET
from quoting.books.costing.costing_book import write_costing

__all__ = [
    "COLUMNS",
    "DRIVER_NAMES",
    "FIRST_ROW",
    "HEAD_ROW",
    "INDEX",
    "SHEET",
    "write_costing",
]
