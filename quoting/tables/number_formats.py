"""Units that a workbook's number formats write beside a number: the cell holds 6 and shows 6 mm."""

from __future__ import annotations

import re
from xml.etree import ElementTree

_MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
_LITERAL = re.compile(r'"([^"]*)"|\\(.)')
_CELL_STYLE = re.compile(rb"<(?:\w+:)?c\b([^>]*)>")
_PLACE = re.compile(rb"""\sr\s*=\s*["']([A-Z]{1,3})([0-9]{1,7})["']""")
_STYLE = re.compile(rb"""\ss\s*=\s*["']([0-9]+)["']""")
_UNITS = {
    "mm": "mm", "cm": "cm", "m": "m", "in": "in", "in.": "in", "inch": "in", '"': "in", "”": "in", "''": "in",
    "ft": "ft", "ga": "ga",
}  # fmt: skip


def unit_of_format(code: str) -> str:
    r"""Return the unit that a number format writes after the number, or nothing.

    >>> unit_of_format('0.00" mm"'), unit_of_format('# ?/?\\"'), unit_of_format("0.00")
    ('mm', 'in', '')
    """
    positive = re.split(r';(?=(?:[^"]*"[^"]*")*[^"]*$)', code)[0]
    words = "".join(quoted or escaped for quoted, escaped in _LITERAL.findall(positive)).strip().lower()
    return _UNITS.get(words, "")


def styles_with_units(styles: bytes) -> dict[bytes, str]:
    """Return the cell style indexes of `xl/styles.xml` whose number format writes a unit."""
    try:
        root = ElementTree.fromstring(styles)
    except ElementTree.ParseError:
        return {}
    formats = {
        found.get("numFmtId", ""): unit_of_format(found.get("formatCode", ""))
        for found in root.iter(f"{_MAIN}numFmt")
    }
    cell_formats = root.find(f"{_MAIN}cellXfs")
    if cell_formats is None:
        return {}
    units = {
        str(index).encode(): formats.get(style.get("numFmtId", ""), "")
        for index, style in enumerate(cell_formats)
    }
    return {index: unit for index, unit in units.items() if unit}


def cells_with_units(sheet: bytes, styles: dict[bytes, str]) -> dict[tuple[int, int], str]:
    """Return the unit shown in each cell whose format writes one; indexes count from 0."""
    found: dict[tuple[int, int], str] = {}
    if not styles:
        return found
    for match in _CELL_STYLE.finditer(sheet):
        style, place = _STYLE.search(match.group(1)), _PLACE.search(match.group(1))
        if style and place and style.group(1) in styles:
            column = 0
            for letter in place.group(1):
                column = column * 26 + letter - 64
            found[int(place.group(2)) - 1, column - 1] = styles[style.group(1)]
    return found
