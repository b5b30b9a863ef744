"""The owner's month: a page to read in two minutes, and the jobs and lines behind each figure."""

from quoting.books.month.month_book import write_month

__all__ = ["write_month"]
