"""Set-up minutes between any two jobs on a roll, and the reason in words."""

from __future__ import annotations

from dataclasses import dataclass

from quoting.core import format_length
from quoting.shop import Family, Roll, SetupMinutes

SAME_GAP_MM = 0.05
"""A pinch gap this close needs no resetting; it is the thickness tolerance between two names of one plate."""

SAME_DIAMETER_MM = 0.5
"""Two diameters this close are rolled at one bending-roll setting."""


@dataclass(frozen=True, slots=True)
class RollState:
    """How a roll stands when a job is on it: what the next set-up is measured from.

    `diameter_mm` is the inside diameter rolled to (of a cone's small end); `part` tells repeats of one part
    apart from new ones. None means that it is not known.
    """

    thickness_mm: float | None = None
    family: Family | None = None
    diameter_mm: float | None = None
    cone: bool = False
    crane: bool = False
    part: str | None = None


@dataclass(frozen=True, slots=True)
class Setup:
    """Minutes, and what they are spent on."""

    parts: tuple[tuple[str, float], ...]

    @property
    def minutes(self) -> int:
        """Return the whole set-up in minutes, rounded to the minute a schedule works in."""
        return round(sum(minutes for _, minutes in self.parts))

    @property
    def why(self) -> str:
        """Return the reasons in words.

        >>> Setup((("gap 6.0 -> 10.0 mm, both ends", 12.0), ("first-off", 8.0))).why
        'gap 6.0 -> 10.0 mm, both ends; first-off'
        """
        return "; ".join(reason for reason, _ in self.parts)


def initial_state(roll: Roll) -> RollState:
    """Return how the roll stands at the start of the plan, as far as the shop's book says."""
    return RollState(thickness_mm=roll.set_thickness_mm, family=roll.set_family)


def setup_between(before: RollState, after: RollState, minutes: SetupMinutes, *, inch: bool = False) -> Setup:
    """Return the set-up from one job to the next on the same roll; asymmetric where the work is.

    Stainless after anything but stainless is preceded by cleaning; the other way round needs none.
    Rigging the crane costs when it was not in use; putting it away does not. `inch` words the gap in inches.
    """
    if after.part is not None and after.part == before.part:
        return Setup((("same part", minutes.same),))
    parts = [
        *_gap(before.thickness_mm, after.thickness_mm, minutes, inch=inch),
        *_bending_roll(before.diameter_mm, after.diameter_mm, minutes),
    ]
    if before.cone != after.cone:
        parts.append(
            ("tilt and shoe for a cone" if after.cone else "back from cone to cylinder", minutes.cone_tilt)
        )
    if after.family is Family.STAINLESS and before.family is not Family.STAINLESS:
        known = before.family.value if before.family else "unknown plate"
        parts.append((f"clean rolls, stainless after {known}", minutes.cleaning))
    if after.crane and not before.crane:
        parts.append(("rig crane", minutes.crane_rig))
    parts.append(("first-off", minutes.first_off))
    return Setup(tuple(parts))


def _gap(
    before: float | None, after: float | None, minutes: SetupMinutes, *, inch: bool
) -> list[tuple[str, float]]:
    if after is None:
        return []
    if before is None:
        words = f"set gap to {_size(after, inch)}, both ends"
        return [(words, minutes.gap_fixed + minutes.gap_per_mm * after)]
    change = abs(after - before)
    if change <= SAME_GAP_MM:
        return []
    words = f"gap {_size(before, inch, mark=inch)} -> {_size(after, inch)}, both ends"
    return [(words, minutes.gap_fixed + minutes.gap_per_mm * change)]


def _size(mm: float, inch: bool, *, mark: bool = True) -> str:
    if inch:
        return format_length(mm, inch=True)
    return f"{mm:.1f} mm" if mark else f"{mm:.1f}"


def _bending_roll(
    before: float | None, after: float | None, minutes: SetupMinutes
) -> list[tuple[str, float]]:
    if after is None or (before is not None and abs(after - before) <= SAME_DIAMETER_MM):
        return []
    return [("bending roll to another diameter", minutes.bending_roll)]
