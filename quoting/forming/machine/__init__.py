"""The machine: its geometry, the forces on its rolls, cones."""

from quoting.forming.machine.cones import ConeSetting, cone_segments, cone_setting
from quoting.forming.machine.load import (
    beam_deflection,
    beam_moment,
    couple_arm,
    drive_power,
    drive_torque,
    lightest_pinch,
    plastic_work,
)
from quoting.forming.machine.pinch_roll import (
    Direction,
    Nip,
    Setting,
    nip_of,
    radius_for_lift,
    setting_for_loaded,
    slide_point,
    touch_lift,
)

__all__ = [
    "ConeSetting",
    "Direction",
    "Nip",
    "Setting",
    "beam_deflection",
    "beam_moment",
    "cone_segments",
    "cone_setting",
    "couple_arm",
    "drive_power",
    "drive_torque",
    "lightest_pinch",
    "nip_of",
    "plastic_work",
    "radius_for_lift",
    "setting_for_loaded",
    "slide_point",
    "touch_lift",
]
