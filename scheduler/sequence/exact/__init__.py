"""Bounds, the constraint model, the tour of fewest set-ups, and wishes that cannot be kept together."""

from scheduler.sequence.exact.conflicts import obvious_conflict, settle
from scheduler.sequence.exact.cpsat import improve
from scheduler.sequence.exact.lower_bounds import lateness_bound, lower_bound, running_bound
from scheduler.sequence.exact.rows_as_tour import tour_bound
from scheduler.sequence.exact.too_soon import Crowd, alone_too_late, crowded, soonest
from scheduler.sequence.exact.tour import fewest_setups

__all__ = [
    "Crowd",
    "alone_too_late",
    "crowded",
    "fewest_setups",
    "improve",
    "lateness_bound",
    "lower_bound",
    "obvious_conflict",
    "running_bound",
    "settle",
    "soonest",
    "tour_bound",
]
