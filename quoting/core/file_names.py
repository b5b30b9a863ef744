"""File names that are safe on every system."""

from __future__ import annotations

import re
import unicodedata
from pathlib import PurePath

_RESERVED = re.compile(r"^(con|prn|aux|nul|com\d|lpt\d)$", re.IGNORECASE)
_LONGEST_NAME = 60
_LONGEST_SHOWN = 100
UNFINISHED = "UNFINISHED.txt"
"""Stands in an output folder while the files of a run are put in place; left behind only by a killed run."""


def shown_name(path: PurePath) -> str:
    """Return the name of a file as it can be shown and written into a book, however long or broken it is.

    >>> shown_name(PurePath("orders/Ridge.xlsx")), len(shown_name(PurePath("x" * 5000)))
    ('Ridge.xlsx', 100)
    """
    plain = path.name.encode("utf-8", "replace").decode("utf-8")
    plain = plain if plain.isprintable() else "".join(sign if sign.isprintable() else " " for sign in plain)
    return plain if len(plain) <= _LONGEST_SHOWN else f"{plain[:60]} ... {plain[-35:]}"


def safe_name(text: str, *, fallback: str = "customer") -> str:
    """Return `text` as a file-name part that Windows, macOS and Linux all accept and no path can hide in.

    >>> safe_name("../Ünal & Sons: tanks?")
    'unal-sons-tanks'
    """
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode()
    name = re.sub(r"[^a-z0-9]+", "-", plain.lower()).strip("-")[:_LONGEST_NAME].strip("-")
    return fallback if not name or _RESERVED.match(name) else name
