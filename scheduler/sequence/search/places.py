"""Where in an order a few operations are best put: every place timed by the compiled code."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np

from scheduler.sequence.problem_parts import Aim
from scheduler.sequence.search.packing import NOTHING_HELD, HeldPlaces, pack
from scheduler.sequence.timing import Score, Tables


@dataclass(frozen=True, slots=True)
class BlockPut:
    """What comes of putting a block at one place: its score, and when the job looked at ends."""

    score: Score
    end: int


@dataclass(frozen=True)
class Places:
    """One problem's tables, packed once for many scans. Not for problems with pinned starts."""

    tables: Tables
    held: HeldPlaces = NOTHING_HELD

    @cached_property
    def _packed(self) -> tuple[Any, ...]:
        return pack(self.tables, held=self.held)

    def scan(
        self,
        rest: Sequence[int],
        block: Sequence[int],
        places: Sequence[int],
        job: int,
        machine: Sequence[int],
    ) -> list[BlockPut]:
        """Return what comes of the order `rest` with `block` put in at each place.

        What runs already comes first in `rest`, and stays there: timing places it before all else.
        """
        from scheduler.sequence.search.row_kernel import scan  # noqa: PLC0415 - compiled, so only when used

        running = sum(self.tables.running[i] for i in rest)
        at = np.maximum(np.array(places, dtype=np.int64), running)
        order, moved, chosen = (np.array(one, dtype=np.int64) for one in (rest, block, machine))
        rows = scan(order, moved, at, job, chosen, np.zeros_like(chosen), *self._packed)
        dates_first = self.tables.problem.aim is Aim.DATES_FIRST
        return [
            BlockPut((broken, late, other) if dates_first else (broken, late + other, 0), end)
            for broken, end, late, other in rows.tolist()
        ]
