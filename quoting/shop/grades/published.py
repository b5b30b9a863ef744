"""The grades of the table beside the code, and what customers call them."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Mapping
from decimal import Decimal
from importlib.resources import files
from typing import Any

from quoting.shop.model import Material

GAUGE_TABLES = ("steel", "galvanized", "stainless", "aluminium")
_NOISE = re.compile(r"\b(astm|asme|aisi|en|csa|grade|gr|type|plate)\b\.?")


def published_grades() -> dict[str, dict[str, Any]]:
    """Return the rows of `materials.toml` by key, each filled up with the defaults of its family."""
    book = tomllib.loads(
        files(__package__).joinpath("materials.toml").read_text("utf-8"), parse_float=Decimal
    )
    defaults: dict[str, dict[str, Any]] = book["defaults"]
    return {row["key"]: {**_without_twins(defaults[row["family"]], row), **row} for row in book["material"]}


def _without_twins(defaults: Mapping[str, Any], row: Mapping[str, Any]) -> dict[str, Any]:
    """Drop a default that the row gives in another unit, so that each quantity stands once."""
    given = {kind for kind in ("density", "elastic") for key in row if key.startswith(kind)}
    return {key: value for key, value in defaults.items() if key.split("_")[0] not in given}


def plain_name(text: str) -> str:
    """Return a grade name without case, punctuation and the words that say nothing about the grade.

    >>> plain_name("ASME SA-516 Gr. 70N") == plain_name("sa516-70n")
    True
    """
    return re.sub(r"[^a-z0-9]", "", _NOISE.sub(" ", text.casefold()))


def find_material(text: str, materials: Iterable[Material]) -> Material | None:
    """Return the grade that goes by this name, or None: the key first, then the names, never a guess."""
    wanted = plain_name(text)
    if not wanted:
        return None
    known = tuple(materials)
    by_key = (material for material in known if plain_name(material.key) == wanted)
    by_name = (m for m in known if any(plain_name(name) == wanted for name in m.names))
    return next(by_key, None) or next(by_name, None)
