"""From a record's won lines to operations, set-ups and lots."""

from scheduler.jobs.boxes import FLOOR_BOXES, box_label
from scheduler.jobs.lots import in_two_lots, soonest
from scheduler.jobs.operations import (
    CUT,
    CUTTING_STATIONS,
    DAY_MIN,
    RE_ROUND,
    ROLL,
    ShopOperation,
    floor_id,
    make_jobs,
    make_work,
    setup_matrix,
    setup_of,
)
from scheduler.jobs.setups import Setup
from scheduler.jobs.won_lines import PlateToCut, WonLine, in_house_on, plates_to_cut, won_lines

__all__ = [
    "CUT",
    "CUTTING_STATIONS",
    "DAY_MIN",
    "FLOOR_BOXES",
    "RE_ROUND",
    "ROLL",
    "PlateToCut",
    "Setup",
    "ShopOperation",
    "WonLine",
    "box_label",
    "floor_id",
    "in_house_on",
    "in_two_lots",
    "make_jobs",
    "make_work",
    "plates_to_cut",
    "setup_matrix",
    "setup_of",
    "soonest",
    "won_lines",
]
