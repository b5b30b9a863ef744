"""What the compiled timing and its bound share. Import only when the search is going to be used."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from quoting.core import inlined, uncounted

Ints = NDArray[np.int64]
bare = uncounted()
MISSED = 1_000_000  # ticks that a broken minute weighs in the search
nat: Any = np.uint64
"""An index without a sign: for every other one it is looked at whether it counts from the end, which took a
fifth of the time."""


@inlined
def before(real: Any, first: Any, size: Any, m: int, t: int) -> Any:
    """Working minutes of machine m before minute t."""
    day = max(t, 0) // 1440
    low, high = size[m], size[m]
    if day + 1 < first.shape[1]:
        low, high = first[m, nat(day)], first[m, nat(day + 1)]
    while low < high:
        middle = (low + high) // 2
        if real[m, nat(middle)] < t:
            low = middle + 1
        else:
            high = middle
    return low


@inlined
def job_cost(
    end: int, begun: int, due: int, weight: int, must: int, slack: int, limit: int, wip_rate: int
) -> int:
    """Ticks of a job begun and ended then: late, late for its hard date, unfinished, without slack."""
    cost = weight * max(0, end - due) + MISSED * max(0, end - must) + wip_rate * (end - begun)
    if slack > 0:
        cost += slack * min(limit, max(0, end - due + limit))
    return cost
