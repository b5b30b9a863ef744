"""Writes a small OpenDocument spreadsheet: text, numbers, dates, hidden rows, strike-through, merged cells.

Written from the OpenDocument 1.2 schema (ISO/IEC 26300, parts 1 and 3), as far as a customer's list needs it.
"""

from __future__ import annotations

import zipfile
from datetime import date, datetime
from pathlib import Path
from xml.sax.saxutils import escape, quoteattr

from tests.data.sheet_areas import Area, area_at
from tests.data.sheet_model import Cell, CellValue, Formula, Row, Tab

MIME = "application/vnd.oasis.opendocument.spreadsheet"
MANIFEST = (
    '<?xml version="1.0" encoding="UTF-8"?><manifest:manifest manifest:version="1.2" '
    'xmlns:manifest="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0">'
    f'<manifest:file-entry manifest:full-path="/" manifest:media-type="{MIME}"/>'
    '<manifest:file-entry manifest:full-path="content.xml" manifest:media-type="text/xml"/>'
    "</manifest:manifest>"
)
SPACES = " ".join(
    f'xmlns:{short}="urn:oasis:names:tc:opendocument:xmlns:{name}:1.0"'
    for short, name in (
        ("office", "office"),
        ("table", "table"),
        ("text", "text"),
        ("style", "style"),
    )
)
FO = 'xmlns:fo="urn:oasis:names:tc:opendocument:xmlns:xsl-fo-compatible:1.0"'
STYLES = (
    '<style:style style:name="struck" style:family="table-cell">'
    '<style:text-properties style:text-line-through-style="solid"/></style:style>'
    '<style:style style:name="bold" style:family="table-cell">'
    '<style:text-properties fo:font-weight="bold"/></style:style>'
)


def write_ods(tabs: tuple[Tab, ...], file: Path) -> None:
    """Write the tabs as one .ods file, the same bytes every time."""
    body = "".join(_table(tab) for tab in tabs)
    content = (
        f'<?xml version="1.0" encoding="UTF-8"?><office:document-content {SPACES} {FO} office:version="1.2">'
        f"<office:automatic-styles>{STYLES}</office:automatic-styles>"
        f"<office:body><office:spreadsheet>{body}</office:spreadsheet></office:body></office:document-content>"
    )
    with zipfile.ZipFile(file, "w") as book:
        book.writestr(zipfile.ZipInfo("mimetype"), MIME)
        book.writestr(zipfile.ZipInfo("META-INF/manifest.xml"), MANIFEST)
        book.writestr(zipfile.ZipInfo("content.xml"), content)


def _table(tab: Tab) -> str:
    areas = tuple(Area.of(text) for text in tab.merged)
    rows = "".join(_row(row, number, areas) for number, row in enumerate(tab.rows))
    hidden = ' table:display="false"' if tab.hidden else ""
    width = max((len(row.cells) for row in tab.rows), default=1) or 1
    columns = "".join(
        f"<table:table-column{_hidden(column + 1 in tab.hidden_columns)}/>" for column in range(width)
    )
    return f"<table:table table:name={quoteattr(tab.name)}{hidden}>{columns}{rows}</table:table>"


def _hidden(hidden: bool) -> str:
    return ' table:visibility="collapse"' if hidden else ""


def _row(row: Row, number: int, areas: tuple[Area, ...]) -> str:
    cells = "".join(_place(cell, row, number, column, areas) for column, cell in enumerate(row.cells))
    return f"<table:table-row{_hidden(row.hidden)}>{cells or '<table:table-cell/>'}</table:table-row>"


def _place(cell: CellValue, row: Row, number: int, column: int, areas: tuple[Area, ...]) -> str:
    area = area_at(areas, number, column)
    if area and (number, column) != (area.top, area.left):
        return "<table:covered-table-cell/>"
    span = ""
    if area:
        span = (
            f' table:number-columns-spanned="{area.right - area.left + 1}"'
            f' table:number-rows-spanned="{area.bottom - area.top + 1}"'
        )
    return _cell(cell, row, span)


def _cell(cell: CellValue, row: Row, span: str) -> str:
    styled = cell if isinstance(cell, Cell) else Cell(None)
    if row.strike or styled.strike:
        span += ' table:style-name="struck"'
    elif row.bold or styled.bold:
        span += ' table:style-name="bold"'
    value = cell.value if isinstance(cell, Cell | Formula) else cell
    if value is None:
        return f"<table:table-cell{span}/>"
    text = "".join(f"<text:p>{escape(part)}</text:p>" for part in shown(value).split("\n"))
    return f"<table:table-cell{span}{_type(value)}>{text}</table:table-cell>"


def _type(value: str | float | date) -> str:
    if isinstance(value, str):
        return ' office:value-type="string"'
    if isinstance(value, date):
        return f' office:value-type="date" office:date-value="{value.isoformat()}"'
    return f' office:value-type="float" office:value="{value}"'


def shown(value: str | float | date | None) -> str:
    """Return the text of a value as it stands in a text file."""
    if value is None:
        return ""
    if isinstance(value, datetime):
        return value.strftime("%Y-%m-%d")
    return value.isoformat() if isinstance(value, date) else str(value)
