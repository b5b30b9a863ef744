"""Orders that a person could make by hand, and what a plan is worth against them."""

from scheduler.sequence.rules.compare import Saving, compare
from scheduler.sequence.rules.dispatch import (
    apparent_tardiness_cost,
    best_rule,
    date_order,
    first_machines,
    in_order,
    key_order,
)

__all__ = [
    "Saving",
    "apparent_tardiness_cost",
    "best_rule",
    "compare",
    "date_order",
    "first_machines",
    "in_order",
    "key_order",
]
