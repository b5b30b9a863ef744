"""From won lines to the sequencing problem of a week."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta

from quoting.shop import Shop
from scheduler.calendar import MinuteAxis, WorkedWeek, plan_axis, staffing, windows, working_time
from scheduler.jobs import (
    CUTTING_STATIONS,
    DAY_MIN,
    PlateToCut,
    ShopOperation,
    WonLine,
    in_two_lots,
    make_jobs,
    make_work,
    setup_matrix,
)
from scheduler.sequence import (
    Aim,
    HandOrders,
    Job,
    Machine,
    Pin,
    PlanRates,
    SequenceProblem,
    Wish,
    per_minute,
)
from scheduler.week.week_plan import Unplanned
from scheduler.wishes import NO_WISHES, Wishes


@dataclass(frozen=True, slots=True)
class WeekProblem:
    """The sequencing problem and what its operations are in the trade, in the same order.

    `missed` are wishes given up since no plan that keeps them was found, though none is proven impossible.
    `kept_whole` names the lines that are not to be rolled in two lots.
    """

    problem: SequenceProblem
    works: tuple[ShopOperation, ...]
    axis: MinuteAxis
    unplanned: tuple[Unplanned, ...]
    missed: tuple[Wish, ...] = ()
    kept_whole: frozenset[str] = frozenset()

    @property
    def hand_orders(self) -> HandOrders:
        """Return the orders that people go by besides due days: each operation's key, smallest first."""
        place = {line: k for k, line in enumerate(dict.fromkeys(w.line.id for w in self.works if w.line))}
        feeds: dict[str, int] = {}
        for work in self.works:
            if work.line:
                for plate in work.line.plates:
                    feeds[plate] = min(place[work.line.id], feeds.get(plate, len(place)))
        thickness: dict[str, float] = {}
        came: dict[str, float] = {}
        for work in self.works:
            name = work.operation.id
            if work.line:
                thickness[name], came[name] = work.line.thickness_mm, place[work.line.id]
            elif work.plate:
                thickness[name], came[name] = work.plate.thickness_mm, feeds.get(work.plate.id, len(place))
        return {"thickness order": thickness, "first-come order": came}


def week_problem(
    lines: Sequence[WonLine],
    plates: Sequence[PlateToCut],
    shop: Shop,
    start: date,
    wishes: Wishes = NO_WISHES,
    aim: Aim = Aim.MONEY,
    weeks: int = 0,
) -> WeekProblem:
    """Return the sequencing problem; lines that no roll of the book can do are left out and named.

    It reaches `weeks` weeks ahead, 0: as far as the shop's book says.
    Plates of a line that is being rolled now have been cut, and those that a wish says so of. Wishes about
    lines left out fall away.
    """
    rolls = {roll.name for roll in shop.rolls}
    unplanned = tuple(
        Unplanned(line, "no roll of the shop's book can do it: " + ", ".join(c.roll for c in line.choices))
        for line in lines
        if not any(choice.roll in rolls for choice in line.choices)
    )
    left_out = {item.line.id for item in unplanned}
    planned = [
        _what_is_left(replace(line, choices=tuple(c for c in line.choices if c.roll in rolls)), wishes)
        for line in lines
        if line.id not in left_out
    ]
    cut = wishes.cut | {plate for line in planned if line.id in wishes.running for plate in line.plates}
    plates = [plate for plate in plates if plate.id not in cut]
    planned = _in_lots(planned, plates, wishes)
    works = make_work(planned, plates, shop)
    axis = plan_axis(start, shop, weeks)
    calendar = working_time(shop)
    problem = SequenceProblem(
        machines=_machines(works, shop, calendar, axis),
        operations=tuple(work.operation for work in works),
        jobs=_with_hard_dates(make_jobs(planned, plates, start, shop), wishes, axis),
        pins=_pins(wishes, {line.id for line in planned}, axis),
        setups={roll.name: setup_matrix(works, roll, shop.setups) for roll in shop.rolls},
        staffing=staffing(calendar, axis),
        cranes=shop.working_time.cranes,
        rates=_rates(shop),
        aim=aim,
    )
    return WeekProblem(problem, works, axis, unplanned, kept_whole=wishes.kept_whole)


def _rates(shop: Shop) -> PlanRates:
    """Return what minutes cost, and what slack is worth to choose between equals."""
    return PlanRates(
        setup=per_minute(shop.rates.setup_hour / 60),
        slack=per_minute(shop.working_time.slack_worth_per_day / DAY_MIN),
        slack_limit=shop.working_time.slack_days * DAY_MIN,
    )


def _what_is_left(line: WonLine, wishes: Wishes) -> WonLine:
    """Return a line that runs now with the minutes that are left of it."""
    left = wishes.minutes_left.get(line.id)
    if left is None:
        return line
    return replace(line, choices=tuple(choice.with_left(left) for choice in line.choices))


def _in_lots(lines: Sequence[WonLine], plates: Sequence[PlateToCut], wishes: Wishes) -> list[WonLine]:
    """Return the lines with those that are to be split as two lots each."""
    first = {split.line: split.first for split in wishes.splits}
    cut = {plate.id: plate for plate in plates}
    return [
        lot
        for line in lines
        for lot in (in_two_lots(line, first[line.id], cut) if line.id in first else (line,))
    ]


def _pins(wishes: Wishes, planned: Collection[str], axis: MinuteAxis) -> tuple[Pin, ...]:
    return tuple(pin.pin(axis) for pin in wishes.pins if {pin.line, pin.before or pin.line} <= set(planned))


def _with_hard_dates(jobs: Sequence[Job], wishes: Wishes, axis: MinuteAxis) -> tuple[Job, ...]:
    next_day = {ship.line: ship.day + timedelta(days=1) for ship in wishes.ships}
    end = {line: axis.minute(datetime.combine(day, time())) for line, day in next_day.items()}
    return tuple(replace(job, must_ship=end.get(job.id)) for job in jobs)


def _machines(
    works: Sequence[ShopOperation], shop: Shop, calendar: WorkedWeek, axis: MinuteAxis
) -> tuple[Machine, ...]:
    used = {mode.machine for work in works for mode in work.operation.modes}
    stations = [station for station in CUTTING_STATIONS.values() if station in used]
    names = [*((roll.name, "roll") for roll in shop.rolls), *((name, "cutting") for name in stations)]
    return tuple(Machine(name, kind, windows(calendar, axis, name)) for name, kind in names)
