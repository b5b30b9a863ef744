"""What stands between a plan and the day that is promised to a customer."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class PromiseSettings:
    """Settings of `[promise]`; each has a default, an example that every shop sets for itself.

    A safe day is kept `kept_share` of the time, when the customer orders within `order_within_days` working
    days. `win_chance` is the chance that an open quote is won, until `LEARNS_FROM` lines are decided.
    Minutes whose record has no spread take `minutes_least_share` to `minutes_most_share` of the likely ones.
    Of the bought plates `plate_late_chance` come late, by 1 to `plate_late_most_days` working days; of the
    shells at the welder `weld_late_chance`, by 1 to `weld_late_most_days`. A machine breaks down with
    `down_chance` on a working day, for up to `down_most_hours` working hours.
    """

    kept_share: float = 0.9
    order_within_days: int = 3
    win_chance: float = 0.4
    minutes_least_share: float = 0.75
    minutes_most_share: float = 1.7
    plate_late_chance: float = 0.2
    plate_late_most_days: int = 5
    weld_late_chance: float = 0.25
    weld_late_most_days: int = 3
    down_chance: float = 0.01
    down_most_hours: float = 16.0
    draws: int = 200
