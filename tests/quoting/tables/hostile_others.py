"""Crafted .ods, .xls and text files."""

from __future__ import annotations

import io
import struct
import tempfile
import zipfile
from collections.abc import Iterator
from pathlib import Path

from tests.benchmarks.hostile_files import compound_file

_OASIS = "urn:oasis:names:tc:opendocument:xmlns"
_CALC = "urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0"


def ods(
    inside: str, *, before: str = "", mimetype: str = "application/vnd.oasis.opendocument.spreadsheet"
) -> bytes:
    """Return an .ods whose sheets are this XML."""
    content = (
        f'{before}<office:document-content xmlns:office="{_OASIS}:office:1.0" xmlns:table="{_OASIS}:table:1.0" '
        f'xmlns:text="{_OASIS}:text:1.0" xmlns:calcext="{_CALC}"><office:body><office:spreadsheet>{inside}'
        "</office:spreadsheet></office:body></office:document-content>"
    )
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("mimetype", mimetype)
        archive.writestr("content.xml", content)
        archive.writestr("META-INF/manifest.xml", "<manifest/>")
    return packed.getvalue()


def _table(inside: str) -> str:
    return f'<table:table table:name="S">{inside}</table:table>'


def _cell(more: str = "", text: str = "1") -> str:
    return f'<table:table-cell office:value-type="float" office:value="1" {more}><text:p>{text}</text:p></table:table-cell>'


def _row(inside: str, more: str = "") -> str:
    return f"<table:table-row {more}>{inside}</table:table-row>"


def ods_of_text(text: str) -> bytes:
    """Return an .ods with one cell of this text."""
    return ods(_table(_row(_cell(text=text))))


_REPEATS = ("2000000000", "1048576", "99999999999999999999", "-1", "x", "0", "4294967297", "1e9")
_SPACES = ("2000000000", "100001", "-5", "x", "99999999999999999999", "0")
_KINDS = (
    'value-type="float" office:value="1e999"', 'value-type="float" office:value="x"', 'value-type="float"',
    'value-type="date" office:date-value="9999-99-99"', 'value-type="date" office:date-value=""',
    'value-type="time" office:time-value="PT99999999999999H"', 'value-type="time" office:time-value="x"',
    'value-type="boolean" office:boolean-value="maybe"', 'value-type="nonsense"', 'value-type="currency"',
    'value-type="percentage" office:value="nan"', 'value-type="string" office:string-value="x"',
    'value-type="string" calcext:value-type="error"',
)  # fmt: skip


def ods_files() -> Iterator[tuple[str, bytes]]:
    """Yield the name and the bytes of each crafted .ods."""
    for number, repeat in enumerate(_REPEATS):
        columns = f'table:number-columns-repeated="{repeat}"'
        lines = f'table:number-rows-repeated="{repeat}"'
        yield f"columns-{number}.ods", ods(_table(_row(_cell(columns))))
        yield f"rows-{number}.ods", ods(_table(_row(_cell(), lines)))
        empty = f"<table:table-row {lines}><table:table-cell/></table:table-row>"
        yield f"empty-rows-{number}.ods", ods(_table(empty + _row(_cell())))
        blank = f"<table:table-cell {columns}/>"
        yield f"empty-columns-{number}.ods", ods(_table(_row(blank + _cell())))
    for number, count in enumerate(_SPACES):
        yield f"spaces-{number}.ods", ods(_table(_row(_cell(text=f'<text:s text:c="{count}"/>'))))
    yield "many-spaces.ods", ods(_table(_row(_cell(text='<text:s text:c="99999"/>' * 2_000))))
    for number, kind in enumerate(_KINDS):
        cell = f"<table:table-cell office:{kind}><text:p>x</text:p></table:table-cell>"
        yield f"kind-{number}.ods", ods(_table(_row(cell)))
    yield "doctype.ods", ods("", before='<!DOCTYPE x [<!ENTITY a "b">]>')
    yield (
        "table-in-cell.ods",
        ods(_table(_row(f"<table:table-cell>{_table(_row(_cell()))}</table:table-cell>"))),
    )
    yield "row-outside.ods", ods(_row(_cell('calcext:value-type="error"')))
    yield "no-table.ods", ods("")
    yield (
        "hidden.ods",
        ods(_table(_row(_cell(), 'table:visibility="collapse" table:number-rows-repeated="1048576"'))),
    )
    yield "wrong-kind.ods", ods(_table(_row(_cell())), mimetype="application/pdf")
    yield "thousand-tables.ods", ods(_table(_row(_cell())) * 1_000)
    yield "deep.ods", ods(_table("<table:table-row-group>" * 9_000 + "</table:table-row-group>" * 9_000))
    yield "broken.ods", ods(_table("<table:table-row"))


def _record(kind: int, data: bytes) -> bytes:
    return struct.pack("<HH", kind, len(data)) + data


def _bof(kind: int) -> bytes:
    return _record(0x0809, struct.pack("<HHHHII", 0x0600, kind, 0, 0, 0, 0))


def xls(sheet: bytes, globals_: bytes = b"") -> bytes:
    """Return an .xls with one sheet of these records; `globals_` stand before the list of sheets."""
    head = _bof(5) + globals_
    head += _record(0x0085, struct.pack("<IHBB", len(head) + 17, 0, 1, 0) + b"S") + _record(0x000A, b"")
    stream = head + _bof(0x10) + sheet + _record(0x000A, b"")
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "x.xls"
        compound_file(file, "Workbook", stream.ljust(8192, b"\0")[:60_000])
        return file.read_bytes()


def _number(row: int, column: int) -> bytes:
    return _record(0x0203, struct.pack("<HHHd", row, column, 0, 1.0))


def xls_files() -> Iterator[tuple[str, bytes]]:
    """Yield the name and the bytes of each crafted .xls."""
    good = xls(_number(0, 0))
    records = {
        "corners": _number(0, 0) + _number(65535, 255),
        "column-65535": _number(0, 65535),
        "short-number": _record(0x0203, b"\0\0"),
        "length-lies": struct.pack("<HH", 0x0203, 0xFFFF) + b"\0" * 10,
        "dimension": _record(0x0200, struct.pack("<IIHHH", 0, 0xFFFFFFFF, 0, 0xFFFF, 0)),
        "short-dimension": _record(0x0200, b"\0"),
        "many-in-one": _record(0x00BD, struct.pack("<HH", 0, 0) + b"\0" * 12 + struct.pack("<H", 65535)),
        "many-backwards": _record(0x00BD, struct.pack("<HH", 0, 9) + b"\0" * 6 + struct.pack("<H", 0)),
        "short-many": _record(0x00BD, b"\0\0"),
        "error": _record(0x0205, struct.pack("<HHHBB", 0, 0, 0, 99, 1)),
        "short-error": _record(0x0205, b"\0\0\0\0"),
        "formula": _record(0x0006, struct.pack("<HHH", 0, 0, 0) + b"\x02\0\x07\0\0\0\xff\xff" + b"\0" * 4),
        "short-formula": _record(0x0006, b"\0\0\0\0"),
        "text-index": _record(0x00FD, struct.pack("<HHHI", 0, 0, 0, 0xFFFFFFFF)),
        "long-label": _record(0x0204, struct.pack("<HHHH", 0, 0, 0, 0xFFFF) + b"x"),
        "hidden-rows": b"".join(
            _record(0x0208, struct.pack("<HHHHHHHH", n, 0, 1, 0, 0, 0, 0x20, 0)) for n in range(2_000)
        ),
        "merge": _record(0x00E5, struct.pack("<HHHHH", 9_999, 0, 65535, 0, 65535)),
        "lock": _record(0x002F, b"\0" * 6),
        "no-end": b"\xff" * 300,
        "zero-records": b"\0\0\0\0" * 10_000,
        "nested": _bof(0x10) * 500,
    }
    for name, sheet in records.items():
        yield f"{name}.xls", xls(sheet)
    shared = {
        "strings-count": _record(0x00FC, struct.pack("<II", 0xFFFFFFFF, 0xFFFFFFFF)),
        "string-length": _record(0x00FC, struct.pack("<IIHB", 1, 1, 0xFFFF, 0) + b"x"),
        "string-runs": _record(0x00FC, struct.pack("<IIHBHI", 1, 1, 1, 0x0C, 0xFFFF, 0xFFFFFFFF)),
        "format": _record(0x041E, struct.pack("<HHB", 164, 0xFFFF, 0) + b'"' * 300),
        "codepage": _record(0x0042, struct.pack("<H", 0xFFFF)),
        "name": _record(0x0018, b"\xff" * 30),
        "sheet-offset": _record(0x0085, struct.pack("<IHBB", 0xFFFFFFF0, 0, 200, 0) + b"S"),
    }
    for name, records_ in shared.items():
        yield f"shared-{name}.xls", xls(_number(0, 0), records_)
    for name, at, value in (
        ("sector-shift", 30, b"\xff\xff"), ("fat-count", 44, b"\xff" * 4), ("directory", 48, b"\x05\0\0\0"),
        ("mini-cutoff", 56, b"\xff" * 4), ("mini-fat", 60, b"\x01\0\0\0"), ("list", 68, b"\0\0\0\0\xff\0\0\0"),
        ("fat-loop", 512, b"\0\0\0\0" * 8), ("chain-loop", 512 + 8, b"\x02\0\0\0"), ("version", 26, b"\xff\xff"),
        ("entry-size", 1024 + 128 + 120, b"\xff" * 4), ("entry-start", 1024 + 128 + 116, b"\xff\xff\0\0"),
        ("child-loop", 1024 + 76, b"\0\0\0\0"), ("sibling-loop", 1024 + 128 + 68, b"\x01\0\0\0"),
    ):  # fmt: skip
        yield f"container-{name}.xls", good[:at] + value + good[at + len(value) :]
    yield "cut.xls", good[: len(good) // 2]
    yield "head.xls", good[:8]
    yield "noise.xls", good[:512] + bytes(range(256)) * 40


_TEXTS: dict[str, bytes] = {
    "nul": b"Item,Qty\n1,\x002\n", "nuls": b"\0" * 5_000, "binary": bytes(range(256)) * 200,
    "quote": b'Item,Qty\n1,"2\n' + b"a,b\n" * 9_000, "quotes": b'"' * 200_000, "commas": b"," * 290_000,
    "long line": b"x" * 290_000, "long field": b'"' + b"x" * 280_000 + b'"', "utf16 no mark": "Item;Qty\n1;2\n".encode("utf-16-le") * 50,
    "utf16 odd": "Item;Qty".encode("utf-16") + b"\x0a", "utf32": "Item;Qty".encode("utf-32"), "marks": b"\xef\xbb\xbf" * 999,
    "surrogate": b"Item,Qty\n\xed\xa0\x80,1\n", "latin": "Größe;Menge\n1;2\n".encode("latin-1"), "sep": b"sep=\x01\n1\x012\n",
    "sep quote": b'sep="\n1"2\n', "line ends": b"Item,Qty\r1,2\r\n3,4\n\r5,6", "right to left": "Item,Qty\n\u202e1,2\n".encode(),
    "formula": b'Item,Qty\n="1",=cmd|x\n', "workbook": b"PK\x03\x04Item,Qty\n", "old workbook": b"\xd0\xcf\x11\xe0 Item,Qty\n",
    "only lines": b"\n" * 250_000, "vertical": b"Item,Qty\n1\x0b,2\x0c\n", "digits": b"Item,Qty,Thk\n1," + b"9" * 400 + b",1e400\n",
    "letter separator": b"sep=e\n1e2e3\n", "quote in quote": b'a,"b""' * 20_000, "blanks": b" " * 290_000,
}  # fmt: skip


def text_files() -> Iterator[tuple[str, bytes]]:
    """Yield the name and the bytes of each crafted text table."""
    for name, data in _TEXTS.items():
        yield f"{name.replace(' ', '-')}.csv", data
