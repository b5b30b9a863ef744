"""The whole problem: machines, operations, jobs, set-ups, people and wishes, self-checking."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property

from scheduler.sequence.problem_parts import (
    Aim,
    Job,
    Machine,
    MustShip,
    Operation,
    Pin,
    PlanRates,
    SetupMatrix,
    Staffing,
    Wish,
)
from scheduler.sequence.soundness import check_problem


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
    rates: PlanRates = field(default_factory=PlanRates)
    aim: Aim = Aim.MONEY

    def __post_init__(self) -> None:
        check_problem(self.machines, self.operations, self.jobs, self.setups, self.pins)

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
