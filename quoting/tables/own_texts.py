"""The shop's own texts: its book, its wishes, what it keeps. Read whole, but only where they are files."""

from __future__ import annotations

import re
import stat
import tomllib
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import Any

from quoting.core import InputError, Place

_MOST_BYTES = 50_000_000
_MOST_SETTINGS = 1_000_000
"""Letters of a TOML text: thirty times the longest book; a million take the parser about a second."""
_DEEP_KEY = re.compile(r"(?<![\w.\"'-])[\w\"'-]+(?:[ \t]*\.[ \t]*[\w\"'-]+){40}")
"""A key in a key in a key: the parser's time grows with the square of how many."""
_NO_FILES = (
    (stat.S_ISDIR, "is a folder", "give the files in it"),
    (stat.S_ISFIFO, "is a pipe between programs and no file", "give a file"),
    (stat.S_ISSOCK, "is a socket and no file", "give a file"),
    (stat.S_ISCHR, "is a device and no file", "give a file"),
    (stat.S_ISBLK, "is a device and no file", "give a file"),
)


def read_own_text(path: Path, what: str, *, missing: str = "", mend: str = "") -> str:
    """Return the UTF-8 text of a file.

    Raises InputError, which calls it `what`, when it is no file, too large, no UTF-8, or cannot be read;
    `missing` says what would do when there is none, `mend` when it cannot be read.
    """
    place = Place(str(path))
    try:
        check_plain(path.stat().st_mode, place)
        with path.open("rb") as stream:
            data = stream.read(_MOST_BYTES + 1)
        if len(data) > _MOST_BYTES:
            raise InputError(f"{what} has more than {_MOST_BYTES / 1e6:.0f} MB", place=place, would_do=mend)
        return data.decode("utf-8-sig").replace("\r\n", "\n")
    except FileNotFoundError as error:
        raise InputError(f"{what} is missing", place=place, would_do=missing) from error
    except UnicodeDecodeError as error:
        raise InputError(
            f"{what} is no UTF-8 text", place=place, would_do=mend or "save it again as UTF-8"
        ) from error
    except (OSError, ValueError) as error:
        read = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
        raise InputError(f"{what} cannot be read", place=place, read=read, would_do=mend) from error


def toml_data(text: str, place: Place) -> dict[str, Any]:
    """Return the tables of a TOML text; numbers with a point come as Decimal.

    Raises InputError when it is no TOML, nests too deeply, or holds a number that no program can hold.
    """
    if len(text) > _MOST_SETTINGS or _DEEP_KEY.search(text):
        raise InputError(
            "is not valid TOML",
            place=place,
            read="a text far too long" if len(text) > _MOST_SETTINGS else "keys in keys in keys",
            would_do="start from a text that this program has written",
        )
    try:
        return tomllib.loads(text, parse_float=_decimal)
    except RecursionError as error:
        raise InputError("is not valid TOML", place=place, read="brackets in brackets in brackets") from error
    except ValueError as error:
        raise InputError(
            "is not valid TOML",
            place=place,
            read=str(error)[:200],
            would_do=_how_to_mend(text, str(error)),
        ) from error


def _how_to_mend(text: str, told: str) -> str:
    """Return what would do on the line that the parser stopped at."""
    line = re.search(r"at line (\d+)", told)
    written = text.splitlines()[int(line[1]) - 1] if line and int(line[1]) <= text.count("\n") + 1 else ""
    found = re.match(r"\s*([\w-]+)\s*=\s*([\d'][^#]*?)\s*(?:#.*)?$", written)
    if found:
        return f'write {found[1]} = "{found[2].replace(chr(34), " in")}", with quotation marks' + (
            " (or the number alone)" if "/" not in found[2] and "'" not in found[2] else ""
        )
    return "check quotation marks and brackets there, and that each key stands once in its table"


def _decimal(text: str) -> Decimal:
    try:
        return Decimal(text)
    except InvalidOperation as error:
        raise ValueError(f"{text[:40]} is no number that can be reckoned with") from error


def check_plain(mode: int, place: Place) -> None:
    """Refuse what is no file, by what it is: reading it could wait for ever or never end."""
    for is_kind, problem, would_do in _NO_FILES:
        if is_kind(mode):
            raise InputError(problem, place=place, would_do=would_do)
