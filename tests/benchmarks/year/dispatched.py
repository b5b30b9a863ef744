"""The rivals: shops that work by non-delay dispatch, earliest promised day first, without overtime.

(a) quotes one lead time for all, (b) the lead time that Hopp & Roof Sturgis found robust: what the state of
the shop lets expect, and a constant (M&SOM 2001, IIE Transactions 32, 2000; their estimate is by simulation,
here by least squares on jobs in the shop, plate lead and weld days). Both constants are set afterwards so
that they keep what the tool keeps: the rivals are given the hindsight.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime, timedelta
from statistics import mean
from typing import Any

import numpy as np

from quoting.shop import Shop
from scheduler.calendar import working_days_after
from scheduler.sequence.rules import by_hand
from tests.benchmarks.year.invented import Inquiry, Year
from tests.benchmarks.year.played import AT, Job, Played, names

GUESS, SAFETY = 12, 4
"""Days that the rivals work by: only where a rush goes among the others depends on them."""

Quoting = Callable[[Played, Inquiry], dict[str, date]]


def dispatched(days: Year, shop: Shop, quoting: Quoting) -> Played:
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
                    played.take(inquiry, dict.fromkeys(names(inquiry), inquiry.rush_by))
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


def expected_wait(played: Played) -> list[float]:
    """Return the weights of what lets a job's days be expected, by least squares over a year of dispatch."""
    done = [job for job in played.finished if not job.rush]
    facts = np.array([_facts(job, _in_the_shop(played, job.quoted)) for job in done])
    days = np.array([float((job.done - job.ordered).days) for job in done if job.done])
    return [float(one) for one in np.linalg.lstsq(facts, days, rcond=None)[0]]


def one_lead_time(played: Played, inquiry: Inquiry) -> dict[str, date]:
    return dict.fromkeys(names(inquiry), inquiry.decided + timedelta(days=GUESS))


def by_state(weights: list[float], shop: Shop) -> Quoting:
    def quoting(played: Played, inquiry: Inquiry) -> dict[str, date]:
        found = {}
        for one in inquiry.lines:
            facts = [1.0, len(played.jobs), one.lead, float(one.line.re_round)]
            days = sum(weight * fact for weight, fact in zip(weights, facts, strict=True))
            found[one.line.id] = inquiry.decided + timedelta(days=max(0, round(days)) + SAFETY)
        return found

    return quoting


def with_constant(jobs: list[Job], share: float, base: Callable[[Job], float]) -> dict[str, Any]:
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
