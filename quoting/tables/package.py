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

from quoting.tables.limits import Limits

_READ = re.compile(r"^content\.xml$|^xl/(worksheets/.*|sharedStrings|workbook|styles)\.xml$|\.rels$")
"""The parts that the fast reader opens."""
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
                if _READ.search(info.filename):
                    _check_form(data)
                found[info.filename] = data
    except (zipfile.BadZipFile, EOFError, NotImplementedError, RuntimeError, ValueError, OSError) as error:
        raise RefusedError(DAMAGED) from error
    return found


def _check_form(data: bytes) -> None:
    """Refuse XML that is not well-formed: the fast reader may look for its end without ever finding one."""
    from xml.parsers import expat  # noqa: PLC0415 - only workbooks need it

    try:
        expat.ParserCreate().Parse(data, True)
    except expat.ExpatError as error:
        raise RefusedError(DAMAGED) from error


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


def asides_of(parts: dict[str, bytes]) -> tuple[str, ...]:
    """Return what an .xlsx holds beside its cells and is not read: comments and pictures."""
    comments = any("comments" in name.lower() for name in parts)
    pictures = any(name.startswith("xl/drawings/") for name in parts)
    found = (("cell comments", comments), ("pictures or shapes", pictures))
    return tuple(f"the workbook holds {what}, which are not read" for what, there in found if there)


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


def whole_attribute(tag: bytes, name: bytes) -> int:
    """Return a whole number that an attribute of an XML tag holds; 1 when it has none."""
    match = re.search(name + rb"""\s*=\s*["']([0-9]+)["']""", tag)
    return int(match.group(1)) if match else 1
