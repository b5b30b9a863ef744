"""What comes out: who does what when, what it costs, and how far it can be from the best."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from scheduler.sequence.problem_parts import Aim, Wish


@dataclass(frozen=True, slots=True)
class Assignment:
    """One operation on its machine: the set-up from `setup_start` on, the work in [start, end). Minutes.

    `setup_minutes` are working minutes; when they run past a closed window the set-up stops and goes on
    after it.
    """

    operation: str
    machine: str
    setup_start: int
    setup_minutes: int
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Cost:
    """The objective and its parts, money."""

    setup: Decimal = Decimal(0)
    lateness: Decimal = Decimal(0)
    overtime: Decimal = Decimal(0)
    wip: Decimal = Decimal(0)
    running: Decimal = Decimal(0)

    @property
    def total(self) -> Decimal:
        """Sum of the parts."""
        return self.setup + self.lateness + self.overtime + self.wip + self.running


@dataclass(frozen=True, slots=True)
class OvertimeUsed:
    """An overtime window that this plan works: its machine and minutes [start, end)."""

    machine: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class TracePoint:
    """A step of the search that improved the plan: which sequencer, its own step count, the objective
    then."""

    method: str
    step: int
    total: Decimal


@dataclass(frozen=True, slots=True)
class Conflict:
    """The smallest set of wishes that cannot all be kept (drop any one and the others can), and why in
    words."""

    wishes: tuple[Wish, ...]
    dropped: Wish

    def __str__(self) -> str:
        """Say which wishes are in conflict and which was given up."""
        if len(self.wishes) == 1:
            return f"This wish cannot be kept by any plan, so it was given up: {self.dropped}"
        said = "; ".join(str(w) for w in self.wishes)
        return f"These {len(self.wishes)} wishes cannot all be kept: {said}. Given up: {self.dropped}"


@dataclass(frozen=True, slots=True)
class Plan:
    """A timed plan that the checker has passed.

    `bound`: no plan can have a lower total (with the aim "dates first": no lower lateness). `gap` = (total
    - bound) / total.
    `proven`: nothing better exists. `conflicts`: wishes that were given up since they cannot be kept.
    `order`: all operations in the order whose timing gives this plan again.
    """

    assignments: tuple[Assignment, ...]
    cost: Cost
    bound: Decimal
    proven: bool
    method: str
    overtime: tuple[OvertimeUsed, ...] = ()
    trace: tuple[TracePoint, ...] = ()
    conflicts: tuple[Conflict, ...] = ()
    order: tuple[str, ...] = ()

    @property
    def total(self) -> Decimal:
        """The objective, money."""
        return self.cost.total

    def goal(self, aim: Aim) -> Decimal:
        """Return the money that the bound is about: all of it, or with dates first the late money."""
        return self.total if aim is Aim.MONEY else self.cost.lateness

    @property
    def gap(self) -> float:
        """Share of the total that might still be saved, 0 when proven."""
        if self.proven or self.total <= 0:
            return 0.0
        return max(0.0, float((self.total - self.bound) / self.total))

    @property
    def dropped(self) -> tuple[Wish, ...]:
        """The wishes this plan does not keep."""
        return tuple(c.dropped for c in self.conflicts)

    @property
    def setup_minutes(self) -> int:
        """All set-up minutes of the plan."""
        return sum(a.setup_minutes for a in self.assignments)

    def on(self, machine: str) -> tuple[Assignment, ...]:
        """Return the work of one machine in running order."""
        return tuple(
            sorted((a for a in self.assignments if a.machine == machine), key=lambda a: (a.start, a.end))
        )

    def of(self, operation: str) -> Assignment:
        """Return where and when one operation is done."""
        return next(a for a in self.assignments if a.operation == operation)
