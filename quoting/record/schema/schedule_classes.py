"""The planned week in a record: the scheduler fills it in (`scheduler.week`), quoting reads its days."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from quoting.record.schema.kinds import (
    Chance,
    Count,
    Day,
    Minutes,
    Moment,
    Money,
    Number,
    OneOrMore,
    WholeMinutes,
)


@dataclass(frozen=True, slots=True)
class LotRecord:
    """Some of a line's parts: how many of how many."""

    parts: OneOrMore
    of: OneOrMore


@dataclass(frozen=True, slots=True)
class SetupPartRecord:
    """One thing that is done in a set-up."""

    why: str
    minutes: Minutes


@dataclass(frozen=True, slots=True)
class OperationRecord:
    """One operation on its machine: `cut`, `roll` or `re-round`.

    `line`, `customer` and `due` are None for a plate, `plate` for a line; `lot` is None when the line is
    rolled whole.
    """

    id: str
    kind: str
    machine: str
    line: str | None
    customer: str | None
    plate: str | None
    lot: LotRecord | None
    setup_start: Moment
    setup_end: Moment
    setup_minutes: Count
    setup_why: str
    setup_parts: tuple[SetupPartRecord, ...]
    start: Moment
    run_minutes: Count
    end: Moment
    due: Day | None


@dataclass(frozen=True, slots=True)
class ObjectiveRecord:
    """What the plan costs; `wip` is work in progress, `running` what dearer rolls than the cheapest cost."""

    total: Money
    setup: Money
    lateness: Money
    overtime: Money
    wip: Money
    running: Money


@dataclass(frozen=True, slots=True)
class OvertimeRecord:
    """Overtime that the plan works."""

    machine: str
    start: Moment
    end: Moment


@dataclass(frozen=True, slots=True)
class ComparisonRecord:
    """The same work in a plain order, and what the plan saves against it.

    `lateness_per_saved_setup_minute` is None when no set-up minute was saved.
    """

    order: str
    setup_minutes: Count
    lateness: Money
    total: Money
    saved_setup_minutes: WholeMinutes
    saved_money: Money
    added_lateness: Money
    lateness_per_saved_setup_minute: Money | None


@dataclass(frozen=True, slots=True)
class LaterRecord:
    """Another line that a cure makes late or later."""

    line: str
    late_minutes_before: Count
    late_minutes: Count


@dataclass(frozen=True, slots=True)
class CureRecord:
    """A plan with one thing changed that helps: `order`, `overtime`, `Saturday`, `wish`, `roll`, `plate`,
    `split`.

    `do` says it in words; `money` is what the whole plan costs more (negative: less); `moved` lines end on a
    later day but in time.
    """

    kind: str
    do: str
    on_time: bool
    late_minutes: Count
    less_late_minutes: WholeMinutes
    money: Money
    later: tuple[LaterRecord, ...]
    moved: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class LateRecord:
    """A line that ends after its day; `tried` is empty when it was not looked into."""

    line: str
    customer: str
    finish: Moment
    due: Day
    days: Count
    cost: Money
    tried: tuple[str, ...]
    cures: tuple[CureRecord, ...]


@dataclass(frozen=True, slots=True)
class LoadRecord:
    """One machine in one week; `share` is set-up and running over open minutes."""

    machine: str
    monday: Day
    open_minutes: Count
    setup_minutes: Count
    run_minutes: Count
    share: Number


@dataclass(frozen=True, slots=True)
class UnplannedRecord:
    """A line that the plan leaves out."""

    line: str
    customer: str
    reason: str


@dataclass(frozen=True, slots=True)
class ScheduleRecord:
    """A planned week: machines in the shop's order, operations machine by machine in running order.

    No plan has a lower total than `bound` (dates first: a lower lateness); `gap` is the share of it that
    might still be saved, `proven` whether nothing better exists.
    """

    start: Day
    rolls: tuple[str, ...]
    stations: tuple[str, ...]
    operations: tuple[OperationRecord, ...]
    objective: ObjectiveRecord
    aim: Literal["money", "dates-first"]
    bound: Money
    gap: Chance
    proven: bool
    method: str
    overtime: tuple[OvertimeRecord, ...]
    comparison: tuple[ComparisonRecord, ...]
    late: tuple[LateRecord, ...]
    loads: tuple[LoadRecord, ...]
    unplanned: tuple[UnplannedRecord, ...]
    notes: tuple[str, ...]
