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

from dataclasses import dataclass
from typing import Any

from scheduler.sequence.exact.constraints import Model, build
from scheduler.sequence.problem_parts import Aim
from scheduler.sequence.stop import Stop
from scheduler.sequence.timing import Tables, Timed, time_order

MOST_PRESOLVED_ARCS = 4000
"""On larger models presolve takes longer than the search it helps (8 of 10 s on a week of 100 operations)."""


@dataclass(frozen=True, slots=True)
class ModelAnswer:
    """What CP-SAT returned: the timed order (None when it found none), a bound in ticks, and whether it is
    proven infeasible."""

    timed: Timed | None
    bound: int
    infeasible: bool


def improve(tables: Tables, start: Timed | None, stop: Stop, seed: int = 0) -> ModelAnswer:
    """Solve the model from a warm start."""
    if tables.problem.aim is Aim.DATES_FIRST:
        return _dates_first(tables, start, stop, seed)
    model = build(tables, start)
    model.minimise(model.lateness() + model.rest())
    return _solve(model, stop, seed)


def _dates_first(tables: Tables, start: Timed | None, stop: Stop, seed: int) -> ModelAnswer:
    half = Stop(
        stop.iterations, stop.work / 2, None if stop.seconds is None else stop.seconds / 2, stop.workers
    )
    first = build(tables, start)
    first.minimise(first.lateness())
    dates = _solve(first, half, seed)
    best = dates.timed if dates.timed is not None and not dates.timed.broken else start
    if best is None or dates.infeasible:
        return dates
    second = build(tables, best)
    second.cap(second.lateness(), best.lateness)
    second.minimise(second.rest())
    rest = _solve(second, half, seed)
    found = [t for t in (best, rest.timed) if t is not None]
    return ModelAnswer(min(found, key=lambda t: t.score), dates.bound, False)


def _solve(model: Model, stop: Stop, seed: int) -> ModelAnswer:
    """Run CP-SAT and time the order it found again."""
    solver = model.cp.CpSolver()
    configure(solver.parameters, stop, seed)
    solver.parameters.cp_model_presolve = _arcs(model.t) <= MOST_PRESOLVED_ARCS
    status = solver.solve(model.m)
    if status not in (model.cp.OPTIMAL, model.cp.FEASIBLE):
        bound = int(solver.best_objective_bound) if status == model.cp.UNKNOWN and model.has_objective else 0
        return ModelAnswer(None, max(0, bound), status == model.cp.INFEASIBLE)
    starts = [solver.value(s) for s in model.start]
    ends = [solver.value(e) for e in model.end]
    order = sorted(range(model.t.size), key=lambda i: (starts[i], ends[i], i))
    machine = [next(k for k, x in on.items() if solver.boolean_value(x)) for on in model.on]
    bound = int(solver.best_objective_bound) if model.has_objective else 0
    return ModelAnswer(time_order(model.t, order, machine), max(0, bound), False)


def _arcs(t: Tables) -> int:
    """Return how many followings all rows together can hold."""
    rows = (sum(m in modes for modes in t.minutes) for m in range(len(t.calendars)))
    return sum(n * n for n in rows)


def configure(parameters: Any, stop: Stop, seed: int) -> None:
    """Set limits so that the same call gives the same answer, unless wall time ends it."""
    parameters.catch_sigint_signal = False  # it would leave Ctrl-C ending the process unheard
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
