"""The invented shop's rack. Sizes in inches; plate prices are examples, heat numbers are made up."""

from __future__ import annotations

from typing import TypeAlias

from quoting.shop.starter.rack_book import RackLine

_Size: TypeAlias = tuple[float | str, float | str, float | str]

NOTE = "DEMO: invented shop, invented plates, example prices and heat numbers"


def _plate(  # one row of the table below
    id_: str,
    material: str,
    size: _Size,
    edge: str,
    quantity: int,
    price: float | None,
    heat: str,
) -> RackLine:
    per = "lb" if price is not None else ""
    return RackLine(id_, material, *size, edge=edge, quantity=quantity, price=price, per=per, heat=heat)


def _remnant(id_: str, material: str, size: _Size, price: float | None = None, heat: str = "") -> RackLine:
    per = "plate" if price is not None else ""
    return RackLine(id_, material, *size, edge="trimmed", price=price, per=per, heat=heat, remnant="yes")


def _buy(id_: str, material: str, size: _Size, edge: str, price: float | None, days: int) -> RackLine:
    per = "lb" if price is not None else ""
    return RackLine(id_, material, *size, edge=edge, price=price, per=per, lead_days=days)


RACK = (
    _plate("P-101", "A36", (0.1875, 60, 120), "trimmed", 4, 0.61, "X20441"),
    _plate("P-102", "A36", (0.1875, 72, 144), "mill", 2, 0.60, "X20441"),
    _plate("P-103", "A36", (0.25, 60, 120), "trimmed", 6, 0.62, "X20457"),
    _plate("P-104", "A36", (0.25, 72, 240), "mill", 3, 0.60, "X20462"),
    _plate("P-105", "A36", (0.25, 97, 240), "mill", 2, 0.60, "X20470"),
    _plate("P-106", "A36", (0.375, 72, 240), "mill", 2, 0.61, "X20513"),
    _plate("P-107", "A36", (0.375, 97, 240), "mill", 2, 0.61, "X20519"),
    _plate("P-108", "A36", (0.5, 72, 240), "mill", 1, 0.62, "X20533"),
    _plate("P-109", "A1011 CS", (0.0747, 48, 120), "trimmed", 5, 0.57, ""),
    _plate("P-110", "A1011 CS", (0.1345, 60, 120), "trimmed", 3, 0.57, ""),
    _plate("P-201", "A516-70", (0.375, 84, 240), "mill", 2, 0.79, "Y71102"),
    _plate("P-202", "A516-70", (0.5, 97, 240), "mill", 2, 0.78, "Y71138"),
    _plate("P-203", "A516-70", (1.0, 97, 240), "mill", 1, 0.80, "Y71155"),
    _plate("P-204", "A572-50", (0.25, 97, 240), "mill", 1, 0.68, "X31007"),
    _plate("P-205", "AR400", (0.375, 72, 144), "mill", 1, 1.15, "W90012"),
    _plate("P-301", "304/304L", (0.125, 48, 120), "trimmed", 4, 2.05, "Z55210"),
    _plate("P-302", "304/304L", (0.1875, 60, 120), "trimmed", 3, 2.08, "Z55231"),
    _plate("P-303", "304/304L", (0.25, 60, 144), "trimmed", 1, 2.10, "Z55248"),
    _plate("P-304", "316/316L", (0.25, 72, 144), "trimmed", 1, 2.98, "Z60117"),
    _plate("P-401", "galvanized", (0.0635, 48, 120), "trimmed", 6, 0.74, ""),
    _plate("P-402", "galvanized", (0.0516, 48, 96), "trimmed", 8, 0.74, ""),
    _plate("P-403", "5052-H32", (0.125, 48, 144), "trimmed", 2, 2.60, ""),
    _remnant("R-07", "A36", (0.25, 38, 92), 75.00),
    _remnant("R-09", "A36", (0.25, 30, 64), 40.00, "X20398"),
    _remnant("R-11", "A36", (0.375, 26, 110)),
    _remnant("R-12", "A36", (0.375, 40, 58)),
    _remnant("R-15", "A36", (0.5, 40, 118), 270.00, "X20401"),
    _remnant("R-16", "A36", (0.1875, 33, 70)),
    _remnant("R-18", "A516-70", (0.5, 28, 88), 180.00, "Y70987"),
    _remnant("R-21", "304/304L", (0.1875, 24, 100), 160.00, "Z54822"),
    _remnant("R-22", "304/304L", (0.125, 20, 60)),
)

BUYABLE = (
    _buy("B-A36-3/16-60", "A36", (0.1875, 60, 120), "trimmed", 0.64, 3),
    _buy("B-A36-3/16-72", "A36", (0.1875, 72, 240), "mill", 0.62, 4),
    _buy("B-A36-1/4-60", "A36", (0.25, 60, 120), "trimmed", 0.64, 3),
    _buy("B-A36-1/4-97", "A36", (0.25, 97, 240), "mill", 0.62, 4),
    _buy("B-A36-3/8-72", "A36", (0.375, 72, 240), "mill", 0.62, 4),
    _buy("B-A36-3/8-97", "A36", (0.375, 97, 240), "mill", 0.62, 4),
    _buy("B-A36-1/2-97", "A36", (0.5, 97, 240), "mill", 0.63, 5),
    _buy("B-A36-1-1/4-121", "A36", (1.25, 121, 480), "mill", 0.70, 12),
    _buy("B-516-3/8-97", "A516-70", (0.375, 97, 240), "mill", 0.80, 6),
    _buy("B-516-1/2-97", "A516-70", (0.5, 97, 240), "mill", 0.80, 6),
    _buy("B-516-1-97", "A516-70", (1.0, 97, 240), "mill", 0.82, 8),
    _buy("B-572-1/4-97", "A572-50", (0.25, 97, 240), "mill", 0.70, 5),
    _buy("B-AR-3/8-96", "AR400", (0.375, 96, 240), "mill", None, 6),
    _buy("B-304-1/8-48", "304/304L", (0.125, 48, 120), "trimmed", 2.12, 4),
    _buy("B-304-3/16-60", "304/304L", (0.1875, 60, 120), "trimmed", 2.12, 4),
    _buy("B-304-3/16-97", "304/304L", (0.1875, 97, 240), "mill", 2.05, 7),
    _buy("B-316-1/4-72", "316/316L", (0.25, 72, 144), "trimmed", None, 7),
    _buy("B-GALV-16-48", "galvanized", (0.0635, 48, 120), "trimmed", None, 3),
    _buy("B-GALV-18-48", "galvanized", (0.0516, 48, 96), "trimmed", None, 3),
    _buy("B-5052-1/8-48", "5052-H32", (0.125, 48, 144), "trimmed", None, 4),
    _buy("B-S235-3-1500", "S235JR", ("3 mm", "1500 mm", "3000 mm"), "trimmed", None, 5),
    _buy("B-S235-6-1500", "S235JR", ("6 mm", "1500 mm", "3000 mm"), "trimmed", None, 5),
    _buy("B-S235-6-2000", "S235JR", ("6 mm", "2000 mm", "6000 mm"), "mill", None, 6),
    _buy("B-S235-8-2000", "S235JR", ("8 mm", "2000 mm", "6000 mm"), "mill", None, 6),
    _buy("B-S355-8-2000", "S355J2", ("8 mm", "2000 mm", "6000 mm"), "mill", None, 6),
    _buy("B-S355-12-2000", "S355J2", ("12 mm", "2000 mm", "6000 mm"), "mill", None, 7),
    _buy("B-P265-10-2000", "P265GH", ("10 mm", "2000 mm", "6000 mm"), "mill", None, 7),
    _buy("B-4301-4-1500", "1.4301", ("4 mm", "1500 mm", "3000 mm"), "trimmed", None, 6),
    _buy("B-4301-5-1500", "1.4301", ("5 mm", "1500 mm", "6000 mm"), "trimmed", None, 9),
    _buy("B-4404-5-1500", "1.4404", ("5 mm", "1500 mm", "3000 mm"), "trimmed", None, 6),
)
