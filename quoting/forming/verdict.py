"""What a roll can do with a task, in a form that books print: limits, the one that governs, and ways out."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeAlias

from quoting.shop import MPA_PER_KSI

LengthText: TypeAlias = Callable[[float], str]
"""Turns a length in mm into what the shop reads."""


SIZES = frozenset(("plate width", "largest thickness", "least thickness"))
"""Limits of size, which no softer plate and no further pass gets round."""


def millimetres(length_mm: float) -> str:
    """Return a length the metric way.

    >>> millimetres(1180.4)
    '1180 mm'
    >>> millimetres(6.32)
    '6.3 mm'
    """
    return f"{length_mm:.0f} mm" if length_mm >= 100 else f"{length_mm:.1f} mm"


def stress_words(stress_mpa: float) -> str:
    """Return a stress for both kinds of shop.

    >>> stress_words(250)
    '250 MPa (36 ksi)'
    """
    return f"{stress_mpa:.0f} MPa ({stress_mpa / MPA_PER_KSI:.0f} ksi)"


@dataclass(frozen=True, slots=True)
class Limit:
    """One limit of a roll: `used` is the share of it that the task takes, 1.0 being all of it.

    `demand` and `rated` are in `unit`. For a least value (least diameter, least thickness) `used` is
    rated / demand, else demand / rated. `demand` is None where the roll has no position that would do it.
    """

    name: str
    used: float
    demand: float | None
    rated: float
    unit: str


@dataclass(frozen=True, slots=True)
class WayOut:
    """One way out of a "no", found by solving: `text` holds `{size}` where `size_mm` is to be printed.

    `kind` is one of "no pre-bend", "width", "thickness", "diameter", "yield", "segments", "other roll".
    `pieces` is the number of courses or segments where the way out means several.
    """

    kind: str
    text: str
    size_mm: float | None = None
    pieces: int = 1

    def words(self, length: LengthText = millimetres) -> str:
        """Return the way out as the shop would say it."""
        return self.text if self.size_mm is None else self.text.format(size=length(self.size_mm))


@dataclass(frozen=True, slots=True)
class Verdict:
    """Whether a roll can do a task, what governs and what would help.

    `limit` names the governing limit and `used` its share: of what does not fit, else of what the task takes
    most of (force, torque, power, weight). `used_at_high` is the same share with plate at
    the top of the grade's yield band, `strength_used` that of the loads alone. `least_passes` is what the
    drive needs. `flags` are for the estimator to look at (strain, near capacity), `notes` say what the
    verdict rests on. `barrel_mm` is how much further apart top and bending roll stand in the middle of the
    plate than at its edges, less the crown; `pinch_n` the lightest pinch that still drives the plate in one
    pass. Both are None without slide geometry.
    """

    roll: str
    ok: bool
    limit: str
    used: float
    limits: tuple[Limit, ...]
    ways: tuple[WayOut, ...] = ()
    flags: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    used_at_high: float = 0.0
    strength_used: float = 0.0
    least_passes: int = 1
    barrel_mm: float | None = None
    pinch_n: float | None = None

    @property
    def ways_out(self) -> tuple[str, ...]:
        """Return the ways out in words, lengths in mm."""
        return self.ways_out_in(millimetres)

    def ways_out_in(self, length: LengthText) -> tuple[str, ...]:
        """Return the ways out in words, lengths as the given function writes them."""
        return tuple(way.words(length) for way in self.ways)

    @property
    def reason(self) -> str:
        """Return one line: what governs, how much of it is used, and what size is beyond the roll too."""
        said = f"{self.limit}: {_share(self.used)} of what the roll is rated for"
        sizes = [one for one in self.limits if one.used > 1 and one.name in SIZES and one.name != self.limit]
        return "; ".join([said, *(f"{one.name}: {_share(one.used)}" for one in sizes)])


def _share(used: float) -> str:
    return f"{used:.0%}" if used < 100 else "far more than 100%"
