"""From won lines and their plates to operations: cut, roll, weld away, re-round."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from math import ceil

import numpy as np

from quoting.shop import Family, Roll, SetupMinutes, Shop
from scheduler.jobs.setups import RollState, Setup, initial_state, setup_between
from scheduler.jobs.won_lines import PlateToCut, WonLine
from scheduler.sequence import After, Job, Mode, Operation, SetupMatrix, per_minute

DAY_MIN = 24 * 60

CUT = "cut"
ROLL = "roll"
RE_ROUND = "re-round"

CUTTING_STATIONS: Mapping[str, str] = {"shear": "Shear", "thermal": "Thermal cutting"}
"""The machine that cuts, by the nest's method of cutting."""


@dataclass(frozen=True, slots=True)
class ShopOperation:
    """One operation and what it is in the trade: kind of work, its line or plate, the roll state it needs."""

    operation: Operation
    kind: str
    line: WonLine | None = None
    plate: PlateToCut | None = None
    state: RollState | None = None


def make_work(
    lines: Sequence[WonLine], plates: Sequence[PlateToCut], shop: Shop
) -> tuple[ShopOperation, ...]:
    """Return every operation of the week: plates first, then the lines in their order."""
    cutting = {plate.id: _cut(plate) for plate in plates}
    works = list(cutting.values())
    for line in lines:
        works.extend(_line_work(line, [cutting[plate] for plate in line.plates if plate in cutting], shop))
    return tuple(works)


def make_jobs(
    lines: Sequence[WonLine], plates: Sequence[PlateToCut], start: date, shop: Shop
) -> tuple[Job, ...]:
    """Return a job a line, its lots together, due at the end of its due day, and a dateless one a plate.

    A line without a date is due at the end of the horizon and nobody pays when it is late.
    """
    horizon = shop.working_time.horizon_weeks * 7 * DAY_MIN
    a_minute = per_minute(shop.working_time.late_cost_per_day / DAY_MIN)
    jobs = [
        Job(
            id=line.id,
            due=_due_minute(line.due, start) if line.due else horizon,
            weight=a_minute if line.due else Decimal(0),
        )
        for line in {line.id: line for line in lines}.values()
    ]
    return (*jobs, *(Job(id=plate.id, due=horizon) for plate in plates))


def setup_of(
    before: ShopOperation | None,
    after: ShopOperation,
    roll: Roll,
    minutes: SetupMinutes,
    *,
    inch: bool = False,
) -> Setup:
    """Return the set-up of one operation on a roll after another, or after the roll's state at the start."""
    state = initial_state(roll) if before is None else before.state
    assert state is not None
    assert after.state is not None  # only rolling needs a roll
    return setup_between(state, after.state, minutes, inch=inch)


def setup_matrix(works: Sequence[ShopOperation], roll: Roll, minutes: SetupMinutes) -> SetupMatrix:
    """Return set-up minutes on one roll, shape (1 + n, n): row 0 from its state now, row 1 + i after i."""
    matrix: SetupMatrix = np.zeros((len(works) + 1, len(works)), dtype=np.int64)
    at_roll = [
        (index, work.state)
        for index, work in enumerate(works)
        if work.state and any(mode.machine == roll.name for mode in work.operation.modes)
    ]
    kinds = list(dict.fromkeys(state for _, state in at_roll))  # many jobs need the roll in the same state
    start = initial_state(roll)
    between = np.array(
        [[setup_between(before, after, minutes).minutes for after in kinds] for before in (start, *kinds)]
    )
    place = {state: k for k, state in enumerate(kinds)}
    columns = np.array([index for index, _ in at_roll], dtype=np.int64)
    kind = np.array([place[state] for _, state in at_roll], dtype=np.int64)
    if columns.size:
        matrix[np.ix_(np.append(0, 1 + columns), columns)] = between[np.ix_(np.append(0, 1 + kind), kind)]
        matrix[1 + columns, columns] = 0
    return matrix


def _due_minute(due: date, start: date) -> int:
    return ((due - start).days + 1) * DAY_MIN


def _cut(plate: PlateToCut) -> ShopOperation:
    operation = Operation(
        id=f"{CUT} {plate.id}",
        job=plate.id,
        modes=(Mode(CUTTING_STATIONS[plate.method], max(1, ceil(plate.minutes))),),
        release=plate.here_in_days * DAY_MIN,
        crew=1,
    )
    return ShopOperation(operation, CUT, plate=plate)


def _line_work(line: WonLine, cuts: Sequence[ShopOperation], shop: Shop) -> list[ShopOperation]:
    rolling = Operation(
        id=f"{ROLL} {line.work_name}",
        job=line.id,
        modes=_modes({c.roll: c.rolling_minutes for c in line.choices}, shop),
        crew=line.crew,
        crane=line.crane,
        after=tuple(After(cut.operation.id) for cut in cuts),
    )
    state = _state(line)
    works = [ShopOperation(rolling, ROLL, line=line, state=state)]
    if line.re_round:
        again = replace(
            rolling,
            id=f"{RE_ROUND} {line.work_name}",
            modes=_modes({c.roll: c.re_round_minutes for c in line.choices}, shop),
            after=(After(rolling.id, shop.working_time.weld_days * DAY_MIN),),
        )
        works.append(ShopOperation(again, RE_ROUND, line=line, state=state))
    return works


def _modes(minutes: Mapping[str, float], shop: Shop) -> tuple[Mode, ...]:
    """Return a mode a roll; its cost is what its hours cost more than the cheapest able roll's."""
    rate = {roll.name: roll.rate_per_hour for roll in shop.rolls if roll.name in minutes}
    cheapest = min(rate.values(), default=Decimal(0))
    whole = {roll: max(1, ceil(length)) for roll, length in minutes.items()}
    return tuple(
        Mode(roll, length, per_minute((rate.get(roll, cheapest) - cheapest) * length, 60))
        for roll, length in whole.items()
    )


def _state(line: WonLine) -> RollState:
    return RollState(
        thickness_mm=line.thickness_mm,
        family=Family(line.family),
        diameter_mm=line.diameter_mm,
        cone=line.cone,
        crane=line.crane,
        part=f"{line.material} {line.thickness_mm:.2f} x {line.diameter_mm:.1f} x {line.width_mm:.1f}",
    )


def floor_id(work: ShopOperation) -> str:
    """Return what the floor calls an operation, on every paper: the job, with its lot, re-rounding said.

    A plate that is cut goes by its own name.
    """
    if work.line is None:
        return work.plate.id if work.plate else work.operation.id
    return f"{work.line.work_name} {RE_ROUND}" if work.kind == RE_ROUND else work.line.work_name
