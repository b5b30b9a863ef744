"""The internal costing book: live formulas, how each part is rolled, nests, rows and the owner's page."""

from quoting.books.costing.columns import COLUMNS, DRIVER_NAMES, FIRST_ROW, HEAD_ROW, INDEX, SHEET
from quoting.books.costing.costing_book import write_costing
from quoting.books.costing.orders import ALL_ORDERS, ORDERS_HEAD_ROW

__all__ = [
    "ALL_ORDERS",
    "COLUMNS",
    "DRIVER_NAMES",
    "FIRST_ROW",
    "HEAD_ROW",
    "INDEX",
    "ORDERS_HEAD_ROW",
    "SHEET",
    "write_costing",
]
