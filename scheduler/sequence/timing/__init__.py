"""From an order to minutes: the one timing code of every rule and search."""

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
    "money",
    "overtime_windows",
    "tables",
    "ticks",
    "time_order",
]
