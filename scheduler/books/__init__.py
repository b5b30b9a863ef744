"""Workbooks for the floor: the run schedule."""

from scheduler.books.run_schedule import write_run_schedule

__all__ = [
    "write_run_schedule",
]
