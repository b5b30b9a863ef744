"""The owner's figures of a month: quoted, won and delivered, each for itself and never mixed.

Quoted are lines that went out in the month, each inquiry once; won are lines ordered in it; delivered are
jobs finished in it. Margins are of delivered jobs whose minutes were written down.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from decimal import Decimal

from quoting.hindsight.month.facts import JobDone, LineDecided, PlateLeft
from quoting.hindsight.month.win_rate import MarginPoint, WinRate, counted_once, margin_point, win_rates
from quoting.hindsight.statistics import Share, wilson


@dataclass(frozen=True, slots=True)
class MarginGroup:
    """Some delivered jobs added up: price, profit quoted and made, the step that lost most (empty: none)."""

    by: str
    group: str
    jobs: int
    price: Decimal
    quoted: Decimal
    real: Decimal
    step: str
    step_lost: Decimal

    @property
    def quoted_share(self) -> Decimal:
        """Return the quoted profit as a share of the price."""
        return self.quoted / self.price if self.price else Decimal(0)

    @property
    def real_share(self) -> Decimal:
        """Return the profit that was made as a share of the price."""
        return self.real / self.price if self.price else Decimal(0)


@dataclass(frozen=True, slots=True)
class RollHours:
    """One roll in the month: hours won (sold), worked, and open; of the worked ones the set-up's share.

    `planned_setup_share` is what the plans of the same jobs had.
    """

    roll: str
    sold: float
    worked: float
    open: float
    setup_share: float
    planned_setup_share: float


@dataclass(frozen=True, slots=True)
class MonthFacts:
    """What the ledger knows: jobs done, lines quoted, the rack, open hours a week by roll, plate used.

    `beyond` are minutes of the month's lots beyond today's book by step, as the fit of minutes splits them.
    """

    shop: str
    currency: str
    paper: str
    jobs: tuple[JobDone, ...]
    lines: tuple[LineDecided, ...]
    rack: tuple[PlateLeft, ...]
    hours_a_week: Mapping[str, float]
    plate_used: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    beyond: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class MonthFigures:
    """All that the month book is printed from; `first` and `last` are the days of the month."""

    facts: MonthFacts
    first: date
    last: date
    quoted: tuple[LineDecided, ...]
    won: tuple[LineDecided, ...]
    delivered: tuple[JobDone, ...]
    groups: tuple[MarginGroup, ...]
    steps: Mapping[str, Decimal]
    hours: tuple[RollHours, ...]
    rates: tuple[WinRate, ...]
    point: MarginPoint
    in_time: Share

    @property
    def told(self) -> tuple[JobDone, ...]:
        """Return the delivered jobs whose minutes were written down."""
        return tuple(job for job in self.delivered if job.told)

    @property
    def late(self) -> tuple[JobDone, ...]:
        """Return the jobs that were late, the latest first."""
        return tuple(sorted((j for j in self.delivered if j.late_days), key=lambda j: -j.late_days))


def month_figures(facts: MonthFacts, month: date) -> MonthFigures:
    """Return the figures of the month that a day lies in. Win rates are over everything that was decided."""
    first = month.replace(day=1)
    last = (first + timedelta(days=32)).replace(day=1) - timedelta(days=1)

    def inside(day: date | None) -> bool:
        return day is not None and first <= day <= last

    delivered = tuple(job for job in facts.jobs if inside(job.finished))
    told = [job for job in delivered if job.told]
    dated = [job for job in delivered if job.due is not None]
    won = tuple(line for line in facts.lines if line.state == "won" and inside(line.decided))
    steps: dict[str, Decimal] = defaultdict(Decimal)
    for job in told:
        for step, money in job.lost.items():
            steps[step] += money
    return MonthFigures(
        facts=facts,
        first=first,
        last=last,
        quoted=counted_once([line for line in facts.lines if inside(line.quoted)]),
        won=won,
        delivered=delivered,
        groups=_groups(told),
        steps=dict(sorted(steps.items(), key=lambda item: -item[1])),
        hours=_hours(facts, won, delivered, (last - first).days + 1),
        rates=win_rates(facts.lines),
        point=margin_point(facts.lines, facts.currency),
        in_time=wilson(sum(job.late_days == 0 for job in dated), len(dated)),
    )


def _groups(jobs: Sequence[JobDone]) -> tuple[MarginGroup, ...]:
    keys: tuple[tuple[str, Callable[[JobDone], str]], ...] = (
        ("all", lambda job: "All delivered jobs with minutes"),
        ("customer", lambda job: job.customer),
        ("shape", lambda job: job.shape),
        ("roll", lambda job: job.roll),
        ("week", lambda job: _week(job.finished)),
    )
    found = []
    for by, key in keys:
        groups: dict[str, list[JobDone]] = defaultdict(list)
        for job in jobs:
            groups[key(job)].append(job)
        rows = [margin_group(by, name, some) for name, some in groups.items()]
        found += sorted(rows, key=lambda row: (row.real - row.quoted, row.group))
    return tuple(found)


def margin_group(by: str, name: str, jobs: Sequence[JobDone]) -> MarginGroup:
    """Return some jobs added up."""
    steps: dict[str, Decimal] = defaultdict(Decimal)
    for job in jobs:
        for step, money in job.lost.items():
            steps[step] += money
    worst = max(steps, key=lambda step: steps[step], default="")
    lost = steps.get(worst, Decimal(0))
    return MarginGroup(
        by, name, len(jobs),
        sum((job.price for job in jobs), Decimal(0)),
        sum((job.quoted_margin for job in jobs), Decimal(0)),
        sum((job.real_margin for job in jobs), Decimal(0)),
        worst if lost > 0 else "", max(lost, Decimal(0)),
    )  # fmt: skip


def _week(day: date | None) -> str:
    return "" if day is None else f"week of {day - timedelta(days=day.weekday()):%d %b}"


def _hours(
    facts: MonthFacts, won: Sequence[LineDecided], delivered: Sequence[JobDone], days: int
) -> tuple[RollHours, ...]:
    found = []
    for roll, a_week in facts.hours_a_week.items():
        mine = [job for job in delivered if job.roll == roll and job.told]
        worked = sum(job.setup + job.run for job in mine)
        planned = sum(job.planned_setup + job.planned_run for job in mine)
        found.append(
            RollHours(
                roll,
                sum(line.roll_minutes for line in won if line.roll == roll) / 60,
                worked / 60,
                a_week * days / 7,
                sum(job.setup for job in mine) / worked if worked else 0.0,
                sum(job.planned_setup for job in mine) / planned if planned else 0.0,
            )
        )
    return tuple(found)
