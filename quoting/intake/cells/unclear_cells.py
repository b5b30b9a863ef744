"""Questions about a size cell that can be read two ways, with the readings as choices."""

from __future__ import annotations

import re
from datetime import date, datetime

from quoting.core import Choice, Measure, NumberStyle, Place, SizeError, parse_measures
from quoting.intake.row_record import Doubt, Record, number_text
from quoting.intake.shop_view import ShopView
from quoting.intake.size_column import MM, UNIT_NAMES, SizeColumn
from quoting.intake.texts import fractions_behind

_FEET = re.compile(r"(?<![\w.])(\d*\.?\d+)\s*(?:['′’](?!['′’])|ft\b|feet\b|foot\b)", re.I)


def ask_feet(record: Record, size: Measure, place: Place, text: str) -> bool:
    """Doubt a plate thickness in feet: the mark of feet for that of inches is one stroke short."""
    number = size.low / 12
    if not any(abs(float(found) - number) < 1e-6 for found in _FEET.findall(text)):
        return False
    choices = tuple(
        Choice(f"{number:g} {unit}", (("thickness", number_text(number * MM[unit])),))
        for unit in ("in", "mm")
    )
    asked = f'The thickness reads "{text}", which is in feet; how thick is the plate?'
    record.doubt(Doubt("thickness", place, text, asked, choices))
    return True


def ask_date(record: Record, slot: SizeColumn, cell: date, place: Place, desk: ShopView) -> None:
    """Ask which fraction stood in a cell that is now a date."""
    day = cell.date() if isinstance(cell, datetime) else cell
    choices = tuple(
        Choice(f'{text}"', ((slot.field, number_text(number * 25.4)),))
        for text, number in fractions_behind(day)
    )
    shown = f"{day:%d %b %Y}".lstrip("0")
    text = f"The spreadsheet turned the {slot.name} into the date {shown}; which size did you type?"
    record.doubt(Doubt(slot.field, place, shown, text, choices))


def ask_not_understood(record: Record, slot: SizeColumn, text: str, place: Place, error: SizeError) -> None:
    """Ask about a text that the grammar of sizes stopped at, showing the part it stopped at."""
    part = error.text[error.start : error.end]
    choices: tuple[Choice, ...] = ()
    if "decimal mark" in error.expected:
        choices = _two_styles(slot, text)
    why = error.expected if error.expected.startswith("it could be") else "is not clear"
    where = f' ("{part}" {why.removeprefix("it ")})' if part and part != text else ""
    asked = f'The {slot.name} reads "{text}"{where}; what size is it?'
    record.doubt(Doubt(slot.field, place, text, asked, choices))


def _two_styles(slot: SizeColumn, text: str) -> tuple[Choice, ...]:
    choices = []
    for style in (NumberStyle.POINT, NumberStyle.COMMA):
        try:
            size = parse_measures(text, style)[0]
        except SizeError:
            continue
        unit = slot.header_unit or slot.bare_unit
        factor = MM.get(str(size.unit) if size.unit else unit)
        if factor:
            choices.append(Choice(f"{size.low:g}", ((slot.field, number_text(size.low * factor)),)))
    return tuple(choices)


def ask_range(record: Record, slot: SizeColumn, size: Measure, place: Place, text: str) -> None:
    """Ask which end of a range to make."""
    factor = MM.get(str(size.unit) if size.unit else slot.header_unit or slot.bare_unit)
    ends = (size.low, size.high) if factor else ()
    choices = tuple(Choice(f"{end:g}", ((slot.field, number_text(end * (factor or 1))),)) for end in ends)
    asked = f'The {slot.name} is a range, "{text}"; which size shall we make?'
    record.doubt(Doubt(slot.field, place, text, asked, choices))


def ask_unit(
    record: Record, slot: SizeColumn, size: Measure, place: Place, text: str, desk: ShopView
) -> None:
    """Ask which unit holds where the cell and its sheet say different ones."""
    cell_unit = str(size.unit) if size.unit else "in"
    column_unit = slot.header_unit or slot.bare_unit
    choices = tuple(
        Choice(f"{size.low:g} {unit}", ((slot.field, number_text(size.low * MM[unit])),))
        for unit in (cell_unit, column_unit)
    )
    asked = f'The {slot.name} reads "{text}" where the sheet is in {UNIT_NAMES[column_unit]}; which unit?'
    record.doubt(Doubt(slot.field, place, text, asked, choices))


_THICKEST_CM = 3
"""From here on a plate said in centimetres is more likely in millimetres (common practice, no source)."""


def odd_thickness(
    record: Record, slot: SizeColumn, number: float, unit: str, place: Place, text: str, desk: ShopView
) -> bool:
    """Doubt 10 in a column of inches (gauge? mm?) or centimetres, 0.25 in one of millimetres (inches?)."""
    inch = unit == "in" and number > 3
    metric = unit == "mm" and number < 0.8
    large = unit == "cm" and number >= _THICKEST_CM
    if not inch and not metric and not large:
        return False
    others = ("cm", "mm") if large else ("in", "mm")
    choices = [Choice(f"{number:g} {one}", (("thickness", number_text(number * MM[one])),)) for one in others]
    if inch and float(number).is_integer() and number <= 30:
        choices.insert(0, Choice(f"{number:g} gauge", (("gauge", f"{number:g}"),)))
    asked = f'The thickness reads "{text}" in a column of {UNIT_NAMES[unit]}; is that the unit?'
    record.doubt(Doubt("thickness", place, text, asked, tuple(choices)))
    return True
