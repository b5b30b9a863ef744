"""Order lines to try the path with."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from quoting.core import Basis, Cylinder, Ends, Order, OrderLine, Place

SHELL = OrderLine(
    id="A-1",
    number="1",
    customer="Example (invented)",
    place=Place("orders.xlsx", "RFQ", 2),
    quantity=2,
    shape=Cylinder(762.0, Basis.OUTSIDE, 1219.2),
    thickness_mm=6.35,
    material="A36",
    ends=Ends.PRE_BEND,
)


def shell(id: str = "A-1", **changes: Any) -> OrderLine:
    """Return the sample shell under another id, in a row of its own, with some fields changed."""
    number = id.rpartition("-")[2]
    row = int("".join(ch for ch in number if ch.isdigit()) or 0) + 1
    place = replace(SHELL.place, row=row)
    return replace(SHELL, id=id, number=number, place=place, **changes)


def order(*lines: OrderLine) -> Order:
    """Return an order of these lines."""
    return Order("orders.xlsx", "Example (invented)", lines=lines)
