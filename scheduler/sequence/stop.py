"""When a search ends."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Stop:
    """Limits of a search: any of them ends it.

    `iterations` of a local search and `work` (the CP-SAT solver's deterministic time, about seconds) give
    the same plan
    on every run; `seconds` of wall time only does when it is not what ended the search. Local searches
    look at
    `iterations` and `seconds`, CP-SAT at `work` and `seconds`. `workers` is the number of CP-SAT threads:
    more than one is deterministic too, since they then work in turns.
    """

    iterations: int = 2000
    work: float = 2.0
    seconds: float | None = None
    workers: int = 1
