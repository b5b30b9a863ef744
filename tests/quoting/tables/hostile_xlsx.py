"""Crafted .xlsx files: addresses, parts, texts and packages that no spreadsheet program writes."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Iterator, Mapping

_PACKAGE = "http://schemas.openxmlformats.org/package/2006"
_REL = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
TYPES = (
    f'<Types xmlns="{_PACKAGE}/content-types"><Default Extension="xml" ContentType="application/xml"/>'
    '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    '<Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument'
    '.spreadsheetml.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="application/'
    'vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/></Types>'
)
RELS = (
    f'<Relationships xmlns="{_PACKAGE}/relationships"><Relationship Id="r1" Type="{_REL}/officeDocument" '
    'Target="xl/workbook.xml"/></Relationships>'
)
_CELL = '<c r="A1"><v>1</v></c>'


def book(
    sheet: str | bytes = "",
    *,
    target: str = "worksheets/sheet1.xml",
    part: str = "xl/worksheets/sheet1.xml",
    sheets: str = '<sheet name="S" sheetId="1" r:id="r1"/>',
    names: str = "",
    parts: Mapping[str, str | bytes] | None = None,
) -> bytes:
    """Return an .xlsx whose one sheet is this XML; `parts` replace or add others, an empty one is left out."""
    every: dict[str, str | bytes] = {
        "[Content_Types].xml": TYPES,
        "_rels/.rels": RELS,
        "xl/workbook.xml": f'<workbook xmlns="{MAIN}" xmlns:r="{_REL}"><sheets>{sheets}</sheets>{names}</workbook>',
        "xl/_rels/workbook.xml.rels": f'<Relationships xmlns="{_PACKAGE}/relationships">'
        f'<Relationship Id="r1" Type="{_REL}/worksheet" Target="{target}"/>'
        f'<Relationship Id="r2" Type="{_REL}/sharedStrings" Target="sharedStrings.xml"/>'
        f'<Relationship Id="r3" Type="{_REL}/styles" Target="styles.xml"/></Relationships>',
        part: sheet,
        **(parts or {}),
    }
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in every.items():
            if data:
                archive.writestr(name, data)
    return packed.getvalue()


def rows(inside: str, *, before: str = "", after: str = "") -> str:
    """Return the XML of a worksheet with these rows."""
    return f'<worksheet xmlns="{MAIN}">{before}<sheetData>{inside}</sheetData>{after}</worksheet>'


def one(cell: str, **more: str) -> str:
    """Return the XML of a worksheet with one row of this cell."""
    return rows(f"<row>{cell}</row>", **more)


_ADDRESSES = (
    "A99999999999999999999", "a1048576", "xfd1048576", "XFD1048576", "XFE1", "AAAA1", "AAAAAAAAAA1", "A0", "1A",
    "", "A1:B2", "A-1", "A1.5", "A\u0967", " A1", "$A$1", "R1C1", "A1048577", "ZZZ9999999", "A00000000001",
)  # fmt: skip
_ROWS = ("1048576", "99999999999999999999", "-1", "x", "1e9", "", "0", "4294967297", "0x10")
_VALUES = (
    'r="A1" t="s"><v>99999999999', 'r="A1" t="s"><v>-1', 'r="A1" t="s"><v>x', 'r="A1" t="e"><v>#WHAT',
    'r="A1" t="e"><v>', 'r="A1" t="b"><v>7', 'r="A1" t="d"><v>9999-99-99', 'r="A1"><v>1e999', 'r="A1"><v>nan',
    'r="A1"><v>1_000', 'r="A1"><v>' + "9" * 400, 'r="A1" t="z"><v>1', 'r="A1" s="1"><v>1e12',
    'r="A1" s="1"><v>-1e9', 'r="A1" s="1"><v>2958466', 'r="A1" s="999999999"><v>1', 'r="A1" t="str"><v>x',
    'r="A1"><v xml:space="preserve">' + " " * 50_000, 'q=">" r="XFD1048576"><v>1', 'r="A1"><f>1+1</f><v>',
    'r="A1"><f t="shared" si="4294967296"/><v>1', 'r="A1"><f t="array" ref="A1:XFD1048576">1</f><v>1',
)  # fmt: skip
_PARTS = (
    ("xl/other/s.bin", "other/s.bin"), ("xl/s.txt", "s.txt"), ("evil.xml", "../evil.xml"),
    ("abs/x.xml", "/abs/x.xml"), ("xl/worksheets/SHEET1.XML", "worksheets/sheet1.xml"),
    ("xl/a/b/../s.xml", "a/b/../s.xml"), ("xl/worksheets/sheet1.xml", "worksheets\\sheet1.xml"),
    ("xl/s", "s"), ("xl/workbook.xml.xml", "workbook.xml.xml"),
)  # fmt: skip
_AFTER = (
    '<mergeCells><mergeCell ref="A1:XFD1048576"/></mergeCells>', '<mergeCells><mergeCell ref="B2:A1"/></mergeCells>',
    '<mergeCells><mergeCell ref="nonsense"/></mergeCells>', '<mergeCells><mergeCell/></mergeCells>',
    '<mergeCells>' + '<mergeCell ref="A1:B2"/>' * 5_000 + '</mergeCells>', "<dimension/>", "<legacyDrawing/>",
)  # fmt: skip
_BEFORE = (
    '<dimension ref="A1:XFD1048576"/>', '<dimension ref="A1:A99999999999"/>', '<dimension ref="x"/>',
    '<cols><col min="1" max="16384" hidden="1"/></cols>', '<cols><col min="1" max="99999999999" hidden="1"/></cols>',
    '<cols><col min="-5" max="3" hidden="1"/></cols>', '<cols>' + '<col min="1" max="16384" hidden="1"/>' * 2_000 + '</cols>',
    '<cols><col hidden="true"/></cols>', "<sheetPr/>",
)  # fmt: skip
_STYLES = (
    '<numFmts><numFmt numFmtId="164" formatCode="' + "&quot;;" * 20_000 + '"/></numFmts>',
    '<numFmts><numFmt numFmtId="164" formatCode="' + "[" * 50_000 + '"/></numFmts>',
    '<numFmts>' + '<numFmt numFmtId="164" formatCode="0&quot; mm&quot;"/>' * 3_000 + '</numFmts>',
    '<cellXfs count="99999999999">' + '<xf numFmtId="14"/>' * 3 + '</cellXfs>', '<cellXfs><xf numFmtId="x"/></cellXfs>',
    '<numFmts><numFmt numFmtId="164" formatCode="' + "\\" * 9_999 + '"/></numFmts>',
)  # fmt: skip
_XML: dict[str, bytes] = {
    "doctype": b"<!DOCTYPE x []>" + one(_CELL).encode(),
    "entity": b'<!DOCTYPE x [<!ENTITY a "b">]>' + one('<c r="A1" t="str"><v>&a;</v></c>').encode(),
    "outside": b'<!DOCTYPE x SYSTEM "file:///etc/passwd">' + one(_CELL).encode(),
    "utf16": ('<?xml version="1.0" encoding="UTF-16"?>' + one(_CELL)).encode("utf-16"),
    "foo": b'<?xml version="1.0" encoding="foo"?>' + one(_CELL).encode(),
    "latin": b'<?xml version="1.0" encoding="latin-1"?>'
    + one('<c r="A1" t="str"><v>\xe9</v></c>').encode("latin-1"),
    "not utf8": one('<c r="A1" t="str"><v>\xff\xfe</v></c>').encode("latin-1"),
    "mark": b"\xef\xbb\xbf" + one(_CELL).encode(),
    "two roots": (one(_CELL) * 2).encode(),
    "unclosed": one(_CELL)[:-20].encode(),
    "comment": one("<!--" + "-x" * 50_000 + "-->" + _CELL).encode(),
    "cdata": one("<c r='A1' t='str'><v><![CDATA[" + "<" * 50_000 + "]]></v></c>").encode(),
    "instruction": one("<?x " + "y" * 50_000 + "?>" + _CELL).encode(),
    "prefix": b"<x:worksheet><x:sheetData/></x:worksheet>",
    "twice": one('<c r="A1" r="B1"><v>1</v></c>').encode(),
    "long attribute": one(f'<c r="A1" q="{"x" * 100_000}"><v>1</v></c>').encode(),
    "many attributes": one(f'<c r="A1" {" ".join(f"q{n}=" + chr(34) * 2 for n in range(5_000))}/>').encode(),
    "deep": one("<a>" * 20_000 + "</a>" * 20_000).encode(),
    "nul": one(_CELL).encode() + b"\0",
    "empty": b"<worksheet/>",
    "no xml": b"hello",
    "cell in cell": one("<c r='A1'><c r='B1'><v>1</v></c></c>").encode(),
    "row in row": rows("<row r='1'><row r='9'><c><v>1</v></c></row></row>").encode(),
    "backwards": rows("<row r='9'>" + _CELL + "</row><row r='1'><c r='B9'><v>2</v></c></row>").encode(),
    "angle brackets": one("<c r='A1' q='" + "&gt;" * 9_000 + "'><v>1</v></c>").encode(),
    "opening brackets": b"<" * 100_000,
    "c without end": one("<c " * 30_000).encode(),
    "spaces in tag": one("<c" + " " * 100_000 + "r='A1'><v>1</v></c>").encode(),
    "rows without cells": rows("<row/>" * 30_000 + "<row>" + _CELL + "</row>").encode(),
    "far block": rows('<row r="20000"><c r="XFD20000"><v>1</v></c></row>').encode(),
    "far row": rows('<row r="1000000"><c r="A1000000"><v>1</v></c></row>').encode(),
}


def files() -> Iterator[tuple[str, bytes]]:
    """Yield the name and the bytes of each crafted file."""
    for number, address in enumerate(_ADDRESSES):
        yield f"address-{number}.xlsx", book(one(f'<c r="{address}"><v>1</v></c>'))
    for number, row in enumerate(_ROWS):
        yield f"row-{number}.xlsx", book(rows(f'<row r="{row}" hidden="1"><c><v>1</v></c></row>'))
    for number, value in enumerate(_VALUES):
        yield f"value-{number}.xlsx", book(one(f"<c {value}</v></c>"), parts=_dates())
    for number, (part, target) in enumerate(_PARTS):
        far = one('<c r="XFD1048576"><v>1</v></c>')
        yield f"part-{number}.xlsx", book(far, part=part, target=target)
    for number, after in enumerate(_AFTER):
        yield f"after-{number}.xlsx", book(one(_CELL, after=after))
    for number, before in enumerate(_BEFORE):
        yield f"before-{number}.xlsx", book(one(_CELL, before=before))
    for number, style in enumerate(_STYLES):
        styles = f'<styleSheet xmlns="{MAIN}">{style}</styleSheet>'
        yield f"style-{number}.xlsx", book(one(_CELL), parts={"xl/styles.xml": styles})
    for name, data in _XML.items():
        yield f"xml-{name.replace(' ', '-')}.xlsx", book(data)
    yield from _packages()


def _dates() -> dict[str, str | bytes]:
    xfs = '<cellXfs count="2"><xf numFmtId="0"/><xf numFmtId="14"/></cellXfs>'
    return {"xl/styles.xml": f'<styleSheet xmlns="{MAIN}">{xfs}</styleSheet>'}


def _packages() -> Iterator[tuple[str, bytes]]:
    """Yield workbooks whose package, and not a sheet, is crafted."""
    doctype = '<!DOCTYPE x [<!ENTITY a "b">]><x/>'
    for part in (
        "xl/workbook.xml",
        "xl/styles.xml",
        "xl/sharedStrings.xml",
        "_rels/.rels",
        "docProps/app.bin",
    ):
        yield f"doctype-{part.replace('/', '-')}.xlsx", book(one(_CELL), parts={part: doctype})
    for part in (
        "xl/workbook.xml",
        "xl/_rels/workbook.xml.rels",
        "xl/worksheets/sheet1.xml",
        "[Content_Types].xml",
    ):
        yield f"without-{part.replace('/', '-')}.xlsx", book(one(_CELL), parts={part: ""})
    same = "".join(f'<sheet name="S{n}" sheetId="{n}" r:id="r1"/>' for n in range(90))
    block = "".join(f"<row>{'<c><v>1</v></c>' * 100}</row>" for _ in range(200))
    yield "one-part-ninety-sheets.xlsx", book(rows(block), sheets=same)
    yield "no-sheets.xlsx", book(one(_CELL), sheets="")
    yield "thousand-sheets.xlsx", book(one(_CELL), sheets=same.replace('r:id="r1"', 'r:id="none"') * 12)
    yield "sheet-without-name.xlsx", book(one(_CELL), sheets='<sheet r:id="r1"/>')
    yield (
        "names.xlsx",
        book(
            one(_CELL),
            names="<definedNames>" + "<definedName name='x'>#REF!</definedName>" * 999 + "</definedNames>",
        ),
    )
    strings = (
        f'<sst xmlns="{MAIN}" count="999999999" uniqueCount="999999999"><si><t>{"x" * 32_000}</t></si></sst>'
    )
    uses = "".join('<row><c t="s"><v>0</v></c></row>' for _ in range(15_000))
    yield "long-string-repeated.xlsx", book(rows(uses), parts={"xl/sharedStrings.xml": strings})
    whole = book(one(_CELL))
    yield "cut.xlsx", whole[:-30]
    yield "half.xlsx", whole[: len(whole) // 2]
    yield "garbage-before.xlsx", b"x" * 5_000 + whole
    yield "garbage-after.xlsx", whole + b"x" * 70_000
    yield (
        "locked.xlsx",
        whole.replace(b"PK\x01\x02\x14\x03\x14\x00\x00\x00", b"PK\x01\x02\x14\x03\x14\x00\x01\x00"),
    )
    yield "method-99.xlsx", whole.replace(b"\x14\x00\x00\x00\x08\x00", b"\x14\x00\x00\x00\x63\x00")
    yield "only-head.xlsx", b"PK\x03\x04"
    yield "only-end.xlsx", b"PK\x05\x06" + b"\0" * 18
    yield "end-lies.xlsx", whole[:-14] + b"\xff\xff" * 4 + whole[-6:]
    bomb = b"<a>" + b" " * 30_000_000 + b"</a>"
    yield "bomb-in-other-part.xlsx", book(one(_CELL), parts={"xl/x.bin": bomb})
    yield "many-parts.xlsx", book(one(_CELL), parts={f"p{n}": "x" for n in range(2_100)})
    yield (
        "path-parts.xlsx",
        book(one(_CELL), parts={"../../../tmp/x.xml": "<a/>", "/etc/x.xml": "<a/>", "c:\\x.xml": "<a/>"}),
    )
    yield "same-name.xlsx", book(one(_CELL), parts={"XL/WORKBOOK.XML": "<a/>"})
