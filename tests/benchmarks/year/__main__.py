"""Play a year three or four ways and print what came of it.

    python -m tests.benchmarks.year --json [--jobs 2500] [--days 250] [--seed 1] [--load 0.8] [--learn]

Jobs quoted in the first ten days are not counted, nor those promised for after the end; jobs that are still
open then and past their day count as not kept. Rushes, which name their own day, are counted apart.
"""

from __future__ import annotations

import argparse
import json
import time
from collections import defaultdict
from datetime import date
from pathlib import Path
from statistics import mean
from typing import Any

from quoting.shop import Shop, load_shop
from tests.benchmarks.year.dispatched import by_state, dispatched, expected_wait, one_lead_time, with_constant
from tests.benchmarks.year.invented import Year, year
from tests.benchmarks.year.planned import Tool
from tests.benchmarks.year.played import Job, Played
from tests.benchmarks.year.taught import Book, misses

SHOP = Path(__file__).resolve().parents[3] / "demo_orders" / "shop"
WARM_UP = 10


def main() -> None:
    """Play the year and print it."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--jobs", type=int, default=2500)
    parser.add_argument("--days", type=int, default=250)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--load", type=float, default=0.8, help="of the people's time, about")
    parser.add_argument("--effort", choices=("quick", "normal"), default="quick")
    parser.add_argument("--learn", action="store_true", help="once more, learning every month")
    parser.add_argument("--json", action="store_true", help="always so; for the likeness of the commands")
    given = parser.parse_args()
    shop = load_shop(SHOP)
    days = year(given.jobs, given.days, given.seed, given.load, shop)
    span = days.days[min(WARM_UP, len(days.days) - 1)], days.days[-1]
    found: dict[str, Any] = {"asked": vars(given) | {"json": True}}
    share = 0.0
    for learns in (False, True) if given.learn else (False,):
        begun = time.process_time()
        tool = Tool(shop, given.effort, Book(shop, learns)).run(days)
        minutes = round((time.process_time() - begun) / 60, 2)
        told = _told(tool.played, span) | tool.figures() | misses(_counted(tool.played, span))
        found["tool, learning every month" if learns else "tool"] = told | {"minutes_of_computing": minutes}
        share = share or _kept(_counted(tool.played, span))
    found |= _rivals(days, shop, span, share)
    print(json.dumps(found, indent=1, default=str))


def _rivals(days: Year, shop: Shop, span: tuple[date, date], share: float) -> dict[str, Any]:
    """Return the rivals' year; their constants are such that they keep that share of their days."""
    plain = dispatched(days, shop, one_lead_time)
    fixed = with_constant(_counted(plain, span), share, lambda job: 0.0)
    robust_run = dispatched(days, shop, by_state(expected_wait(plain), shop))
    robust = with_constant(_counted(robust_run, span), share, lambda job: (job.promised - job.ordered).days)
    return {
        "dispatch, one lead time": _told(plain, span) | fixed,
        "dispatch, constant safety lead time": _told(robust_run, span) | robust,
    }


def _counted(played: Played, span: tuple[date, date]) -> list[Job]:
    first, last = span
    jobs = [*played.finished, *(job for job in played.jobs.values() if job.promised < last)]
    return [job for job in jobs if not job.rush and job.quoted >= first and job.promised <= last]


def _kept(jobs: list[Job]) -> float:
    return mean(bool(job.done and job.done <= job.promised) for job in jobs) if jobs else 0.0


def _told(played: Played, span: tuple[date, date]) -> dict[str, Any]:
    jobs, last = _counted(played, span), span[1]
    rushes = [job for job in played.finished if job.rush]
    late = [max(0, ((job.done or last) - job.promised).days) for job in jobs]
    by_quarter: dict[str, list[Job]] = defaultdict(list)
    for job in jobs:
        by_quarter[f"{job.promised:%Y} {(job.promised.month + 2) // 3}"].append(job)
    return {
        "jobs": len(jobs),
        "still_open": len(played.jobs),
        "kept": round(_kept(jobs), 4),
        "kept_by_quarter": {name: round(_kept(own), 3) for name, own in sorted(by_quarter.items())},
        "quoted_days": round(mean((job.promised - job.ordered).days for job in jobs), 2) if jobs else None,
        "mean_days_late": round(mean(late), 3) if late else None,
        "days_to_done": round(mean((job.done - job.ordered).days for job in jobs if job.done), 2)
        if jobs
        else None,
        "rushes": len(rushes),
        "rushes_kept": round(_kept(rushes), 4),
        "setup_minutes": played.setup_minutes,
        "overtime_minutes": played.overtime_minutes,
    }


if __name__ == "__main__":
    main()
