"""A year of promises: how many are kept, how long customers wait, against honest dispatch.

    python -m tests.benchmarks.year --json [--jobs 2500] [--days 250] [--seed 1] [--load 0.8]

An invented, seeded year (`invented_year.py`): quotes come, some are won, minutes, plates, welders and
breakdowns go as no setting knows. The shop plans every morning through `scheduler.replanning.replan` and
promises every quote through `scheduler.promising.promises`; quotes are not nested and no books are written.
The rivals see the same year and work it by non-delay dispatch, earliest promised day first, without
overtime: (a) with one quoted lead time for all, (b) with the lead time that Hopp & Roof Sturgis found
robust: what the state of the shop lets expect, and a constant (M&SOM 2001, IIE Transactions 32, 2000; their
estimate is by simulation, here by least squares on jobs in the shop, plate lead and weld days). Both rivals'
constants are set afterwards so that they keep what the tool keeps: they are given the hindsight. Jobs quoted
in the first ten days are not counted; rushes, which name their own day, are counted apart.
"""

from __future__ import annotations

import argparse
import json
import sys
import time
from collections.abc import Callable
from datetime import date, datetime, timedelta
from datetime import time as clock
from pathlib import Path
from statistics import mean
from typing import Any

import numpy as np

from quoting.core import Effort
from quoting.shop import LedgerSettings, Shop, load_shop
from scheduler.calendar import working_days_after
from scheduler.promising import OpenQuote, Promise, PromiseAsked, promises, wanted_level, win_chance
from scheduler.replanning import Published, ReplanRules, published_of, published_order, replan
from scheduler.sequence import Opened, Tables, Timed, time_order
from scheduler.sequence.rules import by_hand
from scheduler.week import WeekProblem
from tests.benchmarks.invented_year import Inquiry, Year, year
from tests.benchmarks.played_floor import Job, Played

SHOP = Path(__file__).resolve().parents[2] / "demo_orders" / "shop"
WARM_UP = 10
TELLS = 20
"""Working days between two words on how it goes."""
AT = clock(6, 0)
GUESS, SAFETY = 12, 4
"""Days that the rivals work by: only where a rush goes among the others depends on them."""


def main() -> None:
    """Play the year three ways and print what came of it."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--jobs", type=int, default=2500)
    parser.add_argument("--days", type=int, default=250)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--load", type=float, default=0.8, help="of the people's time, about")
    parser.add_argument("--effort", choices=("quick", "normal"), default="quick")
    parser.add_argument("--json", action="store_true", help="always so; for the likeness of the commands")
    given = parser.parse_args()
    shop = load_shop(SHOP)
    days = year(given.jobs, given.days, given.seed, given.load, shop)
    begun = time.process_time()
    tool = _Tool(shop, given.effort).run(days)
    seconds = time.process_time() - begun
    first = days.days[min(WARM_UP, len(days.days) - 1)]
    share = _kept(_counted(tool.played, first))
    plain = _dispatched(days, shop, _one_lead_time)
    fixed = _with_constant(_counted(plain, first), share, lambda job: 0.0)
    wait = _expected_wait(plain)
    robust_run = _dispatched(days, shop, _by_state(wait, shop))
    robust = _with_constant(_counted(robust_run, first), share, lambda job: (job.promised - job.ordered).days)
    found = {
        "asked": vars(given) | {"json": True},
        "minutes_of_computing": round(seconds / 60, 2),
        "tool": _told(tool.played, first) | tool.figures(),
        "dispatch, one lead time": _told(plain, first) | fixed,
        "dispatch, constant safety lead time": _told(robust_run, first) | robust,
    }
    print(json.dumps(found, indent=1, default=str))


class _Tool:
    """The shop that plans and promises with the tool."""

    def __init__(self, shop: Shop, effort: Effort) -> None:
        self.shop, self.played, self.effort = shop, Played(shop), effort
        self.published: Published | None = None
        self.open: dict[str, tuple[Inquiry, date]] = {}
        self.promised: dict[str, Promise] = {}
        self.decided = [0, 0]
        self.moved, self.free, self.forced, self.both = 0, 0, 0, 0
        self.levels: list[float] = []
        self.usual = LedgerSettings()

    def run(self, days: Year) -> _Tool:
        for number, day in enumerate(days.days):
            moment = datetime.combine(day, AT)
            self._decide(days, day)
            self._plan(moment, number)
            came = [one for one in days.inquiries if one.day == day and not one.rush_by]
            self._promise(came, moment, number)
            until = datetime.combine(working_days_after(day, 1, self.shop), AT)
            self.played.play(moment, until, self._order, [one for one in days.breakdowns if one.day == day])
            if number % TELLS == TELLS - 1:
                done = [job for job in self.played.finished if not job.rush]
                print(f"{day}: {len(done)} jobs done, {_kept(done):.1%} as promised", file=sys.stderr)
        return self

    def _decide(self, days: Year, day: date) -> None:
        for inquiry in days.inquiries:
            if inquiry.decided != day:
                continue
            if inquiry.rush_by:
                self.played.take(inquiry, dict.fromkeys(_names(inquiry), inquiry.rush_by))
            elif inquiry.name in self.open:
                self.open.pop(inquiry.name)
                self.decided[inquiry.won] += len(inquiry.lines)
                if inquiry.won:
                    self.played.take(inquiry, {name: self.promised[name].safe for name in _names(inquiry)})

    def _plan(self, moment: datetime, number: int) -> None:
        if not self.played.jobs:
            self.published = None
            return
        rules = ReplanRules(self.usual.move_cost, self.usual.frozen_hours, self.effort, number)
        facts = self.played.facts()
        found = replan(self.played.floor(moment), self.shop, self.published, facts, rules)
        if kept := found.stability:
            self.moved += kept.moved
            self.free += kept.jobs - kept.forced
            self.forced += kept.forced
            self.both += kept.jobs
        self.published = published_of(found.week, moment, facts)

    def _promise(self, came: list[Inquiry], moment: datetime, number: int) -> None:
        order_by = working_days_after(moment.date(), self.shop.promise.order_within_days, self.shop)
        for inquiry in came:
            self.open[inquiry.name] = (inquiry, order_by)
        if not came:
            return
        lost, won = self.decided
        chance = win_chance(won, lost, self.shop.promise)
        level = wanted_level(self._kept_so_far(moment.date()), self.shop.promise)
        self.levels.append(level)
        quotes = tuple(self._quote(one, by, moment.date(), chance) for one, by in self.open.values())
        wanted = frozenset(one.name for one in came)
        floor = self.played.floor(moment)
        asked = PromiseAsked(floor, self.published, quotes, wanted, self.shop, level, number)
        self.promised |= promises(asked)

    def _quote(self, inquiry: Inquiry, by: date, today: date, chance: float) -> OpenQuote:
        plates = tuple(
            type(one.plate)(
                one.plate.id, one.plate.material, one.plate.thickness_mm, one.plate.method, one.plate.minutes,
                max(0, (working_days_after(by, one.lead, self.shop) - today).days),
            )
            for one in inquiry.lines
        )  # fmt: skip
        return OpenQuote(inquiry.name, tuple(one.line for one in inquiry.lines), plates, by, chance)

    def _kept_so_far(self, today: date) -> list[bool]:
        done = [(min(job.done or today, job.promised), job) for job in self.played.finished if not job.rush]
        late = [
            (job.promised, job) for job in self.played.jobs.values() if not job.rush and job.promised < today
        ]
        known = sorted([*done, *late], key=lambda one: (one[0], one[1].come.line.id))
        return [job.done is not None and job.done <= job.promised for _, job in known]

    def _order(self, week: WeekProblem) -> tuple[Opened, Callable[[Tables], Timed]]:
        found = published_order(week, self.published)
        return found.opened, lambda t: time_order(t, _all(found.order, t), found.machine)

    def figures(self) -> dict[str, Any]:
        return {
            "moved_of_those_not_forced": round(self.moved / max(1, self.free), 4),
            "forced_of_all": round(self.forced / max(1, self.both), 4),
            "level_at_the_end": round(self.levels[-1], 3) if self.levels else None,
        }


def _all(order: tuple[int, ...], t: Tables) -> list[int]:
    placed = set(order)
    return [*order, *(i for i in range(t.size) if i not in placed)]


def _names(inquiry: Inquiry) -> list[str]:
    return [one.line.id for one in inquiry.lines]


Quoting = Callable[[Played, Inquiry], dict[str, date]]


def _dispatched(days: Year, shop: Shop, quoting: Quoting) -> Played:
    """Play the year by dispatch; the days quoted, without their constant, are the order of work."""
    played = Played(shop)
    quoted: dict[str, dict[str, date]] = {}
    for day in days.days:
        moment = datetime.combine(day, AT)
        for inquiry in days.inquiries:
            if inquiry.day == day and inquiry.won and not inquiry.rush_by:
                quoted[inquiry.name] = quoting(played, inquiry)
            if inquiry.decided == day and inquiry.won:
                if inquiry.rush_by:
                    played.take(inquiry, dict.fromkeys(_names(inquiry), inquiry.rush_by))
                else:
                    played.take(inquiry, quoted[inquiry.name])
        until = datetime.combine(working_days_after(day, 1, shop), AT)
        down = [one for one in days.breakdowns if one.day == day]
        played.play(moment, until, lambda week: (frozenset(), by_hand), down)
    return played


def _facts(job: Job, jobs_in_the_shop: int) -> list[float]:
    return [1.0, jobs_in_the_shop, job.come.lead, float(job.come.line.re_round)]


def _in_the_shop(played: Played, day: date) -> int:
    return sum(job.ordered <= day and (job.done is None or job.done >= day) for job in _jobs(played))


def _jobs(played: Played) -> list[Job]:
    return [*played.finished, *played.jobs.values()]


def _expected_wait(played: Played) -> list[float]:
    """Return the weights of what lets a job's days be expected, by least squares over a year of dispatch."""
    done = [job for job in played.finished if not job.rush]
    facts = np.array([_facts(job, _in_the_shop(played, job.quoted)) for job in done])
    days = np.array([float((job.done - job.ordered).days) for job in done if job.done])
    return [float(one) for one in np.linalg.lstsq(facts, days, rcond=None)[0]]


def _one_lead_time(played: Played, inquiry: Inquiry) -> dict[str, date]:
    return dict.fromkeys(_names(inquiry), inquiry.decided + timedelta(days=GUESS))


def _by_state(weights: list[float], shop: Shop) -> Quoting:
    def quoting(played: Played, inquiry: Inquiry) -> dict[str, date]:
        found = {}
        for one in inquiry.lines:
            facts = [1.0, len(played.jobs), one.lead, float(one.line.re_round)]
            days = sum(weight * fact for weight, fact in zip(weights, facts, strict=True))
            found[one.line.id] = inquiry.decided + timedelta(days=max(0, round(days)) + SAFETY)
        return found

    return quoting


def _with_constant(jobs: list[Job], share: float, base: Callable[[Job], float]) -> dict[str, Any]:
    """Return what the constant has to be to keep that share of the days, and the lead that it quotes."""
    over = sorted((job.done - job.ordered).days - base(job) for job in jobs if job.done)
    if not over:
        return {}
    constant = over[min(len(over) - 1, max(0, round(share * len(over)) - 1))]
    late = [one - constant for one in over if one > constant]
    return {
        "kept": round(1 - len(late) / len(over), 4),
        "quoted_days": round(mean(base(job) for job in jobs) + constant, 2),
        "mean_days_late": round(sum(late) / len(over), 3),
    }


def _counted(played: Played, first: date) -> list[Job]:
    return [job for job in played.finished if not job.rush and job.quoted >= first]


def _kept(jobs: list[Job]) -> float:
    return mean(bool(job.done and job.done <= job.promised) for job in jobs) if jobs else 0.0


def _told(played: Played, first: date) -> dict[str, Any]:
    jobs = _counted(played, first)
    rushes = [job for job in played.finished if job.rush]
    late = [max(0, (job.done - job.promised).days) for job in jobs if job.done]
    return {
        "jobs": len(jobs),
        "still_open": len(played.jobs),
        "kept": round(_kept(jobs), 4),
        "quoted_days": round(mean((job.promised - job.ordered).days for job in jobs), 2) if jobs else None,
        "mean_days_late": round(mean(late), 3) if late else None,
        "days_to_done": round(mean((job.done - job.ordered).days for job in jobs if job.done), 2),
        "rushes": len(rushes),
        "rushes_kept": round(_kept(rushes), 4),
        "setup_minutes": played.setup_minutes,
        "overtime_minutes": played.overtime_minutes,
    }


if __name__ == "__main__":
    main()
