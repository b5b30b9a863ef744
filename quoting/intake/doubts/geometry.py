"""Doubts about the shape: what is missing, and what could be measured two ways."""

from __future__ import annotations

import re
from collections.abc import Callable
from math import pi, radians, tan

from quoting.core import Choice
from quoting.intake import shapes
from quoting.intake.row_record import Record, number_text
from quoting.intake.shop_view import ShopView, ask, is_open, thickness_of


def check_shape(record: Record, desk: ShopView) -> None:
    """Ask what a line still needs to be a shape."""
    values = record.values
    kind = shapes.kind_of(values)
    if values.get("shape") == "arc" and not values.get("angle") and values.get("half"):
        values["angle"] = "180"
    if not kind and shapes.has(values, "radius") and "shape" not in record.doubts:
        round_ = shapes.has(values, "girth") or (shapes.has(values, "width") and shapes.has(values, "length"))
        if round_:
            kind = values["shape"] = "arc"
    if values.get("half") and values.get("angle") and float(values["angle"]) != 180:
        text = f"It says half, and {values['angle']} degrees: which?"
        half = Choice("half, 180 degrees", (("angle", "180"),))
        given = Choice(f"segment of {values['angle']} degrees", (("half", ""),))
        ask(record, "angle", text, half, given, near=("angle", "shape"))
    if (
        kind == "cone"
        and shapes.has(values, "diameter")
        and shapes.has(values, "small")
        and not shapes.has(values, "large")
    ):
        values["large"] = values.pop("diameter")
    if kind in ("cylinder", "arc") and shapes.has(values, "height"):
        _height_along_axis(record, desk)
    checks: dict[str, Callable[[Record, ShopView], None]] = {
        "cylinder": _cylinder,
        "arc": _arc,
        "cone": _cone,
    }
    if "size" in record.doubts:
        return
    if kind in checks:
        checks[kind](record, desk)
    elif "shape" not in record.doubts:
        _no_shape(record, desk)


def _height_along_axis(record: Record, desk: ShopView) -> None:
    """Take the height of a cylinder for its length: it is never the way round.

    A length beside it is then the second of two sizes of the plate, as a width is, of which one may be the
    girth. Of three sizes the height must be one of the others.
    """
    values = record.values
    beside, wide = values.get("length", ""), values.get("width", "")
    high = values.pop("height")
    if beside and wide and high not in (beside, wide):
        if "length" not in record.doubts:
            keys = (("width", ""), ("length_ok", "yes"))
            found = dict.fromkeys((high, beside, wide))
            sizes = {text: shapes.length({**values, "length": text}, "length") for text in found}
            choices = (Choice(desk.size(mm), (("length", text), *keys)) for text, mm in sizes.items() if mm)
            ask(record, "length", "Three lengths are given: which one lies along the axis?", *choices)
        return
    values["length"] = high
    if beside and high != beside:
        values["width"] = beside
        if "length" in record.places:
            record.places.setdefault("width", record.places.pop("length"))
    elif not beside:
        values["axial"] = "yes"
    if "height" in record.places:
        record.places.setdefault("length", record.places["height"])


def _no_shape(record: Record, desk: ShopView) -> None:
    values = record.values
    if {"diameter", "radius", "large", "angle"} & set(record.doubts):
        return
    if shapes.has(values, "radius"):
        full = (("shape", "cylinder"),)
        ask(
            record,
            "angle",
            "A radius without degrees or arc length: how much of the circle?",
            Choice("full circle, 360 degrees", full),
            Choice("half, 180 degrees", (("shape", "arc"), ("angle", "180"))),
            Choice("quarter, 90 degrees", (("shape", "arc"), ("angle", "90"))),
            near=("radius",),
        )
    elif girth := shapes.length(values, "girth"):
        closed = (("shape", "cylinder"), ("closed", "yes"))
        text = "A developed length without a diameter: is it a closed shell, or which radius?"
        ask(record, "shape", text, Choice(f"closed shell, {desk.size(girth)} round", closed), near=("girth",))
    else:
        ask(record, "diameter", "Rolled to what diameter, inside or outside?", near=("description",))


def _cylinder(record: Record, desk: ShopView) -> None:
    values = record.values
    if values.get("angle") and float(values["angle"]) < 360:
        part = (("shape", "arc"),)
        text = f"It says cylinder, and {values['angle']} degrees: which?"
        full = (("shape", "cylinder"), ("angle", ""))
        choices = Choice("full cylinder", full), Choice(f"segment of {values['angle']} degrees", part)
        ask(record, "shape", text, *choices, near=("angle", "shape"))
    names = ("diameter", "radius", "girth")
    if not any(shapes.has(values, name) for name in names) and not set(names) & set(record.doubts):
        ask(record, "diameter", "Rolled to what diameter, inside or outside?")
    if shapes.has(values, "diameter") or shapes.has(values, "radius"):
        _basis(record, desk)
    _across(record, desk)
    _girth_fits(record, desk)


_TAPED = re.compile(r"\bcirc(?:umf(?:erence)?)?\b", re.I)
_AS_TAPED = 0.005
"""A circumference has no allowance, as the length of a blank may have."""


def _girth_fits(record: Record, desk: ShopView) -> None:
    """Ask where a developed length given beside a diameter is not that of a closed shell."""
    values = record.values
    girth, thick = shapes.length(values, "girth"), shapes.length(values, "thickness")
    full = shapes.girth_of({**values, "angle": ""}, thick or 0.0)
    if not girth or not full or values.get("girth_ok") or {"girth", "diameter"} & set(record.doubts):
        return
    slack = (shapes.GIRTH_MATCH if values.get("basis") else 2 * shapes.GIRTH_MATCH) * full
    if values.get("basis") and any(_TAPED.search(row.text) for row in record.texts):
        slack = _AS_TAPED * full
    faces = (full, full + pi * (thick or 0.0), full - pi * (thick or 0.0))
    if any(abs(girth - one) <= slack for one in faces):
        return
    text = (
        f"The blank length of {desk.size(girth)} does not close this diameter: a full circle is about "
        f"{desk.size(full)} round. Which one holds?"
    )
    closed = Choice("the diameter, a full circle", (("girth", ""), ("girth_ok", "yes")))
    part = Choice(
        "both, a part of a circle",
        (("shape", "arc"), ("arc_length", number_text(girth)), ("arc_length_on", "mean"), ("girth", "")),
    )
    ask(record, "girth_ok", text, closed, part, near=("girth",))


def _basis(record: Record, desk: ShopView, *names: str) -> None:
    pipe = record.values.get("schedule") and "thickness" in record.doubts  # that question settles both
    if not is_open(record, "basis") or pipe:
        return
    names = names or ("diameter", "radius", "large", "small", "chord", "rise")
    sizes = [(name, shapes.length(record.values, name)) for name in names]
    shown = [(name, size) for name, size in sizes if size]
    what = "diameter" if not shown else shown[0][0]
    value = f" of {desk.size(shown[0][1])}" if shown else ""
    noun = {"large": "two diameters", "small": "two diameters", "chord": "chord and rise"}.get(what, what)
    value = "" if noun != what else value
    choices = (
        Choice("inside (ID)", (("basis", "inside"),)),
        Choice("outside (OD)", (("basis", "outside"),)),
        Choice("mean (centreline)", (("basis", "mean"),)),
    )
    verb = "Are" if noun != what else "Is"
    ask(
        record,
        "basis",
        f"{verb} the {noun}{value} inside, outside or on the centreline?",
        *choices,
        near=names,
        for_many=f"Are the {_SEVERAL.get(noun, noun)} inside, outside or on the centreline?",
    )


_SEVERAL = {"diameter": "diameters", "radius": "radii"}


def _across(record: Record, desk: ShopView) -> None:
    """Settle which dimension lies across the roll; a length near the girth, or two lengths, are a doubt."""
    values = record.values
    if "length" in record.doubts or values.get("length_ok"):
        return
    long, wide = shapes.length(values, "length"), shapes.length(values, "width")
    if not shapes.has(values, "length") and not shapes.has(values, "width"):
        if "width" not in record.doubts:
            ask(record, "length", "How long is it, measured across the roll (along the axis)?")
        return
    girth = shapes.length(values, "girth") or shapes.girth_of(values, 0.0)
    if long and wide:
        _two_lengths(record, desk, long, wide, girth)
    elif girth and long and shapes.near(long, girth) and not values.get("axial"):
        text = f"A length of {desk.size(long)} is about the girth: is it along the axis, or the length round?"
        ask(record, "length", text, Choice("along the axis, across the roll", (("length_ok", "yes"),)))


def _two_lengths(record: Record, desk: ShopView, long: float, wide: float, girth: float | None) -> None:
    values = record.values
    by_length: tuple[tuple[str, str], ...] = (
        ("length", number_text(long)),
        ("width", ""),
        ("length_ok", "yes"),
    )
    by_width: tuple[tuple[str, str], ...] = (
        ("length", number_text(wide)),
        ("width", ""),
        ("length_ok", "yes"),
    )
    if _plates_of_a_circle(values, long, wide):
        values["shape"] = "arc"
    if shapes.kind_of(values) == "arc" and not values.get("angle") and not values.get("chord"):
        ways = [_is_part_of_circle(values, size) for size in (long, wide)]
        told = shapes.length(values, "round_mm")
        if told:
            ways = [shapes.near(size, told) for size in (long, wide)]
        if ways.count(True) == 1:
            along, across = (long, wide) if ways[0] else (wide, long)
            values.update(
                {"arc_length": number_text(along), "arc_length_on": "mean", "length": number_text(across)}
            )
            values.pop("width")
            values["length_ok"] = "yes"
            record.assumptions.append(
                f"{desk.size(along)} is rolled round, {desk.size(across)} lies across the roll"
            )
            return
    round_ways = [bool(girth and shapes.near(size, girth)) for size in (long, wide)]
    if long == wide and not any(round_ways):
        values.update(by_length)
        return
    if round_ways.count(True) == 1:
        values.update(by_width if round_ways[0] else by_length)
        other = desk.size(long if round_ways[0] else wide)
        record.assumptions.append(f"{other} is the girth, the other length lies across the roll")
        return
    if shapes.kind_of(values) == "arc" and not values.get("angle") and not values.get("chord"):
        by_length += (("arc_length", number_text(wide)),)
        by_width += (("arc_length", number_text(long)),)
    text = f"Which lies across the roll (along the axis): {desk.size(long)} or {desk.size(wide)}?"
    choices = Choice(f"length {desk.size(long)}", by_length), Choice(f"width {desk.size(wide)}", by_width)
    ask(record, "length", text, *choices)


_THIN_SHARE = 0.004
"""Of a plate no thicker than this share of its radius an arc differs by a fifth of a per cent from face to
middle, less than what rolling keeps (common practice, no source)."""
_MOST_PLATES = 60
"""Plates round one course of a tank; more are rather those of several (common practice, no source)."""


def _plates_of_a_circle(values: dict[str, str], long: float, wide: float) -> bool:
    """Return whether one of two lengths times the pieces of a line is the circle of its radius: ten plates
    of a tank's course, which is called a shell.
    """
    if shapes.kind_of(values) != "cylinder" or values.get("angle") or shapes.has(values, "diameter"):
        return False
    pieces = _pieces(values)
    return bool(pieces) and [_share_of_circle(values, size, pieces) for size in (long, wide)].count(True) == 1


def _pieces(values: dict[str, str]) -> tuple[int, ...]:
    """Return the quantity of a line where so many plates may make one circle."""
    pieces = int(values["quantity"]) if values.get("quantity", "").isdecimal() else 0
    return (pieces,) if 2 < pieces <= _MOST_PLATES else ()


def _is_part_of_circle(values: dict[str, str], size: float) -> bool:
    """Return whether a length is a half, third, quarter, sixth or eighth of the circle along the middle.

    So is the share of each piece where the pieces of the line make one circle.
    """
    return _share_of_circle(values, size, (2, 3, 4, 6, 8, *_pieces(values)))


def _share_of_circle(values: dict[str, str], size: float, parts: tuple[int, ...]) -> bool:
    radius, thick = shapes.radius_of(values), shapes.length(values, "thickness") or 0.0
    if radius is None or not values.get("basis"):
        return False
    full = shapes.girth_of({**values, "angle": ""}, thick) or 0.0
    return any(abs(size * part - full) <= 0.004 * full for part in parts)


def _arc(record: Record, desk: ShopView) -> None:
    values = record.values
    curve = [name for name in ("radius", "diameter") if shapes.has(values, name)]
    chord = shapes.has(values, "chord") and shapes.has(values, "rise")
    width, rise = shapes.length(values, "chord"), shapes.length(values, "rise")
    if width and rise and rise > width / 2 and not values.get("rise_ok"):
        over = f"A rise of {desk.size(rise)} over a chord of {desk.size(width)} is more than half a circle"
        text = f"{over}: do the two fit, or are they swapped?"
        ask(
            record,
            "rise_ok",
            text,
            Choice("yes, more than half a circle", (("rise_ok", "yes"),)),
            near=("rise",),
        )
    if not curve and not chord and not {"radius", "diameter", "chord", "rise"} & set(record.doubts):
        ask(record, "radius", "Rolled to what radius, inside or outside?")
    along = shapes.has(values, "arc_length") or shapes.has(values, "girth")
    turn = values.get("angle") or along or shapes.has(values, "chord")
    two = shapes.has(values, "length") and shapes.has(values, "width")
    if not turn and not two and "angle" not in record.doubts:
        half = Choice("half, 180 degrees", (("angle", "180"),))
        quarter = Choice("quarter, 90 degrees", (("angle", "90"),))
        ask(record, "angle", "How many degrees of arc, or what arc length?", half, quarter, near=("shape",))
    _basis(record, desk)
    if side := values.get("arc_length_side"):
        told = "mean" if side == "mean" else "face" if side == values.get("basis") else ""
        values.update({"arc_length_on": told} if told else {})
    on_arc = shapes.has(values, "arc_length") and not values.get("angle")
    if on_arc and values.get("basis") != "mean" and not values.get("arc_length_on"):
        radius, wall = shapes.radius_of(values), thickness_of(values, desk.materials)
        if radius and wall and wall <= _THIN_SHARE * radius:
            values["arc_length_on"] = "mean"
            record.assumptions.append("the arc length is taken along the middle of the plate")
    if on_arc and values.get("basis") != "mean" and is_open(record, "arc_length_on"):
        side = values.get("basis", "same") + " face"
        choices = (
            Choice("along the middle of the plate", (("arc_length_on", "mean"),)),
            Choice(f"along the {side}, as the radius", (("arc_length_on", "face"),)),
        )
        ask(
            record,
            "arc_length_on",
            "Along which line is the arc length measured?",
            *choices,
            near=("arc_length",),
        )
    _across(record, desk)


def _cone(record: Record, desk: ShopView) -> None:
    values = record.values
    for name in ("large", "small"):
        if not shapes.has(values, name) and not {name, "diameter"} & set(record.doubts):
            other = shapes.length(values, "diameter")
            given = (
                [Choice(desk.size(other), ((name, number_text(other)), ("diameter", "")))] if other else []
            )
            text = f"What is the diameter of the {name} end?"
            ask(record, name, text, *given, near=("large", "small", "diameter"))
    if not shapes.has(values, "height") and not shapes.has(values, "slant") and "height" not in record.doubts:
        _cone_height(record, desk)
    _basis(record, desk, "large", "small")


_HALF_TURN = 180.0
_INCLUDED = re.compile(r"\bincl(?:uded)?\b\.?|\b(?:apex|cone|full) angle\b", re.I)


def _by_included_angle(record: Record) -> float | None:
    """Return the height of a cone in mm from its ends and the angle between its sides; None without them."""
    large, small = (shapes.length(record.values, name) for name in ("large", "small"))
    angle = record.values.get("angle")
    head = record.where("angle")[0].header
    said = _INCLUDED.search(head) or any(_INCLUDED.search(row.text) for row in record.texts)
    if not (large and small and angle and said) or large <= small or not 0 < float(angle) < _HALF_TURN:
        return None
    return (large - small) / 2 / tan(radians(float(angle) / 2))


def _cone_height(record: Record, desk: ShopView) -> None:
    given = shapes.length(record.values, "length")
    if given is None and (height := _by_included_angle(record)) is not None:
        record.values["height"] = number_text(height)
        record.assumptions.append(
            f"the height of {desk.size(height)} follows from both ends and the included angle"
        )
        return
    if given is None:
        ask(record, "height", "How high is the cone, measured along its axis?")
        return
    size, text = desk.size(given), number_text(given)
    if record.values.get("height_apart"):  # a column of heights, and this length is none of them
        choices = (
            Choice(f"{size} along the axis", (("height", text),)),
            Choice(f"{size} along the slope", (("slant", text),)),
        )
        asked = f"Is the cone's length of {size} along the axis or the slope?"
        ask(record, "height", asked, *choices, near=("length",))
        return
    record.values["height"] = text
    record.assumptions.append(f"the cone's length of {size} is taken along its axis, not along the slope")
