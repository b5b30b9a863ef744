"""The rolls of the shop's book."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from quoting.shop.book.settings_table import SettingsTable
from quoting.shop.model import Family, RatedPoint, Roll, SlideGeometry
from quoting.shop.quantities import ANGLE, LENGTH, POWER, SPEED, STRESS, WEIGHT


def read_roll(
    table: SettingsTable, rated: Sequence[SettingsTable], slide: SettingsTable | None
) -> Roll | None:
    """Return one roll from its table, its `[[roll.rated]]` tables and its `[roll.slide]` table."""
    fields = {**_sizes(table), **_optional(table)}
    fields["name"] = table.text("name")
    fields["cones"] = table.flag("cones")
    fields["rate_per_hour"] = table.money("rate_per_hour")
    table.known.extend(("readout", "friction", "set_family", "rated", "slide"))
    table.close()
    if not rated:
        table.flawed("has no rated point", "add a [[roll.rated]] table from the machine's plate")
    if table.sound and fields["least_thickness_mm"] > fields["largest_thickness_mm"]:
        table.flawed("the least thickness is more than the largest thickness")
    points = tuple(_rated_points(rated, fields) if table.sound else ())
    fields["slide"] = _slide(slide) if slide else None
    return Roll(rated=points, **fields) if table.sound else None


def _sizes(table: SettingsTable) -> dict[str, Any]:
    return {
        "top_roll_mm": table.quantity("top_roll", LENGTH, positive=True),
        "pinch_roll_mm": table.quantity("pinch_roll", LENGTH, positive=True),
        "bending_roll_mm": table.quantity("bending_roll", LENGTH, positive=True),
        "working_length_mm": table.quantity("working_length", LENGTH, positive=True),
        "least_thickness_mm": table.quantity("least_thickness", LENGTH, positive=True),
        "largest_thickness_mm": table.quantity("largest_thickness", LENGTH, positive=True),
        "least_diameter_factor": table.number("least_diameter_factor", least=1.0),
        "surface_speed_mm_min": table.quantity("surface_speed", SPEED, positive=True),
        "largest_weight_kg": table.quantity("largest_weight", WEIGHT, positive=True),
    }


def _optional(table: SettingsTable) -> dict[str, Any]:
    """Return the settings that are given; what is left out keeps the default of `Roll`."""
    found = {
        "bearing_span_mm": table.optional_quantity("bearing_span", LENGTH, positive=True),
        "top_roll_crown_mm": table.optional_quantity("top_roll_crown", LENGTH, least=0.0),
        "friction": table.number("friction", least=0.01, most=1.0) if table.has("friction") else None,
        "power_kw": table.optional_quantity("power", POWER, positive=True),
        "readout": table.text("readout") if table.has("readout") else None,
        "readout_zero_mm": table.optional_quantity("readout_zero", LENGTH),
        "set_thickness_mm": table.optional_quantity("set_thickness", LENGTH, positive=True),
        "set_family": table.choice("set_family", Family) if table.has("set_family") else None,
    }
    return {name: value for name, value in found.items() if value is not None}


def _rated_points(tables: Sequence[SettingsTable], roll: Mapping[str, Any]) -> Iterator[RatedPoint]:
    """Yield the rated points; one that the roll's own limits rule out is a slip of the pen."""
    for table in tables:
        point = _rated_point(table)
        if not point:
            continue
        if point.width_mm > roll["working_length_mm"]:
            table.flawed("the rated width is more than the roll's working length", "check both")
        elif point.thickness_mm > roll["largest_thickness_mm"]:
            table.flawed("the rated thickness is more than the roll's largest thickness", "check both")
        elif point.inside_diameter_mm < roll["top_roll_mm"]:
            table.flawed("the rated inside diameter is less than the top roll", "check both")
        else:
            yield point


def _rated_point(table: SettingsTable) -> RatedPoint | None:
    point: dict[str, Any] = {
        "pre_bend": table.flag("pre_bend"),
        "thickness_mm": table.quantity("thickness", LENGTH, positive=True),
        "width_mm": table.quantity("width", LENGTH, positive=True),
        "inside_diameter_mm": table.quantity("inside_diameter", LENGTH, positive=True),
        "yield_mpa": table.quantity("yield", STRESS, positive=True),
    }
    table.close()
    return RatedPoint(**point) if table.sound else None


def _slide(table: SettingsTable) -> SlideGeometry | None:
    offset = table.quantity("offset", LENGTH, positive=True)
    angle = table.quantity("angle", ANGLE, least=0.0)
    travel = table.quantity("travel", LENGTH, positive=True)
    if angle >= 90:
        table.wrong("angle_deg", "must be less than 90 degrees from the vertical")
    table.close()
    return SlideGeometry(offset, angle, travel) if table.sound else None
