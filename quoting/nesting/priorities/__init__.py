"""Who comes first: short stock, pieces that may wait, plates filled in turns."""

from quoting.nesting.priorities.shortage import by_rank
from quoting.nesting.priorities.waiting import with_waiting

__all__ = [
    "by_rank",
    "with_waiting",
]
