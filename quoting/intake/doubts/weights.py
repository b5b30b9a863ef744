"""Checks the sizes of a line against the sheet's weight: it reveals wrong lengths, units and halves."""

from __future__ import annotations

from math import pi, radians

from quoting.core import Arc, Choice, Cylinder, Shape, mean_diameter
from quoting.intake import shapes
from quoting.intake.row_record import Record
from quoting.intake.shop_view import ShopView, ask, thickness_of

APART = 0.2
"""A weight further than this from that of the sizes, each or in all, is asked about (no source)."""


def check_weight(record: Record, desk: ShopView) -> None:
    """Ask where the sheet's weight is neither that of one piece nor that of all pieces."""
    values = record.values
    given = [float(values.pop(name)) for name in ("weight_kg", "weight_kg 2") if values.get(name)]
    if not given or values.get("weight_ok") or any(doubt.blocking for doubt in record.doubts.values()):
        return
    thickness = thickness_of(values, desk.materials)
    if thickness is None or not values.get("material") or shapes.unit_missing(values):
        return
    try:
        shape = shapes.shape_of(values, thickness)
    except ValueError:
        return
    density = desk.materials.density_kg_m3(values["material"])
    one = _weight(shape, thickness, density / 1e9)
    count = int(values.get("quantity", "1"))
    if one is None or any(
        abs(kg - weight) <= APART * weight for kg in given for weight in (one, one * count)
    ):
        return
    text = (
        f"The sheet's weight, {record.where('weight_kg')[1]}, does not agree with these sizes, which weigh "
        f"{one:.0f} kg ({one / 0.45359237:.0f} lb) each: is the length or the quantity right?"
    )
    ask(
        record, "weight_ok", text, Choice("the sizes are right", (("weight_ok", "yes"),)), near=("weight_kg",)
    )


def _weight(shape: Shape, thickness_mm: float, kg_per_mm3: float) -> float | None:
    """Return the weight in kg of one piece, girth x length x thickness; None for a cone."""
    match shape:
        case Cylinder():
            girth = pi * mean_diameter(shape.diameter_mm, shape.basis, thickness_mm)
        case Arc():
            girth = (
                radians(shape.angle_deg) * mean_diameter(2 * shape.radius_mm, shape.basis, thickness_mm) / 2
            )
        case _:
            return None
    return girth * shape.length_mm * thickness_mm * kg_per_mm3
