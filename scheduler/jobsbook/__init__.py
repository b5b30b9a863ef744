"""The scheduler's working surface: the jobs book, written with the plan and read back with edits."""

from scheduler.jobsbook.cells import CellReader
from scheduler.jobsbook.not_kept import not_kept
from scheduler.jobsbook.read_jobs import BookRules, JobRules, read_jobs_book
from scheduler.jobsbook.rows import JobRow, JobsBook, PlateRow, StopRow
from scheduler.jobsbook.write_jobs import write_jobs_book

__all__ = [
    "BookRules",
    "CellReader",
    "JobRow",
    "JobRules",
    "JobsBook",
    "PlateRow",
    "StopRow",
    "not_kept",
    "read_jobs_book",
    "write_jobs_book",
]
