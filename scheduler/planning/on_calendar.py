"""A solved week put on the calendar: slots with their set-ups and reasons, late lines, loads and notes."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from datetime import date, datetime, timedelta

from quoting.core import InputError, first_few
from quoting.shop import Shop
from scheduler.calendar import MinuteAxis
from scheduler.jobs import DAY_MIN, Setup, ShopOperation, WonLine, setup_of
from scheduler.planning.waits import Waits
from scheduler.sequence import Assignment, Machine, Pin, Plan, Saving, Window, Wish
from scheduler.week import Late, MachineLoad, OpenTime, PlannedOperation, WeekPlan, WeekProblem
from scheduler.wishes import conflict_words, wish_words

RUNNING_NOW = Setup((("running now", 0.0),))


def on_calendar(
    week: WeekProblem, plan: Plan, savings: tuple[Saving, ...], shop: Shop, start: date
) -> WeekPlan:
    """Return the plan of a week with clock times, what is late, how full the machines are, and the notes."""
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
        given_up=len(plan.dropped) + len(week.missed),
    )


def _notes(week: WeekProblem, plan: Plan) -> tuple[str, ...]:
    given_up = [
        f"No plan was found that keeps this wish, so it was given up: {wish_words(wish, week.axis)}."
        f"{_closed_words(week, wish)}"
        for wish in week.missed
    ]
    conflicts = [
        conflict_words(conflict, week.axis) + _closed_words(week, conflict.dropped)
        for conflict in plan.conflicts
    ]
    return (*conflicts, *given_up)


def _closed_words(week: WeekProblem, wish: Wish) -> str:
    """Say that a wish asks for a minute at which no roll that can do it is open, not even in overtime."""
    if not isinstance(wish, Pin) or wish.start is None:
        return ""
    able = {mode.machine for mode in week.problem.operation(wish.operation).modes}
    able &= {wish.machine} if wish.machine else able
    machines = [machine for machine in week.problem.machines if machine.id in able]
    if any(window.start <= wish.start < window.end for one in machines for window in one.windows):
        return ""
    return f" {first_few(sorted(able), 3)} {'is' if len(able) == 1 else 'are'} closed then."


def _slots(week: WeekProblem, plan: Plan, shop: Shop) -> tuple[PlannedOperation, ...]:
    works = {work.operation.id: work for work in week.works}
    rolls = {roll.name: roll for roll in shop.rolls}
    running = {pin.operation for pin in week.problem.without(plan.dropped).pins if pin.running}
    slots: list[PlannedOperation] = []
    waits = Waits(week.problem, plan)
    for machine in week.problem.machines:
        worked = _worked_windows(machine, plan)
        before: ShopOperation | None = None
        for assignment in plan.on(machine.id):
            work = works[assignment.operation]
            setup: Setup | None = None
            if assignment.operation in running:
                setup = RUNNING_NOW
            elif machine.id in rolls:
                setup = setup_of(before, work, rolls[machine.id], shop.setups, inch=shop.inch)
            slots.append(_slot(work, setup, assignment, worked, week.axis, waits))
            before = work
    return tuple(slots)


def _slot(
    work: ShopOperation,
    setup: Setup | None,
    assignment: Assignment,
    worked: Sequence[Window],
    axis: MinuteAxis,
    waits: Waits,
) -> PlannedOperation:
    if setup is not None and setup.minutes != assignment.setup_minutes:
        raise InputError(
            f"the plan counts {assignment.setup_minutes} set-up minutes before {assignment.operation}, "
            f"its reasons {setup.minutes}",
            would_do="report this as a fault of the program",
        )
    ready = _setup_end(assignment, worked)
    return PlannedOperation(
        work=work,
        machine=assignment.machine,
        setup=setup,
        setup_start=axis.moment(assignment.setup_start),
        setup_end=axis.moment(ready),
        start=axis.moment(assignment.start),
        end=axis.moment(assignment.end),
        waits_for=waits.word(assignment, ready, worked) if setup is not None else "",
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
    """Return the regular windows of each machine, and of overtime the minutes that are worked."""
    return {
        machine.id: tuple(
            OpenTime(week.axis.moment(start), week.axis.moment(end), window.overtime_cost_per_min is not None)
            for window in _worked_windows(machine, plan)
            for start, end in _worked_in(window, machine, plan)
        )
        for machine in week.problem.machines
    }


def _worked_in(window: Window, machine: Machine, plan: Plan) -> list[tuple[int, int]]:
    """Return a regular window as it is; of overtime the stretches in which the machine is set up or works."""
    if window.overtime_cost_per_min is None:
        return [(window.start, window.end)]
    worked = _worked_windows(machine, plan)
    found: list[tuple[int, int]] = []
    for one in plan.on(machine.id):
        set_up = [(one.setup_start, _setup_end(one, worked))] if one.setup_minutes else []
        for first, last in (*set_up, (one.start, one.end)):
            begin, end = max(first, window.start), min(last, window.end)
            if begin < end and found and found[-1][1] >= begin:
                found[-1] = (found[-1][0], max(end, found[-1][1]))
            elif begin < end:
                found.append((begin, end))
    return found


def _worked_windows(machine: Machine, plan: Plan) -> tuple[Window, ...]:
    """Return the windows in which the plan works a machine: overtime only where it is used."""
    overtime = {used.start for used in plan.overtime if used.machine == machine.id}
    return tuple(
        window
        for window in machine.windows
        if window.overtime_cost_per_min is None or window.start in overtime
    )


def _late(slots: Sequence[PlannedOperation], week: WeekProblem, shop: Shop) -> tuple[Late, ...]:
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


def _loads(
    slots: Sequence[PlannedOperation], opened: Mapping[str, Sequence[OpenTime]]
) -> tuple[MachineLoad, ...]:
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
        MachineLoad(machine, monday, open_minutes[machine, monday], *busy[machine, monday])
        for machine in opened
        for monday in sorted({day for name, day in open_minutes if name == machine and day <= last})
    )


def _monday(moment: datetime) -> date:
    return moment.date() - timedelta(days=moment.weekday())


def _minutes(begin: datetime, end: datetime) -> int:
    return int((end - begin) / timedelta(minutes=1))
