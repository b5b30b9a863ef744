"""Many draws of one plan: the same order of work with other minutes, releases and waits, timed compiled."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from scheduler.sequence.search.packing import pack
from scheduler.sequence.timing import Tables

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Drawn:
    """What is drawn, a row a draw and a column an operation; `lags` has a column for each wait, in order.

    `factor` and `set_factor` multiply minutes and set-ups, `more` is added to the minutes; `release` and
    `lags` are minutes. `there` says which operations there are at all.
    """

    factor: Floats
    set_factor: Floats
    more: Ints
    release: Ints
    lags: Ints
    there: NDArray[np.bool_]


def drawn_ends(t: Tables, drawn: Drawn, start: Sequence[int], machine: Sequence[int]) -> Ints:
    """Return the end minute of each job in each draw, shape (draws, jobs), 0 where it is not there.

    Operations go in the order of `start`; one that cannot begin by then goes in when it can, and does not
    hold up those that came after it (as in right-shift repair).
    """
    from scheduler.sequence.search.row_kernel import ends_of_draws  # noqa: PLC0415 - compiled

    soonest = drawn.release.copy()
    wait = 0
    for i, waits in enumerate(t.before):
        for j, _ in waits:
            least = min(t.minutes[j].values())
            soonest[:, i] = np.maximum(soonest[:, i], soonest[:, j] + least + drawn.lags[:, wait])
            wait += 1
    key = np.maximum(np.array(start, dtype=np.int64)[None, :], soonest)
    key[:, np.array(t.running, dtype=np.bool_)] = -1
    key[~drawn.there] = np.iinfo(np.int64).max
    orders = np.argsort(key, axis=1, kind="stable").astype(np.int64)
    counts = drawn.there.sum(axis=1).astype(np.int64)
    rows = (drawn.factor, drawn.set_factor, drawn.more, drawn.release, drawn.lags)
    chosen = np.array(machine, dtype=np.int64)
    found: Ints = ends_of_draws(orders, counts, chosen, rows, *pack(t))
    return found
