"""Weld metal: the cross-section of a groove and its weight a length.

Areas follow from geometry; the cap is taken as a parabola, 2/3 of width times height, which is the form
behind the printed tables of weld weight that `tests/published/test_weld_metal.py` recomputes.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from math import pi, radians, tan

from quoting.core import RangeError


class GrooveKind(StrEnum):
    """The shape of a butt weld's groove."""

    SQUARE = "square"
    SINGLE_BEVEL = "single bevel"
    SINGLE_V = "single V"
    DOUBLE_BEVEL = "double bevel"
    DOUBLE_V = "double V"
    U = "U"
    J = "J"


_TWO_SIDED = frozenset((GrooveKind.DOUBLE_BEVEL, GrooveKind.DOUBLE_V))
_ROUND = frozenset((GrooveKind.U, GrooveKind.J))
_ONE_EDGE = frozenset((GrooveKind.SINGLE_BEVEL, GrooveKind.DOUBLE_BEVEL, GrooveKind.J))


@dataclass(frozen=True, slots=True)
class Groove:
    """A butt joint; lengths in mm, `angle_deg` that of one prepared edge (half of the included angle of a V).

    `cap_mm` is the height of the reinforcement on each capped side (`caps`, 0 to 2). `radius_mm` is the root
    radius of a U or J.
    """

    kind: GrooveKind
    thickness_mm: float
    gap_mm: float = 0.0
    face_mm: float = 0.0
    angle_deg: float = 0.0
    cap_mm: float = 0.0
    caps: int = 0
    radius_mm: float = 0.0

    def __post_init__(self) -> None:
        for name in ("gap_mm", "face_mm", "cap_mm", "radius_mm"):
            if not getattr(self, name) >= 0:
                raise RangeError(name.replace("_", " "), getattr(self, name), "0 or more")
        if not self.thickness_mm > self.face_mm + self.radius_mm:
            raise RangeError(
                "thickness of the joint", self.thickness_mm, "more than its root face and root radius"
            )
        if not 0 <= self.angle_deg < 80 or self.caps not in (0, 1, 2):
            raise RangeError("joint", (self.angle_deg, self.caps), "an angle below 80 degrees, up to 2 caps")

    @property
    def area_mm2(self) -> float:
        """Return the cross-section of the weld metal in mm2, caps included.

        >>> round(Groove(GrooveKind.SINGLE_V, 12, 3, 2, 30, 2, 1).area_mm2, 1)
        113.1
        """
        caps = self.caps * 2 / 3 * self.cap_width_mm * self.cap_mm
        return self.gap_mm * self.thickness_mm + self._flanks + caps

    @property
    def cap_width_mm(self) -> float:
        """Return the width of the groove at the surface, in mm."""
        edges = 1 if self.kind in _ONE_EDGE else 2
        run = edges * self._depth * tan(radians(self.angle_deg))
        if self.kind in _ROUND:
            run += edges * self.radius_mm
        return self.gap_mm + (0.0 if self.kind is GrooveKind.SQUARE else run)

    @property
    def _depth(self) -> float:
        """Return the depth of one side's slanted flank."""
        whole = self.thickness_mm - self.face_mm - (self.radius_mm if self.kind in _ROUND else 0.0)
        return whole / 2 if self.kind in _TWO_SIDED else whole

    @property
    def _flanks(self) -> float:
        """Return the area beside the gap."""
        if self.kind is GrooveKind.SQUARE:
            return 0.0
        sides = 2 if self.kind in _TWO_SIDED else 1
        share = 0.5 if self.kind in _ONE_EDGE else 1.0
        area = share * sides * self._depth**2 * tan(radians(self.angle_deg))
        if self.kind in _ROUND:
            area += 2 * share * (self.radius_mm * self._depth + pi * self.radius_mm**2 / 4)
        return area

    def kg_per_m(self, density_kg_m3: float) -> float:
        """Return the weld metal in kg a metre.

        >>> round(Groove(GrooveKind.SINGLE_V, 12, 3, 2, 30, 2, 1).kg_per_m(7850), 3)
        0.888
        """
        return self.area_mm2 * density_kg_m3 * 1e-6


def fillet_kg_per_m(leg_mm: float, density_kg_m3: float) -> float:
    """Return the weld metal of a flat fillet in kg a metre, without over-welding.

    >>> round(fillet_kg_per_m(12.7, 7833) / 1.488164, 3)  # printed .424 lb a foot for 1/2 in
    0.424
    """
    return leg_mm**2 / 2 * density_kg_m3 * 1e-6
