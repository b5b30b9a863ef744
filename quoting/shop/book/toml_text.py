"""The text of `shop.toml` as TOML."""

from __future__ import annotations

import tomllib
from decimal import Decimal
from typing import Any

from quoting.core import InputError, Place


def parsed(text: str, file: str) -> dict[str, Any]:
    """Return what a TOML text holds, numbers as Decimal; InputError when it is none."""
    try:
        return tomllib.loads(text, parse_float=Decimal)
    except tomllib.TOMLDecodeError as error:
        raise InputError(
            "is not valid TOML",
            place=Place(file),
            read=str(error),
            would_do="check quotation marks and brackets there, and that each key stands once in its table",
        ) from error
