"""The late line in two lots: the second on another roll at the same time, or when its plates are there."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from scheduler.cures.late_case import Case, Trial
from scheduler.jobs import ShopOperation, WonLine, in_two_lots, make_work, soonest
from scheduler.sequence import (
    Plan,
    SequenceProblem,
    Tables,
    Timed,
    bring_forward,
    opened_in,
    tables,
    timed_again,
)
from scheduler.week import WeekProblem

MOST_ROLLS = 2
"""Rolls that the second lot is tried on: the line's own, and the next one that can do it."""


@dataclass(frozen=True, slots=True)
class InLots:
    """The line in two lots, `first` parts in the first one, the second one on `roll`; timed in the plan's
    order."""

    first: int
    roll: str
    tables: Tables
    timed: Timed


def split(case: Case) -> Iterator[Trial]:
    """Yield the line in two lots, brought forward."""
    line = case.line
    had = case.plan.of(case.operations[0]).machine
    for lots in two_lots(case):
        timed = bring_forward(lots.tables, lots.timed, case.job, case.places)
        where = f" on {had} and {line.quantity - lots.first} on {lots.roll}" if lots.roll != had else ""
        words = f"roll it in two lots, {lots.first} of {line.quantity}{where or ' first and the rest later'}"
        yield Trial("split", f"{words} (wish: split)", lots.tables, timed)


def two_lots(case: Case) -> Iterator[InLots]:
    """Yield the line in two lots: what can be made before the last plate comes first, and half and half."""
    line = case.line
    if not able(case.week, line) or _pinned(case):
        return
    plates = {work.plate.id: work.plate for work in case.week.works if work.plate is not None}
    half = line.quantity - line.quantity // 2
    for first in dict.fromkeys((soonest(line, plates) or half, half)):
        lots = in_two_lots(line, first, plates)
        works = _with_lots(case, list(make_work(lots, list(plates.values()), case.shop)))
        problem = _problem(case, works)
        for roll in _rolls(case):
            t = tables(problem, opened_in(case.plan))
            again = timed_again(t, _plan_with_lots(case, works, roll))
            yield InLots(first, roll, t, again)


def able(week: WeekProblem, line: WonLine) -> bool:
    """Return whether a line may be rolled in two lots."""
    return line.quantity > 1 and line.lot is None and line.id not in week.kept_whole


def _pinned(case: Case) -> bool:
    named = {name for pin in case.problem.pins for name in (pin.operation, pin.before)}
    return bool(named & set(case.operations))


def _rolls(case: Case) -> list[str]:
    had = case.plan.of(case.operations[0]).machine
    able = [mode.machine for mode in case.problem.operation(case.operations[0]).modes]
    return [had, *(roll for roll in able if roll != had)][:MOST_ROLLS]


def _own_line(case: Case, work: ShopOperation) -> WonLine | None:
    """Return the case's line, or the lot of it, that an operation belongs to; None for other work, be it in
    lots or not."""
    return work.line if work.line is not None and work.line.id == case.line.id else None


def _with_lots(case: Case, made: list[ShopOperation]) -> list[ShopOperation]:
    """Return the week's work with the line's operations replaced by those of its lots."""
    lots = [work for work in made if work.line is not None]
    rest = [work for work in case.week.works if _own_line(case, work) is None]
    return [*rest, *lots]


def _problem(case: Case, works: list[ShopOperation]) -> SequenceProblem:
    """Return the problem with the lots; between them the roll stands as for the same part again."""
    before = {operation.id: i for i, operation in enumerate(case.problem.operations)}
    like = np.array([before[_whole(case, work)] for work in works])
    own = np.array([_own_line(case, work) is not None for work in works])
    again = round(case.shop.setups.same)
    setups = {}
    for roll, matrix in case.problem.setups.items():
        wider = matrix[np.concatenate(([0], like + 1))][:, like]
        wider[1:][np.ix_(own, own)] = again
        setups[roll] = wider
    return replace(case.problem, operations=tuple(work.operation for work in works), setups=setups)


def _whole(case: Case, work: ShopOperation) -> str:
    """Return the operation of the whole line that a lot's operation is a part of."""
    line = _own_line(case, work)
    return work.operation.id if line is None else work.operation.id.removesuffix(line.work_name) + line.id


def _plan_with_lots(case: Case, works: list[ShopOperation], roll: str) -> Plan:
    """Return the present plan with each lot where the whole line was, the second one on `roll`."""
    placed = []
    order: dict[str, list[str]] = {}
    for work in works:
        had = case.plan.of(_whole(case, work))
        order.setdefault(had.operation, []).append(work.operation.id)
        line = _own_line(case, work)
        second = line is not None and line.lot is not None and line.lot.number == 2
        placed.append(replace(had, operation=work.operation.id, machine=roll if second else had.machine))
    names = tuple(name for whole in case.plan.order for name in order[whole])
    return replace(case.plan, assignments=tuple(placed), order=names)
