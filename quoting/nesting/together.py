"""All pieces of a group together onto plates for the least money, and how close to the best that is."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from math import ceil, prod

from quoting.core import Effort, RollwrightError
from quoting.nesting.bounds import money_bound
from quoting.nesting.checker import check
from quoting.nesting.fewer_strokes import fewer_strokes
from quoting.nesting.nest_from_solution import as_nest
from quoting.nesting.nest_problem import NestProblem
from quoting.nesting.nest_result import Nest
from quoting.nesting.plate import PackingProblem, prepare
from quoting.nesting.search import (
    Combining,
    Pool,
    Proving,
    Solution,
    Stop,
    combined,
    first_solutions,
    improve,
    solution,
)

_STEPS: dict[Effort, int] = {"quick": 12, "normal": 600, "thorough": 6000}
_WORK: dict[Effort, int] = {"quick": 10_000_000, "normal": 400_000_000, "thorough": 4_000_000_000}
_WORK_ON_PLATES: dict[Effort, int] = {"quick": 9_000_000, "normal": 700_000_000, "thorough": 4_000_000_000}
_FULL_WORK_PIECES = 100
_MOST_EQUAL = 1_000
"""Copies of one piece alone up to which plates are exchanged: of more the same layouts repeat."""
_FIRST: dict[Effort, int] = {"quick": 20_000, "normal": 60_000, "thorough": 400_000}
QUICK_PIECES = 60
"""From here on the compiled search earns its import and compile time. With drops to value it is left out for
longer, and below this always unless the run is thorough: there it found 0.1 % in 25 s of compiling."""
QUICK_PIECES_WITH_DROPS = 500
_PROVING: dict[Effort, Proving] = {"normal": Proving(0.25, 400), "thorough": Proving(20.0, 4000)}
_AT_ONCE = Proving(0.0, 400)
_SETS_AT_ONCE = 30
"""Sets of pieces up to which a quick nest is proven too: there it costs milliseconds and finds up to a tenth,
of more sets it finds next to nothing."""
_CENT = Decimal("0.01")
_MOST_STEPS_A_PAIR = 40
_STEPS_BEFORE_COMBINING = 6  # one step in so many is enough when the layouts are combined afterwards
_EFFORTS: tuple[Effort, ...] = ("quick", "normal", "thorough")
_COMBINING: dict[Effort, Combining] = {
    "normal": Combining(3000, 2, 100, 10, 15_000_000),
    "thorough": Combining(30000, 8, 2000, 200, 200_000_000),
}


class NestRefusedError(RollwrightError):
    """A layout that the checker refused: a fault of this program, never of the user's data."""


def nest_together(
    problem: NestProblem,
    *,
    effort: Effort = "quick",
    seed: int = 0,
    stop: Callable[[], bool] | None = None,
    layouts: int | None = None,
) -> Nest:
    """Return the cheapest checked nest found for the pieces, whatever their days and priorities.

    Everything else is as `quoting.nesting.nest` says.
    """
    interrupt = _Interrupt(stop)
    work = prepare(problem)
    floor = money_bound(work)
    pool = Pool(work)
    if layouts is not None:
        first = first_solutions(work, layouts, interrupt, pool) if work.items else solution(work, ())
        return passed(problem, as_nest(work, first, floor, True))
    solutions, floor = _searches(work, floor, effort, seed, interrupt, pool)
    if effort in _PROVING and not solutions[-1].reaches(floor):
        floor = _proven(work, pool, solutions, floor, _PROVING[effort], interrupt)
    finished = [fewer_strokes(work, one, interrupt) for one in solutions]
    tried = [as_nest(work, one, floor, interrupt.seen) for one in finished]
    return passed(problem, min(tried, key=lambda one: (one.missing, one.cost)))


def may_cost_less(problem: NestProblem, than: Decimal, layouts: int) -> bool:
    """Return whether the best of so many usual layouts holds all pieces on plates that, less their drops,
    cost less than this. No is certain: a nest that is handed out counts no more for its drops than this does.
    """
    work = prepare(problem)
    if work.unplaced or not work.items or money_bound(work) >= float(than) + 1e-6:
        return False
    first = first_solutions(work, layouts, _Interrupt(None), Pool(work))
    return first.missing < 1e-6 and first.cost < float(than) + 1e-6


def passed(problem: NestProblem, found: Nest) -> Nest:
    """Return the nest if the checker finds nothing wrong with it. Raises NestRefusedError if it does."""
    faults = check(problem, found)
    if faults:
        raise NestRefusedError("the checker refused the nest: " + "; ".join(map(str, faults[:5])))
    return found


class _Interrupt:
    """Asks the caller's stop rule and remembers that it said yes."""

    def __init__(self, stop: Callable[[], bool] | None) -> None:
        self._stop = stop
        self.seen = False

    def __call__(self) -> bool:
        self.seen = self.seen or bool(self._stop and self._stop())
        return self.seen


def _proven(
    work: PackingProblem, pool: Pool, solutions: list[Solution], floor: float, effort: Proving, stop: Stop
) -> float:
    """Return the bound of a small group after a closer look, which may add a better solution."""
    from quoting.nesting.bounds import provable, prove  # noqa: PLC0415 - numpy is not needed where nothing fits

    best = min(solutions, key=lambda one: (one.missing, one.cost))
    if best.missing > 1e-6 or stop() or not provable(work):
        return floor
    found, bound = prove(work, pool, best, effort=effort, floor=floor, stop=stop)
    solutions.append(found)
    if all(plate.price % _CENT == 0 for plate in work.problem.plates):
        return ceil(bound * 100 - 1e-4) / 100 + 1e-7  # what costs whole cents costs no less than this
    return bound


def _searches(
    work: PackingProblem, floor: float, effort: Effort, seed: int, stop: Stop, pool: Pool
) -> tuple[list[Solution], float]:
    """Return what each effort up to this one finds, and the bound: more effort is never dearer.

    After each, what takes no solver is proven: it may find better, and many a small group needs no longer
    search.
    """
    found: list[Solution] = []
    for each in _EFFORTS[: _EFFORTS.index(effort) + 1]:
        found.append(_search(work, floor, each, seed, stop, pool))
        if stop() or found[-1].reaches(floor):
            break
        if effort != "quick" or prod(item.count + 1 for item in work.items) <= _SETS_AT_ONCE:
            floor = _proven(work, pool, found, floor, _AT_ONCE, stop)
        if found[-1].reaches(floor):
            break
    return found, floor


def _search(
    work: PackingProblem, floor: float, effort: Effort, seed: int, stop: Stop, pool: Pool
) -> Solution:
    if not work.items:
        return solution(work, ())
    pieces = sum(item.count for item in work.items)
    boxes = all(not variant.covers for item in work.items for variant in item.variants)
    compiled = boxes and _earns_compiling(work, effort, pieces)
    start = first_solutions(work, _FIRST[effort] // (len(work.items) * len(work.bins)), stop, pool)
    if start.reaches(floor):
        return start
    if compiled:
        start = _compiled(work, start, floor, effort, seed, stop, pool)
    else:
        steps = _steps(work, effort, pieces)
        start = improve(work, start, steps, floor=floor, seed=seed, stop=stop, pool=pool)
    if not _combines(work, effort):
        return start
    return combined(work, pool, start, effort=_COMBINING[effort], floor=floor, seed=seed, stop=stop)


def _combines(work: PackingProblem, effort: Effort) -> bool:
    """Return whether layouts are combined afterwards: it is plates of different money that this sorts out."""
    return effort in _COMBINING and (len(work.bins) > 1 or work.drop_share > 0)


def _earns_compiling(work: PackingProblem, effort: Effort, pieces: int) -> bool:
    if effort == "thorough":
        return True
    if not work.drop_share:
        return effort == "normal" or pieces > QUICK_PIECES
    return pieces > (QUICK_PIECES if effort == "normal" else QUICK_PIECES_WITH_DROPS)


def _compiled(
    work: PackingProblem, start: Solution, floor: float, effort: Effort, seed: int, stop: Stop, pool: Pool
) -> Solution:
    from quoting.nesting.compiled import cheaper, fewest_of_one_kind, one_kind  # noqa: PLC0415 - numba is heavy

    pieces = sum(item.count for item in work.items)
    if one_kind(work):
        budget = _budget(effort, pieces) if work.drop_share else _budget_on_plates(effort, pieces)
        found = fewest_of_one_kind(work, budget=budget, floor=floor, seed=seed, stop=stop)
        start = found if found.better_than(start) else start
        if not work.drop_share:
            return start
    steps = _steps(work, effort, pieces)
    start = improve(work, start, steps, floor=floor, seed=seed, stop=stop, pool=pool)
    if one_kind(work) or start.missing > 1e-6 or (len(work.items) == 1 and pieces > _MOST_EQUAL):
        return start
    budget = _budget(effort, pieces)
    return cheaper(work, start, budget=budget, floor=floor, seed=seed, stop=stop, pool=pool)


def _budget(effort: Effort, pieces: int) -> int:
    """Return the units of compiled work (about ten nanoseconds each): less for small groups."""
    share = min(max(pieces, _FULL_WORK_PIECES // 2), _FULL_WORK_PIECES)
    return _WORK[effort] * share // _FULL_WORK_PIECES


def _budget_on_plates(effort: Effort, pieces: int) -> int:
    """Return the units of compiled work where only the number of equal plates counts: a plate fewer is worth
    it, and nothing comes after."""
    return _WORK_ON_PLATES[effort] * min(pieces, _FULL_WORK_PIECES // 2) // (_FULL_WORK_PIECES // 2)


def _steps(work: PackingProblem, effort: Effort, pieces: int) -> int:
    """Return how often plates are emptied and refilled: less where steps are dear or little can change."""
    kinds = len(work.bins)
    steps = _STEPS[effort] * (3000 if kinds == 1 else 600) // ((60 + pieces // 10) * kinds)
    if _combines(work, effort):
        steps //= _STEPS_BEFORE_COMBINING
    return max(min(steps, _MOST_STEPS_A_PAIR * pieces**2), 1)
