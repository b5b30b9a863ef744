"""File names that are safe on every system."""

from __future__ import annotations

import re
import unicodedata

_RESERVED = re.compile(r"^(con|prn|aux|nul|com\d|lpt\d)$", re.IGNORECASE)
_LONGEST_NAME = 60
UNFINISHED = "UNFINISHED.txt"
"""Stands in an output folder while the files of a run are put in place; left behind only by a killed run."""


def safe_name(text: str, *, fallback: str = "customer") -> str:
    """Return `text` as a file-name part that Windows, macOS and Linux all accept and no path can hide in.

    >>> safe_name("../Ünal & Sons: tanks?")
    'unal-sons-tanks'
    """
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode()
    name = re.sub(r"[^a-z0-9]+", "-", plain.lower()).strip("-")[:_LONGEST_NAME].strip("-")
    return fallback if not name or _RESERVED.match(name) else name
