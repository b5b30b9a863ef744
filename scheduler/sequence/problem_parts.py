"""What is to be sequenced: machines, operations, jobs, set-ups and wishes, all frozen and self-checking.

All times are whole minutes on one axis that starts at the plan's start (minute 0); a window or an interval
[start, end) holds the minutes start, start + 1, ..., end - 1. Money is `Decimal`, in the shop's currency.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import Enum

import numpy as np
from numpy.typing import NDArray

from quoting.core import InputError
from scheduler.sequence.prices import check_rate, per_minute

SetupMatrix = NDArray[np.int64]


class Aim(Enum):
    """What a good plan is: the least money, or late money first and everything else after it."""

    MONEY = "money"
    DATES_FIRST = "dates first, then set-ups"


@dataclass(frozen=True, slots=True)
class Window:
    """Working minutes [start, end) of a machine; with a price a minute it is an overtime window."""

    start: int
    end: int
    overtime_cost_per_min: Decimal | None = None

    def __post_init__(self) -> None:
        if not 0 <= self.start < self.end:
            raise InputError(f"A working window must run forward from minute 0: {self.start} to {self.end}")
        if self.overtime_cost_per_min is not None:
            check_rate(f"overtime price of window {self.start} to {self.end}", self.overtime_cost_per_min)


@dataclass(frozen=True, slots=True)
class Machine:
    """A roll, a cutting station or anything else that does one operation at a time inside its windows."""

    id: str
    kind: str
    windows: tuple[Window, ...]

    def __post_init__(self) -> None:
        for earlier, later in zip(self.windows, self.windows[1:], strict=False):
            if later.start < earlier.end:
                raise InputError(
                    f"Working windows of {self.id} overlap or are out of order at minute {later.start}",
                    would_do="give them in order, each starting where the last ended or later",
                )


@dataclass(frozen=True, slots=True)
class Mode:
    """One way to do an operation: the machine and its working minutes there, set-up not counted.

    `cost` is money for choosing this machine, such as what its hours cost more than the cheapest one's.
    """

    machine: str
    minutes: int
    cost: Decimal = Decimal(0)

    def __post_init__(self) -> None:
        check_rate(f"cost of running on {self.machine}", self.cost)


@dataclass(frozen=True, slots=True)
class After:
    """Not before `lag` minutes of clock time (welding away, cooling) after `operation` has ended."""

    operation: str
    lag: int = 0


@dataclass(frozen=True, slots=True)
class Operation:
    """One piece of work on one machine.

    `release` is the first minute it may start, `crew` the people it needs while it is worked on, `crane`
    whether it
    holds a crane while it is worked on. With `may_pause` it stops at the end of a window and goes on at
    the start of the machine's next one; without, it must fit into windows that follow each other without a
    gap.
    """

    id: str
    job: str
    modes: tuple[Mode, ...]
    release: int = 0
    crew: int = 0
    crane: bool = False
    may_pause: bool = True
    after: tuple[After, ...] = ()


@dataclass(frozen=True, slots=True)
class Job:
    """Operations that ship together: due minute, money for each minute late, and the hard date if there is
    one."""

    id: str
    due: int
    weight: Decimal = Decimal(0)
    must_ship: int | None = None

    def __post_init__(self) -> None:
        check_rate(f"price of a late minute of {self.id}", self.weight)


@dataclass(frozen=True, slots=True)
class Pin:
    """A wish of the scheduler about one operation, kept to the letter or reported as impossible.

    `machine`: done there. `start`: starts at exactly that minute. `not_before`: starts no earlier.
    `before`: has ended when that other operation starts. `running`: it is on its machine already, so it
    comes first
    there, without a set-up, from the first working minute; give its remaining minutes as the mode's
    minutes.
    """

    operation: str
    machine: str | None = None
    start: int | None = None
    not_before: int | None = None
    before: str | None = None
    running: bool = False

    def __str__(self) -> str:
        """Say the wish as the scheduler would."""
        parts = []
        if self.running:
            parts.append("is running already")
        if self.machine is not None:
            parts.append(f"on {self.machine}")
        if self.start is not None:
            parts.append(f"starts at minute {self.start}")
        if self.not_before is not None:
            parts.append(f"not before minute {self.not_before}")
        if self.before is not None:
            parts.append(f"before {self.before}")
        return f"pin: {self.operation} " + ", ".join(parts)


@dataclass(frozen=True, slots=True)
class MustShip:
    """The wish that a job has ended by a hard minute."""

    job: str
    minute: int

    def __str__(self) -> str:
        """Say the wish as the scheduler would."""
        return f"must ship: {self.job} done by minute {self.minute}"


Wish = Pin | MustShip


@dataclass(frozen=True, slots=True)
class Staffing:
    """How many people are there in the minutes [start, end)."""

    start: int
    end: int
    people: int


@dataclass(frozen=True, slots=True)
class PlanRates:
    """Money a minute: `setup` for each set-up minute, `wip` for each minute a started job is unfinished.

    `slack` is what a minute between a job's end and its due minute is worth, up to `slack_limit` minutes: it
    only chooses between plans of equal money, and is no part of a plan's cost. The defaults are examples, not
    trade values: every shop sets its own.
    """

    setup: Decimal = Decimal("1.50")
    wip: Decimal = Decimal(0)
    slack: Decimal = Decimal(0)
    slack_limit: int = 0

    def __post_init__(self) -> None:
        check_rate("price of a set-up minute", self.setup)
        check_rate("price of an unfinished minute", self.wip)
        check_rate("worth of a minute of slack", self.slack)


__all__ = [
    "After",
    "Aim",
    "Job",
    "Machine",
    "Mode",
    "MustShip",
    "Operation",
    "Pin",
    "PlanRates",
    "SetupMatrix",
    "Staffing",
    "Window",
    "Wish",
    "per_minute",
]
