"""The shop's book turned from one of its forms into the other; the one before is kept under another name."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from quoting.core import InputError, Place
from quoting.shop.book import read_tables
from quoting.shop.forms import text_of_tables, write_workbook
from quoting.shop.loader import BOOK, WORKBOOK, book_tables


def convert_book(directory: Path) -> tuple[Path, Path]:
    """Write the other form of a shop's book, and return its path and where the one before now is.

    Every setting, its unit and whose figure it is are kept; remarks of one's own in a text form are not.
    Raises InputError, and changes nothing, when the book cannot be used or the folder not be written to.
    """
    tables, ours = book_tables(directory)
    read_tables(tables)
    old, new = (BOOK, WORKBOOK) if (directory / BOOK).exists() else (WORKBOOK, BOOK)
    kept = _free_name(directory, old)
    try:
        with tempfile.TemporaryDirectory(prefix=".staging-", dir=directory) as staging:
            made = Path(staging) / new
            if new == WORKBOOK:
                write_workbook(made, tables.data, ours, tables.worked_out)
            else:
                made.write_text(text_of_tables(tables.data, ours, tables.worked_out), "utf-8")
            os.rename(directory / old, kept)
            made.rename(directory / new)
    except OSError as error:
        raise InputError(
            f"cannot be written to ({error.strerror or error})",
            place=Place(str(directory)),
            would_do="close the book if another program has it open, and check that you may write there",
        ) from error
    return directory / new, kept


def _free_name(directory: Path, name: str) -> Path:
    stem, ending = name.split(".")
    names = (directory / f"{stem}-before{'' if n == 1 else f'-{n}'}.{ending}" for n in range(1, 1000))
    return next(path for path in names if not path.exists())
