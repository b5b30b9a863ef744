"""Sizes that say one thing in two ways must agree: radius and diameter, angle and arc, slope and height."""

from __future__ import annotations

import re
from math import atan2, degrees, hypot, pi, radians, sin

from quoting.core import Choice
from quoting.intake import shapes
from quoting.intake.row_record import Record
from quoting.intake.shop_view import ShopView, ask, thickness_of

_SHARE = 0.02
"""Sizes of a drawing are rounded: what agrees so well says the same."""
_TWICE = 0.005
"""A diameter is twice its radius as well as that."""
_SAME_ANGLE = 2.0
_LEAST_MM = 1.0
_ROLLED_TO = re.compile(r"^(?!.*\b(?:corner|fillet|knuckle|edge)\b).*(?:\brad|\br\b|\b[io]r\b|\broll)", re.I)
"""Headings of the radius that a part is rolled to."""
_FULL = re.compile(
    r"(?<!the )(?<!per )(?<!a )\bfull[- ](?:cylinders?|circles?|rounds?|rings?|shells?)\b|\b360\s*(?:°|deg)",
    re.I,
)


def check_said_twice(record: Record, desk: ShopView) -> None:
    """Ask where a line gives one of its sizes twice, and differently."""
    kind = shapes.kind_of(record.values)
    if kind in ("cylinder", "arc"):
        _radius_and_diameter(record, desk)
        _nominal_inside(record, desk)
    if kind == "arc":
        _turn(record, desk)
        _full_circle(record)
    if kind == "cone":
        _third_diameter(record, desk)
        _slope(record, desk)
        _cone_angle(record, desk)


def _agree(one: float, *others: float, share: float = _SHARE) -> bool:
    return any(abs(one - other) <= max(_LEAST_MM, share * other) for other in others)


def _radius_and_diameter(record: Record, desk: ShopView) -> None:
    """Compare them; one may be inside and the other outside."""
    values = record.values
    radius, across = shapes.length(values, "radius"), shapes.length(values, "diameter")
    if not radius or not across or {"radius", "diameter"} & set(record.doubts):
        return
    place, text = record.where("radius")
    if not _ROLLED_TO.search(place.header) and not _ROLLED_TO.search(text):
        return  # the name of a shelf
    twice, wall = 2 * radius, 2 * (thickness_of(values, desk.materials) or 0.0)
    if _agree(across, twice, twice + wall, max(twice - wall, _LEAST_MM), share=_TWICE):
        return
    ask(
        record,
        "diameter",
        f"The radius of {desk.size(radius)} and the diameter of {desk.size(across)} are not one size: "
        "which one holds?",
        Choice(f"radius {desk.size(radius)}", (("diameter", ""),)),
        Choice(f"diameter {desk.size(across)}", (("radius", ""),)),
        near=("radius",),
    )


def _nominal_inside(record: Record, desk: ShopView) -> None:
    """Ask where a nominal size, which stands for an outside diameter, is called inside: DN 1200 innen."""
    values = record.values
    across, nominal = shapes.length(values, "diameter"), _NOMINAL.search(values.get("nominal", ""))
    if not across or nominal is None or values.get("basis") != "inside":
        return
    if {"diameter", "basis"} & set(record.doubts):
        return
    inside = float(nominal[1])
    if across == inside or not _agree(across, inside, share=_SERIES):
        return
    ask(
        record,
        "basis",
        f"{nominal.group()} stands for {desk.size(across)} outside, and inside is said: "
        "which diameter is it?",
        Choice(
            f"{desk.size(inside)} inside (ID)",
            (("diameter", f"{inside:g}"), ("basis", "inside"), ("nominal", "")),
        ),
        Choice(f"{desk.size(across)} outside (OD)", (("basis", "outside"),)),
        near=("nominal",),
    )


_NOMINAL = re.compile(r"\bD\.?N\.?\s?(\d{2,4})\b", re.I)
_SERIES = 0.15
"""Outside diameters of pipes are no further above their DN (ISO 6708 names no diameter; ASME B36.10M)."""


def _turn(record: Record, desk: ShopView) -> None:
    """Compare the degrees of an arc with its arc length and its chord, along any face of the plate."""
    values = record.values
    radius = shapes.length(values, "radius") or (shapes.length(values, "diameter") or 0.0) / 2
    if not radius or not values.get("angle") or {"angle", "radius", "diameter"} & set(record.doubts):
        return
    turn = radians(float(values["angle"]))
    wall = thickness_of(values, desk.materials) or 0.0
    faces = [
        one for one in (radius, radius + wall / 2, radius + wall, radius - wall / 2, radius - wall) if one > 0
    ]
    along = [turn * one for one in faces]
    across = [2 * one * sin(min(turn, 2 * pi) / 2) for one in faces]
    given_turn = values["angle"]
    for name, of, asked in (
        ("arc_length", along, f"{given_turn} degrees of this radius are {desk.size(along[0])} along the arc"),
        ("girth", along, f"{given_turn} degrees of this radius are {desk.size(along[0])} along the arc"),
        ("chord", across, f"{given_turn} degrees of this radius have a chord of {desk.size(across[0])}"),
    ):
        given = shapes.length(values, name)
        if not given or (name == "girth" and shapes.kind_of(values) != "arc") or _agree(given, *of):
            continue
        text = f"{asked}, and {desk.size(given)} is given: which one holds?"
        choices = (
            Choice(f"{given_turn} degrees", ((name, ""),)),
            Choice(desk.size(given), (("angle", ""),)),
        )
        ask(record, "angle", text, *choices, near=(name,))
        return


def _full_circle(record: Record) -> None:
    """Ask where the words say a full circle and the angle says a part of one."""
    values = record.values
    if not values.get("angle") or float(values["angle"]) >= 360 or {"angle", "shape"} & set(record.doubts):
        return
    said = next((row.text for row in record.texts if _FULL.search(row.text)), "")
    if said:
        part = Choice(f"segment of {values['angle']} degrees", (("shape", "arc"),))
        full = Choice("full cylinder", (("shape", "cylinder"), ("angle", "")))
        ask(
            record,
            "shape",
            f'It says "{said}", and {values["angle"]} degrees: which?',
            full,
            part,
            near=("angle",),
        )


def _third_diameter(record: Record, desk: ShopView) -> None:
    values = record.values
    ends = [shapes.length(values, name) for name in ("large", "small")]
    given = shapes.length(values, "diameter")
    if not given or not all(ends) or {"large", "small", "diameter"} & set(record.doubts):
        return
    wall = 2 * (thickness_of(values, desk.materials) or 0.0)
    if _agree(given, *(end + more for end in ends if end for more in (0.0, wall, -wall))):
        return
    ask(
        record,
        "diameter",
        f"A diameter of {desk.size(given)} stands beside the two ends of the cone: what is it for?",
        Choice("nothing, the two ends hold", (("diameter", ""),)),
        near=("diameter",),
    )


def _slope(record: Record, desk: ShopView) -> None:
    values = record.values
    ends = [shapes.length(values, name) for name in ("large", "small")]
    slope, along = shapes.length(values, "slant"), shapes.length(values, "length")
    high = shapes.length(values, "height") or (None if along == slope else along)
    if not high or not slope or not all(ends) or {"height", "slant"} & set(record.doubts):
        return
    true = hypot(high, ((ends[0] or 0.0) - (ends[1] or 0.0)) / 2)
    if _agree(slope, true):
        return
    ask(
        record,
        "height",
        f"A cone {desk.size(high)} high has a slope of {desk.size(true)} between these ends, and "
        f"{desk.size(slope)} is given: which one holds?",
        Choice(f"height {desk.size(high)}", (("slant", ""),)),
        Choice(f"slope {desk.size(slope)}", (("height", ""), ("length", ""))),
        near=("slant",),
    )


def _cone_angle(record: Record, desk: ShopView) -> None:
    """Compare the angle of a cone with its ends and height: between its sides, to its axis or to its base."""
    values = record.values
    large, small = (shapes.length(values, name) for name in ("large", "small"))
    high, given = shapes.length(values, "height"), float(values.get("angle") or 0)
    if not (large and small and high and 0 < given < _HALF_TURN) or values.get("half"):
        return
    if {"large", "small", "height", "angle", "shape"} & set(record.doubts):
        return
    half = degrees(atan2(abs(large - small) / 2, high))
    if any(abs(given - one) <= _SAME_ANGLE for one in (half, 2 * half, 90 - half, 180 - 2 * half)):
        return
    text = (
        f"A cone {desk.size(high)} high between these ends has {2 * half:.0f} degrees between its sides, and "
        f"{given:g} degrees are given: which holds?"
    )
    ask(
        record,
        "height",
        text,
        Choice(f"height {desk.size(high)}", (("angle", ""),)),
        Choice(f"{given:g} degrees", (("height", ""), ("length", ""))),
        near=("angle",),
    )


_HALF_TURN = 180.0
