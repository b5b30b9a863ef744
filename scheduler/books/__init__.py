"""Workbooks for the floor: the run schedule."""

from scheduler.books.book import write_run_schedule

__all__ = [
    "write_run_schedule",
]
