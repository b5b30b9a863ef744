"""What the workbooks that a shop fills in by hand have in common: formats, print set-up, drop-down lists."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from pathlib import Path
from typing import Any

# A fixed date keeps a file the same, byte for byte, from one run to the next.
WRITTEN = datetime(2026, 1, 1)
LONGEST_LIST = 255
"""Characters of a drop-down list written into the cell rule; the file format allows no more."""


def open_book(path: Path, *, title: str, note: str) -> Any:
    """Return a new workbook with its properties set; close it to write the file."""
    import xlsxwriter  # noqa: PLC0415 - slow to import, and only needed when a file is written

    book = xlsxwriter.Workbook(str(path))
    book.set_properties({"title": title, "comments": note, "created": WRITTEN})
    return book


def formats_of(book: Any) -> dict[str, Any]:
    """Return the formats by name; greys only, so that a black-and-white print reads as well."""
    grid = {"border": 1, "border_color": "#A6A6A6", "valign": "vcenter"}
    return {
        "title": book.add_format({"bold": True, "font_size": 14}),
        "note": book.add_format({"italic": True, "font_color": "#404040"}),
        "help": book.add_format(
            {"italic": True, "font_color": "#404040", "text_wrap": True, "valign": "top"}
        ),
        "label": book.add_format({"bold": True, "align": "right"}),
        "fill": book.add_format({"bottom": 1, "align": "left"}),
        "head": book.add_format(
            {**grid, "bold": True, "bg_color": "#D9D9D9", "text_wrap": True, "align": "center"}
        ),
        "text": book.add_format({**grid, "num_format": "@", "align": "center"}),
        "number": book.add_format({**grid, "num_format": "General", "align": "center"}),
        "money": book.add_format({**grid, "num_format": "#,##0.00", "align": "center"}),
        "date": book.add_format({**grid, "num_format": "yyyy-mm-dd", "align": "center"}),
        "wrap": book.add_format({"text_wrap": True, "valign": "top"}),
    }


def set_up_page(page: Any, *, header_row: int, last_row: int, last_column: int) -> None:
    """Print landscape, one page wide, the header row on every page and page numbers at the foot."""
    page.set_landscape()
    page.fit_to_pages(1, 0)
    page.repeat_rows(header_row)
    page.print_area(0, 0, last_row, last_column)
    page.set_margins(0.5, 0.5, 0.6, 0.7)
    page.set_footer("&L&F, &A&RPage &P of &N")


def add_list(
    page: Any, rows: tuple[int, int], column: int, words: Sequence[str], *, hint: tuple[str, str] = ("", "")
) -> None:
    """Give the rows of a column a drop-down list; other words are allowed after a question.

    `hint` is the title and text shown beside the cell. Raises ValueError when the list is longer than the
    file format allows.
    """
    if len(",".join(words)) > LONGEST_LIST:
        raise ValueError(f"a drop-down list may have {LONGEST_LIST} characters at most")
    rule: dict[str, Any] = {"validate": "list", "source": list(words), "error_type": "warning"}
    if hint[0]:
        rule.update(input_title=hint[0], input_message=hint[1])
    page.data_validation(rows[0], column, rows[1], column, rule)


def add_hint(page: Any, rows: tuple[int, int], column: int, title: str, text: str) -> None:
    """Show a hint beside the cells of a column without limiting what they take."""
    page.data_validation(
        rows[0], column, rows[1], column, {"validate": "any", "input_title": title, "input_message": text}
    )
