"""Opens workbooks with calamine: the fastest reader that keeps values, dates and merged cells (see the docs)."""

from __future__ import annotations

from pathlib import Path

import python_calamine as calamine

from quoting.errors import InputError, Place
from quoting.intake.limits import Limits
from quoting.intake.sheet import Cell, Sheet

_RESAVE = "open it in a spreadsheet program and save it as .xlsx"


def read_book(file: Path, limits: Limits) -> tuple[Sheet, ...]:
    """Return all sheets of a workbook; InputError when it is none, is locked, broken or too large."""
    place = Place(file.name)
    try:
        with calamine.CalamineWorkbook.from_path(str(file)) as book:
            return tuple(_sheet(book, index, file.name, limits) for index in range(len(book.sheet_names)))
    except calamine.PasswordError as error:
        raise InputError(
            "the workbook is locked with a password", place=place, would_do="ask for one without"
        ) from error
    except (calamine.CalamineError, calamine.XmlError, calamine.ZipError, OSError) as error:
        raise InputError(
            "cannot be read as a workbook", place=place, read=str(error)[:80], would_do=_RESAVE
        ) from error


def _sheet(book: calamine.CalamineWorkbook, index: int, file: str, limits: Limits) -> Sheet:
    data = book.get_sheet_by_index(index)
    meta = book.sheets_metadata[index]
    rows = data.to_python(skip_empty_area=False) if data.end else []
    cells: list[list[Cell]] = rows  # type: ignore[assignment]
    merged = tuple((*top, *bottom) for top, bottom in data.merged_cell_ranges or ())
    return Sheet(file, data.name, cells, meta.visible != calamine.SheetVisibleEnum.Visible, merged=merged)
