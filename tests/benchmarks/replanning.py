"""How much of a published plan is kept after each event, and what that costs against planning from scratch.

    python -m tests.benchmarks.replanning --json [--jobs 24 40 60] [--weeks 2] [--seed 1000] [--effort normal]

Invented floors (`tests/scheduler/replanning/floors.py`), planned on Monday, an event on Tuesday at ten. Kept
is the share of jobs with roll and day kept among those that the event does not force; forced is what the
right-shift repair of the published order moves, and jobs that changed themselves
(`scheduler/replanning/published.py`). The same by a published definition, affected operations rescheduling
(`tests/scheduler/replanning/affected.py`): `affected` jobs begin later when all rows are kept, `pushed` ones
on another day, and `kept_of_unaffected` and `kept_of_unpushed` are shares of the others. Cutting and set-ups
that are under way at ten begin anew, which affects the rows behind them too.

Extra is money. `extra` is a share of that of a plan of the same effort that looks at no published one, and
moves what lies within the frozen hours too, which no plan of a shop with that setting may do;
`extra_within_frozen` a share of that of the cheapest of some from scratch that keep what lies there
(`replanning_against.py`; it is searched longer, so it may be the less of both). Seeds 1000, 1001, 6000, 6001,
7300, 7301, 8300, 8301 and 9000 to 9005 were looked at while the search was changed.
"""

from __future__ import annotations

import argparse
import json
import time
from datetime import timedelta
from pathlib import Path
from statistics import mean
from typing import Any

from quoting.core import Effort
from quoting.shop import LedgerSettings, Shop, load_shop
from scheduler.replanning import Floor, Published, ReplanRules, published_of, replan
from tests.benchmarks.replanning_against import Against
from tests.scheduler.replanning.floors import EVENTS, MONDAY, facts, floor, later

SHOP = Path(__file__).resolve().parents[2] / "demo_orders" / "shop"
FIRST_SEED = 1000
KEPT = ("kept", "kept_of_unaffected", "kept_of_unpushed")
EXTRA = ("extra", "extra_within_frozen")
TUESDAY = MONDAY + timedelta(days=1, hours=4)


def main() -> None:
    """Run the events on the floors asked for and print what came of them."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--jobs", type=int, nargs="+", default=[24, 40, 60])
    parser.add_argument("--weeks", type=int, default=2)
    parser.add_argument("--seed", type=int, default=FIRST_SEED, help="of the first week")
    parser.add_argument("--effort", choices=("quick", "normal", "thorough"), default="normal")
    parser.add_argument("--json", action="store_true", help="always so; for the likeness of the commands")
    given = parser.parse_args()
    shop = load_shop(SHOP)
    runs = [
        one
        for jobs in given.jobs
        for seed in range(given.seed, given.seed + given.weeks)
        for one in _week(jobs, seed, shop, given.effort)
    ]
    by_event = {name: _together([run for run in runs if run["event"] == name]) for name in EVENTS}
    print(
        json.dumps(
            {"effort": given.effort, "all": _together(runs), "events": by_event, "runs": runs}, indent=1
        )
    )


def _week(jobs: int, seed: int, shop: Shop, effort: Effort) -> list[dict[str, Any]]:
    usual = LedgerSettings()
    rules = ReplanRules(usual.move_cost, usual.frozen_hours, effort)
    monday = floor(jobs, seed, shop)
    plan = replan(monday, shop, None, {}, rules).week
    tuesday = later(monday, plan, TUESDAY)
    published: Published = published_of(plan, MONDAY, facts(tuesday))
    found = []
    for name, event in EVENTS.items():
        try:
            now = event(tuesday, plan)
        except (IndexError, StopIteration):
            continue  # this floor has no job that it could happen to
        one = _repaired(now, shop, published, rules)
        found.append({"jobs": jobs, "seed": seed, "event": name, **one})
    return found


def _repaired(now: Floor, shop: Shop, published: Published, rules: ReplanRules) -> dict[str, Any]:
    """Return what comes of one event: what is kept, by both definitions, and what it costs, by both plans."""
    begun = time.process_time()
    done = replan(now, shop, published, facts(now), rules)
    took = time.process_time() - begun
    kept = done.stability
    assert kept is not None
    against = Against.of(now, shop, published, rules)
    by_rows = against.by_affected(done.week)
    within = float(done.week.plan.total / against.within_frozen()) - 1
    return {
        "kept": round(kept.kept_share, 4),
        "kept_of_unaffected": round(by_rows.kept, 4),
        "kept_of_unpushed": round(by_rows.kept_but_pushed, 4),
        "extra": round(done.extra_share, 4),
        "extra_within_frozen": round(within, 4),
        "open": kept.jobs,
        "forced": kept.forced,
        "affected": by_rows.affected,
        "pushed": by_rows.pushed,
        "moved": kept.moved,
        "other_roll": kept.other_roll,
        "frozen_moved": kept.frozen_moved,
        "hours_of_starts": round(kept.deviation_min / 60, 1),
        "seconds": round(took, 1),
    }


def _together(runs: list[dict[str, Any]]) -> dict[str, Any]:
    if not runs:
        return {"runs": 0}
    return {
        "runs": len(runs),
        **{f"least_{name}": min(run[name] for run in runs) for name in KEPT},
        **{f"under_90_percent_{name}": sum(run[name] < 0.9 for run in runs) for name in KEPT},
        **{f"mean_{name}": round(mean(run[name] for run in runs), 4) for name in EXTRA},
        **{f"most_{name}": max(run[name] for run in runs) for name in EXTRA},
        **{f"{name}_over_2_percent": sum(run[name] > 0.02 for run in runs) for name in EXTRA},
        "frozen_moved": sum(run["frozen_moved"] for run in runs),
        "seconds": round(mean(run["seconds"] for run in runs), 1),
    }


if __name__ == "__main__":
    main()
