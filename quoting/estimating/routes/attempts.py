"""What is tried for one line: its splits into courses and seams, developed to blanks, on each roll."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

from quoting.blanks import (
    BlankPlan,
    HowCut,
    SplitLimits,
    cone_form,
    develop,
    neutral_diameter,
    sensible_splits,
)
from quoting.core import Cone, Cylinder, Ends, OrderLine, RangeError, mean_diameter
from quoting.estimating.plates import sides_to_grain, stock_for
from quoting.estimating.result import Route
from quoting.forming import cone_segments
from quoting.labour import edge_allowance
from quoting.shop import Edge, Roll, Shop, StockPlate

NOT_IN_RACK = "this plate is not in our rack, and we have no size and price of it yet"
"""What a line waits for whose plate the shop neither has nor lists among the sizes it buys."""


@dataclass(frozen=True, slots=True)
class Attempt:
    """One line on one roll with one split and one end treatment, before its verdict is known."""

    line: OrderLine
    roll: Roll
    ends: Ends
    plan: BlankPlan


def attempts_on_all(line: OrderLine, ends: Ends, shop: Shop, which: slice) -> list[Attempt]:
    """Return the attempts of one line on every roll; `which` takes from the splits, fewest pieces first."""
    if _is_too_tight(line):
        return []
    return [attempt for roll in shop.rolls for attempt in _attempts(line, roll, ends, shop, which)]


def _attempts(line: OrderLine, roll: Roll, ends: Ends, shop: Shop, which: slice) -> list[Attempt]:
    trim = trim_length(roll) if ends is Ends.TRIM else 0.0
    grain = line.grain_along or shop.material(line.material).grain_matters
    segments = _least_segments(line, shop)
    left_on = edge_allowance(line.edge_prep, shop.operations.edges)
    splits: set[tuple[int, int]] = set()
    for widest, longest in usable_sizes(line, shop):
        splits.update(
            sensible_splits(
                line.shape,
                line.thickness_mm,
                SplitLimits(
                    widest_mm=widest - left_on[1],
                    longest_mm=longest - left_on[0],
                    roll_length_mm=roll.working_length_mm,
                    trim_mm=trim,
                    least_seams=segments,
                ),
                turn=not grain,
            )
        )
    ordered = sorted(splits, key=lambda split: (split[0] * split[1], split))[which]
    attempts = []
    for courses, seams in ordered:
        plan = developed(line, shop, ends, courses, seams, (trim, trim))
        if plan is not None:
            attempts.append(Attempt(line, roll, ends, plan))
    return attempts


def with_trims(line: OrderLine, route: Route, shop: Shop) -> Attempt | None:
    """Return the same split with the flats of its own plan as trim, and long enough to be held at all."""
    plans = [rolling.passes for rolling in route.rollings]
    lead = max(plan.flat_lead_mm or 0.0 for plan in plans)
    tail = max(plan.flat_tail_mm for plan in plans)
    shortest = min(rolling.blank.girth_mm for rolling in route.rollings)
    least = max(plan.least_length_mm or 0.0 for plan in plans)
    lead = max(lead, least - shortest - tail)
    plan = developed(line, shop, Ends.TRIM, route.plan.courses, route.plan.seams, (lead, tail))
    return None if plan is None else Attempt(line, shop.roll(route.roll), Ends.TRIM, plan)


def _least_segments(line: OrderLine, shop: Shop) -> int:
    """Return the segments that a steep cone is rolled in by the shop's rule; 1 for everything else."""
    if not isinstance(line.shape, Cone):
        return 1
    return cone_segments(cone_form(line.shape, line.thickness_mm), shop.passes.cone_split_ratio)


def developed(
    line: OrderLine, shop: Shop, ends: Ends, courses: int, seams: int, trims_mm: tuple[float, float]
) -> BlankPlan | None:
    """Return the blanks of one split, trims in mm; None when nothing would be left of a piece."""
    girth, width = edge_allowance(line.edge_prep, shop.operations.edges)
    try:
        return develop(
            line.shape,
            line.thickness_mm,
            shop.material(line.material).density_kg_m3,
            ends=ends,
            id=line.id,
            how=HowCut(
                courses=courses,
                seams=seams,
                weld_gap_mm=shop.default_weld_gap_mm if line.weld_gap_mm is None else line.weld_gap_mm,
                trim_mm=trims_mm[0],
                trim_tail_mm=trims_mm[1],
                edge_girth_mm=girth,
                edge_width_mm=width,
            ),
        )
    except RangeError:
        return None


def trim_length(roll: Roll) -> float:
    """Return the extra length at each end, mm, that covers the flat this roll leaves without a pre-bend.

    The flat ends where the plate touches the bending roll, so it is shorter than the distance of the slide
    from the nip; a roll without slide geometry is taken to stand one top-roll diameter away.
    """
    return roll.slide.offset_mm if roll.slide else roll.top_roll_mm


def usable_sizes(line: OrderLine, shop: Shop) -> tuple[tuple[float, float], ...]:
    """Return usable (width, length) in mm of the plates worth splitting for, none of them inside another."""
    if line.free_issue:
        return ((inf, inf),)
    sizes = {_usable(plate, shop) for plate in stock_for(shop, line.material, line.thickness_mm)}
    usable = [size for size in sizes if min(size) > 0]
    return tuple(
        sorted(
            size
            for size in usable
            if not any(other != size and other[0] >= size[0] and other[1] >= size[1] for other in usable)
        )
    )


def _usable(plate: StockPlate, shop: Shop) -> tuple[float, float]:
    margin = shop.cutting.mill_trim_mm if plate.edge is Edge.MILL else 0.0
    if plate.thickness_mm > shop.cutting.shear_up_to_mm:
        margin = max(margin, shop.cutting.edge_margin_mm)
    across, along = sides_to_grain(plate)
    return across - 2 * margin, along - 2 * margin


def _is_too_tight(line: OrderLine) -> bool:
    """Return whether the bend leaves no inside, or a tighter one than flat lengths are known for."""
    shape = line.shape
    try:
        if isinstance(shape, Cone):
            cone_form(shape, line.thickness_mm)
        else:
            diameter = shape.diameter_mm if isinstance(shape, Cylinder) else 2 * shape.radius_mm
            neutral_diameter(mean_diameter(diameter, shape.basis, line.thickness_mm), line.thickness_mm)
    except RangeError:
        return True
    return False


def no_attempt(line: OrderLine, shop: Shop) -> str:
    """Return why nothing could even be tried."""
    if not usable_sizes(line, shop):
        return NOT_IN_RACK
    if _is_too_tight(line):
        return "the bend is far tighter than any plate roll makes of this thickness"
    return "no plate holds the blank, in one piece or in segments"
