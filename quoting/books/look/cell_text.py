"""Text from outside, made fit for a cell: whole, harmless and inside what a cell holds."""

from __future__ import annotations

import re

_LONGEST = 32_767
"""Characters in one cell (limit of the file format)."""

_CONTROL = re.compile("[\x00-\x08\x0b-\x1f\x7f\ufffe\uffff]")


def cell_text(text: str) -> str:
    """Return text without control characters and halves of characters, cut where a cell would end.

    >>> cell_text("=1+1\\x07")
    '=1+1'
    """
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    clean = _CONTROL.sub("", text).encode("utf-8", "ignore").decode("utf-8")
    return clean if len(clean) <= _LONGEST else clean[: _LONGEST - 1] + "…"


def footer_text(text: str) -> str:
    """Return text for a page footer, where `&` opens a code and a digit after a size would join it.

    >>> footer_text("Smith & Sons")
    ' Smith && Sons'
    """
    return " " + cell_text(text).replace("\n", " ").replace("&", "&&")[:80]


def listed(items: list[str] | tuple[str, ...]) -> str:
    """Return items as a person lists them.

    >>> listed(("1", "2", "5"))
    '1, 2 and 5'
    """
    return " and ".join(filter(None, (", ".join(items[:-1]), items[-1]))) if items else ""
