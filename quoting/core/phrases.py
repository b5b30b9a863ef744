"""A part said in a line, the way the trade says it, and long lists cut short."""

from __future__ import annotations

from collections.abc import Sequence

from quoting.core.order import Arc, Basis, Cone, Cylinder, OrderLine
from quoting.core.units import format_length, format_stock

_DIAMETER = {Basis.INSIDE: "ID", Basis.OUTSIDE: "OD", Basis.MEAN: "mean dia"}
_RADIUS = {Basis.INSIDE: "IR", Basis.OUTSIDE: "OR", Basis.MEAN: "mean radius"}

HALF_SHELL_DEG = 180.0


def first_few(names: Sequence[str], most: int) -> str:
    """Return the first names of a list in a sentence, the others counted.

    >>> first_few(["A-1", "A-2"], 2), first_few(["A-1", "A-2", "A-3", "A-4"], 2)
    ('A-1, A-2', 'A-1, A-2 and 2 more')
    """
    more = len(names) - most
    return ", ".join(names[:most]) + (f" and {more} more" if more > 0 else "")


def part_words(line: OrderLine, *, inch: bool) -> str:
    """Return shape, sizes, thickness and material in one line, in inches or millimetres.

    >>> from quoting.core.errors import Place
    >>> line = OrderLine("A-1", "1", "c", Place("f"), 1, Cylinder(609.6, Basis.INSIDE, 1524), 6.35, "A36")
    >>> part_words(line, inch=True)
    'Cylinder 24" ID x 60" long, 1/4" A36'
    """

    def size(mm: float) -> str:
        return format_length(mm, inch=inch)

    shape = line.shape
    match shape:
        case Cylinder():
            what = (
                f"Cylinder {size(shape.diameter_mm)} {_DIAMETER[shape.basis]} x {size(shape.length_mm)} long"
            )
        case Arc() if shape.angle_deg == HALF_SHELL_DEG:
            what = f"Half shell {size(shape.radius_mm)} {_RADIUS[shape.basis]} x {size(shape.length_mm)} long"
        case Arc():
            what = (
                f"Arc {size(shape.radius_mm)} {_RADIUS[shape.basis]}, {shape.angle_deg:g} degrees, "
                f"{size(shape.length_mm)} wide"
            )
        case Cone():
            ends = f"{size(shape.large_mm)} to {size(shape.small_mm)} {_DIAMETER[shape.basis]}"
            what = f"Cone {ends} x {size(shape.height_mm)} high"
    return f"{what}, {format_stock(line.thickness_mm, inch=inch)} {line.material}"
