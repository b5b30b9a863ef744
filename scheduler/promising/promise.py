"""From draws of the weeks ahead to the days of a quote's lines."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from math import ceil

import numpy as np
from numpy.typing import NDArray

from scheduler.calendar import working_days_after
from scheduler.jobs import DAY_MIN
from scheduler.promising.asked import OpenQuote, Promise, PromiseAsked, Rush
from scheduler.promising.draws import draw
from scheduler.promising.present_order import PresentOrder, present_order
from scheduler.sequence import drawn_ends, money

EARLIEST = 0.1
"""The share of draws in which a line is ready by its earliest day."""

SURE = 0.98
"""The level up to which a day is read off the draws; beyond, each hundredth is half a working day."""
DAYS_BEYOND = 50


def promises(asked: PromiseAsked) -> Mapping[str, Promise]:
    """Return earliest and safe day of each line of the wanted quotes, by line id; seeded.

    A quote is drawn as won whole, the others with their chance. Lines that no roll can do are left out.
    """
    return _days(_in_turn(asked))


def promises_and_rushes(asked: PromiseAsked) -> tuple[Mapping[str, Promise], Mapping[str, Rush]]:
    """Return what `promises` does, and by name what it takes to put each wanted quote before all that may
    wait; one that is ready no sooner for it is left out.
    """
    usual = _in_turn(asked)
    return _days(usual), _rushes(usual, asked)


@dataclass(frozen=True, slots=True)
class _InTurn:
    """The order of work with every quote in its turn, and by number the days of the wanted ones' lines."""

    order: PresentOrder
    days: Mapping[int, Mapping[str, Promise]]


def _in_turn(asked: PromiseAsked) -> _InTurn:
    order = present_order(asked)
    wanted = {number: quote for number, quote in enumerate(asked.quotes) if quote.name in asked.wanted}
    return _InTurn(
        order, {number: _of_quote(quote, order, asked, number) for number, quote in wanted.items()}
    )


def _days(usual: _InTurn) -> dict[str, Promise]:
    return {line: days for quote in usual.days.values() for line, days in quote.items()}


def _rushes(usual: _InTurn, asked: PromiseAsked) -> dict[str, Rush]:
    found: dict[str, Rush] = {}
    for number, in_turn in usual.days.items():
        quote = asked.quotes[number]
        ahead = present_order(asked, quote.name)
        first = _of_quote(quote, ahead, asked, number)
        safe = max((one.safe for one in first.values()), default=None)
        if safe is not None and safe < max(one.safe for one in in_turn.values()):
            own = {line.id for line in quote.lines}
            cost = _money_of_others(ahead, own) - _money_of_others(usual.order, own)
            found[quote.name] = Rush(safe, money(max(0, cost)))
    return found


def _money_of_others(present: PresentOrder, own: Collection[str]) -> int:
    """Return the ticks of an order without what the quote's own lines would cost for being late."""
    t, timed = present.tables, present.timed
    ends: dict[int, int] = {}
    for i, job in enumerate(t.job):
        if t.problem.jobs[job].id in own:
            ends[job] = max(ends.get(job, 0), timed.end[i])
    return timed.total - sum(t.weight[job] * max(0, end - t.due[job]) for job, end in ends.items())


def _of_quote(
    quote: OpenQuote, present: PresentOrder, asked: PromiseAsked, number: int
) -> dict[str, Promise]:
    seed = asked.seed * 1000 + number
    chances = {one.name: 1.0 if one.name == quote.name else one.chance for one in asked.quotes}
    t = present.tables
    ends = drawn_ends(t, draw(present, chances, asked.shop, seed), present.timed.start, present.timed.machine)
    job = {one.id: k for k, one in enumerate(t.problem.jobs)}
    first = present.week.axis.start.date()
    found = {}
    for line in quote.lines:
        if line.id in job and ends[:, job[line.id]].any():
            days = np.sort((ends[:, job[line.id]] - 1) // DAY_MIN)
            safe = _day(days, asked.level, first, asked)
            earliest = min(safe, _day(days, EARLIEST, first, asked))
            found[line.id] = Promise(earliest, safe, quote.order_by)
    return found


def _day(days: NDArray[np.int64], level: float, first: date, asked: PromiseAsked) -> date:
    """Return the first day by which that share of the draws is done; it is a working day."""
    share = min(level, SURE)
    place = min(len(days) - 1, max(0, ceil(share * len(days)) - 1))
    day = first + timedelta(days=int(days[place]))
    return working_days_after(day, ceil((level - SURE) * DAYS_BEYOND), asked.shop) if level > SURE else day
