"""Workbooks for the floor: the run schedule; and how the floor says positions."""

from scheduler.books.changes_sheet import not_told_words
from scheduler.books.job_words import dial, format_tail
from scheduler.books.run_schedule import write_run_schedule
from scheduler.books.worth import USEFUL_GAP

__all__ = [
    "USEFUL_GAP",
    "dial",
    "format_tail",
    "not_told_words",
    "write_run_schedule",
]
