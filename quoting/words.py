"""A part said in a line, the way the trade says it, and long lists cut short."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from quoting.blanks import BlankPlan
from quoting.parts import Arc, Basis, Cone, Cylinder, Ends, OrderLine
from quoting.result import Route
from quoting.units import MM_PER_INCH, format_length

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

    >>> from quoting.errors import Place
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
    return f"{what}, {size(line.thickness_mm)} {line.material}"


def pieces_words(plan: BlankPlan) -> str:
    """Return into how many courses and segments a part is split.

    >>> pieces_words(BlankPlan((), courses=2, seams=1, weld_gap_mm=0, part_weight_kg=0))
    '2 courses'
    """
    said = [
        f"{number} {name}"
        for number, name in ((plan.courses, "courses"), (plan.seams, "segments round the girth"))
        if number > 1
    ]
    return " of ".join(said)


def offer_words(route: Route) -> str:
    """Return a route that would work but splits the part further than asked."""
    return f"{route.roll}: would do it in {pieces_words(route.plan)} ({route.ends.value})"


def ends_words(route: Route, *, inch: bool) -> str:
    """Return what the customer gets at the ends: flats with their length, or none after trimming."""
    if route.ends is Ends.TRIM:
        return "rolled with extra length at both ends, flats cut off after rolling"
    tail = _longest(inch, [rolling.passes.flat_tail_mm for rolling in route.rollings])
    if route.ends is Ends.PRE_BEND:
        return f"both ends pre-bent, about {tail} stays flat at each end"
    lead = _longest(inch, [rolling.passes.flat_lead_mm for rolling in route.rollings])
    return f"not pre-bent: about {lead} stays flat at the leading end, {tail} at the trailing end"


def _longest(inch: bool, flats: list[float | None]) -> str:
    """Return the longest flat to a sixteenth of an inch or a millimetre; not known without roll geometry."""
    known = [flat for flat in flats if flat is not None]
    if len(known) < len(flats):
        return "a length still to be tried"
    step = MM_PER_INCH / 16 if inch else 1.0
    return format_length(ceil(max(known) / step) * step, inch=inch)
