"""Builds files that try to hurt a reader of order sheets: bombs, lies, locks and cuts."""

from __future__ import annotations

import struct
import zipfile
from collections.abc import Callable
from pathlib import Path

_TYPES = (
    '<?xml version="1.0"?>'
    '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">'
    '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    '<Default Extension="xml" ContentType="application/xml"/>'
    '<Override PartName="/xl/workbook.xml" ContentType='
    '"application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/></Types>'
)
_REL = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_RELS = (
    '<?xml version="1.0"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
    f'<Relationship Id="r1" Type="{_REL}/officeDocument" Target="xl/workbook.xml"/></Relationships>'
)
_MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_BOOK = (
    f'<?xml version="1.0"?><workbook xmlns="{_MAIN}" xmlns:r="{_REL}"><sheets>'
    '<sheet name="S" sheetId="1" r:id="r1"/></sheets></workbook>'
)
_BOOK_RELS = (
    '<?xml version="1.0"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
    f'<Relationship Id="r1" Type="{_REL}/worksheet" Target="worksheets/sheet1.xml"/>'
    f'<Relationship Id="r2" Type="{_REL}/sharedStrings" Target="sharedStrings.xml"/></Relationships>'
)
_OPEN, _CLOSE = f'<?xml version="1.0"?><worksheet xmlns="{_MAIN}"><sheetData>', "</sheetData></worksheet>"


def xlsx(file: Path, sheet: bytes, strings: bytes = b"", extra: dict[str, bytes] | None = None) -> None:
    """Write a workbook with one sheet of the given XML."""
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED, compresslevel=6) as archive:
        archive.writestr("[Content_Types].xml", _TYPES)
        archive.writestr("_rels/.rels", _RELS)
        archive.writestr("xl/workbook.xml", _BOOK)
        archive.writestr("xl/_rels/workbook.xml.rels", _BOOK_RELS)
        archive.writestr("xl/worksheets/sheet1.xml", sheet)
        if strings:
            archive.writestr("xl/sharedStrings.xml", strings)
        for name, data in (extra or {}).items():
            archive.writestr(name, data)


def _sheet(body: str) -> bytes:
    return (_OPEN + body + _CLOSE).encode()


def _zip_bomb(file: Path) -> None:
    xlsx(file, _sheet(" " * 250_000_000))


def _small_bomb(file: Path) -> None:
    xlsx(file, _sheet("<row r='1'>" + "<c r='A1'><v>1</v></c>" * 3_000_000 + "</row>"))


def _entity_bomb(file: Path) -> None:
    entities = "".join(f'<!ENTITY e{n} "{f"&e{n - 1};" * 10 if n else "lol"}">' for n in range(10))
    xlsx(file, f'<?xml version="1.0"?><!DOCTYPE x [{entities}]>'.encode() + _sheet("<row r='1'/>")[21:])


def _corner_cells(file: Path) -> None:
    cells = '<row r="1"><c r="A1"><v>1</v></c></row><row r="1048576"><c r="XFD1048576"><v>1</v></c></row>'
    head = f'<?xml version="1.0"?><worksheet xmlns="{_MAIN}"><dimension ref="A1:XFD1048576"/><sheetData>'
    xlsx(file, (head + cells + _CLOSE).encode())


def _declared_dimension(file: Path) -> None:
    head = f'<?xml version="1.0"?><worksheet xmlns="{_MAIN}"><dimension ref="A1:XFD1048576"/><sheetData>'
    xlsx(file, (head + '<row r="1"><c r="A1"><v>1</v></c></row>' + _CLOSE).encode())


def _ten_million_cells(file: Path) -> None:
    row = "".join(f'<c r="{chr(65 + n // 26)}{chr(65 + n % 26)}{{0}}"><v>1</v></c>' for n in range(100))
    body = "".join(f'<row r="{n}">{row.format(n)}</row>' for n in range(1, 40_001))
    xlsx(file, _sheet(body * 2))


def _cells_without_address(file: Path) -> None:
    body = "<row><c><v>1</v></c></row>" * 1_000_000 + "<row>" + "<c><v>1</v></c>" * 16_384 + "</row>"
    xlsx(file, _sheet(body))


def _deep_nesting(file: Path) -> None:
    xlsx(file, _sheet("<a>" * 500_000 + "</a>" * 500_000))


def _long_text_repeated(file: Path) -> None:
    strings = f'<?xml version="1.0"?><sst xmlns="{_MAIN}"><si><t>{"x" * 32_000}</t></si></sst>'.encode()
    body = "".join(f'<row r="{n}"><c r="A{n}" t="s"><v>0</v></c></row>' for n in range(1, 90_001))
    xlsx(file, _sheet(body), strings)


def _many_parts(file: Path) -> None:
    xlsx(file, _sheet(""), extra={f"xl/p{n}.xml": b"<a/>" for n in range(20_000)})


def _merged_everything(file: Path) -> None:
    merges = '<mergeCells><mergeCell ref="A1:A1048576"/></mergeCells>'
    xlsx(
        file,
        (_OPEN + '<row r="1"><c r="A1"><v>1</v></c></row></sheetData>' + merges + "</worksheet>").encode(),
    )


def _external_links(file: Path) -> None:
    link = f'<externalLink xmlns="{_MAIN}"><externalBook/></externalLink>'.encode()
    body = '<row r="1"><c r="A1"><f>[1]Sheet1!A1</f></c></row>'
    xlsx(file, _sheet(body), extra={"xl/externalLinks/externalLink1.xml": link})


def _lying_size(file: Path) -> None:
    xlsx(file, _sheet(" " * 100_000_000))
    data = bytearray(file.read_bytes())
    size = struct.pack("<I", len(_sheet(" " * 100_000_000)))
    at = data.rfind(size)
    data[at : at + 4] = struct.pack("<I", 1000)
    file.write_bytes(bytes(data))


def _truncated(file: Path) -> None:
    xlsx(file, _sheet("<row r='1'><c r='A1'><v>1</v></c></row>" * 1000))
    file.write_bytes(file.read_bytes()[:-200])


def compound_file(file: Path, name: str, data: bytes) -> None:
    """Write a compound file with one stream of at least 4096 bytes."""
    data = data + b"\0" * (-len(data) % 512)
    sectors = len(data) // 512
    fat = [0xFFFFFFFD, 0xFFFFFFFE, *range(3, sectors + 2), 0xFFFFFFFE]
    fat += [0xFFFFFFFF] * (-len(fat) % 128)
    blocks = len(fat) // 128
    if blocks > 1:
        raise ValueError("this small writer holds one block of the allocation table")
    header = (
        b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
        + b"\0" * 16
        + struct.pack("<HHHHH", 0x3E, 3, 0xFFFE, 9, 6)
        + b"\0" * 10
    )
    header += struct.pack("<IIIIIIIII", 1, 1, 0, 4096, 0xFFFFFFFE, 0, 0xFFFFFFFE, 0, 0)
    header += struct.pack("<I", 0xFFFFFFFF) * 108
    entries = _entry("Root Entry", 5, 0xFFFFFFFE, 0, child=1) + _entry(name, 2, 2, len(data)) + b"\0" * 256
    file.write_bytes(header[:512] + struct.pack("<128I", *fat) + entries + data)


def _entry(name: str, kind: int, start: int, size: int, child: int = 0xFFFFFFFF) -> bytes:
    text = (name + "\0").encode("utf-16-le")
    head = text.ljust(64, b"\0") + struct.pack("<HBBIII", len(text), kind, 1, 0xFFFFFFFF, 0xFFFFFFFF, child)
    return head + b"\0" * 36 + struct.pack("<III", start, size, 0)


def _password(file: Path) -> None:
    compound_file(file, "EncryptedPackage", b"locked" * 1000)


def _record(kind: int, data: bytes) -> bytes:
    return struct.pack("<HH", kind, len(data)) + data


def _xls_corner_cells(file: Path) -> None:
    book = _record(0x0809, struct.pack("<HHHHII", 0x0600, 5, 0, 0, 0, 0))
    book += _record(0x0085, struct.pack("<IHBB", len(book) + 17, 0, 1, 0) + b"S") + _record(0x000A, b"")
    sheet = _record(0x0809, struct.pack("<HHHHII", 0x0600, 0x10, 0, 0, 0, 0))
    for row, column in ((0, 0), (65535, 255)):
        sheet += _record(0x0203, struct.pack("<HHHd", row, column, 0, 1.0))
    sheet += _record(0x000A, b"")
    compound_file(file, "Workbook", (book + sheet).ljust(8192, b"\0"))


def _ods_repeats(file: Path) -> None:
    head = (
        '<office:document-content xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" '
        'xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" '
        'xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0"><office:body><office:spreadsheet>'
        '<table:table table:name="S">'
    )
    row = (
        '<table:table-row table:number-rows-repeated="1048576"><table:table-cell office:value-type="float" '
        'office:value="1" table:number-columns-repeated="16384"><text:p>1</text:p></table:table-cell>'
        "</table:table-row>"
    )
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("mimetype", "application/vnd.oasis.opendocument.spreadsheet")
        tail = "</table:table></office:spreadsheet></office:body></office:document-content>"
        archive.writestr("content.xml", head + row + tail)
        archive.writestr("META-INF/manifest.xml", "<manifest/>")


def _plain_zip(file: Path) -> None:
    with zipfile.ZipFile(file, "w") as archive:
        archive.writestr("hello.txt", "no workbook")


def _link(file: Path) -> None:
    file.symlink_to("/etc/hostname")


HOSTILE: dict[str, Callable[[Path], object]] = {
    "zip_bomb.xlsx": _zip_bomb,
    "many_cells_one_address.xlsx": _small_bomb,
    "entity_bomb.xlsx": _entity_bomb,
    "corner_cells.xlsx": _corner_cells,
    "declared_dimension.xlsx": _declared_dimension,
    "eight_million_cells.xlsx": _ten_million_cells,
    "cells_without_address.xlsx": _cells_without_address,
    "deep_nesting.xlsx": _deep_nesting,
    "long_text_repeated.xlsx": _long_text_repeated,
    "many_parts.xlsx": _many_parts,
    "merged_everything.xlsx": _merged_everything,
    "external_links.xlsx": _external_links,
    "lying_size.xlsx": _lying_size,
    "truncated.xlsx": _truncated,
    "password.xlsx": _password,
    "corner_cells.xls": _xls_corner_cells,
    "repeats.ods": _ods_repeats,
    "plain_zip.xlsx": _plain_zip,
    "text_named_workbook.xlsx": lambda file: file.write_text("Item,Qty\n1,2\n"),
    "workbook_named_text.csv": lambda file: xlsx(file, _sheet("")),
    "picture.ods": lambda file: file.write_bytes(b"\x89PNG\r\n\x1a\n" + b"\0" * 5000),
    "noise.xls": lambda file: file.write_bytes(b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(range(256)) * 40),
    "empty.xlsx": lambda file: file.write_bytes(b""),
    "one_long_line.csv": lambda file: file.write_text("Item,Qty,Dia " + "x" * 20_000_000),
    "ten_million_commas.csv": lambda file: file.write_text("," * 10_000_000),
    "unclosed_quote.csv": lambda file: file.write_text('Item,Qty,Dia\n1,"2,3\n' + "a,b,c\n" * 2_000_000),
    "binary.csv": lambda file: file.write_bytes(bytes(range(256)) * 1000),
    "too_big.csv": lambda file: file.write_text("1,2,3\n" * 6_000_000),
    "link.csv": _link,
}
"""Each hostile file's name and how it is made."""
