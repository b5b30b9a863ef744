"""How a part is made, in words: its pieces, the route that is offered, what its ends look like."""

from __future__ import annotations

from math import ceil

from quoting.blanks import BlankPlan
from quoting.core import MM_PER_INCH, Ends, format_length
from quoting.estimating.result import Route


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
    """Return a route that would work but splits the part further than asked, or is rolled longer and cut."""
    if route.plan.pieces_per_part == 1:
        return f"{route.roll}: would do it rolled with extra length at both ends, cut off after rolling"
    return f"{route.roll}: would do it in {pieces_words(route.plan)} ({route.ends.value})"


def ends_words(route: Route, *, inch: bool) -> str:
    """Return what the customer gets at the ends: flats with their length, or none after trimming."""
    if route.ends is Ends.TRIM:
        return "rolled with extra length at both ends, flats cut off after rolling"
    tail = _longest(inch, [rolling.passes.flat_tail_mm for rolling in route.rollings])
    if route.ends is Ends.PRE_BEND:
        return f"both ends pre-bent, {tail} stays flat at each end"
    lead = _longest(inch, [rolling.passes.flat_lead_mm for rolling in route.rollings])
    end = tail.removeprefix("about ")
    return f"not pre-bent: {lead} stays flat at the leading end, {end} at the trailing end"


def _longest(inch: bool, flats: list[float | None]) -> str:
    """Return the longest flat to a sixteenth of an inch or a millimetre; not known without roll geometry."""
    known = [flat for flat in flats if flat is not None]
    if len(known) < len(flats):
        return "a length still to be tried"
    step = MM_PER_INCH / 16 if inch else 1.0
    return f"about {format_length(ceil(max(known) / step) * step, inch=inch)}"
