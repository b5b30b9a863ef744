"""Solving again from a plan that is there: its order timed in a changed problem, and one job brought forward.

Much cheaper than `solve`, and what comes out differs from the plan only where the change or that one job's
move makes it differ, so that a difference in money can be told as the change's own.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from scheduler.sequence.checked_plan import finish
from scheduler.sequence.plan import Plan
from scheduler.sequence.problem import SequenceProblem
from scheduler.sequence.rules import first_machines
from scheduler.sequence.search import Places
from scheduler.sequence.timing import Opened, Score, Tables, Timed, late_setups, tables, time_order

Rank = tuple[int, int, int, int]
Judge = Callable[[Score, int], Rank]


def opened_in(plan: Plan) -> Opened:
    """Return the overtime windows that the plan works."""
    return frozenset((used.machine, used.start) for used in plan.overtime)


def timed_again(t: Tables, plan: Plan) -> Timed:
    """Time the plan's order in tables that may have changed since.

    An operation whose machine may not do it any more goes to its quickest one; one that the plan lacks
    comes last.
    """
    number = {machine.id: k for k, machine in enumerate(t.problem.machines)}
    done = {assignment.operation: assignment.machine for assignment in plan.assignments}
    place = {name: k for k, name in enumerate(plan.order)}
    machine = first_machines(t)
    keys: list[tuple[int, int]] = []
    for i, operation in enumerate(t.problem.operations):
        had = number.get(done.get(operation.id, ""))
        if had is not None and had in t.minutes[i]:
            machine[i] = had
        keys.append((place.get(operation.id, len(place)), i))
    return time_order(t, sorted(range(t.size), key=keys.__getitem__), machine)


def time_again(problem: SequenceProblem, plan: Plan) -> Plan:
    """Return the plan's order timed and checked in a changed problem, with the overtime that it works.

    Raises `NoPlanError` when the order then breaks a hard rule.
    """
    t = tables(problem, opened_in(plan))
    return checked(t, timed_again(t, plan))


def checked(t: Tables, timed: Timed) -> Plan:
    """Return a timed order as a plan that the checker has passed; its bound is not worked out, so it is 0.

    Raises `NoPlanError` when the order breaks a hard rule.
    """
    return finish(t, late_setups(t, timed), "solved again from a plan")


def job_end(t: Tables, timed: Timed, job: int) -> int:
    """Return the minute at which a job has ended."""
    return max((timed.end[i] for i in range(t.size) if t.job[i] == job), default=0)


def latest_jobs(t: Tables, timed: Timed) -> list[int]:
    """Return the jobs that cost late money, the dearest first."""
    late = {k: t.weight[k] * max(0, job_end(t, timed, k) - due) for k, due in enumerate(t.due)}
    return sorted((k for k in late if late[k]), key=lambda k: (-late[k], k))


def rank(score: Score, late: int) -> Rank:
    """What is made small when one job is helped: broken rules, its late minutes, then the problem's aim."""
    return (score[0], late, *score[1:])


def aim_rank(score: Score, late: int) -> Rank:
    """What is made small when the job is helped as far as it pays: broken rules, then the problem's aim."""
    return (*score, late)


def ranked(t: Tables, timed: Timed, job: int, judge: Judge = rank) -> Rank:
    """Return what the judge makes of a timed order."""
    return judge(timed.score, max(0, job_end(t, timed, job) - t.due[job]))


def bring_forward(t: Tables, timed: Timed, job: int, places: int, judge: Judge = rank) -> Timed:
    """Return the order that the judge ranks least: the job least late, of equals the best by the aim.

    The job's operations, and the cutting before them, are tried at `places` places in the order and at as
    many around the best of them. Nothing else moves, and no operation changes its machine.
    """
    best = timed
    places_of = None if any(start is not None for start in t.fixed_start) else Places(t)
    for block in _blocks(t, job):
        best = _scan(_Scan(t, block, job, judge, places_of), best, places)
    return best


def forward_on_any_machine(t: Tables, timed: Timed, job: int, places: int, judge: Judge = rank) -> Timed:
    """Bring a job forward, each of its operations also on every other machine that can do it."""
    best = bring_forward(t, timed, job, places, judge)
    for i in (i for i in range(t.size) if t.job[i] == job):
        for other in sorted(set(t.minutes[i]) - {timed.machine[i]}):
            machine = [other if k == i else m for k, m in enumerate(timed.machine)]
            found = bring_forward(t, time_order(t, timed.placed, machine), job, places, judge)
            best = min(best, found, key=lambda one: ranked(t, one, job, judge))
    return best


def _blocks(t: Tables, job: int) -> list[list[int]]:
    """What is moved together: each operation of the job with what only waits to be done for it, and alone."""
    found: list[list[int]] = []
    for i in (i for i in range(t.size) if t.job[i] == job):
        waits = [j for j, _ in t.before[i] if t.job[j] != job]
        found += [[*waits, i], waits] if waits else []
        found.append([i])
    return found


@dataclass(frozen=True, slots=True)
class _Scan:
    """A block of operations that is tried at many places for one job."""

    tables: Tables
    block: Sequence[int]
    job: int
    judge: Judge
    compiled: Places | None

    def ranks(self, rest: Sequence[int], at: Sequence[int], machine: Sequence[int]) -> list[Rank]:
        """Return what the judge makes of each place."""
        t, due = self.tables, self.tables.due[self.job]
        if self.compiled is not None:
            puts = self.compiled.scan(rest, self.block, at, self.job, machine)
            return [self.judge(put.score, max(0, put.end - due)) for put in puts]
        timed = (time_order(t, [*rest[:k], *self.block, *rest[k:]], machine) for k in at)
        return [ranked(t, one, self.job, self.judge) for one in timed]


def _scan(scan: _Scan, start: Timed, places: int) -> Timed:
    """Try the block at `places` places, and at as many around the best of them."""
    rest = [i for i in start.placed if i not in set(scan.block)]
    step = max(1, len(rest) // max(1, places))
    found = _ranked_places(scan, rest, range(0, len(rest) + 1, step), start)
    if step > 1:
        at = min(found, key=lambda k: (found[k], k))
        near = range(at - step, at + step + 1, max(1, 2 * step // max(1, places)))
        found |= _ranked_places(
            scan, rest, [k for k in near if 0 <= k <= len(rest) and k not in found], start
        )
    at = min(found, key=lambda k: (found[k], k))
    if found[at] >= ranked(scan.tables, start, scan.job, scan.judge):
        return start
    timed = time_order(scan.tables, [*rest[:at], *scan.block, *rest[at:]], start.machine)
    return min(start, timed, key=lambda one: ranked(scan.tables, one, scan.job, scan.judge))


def _ranked_places(scan: _Scan, rest: Sequence[int], at: Sequence[int], start: Timed) -> dict[int, Rank]:
    return dict(zip(at, scan.ranks(rest, at, start.machine), strict=True)) if at else {}
