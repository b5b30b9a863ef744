"""What a part looks like flat: the blanks to cut and the rollings they go through."""

from __future__ import annotations

from dataclasses import dataclass
from math import radians

from quoting.core import Ends, Outline, Rectangle


@dataclass(frozen=True, slots=True)
class ConeForm:
    """The rolled form of a cone blank, on mean diameters in mm; `slant_mm` is measured along the wall."""

    large_mm: float
    small_mm: float
    height_mm: float
    slant_mm: float


@dataclass(frozen=True, slots=True)
class Blank:
    """One flat piece and what it is rolled into.

    `per_part` such pieces make one part. `mean_diameter_mm` is the rolled mean diameter (of the small end
    for a cone). `width_mm` lies across the roll (a cone's slant); `girth_mm` is the developed length that
    stays in the part (along a cone's large edge); `trim_mm` and `trim_tail_mm` are extra length at
    the leading and the trailing end, cut off after rolling (at a cone's small edge). `weight_kg` is the
    blank's as cut, trim included. `arc_deg` is 360 for a closed shell with one seam.
    """

    id: str
    outline: Outline
    per_part: int
    thickness_mm: float
    weight_kg: float
    mean_diameter_mm: float
    width_mm: float
    girth_mm: float
    arc_deg: float
    ends: Ends
    trim_mm: float = 0.0
    trim_tail_mm: float = 0.0
    cone: ConeForm | None = None

    @property
    def closed(self) -> bool:
        """Return whether the rolled piece closes on itself."""
        return self.arc_deg >= 360

    @property
    def flat_length_mm(self) -> float:
        """Return the longest length of the flat that passes the rolls: trim included, a cone's large edge."""
        if isinstance(self.outline, Rectangle):
            return self.outline.length_mm
        return self.outline.outer_radius_mm * radians(self.outline.angle_deg)


@dataclass(frozen=True, slots=True)
class BlankPlan:
    """All blanks of one part: `courses` along the axis, `seams` round the girth."""

    blanks: tuple[Blank, ...]
    courses: int
    seams: int
    weld_gap_mm: float
    part_weight_kg: float
    notes: tuple[str, ...] = ()

    @property
    def pieces_per_part(self) -> int:
        """Return how many pieces are rolled for one part."""
        return sum(blank.per_part for blank in self.blanks)
