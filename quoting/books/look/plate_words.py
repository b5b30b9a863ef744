"""Plates and what is cut from them, in the words that the costing book and the cutting table share."""

from __future__ import annotations

from collections.abc import Sequence
from math import floor

from quoting.core import MM_PER_INCH, format_stock
from quoting.nesting import CutPlate, NestPlate

_EIGHTH_INCH_MM = MM_PER_INCH / 8


def material_words(thickness_mm: float, material: str, *, inch: bool) -> str:
    """Return thickness and grade: `1/4" A36`."""
    return f"{format_stock(thickness_mm, inch=inch)} {material}"


def plate_words(plate: NestPlate, *, inch: bool) -> str:
    """Return size and edges of a plate; its second size is the way the grain runs."""
    width, length = (format_stock(mm, inch=inch) for mm in (plate.width_mm, plate.length_mm))
    return f"{width} x {length}, {plate.edge} edges{', notched' if plate.notch else ''}"


def chalk_mm(mm: float, *, inch: bool) -> float:
    """Return a size as it is chalked on a drop: down to whole eighths of an inch or whole mm.

    >>> chalk_mm(474.16, inch=False), chalk_mm(474.16, inch=True) / 25.4
    (474.0, 18.625)
    """
    step = _EIGHTH_INCH_MM if inch else 1.0
    return floor(mm / step + 1e-6) * step


def alike(cuts: Sequence[CutPlate]) -> list[tuple[CutPlate, ...]]:
    """Return the cut plates by layout: same plate, same pieces at the same places, same drops."""
    layouts: dict[object, list[CutPlate]] = {}
    for cut in cuts:
        places = tuple((put.piece, put.x_mm, put.y_mm, put.angle_deg) for put in cut.placements)
        layouts.setdefault((cut.plate, places, cut.drops), []).append(cut)
    return [tuple(same) for same in layouts.values()]
