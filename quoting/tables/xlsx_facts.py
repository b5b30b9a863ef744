"""What the XML of an .xlsx says beside its values: hidden rows, error cells, and sheets too large to open."""

from __future__ import annotations

import re

from quoting.tables.limits import Limits
from quoting.tables.number_formats import cells_with_units, styles_with_units
from quoting.tables.package import SMALLER, RefusedError, SheetFacts, whole_attribute

_REFERENCE = re.compile(rb"""<(?:\w+:)?c\b[^>]*?\sr\s*=\s*["']([A-Z]{1,3})([0-9]{1,7})["'][^>]*(?<!/)>""")
_CELL = re.compile(rb"<(?:\w+:)?c\b([^>]*?)(?:/>|>(.*?)</(?:\w+:)?c>)", re.S)
_ROW = re.compile(rb"<(?:\w+:)?row\b([^>]*)>")
_COL = re.compile(rb"<(?:\w+:)?col\b([^>]*)>")
_NUMBER = re.compile(rb"""\sr\s*=\s*["']([A-Z]*)([0-9]+)["']""")
_SHARED = re.compile(rb"""\st\s*=\s*["']s["'][^>]*>\s*<(?:\w+:)?v>([0-9]+)<""")
_LONG_STRINGS = 100_000_000


def xlsx_facts(parts: dict[str, bytes], limits: Limits) -> dict[str, SheetFacts]:
    """Return the facts of each worksheet part by its name; RefusedError when one is too large."""
    strings = _string_lengths(parts)
    styles = styles_with_units(parts.get("xl/styles.xml", b""))
    facts = {}
    for name, data in parts.items():
        if name.startswith("xl/worksheets/") and name.endswith(".xml"):
            _check_block(data, limits)
            _check_strings(data, strings, limits)
            facts[name] = _sheet_facts(data)
            facts[name].units = cells_with_units(data, styles)
    return facts


def _check_block(data: bytes, limits: Limits) -> None:
    """Refuse a sheet whose block from the first to the last filled cell breaks the limit.

    Cells that only carry a format close themselves (`<c r="A9" s="1"/>`) and are not counted.
    """
    letters, digits = set(), set()
    for letter, digit in _REFERENCE.findall(data):
        letters.add(letter)
        digits.add(digit)
    columns = [_column_index(letter) for letter in letters]
    rows = [int(digit) for digit in digits]
    height = max(rows) - min(rows) + 1 if rows else 0
    width = max(columns) - min(columns) + 1 if columns else 0
    if data.count(b"<c>") or data.count(b":c>") or not rows:
        pieces = data.split(b"row")
        height = max(height, data.count(b"row") // 2 + 1)
        width = max(width, *(piece.count(b"<c") + piece.count(b":c") for piece in pieces))
    if height * width > limits.cells or height > limits.rows:
        raise RefusedError(
            f"a sheet reaches over {height:,} rows x {width:,} columns, more than the limit", SMALLER
        )


def _string_lengths(parts: dict[str, bytes]) -> list[int]:
    data = parts.get("xl/sharedStrings.xml", b"")
    return [len(piece) for piece in data.split(b"</si>")] if data else []


def _check_strings(data: bytes, strings: list[int], limits: Limits) -> None:
    """Refuse a sheet that repeats a long text so often that its cells would fill the memory."""
    if not strings or max(strings) * data.count(b"<v>") < _LONG_STRINGS:
        return
    uses = (int(index) for index in _SHARED.findall(data))
    total = sum(strings[index] for index in uses if index < len(strings))
    if total > limits.unpacked_bytes:
        raise RefusedError("its texts add up to more than the limit", SMALLER)


def _sheet_facts(data: bytes) -> SheetFacts:
    facts = SheetFacts()
    if b"hidden" in data:
        _hidden(data, facts)
    if b't="e"' in data or b"t='e'" in data or b"<f" in data or b":f" in data:
        _results(data, facts)
    return facts


def _hidden(data: bytes, facts: SheetFacts) -> None:
    for match in _ROW.finditer(data):
        tag = match.group(1)
        if b"hidden" in tag and _true(tag, b"hidden") and (number := _NUMBER.search(b" " + tag)):
            facts.hidden_rows.add(int(number.group(2)) - 1)
    for match in _COL.finditer(data):
        tag = match.group(1)
        if b"hidden" in tag and _true(tag, b"hidden"):
            first, last = whole_attribute(tag, b"min"), whole_attribute(tag, b"max")
            facts.hidden_columns.update(range(first - 1, min(last, first + 1000)))


def _results(data: bytes, facts: SheetFacts) -> None:
    """Note error cells, and formulas whose result the file does not hold."""
    for match in _CELL.finditer(data):
        tag, inside = match.group(1), match.group(2) or b""
        error = b't="e"' in tag or b"t='e'" in tag
        formula = b"<f" in inside or b":f" in inside
        valued = re.search(rb"<(?:\w+:)?v[^>]*>[^<]", inside) or b"<is>" in inside
        if not error and not (formula and not valued):
            continue
        place = _NUMBER.search(tag)
        if place is None:
            continue
        shown = re.search(rb"<(?:\w+:)?v[^>]*>([^<]+)<", inside)
        text = (
            shown.group(1).decode("ascii", "replace")[:20]
            if error and shown
            else "a formula without a result"
        )
        facts.errors[int(place.group(2)) - 1, _column_index(place.group(1)) - 1] = text


def _true(tag: bytes, name: bytes) -> bool:
    return re.search(name + rb"""\s*=\s*["'](1|true)["']""", tag) is not None


def _column_index(letters: bytes) -> int:
    """Return the number of a column counted from 1."""
    index = 0
    for letter in letters:
        index = index * 26 + letter - 64
    return index
