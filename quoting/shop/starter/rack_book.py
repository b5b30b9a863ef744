"""Writes a stock rack workbook: the rack, the buyable sizes, drop-down lists and how to fill it in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from quoting.shop.sheet_style import add_list, formats_of, open_book, set_up_page

_HEADER_ROW = 4
_SPARE_ROWS = 200
_SIZES = ("Thickness", "Width", "Length")


@dataclass(frozen=True, slots=True)
class RackLine:
    """One row to write; a number is in the unit of the sheet, a text such as "6 mm" says its own.

    `price` is None when the grade's price in the shop's book holds.
    """

    id: str
    material: str
    thickness: float | str
    width: float | str
    length: float | str
    edge: str = "mill"
    quantity: int = 1
    price: float | None = None
    per: str = ""
    heat: str = ""
    remnant: str = "no"
    lead_days: int = 0


@dataclass(frozen=True, slots=True)
class _Page:
    """One sheet: its name, its title, how to fill it in, and the headings with the field under each."""

    name: str
    title: str
    help: str
    columns: tuple[tuple[str, str, float], ...]


_RACK = _Page(
    "Rack",
    "Stock rack: what stands in the house",
    "One row a plate, or a stack of like plates. Price: per lb, kg or plate; left empty, the price in "
    "the shop's book holds. A remnant without a heat number cannot be certified.",
    (
        ("Plate id", "id", 14),
        ("Material", "material", 13),
        ("Thickness", "thickness", 11),
        ("Width", "width", 10),
        ("Length", "length", 10),
        ("Edge", "edge", 10),
        ("Quantity", "quantity", 9),
        ("Price", "price", 10),
        ("Per", "per", 8),
        ("Heat number", "heat", 14),
        ("Remnant", "remnant", 9),
    ),
)
_BUYABLE = _Page(
    "Buyable sizes",
    "Sizes that can be bought",
    "One row a size that the supplier delivers in any number. Lead days: until it is in the house.",
    (
        ("Plate id", "id", 19),
        ("Material", "material", 13),
        ("Thickness", "thickness", 11),
        ("Width", "width", 10),
        ("Length", "length", 10),
        ("Edge", "edge", 10),
        ("Price", "price", 10),
        ("Per", "per", 8),
        ("Lead days", "lead_days", 10),
    ),
)


def write_rack(
    path: Path,
    rack: Sequence[RackLine],
    buyable: Sequence[RackLine],
    *,
    materials: Sequence[str],
    note: str,
    unit: str = "in",
) -> None:
    """Write a rack workbook with the sheets Rack and Buyable sizes.

    `unit` is "in" or "mm", `materials` the grades of the drop-down list, `note` says whose rack it is.
    """
    with open_book(path, title="Stock rack", note=note) as book:
        formats = formats_of(book)
        for page, lines in ((_RACK, rack), (_BUYABLE, buyable)):
            sheet = book.add_worksheet(page.name)
            sheet.write_string(0, 0, page.title, formats["title"])
            sheet.write_string(1, 0, note, formats["note"])
            sheet.merge_range(2, 0, 2, len(page.columns) - 1, page.help, formats["help"])
            sheet.set_row(2, 30)
            _write_table(sheet, page, lines, unit, formats)
            _add_lists(sheet, page, materials)
            last = _HEADER_ROW + max(len(lines), 1)
            set_up_page(sheet, header_row=_HEADER_ROW, last_row=last, last_column=len(page.columns) - 1)
            sheet.freeze_panes(_HEADER_ROW + 1, 1)


def _write_table(
    sheet: Any, page: _Page, lines: Sequence[RackLine], unit: str, formats: dict[str, Any]
) -> None:
    sheet.set_row(_HEADER_ROW, 30)
    for column, (heading, field, width) in enumerate(page.columns):
        text = f"{heading} ({unit})" if heading in _SIZES else heading
        sheet.write_string(_HEADER_ROW, column, text, formats["head"])
        sheet.set_column(column, column, width)
        for row, line in enumerate(lines, start=_HEADER_ROW + 1):
            value = getattr(line, field)
            if value is None or value == "":
                sheet.write_blank(row, column, None, formats["text"])
            elif isinstance(value, str):
                sheet.write_string(row, column, value, formats["text"])
            else:
                sheet.write_number(row, column, value, formats["money" if field == "price" else "number"])


def _add_lists(sheet: Any, page: _Page, materials: Sequence[str]) -> None:
    lists = {
        "material": materials,
        "edge": ("mill", "trimmed"),
        "per": ("lb", "kg", "plate"),
        "remnant": ("yes", "no"),
    }
    for column, (_, field, _) in enumerate(page.columns):
        if field in lists:
            add_list(sheet, (_HEADER_ROW + 1, _HEADER_ROW + _SPARE_ROWS), column, lists[field])
