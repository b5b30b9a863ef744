"""`shop.toml` read: one reader a table, every problem named at once."""

from quoting.shop.book.ledger_settings import read_ledger_settings
from quoting.shop.book.read_book import read_book, starter_text
from quoting.shop.book.working_hours import hours_a_week

__all__ = [
    "hours_a_week",
    "read_book",
    "read_ledger_settings",
    "starter_text",
]
