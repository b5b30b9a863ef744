"""From an order to minutes: the one timing code of every rule and search."""

from scheduler.sequence.timing.alone import least_late, process_order, soonest_end, soonest_ends
from scheduler.sequence.timing.late_setups import late_setups
from scheduler.sequence.timing.serial_timing import Score, Timed, Timer, time_order
from scheduler.sequence.timing.tables import (
    NEVER,
    Calendar,
    Opened,
    Tables,
    money,
    overtime_windows,
    tables,
    ticks,
)

__all__ = [
    "NEVER",
    "Calendar",
    "Opened",
    "Score",
    "Tables",
    "Timed",
    "Timer",
    "late_setups",
    "least_late",
    "money",
    "overtime_windows",
    "process_order",
    "soonest_end",
    "soonest_ends",
    "tables",
    "ticks",
    "time_order",
]
