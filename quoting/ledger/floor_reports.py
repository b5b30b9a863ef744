"""What the floor wrote down, one report a task of a published plan; and the tasks that a plan published."""

from __future__ import annotations

import json
import zlib
from collections.abc import Iterator, Mapping
from dataclasses import asdict, dataclass, field, fields, replace
from typing import Any

from sqlalchemy import Connection, insert, select, update

from quoting.ledger.plans import plan_of
from quoting.ledger.sound import MomentText, damaged, sound
from quoting.ledger.tables import ACTUALS, JOB_PLATES, JOBS, LINES, PLANS, PLATES


@dataclass(frozen=True, slots=True)
class FloorTask:
    """One task as a plan published it: its id on all papers, which line or plate, where and when (ISO text).

    `kind` is `roll`, `re-round` or `cut`. `pieces` are blanks, 0 for a plate that is cut. `counts` says how
    often the set-up does what each setting of `[setups]` is about: minutes = sum of count x setting.
    """

    task: str
    kind: str
    line: str
    machine: str
    start: MomentText
    setup: float
    run: float
    pieces: int
    counts: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class FloorReport:
    """What was written down of a task; None or empty where a box was left empty. Minutes, pieces, mm.

    `both` is set-up and running as one total. `cells` is where the typed figures stood, box by box;
    `planned` is the task as it was planned, `plan` the name of that plan. `day` is ISO text.
    """

    task: str
    kind: str
    line: str
    machine: str
    day: MomentText
    setup: float | None = None
    run: float | None = None
    both: float | None = None
    good: int | None = None
    scrap: int | None = None
    passes: int | None = None
    readout: float | None = None
    girth: float | None = None
    diameter: float | None = None
    heat: str = ""
    by: str = ""
    remark: str = ""
    cells: Mapping[str, str] = field(default_factory=dict)
    planned: FloorTask | None = None
    plan: str = ""

    @property
    def timed(self) -> bool:
        """Return whether the minutes of the work itself were written down."""
        return self.run is not None or self.both is not None

    def told(self) -> dict[str, Any]:
        """Return the boxes that are filled."""
        boxes = {name: getattr(self, name) for name in BOX_FIELDS}
        return {name: value for name, value in boxes.items() if value not in (None, "")}


BOX_FIELDS = (
    "setup", "run", "both", "good", "scrap", "passes", "readout", "girth", "diameter", "heat", "by", "remark",
)  # fmt: skip


def plan_names(connection: Connection) -> dict[str, int]:
    """Return every published plan by the name that its floor book bears, oldest first."""
    rows = connection.execute(select(PLANS.c.id, PLANS.c.record).order_by(PLANS.c.id))
    return {f"{row.id}-{zlib.crc32(row.record):08x}": int(row.id) for row in rows}


def tasks_of(connection: Connection, plan: int) -> tuple[FloorTask, ...]:
    """Return the tasks that a plan published; none for a plan of an earlier program."""
    data = connection.execute(select(PLANS.c.record).where(PLANS.c.id == plan)).scalar_one()
    return tuple(FloorTask(**task) for task in plan_of(data).get("tasks", ()))


def first_tasks(connection: Connection) -> dict[str, FloorTask]:
    """Return every task, by its id, as the first plan that had it published it."""
    found: dict[str, FloorTask] = {}
    for plan in plan_names(connection).values():
        for task in tasks_of(connection, plan):
            found.setdefault(task.task, task)
    return found


def reports_of(connection: Connection) -> tuple[FloorReport, ...]:
    """Return everything that the floor wrote down, in the order it was first read."""
    names = [one.name for one in fields(FloorReport)]
    rows = connection.execute(select(*(ACTUALS.c[name] for name in names)).order_by(ACTUALS.c.id))
    return tuple(_report(dict(row)) for row in rows.mappings())


def _report(row: dict[str, Any]) -> FloorReport:
    try:
        planned = FloorTask(**json.loads(row["planned"])) if row["planned"] else None
        whole = row | {"cells": json.loads(row["cells"] or "{}"), "planned": planned}
    except (ValueError, TypeError, RecursionError) as error:
        raise damaged("what the floor wrote down cannot be read") from error
    return sound(FloorReport, [whole[one.name] for one in fields(FloorReport)])


def keep_report(connection: Connection, report: FloorReport, known: FloorReport | None) -> FloorReport | None:
    """Write a report, or what it adds to the known one; return it as it now is, None when nothing is new.

    A box that is empty now keeps what it held: nothing that was written down is lost.
    """
    if known is None:
        connection.execute(insert(ACTUALS).values(**_row(report)))
        return report
    told = report.told()
    if all(getattr(known, name) == value for name, value in told.items()):
        return None
    merged = replace(known, **told, cells={**known.cells, **report.cells}, day=report.day)
    connection.execute(update(ACTUALS).where(ACTUALS.c.task == report.task).values(**_row(merged)))
    return merged


def _row(report: FloorReport) -> dict[str, Any]:
    row = {one.name: getattr(report, one.name) for one in fields(report)}
    planned = json.dumps(asdict(report.planned)) if report.planned else ""
    return row | {"cells": json.dumps(dict(report.cells), ensure_ascii=False), "planned": planned}


def plates_by_job(connection: Connection) -> dict[str, tuple[str, ...]]:
    """Return for each line with a job the names of its plates, as plans and papers have them."""
    return {line: tuple(plates) for line, plates in _grouped(connection)}


def typed_plate_days(connection: Connection) -> dict[str, str]:
    """Return the ISO day typed last for a plate to be in the house, by its name on the papers."""
    rows = connection.execute(
        select(PLATES.c.name, PLATES.c.run_id, PLATES.c.expected).where(PLATES.c.expected != "")
    )
    return {f"{row.name} ({row.run_id})": row.expected for row in rows}


def _grouped(connection: Connection) -> Iterator[tuple[str, list[str]]]:
    rows = connection.execute(
        select(LINES.c.line, PLATES.c.name, PLATES.c.run_id)
        .join(JOBS, JOBS.c.line_id == LINES.c.id)
        .join(JOB_PLATES, JOB_PLATES.c.job_id == JOBS.c.id)
        .join(PLATES, PLATES.c.id == JOB_PLATES.c.plate_id)
        .order_by(LINES.c.id, PLATES.c.id)
    )
    found: dict[str, list[str]] = {}
    for row in rows:
        found.setdefault(row.line, []).append(f"{row.name} ({row.run_id})")
    yield from found.items()
