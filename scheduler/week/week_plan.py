"""The planned week: every operation with its set-up and its reason on the calendar, and what it is worth."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal

from scheduler.calendar import monday_of
from scheduler.jobs import ROLL, Setup, ShopOperation, WonLine
from scheduler.sequence import Aim, Plan, Saving


@dataclass(frozen=True, slots=True)
class PlannedOperation:
    """One operation on its machine: set-up from `setup_start`, work from `start` to `end`, clock times.

    `setup_end` may come before `start`: `waits_for` then says what for, in a word or two.
    """

    work: ShopOperation
    machine: str
    setup: Setup | None
    setup_start: datetime
    setup_end: datetime
    start: datetime
    end: datetime
    waits_for: str = ""

    @property
    def line(self) -> WonLine | None:
        """Return the line that is rolled, None when a plate is cut."""
        return self.work.line

    @property
    def setup_minutes(self) -> int:
        """Return the minutes of the set-up, 0 without one."""
        return self.setup.minutes if self.setup else 0

    @property
    def run_minutes(self) -> int:
        """Return the working minutes on this machine, set-up not counted."""
        return next(mode.minutes for mode in self.work.operation.modes if mode.machine == self.machine)


@dataclass(frozen=True, slots=True)
class OpenTime:
    """A stretch in which a machine is worked; overtime only when the plan uses it."""

    start: datetime
    end: datetime
    overtime: bool = False


@dataclass(frozen=True, slots=True)
class Later:
    """Another line that a cure makes late or later: minutes late in the plan, and with the cure."""

    line: str
    before: int
    after: int


@dataclass(frozen=True, slots=True)
class Cure:
    """One change that helps a late line, in a plan of its own that the checker has passed.

    `kind` is `order`, `overtime`, `Saturday`, `wish`, `roll`, `plate` or `split`; `do` says what to do.
    `late` is the minutes the line is still late, `less_late` how many fewer that is than in the plan; `money`
    is what the whole plan costs more (negative: less). `later` names the lines that get late or later; those
    of `moved` end on a later day but are no later than due.
    """

    kind: str
    do: str
    late: int
    less_late: int
    money: Decimal
    later: tuple[Later, ...]
    moved: tuple[str, ...]
    plan: Plan

    @property
    def on_time(self) -> bool:
        """Return whether the line then keeps its date."""
        return self.late == 0


@dataclass(frozen=True, slots=True)
class Late:
    """A line that ends after its due day: how late, and what that weighs in the plan.

    `tried` are the kinds of change that were tried; it is empty for a line that was not looked into.
    """

    line: WonLine
    finish: datetime
    due: date
    cost: Decimal
    cures: tuple[Cure, ...] = ()
    tried: tuple[str, ...] = ()

    @property
    def days(self) -> int:
        """Return whole calendar days late, at least one."""
        return max(1, (self.finish.date() - self.due).days)


@dataclass(frozen=True, slots=True)
class MachineLoad:
    """One machine in one calendar week: minutes open, set up and run."""

    machine: str
    monday: date
    open_minutes: int
    setup_minutes: int
    run_minutes: int

    @property
    def share(self) -> float:
        """Return set-up and run minutes over open minutes; 0 when the machine is closed that week."""
        return (self.setup_minutes + self.run_minutes) / self.open_minutes if self.open_minutes else 0.0


@dataclass(frozen=True, slots=True)
class Unplanned:
    """A line that the plan leaves out, and why in words."""

    line: WonLine
    reason: str


@dataclass(frozen=True, slots=True)
class WeekPlan:
    """A checked plan on the calendar. `savings` hold it against plain orders with the same timing.

    `rolls` and `stations` name the machines in the shop's order; slots are in running order of their machine.
    `given_up` counts the wishes that are not kept; `fullest` says in words what holds the plan back.
    """

    shop: str
    currency: str
    start: date
    rolls: tuple[str, ...]
    stations: tuple[str, ...]
    slots: tuple[PlannedOperation, ...]
    open_times: Mapping[str, tuple[OpenTime, ...]]
    plan: Plan
    savings: tuple[Saving, ...]
    late: tuple[Late, ...]
    loads: tuple[MachineLoad, ...]
    unplanned: tuple[Unplanned, ...] = ()
    notes: tuple[str, ...] = ()
    aim: Aim = Aim.MONEY
    given_up: int = 0
    fullest: str = ""

    @property
    def goal(self) -> Decimal:
        """Return the money that the plan's bound is about: all of it, or with dates first the late money."""
        return self.plan.goal(self.aim)

    @property
    def gap(self) -> float:
        """Return the share of the goal that might still be saved, 0 when proven."""
        if self.plan.proven or self.goal <= 0:
            return 0.0
        return max(0.0, float((self.goal - self.plan.bound) / self.goal))

    def on(self, machine: str) -> tuple[PlannedOperation, ...]:
        """Return the slots of one machine in running order."""
        return tuple(slot for slot in self.slots if slot.machine == machine)

    def finish_of(self, line_id: str) -> datetime:
        """Return when the last operation of a line ends; KeyError when it is not planned."""
        ends = [slot.end for slot in self.slots if slot.line is not None and slot.line.id == line_id]
        if not ends:
            raise KeyError(line_id)
        return max(ends)

    @property
    def roll_minutes(self) -> int:
        """Return the minutes of set-up and rolling on all rolls."""
        return sum(load.setup_minutes + load.run_minutes for load in self.loads if load.machine in self.rolls)

    @property
    def last_finish(self) -> datetime | None:
        """Return when the last rolling ends, None when nothing is planned."""
        ends = [slot.end for slot in self.slots if slot.work.kind != "cut"]
        return max(ends, default=None)

    @property
    def lines(self) -> tuple[WonLine, ...]:
        """Return the planned lines in the order in which they are first rolled."""
        rolled = sorted((slot for slot in self.slots if slot.work.kind == ROLL), key=lambda slot: slot.start)
        return tuple(slot.line for slot in rolled if slot.line is not None)


def begin_of(slot: PlannedOperation) -> datetime:
    """Return when somebody has to be at the machine: at the set-up, or at the work when there is none."""
    return slot.setup_start if slot.setup_minutes else slot.start


def by_week(slots: Iterable[PlannedOperation]) -> dict[date, tuple[PlannedOperation, ...]]:
    """Return slots by the Monday of the week they begin in, earliest first."""
    weeks: dict[date, list[PlannedOperation]] = {}
    for slot in slots:
        weeks.setdefault(monday_of(begin_of(slot)), []).append(slot)
    return {monday: tuple(weeks[monday]) for monday in sorted(weeks)}
