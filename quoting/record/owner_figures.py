"""What many quotes earn: figures by line, customer, roll, plate and week, from the records of runs.

Money is before tax. Set-up share, hours and profit a roll hour count the quoted likely minutes; a record that
a later one replaces is left out, and so is a second copy of the same result.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from decimal import Decimal

from quoting.core import InputError
from quoting.record.planned_days import planned_days
from quoting.record.schema import PricedLineRecord, RunRecord

MOST_WEEKS = 60


@dataclass(frozen=True, slots=True)
class QuotedLine:
    """One priced line of one result: money for the whole quantity, minutes on the roll with set-up.

    `week` is the Monday of the week it is planned or asked for in, None without either. `plate_rise` is what
    8 % dearer plate adds to the price, None where it was not worked out.
    """

    result: str
    day: date
    customer: str
    id: str
    number: str
    part: str
    roll: str
    unit: Decimal
    floor_unit: Decimal
    sold: Decimal
    cost: Decimal
    setup_minutes: float
    rolling_minutes: float
    under_floor: bool
    by_hand: bool
    reason: str
    by: str
    loss_chance: float | None
    week: date | None
    plate_rise: Decimal | None

    @property
    def profit(self) -> Decimal:
        """Return sold less cost."""
        return self.sold - self.cost


@dataclass(frozen=True, slots=True)
class Figures:
    """Some lines added up."""

    name: str
    lines: int
    sold: Decimal
    cost: Decimal
    setup_minutes: float
    minutes: float

    @property
    def profit(self) -> Decimal:
        """Return sold less cost."""
        return self.sold - self.cost

    @property
    def margin(self) -> Decimal:
        """Return profit as a share of what is sold, 0 for nothing sold."""
        return self.profit / self.sold if self.sold else Decimal(0)

    @property
    def markup(self) -> Decimal:
        """Return profit as a share of the cost, 0 for no cost."""
        return self.profit / self.cost if self.cost else Decimal(0)

    @property
    def an_hour(self) -> float:
        """Return profit for one hour on the roll, set-up included; 0 without any minute."""
        return float(self.profit) / (self.minutes / 60) if self.minutes else 0.0

    @property
    def setup_share(self) -> float:
        """Return the share of the roll's minutes that is set-up."""
        return self.setup_minutes / self.minutes if self.minutes else 0.0


@dataclass(frozen=True, slots=True)
class PlateFigures:
    """The plates of one material over all results; `used` is the share of their area that became parts."""

    material: str
    plates: int
    bought: int
    cost: Decimal
    drop_value: Decimal
    used: float


@dataclass(frozen=True, slots=True)
class WeekFigures:
    """Hours quoted in one week by roll; `monday` None for lines without a week."""

    monday: date | None
    hours: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class OwnersFigures:
    """All that the owner's book is printed from."""

    shop: str
    currency: str
    paper: str
    results: int
    left_out: int
    first: date
    last: date
    lines: tuple[QuotedLine, ...]
    plates: tuple[PlateFigures, ...]
    weeks: tuple[WeekFigures, ...]
    capacity: Mapping[str, float] = field(default_factory=dict)

    def by(self, key: Callable[[QuotedLine], str]) -> tuple[Figures, ...]:
        """Return figures by a property of the lines, the one that earns most first."""
        groups: dict[str, list[QuotedLine]] = defaultdict(list)
        for line in self.lines:
            groups[key(line)].append(line)
        found = [figures_of(name, lines) for name, lines in groups.items()]
        return tuple(sorted(found, key=lambda figures: (-figures.profit, figures.name)))

    @property
    def total(self) -> Figures:
        """Return all lines added up."""
        return figures_of("All", self.lines)

    @property
    def decided(self) -> tuple[QuotedLine, ...]:
        """Return the lines under the floor or priced by hand, those under the floor first."""
        found = [line for line in self.lines if line.under_floor or line.by_hand]
        return tuple(sorted(found, key=lambda line: (not line.under_floor, line.customer, line.id)))


def figures_of(name: str, lines: Iterable[QuotedLine]) -> Figures:
    """Return some lines added up."""
    chosen = list(lines)
    return Figures(
        name,
        len(chosen),
        sum((line.sold for line in chosen), Decimal(0)),
        sum((line.cost for line in chosen), Decimal(0)),
        sum(line.setup_minutes for line in chosen),
        sum(line.setup_minutes + line.rolling_minutes for line in chosen),
    )


def owners_figures(records: Sequence[RunRecord]) -> OwnersFigures:
    """Return the figures over these records; at least one is needed.

    Raises InputError when each of them is said to be replaced.
    """
    current = _current(records)
    lines = tuple(line for record in current for line in _lines(record))
    newest = max(current, key=lambda record: record.made.today)
    days = [record.made.today for record in current]
    return OwnersFigures(
        shop=newest.made.shop,
        currency=newest.made.currency,
        paper=newest.made.paper,
        results=len(current),
        left_out=len(records) - len(current),
        first=min(days),
        last=max(days),
        lines=lines,
        plates=_plates(current),
        weeks=_weeks(lines),
        capacity={roll.name: roll.hours_a_week for roll in newest.made.rolls},
    )


def _current(records: Sequence[RunRecord]) -> list[RunRecord]:
    replaced = {record.revision.replaces for record in records}
    kept = {record.id: record for record in records if record.id not in replaced}
    if not kept:
        raise InputError(
            "every record says that another one replaces it",
            read=", ".join(sorted(record.id for record in records)),
            would_do="give the records as the runs wrote them",
        )
    return list(kept.values())


def _lines(record: RunRecord) -> Iterable[QuotedLine]:
    ready = planned_days(record.schedule)
    for line in record.lines:
        if isinstance(line, PricedLineRecord):
            yield _line(record, line, ready.get(line.id))


def _line(record: RunRecord, line: PricedLineRecord, ready: date | None) -> QuotedLine:
    price, override = line.price, line.override
    day = ready or line.due
    rises = [found for found in line.sensitivities if found.kind == "plate" and not found.problem]
    return QuotedLine(
        result=record.id,
        day=record.made.today,
        customer=line.customer,
        id=line.id,
        number=line.number,
        part=line.part,
        roll=line.verdict.roll,
        unit=price.unit,
        floor_unit=price.floor_unit,
        sold=price.extended,
        cost=price.cost,
        setup_minutes=line.drivers.setup_minutes,
        rolling_minutes=line.drivers.rolling_minutes,
        under_floor=price.under_floor,
        by_hand=override is not None and override.unit is not None,
        reason=override.reason if override else "",
        by=override.by if override else "",
        loss_chance=line.risk.loss_chance if line.risk else None,
        week=day - timedelta(days=day.weekday()) if day else None,
        plate_rise=rises[0].difference if rises else None,
    )


def _plates(records: Sequence[RunRecord]) -> tuple[PlateFigures, ...]:
    from pandas import DataFrame  # noqa: PLC0415 - heavy, and only the owner's page groups tables

    rows = [
        {
            "material": nest.material,
            "bought": plate.bought,
            "price": plate.price,
            "drops": sum((drop.value for drop in plate.drops), Decimal(0)),
            "area": plate.width_mm * plate.length_mm,
            "used": plate.yield_share * plate.width_mm * plate.length_mm,
        }
        for record in records
        for nest in record.nest
        for plate in nest.plates
    ]
    if not rows:
        return ()
    groups = (
        DataFrame(rows)
        .groupby("material")
        .agg(
            plates=("area", "size"),
            bought=("bought", "sum"),
            cost=("price", "sum"),
            drops=("drops", "sum"),
            area=("area", "sum"),
            used=("used", "sum"),
        )
    )
    return tuple(
        PlateFigures(
            material=str(row.Index),
            plates=int(row.plates),
            bought=int(row.bought),
            cost=row.cost,
            drop_value=row.drops,
            used=float(row.used / row.area) if row.area else 0.0,
        )
        for row in groups.itertuples()
    )


def _weeks(lines: Sequence[QuotedLine]) -> tuple[WeekFigures, ...]:
    from pandas import DataFrame  # noqa: PLC0415 - heavy, and only the owner's page groups tables

    found: dict[date | None, dict[str, float]] = defaultdict(dict)
    if lines:
        rows = [(line.week, line.roll, line.setup_minutes + line.rolling_minutes) for line in lines]
        table = DataFrame(rows, columns=["week", "roll", "minutes"]).astype({"week": object})
        hours = table.groupby(["week", "roll"], dropna=False, sort=False)["minutes"].sum() / 60
        for (week, roll), value in hours.items():
            found[week if isinstance(week, date) else None][roll] = float(value)
    known = sorted(week for week in found if week is not None)
    every: list[date | None] = [*_between(known), *([None] if None in found else [])]
    return tuple(WeekFigures(week, dict(found.get(week, {}))) for week in every)


def _between(mondays: Sequence[date]) -> Iterable[date]:
    """Return every week from the first to the last, empty ones too; of a very long time only the others."""
    if not mondays:
        return []
    weeks = (mondays[-1] - mondays[0]).days // 7 + 1
    if weeks > MOST_WEEKS:
        return mondays
    return [mondays[0] + timedelta(weeks=number) for number in range(weeks)]
