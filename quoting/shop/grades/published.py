"""The grades of the table beside the code."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from decimal import Decimal
from functools import cache
from importlib.resources import files
from typing import Any

GAUGE_TABLES = ("steel", "galvanized", "stainless", "aluminium")


@cache
def published_grades() -> Mapping[str, Mapping[str, Any]]:
    """Return the rows of `materials.toml` by key, each filled up with the defaults of its family; nobody
    changes them.
    """
    book = _book()
    defaults: dict[str, dict[str, Any]] = book["defaults"]
    return {row["key"]: {**_without_twins(defaults[row["family"]], row), **row} for row in book["material"]}


def _without_twins(defaults: Mapping[str, Any], row: Mapping[str, Any]) -> dict[str, Any]:
    """Drop a default that the row gives in another unit, so that each quantity stands once."""
    given = {kind for kind in ("density", "elastic") for key in row if key.startswith(kind)}
    return {key: value for key, value in defaults.items() if key.split("_")[0] not in given}


def usual_grades() -> tuple[str, ...]:
    """Return the keys of the grades that drop-down lists offer; the other grades are known by name too."""
    return tuple(_book()["usual"])


@cache
def _book() -> dict[str, Any]:
    """Return the table as it is in the file; nobody changes it."""
    text = files(__package__).joinpath("materials.toml").read_text("utf-8")
    return tomllib.loads(text, parse_float=Decimal)
