"""The shop's book read from its tables: one reader a table, every problem named at once."""

from quoting.shop.book.grade_tables import PRICE_TABLES
from quoting.shop.book.ledger_settings import read_ledger_settings
from quoting.shop.book.read_book import read_tables, rules_of_starter, starter_text
from quoting.shop.book.tables_of_text import BookTables, tables_of_text
from quoting.shop.book.typed_numbers import UNIT_WORDS, NoNumberError, typed_amount, typed_number, unit_of
from quoting.shop.book.working_hours import hours_a_week

__all__ = [
    "PRICE_TABLES",
    "UNIT_WORDS",
    "BookTables",
    "NoNumberError",
    "hours_a_week",
    "read_ledger_settings",
    "read_tables",
    "rules_of_starter",
    "starter_text",
    "tables_of_text",
    "typed_amount",
    "typed_number",
    "unit_of",
]
