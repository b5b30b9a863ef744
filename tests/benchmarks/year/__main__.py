"""Play a year three or four ways and print what came of it.

    python -m tests.benchmarks.year --json [--jobs 2500] [--days 250] [--seed 1] [--load 0.8] [--learn]
    [--play N]   only the first N days of that year

Jobs quoted in the first ten days are not counted. With `--learn` the two years are played beside each other,
each in a process of its own; every 20 working days each tells what came of it so far.
"""

from __future__ import annotations

import argparse
import json
import time
from concurrent.futures import ProcessPoolExecutor
from dataclasses import replace
from datetime import date
from functools import partial
from multiprocessing import get_context
from pathlib import Path
from typing import Any

from quoting.shop import Shop, load_shop
from tests.benchmarks.year.dispatched import by_state, dispatched, expected_wait, one_lead_time, with_constant
from tests.benchmarks.year.figures import counted, told
from tests.benchmarks.year.invented import Year, year
from tests.benchmarks.year.planned import with_tool

SHOP = Path(__file__).resolve().parents[3] / "demo_orders" / "shop"
WARM_UP = 10


def main() -> None:
    """Play the year and print it."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--jobs", type=int, default=2500)
    parser.add_argument("--days", type=int, default=250)
    parser.add_argument("--play", type=int, default=None, help="only so many days of the year, the first")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--load", type=float, default=0.8, help="of the people's time, about")
    parser.add_argument("--effort", choices=("quick", "normal"), default="quick")
    parser.add_argument("--learn", action="store_true", help="once more, learning every month")
    parser.add_argument("--json", action="store_true", help="always so; for the likeness of the commands")
    given = parser.parse_args()
    shop = load_shop(SHOP)
    days = year(given.jobs, given.days, given.seed, given.load, shop)
    days = replace(days, days=days.days[: given.play])
    span = days.days[min(WARM_UP, len(days.days) - 1)], days.days[-1]
    found: dict[str, Any] = {"asked": vars(given) | {"json": True}}
    begun = time.monotonic()
    played = _played(partial(with_tool, days, shop, given.effort, span), given.learn)
    found["minutes_by_the_clock"] = round((time.monotonic() - begun) / 60, 2)
    for learns, (figures, _) in enumerate(played):
        found["tool, learning every month" if learns else "tool"] = figures
    found |= _rivals(days, shop, span, played[0][1])
    print(json.dumps(found, indent=1, default=str))


def _played(play: partial[tuple[dict[str, Any], float]], learn: bool) -> list[tuple[dict[str, Any], float]]:
    """Return the year as the tool has it, and with `learn` once more learning, both at once."""
    if not learn:
        return [play(False)]
    with ProcessPoolExecutor(2, mp_context=get_context("spawn")) as both:
        return list(both.map(play, (False, True)))


def _rivals(days: Year, shop: Shop, span: tuple[date, date], share: float) -> dict[str, Any]:
    """Return the rivals' year; their constants are such that they keep that share of their days."""
    plain = dispatched(days, shop, one_lead_time)
    fixed = with_constant(counted(plain, span), share, lambda job: 0.0)
    robust_run = dispatched(days, shop, by_state(expected_wait(plain), shop))
    robust = with_constant(counted(robust_run, span), share, lambda job: (job.promised - job.ordered).days)
    return {
        "dispatch, one lead time": told(plain, span) | fixed,
        "dispatch, constant safety lead time": told(robust_run, span) | robust,
    }


if __name__ == "__main__":
    main()
