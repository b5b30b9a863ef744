"""A book of minutes that learns every month from what rolling took, as `learn --apply` changes it.

It goes through the same functions as the command (`learn`, `propose`, `with_bands`, the prior of what was
learnt before), without ledger and files. Totals of a job's rolling are all that is known; set-ups and cutting
stay as they are.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from statistics import mean, median

from quoting.hindsight import BookPlace, LearnRules, LotDone, book_bands, learn, propose, with_bands
from quoting.shop import LedgerSettings, Shop
from tests.benchmarks.year.invented import Come, Inquiry
from tests.benchmarks.year.played import Job, Played

MARGIN, MINUTE, KG = 0.30, 1.6, 1.5
"""What a quote is priced by: margin, money for a minute at the roll and for a kilogram."""


@dataclass
class Book:
    """The minutes of the book over those that it began with, by setting; `learns` every month."""

    shop: Shop
    learns: bool
    over: dict[BookPlace, float] = field(default_factory=dict)
    spread: float = 1.0
    month: int = 0

    def of(self, made_of: Mapping[BookPlace, float]) -> float:
        """Return the minutes of a job by the book of today over those by the first one."""
        return sum(share * self.over.get(place, 1.0) for place, share in made_of.items())

    def quoted(self, inquiry: Inquiry) -> Inquiry:
        """Return a quote as the book of today has its minutes; what really happens stays as it was."""
        return replace(inquiry, lines=tuple(self._quoted(come) for come in inquiry.lines))

    def _quoted(self, come: Come) -> Come:
        over = self.of(come.made_of)
        choices = tuple(replace(one, minutes=one.minutes * over) for one in come.line.choices)
        truth = replace(come.truth, minutes=come.truth.minutes / over)
        return replace(come, line=replace(come.line, choices=choices), truth=truth, over=over)

    def new_month(self, played: Played, day: date) -> None:
        """Learn on the first day of a month from all that was rolled so far."""
        if day.month == self.month:
            return
        self.month = day.month
        lots = [self._lot(job, day) for job in played.finished] if self.learns else []
        if not lots:
            return
        usual = LedgerSettings()
        before = {place: 1 / over for place, over in self.over.items()}
        rules = LearnRules(day, usual.learning_spread, usual.half_life_days, before, self.spread)
        learnt = learn(lots, rules)
        proposal = propose(lots, learnt, self.shop, self.spread)
        first = {place: band.likely for place, band in book_bands(self.shop).items()}
        self.shop = with_bands(self.shop, proposal.bands)
        now = {place: band.likely for place, band in book_bands(self.shop).items()}
        for place in proposal.bands:
            self.over[place] = self.over.get(place, 1.0) * now[place] / first[place]
        self.spread *= proposal.spread

    def _lot(self, job: Job, day: date) -> LotDone:
        told = told_minutes(job) / job.come.over
        by_setting = {
            place: told * share * self.over.get(place, 1.0) for place, share in job.come.made_of.items()
        }
        done = job.done or day - timedelta(days=1)
        return LotDone(job.come.line.id, "run", done, took_minutes(job), by_setting, "", roll=job.roll)


def told_minutes(job: Job) -> float:
    """Return what the rolling of a job was quoted with on the roll that it went over."""
    return next(one.minutes for one in job.come.line.choices if one.roll == job.roll)


def took_minutes(job: Job) -> float:
    """Return what it took."""
    return told_minutes(job) * job.come.truth.minutes


def misses(jobs: list[Job]) -> dict[str, float]:
    """Return how far quoted minutes were off what was taken, per cent, and margins, in points.

    A job is priced by the minutes quoted and its plate's weight; `margin` is how far the margin it really had
    is from the one that was priced, `margin_of_all` the same for all jobs together.
    """
    jobs = [job for job in jobs if job.done]
    if not jobs:
        return {}
    ratios = [told_minutes(job) / took_minutes(job) for job in jobs]
    cost = [job.come.kg * KG for job in jobs]
    price = [(kg + told_minutes(job) * MINUTE) / (1 - MARGIN) for kg, job in zip(cost, jobs, strict=True)]
    left = [
        (money - kg - took_minutes(job) * MINUTE) for money, kg, job in zip(price, cost, jobs, strict=True)
    ]
    told, took = sum(map(told_minutes, jobs)), sum(map(took_minutes, jobs))
    return {
        "minutes_off_each": round(100 * mean(abs(one - 1) for one in ratios), 2),
        "minutes_off_median": round(100 * (median(ratios) - 1), 2),
        "minutes_off_together": round(100 * (told / took - 1), 2),
        "margin_off_each": round(
            100 * mean(abs(a / b - MARGIN) for a, b in zip(left, price, strict=True)), 2
        ),
        "margin_off_together": round(100 * (sum(left) / sum(price) - MARGIN), 2),
    }
