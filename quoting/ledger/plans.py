"""Plans as published, machines that are down, people who are away, and plates that are expected."""

from __future__ import annotations

import json
import zlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import Field
from sqlalchemy import Connection, delete, insert, select, update

from quoting.ledger.sound import DayText, MomentText, damaged, sound
from quoting.ledger.tables import JOB_PLATES, JOBS, LINES, PLANS, PLATES, STOPS

_MOST_BYTES = 5_000_000
"""No plan is so long."""


@dataclass(frozen=True, slots=True)
class LedgerStop:
    """A machine that is down, or with an empty machine people who are away; moments as ISO text."""

    start: Annotated[MomentText, Field(min_length=10)]
    end: Annotated[MomentText, Field(min_length=10)]
    machine: str = ""
    people: Annotated[int, Field(ge=0, lt=10**6)] = 0
    reason: str = ""


@dataclass(frozen=True, slots=True)
class LedgerPlate:
    """A plate promised to jobs: its name on the papers, the run it was nested in, when it is expected."""

    key: int
    run: int
    name: str
    material: str
    thickness_mm: float
    bought: bool
    expected: DayText
    lines: tuple[str, ...]

    @property
    def words(self) -> str:
        """Return the name under which a plan and the jobs book know it: two runs may use one name.

        >>> LedgerPlate(1, 7, "R-3 #1", "A36", 10.0, False, "", ()).words
        'R-3 #1 (7)'
        """
        return f"{self.name} ({self.run})"


def stops_of(connection: Connection) -> tuple[LedgerStop, ...]:
    """Return every stop that is noted, by its start."""
    columns = (STOPS.c.start, STOPS.c.end, STOPS.c.machine, STOPS.c.people, STOPS.c.reason)
    rows = connection.execute(select(*columns).order_by(STOPS.c.start, STOPS.c.id))
    return tuple(sound(LedgerStop, row) for row in rows)


def keep_stops(connection: Connection, stops: Sequence[LedgerStop]) -> None:
    """Make these the stops that are noted."""
    connection.execute(delete(STOPS))
    for stop in stops:
        connection.execute(
            insert(STOPS).values(
                kind="down" if stop.machine else "away",
                machine=stop.machine,
                start=stop.start,
                end=stop.end,
                people=stop.people,
                reason=stop.reason,
            )
        )


def plates_of(connection: Connection) -> tuple[LedgerPlate, ...]:
    """Return the plates that are promised and not cut yet, with the lines that are cut from each."""
    rows = connection.execute(
        select(PLATES, LINES.c.line)
        .join(JOB_PLATES, JOB_PLATES.c.plate_id == PLATES.c.id)
        .join(JOBS, JOBS.c.id == JOB_PLATES.c.job_id)
        .join(LINES, LINES.c.id == JOBS.c.line_id)
        .where(PLATES.c.state == "promised")
        .order_by(PLATES.c.id, LINES.c.id)
    ).all()
    lines: dict[int, list[str]] = {}
    for row in rows:
        lines.setdefault(row.id, []).append(row.line)
    first = {row.id: row for row in reversed(rows)}
    return tuple(
        sound(
            LedgerPlate,
            (
                row.id,
                row.run_id,
                row.name,
                row.material,
                row.thickness_mm,
                row.bought,
                row.expected,
                tuple(lines[row.id]),
            ),
        )
        for row in sorted(first.values(), key=lambda row: row.id)
    )


def cut_plates(connection: Connection) -> frozenset[str]:
    """Return the names of the plates of jobs that are no longer promised: cut, or free again."""
    rows = connection.execute(select(PLATES.c.name, PLATES.c.run_id).where(PLATES.c.state != "promised"))
    return frozenset(f"{row.name} ({row.run_id})" for row in rows)


def expect_plate(connection: Connection, plate: LedgerPlate, day: str) -> None:
    """Note the day a plate is expected in the house."""
    connection.execute(update(PLATES).where(PLATES.c.id == plate.key).values(expected=day))


def keep_plan(connection: Connection, made: str, moment: str, money: str, plan: Mapping[str, Any]) -> None:
    """Publish a plan: it is the one that the next is held against."""
    data = zlib.compress(json.dumps(plan, ensure_ascii=False, separators=(",", ":")).encode(), 6)
    connection.execute(insert(PLANS).values(made=made, moment=moment, money=money, record=data))


def last_plan(connection: Connection) -> dict[str, Any] | None:
    """Return the plan published last, None when there is none; InputError when it is damaged."""
    data = connection.execute(select(PLANS.c.record).order_by(PLANS.c.id.desc())).scalar()
    return None if data is None else plan_of(data)


def plan_of(data: bytes) -> dict[str, Any]:
    """Return the plan in a column; InputError when it is damaged, or longer than any plan."""
    try:
        found = json.loads(zlib.decompressobj().decompress(data, _MOST_BYTES))
    except (ValueError, TypeError, RecursionError, zlib.error) as error:
        raise damaged("the published plan cannot be read") from error
    if not isinstance(found, dict):
        raise damaged("the published plan is none")
    return found
