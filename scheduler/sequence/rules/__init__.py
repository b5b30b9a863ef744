"""Orders that a person could make by hand, and what a plan is worth against them."""

from scheduler.sequence.rules.by_hand import by_hand
from scheduler.sequence.rules.compare import HandOrders, Saving, compare, unplaced_by_hand
from scheduler.sequence.rules.dispatch import (
    apparent_tardiness_cost,
    as_pinned,
    best_rule,
    date_order,
    first_machines,
    in_order,
    key_order,
)

__all__ = [
    "HandOrders",
    "Saving",
    "apparent_tardiness_cost",
    "as_pinned",
    "best_rule",
    "by_hand",
    "compare",
    "date_order",
    "first_machines",
    "in_order",
    "key_order",
    "unplaced_by_hand",
]
