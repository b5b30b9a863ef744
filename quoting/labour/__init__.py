"""Labour: who lifts, the minutes of every handling step with low / likely / high, learning and cautions."""

from quoting.labour.cautions import CLEAN, CODES, CONE, EDGES, FEED, RING, SPRING, TAIL, TURN, cautions_for
from quoting.labour.cutting import CutWork, cutting_minutes
from quoting.labour.lifting import Lift, LiftMethod, PieceSize, choose_lift, two_person_limit, weight_words
from quoting.labour.minutes import RollMinutes, minutes_at, roll_minutes
from quoting.labour.setup import typical_setup
from quoting.labour.steps import HandlingTask, Step

__all__ = [
    "CLEAN",
    "CODES",
    "CONE",
    "EDGES",
    "FEED",
    "RING",
    "SPRING",
    "TAIL",
    "TURN",
    "CutWork",
    "HandlingTask",
    "Lift",
    "LiftMethod",
    "PieceSize",
    "RollMinutes",
    "Step",
    "cautions_for",
    "choose_lift",
    "cutting_minutes",
    "minutes_at",
    "roll_minutes",
    "two_person_limit",
    "typical_setup",
    "weight_words",
]
