"""Writes the blank order sheet that a shop sends to its customers, with drop-down lists and hints."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from quoting.core import Ends
from quoting.shop.sheet_style import add_hint, add_list, formats_of, open_book, set_up_page

_HEADER_ROW = 5
_BLANK_ROWS = 30
_LIST_ROWS = 300
_YES_NO = ("yes", "no")
_UNITS = {"in": "inches", "mm": "mm"}
_ROW_HEIGHT = 24  # room for a pen, when the sheet is printed and filled in by hand
_HELP_LINE = 100  # characters of help that fit on one line


@dataclass(frozen=True, slots=True)
class _Column:
    """A column of the order sheet: heading, width, kind of cell, the hint beside it, its drop-down words."""

    heading: str
    width: float
    hint: str
    kind: str = "number"
    words: tuple[str, ...] = ()


def _columns(unit: str, materials: Sequence[str]) -> tuple[_Column, ...]:
    return (
        _Column("Line", 6, "Your own line number; the quote keeps it.", "text"),
        _Column("Part no.", 12, "Your part or drawing number.", "text"),
        _Column("Rev", 5, "Drawing revision.", "text"),
        _Column("Description", 20, "What the part is called.", "text"),
        _Column(
            "Shape",
            11,
            "cylinder: closed all round. arc: part of a circle, give the angle. half shell: 180 degrees. "
            "cone: give large and small diameter and height.",
            "text",
            ("cylinder", "arc", "half shell", "cone"),
        ),
        _Column("Qty", 6, "Pieces."),
        _Column("Qty breaks", 9, "Further quantities to price, such as 5, 10.", "text"),
        _Column(f"Diameter ({unit})", 10, "The next column says on which side. For a cone leave it empty."),
        _Column("ID/OD", 8, "Inside, outside or mean. We ask when empty.", "text", ("ID", "OD", "mean")),
        _Column("Angle (deg)", 8, "Arc only: degrees rolled, more than 0 and less than 360."),
        _Column(f"Length ({unit})", 10, "Across the roll, along the axis of the part. Not for a cone."),
        _Column(f"Large dia ({unit})", 10, "Cone only: the large end."),
        _Column(f"Small dia ({unit})", 10, "Cone only: the small end, on the same side as the large one."),
        _Column(f"Height ({unit})", 9, "Cone only: along the axis, not along the slope."),
        _Column(
            f"Thickness ({unit})",
            11,
            "A decimal, a fraction typed as text, or a gauge with its metal.",
            "text",
        ),
        _Column("Material", 13, "The grade. Pick one or type another.", "text", tuple(materials)),
        _Column(
            "Ends",
            14,
            "A roll leaves a flat at each end. leave flat: cheapest. pre-bend: a short flat stays. "
            "trim after rolling: no flat, more plate.",
            "text",
            tuple(Ends),
        ),
        _Column(f"Weld gap ({unit})", 9, "Root opening at the long seam; the blank is cut shorter by it."),
        _Column("Re-round", 9, "yes: it comes back after welding to be rolled round again.", "text", _YES_NO),
        _Column("Cert", 7, "yes: material certificate wanted.", "text", _YES_NO),
        _Column("Need by", 12, "Date it must leave our yard.", "date"),
        _Column("Remarks", 24, "Anything else we must know.", "text"),
    )  # fmt: skip


_HELP = (
    "How to fill in the order sheet",
    "One row a part. Cells have lists and hints: click on a cell to see them.",
    "Full cylinder: Shape cylinder, Diameter 24, ID/OD: OD, Length 48, Thickness 0.25, Material A36.",
    "Arc: Shape arc, Diameter of the circle (twice the radius), Angle in degrees, Length across the roll.",
    "Half shell: Shape half shell, Diameter, Length; the angle is 180 degrees.",
    "Cone: Shape cone, Large dia, Small dia, Height along the axis; ID/OD holds for both diameters.",
    "Always say whether a diameter is inside or outside: on 1/2 in plate the two differ by more than "
    "3 in of plate length.",
    "A fraction typed as 1/4 turns into a date in most spreadsheet programs. The thickness column is set to "
    "text so that it stays; elsewhere type 0.25.",
    "A gauge needs its metal (10 ga steel is 0.1345 in, galvanized 0.1382): fill in the material.",
    "Other units: write them with the number, as in 6 mm or 5'-6\".",
)


def write_order_sheet(path: Path, *, materials: Sequence[str], shop: str, unit: str = "in") -> None:
    """Write a blank order sheet; `unit` is "in" or "mm", `materials` the grades of the drop-down list."""
    columns = _columns(unit, materials)
    with open_book(path, title="Order sheet for rolled parts", note=shop) as book:
        formats = formats_of(book)
        sheet = book.add_worksheet("Order")
        _write_head(sheet, unit, shop, formats)
        rows = (_HEADER_ROW + 1, _HEADER_ROW + _LIST_ROWS)
        for row in range(rows[0], rows[0] + _BLANK_ROWS):
            sheet.set_row(row, _ROW_HEIGHT)
        for number, column in enumerate(columns):
            sheet.set_column(number, number, column.width)
            sheet.write_string(_HEADER_ROW, number, column.heading, formats["head"])
            for row in range(rows[0], rows[0] + _BLANK_ROWS):
                sheet.write_blank(row, number, None, formats[column.kind])
            if column.words:
                add_list(sheet, rows, number, column.words, hint=(column.heading, column.hint))
            else:
                add_hint(sheet, rows, number, column.heading, column.hint)
        sheet.set_row(_HEADER_ROW, 32)
        sheet.freeze_panes(_HEADER_ROW + 1, 2)
        set_up_page(
            sheet, header_row=_HEADER_ROW, last_row=_HEADER_ROW + _BLANK_ROWS, last_column=len(columns) - 1
        )
        _write_help(book, formats)


def _write_head(sheet: Any, unit: str, shop: str, formats: dict[str, Any]) -> None:
    sheet.write_string(0, 0, f"Order sheet for rolled parts - sizes in {_UNITS[unit]}", formats["title"])
    sheet.write_string(1, 0, f"To: {shop}", formats["note"])
    for row, label in ((2, "Customer"), (3, "Reference")):
        sheet.merge_range(row, 0, row, 1, label, formats["label"])
        sheet.merge_range(row, 2, row, 5, "", formats["fill"])
    sheet.write_string(2, 7, "Contact", formats["label"])
    sheet.merge_range(2, 8, 2, 12, "", formats["fill"])
    sheet.write_string(3, 7, "Date", formats["label"])
    sheet.merge_range(3, 8, 3, 12, "", formats["fill"])


def _write_help(book: Any, formats: dict[str, Any]) -> None:
    page = book.add_worksheet("How to fill in")
    page.set_column(0, 0, 88)
    for row, text in enumerate(_HELP):
        page.write_string(row, 0, text, formats["title" if row == 0 else "wrap"])
        page.set_row(row, 20 if len(text) < _HELP_LINE else 36)
    page.fit_to_pages(1, 1)
    page.set_landscape()
