"""Writes demo_orders: the invented shop's rack and three invented customers' sheets, the same every time.

Run as `python -m tests.data.make_demo`. The shop's book, demo_orders/shop/shop.toml, is kept by hand.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from pathlib import Path
from typing import Any

import xlsxwriter

from quoting.shop.grades import usual_grades
from quoting.shop.starter.rack_book import write_rack
from tests.data import demo_rack
from tests.data.order_rows import Row, order_rows

HERE = Path(__file__).resolve().parents[2] / "demo_orders"
SAYS_SO = "DEMO: invented customer, invented parts"


def main(folder: Path = HERE) -> None:
    """Write the rack and the three order sheets into a folder."""
    (folder / "shop").mkdir(parents=True, exist_ok=True)
    write_rack(
        folder / "shop" / "rack.xlsx",
        demo_rack.RACK,
        demo_rack.BUYABLE,
        materials=list(usual_grades()),
        note=demo_rack.NOTE,
    )
    _tidy(folder / "orders-tidy-example-tank-works.xlsx")
    _metric(folder / "orders-metric-sample-vessels.xlsx")
    _messy(folder / "orders-messy-placeholder-fabricators.xlsx")


class _Sheet:
    """One worksheet with the few formats that customers use."""

    def __init__(self, book: Any, name: str, day_format: str) -> None:
        self.page = book.add_worksheet(name)
        self.bold = book.add_format({"bold": True})
        self.head = book.add_format({"bold": True, "bg_color": "#D9D9D9", "border": 1, "text_wrap": True})
        self.day = book.add_format({"num_format": day_format, "align": "left"})

    def table(self, row: int, rows: Sequence[Row]) -> int:
        """Write a heading row and the rows under it; return the row after the last."""
        self.row(row, rows[0], self.head)
        for number, cells in enumerate(rows[1:], start=row + 1):
            self.row(number, cells)
        return row + len(rows)

    def row(self, row: int, cells: Row, form: Any = None) -> None:
        """Write the cells of one row, text as text and dates as dates."""
        for column, value in enumerate(cells):
            if isinstance(value, datetime):
                self.page.write_datetime(row, column, value, self.day)
            elif isinstance(value, str):
                self.page.write_string(row, column, value, form)
            elif value is not None:
                self.page.write_number(row, column, value, form)


def _book(path: Path, customer: str) -> Any:
    book = xlsxwriter.Workbook(str(path))
    book.set_properties(
        {
            "title": "Request for quote",
            "author": customer,
            "comments": SAYS_SO,
            "created": datetime(2026, 11, 27),
        }
    )
    return book


def _tidy(path: Path) -> None:
    with _book(path, "Example Tank Works (invented)") as book:
        sheet = _Sheet(book, "RFQ", "yyyy-mm-dd")
        sheet.row(0, ("Customer: Example Tank Works (invented)",), sheet.bold)
        sheet.row(1, ("RFQ no.: ETW-2611-04", None, None, SAYS_SO))
        sheet.row(2, ("Contact: Pat Sample (invented), purchasing",))
        sheet.table(4, order_rows("tidy"))
        sheet.page.set_column(1, 1, 11)
        sheet.page.set_column(3, 3, 22)
        sheet.page.set_column(15, 16, 14)
        sheet.page.set_column(20, 21, 12)
        _print_wide(sheet.page, 4)


def _metric(path: Path) -> None:
    with _book(path, "Sample Vessels (invented)") as book:
        sheet = _Sheet(book, "Inquiry", "dd.mm.yyyy")
        sheet.row(0, ("Customer: Sample Vessels (invented)", None, None, "all sizes in mm"), sheet.bold)
        sheet.row(1, ("Inquiry no.: SV 77/26", None, None, SAYS_SO))
        sheet.table(3, order_rows("metric"))
        sheet.page.set_column(2, 2, 24)
        sheet.page.set_column(14, 14, 11)
        sheet.page.set_column(17, 18, 14)
        _print_wide(sheet.page, 3)


def _messy(path: Path) -> None:
    with _book(path, "Placeholder Fabricators (invented)") as book:
        sheet = _Sheet(book, "Sheet1", "m/d/yyyy")
        title = book.add_format({"bold": True, "font_size": 16, "align": "center"})
        group = book.add_format({"bold": True, "align": "center", "border": 1})
        sheet.page.merge_range(0, 0, 0, 9, "PLACEHOLDER FABRICATORS (INVENTED) - ROLLING LIST", title)
        sheet.page.merge_range(1, 0, 1, 9, f"{SAYS_SO} - price asap, Sam Nobody (invented)", title)
        sheet.page.merge_range(3, 0, 3, 2, "PART", group)
        sheet.page.merge_range(3, 3, 3, 5, "SIZE", group)
        last = sheet.table(4, order_rows("messy"))
        sheet.row(last, ("TOTAL", None, "pieces"), sheet.bold)
        sheet.page.write_formula(last, 1, f"=SUM(B6:B{last})", sheet.bold, 43)
        for offset, note in enumerate(_NOTES, start=2):
            sheet.row(last + offset, (note,))
        sheet.page.set_column(2, 2, 24)
        sheet.page.set_column(3, 3, 24)
        sheet.page.set_column(4, 8, 11)
        sheet.page.set_column(9, 9, 26)
        _print_wide(sheet.page, 4)


_NOTES = (
    "Notes:",
    "1) Seams open, we weld. Leave 1/8 gap on carbon.",
    "2) All ends pre-bent unless noted.",
    "3) Deliver to our yard, call 1 day before.",
)


def _print_wide(page: Any, header_row: int) -> None:
    page.set_row(header_row, 45)
    page.set_landscape()
    page.fit_to_pages(1, 0)
    page.repeat_rows(header_row)


if __name__ == "__main__":
    main()
