"""The rolls of the shop's book."""

from __future__ import annotations

from decimal import Decimal

from quoting.errors import RangeError
from quoting.shop.model import Family, RatedPoint, Roll, SlideGeometry
from quoting.shop.quantities import ANGLE, LENGTH, POWER, SPEED, STRESS, WEIGHT
from quoting.shop.table import Table


def read_roll(table: Table, rated: tuple[Table, ...], slide: Table | None) -> Roll | None:
    """Return one roll from its table, its `[[roll.rated]]` tables and its `[roll.slide]` table."""
    name = table.text("name")
    span = table.optional_quantity("bearing_span", LENGTH, positive=True)
    power = table.optional_quantity("power", POWER, positive=True)
    fields = {
        "top_roll_mm": table.quantity("top_roll", LENGTH, positive=True),
        "pinch_roll_mm": table.quantity("pinch_roll", LENGTH, positive=True),
        "bending_roll_mm": table.quantity("bending_roll", LENGTH, positive=True),
        "working_length_mm": table.quantity("working_length", LENGTH, positive=True),
        "least_thickness_mm": table.quantity("least_thickness", LENGTH, positive=True),
        "largest_thickness_mm": table.quantity("largest_thickness", LENGTH, positive=True),
        "least_diameter_factor": table.number("least_diameter_factor", least=1.0),
        "surface_speed_mm_min": table.quantity("surface_speed", SPEED, positive=True),
        "largest_weight_kg": table.quantity("largest_weight", WEIGHT, positive=True),
        "friction": table.number("friction", least=0.01, most=1.0) if table.has("friction") else 0.15,
        "top_roll_crown_mm": table.optional_quantity("top_roll_crown", LENGTH, least=0.0) or 0.0,
        "readout_zero_mm": table.optional_quantity("readout_zero", LENGTH) or 0.0,
    }
    if fields["least_thickness_mm"] > fields["largest_thickness_mm"]:
        table.findings.problem(table.where(), "the least thickness is more than the largest thickness")
    readout = table.text("readout", default="bending-roll lift along its slide, mm")
    cones, rate = table.flag("cones"), table.money("rate_per_hour")
    set_thickness = table.optional_quantity("set_thickness", LENGTH, positive=True)
    set_family = table.choice("set_family", Family) if table.has("set_family") else None
    table.known.extend(("friction", "set_family", "rated", "slide"))
    table.close()
    points = tuple(_rated_point(point) for point in rated)
    geometry = _slide(slide) if slide else None
    if not rated:
        table.findings.problem(
            table.where(),
            "has no rated point",
            would_do="add a [[roll.rated]] table from the machine's plate",
        )

    def make() -> Roll:
        return Roll(
            name=name,
            bearing_span_mm=span,
            power_kw=power,
            slide=geometry,
            readout=readout,
            cones=cones,
            rate_per_hour=Decimal(rate),
            set_thickness_mm=set_thickness,
            set_family=set_family,
            rated=tuple(point for point in points if point),
            **fields,
        )

    return table.findings.build(table.where(), make, sound=table.sound)


def _rated_point(table: Table) -> RatedPoint | None:
    pre_bend = table.flag("pre_bend")
    thickness = table.quantity("thickness", LENGTH, positive=True)
    width = table.quantity("width", LENGTH, positive=True)
    diameter = table.quantity("inside_diameter", LENGTH, positive=True)
    strength = table.quantity("yield", STRESS, positive=True)
    table.close()
    return table.findings.build(
        table.where(),
        lambda: RatedPoint(pre_bend, thickness, width, diameter, strength),
        sound=table.sound,
    )


def _slide(table: Table) -> SlideGeometry | None:
    offset = table.quantity("offset", LENGTH, positive=True)
    angle = table.quantity("angle", ANGLE, least=0.0)
    travel = table.quantity("travel", LENGTH, positive=True)
    table.close()
    if angle >= 90:
        error = RangeError("angle_deg", angle, "0 or more and less than 90 degrees from the vertical")
        table.findings.problem(table.where("angle_deg"), str(error))
    return SlideGeometry(offset, angle, travel)
