"""Opens a file that somebody gave: sees what it is, and has it read in a process of its own."""

from __future__ import annotations

import hashlib
import os
import stat
from collections.abc import Sequence
from pathlib import Path

from quoting.core import InputError, Place, shown_name
from quoting.tables.child import ask_formulas, ask_sheets
from quoting.tables.kinds import BOOKS, MAILS, PAGES, TEXTS
from quoting.tables.limits import Limits
from quoting.tables.own_texts import check_plain
from quoting.tables.sheet import FormulaBook, Sheet

PACKED = (".zip", ".7z", ".rar")
UNPACK = "unpack it and give the order sheets that are in it"


def read_sheets(path: str | os.PathLike[str], limits: Limits, *, links: bool = False) -> tuple[Sheet, ...]:
    """Return the sheets of a file; InputError when it cannot be read or breaks a limit.

    A link to another file is only followed with `links`: in the shop's own folder, not in a customer's mail.
    """
    file = Path(path)
    _check(file, limits, links=links)
    if file.suffix.lower() not in BOOKS | TEXTS | PAGES | MAILS:
        raise InputError(
            f"files of kind {file.suffix.lower() or 'without an ending'} are not read",
            place=Place(shown_name(file)),
            would_do=UNPACK if file.suffix.lower() in PACKED else "save it as .xlsx, .ods or .csv",
        )
    return ask_sheets(file, limits)


def read_formula_book(path: Path, sheets: Sequence[str], limits: Limits | None = None) -> FormulaBook:
    """Return the named sheets of a workbook with values, formulas and names, as far as they are there."""
    limits = limits or Limits()
    _check(path, limits, links=True)
    return ask_formulas(path, sheets, limits)


def _check(file: Path, limits: Limits, *, links: bool) -> None:
    place = Place(shown_name(file))
    try:
        found = file.stat() if links else file.lstat()
    except FileNotFoundError as error:
        raise InputError(
            "there is no such file", place=place, would_do="check its name and folder"
        ) from error
    except (OSError, ValueError) as error:
        read = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
        raise InputError("cannot be read", place=place, read=read) from error
    if stat.S_ISLNK(found.st_mode):
        raise InputError("is a link to another file", place=place, would_do="give the file itself")
    check_plain(found.st_mode, place)
    if found.st_size == 0:
        raise InputError("the file is empty", place=place, would_do="ask for it again")
    if found.st_size > limits.file_bytes:
        raise InputError(
            f"the file has {found.st_size / 1e6:.0f} MB, more than the limit of"
            f" {limits.file_bytes / 1e6:.0f} MB",
            place=place,
            would_do="send the order sheet alone, without pictures",
        )


def digest_of(path: str | os.PathLike[str]) -> str:
    """Return a short digest of what is in a file: the same for the same sheet, whatever it is called.

    Nothing for what `read_sheets` refuses unread: a link, a folder, a device, a file far too large.
    """
    file = Path(path)
    try:
        found = file.lstat()
        if not stat.S_ISREG(found.st_mode) or found.st_size > Limits().file_bytes:
            return ""
        with file.open("rb") as stream:
            return hashlib.file_digest(stream, "sha256").hexdigest()[:16]
    except (OSError, ValueError):
        return ""
