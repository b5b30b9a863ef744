"""Reads the cells of one row into a record: values where the cell is clear, doubts where it is not."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from datetime import date, time, timedelta

from quoting.core import Basis, Choice, Mark, Measure, Place, Reading, SizeError, Unit, parse_measures
from quoting.intake.cells.unclear_cells import (
    ask_date,
    ask_feet,
    ask_not_understood,
    ask_range,
    ask_unit,
    odd_thickness,
)
from quoting.intake.row_record import Doubt, Record, RowText, number_text
from quoting.intake.shop_view import ShopView
from quoting.intake.size_column import MM, NOTHING, SizeColumn
from quoting.intake.texts import dual_size, plain_sizes
from quoting.intake.words import harmless, said_in_text
from quoting.tables import Cell, CellError, text_of

_OWN = {
    "girth": Mark.GIRTH, "circumference": Mark.GIRTH, "arc_length": Mark.ARC_LENGTH, "chord": Mark.CHORD,
    "rise": Mark.RISE, "slant": Mark.SLANT, "large": Mark.LARGE, "small": Mark.SMALL,
}  # fmt: skip
_FALLING = r"(?:(?:taper|reduc|narrow|verj|going|down)\w*\s+)*"
_TWO = re.compile(
    rf"\s*[/→]\s*|\s+{_FALLING}(?:to|auf|-|–|x|×|na|su|op|a|à|til|naar|do)\s+|(?<=\d)[x×-](?=\d{{2}})", re.I
)
_ROUND_WORDS = re.compile(
    r"\b(?:con(?:e|ical|c\.?|centric)?|reducer)\b\.?|[()]"
    r"|^\W*(?:from|of|von|de|da|dal|van|od|z|ze|fra|från)\s+(?=\W?\d)",
    re.I,
)
_IS_RADIUS = re.compile(r"\b(?:rad(?:ius)?|[io]r|r[io]?)\b|\br(?=\d)", re.I)
_RADIUS = re.compile(r"\brad|\br\b|\bi\.?r\b|\bo\.?r\b", re.I)
EITHER = re.compile(
    r"\d[\d./]*\s*(?:mm|in|\"|'')?\s+(?:or|oder|ou|o|of|lub|nebo|eller|veya|или|或)\s+(?:\d|\.\d)", re.I
)
"""One size or another: 10 or 3/8 in."""
_DASH = re.compile(r"\d-\d")
_RANGE = 1.2
"""Two numbers with a dash that are closer are a range: 24-26."""
_ADDED = 0.01
"""What stands behind a plus alone and is more than this share of a size may be more of it."""
_LIKE = 15
"""The ends of one cone are no further apart than this (common practice, no source)."""
_ROUND = frozenset(("diameter", "large", "small", "top", "bottom", "circumference"))
_POINTED = re.compile(r"\s*\d+[.,]\d+\s*")


def read_size(record: Record, slot: SizeColumn, cell: Cell, place: Place, desk: ShopView) -> None:
    """Read one size cell into the record."""
    if isinstance(cell, (bool, time, timedelta, CellError)):
        text = f"The {slot.name} shows {text_of(cell)}; what should it be?"
        record.doubt(Doubt(slot.field, place, text_of(cell), text))
    elif isinstance(cell, date):
        ask_date(record, slot, cell, place, desk)
    elif isinstance(cell, str):
        _text(record, slot, cell, place, desk)
    elif slot.header_unit == "ga" and slot.field in ("thickness", "gauge"):
        keep_gauge(record, float(cell), "", place, text_of(cell), slot)
    elif slot.field == "weld_gap" and cell == 0:
        keep(record, slot, "0", place, text_of(cell))
    elif not cell > 0:
        record.doubt(
            Doubt(slot.field, place, text_of(cell), f"The {slot.name} is {text_of(cell)}; what should it be?")
        )
    else:
        _bare(record, slot, float(cell), place, text_of(cell), desk)


def _text(record: Record, slot: SizeColumn, cell: str, place: Place, desk: ShopView) -> None:
    text = text_of(cell)
    if text.lower() in NOTHING:
        if slot.field in ("large", "small"):
            record.values["no_other_end"] = "yes"  # written, and not merely left blank
        return
    if slot.field == "thickness":
        text = _in_tenths(_NOMINAL.sub("", text))
    text = _in_feet(slot, text)
    try:
        sizes = parse_measures(plain_sizes(text), slot.style)
    except SizeError as error:
        size = dual_size(text, slot.style) or _beside_words(record, slot, text, place)
        if size is None and EITHER.search(text):
            asked = f'The {slot.name} is a range, "{text}"; which size shall we make?'
            record.doubt(Doubt(slot.field, place, text, asked))
        elif size is None and (two := _two_in_a_cell(slot, text)):
            record.doubt(Doubt(slot.field, place, text, _SEVERAL.format(slot.name, text), _either(slot, two)))
        elif size is None:
            ask_not_understood(record, slot, text, place, error)
        else:
            read_measure(record, slot, size, place, text, desk)
        return
    if len(sizes) > 1:
        asked = _SEVERAL.format(slot.name, text)
        record.doubt(Doubt(slot.field, place, text_of(cell), asked))
        return
    if (sizes[0].plus or 0) > _ADDED * sizes[0].low and sizes[0].minus is None:
        _ask_added(record, slot, sizes[0], place, text)
        return
    read_measure(record, slot, sizes[0], place, text, desk)


_SEVERAL = 'The {} holds several sizes, "{}"; which one is it?'
_IN_BRACKETS = re.compile(r"(?P<one>[^()\[\]]*\d[^()\[\]]*)[(\[][^\d()\[\]]{0,40}(?P<two>\d[^()\[\]]*)[)\]]")


def _two_in_a_cell(slot: SizeColumn, text: str) -> tuple[Measure, ...]:
    """Return the size of a cell and the other one that stands in brackets behind it: 1900 (dwg says 1950)."""
    match = _IN_BRACKETS.fullmatch(text.strip())
    if match is None:
        return ()
    try:
        sizes = [parse_measures(plain_sizes(one.strip()), slot.style) for one in match.groups()]
    except SizeError:
        return ()
    return tuple(one for found in sizes for one in found) if all(len(found) == 1 for found in sizes) else ()


def _either(slot: SizeColumn, sizes: Sequence[Measure]) -> tuple[Choice, ...]:
    """Return the choices between sizes of one cell, where their units are known."""
    factors = [MM.get(str(one.unit or slot.header_unit or slot.bare_unit), 0.0) for one in sizes]
    pairs = zip(sizes, factors, strict=True)
    choices = (
        Choice(f"{one.low:g}", ((slot.field, number_text(one.low * factor)),)) for one, factor in pairs
    )
    return tuple(choices) if all(factors) else ()


_WORDS_BEHIND = re.compile(
    r"(?P<size>\W*(?:[^\W\d_]{1,3}\W{0,2})?\d[^A-Za-z(,;]*(?:(?:mm|in|cm|m|ft)\b|\")?)"
    r"\s*[,;(–-]?\s*(?P<words>[^\W\d_][^\d]{2,59})"
)
_OF_THE_SIZE = re.compile(
    r"\b(?:min\w*|max\w*|approx\w*|about|abt|ca|circa|or|to suit|over\w*|under|up to|finish\w*|rough|net"
    r"|gross|plus|less|more|total|each|flat\w*|straight|slant\w*|slope\w*|along|across|around|developed"
    r"|clear|half|face|axis|c/?[cl]|cent\w*|before|after|incl\w*|excl\w*|ends?|top|bottom|middle|long|wide|high"
    r"|deep|thick|tall"
    r"|by|to|tape\w*|measur\w*|inside|outside|mean|inner|outer|tb[acdn]|not?|if|feet|inch\w*"
    r"|gauge|stretch\w*)\b|[?+±~<>≤≥*/%°]",
    re.I,
)
"""Words and signs that tell which size it is, or that it is none yet."""


_OF_THE_LINE = frozenset(("eccentric", "status", "option", "material"))
"""Questions about the line, whatever its size is."""


def _beside_words(record: Record, slot: SizeColumn, text: str, place: Place) -> Measure | None:
    """Return the one size of a cell that goes on with words, which then are a remark of the row: 900 ecc.

    Only where the words say nothing at all, or something that is asked about; none may be about the size.
    """
    match = _WORDS_BEHIND.fullmatch(text)
    if match is None:
        return None
    words = match["words"].strip(" ().,;-–")
    said, rest = said_in_text(words)
    asked = {one.name for one in said if one.does in ("ask", "out")} & _OF_THE_LINE
    if "eccentric" not in asked and _OF_THE_SIZE.search(words):
        return None
    if not asked and not all(word in harmless() for word in _WORD.findall(rest.lower())):
        return None
    try:
        sizes = parse_measures(plain_sizes(match["size"].strip()), slot.style)
    except SizeError:
        return None
    if len(sizes) != 1 or sizes[0].is_range or sizes[0].plus is not None:
        return None
    record.texts.append(RowText("remark", words, place, slot.header, free=True))
    record.remarks.append(words)
    return sizes[0]


_WORD = re.compile(r"[^\W\d_]+")
_NOMINAL = re.compile(r"(?<=\d)\s*[(\[]?\s*nom(?:inal)?\b\.?\s*[)\]]?\s*$", re.I)
"""10 nom: plate is bought by its nominal thickness."""
_TENTHS = re.compile(r"\s*([4-9]|[1-9]\d)\s?/\s?10\s?(?:mm|e|i[eè]mes?|[eè]mes?|de mm)\.?\s*", re.I)
"""15/10e: sheet in tenths of a millimetre, as French and Italian shops write it (common practice, no source);
8/10 alone may be two thicknesses."""


def _in_tenths(text: str) -> str:
    """Return a thickness in tenths of a millimetre in whole ones.

    >>> _in_tenths("20/10 mm"), _in_tenths("15/10e"), _in_tenths("8/10")
    ('2 mm', '1.5 mm', '8/10')
    """
    match = _TENTHS.fullmatch(text)
    return f"{int(match[1]) / 10:g} mm" if match else text


_FEET_DASH_INCHES = re.compile(r"\s*(\d{1,3})\s?-\s?(\d{1,2}(?:[ -]\d{1,2}/\d{1,2}|\.\d+)?)\s*")
_IN_FEET_AND_INCHES = re.compile(r"\b(?:ft|feet)\W{0,3}(?:and |& )?(?:in|ins|inch(?:es)?)\b|'\W{0,2}\"", re.I)
"""Length (ft-in): 8-0 is eight feet."""


def _in_feet(slot: SizeColumn, text: str) -> str:
    """Return 7-6 as seven feet and six inches where its column is of those."""
    feet = _FEET_DASH_INCHES.fullmatch(text) if slot.feet else None
    return f"{feet[1]}'-{feet[2]}\"" if feet else text


def holds_feet(header: str, texts: Sequence[str]) -> bool:
    """Return whether the cells of a column in inches are feet and inches: by its heading, or because all are
    two numbers of which the second is below twelve, and in one the first is not the smaller, as in no range.
    """
    if _IN_FEET_AND_INCHES.search(header):
        return True
    found = [_FEET_DASH_INCHES.fullmatch(text) for text in texts if text]
    pairs = [(float(match[1]), float(match[2].split()[0].split("-")[0])) for match in found if match]
    whole = len(pairs) == len(found) > 1 and all(inches < _FOOT for _, inches in pairs)
    return whole and any(feet >= inches for feet, inches in pairs)


_FOOT = 12


def _ask_added(record: Record, slot: SizeColumn, size: Measure, place: Place, text: str) -> None:
    """Ask whether what stands behind a plus alone is more of the size or a tolerance: 36 + 2."""
    plus = size.plus or 0.0
    factor = MM.get(str(size.unit or slot.header_unit or slot.bare_unit), 0.0)
    choices = tuple(
        Choice(label, ((slot.field, number_text(value * factor) if factor else f"{value:g}u"),))
        for label, value in ((f"{size.low + plus:g} in all", size.low + plus), (f"{size.low:g}", size.low))
    )
    asked = f'The {slot.name} reads "{text}": is {plus:g} added to it, or is it a tolerance?'
    record.doubt(Doubt(slot.field, place, text, asked, choices))


def _one_size(slot: SizeColumn, text: str) -> bool:
    """Return whether a text is one size after all: 24 1/2, 24 +- 1/16."""
    try:
        sizes = parse_measures(plain_sizes(text), slot.style)
    except SizeError:
        return False
    return len(sizes) == 1 and not sizes[0].is_range


def two_ends(slot: SizeColumn, text: str) -> tuple[tuple[str, Measure], ...]:
    """Return the two diameters of a cell such as 1800/900, should it be that of a cone; else nothing."""
    pieces = [
        _in_feet(slot, piece.strip()) for piece in _TWO.split(_ROUND_WORDS.sub("", text)) if piece.strip()
    ]
    if len(pieces) != 2 or _one_size(slot, text):
        return ()
    try:
        one, two = (parse_measures(plain_sizes(piece), slot.style) for piece in pieces)
    except SizeError:
        return ()
    if len(one) != 1 or len(two) != 1 or min(one[0].low, two[0].low) * _LIKE < max(one[0].low, two[0].low):
        return ()
    large, small = _both_nominal(*sorted((one[0], two[0]), key=lambda size: -size.low))
    if _DASH.search(text) and small.low * _RANGE > large.low:
        return ()
    basis = large.basis or small.basis
    return ("large", replace(large, basis=basis)), ("small", replace(small, basis=basis))


def _both_nominal(one: Measure, two: Measure) -> tuple[Measure, Measure]:
    """Return the two ends of a cone, both as nominal sizes where one of them is named so: DN 1000/800."""
    unit = next((size.unit for size in (one, two) if size.unit in (Unit.DN, Unit.NPS)), None)
    if unit is None or (one.unit is not None and two.unit is not None):
        return one, two
    return replace(one, unit=unit), replace(two, unit=unit)


_ACROSS_THE_ROLL = {Mark.LENGTH: "length", Mark.HEIGHT: "height"}


def _as_the_cell_says(record: Record, slot: SizeColumn, size: Measure, text: str) -> SizeColumn:
    """Return the column of a size whose cell says itself what it is: ID 720 under Radius.

    A bare `dia` under a heading that says radius is asked about: half of it may be meant.
    """
    field = ""
    if slot.field == "radius" and size.mark is Mark.DIAMETER:
        headed = _RADIUS.search(slot.header) is not None
        field = "diameter" if not headed or (size.basis is not None and not slot.strict) else ""
    elif slot.field in ("length", "height") and size.mark in _ACROSS_THE_ROLL and not slot.strict:
        field = _ACROSS_THE_ROLL[size.mark]
    if not field or field == slot.field:
        return slot
    if _RADIUS.search(slot.header) or slot.field != "radius":
        record.assumptions.append(_GOES_BEFORE.format(text))
    return replace(slot, field=field, basis=size.basis or slot.basis)


_GOES_BEFORE = '"{}" says itself what it is, and goes before the head of its column'


def read_measure(
    record: Record, slot: SizeColumn, size: Measure, place: Place, text: str, desk: ShopView
) -> None:
    """Take one size that the grammar understood."""
    slot = _as_the_cell_says(record, slot, size, text)
    if slot.field == "diameter" and size.mark is Mark.RADIUS and _IS_RADIUS.search(text):
        slot = replace(slot, field="radius")  # Dia: R 520, of a segment among cylinders
        if size.basis is not None:
            slot = replace(slot, basis=None)
    if not _fits(record, slot, size, place, text):
        return
    if size.unit is Unit.GAUGE:
        keep_gauge(record, size.low, size.metal, place, text, slot)
        return
    if size.low <= 0 and slot.field != "weld_gap":
        record.doubt(Doubt(slot.field, place, text, f'The {slot.name} reads "{text}"; what should it be?'))
        return
    if size.is_range:
        ask_range(record, slot, size, place, text)
        return
    if slot.field in ("thickness", "gauge") and ask_feet(record, size, place, text):
        return
    if size.plus is not None or size.minus is not None:
        record.values.setdefault("tolerance", f"{slot.name} {text}")
    if slot.header_unit == "ga" and size.unit is None and not size.fraction:
        if slot.bare_unit in ("mm", "cm") and _POINTED.fullmatch(text):
            slot = replace(slot, header_unit="")  # 5.0 among millimetres is no number of a gauge
        elif size.low.is_integer():
            keep_gauge(record, size.low, "", place, text, slot)
            return
    basis = _basis(record, slot, size, place, text)
    unit_slot = (
        slot
        if basis is slot.basis
        else SizeColumn(slot.field, slot.header_unit, basis, slot.bare_unit, slot.style, slot.header)
    )
    _keep_in_unit(record, unit_slot, size, place, text, desk)


def _fits(record: Record, slot: SizeColumn, size: Measure, place: Place, text: str) -> bool:
    """Return whether the cell's own marks agree with the column; else doubt it."""
    mark, name = size.mark, slot.field
    allowed: tuple[Mark | None, ...]
    if name in _ROUND:
        allowed = (None, Mark.DIAMETER, _OWN.get(name))
    elif name == "radius":
        allowed = (None, Mark.RADIUS)
    elif name in ("thickness", "gauge"):
        allowed = (None, Mark.THICKNESS)
    elif name in _OWN:
        allowed = (None, _OWN[name])
    else:
        allowed = (None, Mark.LENGTH, Mark.WIDTH, Mark.HEIGHT)
        same = {"length": Mark.LENGTH, "width": Mark.WIDTH, "height": Mark.HEIGHT}.get(name)
        if mark in allowed and mark is not None and same is not None and mark is not same:
            allowed = ()
    angle = size.unit is Unit.DEGREE
    if mark in allowed and not angle:
        return True
    asked = f'The {slot.name} reads "{text}", which says something else than its column; what is it?'
    choices: tuple[Choice, ...] = ()
    unit = (
        str(size.unit)
        if size.unit in (Unit.MM, Unit.CM, Unit.M, Unit.INCH)
        else slot.header_unit or slot.bare_unit
    )
    if {mark, name} <= {Mark.RADIUS, Mark.DIAMETER, "radius", "diameter"} and unit in MM and not angle:
        value = number_text(size.low * MM[unit])
        cleared = (("diameter", ""), ("radius", ""))
        basis = (("basis", str(size.basis or slot.basis)),) if size.basis or slot.basis else ()
        choices = (
            Choice("a radius", (*cleared, ("radius", value), *basis)),
            Choice("a diameter", (*cleared, ("diameter", value), *basis)),
        )
    record.doubt(Doubt(slot.field, place, text, asked, choices))
    return False


def _basis(record: Record, slot: SizeColumn, size: Measure, place: Place, text: str) -> Basis | None:
    """Return the basis of the cell or its header; one cell among plain ones that says another side holds."""
    if size.basis is None or slot.general or slot.basis in (None, size.basis):
        return size.basis or slot.basis
    if not slot.strict and size.unit not in (Unit.NPS, Unit.DN):  # DN 600 under ID is no 610 outside
        record.assumptions.append(_GOES_BEFORE.format(text))
        return size.basis
    asked = f'The column says {slot.basis}, the cell "{text}" says {size.basis}; which is it?'
    choices = tuple(Choice(str(side), (("basis", str(side)),)) for side in (slot.basis, size.basis) if side)
    record.doubt(Doubt("basis", place, text, asked, choices))
    return None


def _keep_in_unit(
    record: Record, slot: SizeColumn, size: Measure, place: Place, text: str, desk: ShopView
) -> None:
    """Take the size in its own unit, the header's, or the table's; units that conflict are a doubt."""
    if size.unit is Unit.NPS or size.unit is Unit.DN:
        try:
            mm = size.to_mm(inch=True)
        except ValueError as error:
            record.doubt(Doubt(slot.field, place, text, f"The {slot.name}: {error}; what diameter is it?"))
            return
        record.values.setdefault("nominal", text)
        if size.unit is Unit.NPS and slot.basis is None and not record.values.get("basis"):
            slot = replace(slot, basis=Basis.OUTSIDE)
            record.assumptions.append(f"NPS {size.low:g} is the outside diameter of ASME B36.10M")
        keep(record, slot, number_text(mm), place, text)
        return
    inch_column, metric_column = slot.header_unit in ("in", "ft"), slot.header_unit in ("mm", "cm", "m")
    bare = size.unit is None
    conflict = (
        (metric_column and size.inch_like)
        or (inch_column and size.metric_like)
        or (bare and size.fraction and slot.header_unit in ("", "ga") and slot.bare_unit in ("mm", "cm"))
    )
    if conflict:
        ask_unit(record, slot, size, place, text, desk)
    elif bare and size.fraction and slot.header_unit in ("", "ga"):
        keep(record, slot, number_text(size.low * 25.4), place, text)
    elif bare:
        _bare(record, slot, size.low, place, text, desk)
    else:
        assert size.unit is not None
        keep(record, slot, number_text(size.low * MM[str(size.unit)]), place, text)


def _bare(record: Record, slot: SizeColumn, number: float, place: Place, text: str, desk: ShopView) -> None:
    """Take a number without a unit of its own."""
    unit = slot.header_unit or slot.bare_unit
    if unit == "?":
        asked = f"The header and the units row disagree on the unit of the {slot.name}; mm or inches?"
        choices = tuple(
            Choice(f"{number:g} {one}", ((slot.field, number_text(number * MM[one])),))
            for one in ("in", "mm")
        )
        record.doubt(Doubt(slot.field, place, text, asked, choices))
    elif slot.field == "thickness" and odd_thickness(record, slot, number, unit, place, text, desk):
        return
    elif unit in MM:
        keep(record, slot, number_text(number * MM[unit]), place, text)
    else:
        keep(record, slot, f"{number_text(number)}u", place, text)


def keep_gauge(record: Record, number: float, metal: str, place: Place, text: str, slot: SizeColumn) -> None:
    """Take a gauge number; only thickness columns hold one."""
    if slot.field not in ("thickness", "gauge") or not number.is_integer():
        record.doubt(Doubt(slot.field, place, text, f'The {slot.name} reads "{text}"; what size is it?'))
        return
    if (unit := slot.bare_unit) in ("mm", "cm") and text.strip("# ").isdecimal():
        choices = (
            Choice(f"{number:g} {unit}", (("thickness", number_text(number * MM[unit])),)),
            Choice(f"{number:g} gauge", (("gauge", f"{number:g}"),)),
        )
        asked = f'The gauge reads "{text}" among sizes in millimetres: is it a gauge number, or millimetres?'
        record.doubt(Doubt("thickness", place, text, asked, choices))
        return
    record.values["gauge"] = str(int(number))
    if metal:
        record.values["gauge_metal"] = metal
    record.places["gauge"] = record.places["thickness"] = (place, text)
    record.readings.append(Reading("thickness", place, text, f"{int(number)} gauge"))


def _same(name: str, one: str, other: str) -> bool:
    """Return whether two sizes are one, given once in inches and once in rounded millimetres."""
    if one == other:
        return True
    if one.endswith("u") or other.endswith("u"):
        return False
    apart = 0.06 if name == "thickness" else 0.6
    return abs(float(one) - float(other)) <= apart


def _first_round(record: Record, name: str) -> bool:
    """Return whether no other size round the part was read before this one."""
    return name in ("diameter", "radius") and not {"diameter", "radius", "large", "small"} - {name} & {
        *record.values
    }


_SERIES = 0.02
"""The outside diameters of one nominal size in two series of pipes are no further apart: 1219 and 1220 mm."""


def _other_series(record: Record, slot: SizeColumn, value: str) -> bool:
    """Take the outside diameter that stands beside a nominal size for it, where both can be one pipe's."""
    known = record.values["diameter"] if slot.field == "diameter" else ""
    if not record.values.get("nominal") or slot.basis is Basis.INSIDE or not known:
        return False
    if (
        known.endswith("u")
        or value.endswith("u")
        or abs(float(known) - float(value)) > _SERIES * float(known)
    ):
        return False
    record.values["diameter"] = value
    record.assumptions.append(f"outside diameter {float(value):g} mm as given, not that of the nominal size")
    return True


def keep(record: Record, slot: SizeColumn, value: str, place: Place, text: str) -> None:
    """Store a size; inside and outside diameters given together are kept apart until they are compared."""
    name, basis = slot.field, slot.basis
    shown = f"{value} mm" if not value.endswith("u") else f"{value[:-1]}, unit not known"
    record.readings.append(Reading(name, place, text, f"{shown} {basis}" if basis else shown))
    if (
        name == "arc_length" and basis is not None
    ):  # the line that it is measured along, and no side of a size
        record.values["arc_length_side"] = str(basis)
        basis = None
    known = record.values.get("basis")
    if name in record.values:
        if basis is not None and known is not None and str(basis) != known:
            record.values[f"{name} {basis}"] = value
        elif not _same(name, record.values[name], value) and not _other_series(record, slot, value):
            asked = f'The {slot.name} is given twice, and differently: "{text}" here; which is right?'
            record.doubt(Doubt(name, place, text, asked))
        return
    record.values[name] = value
    record.places.setdefault(name, (place, text))
    if basis is None or (name == "girth" and basis is Basis.MEAN and known):
        return
    if known == str(Basis.MEAN) and "girth" in record.values and _first_round(record, name):
        known = None  # it was the side of the developed length
    if known is not None and known != str(basis):
        choices = tuple(Choice(f"both {side}", (("basis", side),)) for side in (known, str(basis)))
        asked = (
            f"One diameter is {known}, the {slot.name} is {basis}; please give both on one side of the plate."
        )
        record.doubt(Doubt("basis", place, text, asked, choices))
        return
    record.values["basis"] = str(basis)
