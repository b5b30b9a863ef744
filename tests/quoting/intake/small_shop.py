"""A shop just large enough to read orders for; every number in it is invented."""

from __future__ import annotations

from dataclasses import fields
from datetime import date
from decimal import Decimal
from typing import Any

from quoting.core import Ends
from quoting.shop import Edge, Family, Material, Shop, StockPlate

TODAY = date(2026, 3, 2)
INCH = 25.4


def _material(key: str, family: Family, names: tuple[str, ...], gauge_table: str) -> Material:
    return Material(key, family, names, 7850, 200_000, 0.3, 250, 300, 380, 450, gauge_table=gauge_table)


MATERIALS = (
    _material("A36", Family.CARBON, ("A36", "ASTM A36", "SA-36"), "steel"),
    _material("SA-516-70", Family.CARBON, ("SA-516-70", "A516-70", "SA516 GR 70", "516-70"), "steel"),
    _material("304L", Family.STAINLESS, ("304L", "SS304L", "304L SS", "1.4307"), "stainless"),
    _material("316L", Family.STAINLESS, ("316L", "SS316L", "316L SS", "1.4404"), "stainless"),
    _material("AR400", Family.CARBON, ("AR400", "AR 400"), "steel"),
    _material("5052-H32", Family.ALUMINIUM, ("5052-H32", "5052"), "aluminium"),
)
THICK_INCH = (0.1345, 0.1875, 0.25, 0.375, 0.5, 0.75, 1.0)
THICK_MM = (3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 16.0, 20.0)


MORE_INCH = (0.1019, 0.125, 0.140625, 0.3, 2.0)
MORE_MM = (2.0,)
"""Sizes of every grade but the two commonest: whoever lists a rack is asked for what is not in it."""


def _stock() -> tuple[StockPlate, ...]:
    common = [inches * INCH for inches in THICK_INCH] + list(THICK_MM)
    more = [*common, *(inches * INCH for inches in MORE_INCH), *MORE_MM]
    return tuple(
        StockPlate(f"{key}-{size:.3f}", key, size, 96 * INCH, 240 * INCH, Edge.MILL, None, Decimal(1))
        for key in (material.key for material in MATERIALS)
        for size in (common if key in ("A36", "304L") else more)
    )


def small_shop(*, stock: bool = True) -> Shop:
    """Return a shop of which only the materials, the stock and the default ends are filled."""
    known: dict[str, Any] = {
        "name": "Invented Rolling",
        "inch": True,
        "materials": MATERIALS,
        "stock": _stock() if stock else (),
        "default_ends": Ends.PRE_BEND,
    }
    unused: Any = None
    return Shop(**{field.name: known.get(field.name, unused) for field in fields(Shop)})
