"""Grades: the table beside the code, what the shop's book changes or adds, and names to grades."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Mapping
from decimal import Decimal
from importlib.resources import files
from typing import Any

from quoting.shop.model import Family, Material
from quoting.shop.quantities import DENSITY, MONEY_PER_WEIGHT, STRESS
from quoting.shop.table import Table

GAUGE_TABLES = ("steel", "galvanized", "stainless", "aluminium")
_NOISE = re.compile(r"\b(astm|asme|aisi|en|csa|grade|gr|type|plate|sheet)\b\.?")


def published_grades() -> dict[str, dict[str, Any]]:
    """Return the rows of `materials.toml` by key, each filled up with the defaults of its family."""
    book = tomllib.loads(
        files("quoting.shop").joinpath("materials.toml").read_text("utf-8"), parse_float=Decimal
    )
    defaults: dict[str, dict[str, Any]] = book["defaults"]
    return {row["key"]: {**_without_twins(defaults[row["family"]], row), **row} for row in book["material"]}


def _without_twins(defaults: Mapping[str, Any], row: Mapping[str, Any]) -> dict[str, Any]:
    """Drop a default that the row gives in another unit, so that each quantity stands once."""
    given = {kind for kind in ("density", "elastic") for key in row if key.startswith(kind)}
    return {key: value for key, value in defaults.items() if key.split("_")[0] not in given}


def read_material(table: Table, price_per_kg: Decimal) -> Material | None:
    """Return one grade; the shop's own table may leave out what the grade's fallback holds."""
    names = tuple(dict.fromkeys((*table.texts("names"), *table.fallback.get("names", ()))))
    strength = table.optional_quantity("strength", STRESS, positive=True)
    hardening = table.raw("hardening", needed=False)
    gauge_table = table.text("gauge_table", default="steel")
    if gauge_table not in GAUGE_TABLES:
        table.wrong("gauge_table", f"must be one of {', '.join(map(repr, GAUGE_TABLES))}")
    if any(table.has(key) for key in MONEY_PER_WEIGHT.keys("price")):
        price_per_kg = table.money_per("price", MONEY_PER_WEIGHT)
    table.known.extend(MONEY_PER_WEIGHT.keys("price"))
    material = Material(
        key=table.text("key"),
        family=table.choice("family", Family),
        names=names,
        density_kg_m3=table.quantity("density", DENSITY, positive=True),
        elastic_mpa=table.quantity("elastic", STRESS, positive=True),
        poisson=table.number("poisson", least=0.0, most=0.49),
        yield_low_mpa=table.quantity("yield_low", STRESS, positive=True),
        yield_likely_mpa=table.quantity("yield_likely", STRESS, positive=True),
        yield_high_mpa=table.quantity("yield_high", STRESS, positive=True),
        tensile_mpa=table.quantity("tensile", STRESS, positive=True),
        strength_mpa=strength,
        hardening=None if hardening is None else table.number("hardening", least=0.0, most=1.0),
        least_bend_radius_t=table.number("least_bend_radius_t", least=0.0),
        strain_flag_percent=table.number("strain_flag_percent", least=0.0),
        grain_matters=table.flag("grain_matters", default=False),
        gauge_table=gauge_table,
        price_per_kg=price_per_kg,
        source=table.text("source", default="the shop's book"),
    )
    table.close()
    if not material.yield_low_mpa <= material.yield_likely_mpa <= material.yield_high_mpa and table.sound:
        table.findings.problem(
            table.where("yield_likely_mpa"), "the yield must rise from low over likely to high"
        )
    return material if table.sound else None


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
