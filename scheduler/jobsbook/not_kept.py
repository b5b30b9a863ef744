"""Which wishes of the jobs book the plan does not keep, each with its cell in the book that is written."""

from __future__ import annotations

from collections.abc import Iterator

from scheduler.jobsbook.rows import JOBS, JobRow, JobsBook
from scheduler.jobsbook.write_jobs import cell_of


def not_kept(book: JobsBook) -> tuple[str, ...]:
    """Return a sentence for every must-ship date, roll, day and hour of a row that its plan does not keep.

    Rows without a planned begin (on hold, no place found, only at the welder) are told elsewhere.
    """
    return tuple(
        f"{JOBS} {cell_of(heading, row)}: {job.line} {words}"
        for row, job in enumerate(book.jobs)
        if job.planned_start is not None and job.planned_end is not None
        for heading, words in _missed(job)
    )


def _missed(job: JobRow) -> Iterator[tuple[str, str]]:
    start, end = job.planned_start, job.planned_end
    assert start is not None
    assert end is not None
    if job.must_ship and end.date() > job.must_ship:
        yield "Must ship", f"is done on {end:%Y-%m-%d %H:%M}, after {job.must_ship}"
    if job.state in ("on the roll", "rolled", "at the welder", "back"):
        return
    if job.pin_roll and job.planned_roll != job.pin_roll:
        yield "Pin to roll", f"is not on {job.pin_roll} but on {job.planned_roll}"
    if job.pin_day and start.date() != job.pin_day:
        yield "Pin to day", f"begins on {start:%Y-%m-%d}, not on {job.pin_day}"
    if job.not_before and start < job.not_before:
        yield "Not before", f"begins at {start:%Y-%m-%d %H:%M}, sooner than it may"
