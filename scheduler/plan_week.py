"""From won lines to the planned week: the problem, its solution, and both put on the calendar."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta

from quoting.errors import InputError
from quoting.shop import Shop
from scheduler.operations import (
    CUTTING_STATIONS,
    DAY_MIN,
    Work,
    make_jobs,
    make_work,
    setup_matrix,
    setup_of,
)
from scheduler.sequence import (
    Aim,
    Assignment,
    Effort,
    Job,
    Machine,
    NoPlanError,
    Pin,
    Plan,
    Rates,
    Saving,
    SequenceProblem,
    Window,
    Wish,
    compare,
    per_minute,
    solve,
)
from scheduler.setups import Setup
from scheduler.shifts import Axis, WorkingTime, staffing, windows
from scheduler.week import Late, Load, OpenTime, Slot, Unplanned, WeekPlan
from scheduler.wishes import NO_WISHES, Wishes, check_wishes, conflict_words, wish_words
from scheduler.won import PlateToCut, WonLine
from scheduler.working_time import plan_axis, working_time

THICKNESS_ORDER = "thickness order"
RUNNING_NOW = Setup((("running now", 0.0),))


@dataclass(frozen=True, slots=True)
class WeekProblem:
    """The sequencing problem and what its operations are in the trade, in the same order.

    `missed` are wishes given up since no plan that keeps them was found, though none is proven impossible.
    """

    problem: SequenceProblem
    works: tuple[Work, ...]
    axis: Axis
    unplanned: tuple[Unplanned, ...]
    missed: tuple[Wish, ...] = ()


def plan_week(
    lines: Sequence[WonLine],
    plates: Sequence[PlateToCut],
    shop: Shop,
    start: date,
    *,
    effort: Effort = "normal",
    seed: int = 0,
    wishes: Wishes = NO_WISHES,
    aim: Aim = Aim.MONEY,
) -> WeekPlan:
    """Return the checked plan of these lines from the morning of `start`.

    Lines that no roll can do, or that do not fit into the shop's horizon, are left out and named; wishes that
    cannot be kept are given up and named in the notes; everything else is planned. Raises InputError for a
    calendar without a shift and for a wish about a line or roll that is not there or a time before `start`.
    """
    check_wishes(wishes, lines, [roll.name for roll in shop.rolls], start)
    week, plan = _solved(_Asked(lines, plates, shop, start, wishes, aim), effort, seed)
    savings = compare(
        week.problem.without(plan.dropped), plan, {THICKNESS_ORDER: _thickness_keys(week.works)}
    )
    return _on_calendar(week, plan, savings, shop, start)


@dataclass(frozen=True, slots=True)
class _Asked:
    """What a plan is asked for."""

    lines: Sequence[WonLine]
    plates: Sequence[PlateToCut]
    shop: Shop
    start: date
    wishes: Wishes
    aim: Aim

    def problem(self, left_out: Collection[str]) -> WeekProblem:
        """Return the problem without some lines and the plates that only they need."""
        kept = [line for line in self.lines if line.id not in left_out]
        needed = {plate for line in kept for plate in line.plates}
        plates = [plate for plate in self.plates if plate.id in needed]
        return week_problem(kept, plates, self.shop, self.start, self.wishes, self.aim)


def _solved(asked: _Asked, effort: Effort, seed: int) -> tuple[WeekProblem, Plan]:
    """Solve, without lines that find no place and wishes no plan was found for, until the rest fits."""
    left_out: list[Unplanned] = []
    missed: list[Wish] = []
    while True:
        week = asked.problem({item.line.id for item in left_out})
        week = replace(week, problem=week.problem.without(tuple(missed)), missed=tuple(missed))
        try:
            plan = solve(week.problem, effort=effort, seed=seed)
        except NoPlanError as error:
            stuck = _lines_of(error.operations, week.works)
            if not stuck:
                if not week.problem.wishes:
                    raise
                missed.append(_least_wish(week.problem.wishes))
                continue
            left_out += [Unplanned(line, f"finds no place in the plan: {error.problem}") for line in stuck]
            continue
        return replace(week, unplanned=(*week.unplanned, *left_out)), plan


def _least_wish(wishes: Sequence[Wish]) -> Wish:
    """Return the wish to give up first: a pin before a hard date or what runs already, the last one given."""
    pins = [wish for wish in wishes if isinstance(wish, Pin) and not wish.running]
    return pins[-1] if pins else wishes[-1]


def _lines_of(operations: Sequence[str], works: Sequence[Work]) -> list[WonLine]:
    """Return the lines of these operations; of a plate that cannot be cut, the lines it is cut for."""
    found: dict[str, WonLine] = {}
    for work in works:
        if work.operation.id not in operations:
            continue
        for other in works:
            line = other.line
            if line and (other is work or (work.plate and work.plate.id in line.plates)):
                found[line.id] = line
    return list(found.values())


def week_problem(
    lines: Sequence[WonLine],
    plates: Sequence[PlateToCut],
    shop: Shop,
    start: date,
    wishes: Wishes = NO_WISHES,
    aim: Aim = Aim.MONEY,
) -> WeekProblem:
    """Return the sequencing problem; lines that no roll of the book can do are left out and named.

    Plates of a line that is being rolled now have been cut. Wishes about lines left out fall away.
    """
    rolls = {roll.name for roll in shop.rolls}
    unplanned = tuple(
        Unplanned(line, "no roll of the shop's book can do it: " + ", ".join(c.roll for c in line.choices))
        for line in lines
        if not any(choice.roll in rolls for choice in line.choices)
    )
    left_out = {item.line.id for item in unplanned}
    planned = [
        replace(line, choices=tuple(choice for choice in line.choices if choice.roll in rolls))
        for line in lines
        if line.id not in left_out
    ]
    cut = {plate for line in planned if line.id in wishes.running for plate in line.plates}
    plates = [plate for plate in plates if plate.id not in cut]
    works = make_work(planned, plates, shop)
    axis = plan_axis(start, shop)
    calendar = working_time(shop)
    problem = SequenceProblem(
        machines=_machines(works, shop, calendar, axis),
        operations=tuple(work.operation for work in works),
        jobs=_with_hard_dates(make_jobs(planned, plates, start, shop), wishes, axis),
        pins=_pins(wishes, {line.id for line in planned}, axis),
        setups={roll.name: setup_matrix(works, roll, shop.setups) for roll in shop.rolls},
        staffing=staffing(calendar, axis),
        cranes=shop.working_time.cranes,
        rates=Rates(setup=per_minute(shop.rates.setup_hour / 60)),
        aim=aim,
    )
    return WeekProblem(problem, works, axis, unplanned)


def _pins(wishes: Wishes, planned: Collection[str], axis: Axis) -> tuple[Pin, ...]:
    return tuple(pin.pin(axis) for pin in wishes.pins if {pin.line, pin.before or pin.line} <= set(planned))


def _with_hard_dates(jobs: Sequence[Job], wishes: Wishes, axis: Axis) -> tuple[Job, ...]:
    next_day = {ship.line: ship.day + timedelta(days=1) for ship in wishes.ships}
    end = {line: axis.minute(datetime.combine(day, time())) for line, day in next_day.items()}
    return tuple(replace(job, must_ship=end.get(job.id)) for job in jobs)


def _machines(works: Sequence[Work], shop: Shop, calendar: WorkingTime, axis: Axis) -> tuple[Machine, ...]:
    used = {mode.machine for work in works for mode in work.operation.modes}
    stations = [station for station in CUTTING_STATIONS.values() if station in used]
    names = [*((roll.name, "roll") for roll in shop.rolls), *((name, "cutting") for name in stations)]
    return tuple(Machine(name, kind, windows(calendar, axis, name)) for name, kind in names)


def _thickness_keys(works: Sequence[Work]) -> dict[str, float]:
    return {
        work.operation.id: work.line.thickness_mm
        if work.line
        else work.plate.thickness_mm
        if work.plate
        else 0.0
        for work in works
    }


def _on_calendar(
    week: WeekProblem, plan: Plan, savings: tuple[Saving, ...], shop: Shop, start: date
) -> WeekPlan:
    slots = _slots(week, plan, shop)
    opened = _open_times(week, plan)
    stations = tuple(machine.id for machine in week.problem.machines if machine.kind == "cutting")
    return WeekPlan(
        shop=shop.name,
        currency=shop.rates.currency,
        start=start,
        rolls=tuple(roll.name for roll in shop.rolls),
        stations=stations,
        slots=slots,
        open_times=opened,
        plan=plan,
        savings=savings,
        late=_late(slots, week, shop),
        loads=_loads(slots, opened),
        unplanned=week.unplanned,
        notes=_notes(week, plan),
        aim=week.problem.aim,
    )


def _notes(week: WeekProblem, plan: Plan) -> tuple[str, ...]:
    given_up = [
        f"No plan was found that keeps this wish, so it was given up: {wish_words(wish, week.axis)}."
        for wish in week.missed
    ]
    return (*(conflict_words(conflict, week.axis) for conflict in plan.conflicts), *given_up)


def _slots(week: WeekProblem, plan: Plan, shop: Shop) -> tuple[Slot, ...]:
    works = {work.operation.id: work for work in week.works}
    rolls = {roll.name: roll for roll in shop.rolls}
    running = {pin.operation for pin in week.problem.without(plan.dropped).pins if pin.running}
    slots: list[Slot] = []
    for machine in week.problem.machines:
        worked = _worked_windows(machine, plan)
        before: Work | None = None
        for assignment in plan.on(machine.id):
            work = works[assignment.operation]
            setup: Setup | None = None
            if assignment.operation in running:
                setup = RUNNING_NOW
            elif machine.id in rolls:
                setup = setup_of(before, work, rolls[machine.id], shop.setups, inch=shop.inch)
            slots.append(_slot(work, setup, assignment, worked, week.axis))
            before = work
    return tuple(slots)


def _slot(
    work: Work, setup: Setup | None, assignment: Assignment, worked: Sequence[Window], axis: Axis
) -> Slot:
    if setup is not None and setup.minutes != assignment.setup_minutes:
        raise InputError(
            f"the plan counts {assignment.setup_minutes} set-up minutes before {assignment.operation}, "
            f"its reasons {setup.minutes}",
            would_do="report this as a fault of the program",
        )
    ready = _setup_end(assignment, worked)
    return Slot(
        work=work,
        machine=assignment.machine,
        setup=setup,
        setup_start=axis.moment(assignment.setup_start),
        setup_end=axis.moment(ready),
        start=axis.moment(assignment.start),
        end=axis.moment(assignment.end),
    )


def _setup_end(assignment: Assignment, worked: Sequence[Window]) -> int:
    """Return the minute a set-up ends, counting only working minutes."""
    left = assignment.setup_minutes
    at = assignment.setup_start
    for window in worked:
        begin = max(at, window.start)
        if left and begin < window.end:
            taken = min(left, window.end - begin)
            left -= taken
            at = begin + taken
    return min(at, assignment.start)


def _open_times(week: WeekProblem, plan: Plan) -> Mapping[str, tuple[OpenTime, ...]]:
    return {
        machine.id: tuple(
            OpenTime(
                week.axis.moment(window.start),
                week.axis.moment(window.end),
                window.overtime_cost_per_min is not None,
            )
            for window in _worked_windows(machine, plan)
        )
        for machine in week.problem.machines
    }


def _worked_windows(machine: Machine, plan: Plan) -> tuple[Window, ...]:
    """Return the windows in which the plan works a machine: overtime only where it is used."""
    overtime = {used.start for used in plan.overtime if used.machine == machine.id}
    return tuple(
        window
        for window in machine.windows
        if window.overtime_cost_per_min is None or window.start in overtime
    )


def _late(slots: Sequence[Slot], week: WeekProblem, shop: Shop) -> tuple[Late, ...]:
    finish: dict[str, datetime] = {}
    lines: dict[str, WonLine] = {}
    for slot in slots:
        if slot.line is not None:
            lines[slot.line.id] = slot.line
            finish[slot.line.id] = max(slot.end, finish.get(slot.line.id, slot.end))
    found: list[Late] = []
    for job in week.problem.jobs:
        line = lines.get(job.id)
        if line is None or line.due is None:
            continue
        minutes = week.axis.minute(finish[line.id]) - job.due
        if minutes > 0:
            cost = (shop.working_time.late_cost_per_day * minutes / DAY_MIN).quantize(shop.pricing.rounding)
            found.append(Late(line, finish[line.id], line.due, cost))
    return tuple(sorted(found, key=lambda late: (-late.cost, late.line.id)))


def _loads(slots: Sequence[Slot], opened: Mapping[str, Sequence[OpenTime]]) -> tuple[Load, ...]:
    """Return the load of every machine in every week up to the last one that has work."""
    last = max((_monday(slot.end) for slot in slots), default=None)
    if last is None:
        return ()
    open_minutes: dict[tuple[str, date], int] = defaultdict(int)
    busy: dict[tuple[str, date], list[int]] = defaultdict(lambda: [0, 0])
    for machine, stretches in opened.items():
        for stretch in stretches:
            open_minutes[machine, _monday(stretch.start)] += _minutes(stretch.start, stretch.end)
    for slot in slots:
        stretches = opened[slot.machine]
        for kind, begin, end in ((0, slot.setup_start, slot.setup_end), (1, slot.start, slot.end)):
            for stretch in stretches:
                shared = _minutes(max(begin, stretch.start), min(end, stretch.end))
                if shared > 0:
                    busy[slot.machine, _monday(stretch.start)][kind] += shared
    return tuple(
        Load(machine, monday, open_minutes[machine, monday], *busy[machine, monday])
        for machine in opened
        for monday in sorted({day for name, day in open_minutes if name == machine and day <= last})
    )


def _monday(moment: datetime) -> date:
    return moment.date() - timedelta(days=moment.weekday())


def _minutes(begin: datetime, end: datetime) -> int:
    return int((end - begin) / timedelta(minutes=1))
