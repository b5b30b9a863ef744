"""Invented weeks of a rolling shop, seeded: every number here is made up for tests and benchmarks."""

from __future__ import annotations

import random
from dataclasses import dataclass, replace
from decimal import Decimal

import numpy as np

from scheduler.sequence import (
    After,
    Job,
    Machine,
    Mode,
    Operation,
    PlanRates,
    SequenceProblem,
    Staffing,
    Window,
    per_minute,
)

DAY = 1440
GAPS = (5, 6, 8, 10, 12, 16, 20, 25)  # mm, plate thicknesses of the invented shop


@dataclass(frozen=True)
class Week:
    """An invented problem and the thickness of each operation, mm."""

    problem: SequenceProblem
    thickness: dict[str, float]


@dataclass(frozen=True)
class Part:
    """What sets a roll up: thickness mm, bending roll step, cone, stainless."""

    gap: int
    bend: int
    cone: bool
    stainless: bool


def shift_windows(days: int, saturday: bool, cut_station: bool) -> tuple[Window, ...]:
    """Two stretches a day from Monday 00:00 = minute 0; with `saturday` an overtime morning in each week."""
    windows = []
    for day in range(days):
        start = day * DAY
        if day % 7 < 5:
            lunch = (690, 720) if cut_station else (720, 750)
            windows += [Window(start + 360, start + lunch[0]), Window(start + lunch[1], start + 930)]
        elif day % 7 == 5 and saturday:
            windows.append(Window(start + 360, start + 720, Decimal("0.8")))
    return tuple(windows)


def setup_minutes(a: Part, b: Part) -> int:
    """Example minutes from part a to part b on a roll."""
    minutes = 3
    if a.gap != b.gap:
        minutes += 8 + abs(GAPS.index(a.gap) - GAPS.index(b.gap))
    if a.bend != b.bend:
        minutes += 4
    if a.cone != b.cone:
        minutes += 25
    if b.stainless and not a.stainless:
        minutes += 20
    return minutes


def week(jobs: int, rolls: int, seed: int = 0, *, overtime: bool = True, days: int | None = None) -> Week:
    """Return `jobs` jobs on `rolls` rolls and a cutting station, some with a weld away and a re-round."""
    chance = random.Random(seed)
    stations = max(1, rolls // 2)
    days = days if days is not None else 7 * (2 + 2 * jobs // (35 * rolls))
    roll_names = [f"roll {k + 1}" for k in range(rolls)]
    cut_names = [f"cut {k + 1}" for k in range(stations)]
    operations: list[Operation] = []
    parts: list[Part | None] = []
    made: list[Job] = []
    load = jobs * 75 / rolls / (540 * 5 / 7)  # days of work for each roll
    for k in range(jobs):
        part = Part(chance.choice(GAPS), chance.randrange(5), chance.random() < 0.12, chance.random() < 0.2)
        due = int((0.6 + chance.random() * load * 1.1) * DAY) // DAY * DAY + 930
        made.append(Job(f"job {k}", due, per_minute(Decimal(chance.choice((20, 40, 80, 150))), DAY)))
        lines = _job_operations(chance, k, part, roll_names, cut_names)
        operations += lines
        parts += [part if o.id.startswith(("roll", "round")) else None for o in lines]
    setups = _setups(parts, roll_names, cut_names)
    machines = tuple(
        [Machine(r, "roll", shift_windows(days, overtime, False)) for r in roll_names]
        + [Machine(c, "cut", shift_windows(days, False, True)) for c in cut_names]
    )
    staffing = tuple(Staffing(d * DAY + 360, d * DAY + 930, rolls + stations + 1) for d in range(days))
    problem = SequenceProblem(
        machines,
        tuple(operations),
        tuple(made),
        setups,
        staffing=staffing,
        cranes=1 if rolls < 4 else 2,
        rates=PlanRates(Decimal("1.5"), Decimal("0.001")),
    )
    thickness = {o.id: float(p.gap) if p else 0.0 for o, p in zip(operations, parts, strict=True)}
    return Week(problem, thickness)


def with_dearer_roll(problem: SequenceProblem) -> SequenceProblem:
    """Return the problem with an invented price for every job on the second roll."""
    operations = tuple(
        replace(o, modes=tuple(replace(m, cost=Decimal(7 * (m.machine == "roll 2"))) for m in o.modes))
        for o in problem.operations
    )
    return replace(problem, operations=operations)


def _job_operations(
    chance: random.Random, k: int, part: Part, rolls: list[str], cuts: list[str]
) -> list[Operation]:
    job, heavy = f"job {k}", chance.random() < 0.25
    able = [r for n, r in enumerate(rolls) if n == 0 or part.gap <= 16 or chance.random() < 0.3]
    minutes = chance.randint(25, 110)
    modes = tuple(Mode(r, round(minutes * (1 + 0.15 * rolls.index(r)))) for r in able)
    release = chance.choice((0, 0, 0, 1, 2)) * DAY
    cut = Operation(f"cut {k}", job, tuple(Mode(c, chance.randint(10, 40)) for c in cuts), release, 1)
    roll = Operation(
        f"roll {k}", job, modes, 0, 1 + heavy, heavy, chance.random() < 0.7, (After(f"cut {k}", 0),)
    )
    if chance.random() < 0.2:
        again = tuple(Mode(r, max(10, m.minutes // 3)) for r, m in zip(able, modes, strict=True))
        lag = chance.randint(1, 2) * DAY
        return [
            cut,
            roll,
            Operation(f"round {k}", job, again, 0, 1 + heavy, heavy, True, (After(roll.id, lag),)),
        ]
    return [cut, roll]


def _setups(parts: list[Part | None], rolls: list[str], cuts: list[str]) -> dict[str, np.ndarray]:
    n = len(parts)
    roll = np.zeros((n + 1, n), dtype=np.int64)
    now = Part(10, 0, False, False)
    for i, a in enumerate([now, *parts]):
        for j, b in enumerate(parts):
            if a is not None and b is not None:
                roll[i, j] = setup_minutes(a, b)
    cut = np.full((n + 1, n), 4, dtype=np.int64)
    return {**dict.fromkeys(rolls, roll), **dict.fromkeys(cuts, cut)}
