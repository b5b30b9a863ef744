"""The shop that plans every morning and promises every quote with the tool, through its real code."""

from __future__ import annotations

import json
import sys
import time
from collections.abc import Callable
from datetime import date, datetime
from typing import Any

from quoting.core import Effort
from quoting.shop import LedgerSettings, Shop
from scheduler.calendar import working_days_after
from scheduler.promising import OpenQuote, Promise, PromiseAsked, wanted_level, win_chance
from scheduler.promising.promise import promises
from scheduler.replanning import Published, ReplanRules, published_of, published_order, replan
from scheduler.sequence import Opened, Tables, Timed, time_order
from scheduler.week import WeekProblem
from tests.benchmarks.year.figures import counted, kept_share, told
from tests.benchmarks.year.invented import Inquiry, Year
from tests.benchmarks.year.played import AT, Played, names
from tests.benchmarks.year.taught import Book, misses

TELLS = 20
"""Working days between two words on how it goes."""


class Tool:
    """The shop that plans and promises with the tool."""

    def __init__(self, shop: Shop, effort: Effort, book: Book, span: tuple[date, date]) -> None:
        self.book, self.span = book, span
        self.shop, self.played, self.effort = shop, Played(shop), effort
        self.published: Published | None = None
        self.open: dict[str, tuple[Inquiry, date]] = {}
        self.promised: dict[str, Promise] = {}
        self.decided = [0, 0]
        self.moved, self.free, self.forced, self.both = 0, 0, 0, 0
        self.levels: list[float] = []
        self.usual = LedgerSettings()

    def run(self, days: Year) -> Tool:
        for number, day in enumerate(days.days):
            moment = datetime.combine(day, AT)
            self._decide(days, day)
            self._plan(moment, number)
            self.book.new_month(self.played, day)
            came = [one for one in days.inquiries if one.day == day and not one.rush_by]
            self._promise([self.book.quoted(one) for one in came], moment, number)
            until = datetime.combine(working_days_after(day, 1, self.shop), AT)
            self.played.play(moment, until, self._order, [one for one in days.breakdowns if one.day == day])
            if number % TELLS == TELLS - 1 and day > self.span[0]:
                self._tell(day)
        return self

    def _tell(self, day: date) -> None:
        kept = self._kept_so_far(day)[-200:]
        so_far = told(self.played, (self.span[0], day)) | {
            "day": day,
            "learns": self.book.learns,
            "kept_of_the_last_200": round(sum(kept) / max(1, len(kept)), 3),
            "minutes_of_computing": round(time.process_time() / 60, 2),
        }
        so_far |= self.figures() | misses(counted(self.played, (self.span[0], day)))
        print(json.dumps(so_far, default=str), file=sys.stderr, flush=True)

    def _decide(self, days: Year, day: date) -> None:
        for inquiry in days.inquiries:
            if inquiry.decided != day:
                continue
            if inquiry.rush_by:
                rush = self.book.quoted(inquiry)
                self.played.take(rush, dict.fromkeys(names(rush), inquiry.rush_by))
            elif inquiry.name in self.open:
                quoted, _ = self.open.pop(inquiry.name)
                self.decided[inquiry.won] += len(inquiry.lines)
                if inquiry.won:
                    self.played.take(quoted, {name: self.promised[name].safe for name in names(quoted)})

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


def with_tool(
    days: Year, shop: Shop, effort: Effort, span: tuple[date, date], learns: bool
) -> tuple[dict[str, Any], float]:
    """Return what came of the year with the tool, and the share of its days that were kept."""
    begun = time.process_time()
    tool = Tool(shop, effort, Book(shop, learns), span).run(days)
    minutes = round((time.process_time() - begun) / 60, 2)
    jobs = counted(tool.played, span)
    figures = told(tool.played, span) | tool.figures() | misses(jobs) | {"minutes_of_computing": minutes}
    return figures, kept_share(jobs)
