"""What holds the plan back: the fullest machine, crew or crane, and what more of it would save.

The savings are worked out by planning again: the same search from the same plan, once in the shop as it is
and once with an hour more a day, a Saturday, one more person or one more crane. What the hours themselves
cost is not in them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import partial

from quoting.core import Effort, worked_ahead
from scheduler.calendar import SATURDAY, day_short
from scheduler.jobs import DAY_MIN
from scheduler.sequence import Machine, Plan, SequenceProblem, Staffing, Window, money_again
from scheduler.week import WeekProblem

ORDERS: Mapping[Effort, int] = {"quick": 4_000, "normal": 15_000, "thorough": 60_000}
"""Orders timed for each change."""

HOUR = 60
LEAST_TOLD = Decimal(1)
LEAST_SHARE = 0.2
CREW, CRANE = "the crew", "the crane"


@dataclass(frozen=True, slots=True)
class Fullness:
    """How full a machine, the crew or the crane is until the plan ends: the share of its regular minutes."""

    name: str
    share: float


def holds_back_words(week: WeekProblem, plan: Plan, effort: Effort, currency: str) -> str:
    """Return what is fullest and what more of it would save; nothing where nothing is late."""
    found = sorted(_fullness(week.problem, plan), key=lambda one: -one.share)
    if not found or plan.cost.lateness + plan.cost.overtime <= 0:
        return ""
    end = max(a.end for a in plan.assignments)
    fullest = ", ".join(f"{one.name} {one.share:.0%}" for one in found[:3] if one.share >= LEAST_SHARE)
    until = day_short(week.axis.moment(end - 1))
    told = f"Fullest until {until}, of regular hours: {fullest}."
    worth = _worth(week, plan, found, ORDERS[effort])
    saved = [f"{do} {saves:,.0f} {currency}" for do, saves in worth if saves >= LEAST_TOLD]
    if not saved:
        return f"{told} Neither more hours nor more people would save anything here."
    name = worth[0][0]
    return f"{told} Most would come of {name}. Saved a plan, what it costs not counted: {'; '.join(saved)}."


def _worth(week: WeekProblem, plan: Plan, found: list[Fullness], orders: int) -> list[tuple[str, Decimal]]:
    """Return each change with what it saves, the best first."""
    problem = week.problem.without(plan.dropped)
    changes = list(_changes(week, problem, found))
    changed = [problem, *(change(problem) for _, change in changes)]
    least, *money = worked_ahead([partial(money_again, one, plan, orders) for one in changed])
    worth = [(do, least - min(least, each)) for (do, _), each in zip(changes, money, strict=True)]
    return sorted(worth, key=lambda one: -one[1])


def _changes(
    week: WeekProblem, problem: SequenceProblem, found: list[Fullness]
) -> Iterator[tuple[str, Callable[[SequenceProblem], SequenceProblem]]]:
    machines = {machine.id: machine.kind for machine in problem.machines}
    full = [one.name for one in found if one.name in machines][:2]
    for name in full:
        yield f"an hour more a day on {name}", lambda p, name=name: _longer_day(p, name)  # type: ignore[misc]
    first = week.axis.start.weekday()
    if not any((first + w.start // DAY_MIN) % 7 == SATURDAY for m in problem.machines for w in m.windows):
        yield "Saturdays like the day before", lambda p: _with_saturdays(p, first)
    if problem.staffing:
        yield (
            "one more person",
            lambda p: replace(
                p, staffing=tuple(replace(level, people=level.people + 1) for level in p.staffing)
            ),
        )
    if any(one.name == CRANE and one.share > 0.5 for one in found):
        yield "one more crane", lambda p: replace(p, cranes=p.cranes + 1)


def _fullness(problem: SequenceProblem, plan: Plan) -> Iterator[Fullness]:
    end = max((a.end for a in plan.assignments), default=0)
    minutes = {o.id: {m.machine: m.minutes for m in o.modes} for o in problem.operations}
    operations = {o.id: o for o in problem.operations}
    for machine in problem.machines:
        there = sum(max(0, min(w.end, end) - w.start) for w in _regular(machine))
        used = sum(a.setup_minutes + minutes[a.operation][a.machine] for a in plan.on(machine.id))
        if there:
            yield Fullness(machine.id, used / there)
    open_any = {t for m in problem.machines for w in _regular(m) for t in range(w.start, min(w.end, end))}
    people = sum(
        level.people * sum(t in open_any for t in range(level.start, min(level.end, end)))
        for level in problem.staffing
    )
    crew = sum(
        a.setup_minutes * problem.setup_crew + operations[a.operation].crew * minutes[a.operation][a.machine]
        for a in plan.assignments
    )
    if people:
        yield Fullness(CREW, crew / people)
    lifts = sum(minutes[a.operation][a.machine] for a in plan.assignments if operations[a.operation].crane)
    if lifts and open_any:
        yield Fullness(CRANE, lifts / (problem.cranes * len(open_any)))


def _regular(machine: Machine) -> list[Window]:
    return [w for w in machine.windows if w.overtime_cost_per_min is None]


def _longer_day(problem: SequenceProblem, name: str) -> SequenceProblem:
    """Return the problem with the machine's last regular window of each day an hour longer, people there."""
    longer: list[Machine] = []
    hours: list[tuple[int, int]] = []
    for machine in problem.machines:
        if machine.id != name:
            longer.append(machine)
            continue
        last = {(w.end - 1) // DAY_MIN: w.end for w in _regular(machine)}
        hours = [(end, end + HOUR) for end in last.values() if end + HOUR <= problem.horizon]
        longer.append(replace(machine, windows=_with(machine.windows, hours)))
    return replace(problem, machines=tuple(longer), staffing=_staffed(problem.staffing, hours))


def _with_saturdays(problem: SequenceProblem, first: int) -> SequenceProblem:
    """Return the problem with every Saturday worked like the Friday before it, at no extra price."""
    machines = []
    hours: list[tuple[int, int]] = []
    for machine in problem.machines:
        fridays = [w for w in _regular(machine) if (first + w.start // DAY_MIN) % 7 == SATURDAY - 1]
        more = [(w.start + DAY_MIN, w.end + DAY_MIN) for w in fridays if w.end + DAY_MIN <= problem.horizon]
        hours += more
        machines.append(replace(machine, windows=_with(machine.windows, more)))
    return replace(
        problem, machines=tuple(machines), staffing=_staffed(problem.staffing, sorted(set(hours)), DAY_MIN)
    )


def _with(windows: tuple[Window, ...], hours: list[tuple[int, int]]) -> tuple[Window, ...]:
    """Return windows with regular hours put in; overtime that they cover is no overtime any more."""
    clipped: list[Window] = []
    for window in windows:
        if window.overtime_cost_per_min is None:
            clipped.append(window)
            continue
        start, end = window.start, window.end
        for begin, until in hours:
            if begin <= start < until:
                start = until
        if start < end:
            clipped.append(replace(window, start=start))
    return tuple(sorted([*clipped, *(Window(a, b) for a, b in hours)], key=lambda w: w.start))


def _staffed(
    staffing: tuple[Staffing, ...], hours: list[tuple[int, int]], back: int = 1
) -> tuple[Staffing, ...]:
    """Return the staffing with as many people in those hours as `back` minutes before, if nobody is."""
    found = list(staffing)
    for begin, until in hours:
        if any(level.start < until and level.end > begin for level in staffing):
            continue
        people = next((s.people for s in staffing if s.start <= begin - back < s.end), 0)
        if people:
            found.append(Staffing(begin, until, people))
    merged: list[Staffing] = []
    for level in sorted(found, key=lambda one: one.start):
        if not merged or level.start >= merged[-1].end:
            merged.append(level)
    return tuple(merged)
