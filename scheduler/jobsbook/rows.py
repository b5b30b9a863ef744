"""What the jobs book holds: one row a job, the machines that are down, people away, plates expected."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

JOBS, MACHINES, PEOPLE, PLATES = "Jobs", "Machines", "People", "Plates"


@dataclass(frozen=True, slots=True)
class JobRow:
    """One job: what a person may change of it, and beside it what it is and where the plan has it.

    `not_before` of a job at the welder is when it comes back. `rank` orders jobs that have one. `promised`
    is the day that the customer was given with the order, None where the quote gave none.
    """

    line: str
    quantity: int
    state: str
    due: date | None = None
    must_ship: date | None = None
    not_before: datetime | None = None
    pin_roll: str = ""
    pin_day: date | None = None
    hold: bool = False
    rank: int | None = None
    minutes_left: int | None = None
    roll: str = ""
    plate_in: date | None = None
    customer: str = ""
    order_no: str = ""
    part: str = ""
    planned_roll: str = ""
    planned_start: datetime | None = None
    planned_end: datetime | None = None
    promised: date | None = None


@dataclass(frozen=True, slots=True)
class PlateRow:
    """A plate that jobs are cut from, and the day it is expected."""

    name: str
    material: str
    jobs: str
    bought: bool
    expected: date | None


@dataclass(frozen=True, slots=True)
class StopRow:
    """A machine down, or with an empty machine so many people away, from one moment to another."""

    start: datetime
    end: datetime
    machine: str = ""
    people: int = 0
    reason: str = ""


@dataclass(frozen=True, slots=True)
class JobsBook:
    """The whole book. `ordered` gives by line the day before which it cannot be due."""

    jobs: tuple[JobRow, ...]
    stops: tuple[StopRow, ...] = ()
    plates: tuple[PlateRow, ...] = ()


JOB_HEADINGS: dict[str, tuple[str, ...]] = {
    "line": ("job",),
    "quantity": ("quantity",),
    "due": ("due",),
    "must_ship": ("must ship",),
    "not_before": ("not before",),
    "pin_roll": ("pin to roll",),
    "pin_day": ("pin to day",),
    "hold": ("hold",),
    "rank": ("order among equals",),
    "minutes_left": ("minutes left",),
    "state": ("state",),
    "roll": ("on roll",),
    "plate_in": ("plate in on",),
}
MACHINE_HEADINGS = {
    "machine": ("machine",),
    "start": ("down from",),
    "end": ("down to",),
    "hours": ("or hours",),
    "reason": ("reason",),
}
PEOPLE_HEADINGS = {
    "people": ("how many",),
    "start": ("away from",),
    "end": ("away to",),
    "reason": ("reason",),
}
PLATE_HEADINGS = {"name": ("plate",), "expected": ("expected on",)}
