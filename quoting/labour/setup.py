"""A typical set-up for costing, before anybody knows what runs ahead of the job."""

from __future__ import annotations

from dataclasses import dataclass

from quoting.core import RangeError
from quoting.shop import Family, SetupMinutes

UNKNOWN_CHANGE_SHARE = 0.5
"""When the job before is unknown its plate is taken to differ by this share of our thickness (an estimate of
this program, no source); pass the change to replace it."""


@dataclass(frozen=True, slots=True)
class TypicalSetup:
    """Set-up minutes and the parts they add up to, each named."""

    minutes: float
    parts: tuple[tuple[str, float], ...]

    @property
    def why(self) -> str:
        """Return the parts in words, for the books.

        >>> TypicalSetup(15, (("pinch gap, both ends", 5), ("first-off", 10))).why
        'pinch gap, both ends 5.0 + first-off 10.0 min'
        """
        return " + ".join(f"{name} {minutes:.1f}" for name, minutes in self.parts) + " min"


def typical_setup(
    setups: SetupMinutes,
    thickness_mm: float,
    *,
    cone: bool = False,
    crane: bool = False,
    family: Family = Family.CARBON,
    thickness_change_mm: float | None = None,
) -> TypicalSetup:
    """Return the set-up to cost a job with: another thickness, another diameter, first-off.

    Gap = fixed + per mm x change of thickness (half of ours unless given); then the bending roll, a cone's
    tilt, the crane's rigging, a clean before stainless or aluminium (in full: the schedule may save it) and
    the first-off.
    All minutes are the shop's. The real set-up depends on what ran before and is worked out by the schedule.
    """
    if not thickness_mm > 0:
        raise RangeError("thickness", thickness_mm, "more than 0")
    change = UNKNOWN_CHANGE_SHARE * thickness_mm if thickness_change_mm is None else thickness_change_mm
    if change < 0:
        raise RangeError("thickness change", change, "0 or more")
    parts = [
        (f"pinch gap, both ends, {change:.1f} mm", setups.gap_fixed + setups.gap_per_mm * change),
        ("bending roll", setups.bending_roll),
    ]
    if cone:
        parts.append(("tilt for a cone", setups.cone_tilt))
    if crane:
        parts.append(("rig the crane", setups.crane_rig))
    if family is not Family.CARBON:
        parts.append(("clean the rolls", setups.cleaning))
    parts.append(("first-off", setups.first_off))
    return TypicalSetup(sum(minutes for _, minutes in parts), tuple(parts))
