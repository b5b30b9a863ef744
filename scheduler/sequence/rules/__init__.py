"""Orders that a person could make by hand, and what a plan is worth against them."""

from scheduler.sequence.rules.by_hand import by_hand
from scheduler.sequence.rules.compare import HandOrders, Saving, compare, unplaced_by_hand
from scheduler.sequence.rules.dispatch import as_pinned, best_rule, first_machines

__all__ = [
    "HandOrders",
    "Saving",
    "as_pinned",
    "best_rule",
    "by_hand",
    "compare",
    "first_machines",
    "unplaced_by_hand",
]
