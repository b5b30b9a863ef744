"""An invented mixed order, to weigh a shop's settings with before it has quoted anything."""

from __future__ import annotations

from quoting.core import (
    Arc,
    Basis,
    Cone,
    Cylinder,
    EdgeKind,
    EdgePlace,
    EdgePrep,
    Ends,
    Order,
    OrderLine,
    Penetration,
    Place,
    Shape,
    SheetRow,
    State,
    WeldAsked,
)
from quoting.shop import Shop

FILE = "mixed order (invented)"
_INCH = 25.4
_SHAPES: tuple[tuple[Shape, float, int, Ends], ...] = (
    (Cylinder(30 * _INCH, Basis.OUTSIDE, 48 * _INCH), 0.25 * _INCH, 2, Ends.PRE_BEND),
    (Cylinder(48 * _INCH, Basis.INSIDE, 96 * _INCH), 0.375 * _INCH, 4, Ends.PRE_BEND),
    (Cylinder(24 * _INCH, Basis.OUTSIDE, 36 * _INCH), 0.1875 * _INCH, 10, Ends.LEAVE_FLAT),
    (Cylinder(60 * _INCH, Basis.INSIDE, 72 * _INCH), 0.5 * _INCH, 1, Ends.TRIM),
    (Arc(36 * _INCH, Basis.INSIDE, 180.0, 60 * _INCH), 0.25 * _INCH, 6, Ends.PRE_BEND),
    (Cone(48 * _INCH, 30 * _INCH, Basis.OUTSIDE, 30 * _INCH), 0.25 * _INCH, 2, Ends.PRE_BEND),
)


def mixed_order(shop: Shop) -> Order:
    """Return shells thin and thick, half shells and cones, in the first two families of grades of the rack.

    One line has its edges prepared and its seam welded by us.
    """
    grades = list(dict.fromkeys(plate.material for plate in shop.stock)) or [shop.materials[0].key]
    families = {material.key: material.family for material in shop.materials}
    firsts = [
        next(grade for grade in grades if families.get(grade) is family)
        for family in dict.fromkeys(families.get(grade) for grade in grades)
    ][:2]
    lines = []
    for index, (shape, thickness, quantity, ends) in enumerate(_SHAPES):
        number = str(index + 1)
        worked = index == 1
        lines.append(
            OrderLine(
                id=f"X-{number}",
                number=number,
                customer=FILE,
                place=Place(FILE, "", index + 1),
                quantity=quantity,
                shape=shape,
                thickness_mm=thickness,
                material=firsts[-1] if index == 2 else firsts[0],
                ends=ends,
                edge_prep=EdgePrep(EdgeKind.BEVEL, EdgePlace.SEAM, 2, 30.0, 1.6) if worked else None,
                weld=WeldAsked(Penetration.FULL) if worked else None,
                certificate=worked,
            )
        )
    rows = tuple(SheetRow(line.place, State.PRICED, line.number, "read") for line in lines)
    return Order(FILE, FILE, lines=tuple(lines), rows=rows)
