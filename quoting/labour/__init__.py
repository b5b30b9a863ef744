"""Labour: who lifts, the minutes of every handling step with low / likely / high, learning and cautions."""

from quoting.labour.cautions import cautions_for
from quoting.labour.cutting import CutWork, cutting_minutes
from quoting.labour.lifting import Lift, LiftMethod, PieceSize, choose_lift, weight_words
from quoting.labour.minutes import RollMinutes, minutes_at, roll_minutes
from quoting.labour.setup import TypicalSetup, typical_setup
from quoting.labour.steps import RollTask, Step

__all__ = [
    "CutWork",
    "Lift",
    "LiftMethod",
    "PieceSize",
    "RollMinutes",
    "RollTask",
    "Step",
    "TypicalSetup",
    "cautions_for",
    "choose_lift",
    "cutting_minutes",
    "minutes_at",
    "roll_minutes",
    "typical_setup",
    "weight_words",
]
