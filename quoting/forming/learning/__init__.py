"""What the shop's own recorded rolls say about a roll's settings."""

from quoting.forming.learning.calibrate import Calibration, calibrate
from quoting.forming.learning.readout_model import RecordedRoll

__all__ = [
    "Calibration",
    "RecordedRoll",
    "calibrate",
]
