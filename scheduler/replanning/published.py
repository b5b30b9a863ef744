"""A plan as it was published, and how far a new one is from it.

How much moved is told by the deviation of starts, which Wu, Storer & Chang set beside a cost (Computers &
Operations Research 20, 1993), and by the number of jobs on another machine, as in the work on re-scheduling
parallel machines (EJOR 149, 2003, 523-532). A job counts as moved when any of its rolling is on another roll
or begins on another day. What the event itself forces is what right-shift repair moves: the published order
kept, each start pushed only as far as it must (a method of the framework of Vieira, Herrmann & Lin, Journal
of Scheduling 6, 2003, 39-62).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime

from scheduler.jobs import CUT
from scheduler.week import WeekPlan


@dataclass(frozen=True, slots=True)
class PublishedWork:
    """One operation of a published plan: of which line (empty: a plate's cutting), where and when."""

    line: str
    kind: str
    machine: str
    start: datetime
    end: datetime


@dataclass(frozen=True, slots=True)
class Published:
    """A published plan: its operations by id, the overtime it works (machine, start), what each job was.

    `facts` holds for each line what the plan was made from, so that a job whose own facts changed is known.
    """

    moment: datetime
    works: Mapping[str, PublishedWork]
    overtime: frozenset[tuple[str, datetime]] = frozenset()
    facts: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Moved:
    """A job that is not where the published plan has it: roll and begin then and now, why in words."""

    line: str
    customer: str
    was_on: str
    was_at: datetime
    now_on: str
    now_at: datetime
    forced: bool
    why: str = ""

    @property
    def other_roll(self) -> bool:
        """Return whether it goes to another roll."""
        return self.was_on != self.now_on

    @property
    def day(self) -> bool:
        """Return whether it begins on another day."""
        return self.was_at.date() != self.now_at.date()


@dataclass(frozen=True, slots=True)
class Stability:
    """How much of a published plan a new one keeps, over the jobs of both that have not begun.

    `deviation_min` is the sum of the moves of all starts of rolling, minutes of clock time.
    """

    jobs: int
    forced: int
    moved: int
    other_roll: int
    deviation_min: int
    frozen_moved: int

    @property
    def kept_share(self) -> float:
        """Return the share of the jobs not forced to move that keep roll and day; 1 when there is none."""
        free = self.jobs - self.forced
        return 1.0 if free <= 0 else 1.0 - self.moved / free


def published_of(week: WeekPlan, moment: datetime, facts: Mapping[str, str]) -> Published:
    """Return a plan as it is published."""
    works = {
        slot.work.operation.id: PublishedWork(
            slot.line.id if slot.line else "", slot.work.kind, slot.machine, slot.start, slot.end
        )
        for slot in week.slots
    }
    worked = frozenset(
        (machine, stretch.start)
        for machine, stretches in week.open_times.items()
        for stretch in stretches
        if stretch.overtime
    )
    return Published(moment, works, worked, facts)


def first_rolling(published: Published) -> dict[str, PublishedWork]:
    """Return of each line the rolling that begins first."""
    found: dict[str, PublishedWork] = {}
    for work in published.works.values():
        if work.kind != CUT and (work.line not in found or work.start < found[work.line].start):
            found[work.line] = work
    return found
