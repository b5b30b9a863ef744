"""What came of a year: days kept, days quoted, set-ups, over the jobs that are counted.

Jobs quoted before the span are not counted, nor those promised for after its end; jobs that are still open
then and past their day count as not kept. Rushes, which name their own day, are counted apart.
"""

from __future__ import annotations

from collections import defaultdict
from datetime import date
from statistics import mean
from typing import Any

from tests.benchmarks.year.played import Job, Played


def counted(played: Played, span: tuple[date, date]) -> list[Job]:
    first, last = span
    jobs = [*played.finished, *(job for job in played.jobs.values() if job.promised < last)]
    return [job for job in jobs if not job.rush and job.quoted >= first and job.promised <= last]


def kept_share(jobs: list[Job]) -> float:
    return mean(bool(job.done and job.done <= job.promised) for job in jobs) if jobs else 0.0


def told(played: Played, span: tuple[date, date]) -> dict[str, Any]:
    jobs, last = counted(played, span), span[1]
    rushes = [job for job in played.finished if job.rush]
    late = [max(0, ((job.done or last) - job.promised).days) for job in jobs]
    by_quarter: dict[str, list[Job]] = defaultdict(list)
    for job in jobs:
        by_quarter[f"{job.promised:%Y} {(job.promised.month + 2) // 3}"].append(job)
    return {
        "jobs": len(jobs),
        "still_open": len(played.jobs),
        "kept": round(kept_share(jobs), 4),
        "kept_by_quarter": {name: round(kept_share(own), 3) for name, own in sorted(by_quarter.items())},
        "quoted_days": round(mean((job.promised - job.ordered).days for job in jobs), 2) if jobs else None,
        "mean_days_late": round(mean(late), 3) if late else None,
        "days_to_done": round(mean((job.done - job.ordered).days for job in jobs if job.done), 2)
        if jobs
        else None,
        "rushes": len(rushes),
        "rushes_kept": round(kept_share(rushes), 4),
        "setup_minutes": played.setup_minutes,
        "overtime_minutes": played.overtime_minutes,
    }
