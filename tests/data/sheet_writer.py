"""Writes sheets of the second and the unseen corpus as the files a customer would send.

`python -m tests.data.sheet_writer FOLDER second_corpus` writes a whole corpus to look at.
"""

from __future__ import annotations

import csv
import io
import sys
from collections.abc import Callable
from datetime import date, datetime
from importlib import import_module
from pathlib import Path

import xlsxwriter

from tests.data.ods_writer import shown, write_ods
from tests.data.sheet_areas import Area
from tests.data.sheet_model import Cell, CellValue, Formula, Row, Sheet, Tab

FIRST_DAY = datetime(2026, 11, 30)


def write_sheet(sheet: Sheet, folder: Path) -> Path:
    """Write one sheet into the folder and return the file.

    Raises ValueError for a kind of file that is not known, or a text file with more than one tab.
    """
    file = folder / f"{sheet.name}.{sheet.kind}"
    if sheet.kind == "xlsx":
        _write_xlsx(sheet, file)
    elif sheet.kind == "ods":
        write_ods(sheet.tabs, file)
    elif sheet.kind in {"csv", "tsv", "txt"}:
        (only,) = sheet.tabs
        write = _lines if sheet.kind == "txt" else _table
        file.write_bytes(write(only, sheet).encode(sheet.encoding))
    else:
        raise ValueError(f"{sheet.name}: {sheet.kind!r} is none of xlsx, ods, csv, tsv, txt")
    return file


def _value(cell: CellValue) -> str | float | date | None:
    return cell.value if isinstance(cell, Cell | Formula) else cell


def _table(tab: Tab, sheet: Sheet) -> str:
    stream = io.StringIO(newline="")
    separator = "\t" if sheet.kind == "tsv" else sheet.separator
    writer = csv.writer(stream, delimiter=separator, lineterminator="\r\n")
    writer.writerows([shown(_value(cell)) for cell in row.cells] for row in tab.rows)
    return stream.getvalue()


def _lines(tab: Tab, sheet: Sheet) -> str:
    return "".join("\t".join(shown(_value(cell)) for cell in row.cells) + "\n" for row in tab.rows)


def _write_xlsx(sheet: Sheet, file: Path) -> None:
    with xlsxwriter.Workbook(str(file), {"strings_to_numbers": False, "in_memory": True}) as book:
        book.set_properties({"created": FIRST_DAY})
        for tab in sheet.tabs:
            _write_tab(book, tab)


def _write_tab(book: xlsxwriter.Workbook, tab: Tab) -> None:
    page = book.add_worksheet(tab.name)
    for area in map(Area.of, tab.merged):
        page.merge_range(area.top, area.left, area.bottom, area.right, "")
    for number, row in enumerate(tab.rows):
        if row.hidden:
            page.set_row(number, None, None, {"hidden": True})
        for column, cell in enumerate(row.cells):
            if cell is not None:
                _put(book, page, number, column, cell, row)
    for column in tab.hidden_columns:
        page.set_column(column - 1, column - 1, None, None, {"hidden": True})
    if tab.hidden:
        page.hide()


def _put(
    book: xlsxwriter.Workbook,
    page: xlsxwriter.worksheet.Worksheet,
    row: int,
    column: int,
    cell: CellValue,
    look: Row,
) -> None:
    styled = cell if isinstance(cell, Cell) else Cell(None)
    value = _value(cell)
    form = book.add_format(_form(styled, look, value))
    if isinstance(cell, Formula):
        page.write_formula(row, column, cell.text, form, cell.value)
    elif styled.struck:
        struck = book.add_format({"font_strikeout": True})
        page.write_rich_string(row, column, struck, styled.struck, form, shown(value), form)
    elif isinstance(value, str):
        page.write_string(row, column, value, form)
    elif isinstance(value, date):
        page.write_datetime(row, column, value, form)
    elif value is not None:
        page.write_number(row, column, value, form)
    if styled.comment:
        page.write_comment(row, column, styled.comment)


def _form(cell: Cell, row: Row, value: str | float | date | None) -> dict[str, object]:
    fmt = cell.fmt or ("yyyy-mm-dd" if isinstance(value, date) else "")
    looks: dict[str, object] = {
        "font_strikeout": row.strike or cell.strike,
        "bold": row.bold or cell.bold,
        "num_format": fmt,
    }
    return {name: look for name, look in looks.items() if look}


CORPORA = tuple(
    f"{name}_corpus"
    for name in (
        "second",
        "unseen",
        "third",
        "fourth",
        "fifth",
        "sixth",
        "seventh",
        "eighth",
        "ninth",
        "tenth",
        "eleventh",
        "twelfth",
        "thirteenth",
        "fourteenth",
        "fifteenth",
        "sixteenth",
        "seventeenth",
        "eighteenth",
        "nineteenth",
        "twentieth",
        "twenty_first",
        "twenty_second",
    )
)
"""All corpora of invented order sheets, each a folder beside this file."""


def corpus(name: str) -> tuple[Sheet, ...]:
    """Return all sheets of one of `CORPORA`."""
    found: Callable[[], tuple[Sheet, ...]] = import_module(f"tests.data.{name}").sheets
    return found()


def main(arguments: list[str]) -> None:
    """Write a corpus into a folder."""
    folder, name = arguments
    Path(folder).mkdir(parents=True, exist_ok=True)
    for one in corpus(name):
        write_sheet(one, Path(folder))


if __name__ == "__main__":
    main(sys.argv[1:])
