"""Writes a stock rack workbook: the rack, the buyable sizes, drop-down lists and how to fill it in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

RACK_HEADINGS = (
    "Plate id",
    "Material",
    "Thickness",
    "Width",
    "Length",
    "Edge",
    "Quantity",
    "Price",
    "Per",
    "Heat number",
    "Remnant",
)
BUY_HEADINGS = ("Plate id", "Material", "Thickness", "Width", "Length", "Edge", "Price", "Per", "Lead days")
_WIDTHS = {
    "Plate id": 13,
    "Material": 13,
    "Thickness": 13,
    "Width": 11,
    "Length": 11,
    "Edge": 10,
    "Quantity": 9,
    "Price": 10,
    "Per": 7,
    "Heat number": 14,
    "Remnant": 9,
    "Lead days": 9,
}
_SIZES = ("Thickness", "Width", "Length")
_HEADER_ROW = 4
_SPARE_ROWS = 200
# A fixed date keeps the file the same, byte for byte, from one run to the next.
_WRITTEN = datetime(2026, 1, 1, tzinfo=UTC).replace(tzinfo=None)


@dataclass(frozen=True, slots=True)
class RackLine:
    """One row to write; sizes in the unit of the sheet, `price` None for the grade's price in the book."""

    id: str
    material: str
    thickness: float
    width: float
    length: float
    edge: str = "mill"
    quantity: int = 1
    price: float | None = None
    per: str = ""
    heat: str = ""
    remnant: bool = False
    lead_days: int | None = None


@dataclass(frozen=True, slots=True)
class RackSheet:
    """What goes on one sheet: its name, the line under the title, the headings and the rows."""

    name: str
    title: str
    note: str
    headings: tuple[str, ...]
    rows: tuple[RackLine, ...]


def write_rack(
    path: Path,
    rack: Sequence[RackLine],
    buyable: Sequence[RackLine],
    *,
    materials: Sequence[str],
    unit: str = "in",
    note: str,
) -> None:
    """Write `rack.xlsx` with the sheets Rack and Buyable sizes; `unit` is "in" or "mm", `note` says whose rack it is."""
    import xlsxwriter  # noqa: PLC0415 - heavy

    sheets = (
        RackSheet("Rack", "Stock rack: what stands in the house", note, RACK_HEADINGS, tuple(rack)),
        RackSheet("Buyable sizes", "Sizes that can be bought", note, BUY_HEADINGS, tuple(buyable)),
    )
    with xlsxwriter.Workbook(str(path)) as book:
        book.set_properties({"title": "Stock rack", "comments": note, "created": _WRITTEN})
        formats = _formats(book)
        for sheet in sheets:
            _write_sheet(book.add_worksheet(sheet.name), sheet, unit, formats, materials)
        _write_lists(book, materials)


def _formats(book: Any) -> dict[str, Any]:
    grid = {"border": 1, "border_color": "#BFBFBF", "valign": "vcenter"}
    return {
        "title": book.add_format({"bold": True, "font_size": 14}),
        "note": book.add_format({"italic": True, "font_color": "#404040"}),
        "head": book.add_format({**grid, "bold": True, "bg_color": "#D9E1E8", "text_wrap": True}),
        "text": book.add_format({**grid, "num_format": "@"}),
        "number": book.add_format({**grid, "num_format": "General"}),
        "money": book.add_format({**grid, "num_format": "#,##0.00"}),
    }


def _write_sheet(
    page: Any, sheet: RackSheet, unit: str, formats: dict[str, Any], materials: Sequence[str]
) -> None:
    page.write_string(0, 0, sheet.title, formats["title"])
    page.write_string(1, 0, sheet.note, formats["note"])
    page.write_string(2, 0, _HELP[sheet.name], formats["note"])
    for column, heading in enumerate(sheet.headings):
        text = f"{heading} ({unit})" if heading in _SIZES else heading
        page.write_string(_HEADER_ROW, column, text, formats["head"])
        page.set_column(column, column, _WIDTHS[heading])
    for row, line in enumerate(sheet.rows, start=_HEADER_ROW + 1):
        for column, heading in enumerate(sheet.headings):
            _write_cell(page, row, column, _value(line, heading), formats)
    _add_lists(page, sheet, len(materials))
    last = _HEADER_ROW + max(len(sheet.rows), 1)
    page.set_row(_HEADER_ROW, 30)
    page.freeze_panes(_HEADER_ROW + 1, 1)
    page.set_landscape()
    page.fit_to_pages(1, 0)
    page.repeat_rows(_HEADER_ROW)
    page.print_area(0, 0, last, len(sheet.headings) - 1)
    page.set_margins(0.5, 0.5, 0.6, 0.6)
    page.set_footer("&L&F, &A&RPage &P of &N")


_HELP = {
    "Rack": (
        "One row a plate or stack of like plates. Price is per lb, kg or plate; empty takes the price in shop.toml."
        " A remnant without a heat number cannot be certified."
    ),
    "Buyable sizes": "One row a size that the supplier delivers in any number. Lead days: until it is in the house.",
}


def _value(line: RackLine, heading: str) -> str | float | int | None:
    return {
        "Plate id": line.id,
        "Material": line.material,
        "Thickness": line.thickness,
        "Width": line.width,
        "Length": line.length,
        "Edge": line.edge,
        "Quantity": line.quantity,
        "Price": line.price,
        "Per": line.per,
        "Heat number": line.heat,
        "Remnant": "yes" if line.remnant else "no",
        "Lead days": line.lead_days,
    }[heading]


def _write_cell(
    page: Any, row: int, column: int, value: str | float | int | None, formats: dict[str, Any]
) -> None:
    if value is None or value == "":
        page.write_blank(row, column, None, formats["text"])
    elif isinstance(value, str):
        page.write_string(row, column, value, formats["text"])
    else:
        page.write_number(row, column, value, formats["number"])


def _add_lists(page: Any, sheet: RackSheet, grades: int) -> None:
    lists = {
        "Edge": ["mill", "trimmed"],
        "Per": ["lb", "kg", "plate"],
        "Remnant": ["yes", "no"],
        "Material": f"=Lists!$A$1:$A${grades}",
    }
    for heading, source in lists.items():
        if heading in sheet.headings:
            column = sheet.headings.index(heading)
            page.data_validation(
                _HEADER_ROW + 1,
                column,
                _HEADER_ROW + _SPARE_ROWS,
                column,
                # A warning, not a stop: the book knows more names for a grade than the list shows.
                {"validate": "list", "source": source, "error_type": "warning"},
            )


def _write_lists(book: Any, materials: Sequence[str]) -> None:
    page = book.add_worksheet("Lists")
    page.hide()
    for row, key in enumerate(materials):
        page.write_string(row, 0, key)
