"""Looks through a zipped workbook (.xlsx, .xlsm, .ods) before a reader opens it.

The fast reader lays a sheet out as one block from its first to its last used cell and says nothing about
hidden rows, error cells or formulas without a result. So this pass unpacks each part under the limits,
refuses what no spreadsheet program writes, and notes what the values alone do not tell.
"""

from __future__ import annotations

import re
import zipfile
from dataclasses import dataclass, field
from pathlib import Path

from quoting.intake.formats import cells_with_units, styles_with_units
from quoting.intake.limits import Limits

_REFERENCE = re.compile(rb"""<(?:\w+:)?c\b[^>]*?\sr\s*=\s*["']([A-Z]{1,3})([0-9]{1,7})["'][^>]*(?<!/)>""")
_CELL = re.compile(rb"<(?:\w+:)?c\b([^>]*?)(?:/>|>(.*?)</(?:\w+:)?c>)", re.S)
_ROW = re.compile(rb"<(?:\w+:)?row\b([^>]*)>")
_COL = re.compile(rb"<(?:\w+:)?col\b([^>]*)>")
_NUMBER = re.compile(rb"""\sr\s*=\s*["']([A-Z]*)([0-9]+)["']""")
_SHARED = re.compile(rb"""\st\s*=\s*["']s["'][^>]*>\s*<(?:\w+:)?v>([0-9]+)<""")
_LONG_STRINGS = 100_000_000


RESAVE = "open it in a spreadsheet program and save it as .xlsx"
SMALLER = "send the order lines alone, in a new workbook"
SUSPECT = "do not open it; ask the sender what it is"
UNLOCK = "ask for a copy without the password"
DAMAGED = "it is cut off or damaged"


class RefusedError(Exception):
    """The inside of the file breaks a rule; the text says which, and `would_do` what would do."""

    def __init__(self, reason: str, would_do: str = RESAVE) -> None:
        self.would_do = would_do
        super().__init__(reason)


@dataclass(slots=True)
class SheetFacts:
    """What the XML of one sheet says beyond its values; rows and columns count from 0."""

    hidden_rows: set[int] = field(default_factory=set)
    hidden_columns: set[int] = field(default_factory=set)
    errors: dict[tuple[int, int], str] = field(default_factory=dict)
    units: dict[tuple[int, int], str] = field(default_factory=dict)
    asides: tuple[str, ...] = ()


def parts_of(file: Path, limits: Limits) -> dict[str, bytes]:
    """Return the XML parts of a zipped workbook by name; RefusedError when it breaks a limit or a rule."""
    found: dict[str, bytes] = {}
    total = 0
    try:
        with zipfile.ZipFile(file) as archive:
            infos = archive.infolist()
            _check_directory(infos, limits)
            for info in infos:
                if not info.filename.endswith((".xml", ".rels")):
                    continue
                with archive.open(info) as part:
                    data = part.read(limits.unpacked_bytes - total + 1)
                total += len(data)
                if total > limits.unpacked_bytes:
                    raise RefusedError("it unpacks to more than the limit", SMALLER)
                if b"<!DOCTYPE" in data or b"<!ENTITY" in data:
                    raise RefusedError(
                        "its XML declares entities, which no spreadsheet program writes", SUSPECT
                    )
                found[info.filename] = data
    except (zipfile.BadZipFile, EOFError, NotImplementedError, RuntimeError, ValueError, OSError) as error:
        raise RefusedError(DAMAGED) from error
    return found


def _check_directory(infos: list[zipfile.ZipInfo], limits: Limits) -> None:
    if len(infos) > limits.parts:
        raise RefusedError(f"it packs {len(infos):,} files, more than any workbook", SUSPECT)
    if any(info.flag_bits & 1 for info in infos):
        raise RefusedError("it is locked with a password", UNLOCK)
    unpacked = sum(info.file_size for info in infos)
    packed = sum(info.compress_size for info in infos) or 1
    if unpacked > limits.unpacked_bytes:
        raise RefusedError(f"it unpacks to {unpacked / 1e6:,.0f} MB, more than the limit", SMALLER)
    if unpacked > 1_000_000 * 20 and unpacked / packed > limits.pack_ratio:
        raise RefusedError(f"it unpacks to {unpacked / packed:,.0f} times its size", SUSPECT)
    if len({info.filename for info in infos}) < len(infos):
        raise RefusedError("it packs two files of one name", SUSPECT)


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


def asides_of(parts: dict[str, bytes]) -> tuple[str, ...]:
    """Return what an .xlsx holds beside its cells and is not read: comments and pictures."""
    comments = any("comments" in name.lower() for name in parts)
    pictures = any(name.startswith("xl/drawings/") for name in parts)
    found = (("cell comments", comments), ("pictures or shapes", pictures))
    return tuple(f"the workbook holds {what}, which are not read" for what, there in found if there)


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
            first, last = _whole(tag, b"min"), _whole(tag, b"max")
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


def _whole(tag: bytes, name: bytes) -> int:
    match = re.search(name + rb"""\s*=\s*["']([0-9]+)["']""", tag)
    return int(match.group(1)) if match else 1


def _column_index(letters: bytes) -> int:
    """Return the number of a column counted from 1."""
    index = 0
    for letter in letters:
        index = index * 26 + letter - 64
    return index


def xlsx_sheet_parts(parts: dict[str, bytes]) -> dict[str, str]:
    """Return the worksheet part of each sheet's name."""
    from xml.etree import ElementTree  # noqa: PLC0415 - only workbooks need it

    try:
        book = ElementTree.fromstring(parts.get("xl/workbook.xml", b"<none/>"))
        links = ElementTree.fromstring(parts.get("xl/_rels/workbook.xml.rels", b"<none/>"))
    except ElementTree.ParseError as error:
        raise RefusedError("its list of sheets is damaged") from error
    targets = {link.get("Id", ""): link.get("Target", "") for link in links}
    found = {}
    for sheet in book.iter():
        if not sheet.tag.endswith("}sheet"):
            continue
        link = next((value for key, value in sheet.attrib.items() if key.endswith("}id")), "")
        target = targets.get(link, "").lstrip("/")
        found[sheet.get("name", "")] = target if target.startswith("xl/") else f"xl/{target}"
    return found


_ODS = re.compile(
    rb"<table:(table-row|table-cell|covered-table-cell|table(?=[\s>/]))\b([^>]*?)(/?)>|</table:(table-row)>|<text:p",
)
_HIDDEN_ODS = (b'visibility="collapse"', b'visibility="filter"')


def ods_facts(data: bytes, limits: Limits) -> list[SheetFacts]:
    """Return the facts of each sheet of an .ods; RefusedError when repeated cells break the limit."""
    sheets: list[SheetFacts] = []
    cells = row = column = used = repeat = 0
    for match in _ODS.finditer(data):
        name, tag = match.group(1), match.group(2) or b""
        if name == b"table":
            sheets.append(SheetFacts())
            cells = row = 0
        elif name == b"table-row":
            column = used = 0
            repeat = _whole(tag, b"number-rows-repeated")
            if sheets and any(word in tag for word in _HIDDEN_ODS):
                sheets[-1].hidden_rows.update(range(row, row + min(repeat, 10_000)))
            row += 0 if match.group(3) != b"/" else repeat
        elif name:
            if b'value-type="error"' in tag and sheets:
                sheets[-1].errors[row, column] = "an error"
            column += _whole(tag, b"number-columns-repeated")
            used = column if b"value-type" in tag else used
        elif match.group(4):
            cells += used * repeat
            row += repeat
            if cells > limits.cells:
                raise RefusedError(f"a sheet fills more than {limits.cells:,} cells", SMALLER)
        else:
            used = max(used, column)
    return sheets
