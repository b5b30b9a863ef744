"""Work on a part besides rolling it: edges prepared, seams welded, and what else is asked for in words."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from quoting.core.errors import RangeError

MOST_BEVEL_DEG = 60.0


class EdgeKind(StrEnum):
    """How an edge is prepared."""

    SQUARE = "square, ground clean"
    BEVEL = "single bevel"
    DOUBLE_BEVEL = "double bevel"
    J = "J preparation"


class EdgePlace(StrEnum):
    """Which edges of the blank: those that meet in the long seam, those at the shell's ends, or all."""

    SEAM = "long seam"
    ENDS = "shell ends"
    ALL = "all round"


@dataclass(frozen=True, slots=True)
class EdgePrep:
    """An edge preparation as it was asked for. `angle_deg` is that of one edge, not the included angle.

    `edges` counts the edges of one blank that get it: 1 or 2, or 4 all round.
    """

    kind: EdgeKind
    place: EdgePlace
    edges: int
    angle_deg: float = 0.0
    land_mm: float = 0.0

    def __post_init__(self) -> None:
        if not 0 <= self.angle_deg <= MOST_BEVEL_DEG:
            raise RangeError("bevel angle", self.angle_deg, f"0 to {MOST_BEVEL_DEG:g} degrees")
        if not 0 <= self.land_mm < 1000:
            raise RangeError("land of the bevel", self.land_mm, "0 or more, and less than the plate")
        most = 4 if self.place is EdgePlace.ALL else 2
        if not 1 <= self.edges <= most:
            raise RangeError("edges to prepare", self.edges, f"1 to {most}")


class Penetration(StrEnum):
    """How far a weld goes through."""

    FULL = "full penetration"
    PARTIAL = "partial penetration"
    SEAL = "seal weld"


@dataclass(frozen=True, slots=True)
class WeldAsked:
    """Welding of the seams that the customer wants from us: of the long seam, the girth seams, or both."""

    penetration: Penetration
    long_seam: bool = True
    girth_seams: bool = False
    back_gouge: bool = False


class Extra(StrEnum):
    """Other work that a customer asks for in words, and that costs minutes."""

    STRAIGHTEN = "straightening of the plate"
    TEMPLATE = "template made for the part"
    GRIND_EDGES = "cut edges ground"


class ToleranceOn(StrEnum):
    """What a tolerance is on."""

    DIAMETER = "diameter"
    CIRCUMFERENCE = "circumference"
    ROUND = "out of round"
    STRAIGHT = "straightness"
    LENGTH = "length"


@dataclass(frozen=True, slots=True)
class ToleranceAsked:
    """One tolerance: plus or minus `value_mm` (roundness, straightness: the most), or a share of the size.

    `code` names a rule that says how much, in place of a number. Where the two sides differ `sides_mm` holds
    plus and minus, and `value_mm` half of what lies between them.
    """

    on: ToleranceOn
    value_mm: float = 0.0
    share: float = 0.0
    code: str = ""
    sides_mm: tuple[float, float] | None = None
