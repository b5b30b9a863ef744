"""Who or what lifts a piece: one person, two, or the crane, and with what help at the roll."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from quoting.blanks import Blank
from quoting.core import LB_PER_KG, RangeError, format_length, format_weight
from quoting.shop import LiftRules

STANDING_ARC_DEG = 180.0
"""A piece bent less than half round lies on the roll tables; from here on it stands up and can sag or fold
(common practice, no source)."""


class LiftMethod(StrEnum):
    """How a piece is lifted."""

    HAND = "by hand"
    TWO_PEOPLE = "two people"
    CRANE = "crane"
    CRANE_OVERHEAD = "crane with overhead support"

    @property
    def crane(self) -> bool:
        """Return whether a crane is needed."""
        return self in {LiftMethod.CRANE, LiftMethod.CRANE_OVERHEAD}


@dataclass(frozen=True, slots=True)
class PieceSize:
    """Size of a piece flat and rolled, in mm and degrees; the diameter is the largest mean one."""

    width_mm: float
    length_mm: float
    diameter_mm: float
    arc_deg: float = 360.0

    @classmethod
    def of(cls, blank: Blank) -> PieceSize:
        """Return the size of a blank: its flat length with the trim, and a cone's large end."""
        diameter = blank.cone.large_mm if blank.cone else blank.mean_diameter_mm
        return cls(blank.width_mm, blank.flat_length_mm, diameter, blank.arc_deg)


@dataclass(frozen=True, slots=True)
class Lift:
    """The decision: method, people at the roll, the reason, and the lines that lifting puts on the card."""

    method: LiftMethod
    crew: int
    weight_kg: float
    why: str
    cautions: tuple[str, ...] = ()


def weight_words(weight_kg: float, inch: bool | None = None) -> str:
    """Return a weight in the shop's system, or as both read it when that is not said.

    >>> weight_words(100), weight_words(100, True)
    ('100 kg (220 lb)', '220 lb')
    """
    if inch is not None:
        return format_weight(weight_kg, inch=inch)
    return f"{weight_kg:,.0f} kg ({weight_kg * LB_PER_KG:,.0f} lb)"


def two_person_limit(rules: LiftRules) -> float:
    """Return the weight in kg that two people may lift: a share of twice one person's limit.

    The share is a shop setting; two thirds of the sum is HSE practice for two people (from memory).
    """
    return 2 * rules.hand_limit_kg * rules.two_person_share


def needs_support(thickness_mm: float, size: PieceSize, rules: LiftRules) -> bool:
    """Return whether the rolled piece is too thin for its diameter to stand by itself on a horizontal roll.

    Thin, large shells collapse without a crane or support (trade texts; the ratio of inside diameter to
    thickness at which to say so is a shop setting).
    """
    stands = size.arc_deg >= STANDING_ARC_DEG
    inside = size.diameter_mm - thickness_mm
    return stands and inside / thickness_mm > rules.overhead_support_ratio


def choose_lift(
    weight_kg: float, thickness_mm: float, size: PieceSize, rules: LiftRules, *, inch: bool | None = None
) -> Lift:
    """Return how a piece of `weight_kg` is lifted, and why; all limits are the shop's settings.

    Weight and size go first. Plate over about 6 mm going by crane is official advice for three-roll machines,
    since it keeps the hands away as well (WorkSafe New Zealand, "Three roll bending machines"): a piece that
    one person may not lift goes by crane from that thickness on, and a small thick one is fed with a tool.
    A piece longer than one person can guide takes two. RangeError for a weight or thickness of 0 or less.
    """
    if not (weight_kg > 0 and thickness_mm > 0):
        raise RangeError("weight, thickness", (weight_kg, thickness_mm), "more than 0")
    support = needs_support(thickness_mm, size, rules)
    weight = weight_words(weight_kg, inch)
    thick = thickness_mm > rules.crane_over_thickness_mm
    if weight_kg > two_person_limit(rules):
        return _by_crane(weight_kg, weight, "is over the two-person limit", support, rules)
    if thick and weight_kg > rules.hand_limit_kg:
        least = f"{rules.crane_over_thickness_mm:g} mm"
        least = least if inch is None else format_length(rules.crane_over_thickness_mm, inch=inch)
        why = f"is over one person's limit, and plate is over {least} thick"
        return _by_crane(weight_kg, weight, why, support, rules)
    long = max(size.width_mm, size.length_mm) > rules.one_person_longest_mm
    if weight_kg > rules.hand_limit_kg or support or long:
        return _by_two(weight_kg, weight, support, rules)
    why = f"piece {weight} is within one person's limit"
    return Lift(LiftMethod.HAND, rules.crew_hand, weight_kg, why, (_TOOL,) if thick else ())


_TOOL = "Small thick piece: feed it with a bar or tongs, fingers well back from the nip."


def _by_two(weight_kg: float, weight: str, support: bool, rules: LiftRules) -> Lift:
    cautions: tuple[str, ...] = ()
    light = "thin for its diameter: one holds it" if support else "long: one guides it"
    why = f"piece {weight} is light, but {light} while the other rolls"
    if weight_kg > rules.hand_limit_kg:
        cautions = (f"Two-person lift, {weight}: agree who calls the lift.",)
        why = f"piece {weight} is over one person's limit, within that of two"
    if support:
        cautions += ("Thin for its diameter: a second person holds it up as it closes.",)
    return Lift(LiftMethod.TWO_PEOPLE, rules.crew_two, weight_kg, why, cautions)


def _by_crane(weight_kg: float, weight: str, why: str, support: bool, rules: LiftRules) -> Lift:
    why = f"piece {weight} {why}"
    cautions: tuple[str, ...] = (
        f"Crane lift, {weight}: rated clamps or slings, nobody under or beside the load.",
    )
    if not support:
        return Lift(LiftMethod.CRANE, rules.crew_crane, weight_kg, why, cautions)
    cautions += (
        "Overhead support: hang the shell from the crane as it closes, it will not stand by itself.",
    )
    why += "; thin for its diameter, so it hangs from the crane while it closes"
    return Lift(LiftMethod.CRANE_OVERHEAD, rules.crew_crane, weight_kg, why, cautions)
