"""Words of another shape that agree with their row's sizes: the side that stays straight, an oval's end."""

from __future__ import annotations

import re
from math import pi

from quoting.intake import shapes
from quoting.intake.row_record import Record
from quoting.intake.size_column import MM

_STAYS = r"(?:(?:is|are|to be|be|stays?|remains?|kept|to stay|to remain|left|runs?)\s+)*"
_SIDE = r"(?:sides?|edges?|ways?|dim(?:ension)?s?|direction|axis)"
_STRAIGHT = re.compile(
    rf"\W*(?:the\s+)?(?P<which>long(?:er|est)?|short(?:er|est)?|(?P<size>\d+(?:\.\d+)?)\s?(?P<unit>mm|in\b|\")?)"
    rf"\s+{_SIDE}\s+{_STAYS}(?:straight|flat|unrolled|unbent|not (?:rolled|bent|curved))\W*",
    re.I,
)
"""The 40 side stays straight; long side straight: which way the plate is not rolled."""
_OVAL_END = re.compile(
    r"\W*(?:flat[- ]?)?(?:oval|obround|oblong|racetrack|stadium)\W+(?:tank |pool |duct |vat )?"
    r"(?:ends?|end (?:panel|plate|piece|shell)s?|corners?|half|halves)\W*(?:\d{1,2}|[a-z])?\W*",
    re.I,
)
"""The round end of an oval made of straight sides and two arcs: a name, where the row says which arc."""
_TAPERED = re.compile(
    r"^(?!.*\b(?:ecc\w*|offset|oblique|square|oval|one side|legs?|ends?)\b)(?=.*\btaper(?:s|ed|ing)?\b)", re.I
)
_ENDS = (("large", "small"), ("top", "bottom"))
_SAME_MM = 0.6


def agreed_shape(record: Record, text: str, unit: str) -> str:
    """Return what is said of a text that names a straight side or an oval's end, and agrees with the sizes.

    "" where it does not, or cannot be compared: it is then asked about.
    """
    values = record.values
    if _OVAL_END.fullmatch(text):
        given = shapes.has(values, "radius") and values.get("angle")
        return f'"{text}" is taken as a name: the row gives its radius and degrees' if given else ""
    if _TAPERED.search(text) and _has_two_ends(record):
        return f'"{text}" agrees with the sizes: a cone'
    match = _STRAIGHT.fullmatch(text)
    if match is None:
        return ""
    axial = [size for name in ("length", "width", "height") if (size := shapes.length(values, name))]
    if len(axial) != 1 or not _lies_along(values, axial[0], match, unit):
        return ""
    return f'"{text}" agrees with the sizes: that side lies along the axis'


def _has_two_ends(record: Record) -> bool:
    """Return whether a row gives two diameters that are not alike: in two fields, or in one cell."""
    values, pair = record.values, record.doubts.get("diameter")
    if pair is not None and "of a cone" in pair.text:
        return True  # settled with the row, or asked about
    return any(values.get(one) and values.get(two) and values[one] != values[two] for one, two in _ENDS)


_SIZE = re.compile(
    r"(?<![\w./-])(?P<whole>\d+(?:\.\d+)?)(?:[ -](?P<part>\d+/\d+))?\s?(?P<unit>mm\b|in\b\.?|\")?"
)
_AROUND_A_PIPE = re.compile(r"\b(?:pipe|tube|od|o\.d\.|outside)\b", re.I)
_NAMED_OUTSIDE = re.compile(r"\b(?:od|o\.d\.|outside)(?!\w)", re.I)
_HOW_TIGHT = re.compile(r"\b(?:slip|slid|fit|tight|snug|clos|clear|gap|loose)\w*", re.I)
_OWN_OUTSIDE = 14 * 25.4
"""Of pipes from NPS 14 on the outside diameter is the NPS in inches (ASME B36.10M)."""
_SLIP = 0.02
"""Room over a pipe, as a share of its diameter, up to which a sleeve is one for it (common practice, no
source)."""


def agreed_fit(record: Record, text: str, unit: str, wall: float | None) -> str:
    """Return what is said of a text that names the pipe a part goes round, where the row's inside fits it.

    `wall` is the thickness in mm. "" where it does not fit, or cannot be compared: it is then asked about.
    """
    sizes = list(_SIZE.finditer(text))
    across, side = shapes.length(record.values, "diameter"), record.values.get("basis")
    walls = {"inside": 0, "mean": 1, "outside": 2}.get(side or "")
    if len(sizes) != 1 or sizes[0]["part"] or not _AROUND_A_PIPE.search(text):
        return ""
    if _HOW_TIGHT.search(text):
        return ""  # a fit may ask for more than that it goes over
    if not wall or not across or walls is None:
        return ""
    given = (sizes[0]["unit"] or "").strip(".").lower()
    own = {"mm": "mm", "in": "in", '"': "in"}.get(given, unit)
    pipe = float(sizes[0]["whole"]) * MM[own] if own in MM else 0.0
    clear = across - walls * wall - pipe
    sure = pipe >= _OWN_OUTSIDE or _NAMED_OUTSIDE.search(text) is not None
    fits = pipe > 0 and sure and 0 <= clear <= _SLIP * pipe
    return f'"{text}" is taken as a name, nothing is priced for it' if fits else ""


def _lies_along(values: dict[str, str], axial: float, match: re.Match[str], unit: str) -> bool:
    """Return whether the side that stays straight is the one along the axis."""
    if match["size"]:
        own = {"mm": "mm", "in": "in", '"': "in"}.get((match["unit"] or "").lower(), unit)
        return own in MM and abs(float(match["size"]) * MM[own] - axial) <= _SAME_MM
    radius = shapes.radius_of(values)
    if radius is None:
        return False
    whole = 2 * pi * radius
    turn = float(values["angle"]) / 360 if values.get("angle") else None
    if match["which"].lower().startswith("long"):
        return axial > whole * (turn or 1.0)
    return turn is not None and axial < whole * turn
