"""What is to be sequenced: machines, operations, jobs, set-ups and wishes, all frozen and self-checking.

All times are whole minutes on one axis that starts at the plan's start (minute 0); a window or an interval
[start, end) holds the minutes start, start + 1, ..., end - 1. Money is `Decimal`, in the shop's currency.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from decimal import Decimal
from enum import Enum
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from quoting.errors import InputError

from .prices import check_rate, per_minute
from .soundness import check_problem

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
class Rates:
    """Money a minute: `setup` for each set-up minute, `wip` for each minute a started job is unfinished.

    The defaults are examples, not trade values: every shop sets its own.
    """

    setup: Decimal = Decimal("1.50")
    wip: Decimal = Decimal(0)

    def __post_init__(self) -> None:
        check_rate("price of a set-up minute", self.setup)
        check_rate("price of an unfinished minute", self.wip)


@dataclass(frozen=True)
class SequenceProblem:
    """Everything a sequencer may use. It checks itself and never changes.

    `setups[machine]` is an integer matrix of minutes with shape (1 + n, n) for the n operations in their
    order here:
    row 0 is the machine's state at the start of the plan, row 1 + i is "after operation i", column j is
    operation j.
    A machine without a matrix needs no set-up. A set-up belongs to the machine: it may be done as soon as
    the operation before
    has ended, also before the job is released, stops over closed windows, and takes `setup_crew` people.
    An empty `staffing` means enough people at all times; otherwise a minute that it does not name has
    nobody.
    """

    machines: tuple[Machine, ...]
    operations: tuple[Operation, ...]
    jobs: tuple[Job, ...]
    setups: Mapping[str, SetupMatrix] = field(default_factory=dict)
    pins: tuple[Pin, ...] = ()
    staffing: tuple[Staffing, ...] = ()
    cranes: int = 1
    setup_crew: int = 1
    rates: Rates = Rates()
    aim: Aim = Aim.MONEY

    def __post_init__(self) -> None:
        check_problem(self)

    @cached_property
    def horizon(self) -> int:
        """Minute at which the last working window ends."""
        return max((w.end for m in self.machines for w in m.windows), default=0)

    @property
    def wishes(self) -> tuple[Wish, ...]:
        """All pins and hard dates: what may turn out to be impossible together."""
        dates = (MustShip(j.id, j.must_ship) for j in self.jobs if j.must_ship is not None)
        return (*self.pins, *dates)

    def without(self, dropped: tuple[Wish, ...]) -> SequenceProblem:
        """Return the same problem with these wishes given up."""
        if not dropped:
            return self
        ships = {w.job for w in dropped if isinstance(w, MustShip)}
        jobs = tuple(replace(j, must_ship=None) if j.id in ships else j for j in self.jobs)
        return replace(self, pins=tuple(p for p in self.pins if p not in dropped), jobs=jobs)

    def operation(self, operation_id: str) -> Operation:
        """Return the operation of that id."""
        return next(o for o in self.operations if o.id == operation_id)

    def setup_minutes(self, machine: str, before: str | None, operation: str) -> int:
        """Minutes to set `machine` up for `operation` after `before` (None: from its initial state)."""
        matrix = self.setups.get(machine)
        if matrix is None:
            return 0
        index = {o.id: i for i, o in enumerate(self.operations)}
        return int(matrix[0 if before is None else 1 + index[before], index[operation]])


__all__ = [
    "After",
    "Aim",
    "Job",
    "Machine",
    "Mode",
    "MustShip",
    "Operation",
    "Pin",
    "Rates",
    "SequenceProblem",
    "SetupMatrix",
    "Staffing",
    "Window",
    "Wish",
    "per_minute",
]
