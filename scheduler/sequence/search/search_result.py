"""What every search hands back."""

from __future__ import annotations

from dataclasses import dataclass, field

from scheduler.sequence.timing import Timed


@dataclass
class Search:
    """A search that ended: the best timed order, and (step, total in ticks) of each improvement."""

    best: Timed
    steps: list[tuple[int, int]] = field(default_factory=list)
