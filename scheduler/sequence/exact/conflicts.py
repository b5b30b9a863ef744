"""Which wishes cannot be kept together: the smallest set, found by leaving out one at a time.

Deletion filter of Chinneck & Dravnieks 1991, "Locating minimal infeasible constraint sets in linear
programs", ORSA Journal on
Computing 3: take each wish out in turn; if the rest is still impossible it is not needed for the conflict
and stays out.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from scheduler.sequence.exact.cpsat import improve
from scheduler.sequence.exact.too_soon import given_up_at_once
from scheduler.sequence.plan import Conflict
from scheduler.sequence.precedence import find_cycle
from scheduler.sequence.problem import SequenceProblem
from scheduler.sequence.problem_parts import Aim, Pin, PlanRates, Wish
from scheduler.sequence.rules import best_rule
from scheduler.sequence.stop import Stop
from scheduler.sequence.timing import overtime_windows, tables


def impossible(problem: SequenceProblem, work: float = 2.0) -> bool:
    """Whether it is proven that no plan keeps every wish, with all overtime worked.

    `work` is the deterministic effort of the proof; when it runs out the answer is no.
    """
    if obvious_conflict(problem):
        return True
    everything = frozenset((m, w.start) for m, w in overtime_windows(problem))
    t = tables(_only_dates(problem), everything)
    if not best_rule(t)[1].broken:
        return False
    return improve(t, None, Stop(work=work)).infeasible


def obvious_conflict(problem: SequenceProblem) -> bool:
    """Whether pins close a circle or want one operation in two places: no timing is needed to see it."""
    return _circle(problem) or _two_machines(problem)


def _only_dates(problem: SequenceProblem) -> SequenceProblem:
    """The same rules with no money: only whether a plan exists matters."""
    jobs = tuple(replace(j, weight=j.weight * 0) for j in problem.jobs)
    none = problem.rates.setup * 0
    operations = tuple(
        replace(o, modes=tuple(replace(m, cost=m.cost * 0) for m in o.modes)) for o in problem.operations
    )
    return replace(problem, operations=operations, jobs=jobs, rates=PlanRates(none, none), aim=Aim.MONEY)


def smallest_conflict(problem: SequenceProblem, work: float = 2.0) -> tuple[Wish, ...]:
    """Return wishes that cannot all be kept although any one fewer can, or () when no conflict is
    proven."""
    if not problem.wishes or not impossible(problem, work):
        return ()
    kept = list(_first_guess(problem, work))
    for wish in tuple(kept):
        trial = [w for w in kept if w is not wish]
        if impossible(_with_only(problem, trial), work):
            kept = trial
    return tuple(kept)


def settle(problem: SequenceProblem, work: float = 2.0) -> tuple[SequenceProblem, tuple[Conflict, ...]]:
    """Give up one wish of each conflict until the rest can be kept: a pin before a hard date, the last one
    given first. Dates that are too soon without a search go before all others."""
    problem, at_once = given_up_at_once(problem)
    conflicts = list(at_once)
    while wishes := smallest_conflict(problem, work):
        pins = [w for w in wishes if isinstance(w, Pin) and not w.running]
        dropped = pins[-1] if pins else wishes[-1]
        conflicts.append(Conflict(wishes, dropped))
        problem = problem.without((dropped,))
    return problem, tuple(conflicts)


def _first_guess(problem: SequenceProblem, work: float) -> Sequence[Wish]:
    """Halve the list while a half alone is impossible, so that few proofs are needed."""
    wishes: list[Wish] = list(problem.wishes)
    while len(wishes) > 3:
        half = len(wishes) // 2
        for part in (wishes[:half], wishes[half:]):
            if impossible(_with_only(problem, part), work):
                wishes = part
                break
        else:
            break
    return wishes


def _with_only(problem: SequenceProblem, wishes: Sequence[Wish]) -> SequenceProblem:
    return problem.without(tuple(w for w in problem.wishes if w not in wishes))


def _circle(problem: SequenceProblem) -> bool:
    before = {o.id: [a.operation for a in o.after] for o in problem.operations}
    for pin in problem.pins:
        if pin.before is not None:
            before[pin.before].append(pin.operation)
    return bool(find_cycle(before))


def _two_machines(problem: SequenceProblem) -> bool:
    for operation in problem.operations:
        wanted = {p.machine for p in problem.pins if p.operation == operation.id and p.machine is not None}
        starts = {p.start for p in problem.pins if p.operation == operation.id and p.start is not None}
        if len(wanted) > 1 or len(starts) > 1:
            return True
    return False
