"""The constraint model: work on each machine's own axis of working minutes, rows as circuits, people and
crane as cumulatives.

For operation i with calendar c (machines that share windows share c) the variable v_ic is its first
working minute. With the
closed minutes C_k before window k and the literals x_ick "starts in window k" and y_icl "ends in window l",

    start_i = v_ic + sum_k C_k x_ick        end_i = v_ic + p_im + sum_l C_l y_icl

so a pause costs nothing but a literal. Each machine is a circuit over its operations (arc i -> j: j
follows i; loop: done elsewhere)
with v_j >= v_i + p_im + s_ijm, and the set-up money is the sum over its arcs. The model leaves out the
people a set-up
takes, so its bound holds and its order is timed again by the timing code. Formulation after Laborie,
Rogerie, Shaw & Vilim 2018,
Constraints 23 (interval models with sequence-dependent set-ups); the axis of working minutes is our own.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import Any

from .bounds import process_order, running_bound, setup_bound
from .model import Aim
from .stop import Stop
from .tables import Calendar, Tables
from .timing import Timed, time_order

MOST_PRESOLVED_ARCS = 4000
"""On larger models presolve takes longer than the search it helps (8 of 10 s on a week of 100 operations)."""

Arcs = Sequence[Collection[tuple[int, int]] | None]  # for each machine the arcs allowed, None for all


@dataclass(frozen=True, slots=True)
class Answer:
    """What CP-SAT returned: the timed order (None when it found none), a bound in ticks, and whether it is
    proven infeasible."""

    timed: Timed | None
    bound: int
    infeasible: bool


def improve(
    tables: Tables, start: Timed | None, stop: Stop, seed: int = 0, arcs: Arcs | None = None
) -> Answer:
    """Solve the model from a warm start; with `arcs` only those orders are considered and the bound means
    nothing."""
    if tables.problem.aim is Aim.DATES_FIRST:
        return _dates_first(tables, start, stop, seed, arcs)
    model = Model(tables, start, arcs)
    model.minimise(model.lateness() + model.rest())
    return model.solve(stop, seed)


def _dates_first(tables: Tables, start: Timed | None, stop: Stop, seed: int, arcs: Arcs | None) -> Answer:
    half = Stop(
        stop.iterations, stop.work / 2, None if stop.seconds is None else stop.seconds / 2, stop.workers
    )
    first = Model(tables, start, arcs)
    first.minimise(first.lateness())
    dates = first.solve(half, seed)
    best = dates.timed if dates.timed is not None and not dates.timed.broken else start
    if best is None or dates.infeasible:
        return dates
    second = Model(tables, best, arcs)
    second.cap(second.lateness(), best.lateness)
    second.minimise(second.rest())
    rest = second.solve(half, seed)
    found = [t for t in (best, rest.timed) if t is not None]
    return Answer(min(found, key=lambda t: t.score), dates.bound, False)


class Model:
    """Builds the CP-SAT model of one problem. Variables are named after the formulas above."""

    def __init__(self, tables: Tables, hint: Timed | None, arcs: Arcs | None = None) -> None:
        from ortools.sat.python import cp_model  # noqa: PLC0415 - slow to load, so only when used

        self.cp: Any = cp_model
        self.m: Any = cp_model.CpModel()
        self.t = tables
        self.hint = hint
        self.narrow = arcs is not None
        self.horizon = tables.problem.horizon
        self.earliest, self.latest = time_frame(tables, hint)
        self.start: list[Any] = []
        self.end: list[Any] = []
        self.on: list[dict[int, Any]] = []
        self.work: list[dict[int, Any]] = []  # by calendar number
        self.calendars: list[Calendar] = []
        self.calendar_of: list[int] = []
        self.setup_terms: list[Any] = []
        self.overtime_terms: list[Any] = []
        self.starts_in: list[
            list[tuple[int, Any]]
        ] = []  # last minute + 1 of a window, literal "starts in it"
        self.late: list[Any] = []
        self.unfinished: list[Any] = []
        self.running_terms: list[Any] = []
        self._busy_of: dict[int, Any] = {}
        self._number_calendars()
        known = self.horizon if hint is None else max(hint.end, default=0)
        self.stretches = [_stretches(c, known) for c in self.calendars]
        for i in range(tables.size):
            self._operation(i)
        for machine in range(len(tables.calendars)):
            self._row(machine, None if arcs is None else arcs[machine])
        self._waits()
        self._people_and_cranes()
        self._jobs()

    def _number_calendars(self) -> None:
        for calendar in self.t.calendars:
            known = next((k for k, c in enumerate(self.calendars) if c is calendar), None)
            if known is None:
                known = len(self.calendars)
                self.calendars.append(calendar)
            self.calendar_of.append(known)

    def _operation(self, i: int) -> None:
        t, m = self.t, self.m
        fixed = t.fixed_start[i]
        low, high = (self.earliest[i], self.latest[i]) if fixed is None else (fixed, fixed)
        start = m.new_int_var(min(low, high), high, f"s{i}")
        end = m.new_int_var(min(low, high), max(high, self.latest[i]), f"e{i}")
        self.start.append(start)
        self.end.append(end)
        on = {k: m.new_bool_var(f"on{i},{k}") for k in t.minutes[i]}
        m.add_exactly_one(on.values())
        self.on.append(on)
        self.running_terms += [t.running_cost[i][k] * x for k, x in on.items() if t.running_cost[i][k]]
        self.work.append({})
        self.starts_in.append([])
        if self.hint is not None:
            m.add_hint(start, self.hint.start[i])
            m.add_hint(end, self.hint.end[i])
            for k, literal in on.items():
                m.add_hint(literal, int(self.hint.machine[i] == k))
        for c in sorted({self.calendar_of[k] for k in on}):
            self._on_calendar(i, c)

    def _on_calendar(self, i: int, c: int) -> None:
        t, m, calendar = self.t, self.m, self.calendars[c]
        machines = {k: x for k, x in self.on[i].items() if self.calendar_of[k] == c}
        here = sum(machines.values())
        size = sum(t.minutes[i][k] * x for k, x in machines.items())
        shortest = min(t.minutes[i][k] for k in machines)
        near = self._near(i, c)
        if not near:
            m.add(here == 0)
            self.work[i][c] = m.new_constant(0)
            return
        v = m.new_int_var(near[0][0], near[-1][1], f"v{i},{c}")
        self.work[i][c] = v
        if self._hinted_on(i, c) and self.hint is not None:
            m.add_hint(v, calendar.before[min(self.hint.start[i], self.horizon)])
        first = self._starts(i, c, v, shortest, here, near)
        self.starts_in[i] += [(b + g, x) for (_, b, g), x in zip(near, first, strict=True)]
        whole = not t.may_pause[i] or shortest == 0 or len(near) == 1
        if whole:
            last = first
            for (_, b, _), x in zip(near, first, strict=True):
                for k, on in machines.items():
                    m.add(v <= b - t.minutes[i][k]).only_enforce_if(x, on)
        else:
            last = self._ends(i, c, v, machines, near)
        closed = [gap for _, _, gap in near]
        begin = v + sum(g * x for g, x in zip(closed, first, strict=True))
        finish = v + size + sum(g * x for g, x in zip(closed, last, strict=True))
        if len(self.work[i]) == 1 and {self.calendar_of[k] for k in self.on[i]} == {c}:
            m.add(self.start[i] == begin)
            m.add(self.end[i] == finish)
        else:
            for on in machines.values():
                m.add(self.start[i] == begin).only_enforce_if(on)
                m.add(self.end[i] == finish).only_enforce_if(on)
        if calendar.has_overtime:
            self._overtime(i, c, v, machines, shortest)

    def _near(self, i: int, c: int) -> list[tuple[int, int, int]]:
        """The stretches in which the operation may be worked on."""
        low, high = self.earliest[i], self.latest[i]
        return [(a, b, g) for a, b, g in self.stretches[c] if b + g >= low and a + g <= high]

    def _hinted_on(self, i: int, c: int) -> bool:
        return self.hint is not None and self.calendar_of[self.hint.machine[i]] == c

    def _starts(
        self, i: int, c: int, v: Any, shortest: int, here: Any, near: list[tuple[int, int, int]]
    ) -> list[Any]:
        """Literals x: the first working minute lies in this stretch."""
        literals = [self.m.new_bool_var(f"x{i},{c},{k}") for k in range(len(near))]
        self.m.add(sum(literals) == here)
        spare = 1 if self.t.may_pause[i] and shortest else shortest
        for (a, b, _), x in zip(near, literals, strict=True):
            if b - spare < a:
                self.m.add(x == 0)
            elif len(near) > 1:
                self.m.add_linear_constraint(v, a, b - spare).only_enforce_if(x)
            if self._hinted_on(i, c) and self.hint is not None:
                self.m.add_hint(x, int(a <= self.calendars[c].before[self.hint.start[i]] < b))
        return literals

    def _ends(
        self, i: int, c: int, v: Any, machines: dict[int, Any], near: list[tuple[int, int, int]]
    ) -> list[Any]:
        """Literals y: the last working minute lies in this stretch."""
        literals = [self.m.new_bool_var(f"y{i},{c},{k}") for k in range(len(near))]
        self.m.add(sum(literals) == sum(machines.values()))
        for (a, b, _), y in zip(near, literals, strict=True):
            for k, on in machines.items():
                p = self.t.minutes[i][k]
                when = (y,) if len(machines) == 1 else (y, on)
                self.m.add_linear_constraint(v, a + 1 - p, b - p).only_enforce_if(*when)
            if self._hinted_on(i, c) and self.hint is not None:
                self.m.add_hint(y, int(a <= self.calendars[c].before[self.hint.end[i]] - 1 < b))
        return literals

    def _overtime(self, i: int, c: int, v: Any, machines: dict[int, Any], shortest: int) -> None:
        """Money for the minutes worked in overtime: exact through the table of paid minutes, by start
        minute."""
        paid = self.calendars[c].paid
        for k, on in machines.items():
            p = self.t.minutes[i][k]
            costs = [paid[w + p] - paid[w] for w in range(len(paid) - p)]
            if not costs or max(costs) == 0:
                continue
            money = self.m.new_int_var(0, max(costs), f"ot{i},{k}")
            pieces = []
            for low, high, base, slope in _pieces(costs):
                piece = self.m.new_bool_var("")
                self.m.add_linear_constraint(v, low, high).only_enforce_if(piece)
                self.m.add(money >= base + slope * (v - low)).only_enforce_if(piece)
                pieces.append(piece)
            self.m.add(sum(pieces) == on)
            self.overtime_terms.append(money)

    def _row(self, machine: int, allowed: Collection[tuple[int, int]] | None) -> None:
        t, m = self.t, self.m
        c = self.calendar_of[machine]
        able = [i for i in range(t.size) if machine in t.minutes[i]]
        if not able:
            return
        follows = self._hinted_row(machine)
        never = _cannot_follow(t, able)
        empty = m.new_bool_var("")
        m.add_hint(empty, int(self.hint is not None and not follows))
        circuit = [(0, 0, empty)]
        for i in able:
            circuit.append((i + 1, i + 1, ~self.on[i][machine]))
        pairs = (
            [(i, j) for i in [-1, *able] for j in [*able, -1] if i != j]
            if allowed is None
            else sorted(set(allowed))
        )
        for i, j in pairs:
            if (i, j) in never:
                continue
            literal = m.new_bool_var(f"a{machine},{i},{j}")
            if self.hint is not None:
                m.add_hint(literal, int((i, j) in follows))
            circuit.append((i + 1, j + 1, literal))
            if j >= 0:
                self._follows(machine, c, i, j, literal)
        m.add_circuit(circuit)
        m.add_no_overlap(
            [
                m.new_optional_fixed_size_interval_var(
                    self.work[i][c], t.minutes[i][machine], self.on[i][machine], ""
                )
                for i in able
            ]
        )

    def _follows(self, machine: int, c: int, i: int, j: int, literal: Any) -> None:
        t = self.t
        setup = t.setup(machine, i, j)
        ready = self.work[i][c] + t.minutes[i][machine] if i >= 0 else 0
        if i >= 0 or setup:
            self.m.add(self.work[j][c] >= ready + setup).only_enforce_if(literal)
        if setup and t.setup_rate:
            self.setup_terms.append(setup * t.setup_rate * literal)

    def _hinted_row(self, machine: int) -> set[tuple[int, int]]:
        if self.hint is None:
            return set()
        row = [i for i in self.hint.order() if self.hint.machine[i] == machine]
        return set(zip([-1, *row], [*row, -1], strict=True)) if row else set()

    def _waits(self) -> None:
        for i, waits in enumerate(self.t.before):
            for j, lag in waits:
                self.m.add(self.start[i] >= self.end[j] + lag)
            if self.t.running[i]:
                for k, on in self.on[i].items():
                    for j in range(self.t.size):
                        if j != i and k in self.on[j]:
                            self.m.add(self.start[j] >= self.end[i]).only_enforce_if(on, self.on[j][k])

    def _people_and_cranes(self) -> None:
        t = self.t
        crane = [i for i in range(t.size) if t.crane[i]]
        if len(crane) > t.problem.cranes:
            self.m.add_cumulative([self._busy(i) for i in crane], [1] * len(crane), t.problem.cranes)
        if t.people is None:
            return
        crew = [i for i in range(t.size) if t.crew[i]]
        levels = _levels(t.people, self._nobody_works())
        most = max((p for _, _, p in levels), default=0)
        intervals = [self._busy(i) for i in crew]
        demands = [t.crew[i] for i in crew]
        for a, b, people in levels:
            if people < most:
                intervals.append(self.m.new_fixed_size_interval_var(a, b - a, ""))
                demands.append(most - people)
        self.m.add_cumulative(intervals, demands, most)

    def _nobody_works(self) -> list[bool]:
        """For each minute whether every machine is closed: then a paused operation may seem to hold
        people."""
        befores = [c.before for c in self.calendars]
        return [all(b[t + 1] == b[t] for b in befores) for t in range(self.horizon)]

    def _busy(self, i: int) -> Any:
        """The interval in which an operation surely holds its people: to its first pause when others may
        work on."""
        if i not in self._busy_of:
            end = self.end[i]
            if self.t.may_pause[i] and len(self.calendars) > 1:
                end = self._first_pause(i)
            size = self.m.new_int_var(0, self.horizon, "")
            self._busy_of[i] = self.m.new_interval_var(self.start[i], size, end, "")
        return self._busy_of[i]

    def _first_pause(self, i: int) -> Any:
        """End of the work before its first pause: min(end, end of the window it starts in)."""
        window_end = sum(stop * x for stop, x in self.starts_in[i])
        end = self.m.new_int_var(0, self.horizon, "")
        self.m.add_min_equality(end, [self.end[i], window_end])
        return end

    def _jobs(self) -> None:
        t = self.t
        last: list[list[int]] = [[] for _ in t.due]
        for i, k in enumerate(t.job):
            last[k].append(i)
        for k, own in enumerate(last):
            if not own:
                continue
            hard = t.must_ship[k]
            if hard is not None:
                for i in own:
                    self.m.add(self.end[i] <= hard)
            if t.weight[k]:
                late = self.m.new_int_var(0, max(0, self.horizon - t.due[k]), f"late{k}")
                for i in own:
                    self.m.add(late >= self.end[i] - t.due[k])
                if self.hint is not None:
                    self.m.add_hint(late, max(0, *(self.hint.end[i] - t.due[k] for i in own), 0))
                self.late.append(t.weight[k] * late)
            if t.wip_rate:
                self._unfinished(own)

    def _unfinished(self, own: list[int]) -> None:
        first = self.m.new_int_var(0, self.horizon, "")
        done = self.m.new_int_var(0, self.horizon, "")
        self.m.add_min_equality(first, [self.start[i] for i in own])
        self.m.add_max_equality(done, [self.end[i] for i in own])
        if self.hint is not None:
            self.m.add_hint(first, min(self.hint.start[i] for i in own))
            self.m.add_hint(done, max(self.hint.end[i] for i in own))
        self.unfinished.append(self.t.wip_rate * (done - first))

    def lateness(self) -> Any:
        """Weighted late minutes, ticks."""
        return sum(self.late)

    def rest(self) -> Any:
        """Set-ups, overtime, unfinished work and dearer machines, ticks."""
        return (
            sum(self.setup_terms) + sum(self.overtime_terms) + sum(self.unfinished) + sum(self.running_terms)
        )

    def minimise(self, objective: Any) -> None:
        """Set the objective."""
        self.has_objective = not isinstance(objective, int)
        if self.has_objective:
            self.m.minimize(objective)

    def cap(self, expression: Any, most: int) -> None:
        """Keep an expression at or below a value."""
        if not isinstance(expression, int):
            self.m.add(expression <= most)

    def solve(self, stop: Stop, seed: int) -> Answer:
        """Run CP-SAT and time the order it found again."""
        solver = self.cp.CpSolver()
        configure(solver.parameters, stop, seed)
        solver.parameters.cp_model_presolve = self._arcs() <= MOST_PRESOLVED_ARCS
        if self.narrow:
            solver.parameters.linearization_level = 0  # by trial: no bound wanted, so no time for relaxations
        status = solver.solve(self.m)
        if status not in (self.cp.OPTIMAL, self.cp.FEASIBLE):
            bound = (
                int(solver.best_objective_bound) if status == self.cp.UNKNOWN and self.has_objective else 0
            )
            return Answer(None, max(0, bound), status == self.cp.INFEASIBLE)
        starts = [solver.value(s) for s in self.start]
        ends = [solver.value(e) for e in self.end]
        order = sorted(range(self.t.size), key=lambda i: (starts[i], ends[i], i))
        machine = [next(k for k, x in on.items() if solver.boolean_value(x)) for on in self.on]
        bound = int(solver.best_objective_bound) if self.has_objective else 0
        return Answer(time_order(self.t, order, machine), max(0, bound), False)

    def _arcs(self) -> int:
        """Return how many followings all rows together can hold."""
        rows = (sum(m in modes for modes in self.t.minutes) for m in range(len(self.t.calendars)))
        return sum(n * n for n in rows)


def configure(parameters: Any, stop: Stop, seed: int) -> None:
    """Set limits so that the same call gives the same answer, unless wall time ends it."""
    parameters.random_seed = seed
    parameters.max_deterministic_time = stop.work
    if stop.seconds is not None:
        parameters.max_time_in_seconds = max(0.05, stop.seconds)
    parameters.num_workers = stop.workers
    parameters.symmetry_level = 0
    parameters.max_presolve_iterations = 1
    parameters.cp_model_probing_level = 0
    if stop.workers > 1:
        parameters.interleave_search = True


def _stretches(calendar: Calendar, known: int) -> list[tuple[int, int, int]]:
    """Stretches without a gap: first and last + 1 working minute, closed minutes before it.

    After minute `known`, where the warm start has ended, all is taken as one stretch: closed minutes left
    out can only
    make plans cheaper, so bounds still hold, and better plans hardly ever reach there.
    """
    found, w = [], 0
    while w < len(calendar.at):
        stop = calendar.resume[w] if calendar.at[w] <= known else len(calendar.at)
        found.append((w, stop, calendar.at[w] - w))
        w = stop
    return found


def time_frame(t: Tables, hint: Timed | None) -> tuple[list[int], list[int]]:
    """Earliest start and latest end of each operation in any plan that costs no more than the warm start.

    A job's late money alone may not exceed what the warm start costs above the bound on everything else.
    """
    order = process_order(t)
    earliest = list(t.release)
    for i in order:
        for j, lag in t.before[i]:
            earliest[i] = max(earliest[i], earliest[j] + min(t.minutes[j].values()) + lag)
    room: int | None = None
    if hint is not None and not hint.broken:
        room = hint.lateness if hint.dates_first else hint.total - setup_bound(t) - running_bound(t)
    latest = [t.problem.horizon] * t.size
    for i in order:
        k = t.job[i]
        if room is not None and t.weight[k]:
            latest[i] = min(latest[i], max(0, t.due[k] + room // t.weight[k]))
    for i in reversed(order):
        for j, lag in t.before[i]:
            latest[j] = min(latest[j], latest[i] - min(t.minutes[i].values()) - lag)
    return [min(e, t.problem.horizon) for e in earliest], latest


def _cannot_follow(t: Tables, able: list[int]) -> set[tuple[int, int]]:
    """Arcs that the process order rules out, and those before an operation that runs already."""
    never = set()
    for j in able:
        for i, _ in t.before[j]:
            never.add((j, i))
        if t.running[j]:
            never.update((i, j) for i in able)
    return never


def _levels(people: Sequence[int], ignore: Sequence[bool]) -> list[tuple[int, int, int]]:
    """Stretches of equal staffing, minutes in which nobody works left out."""
    found: list[tuple[int, int, int]] = []
    for t, skip in enumerate(ignore):
        if skip:
            continue
        if found and found[-1][1] == t and found[-1][2] == people[t]:
            found[-1] = (found[-1][0], t + 1, people[t])
        else:
            found.append((t, t + 1, people[t]))
    return found


def _pieces(costs: Sequence[int]) -> list[tuple[int, int, int, int]]:
    """Cut a table into pieces of constant slope: first index, last index, first value, slope."""
    found: list[tuple[int, int, int, int]] = []
    a = 0
    while a < len(costs):
        b = a
        slope = costs[a + 1] - costs[a] if a + 1 < len(costs) else 0
        while b + 1 < len(costs) and costs[b + 1] - costs[b] == slope:
            b += 1
        found.append((a, b, costs[a], slope))
        a = b + 1
    return found
