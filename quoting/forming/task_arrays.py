"""Many tasks as arrays, so that ten thousand lines cost little more than one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace

import numpy as np
from numpy.typing import ArrayLike, NDArray

from quoting.core import Ends, RangeError
from quoting.forming.plate import PlateLaw, plate_law
from quoting.forming.range_checks import Floats, floats
from quoting.forming.task import RollTask
from quoting.shop import Material, RatedPoint

REFERENCE_ELASTIC_MPA, REFERENCE_POISSON = 200e3, 0.3
"""Mild steel, which rated points are given for (handbook values; from memory)."""

Bools = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Lines:
    """One entry a task; lengths in mm, stresses in MPa, weight in kg. `radius_mm` is the tightest."""

    thickness_mm: Floats
    width_mm: Floats
    radius_mm: Floats
    inside_diameter_mm: Floats
    weight_kg: Floats
    yield_mpa: Floats
    elastic_mpa: Floats
    poisson: Floats
    strength_mpa: Floats
    hardening: Floats
    closed: Bools
    pre_bend: Bools
    cone: Bools

    def __len__(self) -> int:
        return len(self.thickness_mm)

    def law(self) -> PlateLaw:
        """Return the bending law of every line."""
        return plate_law(
            self.thickness_mm,
            self.width_mm,
            self.elastic_mpa,
            self.poisson,
            self.yield_mpa,
            self.strength_mpa,
            self.hardening,
        )

    def take(self, index: ArrayLike | slice) -> Lines:
        """Return some of the lines, by index or by a mask."""
        i = index if isinstance(index, slice) else np.asarray(index)
        return Lines(**{field.name: getattr(self, field.name)[i] for field in fields(self)})

    def with_yield(self, yield_mpa: Floats) -> Lines:
        """Return the lines with another yield strength."""
        return replace(self, yield_mpa=yield_mpa)

    def with_thickness(self, thickness_mm: Floats) -> Lines:
        """Return the lines with another thickness at the same inside diameter."""
        grown = (thickness_mm - self.thickness_mm) / 2
        weight = self.weight_kg * thickness_mm / self.thickness_mm
        return replace(self, thickness_mm=thickness_mm, radius_mm=self.radius_mm + grown, weight_kg=weight)

    def with_inside_diameter(self, inside_mm: Floats) -> Lines:
        """Return the lines with another inside diameter; a cone keeps its taper."""
        grown = (inside_mm + self.thickness_mm) / (self.inside_diameter_mm + self.thickness_mm)
        return replace(self, inside_diameter_mm=inside_mm, radius_mm=self.radius_mm * grown)

    def with_width(self, width_mm: Floats) -> Lines:
        """Return the lines with another width; their weight follows."""
        return replace(self, width_mm=width_mm, weight_kg=self.weight_kg * width_mm / self.width_mm)

    def as_segments(self, pieces: int) -> Lines:
        """Return the lines cut into open segments of the girth."""
        return replace(self, closed=np.zeros_like(self.closed), weight_kg=self.weight_kg / pieces)

    def without_pre_bend(self) -> Lines:
        """Return the lines rolled without pre-bending."""
        return replace(self, pre_bend=np.zeros_like(self.pre_bend))


def lines_of(tasks: Sequence[RollTask], yields_mpa: Sequence[float]) -> Lines:
    """Return the tasks as arrays, with the given yield strengths."""
    columns = np.array(
        [
            (
                task.thickness_mm,
                task.width_mm,
                task.bend_radius_mm,
                task.inside_diameter_mm,
                task.weight_kg,
                strength,
                *_metal(task.material),
                task.closed,
                task.ends is Ends.PRE_BEND,
                task.cone is not None,
            )
            for task, strength in zip(tasks, yields_mpa, strict=True)
        ],
        dtype=np.float64,
    ).reshape(len(tasks), 13)
    numbers, marks = columns.T[:10], columns.T[10:].astype(bool)
    return Lines(*numbers, *marks)


def _metal(material: Material) -> tuple[float, float, float, float]:
    if not material.yield_low_mpa <= material.yield_high_mpa or material.yield_low_mpa > material.tensile_mpa:
        raise RangeError(
            f"material {material.key}: yield_low_mpa",
            material.yield_low_mpa,
            f"at most the tensile strength, {material.tensile_mpa:g} MPa, and at most yield_high_mpa",
        )
    hardens = material.strength_mpa is not None and material.hardening is not None
    return (
        material.elastic_mpa,
        material.poisson,
        (material.strength_mpa or 0.0) if hardens else 0.0,
        (material.hardening or 0.0) if hardens else 0.0,
    )


def lines_of_rated(points: Sequence[RatedPoint]) -> Lines:
    """Return rated points as lines: mild steel without hardening, of the rated yield."""
    t = floats([point.thickness_mm for point in points])
    inside = floats([point.inside_diameter_mm for point in points])
    no = np.zeros(len(points))
    return Lines(
        thickness_mm=t,
        width_mm=floats([point.width_mm for point in points]),
        radius_mm=(inside + t) / 2,
        inside_diameter_mm=inside,
        weight_kg=no,
        yield_mpa=floats([point.yield_mpa for point in points]),
        elastic_mpa=no + REFERENCE_ELASTIC_MPA,
        poisson=no + REFERENCE_POISSON,
        strength_mpa=no,
        hardening=no,
        closed=no.astype(bool),
        pre_bend=np.array([point.pre_bend for point in points], dtype=bool),
        cone=no.astype(bool),
    )
