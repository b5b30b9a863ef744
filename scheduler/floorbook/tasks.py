"""What a planned week asks of the floor: one task an operation, with what its set-up is made of."""

from __future__ import annotations

from dataclasses import fields
from functools import cache

from quoting.ledger import FloorTask
from quoting.shop import SetupMinutes, Shop
from scheduler.jobs import RE_ROUND, ROLL, ShopOperation, floor_id, setup_of
from scheduler.week import PlannedOperation, WeekPlan


def floor_tasks(week: WeekPlan, shop: Shop) -> tuple[FloorTask, ...]:
    """Return the tasks of a planned week, machine by machine in running order."""
    found = []
    for machine in (*week.rolls, *week.stations):
        before: ShopOperation | None = None
        for slot in week.on(machine):
            found.append(_task(slot, before, shop))
            before = slot.work
    return tuple(found)


def _task(slot: PlannedOperation, before: ShopOperation | None, shop: Shop) -> FloorTask:
    line = slot.line
    pieces = line.quantity * (line.blank.pieces if line.blank else 1) if line else 0
    return FloorTask(
        task=floor_id(slot.work),
        kind=slot.work.kind,
        line=line.id if line else "",
        machine=slot.machine,
        start=slot.setup_start.isoformat(" ", "minutes"),
        setup=slot.setup_minutes,
        run=slot.run_minutes,
        pieces=pieces,
        counts=_counts(slot, before, shop),
    )


def _counts(slot: PlannedOperation, before: ShopOperation | None, shop: Shop) -> dict[str, float]:
    """Return how often the set-up does what each setting is about.

    A set-up is a sum of settings, each so many times: worked out once for each setting at 1 and the others 0.
    """
    if slot.setup is None or slot.work.kind not in {ROLL, RE_ROUND}:
        return {}
    roll = shop.roll(slot.machine)
    parts = {
        name: sum(minutes for _, minutes in setup_of(before, slot.work, roll, only).parts)
        for name, only in _one_at_a_time().items()
    }
    whole = sum(count * getattr(shop.setups, name) for name, count in parts.items())
    planned = sum(minutes for _, minutes in slot.setup.parts)
    # What stands on the roll at the plan's moment is not always the shop's book: then nothing is claimed.
    return {name: count for name, count in parts.items() if count} if abs(whole - planned) < 0.01 else {}


@cache
def _one_at_a_time() -> dict[str, SetupMinutes]:
    names = [one.name for one in fields(SetupMinutes)]
    return {name: SetupMinutes(**{other: float(other == name) for other in names}) for name in names}
