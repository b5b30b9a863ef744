"""From field texts to a shape: which shape it is, what is missing, what could be read two ways."""

from __future__ import annotations

from collections.abc import Mapping
from math import asin, atan, degrees, pi, sqrt

from quoting.core import Arc, Basis, Cone, Cylinder, Shape, mean_diameter

GIRTH_MATCH = 0.02
"""A length within this share of the girth may well be the girth."""

_LONGEST_CHORD_MM = 1e9
"""Beyond any size that is read; what is larger overflows."""


def length(values: Mapping[str, str], name: str) -> float | None:
    """Return a length in mm; None when it is missing or its unit is not known yet."""
    text = values.get(name, "")
    if not text:
        return None
    if text.endswith("u"):
        unit = values.get("unit", "")
        return float(text[:-1]) * {"in": 25.4, "mm": 1.0}[unit] if unit in ("in", "mm") else None
    return float(text)


SIZES = (
    "diameter", "radius", "large", "small", "length", "width", "girth", "height", "slant", "chord", "rise",
    "arc_length", "thickness", "weld_gap",
)  # fmt: skip
"""The fields that hold a length."""


def unit_missing(values: Mapping[str, str]) -> bool:
    """Return whether some size of the line waits for its unit."""
    return not values.get("unit") and any(values.get(name, "").endswith("u") for name in SIZES)


def has(values: Mapping[str, str], name: str) -> bool:
    """Return whether the field was read, its unit known or not."""
    return bool(values.get(name))


def kind_of(values: Mapping[str, str]) -> str:
    """Return cylinder, arc, cone, or nothing when the fields do not say."""
    if values.get("shape"):
        return values["shape"]
    if has(values, "large") or has(values, "small"):
        return "cone"
    if has(values, "angle"):
        return "arc" if float(values["angle"]) < 360 else "cylinder"
    if has(values, "chord") or has(values, "rise") or has(values, "arc_length"):
        return "arc"
    if has(values, "diameter") or (has(values, "girth") and has(values, "closed")):
        return "cylinder"
    return ""


def shape_of(values: Mapping[str, str], thickness_mm: float) -> Shape:
    """Return the shape of complete values; ValueError (or RangeError) says what is missing or impossible."""
    kind = kind_of(values)
    if kind == "cylinder":
        return _cylinder(values)
    if kind == "arc":
        return _arc(values, thickness_mm)
    if kind == "cone":
        return _cone(values)
    raise ValueError("the shape is not known")


def _need(values: Mapping[str, str], name: str) -> float:
    found = length(values, name)
    if found is None:
        raise ValueError(f"{name} is missing")
    return found


def _basis(values: Mapping[str, str]) -> Basis:
    if not values.get("basis"):
        raise ValueError("inside, outside or mean is missing")
    return Basis(values["basis"])


def across(values: Mapping[str, str]) -> float:
    """Return the width across the roll in mm: the part's length, or its width when only that is given."""
    found = length(values, "length")
    return _need(values, "width") if found is None else found


def _cylinder(values: Mapping[str, str]) -> Cylinder:
    diameter = length(values, "diameter")
    radius = length(values, "radius")
    girth = length(values, "girth")
    if diameter is None and radius is not None:
        diameter = 2 * radius
    if diameter is None and girth is not None:
        return Cylinder(girth / pi, Basis.MEAN, across(values))
    if diameter is None:
        raise ValueError("diameter is missing")
    return Cylinder(diameter, _basis(values), across(values))


def _arc(values: Mapping[str, str], thickness_mm: float) -> Arc:
    basis = _basis(values)
    chord, rise = length(values, "chord"), length(values, "rise")
    radius = radius_of(values)
    if radius is None and chord and rise:
        radius = chord_radius(chord, rise)
    if radius is None:
        raise ValueError("radius is missing")
    return Arc(radius, basis, _angle(values, radius, basis, thickness_mm), across(values))


def _angle(values: Mapping[str, str], radius: float, basis: Basis, thickness_mm: float) -> float:
    chord, rise = length(values, "chord"), length(values, "rise")
    if values.get("angle"):
        return float(values["angle"])
    if chord and rise:
        return chord_angle(chord, rise)
    if chord:
        if chord > 2 * radius:
            raise ValueError("the chord is longer than the diameter")
        return degrees(2 * asin(chord / (2 * radius)))
    arc = length(values, "arc_length") or length(values, "girth")
    if not arc:
        raise ValueError("degrees are missing")
    on_mean = values.get("arc_length_on", "") == "mean" or not length(values, "arc_length")
    along = mean_diameter(2 * radius, basis, thickness_mm) / 2 if on_mean else radius
    return degrees(arc / along)


def radius_of(values: Mapping[str, str]) -> float | None:
    """Return the radius in mm, or half the diameter."""
    radius, diameter = length(values, "radius"), length(values, "diameter")
    return radius if radius is not None else diameter / 2 if diameter is not None else None


def chord_radius(chord_mm: float, rise_mm: float) -> float:
    """Return the radius (mm) of an arc from chord and rise, r = c^2 / (8 h) + h / 2 (intersecting chords).

    Raises ValueError for a chord that no plate has.

    >>> chord_radius(80, 20)
    50.0
    """
    if chord_mm > _LONGEST_CHORD_MM:
        raise ValueError("the chord is far too long")
    return chord_mm**2 / (8 * rise_mm) + rise_mm / 2


def chord_angle(chord_mm: float, rise_mm: float) -> float:
    """Return the angle (degrees) of an arc from its chord and rise, 4 atan(2 h / c) (half-angle theorem).

    >>> round(chord_angle(100, 50), 9)
    180.0
    """
    return degrees(4 * atan(2 * rise_mm / chord_mm))


def _cone(values: Mapping[str, str]) -> Cone:
    large, small = _need(values, "large"), _need(values, "small")
    height, slant = length(values, "height"), length(values, "slant")
    if height is None and slant is not None:
        fall = slant**2 - ((large - small) / 2) ** 2
        if fall <= 0:
            raise ValueError("the slant is shorter than the step between the two radii")
        height = sqrt(fall)
    if height is None:
        raise ValueError("height is missing")
    return Cone(large, small, _basis(values), height)


def girth_of(values: Mapping[str, str], thickness_mm: float) -> float | None:
    """Return the developed girth in mm of a cylinder or arc whose diameter is known, basis known or not."""
    radius = radius_of(values)
    if radius is None:
        return None
    basis = Basis(values["basis"]) if values.get("basis") else Basis.MEAN
    turn = float(values["angle"]) / 360 if values.get("angle") else 1.0
    return pi * mean_diameter(2 * radius, basis, thickness_mm) * turn


def near(one: float, other: float) -> bool:
    """Return whether two lengths agree within `GIRTH_MATCH`."""
    return abs(one - other) <= GIRTH_MATCH * max(abs(one), abs(other))
