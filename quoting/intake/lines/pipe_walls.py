"""Takes the wall of a pipe from its schedule and its outside diameter, by ASME B36.10M and B36.19M."""

from __future__ import annotations

from quoting.core import Choice, RangeError, pipe_wall_mm
from quoting.intake import shapes
from quoting.intake.layout import TableContext
from quoting.intake.row_record import Doubt, Record, number_text
from quoting.intake.shop_view import thickness_of

_SAME_MM = 0.13
"""Walls of the inch and the metric list differ by rounding: 0.437 in is printed as 11.13 mm."""


def read_schedule(record: Record, frame: TableContext) -> None:
    """Set the thickness from a schedule where the pipe is known, else ask what pipe is meant.

    A DN in one cell and a schedule in another are asked about: metric lists have walls of their own.
    """
    values = record.values
    schedule = values.get("schedule", "")
    if not schedule or {"diameter", "thickness"} & set(record.doubts):
        return
    diameter = shapes.length(values, "diameter")
    if diameter is None and values.get("diameter", "").endswith("u"):
        diameter = float(values["diameter"][:-1]) * 25.4
    if diameter is None:
        return
    place, text = record.where("schedule")
    try:
        wall = pipe_wall_mm(diameter, schedule)
    except RangeError as error:
        asked = (
            f'The wall reads "{text}", but the {error}; which outside diameter and wall thickness are meant?'
        )
        record.doubt(Doubt("thickness", place, text, asked))
        return
    nominal = values.get("nominal", "")
    if nominal and not values.get("basis"):
        values["basis"] = "outside"
    given = thickness_of(values, frame.materials)
    if values.get("basis") != "outside" or ("dn" in nominal.lower() and nominal != text and given is None):
        _ask_pipe(record, frame, diameter, wall)
    elif given is None:
        values["thickness"] = number_text(wall)
        record.places.setdefault("thickness", (place, text))
        record.assumptions.append(
            f"schedule {schedule} of this pipe is a wall of {frame.desk.size(wall)} (ASME B36.10M, B36.19M)"
        )
    elif abs(given - wall) > max(_SAME_MM, 0.02 * wall):
        sizes = (("as the line says", given), (f"schedule {schedule}", wall))
        choices = tuple(
            Choice(f"{name}, {frame.desk.size(size)}", (("thickness", number_text(size)),))
            for name, size in sizes
        )
        asked = (
            f'"{text}" is a wall of {frame.desk.size(wall)}, the line says {frame.desk.size(given)}; which?'
        )
        record.doubt(Doubt("thickness", place, text, asked, choices))


def _ask_pipe(record: Record, frame: TableContext, diameter: float, wall: float) -> None:
    """Ask whether a size with a schedule is the nominal size of a pipe, with what that would be."""
    place, text = record.where("schedule")
    fields = (("diameter", number_text(diameter)), ("basis", "outside"), ("thickness", number_text(wall)))
    shown = f"{frame.desk.size(diameter)} outside diameter, wall {frame.desk.size(wall)}"
    asked = f'"{text}" is a pipe schedule: is it the pipe of {shown}?'
    record.doubt(Doubt("thickness", place, text, asked, (Choice(f"yes, {shown}", fields),)))
