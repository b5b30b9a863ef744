"""Opens a customer's file as sheets of cells."""

from __future__ import annotations

import hashlib
import os
from pathlib import Path

from quoting.core import InputError, Place
from quoting.tables.limits import Limits
from quoting.tables.sheet import Sheet
from quoting.tables.text_tables import read_text

BOOKS = frozenset((".xlsx", ".xlsm", ".xls", ".ods"))
TEXTS = frozenset((".csv", ".tsv", ".txt"))


def read_sheets(path: str | os.PathLike[str], limits: Limits) -> tuple[Sheet, ...]:
    """Return the sheets of a file; InputError when it cannot be read or breaks a limit."""
    file = Path(path)
    place = Place(file.name)
    if file.is_symlink():
        raise InputError("is a link to another file", place=place, would_do="give the file itself")
    if not file.is_file():
        raise InputError("there is no such file", place=place, would_do="check its name and folder")
    size = file.stat().st_size
    if size == 0:
        raise InputError("the file is empty", place=place, would_do="ask for it again")
    if size > limits.file_bytes:
        raise InputError(
            f"the file has {size / 1e6:.0f} MB, more than the limit of {limits.file_bytes / 1e6:.0f} MB",
            place=place,
            would_do="send the order sheet alone, without pictures",
        )
    suffix = file.suffix.lower()
    if suffix in TEXTS:
        return (read_text(file, limits),)
    if suffix in BOOKS:
        from quoting.tables.workbooks import (  # noqa: PLC0415 - the reader is only loaded for workbooks
            read_book,
        )

        return read_book(file, limits)
    raise InputError(
        f"files of kind {suffix or 'without an ending'} are not read",
        place=place,
        would_do="save it as .xlsx, .ods or .csv",
    )


def digest_of(path: str | os.PathLike[str]) -> str:
    """Return a short digest of what is in a file: the same for the same sheet, whatever it is called."""
    with Path(path).open("rb") as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest()[:16]
