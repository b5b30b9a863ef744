"""Can this roll do it, and if not, why and what would help."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import ceil, isnan

import numpy as np

from quoting.forming.checks import Floats, floats
from quoting.forming.demands import NAMES, Row, demands
from quoting.forming.lines import Lines, lines_of
from quoting.forming.rating import rating_of, used_shares
from quoting.forming.strain import forming_strain
from quoting.forming.task import RollTask
from quoting.forming.verdict import Limit, Verdict, WayOut
from quoting.forming.ways_out import solve_ways
from quoting.shop.model import PassRules, Roll

_TOLERANCE = 1e-9
_STRENGTH_ROWS = (
    Row.BENDING_FORCE,
    Row.PINCH_FORCE,
    Row.TOP_ROLL,
    Row.BENDING_ROLL,
    Row.BENDING_MOMENT,
)


def assess(task: RollTask, roll: Roll, rules: PassRules) -> Verdict:
    """Return whether a roll can do a task; see `assess_many`."""
    return assess_many((task,), roll, rules)[0]


def assess_many(tasks: Sequence[RollTask], roll: Roll, rules: PassRules) -> tuple[Verdict, ...]:
    """Return the verdict of one roll on many tasks, worked out together.

    Loads are judged at the certificate's yield, else at the grade's least one, because a roll's rating
    names one too; `used_at_high` tells what the strongest plate of the grade would ask. Raises RangeError
    when the roll's rated points contradict its geometry.
    """
    if not tasks:
        return ()
    lines = lines_of(tasks, [task.load_yield_mpa for task in tasks])
    asked = demands(lines, roll, rules)
    rated = rating_of(roll, rules).rated(lines)
    used = used_shares(asked, rated)
    high = _used_at_high(tasks, lines, used, roll, rules)
    governing = np.nanargmax(used, axis=0)
    failed = np.flatnonzero(used[governing, np.arange(len(tasks))] > 1 + _TOLERANCE)
    ways: dict[int, list[WayOut]] = {}
    if failed.size:
        ways = dict(
            zip(failed.tolist(), solve_ways(lines.take(failed), used[:, failed], roll, rules), strict=True)
        )
    columns = (used.T.tolist(), asked.T.tolist(), rated.T.tolist(), governing.tolist(), high.tolist())
    return tuple(
        _verdict(task, roll, rules, row, int(top), share, tuple(ways.get(i, ())))
        for i, (task, *row, top, share) in enumerate(zip(tasks, *columns, strict=True))
    )


def _used_at_high(
    tasks: Sequence[RollTask], lines: Lines, used: Floats, roll: Roll, rules: PassRules
) -> Floats:
    """Return the largest used share when plate comes at the top of its grade's yield band."""
    worst = floats(np.nanmax(used, axis=0))
    open_ended = [i for i, task in enumerate(tasks) if task.yield_mpa is None]
    if not open_ended:
        return worst
    strongest = lines.take(open_ended).with_yield(
        floats([tasks[i].material.yield_high_mpa for i in open_ended])
    )
    asked = demands(strongest, roll, rules)
    shares = used_shares(asked, rating_of(roll, rules).rated(strongest))
    worst[open_ended] = np.nanmax(shares, axis=0)
    return worst


def _verdict(
    task: RollTask,
    roll: Roll,
    rules: PassRules,
    row: list[list[float]],
    top: int,
    at_high: float,
    ways: tuple[WayOut, ...],
) -> Verdict:
    used, asked, rated = row
    limits = tuple(
        Limit(NAMES[kind][0], share, need, have, NAMES[kind][1])
        for kind, share, need, have in zip(Row, used, asked, rated, strict=True)
        if not isnan(share)  # the limit does not apply
    )
    ok = used[top] <= 1 + _TOLERANCE
    strength = max(used[row] for row in _STRENGTH_ROWS if not isnan(used[row]))
    drive = max(used[Row.TORQUE], 0.0 if isnan(used[Row.POWER]) else used[Row.POWER])
    return Verdict(
        roll=roll.name,
        ok=ok,
        limit=NAMES[Row(top)][0],
        used=used[top],
        limits=limits,
        ways=ways,
        flags=_flags(task, rules, used[top], strength, at_high),
        notes=_notes(task, roll),
        used_at_high=at_high,
        strength_used=strength,
        least_passes=min(max(1, ceil(drive * rules.most_passes - _TOLERANCE)), rules.most_passes),
    )


def _flags(task: RollTask, rules: PassRules, used: float, strength: float, at_high: float) -> tuple[str, ...]:
    flags = list(forming_strain(task).flags)
    if rules.near_capacity <= strength <= 1:
        flags.append(
            f"near capacity ({strength:.0%}): roll deflection may leave a barrel, extra passes planned"
        )
    if used <= 1 < at_high:
        flags.append(
            f"plate at the top of its grade ({task.material.yield_high_mpa:.0f} MPa) would ask {at_high:.0%} "
            "of the roll: get the certificate before rolling"
        )
    return tuple(flags)


def _notes(task: RollTask, roll: Roll) -> tuple[str, ...]:
    notes = []
    if roll.slide is None:
        notes.append(
            "no slide geometry in the shop's book: judged by the bending moment alone, without positions"
        )
    if task.yield_mpa is not None:
        notes.append(f"loads at the certificate's yield, {task.yield_mpa:.0f} MPa")
    else:
        notes.append(f"loads at the grade's least yield, {task.material.yield_low_mpa:.0f} MPa")
    if not any(point.pre_bend for point in roll.rated):
        notes.append("the roll has no rated point with pre-bending")
    elif all(point.pre_bend for point in roll.rated):
        notes.append(
            "no rated point without pre-bending: rolling is held to the pre-bend limits, which is safe"
        )
    return tuple(notes)


def best_roll(task: RollTask, rolls: Sequence[Roll], rules: PassRules) -> tuple[Verdict, tuple[Verdict, ...]]:
    """Return the verdict of the roll to take and the verdicts of all rolls.

    Among rolls that can do the task the cheapest one is taken (then the one used most fully), else the one
    that comes closest. The verdict of a roll that cannot do it gets "other roll" as a way out when another
    can.
    """
    verdicts = [assess(task, roll, rules) for roll in rolls]
    able = [i for i, verdict in enumerate(verdicts) if verdict.ok]
    if not able:
        best = min(range(len(verdicts)), key=lambda i: verdicts[i].used)
        return verdicts[best], tuple(verdicts)
    best = min(able, key=lambda i: (rolls[i].rate_per_hour, -verdicts[i].used))
    way = WayOut("other roll", f"on {rolls[best].name}")
    marked = tuple(
        verdict if verdict.ok else replace(verdict, ways=(way, *verdict.ways)) for verdict in verdicts
    )
    return verdicts[best], marked
