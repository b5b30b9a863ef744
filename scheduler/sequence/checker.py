"""Replays a plan minute by minute against every rule and adds up its money again.

It shares no code with the searches and the timing: it reads only the problem and the plan.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from decimal import Decimal

from scheduler.sequence.plan import Assignment, Cost, Plan
from scheduler.sequence.problem import SequenceProblem
from scheduler.sequence.problem_parts import Job, Machine, Operation, Pin


def check(problem: SequenceProblem, plan: Plan) -> tuple[str, ...]:
    """Return in words every rule the plan breaks: empty when it can be run as it stands.

    Wishes that the plan says it gave up are not held against it.
    """
    return tuple(_Replay(problem.without(plan.dropped), plan).faults())


class _Replay:
    def __init__(self, problem: SequenceProblem, plan: Plan) -> None:
        self.problem, self.plan = problem, plan
        self.operations = {o.id: o for o in problem.operations}
        self.machines = {m.id: m for m in problem.machines}
        self.place = {o.id: i for i, o in enumerate(problem.operations)}
        self.done = {a.operation: a for a in plan.assignments}
        self.opened = {(u.machine, u.start, u.end) for u in plan.overtime}
        self.price = {m.id: self._minute_prices(m) for m in problem.machines}
        self.running = {p.operation for p in problem.pins if p.running}

    def _minute_prices(self, machine: Machine) -> dict[int, Decimal]:
        """Every minute the machine works, with its overtime price (0 in regular time)."""
        prices: dict[int, Decimal] = {}
        for window in machine.windows:
            price = window.overtime_cost_per_min
            if price is None or (machine.id, window.start, window.end) in self.opened:
                prices.update(dict.fromkeys(range(window.start, window.end), price or Decimal(0)))
        return prices

    def faults(self) -> Iterator[str]:
        yield from self._completeness()
        if any(
            a.operation not in self.operations or a.machine not in self.machines
            for a in self.plan.assignments
        ):
            return
        for assignment in self.plan.assignments:
            yield from self._one(assignment, self.operations[assignment.operation])
        for machine in self.problem.machines:
            yield from self._row(machine)
        yield from self._waits()
        yield from self._people_and_cranes()
        for pin in self.problem.pins:
            yield from self._pin(pin)
        for job in self.problem.jobs:
            yield from self._hard_date(job)
        yield from self._money()

    def _completeness(self) -> Iterator[str]:
        seen: dict[str, int] = defaultdict(int)
        for assignment in self.plan.assignments:
            seen[assignment.operation] += 1
            if assignment.operation not in self.operations:
                yield f"{assignment.operation} is planned but not in the problem"
            if assignment.machine not in self.machines:
                yield f"{assignment.operation} is planned on {assignment.machine}, which does not exist"
        for name in self.operations:
            if seen[name] != 1:
                yield f"{name} is planned {seen[name]} times, not once"
        for used in self.plan.overtime:
            machine = self.machines.get(used.machine)
            offered = machine.windows if machine else ()
            if not any(
                (w.start, w.end) == (used.start, used.end) and w.overtime_cost_per_min is not None
                for w in offered
            ):
                yield f"overtime {used.start} to {used.end} on {used.machine} is not on offer"

    def _one(self, a: Assignment, operation: Operation) -> Iterator[str]:
        minutes = {m.machine: m.minutes for m in operation.modes}.get(a.machine)
        if minutes is None:
            yield f"{a.operation} cannot be done on {a.machine}"
            return
        open_minutes = self.price[a.machine]
        worked = [t for t in range(a.start, a.end) if t in open_minutes]
        if len(worked) != minutes:
            yield f"{a.operation} gets {len(worked)} working minutes on {a.machine}, needs {minutes}"
        if minutes and (a.start not in open_minutes or a.end - 1 not in open_minutes):
            yield f"{a.operation} starts or ends outside the working windows of {a.machine}"
        if not operation.may_pause and len(worked) != a.end - a.start:
            yield f"{a.operation} may not pause but runs over a closed window of {a.machine}"
        if a.start < operation.release:
            yield f"{a.operation} starts at {a.start}, before its release at {operation.release}"

    def _setup_span(self, a: Assignment) -> list[int]:
        """The working minutes the set-up takes, from its start on, none at or after the work's start."""
        span: list[int] = []
        t = a.setup_start
        while len(span) < a.setup_minutes and t < a.start:
            if t in self.price[a.machine]:
                span.append(t)
            t += 1
        return span

    def _row(self, machine: Machine) -> Iterator[str]:
        free_from, last = 0, -1
        row = sorted(
            (a for a in self.plan.assignments if a.machine == machine.id), key=lambda a: (a.start, a.end)
        )
        matrix = self.problem.setups.get(machine.id)
        for a in row:
            needed = (
                0
                if matrix is None or a.operation in self.running
                else int(matrix[last + 1, self.place[a.operation]])
            )
            if a.setup_minutes != needed:
                yield f"{a.operation} on {machine.id} shows {a.setup_minutes} set-up minutes, needs {needed}"
            if len(self._setup_span(a)) < a.setup_minutes:
                yield f"{a.operation} on {machine.id} starts before its set-up is done"
            if min(a.setup_start, a.start) < free_from:
                yield f"{a.operation} on {machine.id} is begun while the work before it still runs"
            if a.operation in self.running and last != -1:
                yield f"{a.operation} is running already but is not first on {machine.id}"
            free_from, last = a.end, self.place[a.operation]

    def _waits(self) -> Iterator[str]:
        for operation in self.problem.operations:
            own = self.done.get(operation.id)
            for after in operation.after:
                first = self.done.get(after.operation)
                if own and first and own.start < first.end + after.lag:
                    yield f"{operation.id} starts sooner than {after.lag} minutes after {after.operation}"

    def _people_and_cranes(self) -> Iterator[str]:
        people: dict[int, int] = defaultdict(int)
        cranes: dict[int, int] = defaultdict(int)
        for a in self.plan.assignments:
            operation = self.operations[a.operation]
            for t in self._setup_span(a):
                people[t] += self.problem.setup_crew
            for t in range(a.start, a.end):
                if t in self.price[a.machine]:
                    people[t] += operation.crew
                    cranes[t] += operation.crane
        there: dict[int, int] = defaultdict(int)
        for level in self.problem.staffing:
            there.update(dict.fromkeys(range(level.start, level.end), level.people))
        short = [t for t in sorted(people) if self.problem.staffing and people[t] > there[t]]
        if short:
            t = short[0]
            yield f"minute {t} needs {people[t]} people, {there[t]} are there ({len(short)} such minutes)"
        lifts = [t for t in sorted(cranes) if cranes[t] > self.problem.cranes]
        if lifts:
            t = lifts[0]
            yield f"minute {t} needs {cranes[t]} cranes of {self.problem.cranes} ({len(lifts)} such minutes)"

    def _pin(self, pin: Pin) -> Iterator[str]:
        a = self.done.get(pin.operation)
        other = self.done.get(pin.before or "")
        if a is None:
            return
        if pin.machine is not None and a.machine != pin.machine:
            yield f"{pin} - but it is planned on {a.machine}"
        if pin.start is not None and a.start != pin.start:
            yield f"{pin} - but it starts at {a.start}"
        if pin.not_before is not None and a.start < pin.not_before:
            yield f"{pin} - but it starts at {a.start}"
        if other is not None and other.start < a.end:
            yield f"{pin} - but {other.operation} starts at {other.start}, before its end at {a.end}"

    def _job_end(self, job: Job) -> int:
        return max((self.done[o.id].end for o in self._of(job)), default=0)

    def _of(self, job: Job) -> list[Operation]:
        return [o for o in self.problem.operations if o.job == job.id and o.id in self.done]

    def _hard_date(self, job: Job) -> Iterator[str]:
        end = self._job_end(job)
        if job.must_ship is not None and end > job.must_ship:
            yield f"{job.id} must ship by minute {job.must_ship} but is done at {end}"

    def cost(self) -> Cost:
        """Add up the money from the problem's own prices."""
        rates = self.problem.rates
        setup = sum((a.setup_minutes * rates.setup for a in self.plan.assignments), Decimal(0))
        late = wip = overtime = Decimal(0)
        for job in self.problem.jobs:
            own = self._of(job)
            if own:
                end = self._job_end(job)
                late += job.weight * max(0, end - job.due)
                wip += rates.wip * (end - min(self.done[o.id].start for o in own))
        for a in self.plan.assignments:
            prices = self.price[a.machine]
            overtime += sum((prices[t] for t in self._setup_span(a)), Decimal(0))
            overtime += sum((prices[t] for t in range(a.start, a.end) if t in prices), Decimal(0))
        return Cost(setup, late, overtime, wip, self._running_cost())

    def _running_cost(self) -> Decimal:
        """Money of the machines chosen, mode by mode."""
        modes = ((a, m) for a in self.plan.assignments for m in self.operations[a.operation].modes)
        return sum((m.cost for a, m in modes if m.machine == a.machine), Decimal(0))

    def _money(self) -> Iterator[str]:
        if len(self.done) < len(self.operations):
            return
        found, said = self.cost(), self.plan.cost
        for part in ("setup", "lateness", "overtime", "wip", "running"):
            if abs(getattr(found, part) - getattr(said, part)) > Decimal("0.005"):
                yield f"{part} costs {getattr(found, part)}, the plan says {getattr(said, part)}"
        if self.plan.bound > found.total + Decimal("0.005"):
            yield f"the bound {self.plan.bound} lies above the plan's own total {found.total}"
