"""From a draft's field texts to an order line."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from quoting.core import Draft, Ends, Extra, OrderLine
from quoting.intake.doubts import gap_holds
from quoting.intake.shapes import length, shape_of
from quoting.intake.shop_view import thickness_of
from quoting.intake.texts import edge_of, tolerances_of, weld_of
from quoting.shop import Materials

KEPT = (
    "shape", "half", "closed", "diameter", "radius", "basis", "length", "width", "length_ok", "girth",
    "height", "slant", "chord", "rise", "arc_length", "arc_length_on", "round_mm", "large", "small", "angle",
    "thickness", "thickness_ok", "schedule", "nominal", "gauge", "gauge_metal", "material",
    "no_material_column", "unit", "row_unit", "quantity", "breaks", "part_no", "drawing",
    "drawn_revision", "description", "ends",
    "seam", "weld_gap", "weld_gap_on", "weld_gap_ok", "re_round", "grain_along", "certificate",
    "free_issue", "tolerance", "edge_prep", "weld", "extras", "tolerances", "due", "size_ok", "hidden",
    "left_out", "waits", "multiplier",
    "duplicate", "revision_ok",
)  # fmt: skip
"""The fields a draft keeps, in the order of a line's story."""


@dataclass(frozen=True, slots=True)
class NotReadyError(Exception):
    """A draft that still lacks something; the text says what."""

    reason: str


def line_of(draft: Draft, customer: str, materials: Materials) -> OrderLine:
    """Return the order line of a complete draft; NotReadyError says what a draft still lacks."""
    values = dict(draft.values)
    thickness = thickness_of(values, materials)
    if thickness is None:
        raise NotReadyError("thickness is missing")
    if not values.get("material") or not values.get("quantity"):
        raise NotReadyError("material or quantity is missing")
    try:
        shape = shape_of(values, thickness)
        return OrderLine(
            id=draft.id,
            number=draft.number,
            customer=customer,
            place=draft.place,
            quantity=int(values["quantity"]) * int(values.get("multiplier") or 1),
            shape=shape,
            thickness_mm=thickness,
            material=values["material"],
            part_no=values.get("part_no", "") or values.get("drawing", ""),
            description=_described(values),
            breaks=tuple(int(number) for number in values.get("breaks", "").split(",") if number),
            ends=Ends(values["ends"]) if values.get("ends") else None,
            weld_gap_mm=_weld_gap(values, materials),
            seam=values.get("seam", ""),
            re_round=values.get("re_round") == "yes",
            grain_along=values.get("grain_along") == "yes",
            certificate=values.get("certificate") == "yes",
            free_issue=values.get("free_issue") == "yes",
            drawn_revision=values.get("drawn_revision", ""),
            tolerance=values.get("tolerance", ""),
            due=date.fromisoformat(values["due"]) if values.get("due") else None,
            remarks=draft.remarks,
            assumptions=draft.assumptions,
            readings=draft.readings,
            edge_prep=edge_of(values.get("edge_prep", "")),
            tolerances=tolerances_of(values.get("tolerances", "")),
            weld=weld_of(values.get("weld", "")),
            extras=tuple(Extra(text) for text in values.get("extras", "").split(";") if text),
        )
    except ValueError as error:
        raise NotReadyError(str(error)) from error


def _described(values: Mapping[str, str]) -> str:
    """Return the customer's description, with the drawing where a part number stands in its place."""
    text, drawing = values.get("description", ""), values.get("drawing", "")
    if not drawing or not values.get("part_no") or drawing == values["part_no"]:
        return text
    return f"{text}; drawing {drawing}" if text else f"drawing {drawing}"


def _weld_gap(values: Mapping[str, str], materials: Materials) -> float | None:
    """Return the gap in mm; one that the sheet asks of another metal is none."""
    family = values.get("weld_gap_on", "")
    return (
        length(values, "weld_gap") if not family or gap_holds(family, values["material"], materials) else None
    )
