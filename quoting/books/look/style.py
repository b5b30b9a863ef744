"""The look of every book: one list of cell styles, page set-up, and text that can never become a formula."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date, datetime, time
from decimal import Decimal
from functools import cache
from math import ceil
from pathlib import Path
from typing import Any

from quoting.books.look.cell_text import cell_text, footer_text
from quoting.books.look.row_heights import lines_needed
from quoting.core import PAPERS

INK = "#1F3A4A"
QUIET = "#4A4A4A"
BAND = "#E8ECEE"

# Inputs carry a box as well as a tint, sums a line above, flags bold words: all of it reads in grey.
STYLES: dict[str, dict[str, Any]] = {
    "title": {"font_size": 16, "bold": True, "font_color": INK},
    "section": {"font_size": 12, "bold": True, "font_color": INK, "bottom": 1},
    "head": {"bold": True, "text_wrap": True, "bottom": 1, "bg_color": BAND, "valign": "bottom"},
    "group": {"bold": True, "font_color": INK, "bottom": 1, "left": 1},
    "text": {"text_wrap": True},
    "line": {},
    "quiet": {"font_size": 9, "font_color": QUIET, "text_wrap": True},
    "bold": {"bold": True, "text_wrap": True},
    "large": {"font_size": 12},
    "money": {"num_format": '#,##0.00;-#,##0.00;"–"', "align": "right"},
    "whole": {"num_format": "#,##0", "align": "right"},
    "number": {"num_format": '#,##0.0;-#,##0.0;"–"', "align": "right"},
    "fine": {"num_format": "#,##0.00##", "align": "right"},
    "percent": {"num_format": "0.0%", "align": "right"},
    "date": {"num_format": "d mmm yyyy", "align": "left"},
    "centre": {"align": "center"},
    "right": {"align": "right"},
    "total": {"bold": True, "top": 1},
    "rule": {"top": 1, "top_color": "#B4BCC0"},
    "thick": {"top": 2},
    "inset": {"align": "left", "indent": 1},
    "input": {"bg_color": "#FBF4DE", "border": 1, "border_color": "#A89B6A", "locked": False},
}
NUMERIC = frozenset({"money", "whole", "number", "fine", "percent"})
_BASE: dict[str, Any] = {"font_name": "Arial", "font_size": 10, "valign": "top"}

_LINE_POINTS = 12.8
_PLAIN_ROW, _TALLEST_ROW = 15.0, 409.0
_PIXELS_PER_WIDTH = 7
_CELL_MARGIN_PIXELS = 2
_MARGIN_WIDTH = 5 / 7


@dataclass(frozen=True, slots=True)
class BookColumn:
    """One column of a table: its heading (with the unit), its width in characters and its style."""

    heading: str
    width: float
    style: str = "text"


class BookSheet:
    """A worksheet that writes text as text, and gives each row the height that its wrapped text needs."""

    def __init__(self, book: Book, worksheet: Any, widths: Sequence[float]) -> None:
        self.book, self.raw, self.widths = book, worksheet, tuple(widths)
        self._lines: dict[int, float] = {}
        for column, width in enumerate(widths):
            worksheet.set_column(column, column, width, book.style("line"))

    def text(self, row: int, column: int, text: object, style: str = "text") -> None:
        """Write text that stays text, whatever it begins with."""
        shown = cell_text(str(text))
        self._need(row, shown, self.widths[column], style)
        self.raw.write_string(row, column, shown, self.book.style(style))

    def wide(self, row: int, first: int, last: int, text: object, style: str = "text") -> None:
        """Write text across several columns."""
        shown = cell_text(str(text))
        self._need(row, shown, self.across(first, last), style)
        # merge_range guesses the kind of what it is given, so it gets nothing and the text comes after.
        self.raw.merge_range(row, first, row, last, "", self.book.style(style))
        self.raw.write_string(row, first, shown, self.book.style(style))

    def across(self, first: int, last: int) -> float:
        """Return the width of merged columns: the margins between them count too."""
        return sum(self.widths[first : last + 1]) + (last - first) * _MARGIN_WIDTH

    def number(self, row: int, column: int, value: float | int | Decimal, style: str = "number") -> None:
        """Write a number."""
        self.raw.write_number(row, column, value, self.book.style(style))

    def day(self, row: int, column: int, value: date, style: str = "date") -> None:
        """Write a date."""
        self.raw.write_datetime(row, column, datetime.combine(value, time()), self.book.style(style))

    def formula(self, row: int, column: int, formula: str, value: object, style: str = "money") -> None:
        """Write a formula of ours with the value that a preview shows."""
        self.raw.write_formula(row, column, formula, self.book.style(style), _cached(value))

    def heads(self, row: int, columns: Sequence[BookColumn]) -> None:
        """Write the headings of a table, numbers right-aligned over their column."""
        for index, column in enumerate(columns):
            self.head(row, index, column.heading, column.style)

    def head(self, row: int, column: int, text: str, style: str = "") -> None:
        """Write one heading, placed like the cells of that style below it."""
        names = set(style.split())
        placed = " right" if names & {*NUMERIC, "right"} else " inset" if "inset" in names else ""
        self.text(row, column, text, f"head{placed}")

    def fill(self, row: int, columns: Iterable[int], style: str) -> None:
        """Give empty cells a style, such as the line over a total."""
        for column in columns:
            self.raw.write_blank(row, column, None, self.book.style(style))

    def tall(self, row: int, points: float) -> None:
        """Make a row this high, for a picture; a row holds 409 points at most."""
        self._lines[row] = min(points, _TALLEST_ROW)

    def finish(self) -> None:
        """Set the heights of the rows that need more than one line."""
        for row, points in sorted(self._lines.items()):
            self.raw.set_row(row, points)

    def points(self, row: int) -> float:
        """Return the height that the row will have."""
        return self._lines.get(row, _PLAIN_ROW)

    def height(self, text: str, width: float, style: str) -> float:
        """Return the height in points of a text in that style, in a cell that wide."""
        size, wraps, indent, bold = _letters_of(style)
        room = width * _PIXELS_PER_WIDTH - _CELL_MARGIN_PIXELS - 9 * indent
        lines = lines_needed(text, room * 0.75, size, bold=bold) if wraps else 1
        return ceil(lines * _LINE_POINTS * size / 10 + 3)

    def _need(self, row: int, text: str, width: float, style: str) -> None:
        points = self.height(text, width, style)
        if points > self._lines.get(row, _PLAIN_ROW):
            self._lines[row] = min(points, _TALLEST_ROW)


def _merged(names: str) -> dict[str, Any]:
    merged = dict(_BASE)
    for name in names.split():
        merged |= STYLES[name]
    return merged


@cache
def _letters_of(names: str) -> tuple[float, bool, int, bool]:
    """Return size of letters, whether they wrap, indent and whether they are bold, of styles in one text."""
    found = _merged(names)
    return (
        float(found["font_size"]),
        bool(found.get("text_wrap")),
        int(found.get("indent", 0)),
        bool(found.get("bold")),
    )


def _cached(value: object) -> object:
    if isinstance(value, Decimal):
        return float(value)
    return value


class Book:
    """A workbook with our styles; the creation date is given, so the same input gives the same bytes."""

    def __init__(self, workbook: Any, paper: str) -> None:
        self.raw, self.paper = workbook, paper
        self._formats: dict[str, Any] = {}
        self._sheets: list[BookSheet] = []

    def properties(self, names: str) -> dict[str, Any]:
        """Return the merged properties of styles named in one text, later ones winning."""
        return _merged(names)

    def style(self, names: str) -> Any:
        """Return the cell format for styles named in one text: `money total`."""
        if names not in self._formats:
            self._formats[names] = self.raw.add_format(self.properties(names))
        return self._formats[names]

    def sheet(
        self,
        name: str,
        widths: Sequence[float],
        *,
        landscape: bool = True,
        footer: str = "",
        fit: bool = True,
    ) -> BookSheet:
        """Add a sheet that prints on the shop's paper, as wide as the page unless `fit` is off."""
        worksheet = self.raw.add_worksheet(name, worksheet_class=_worksheet())
        worksheet.set_paper(PAPERS[self.paper].workbook_code)
        if landscape:
            worksheet.set_landscape()
        worksheet.set_margins(left=0.45, right=0.45, top=0.5, bottom=0.65)
        worksheet.set_footer(
            f"&L&8{footer_text(footer)}&C&8{footer_text(name)}&R&8Page &P of &N", {"margin": 0.3}
        )
        worksheet.hide_gridlines(2)
        if fit:
            worksheet.fit_to_pages(1, 0)
        made = BookSheet(self, worksheet, widths)
        self._sheets.append(made)
        return made

    def finish(self) -> None:
        """Set the row heights of all sheets."""
        for sheet in self._sheets:
            sheet.finish()


@cache
def _worksheet() -> Any:
    """Return a worksheet that takes formulas as they are: the library looks through each of them for thirty
    functions newer than the file's format, and ours have none."""
    from xlsxwriter.worksheet import Worksheet  # noqa: PLC0415 - kept out of the start of the command

    class PlainFormulas(Worksheet):  # type: ignore[misc, unused-ignore]
        def _prepare_formula(self, formula: str, expand_future_functions: bool = False) -> str:
            return formula.removeprefix("=")

    return PlainFormulas


@contextmanager
def new_book(path: Path, *, paper: str, created: date, title: str, author: str) -> Iterator[Book]:
    """Yield a new book and write it to `path` on a clean exit; nothing is written when the body raises."""
    import xlsxwriter  # noqa: PLC0415 - kept out of the start of the command

    workbook = xlsxwriter.Workbook(
        str(path),
        {
            "strings_to_formulas": False,
            "strings_to_urls": False,
            "strings_to_numbers": False,
            "in_memory": True,  # else each sheet is a file of its own first: a wait for the disk each
            # Column widths count digits of the default font; Arial has metric twins everywhere.
            "default_format_properties": {"font_name": "Arial", "font_size": 10},
        },
    )
    workbook.set_properties(
        {
            "title": cell_text(title),
            "author": cell_text(author),
            "created": datetime.combine(created, time()),
        }
    )
    book = Book(workbook, paper)
    yield book
    book.finish()
    workbook.close()
