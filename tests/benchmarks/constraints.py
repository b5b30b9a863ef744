"""Whether more constraints ever give a cheaper plan: invented weeks, planned free and with less to choose.

python -m tests.benchmarks.constraints [--weeks N] [--effort quick|normal|thorough] [--json]

Taken away are a person of every shift, a roll for two days, three days of a plate's lead, and the first days
of one and of two lines. A plan of less that costs less by more than 1 % shows that the free one was not good.
"""

from __future__ import annotations

import argparse
import json
from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime, timedelta

from quoting.shop import Shop, load_shop
from quoting.shop.model import Closure
from scheduler.planning import PlanAsked, plan_week
from scheduler.wishes import LinePin, Wishes
from tests.scheduler.conftest import DEMO
from tests.scheduler.planning.test_pinned_plan import MONDAY, invented_week

WITHIN = 0.99


def _with_less(asked: PlanAsked) -> Iterator[tuple[str, PlanAsked]]:
    shop, lines = asked.shop, asked.lines
    time = shop.working_time
    fewer = tuple(replace(shift, crew=max(2, shift.crew - 1)) for shift in time.shifts)
    down = Closure(MONDAY + timedelta(1), MONDAY + timedelta(2), "repair", shop.rolls[1].name)
    late = asked.plates[len(asked.plates) // 2].id
    yield "a person less", replace(asked, shop=_hours(shop, shifts=fewer))
    yield "a roll down", replace(asked, shop=_hours(shop, closures=(*time.closures, down)))
    plates = [
        replace(plate, here_in_days=plate.here_in_days + 3) if plate.id == late else plate
        for plate in asked.plates
    ]
    yield "a plate later", replace(asked, plates=plates)
    yield "a line held", replace(asked, wishes=_held((lines[len(lines) // 3].id, 3)))
    yield "two lines held", replace(asked, wishes=_held((lines[0].id, 2), (lines[-1].id, 4)))


def _hours(shop: Shop, **changes: object) -> Shop:
    return replace(shop, working_time=replace(shop.working_time, **changes))  # type: ignore[arg-type]


def _held(*lines: tuple[str, int]) -> Wishes:
    first = datetime(MONDAY.year, MONDAY.month, MONDAY.day, 7)
    pins = (LinePin(line, "", not_before=first + timedelta(days)) for line, days in lines)
    return Wishes("held", tuple(pins))


def main() -> None:
    """Plan the weeks; print a line for each and how many plans of less were cheaper by more than 1 %."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--weeks", type=int, default=6)
    parser.add_argument("--effort", choices=("quick", "normal", "thorough"), default="quick")
    parser.add_argument("--json", action="store_true")
    options = parser.parse_args()
    shop = load_shop(DEMO / "shop")
    ratios: list[float] = []
    for week in range(options.weeks):
        lines, plates = invented_week(week, 16 + 4 * week)
        asked = PlanAsked(lines, plates, shop, MONDAY)
        free = float(plan_week(asked, effort=options.effort).plan.total)
        found = {
            name: float(plan_week(less, effort=options.effort).plan.total) / max(free, 1.0)
            for name, less in _with_less(asked)
        }
        ratios += found.values()
        print(json.dumps({"week": week, "lines": len(lines), "free": free, "with less": found}), flush=True)
    cheaper = sum(ratio < WITHIN for ratio in ratios)
    print(json.dumps({"plans": len(ratios), "cheaper by more than 1 %": cheaper, "least": min(ratios)}))


if __name__ == "__main__":
    main()
