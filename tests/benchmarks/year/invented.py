"""An invented year of a rolling shop: quotes that come, which are won, and what really happens to each job.

Every number is made up. What the planner is told (`Come`) and what happens (`Truth`) are drawn apart: minutes
come from spreads and a bias that no setting knows, plates and welders are late by other chances than those
of the shop's book. Rolling minutes are made of the settings of the book as those of the jobs of
`tests.benchmarks.learning` are, and each setting is off by a share of its own: so they can be learnt.
"""

from __future__ import annotations

import random
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

import numpy as np

from quoting.hindsight import BookPlace
from quoting.shop import Family, Shop
from scheduler.calendar import working_days_after
from scheduler.jobs import PlateToCut, WonLine
from scheduler.jobs.won_lines import RollChoice
from tests.benchmarks.learning import drawn_job
from tests.scheduler.conftest import LINE

GAUGES = (3.2, 4.8, 6.4, 8.0, 9.5, 12.7, 16.0, 19.0)
MINUTES = (30, 45, 60, 90, 120, 180, 240)
CUT_MIN, SETUP_MIN, CREW = 15, 25, 4 / 3
"""About what a job takes besides its rolling, to bring the load near what is asked for."""

KINDS = 150
"""Kinds of work: what shares of a job's rolling are which settings of the book."""

KIND_SD, SETTING_SD, LOT_SD = 0.1, 0.22, 0.27
"""By how much a group of work, a setting and one lot are off, as logarithms: no setting knows them."""

WON = 0.5
RUSH = 0.03
"""Shares of quotes that are won, and of jobs that come as a rush with a day of their own."""


@dataclass(frozen=True, slots=True)
class Truth:
    """What really happens: factors on minutes and set-ups, working days that plate and welder are late."""

    minutes: float
    setup: float
    plate_late: int
    weld_late: int


@dataclass(frozen=True, slots=True)
class Come:
    """A line of a quote as the estimator sees it: what is to be made, its plate and the supplier's lead.

    `made_of` are the shares of its rolling minutes by setting of the book, `kg` what its plate weighs;
    `over` is by what the minutes are multiplied that the first book has.
    """

    line: WonLine
    plate: PlateToCut
    lead: int
    truth: Truth
    made_of: Mapping[BookPlace, float]
    kg: float
    over: float = 1.0


@dataclass(frozen=True, slots=True)
class Inquiry:
    """A quote that comes on a day: whether it is won and on which day; a rush names its own day at once."""

    name: str
    day: date
    lines: tuple[Come, ...]
    won: bool
    decided: date
    rush_by: date | None = None


@dataclass(frozen=True, slots=True)
class Breakdown:
    """A roll that stands from a minute of a working day on, for so many hours."""

    day: date
    roll: str
    minute: int
    hours: int


@dataclass(frozen=True, slots=True)
class Rolling:
    """A kind of rolling: shares of its minutes by setting, and what they are off by in truth."""

    made_of: Mapping[BookPlace, float]
    off: float


@dataclass(frozen=True, slots=True)
class Year:
    """All of it, day by day."""

    days: tuple[date, ...]
    inquiries: tuple[Inquiry, ...]
    breakdowns: tuple[Breakdown, ...]


def year(jobs: int, days: int, seed: int, load: float, shop: Shop) -> Year:
    """Return a year of so many working days in which about so many jobs are won, at a load of the people."""
    chance = random.Random(seed)
    first = working_days_after(date(2027, 1, 3), 1, shop)
    worked = [first]
    while len(worked) < days:
        worked.append(working_days_after(worked[-1], 1, shop))
    scale = _scale(jobs / days, load, shop)
    kinds = _kinds(seed, chance.uniform(1.0, 1.15), shop)
    inquiries: list[Inquiry] = []
    won = 0
    while won < jobs:
        one = _inquiry(len(inquiries), worked, scale, kinds, chance, shop)
        inquiries.append(one)
        won += len(one.lines) if one.won else 0
    inquiries.sort(key=lambda one: (one.day, one.name))
    down = [
        Breakdown(day, roll.name, chance.randint(420, 900), chance.choice((2, 3, 4, 6, 8, 12)))
        for day in worked
        for roll in shop.rolls
        if chance.random() < 0.012
    ]
    return Year(tuple(worked), tuple(inquiries), tuple(down))


def _scale(jobs_a_day: float, load: float, shop: Shop) -> float:
    """Return by how much rolling minutes are scaled, so that people are busy for a share of their time."""
    shift = shop.working_time.shifts[0]
    rests = sum(_minutes(b) - _minutes(a) for a, b in shift.breaks)
    people = shift.crew * (_minutes(shift.end) - _minutes(shift.start) - rests)
    a_job = people * load / jobs_a_day
    mean = sum(MINUTES) / len(MINUTES) * CREW * 1.08
    return max(0.1, (a_job - CUT_MIN - SETUP_MIN) / mean)


def _kinds(seed: int, bias: float, shop: Shop) -> tuple[Rolling, ...]:
    """Return the kinds of rolling of a shop that is off its book by `bias` in the mean."""
    rng = np.random.default_rng(seed)
    jobs = [drawn_job(rng, shop).by_setting for _ in range(KINDS)]
    rolling = [{place: m for place, m in job.items() if place.group != "set-up"} for job in jobs]
    places = sorted({place for job in rolling for place in job})
    common = rng.normal(0.0, KIND_SD)
    off = {place: float(np.exp(common + rng.normal(0.0, SETTING_SD))) for place in places}
    shares = [{place: m / sum(job.values()) for place, m in job.items()} for job in rolling]
    factors = [sum(share * off[place] for place, share in one.items()) for one in shares]
    middle = sum(factors) / len(factors)
    return tuple(Rolling(one, bias * own / middle) for one, own in zip(shares, factors, strict=True))


def _minutes(at: object) -> int:
    return int(at.hour * 60 + at.minute)  # type: ignore[attr-defined]


def _inquiry(
    number: int,
    days: Sequence[date],
    scale: float,
    kinds: Sequence[Rolling],
    chance: random.Random,
    shop: Shop,
) -> Inquiry:
    day = chance.choice(days)
    rush = chance.random() < RUSH
    count = 1 if rush else chance.choice((1, 1, 2, 3, 4))
    lines = tuple(_come(f"Q{number}-{k}", scale, kinds, chance, shop) for k in range(1, count + 1))
    if rush:
        lines = tuple(replace(one, lead=0, line=replace(one.line, re_round=False)) for one in lines)
    within = 0 if rush else chance.randint(1, shop.promise.order_within_days)
    won = rush or chance.random() < WON
    decided = working_days_after(day, within, shop)
    by = working_days_after(day, chance.randint(1, 3), shop) if rush else None
    return Inquiry(f"Q{number}", day, lines, won, decided, by)


def _come(name: str, scale: float, kinds: Sequence[Rolling], chance: random.Random, shop: Shop) -> Come:
    rolls = [roll.name for roll in shop.rolls]
    first = chance.randrange(len(rolls))
    able = rolls[first : first + chance.choice((1, 2, 2))]
    minutes = max(5.0, chance.choice(MINUTES) * scale)
    kind = chance.choice(kinds)
    plate = PlateToCut(f"P{name}", "A36", 6.35, "thermal", chance.choice((8, 14, 24)), 0)
    line = replace(
        LINE,
        id=name,
        number=name,
        customer=f"Customer {chance.randint(1, 30)} (invented)",
        thickness_mm=chance.choice(GAUGES),
        diameter_mm=chance.choice((500.0, 800.0, 1200.0)),
        family=chance.choice((Family.CARBON, Family.CARBON, Family.CARBON, Family.STAINLESS)),
        crane=chance.random() < 0.3,
        crew=chance.choice((1, 1, 2)),
        due=None,
        re_round=chance.random() < 0.2,
        plates=(plate.id,),
        blanks_on={plate.id: 1},
        choices=tuple(RollChoice(roll, minutes * chance.uniform(0.9, 1.2), 8.0) for roll in able),
        told=None,
    )
    truth = Truth(
        minutes=kind.off * chance.lognormvariate(0.0, LOT_SD),
        setup=chance.lognormvariate(0.05, 0.25),
        plate_late=chance.choice((1, 1, 2, 3, 4, 7)) if chance.random() < 0.18 else 0,
        weld_late=chance.choice((1, 2, 3)) if chance.random() < 0.3 else 0,
    )
    lead = chance.choice((0, 0, 0, 2, 3, 4, 5))
    return Come(line, plate, lead, truth, kind.made_of, minutes * chance.uniform(2.0, 8.0))
