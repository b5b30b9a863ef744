"""Labour: who lifts, the minutes of every handling step with low / likely / high, learning and cautions."""

from quoting.labour.cautions import (
    CLEAN,
    CODES,
    CONE,
    EDGES,
    FEED,
    HARD,
    MAGNET,
    RING,
    SPRING,
    TAIL,
    TIPS,
    TURN,
    cautions_for,
)
from quoting.labour.cutting import CutWork, cutting_minutes
from quoting.labour.edges import edge_allowance, edge_cuts, edge_metres, edge_minutes
from quoting.labour.lifting import (
    Lift,
    LiftMethod,
    PieceSize,
    choose_lift,
    needs_support,
    two_person_limit,
    weight_words,
)
from quoting.labour.minutes import RollMinutes, minutes_at, roll_minutes
from quoting.labour.setup import typical_setup
from quoting.labour.steps import HandlingTask, Step, trial_passes, weight_band
from quoting.labour.welding import own_prep_kind, seam_weld

__all__ = [
    "CLEAN",
    "CODES",
    "CONE",
    "EDGES",
    "FEED",
    "HARD",
    "MAGNET",
    "RING",
    "SPRING",
    "TAIL",
    "TIPS",
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
    "edge_allowance",
    "edge_cuts",
    "edge_metres",
    "edge_minutes",
    "minutes_at",
    "needs_support",
    "own_prep_kind",
    "roll_minutes",
    "seam_weld",
    "trial_passes",
    "two_person_limit",
    "typical_setup",
    "weight_band",
    "weight_words",
]
