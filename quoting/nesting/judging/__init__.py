"""What the checker judges by: a nest is replayed from the problem and the result alone.

Nothing here is shared with what makes a nest: no packer, no cut list, no sum of theirs is imported, only what
a problem and a result are. Every field is attacked in `tests/quoting/nesting/test_attacks.py`.
"""

from __future__ import annotations

from quoting.nesting.judging.claims import reason_faults, waiting_faults
from quoting.nesting.judging.counts import count_faults, stock_faults
from quoting.nesting.judging.layout import day_faults, distance_faults, drop_faults, put_faults
from quoting.nesting.judging.money import money_faults, plate_figure_faults
from quoting.nesting.judging.strokes import stroke_faults

__all__ = [
    "count_faults",
    "day_faults",
    "distance_faults",
    "drop_faults",
    "money_faults",
    "plate_figure_faults",
    "put_faults",
    "reason_faults",
    "stock_faults",
    "stroke_faults",
    "waiting_faults",
]
