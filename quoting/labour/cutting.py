"""Minutes at the cutting station, from what the nest says has to be cut."""

from __future__ import annotations

from dataclasses import dataclass

from quoting.core import RangeError
from quoting.shop import LabourSteps


@dataclass(frozen=True, slots=True)
class CutWork:
    """What a nest asks of the cutting station: metres cut, pierces, shear strokes and plates handled."""

    cut_m: float = 0.0
    pierces: int = 0
    strokes: int = 0
    plates: float = 0.0

    def __post_init__(self) -> None:
        for name in ("cut_m", "pierces", "strokes", "plates"):
            if not getattr(self, name) >= 0:
                raise RangeError(name.replace("_", " "), getattr(self, name), "0 or more")

    def __add__(self, other: CutWork) -> CutWork:
        return CutWork(
            self.cut_m + other.cut_m,
            self.pierces + other.pierces,
            self.strokes + other.strokes,
            self.plates + other.plates,
        )


def cutting_minutes(
    work: CutWork,
    steps: LabourSteps,
    *,
    minutes_per_pierce: float = 0.0,
    minutes_per_stroke: float | None = None,
) -> float:
    """Return the cutting minutes: metres, pierces, strokes and plates, each at the shop's minutes.

    `plates` may be a share of a plate when several lines are cut from it. The shop's book has minutes for a
    metre, a stroke and a plate; a shop that times pierces apart passes those too.
    """
    stroke = steps.shear_minutes_per_stroke if minutes_per_stroke is None else minutes_per_stroke
    return (
        work.cut_m * steps.cutting_minutes_per_m
        + work.pierces * minutes_per_pierce
        + work.strokes * stroke
        + work.plates * steps.cutting_minutes_per_plate
    )
