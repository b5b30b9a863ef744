"""The cutting station and its allowances."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal


@dataclass(frozen=True, slots=True)
class Cutting:
    """The cutting station and its allowances.

    A plate is to be cut `cut_before_due_days` calendar days before its first piece is due. When later pieces
    may wait for a later plate, that may cost `waiting_extra_share` of the group's nest. A sheet of labels has
    `label_columns` by `label_rows` of them; of a blank that is cut more than `label_each_up_to` times those
    of a plate share a label. To keep a drop costs `drop_keep_cost`; the rack holds
    `most_remnants` of one material and thickness, 0: any number.
    """

    shear_up_to_mm: float
    shear_longest_mm: float
    shear_least_strip_t: float
    shear_stages: int
    thermal_kerf_mm: float
    thermal_spacing_t: float
    thermal_least_spacing_mm: float
    edge_margin_mm: float
    mill_trim_mm: float
    cost_per_m: Decimal
    cost_per_pierce: Decimal
    cost_per_stroke: Decimal
    rate_per_hour: Decimal
    least_drop_width_mm: float
    least_drop_length_mm: float
    drop_value_share: Decimal
    edge_prep_cost_per_m: Decimal = Decimal(0)
    later_pieces_may_wait: bool = False
    cut_before_due_days: int = 0
    waiting_extra_share: Decimal = Decimal(0)
    label_columns: int = 2
    label_rows: int = 5
    label_each_up_to: int = 200
    drop_keep_cost: Decimal = Decimal(0)
    most_remnants: int = 0
