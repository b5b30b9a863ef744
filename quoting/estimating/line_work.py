"""The work of a line off the roll, item by item: what was asked for, and what the part needs.

Each item is priced by the shop's settings; nothing here is free, and nothing that a line does not need costs.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from decimal import ROUND_HALF_UP, Decimal

from quoting.core import Arc, EdgePlace, EdgePrep, Ends, Extra, OrderLine, format_length, format_weight
from quoting.estimating.judging import Held, judge_tolerances
from quoting.estimating.result import Route, WorkItem
from quoting.labour import (
    PieceSize,
    edge_cuts,
    edge_metres,
    edge_minutes,
    needs_support,
    own_prep_kind,
    seam_weld,
)
from quoting.shop import Shop

CENT = Decimal("0.01")


def line_work(line: OrderLine, route: Route, shop: Shop) -> tuple[WorkItem, ...]:
    """Return the work off the roll that one line takes at its quantity, in the order it is done."""
    return (
        *_own_plate(line, route, shop),
        *_edges(line, route, shop),
        *_by_piece(line, route, shop),
        *_trimming(line, route, shop),
        *_welds(line, route, shop),
    )


def edge_words(prep: EdgePrep, *, inch: bool) -> str:
    """Return an edge preparation as it stands on a drawing.

    >>> from quoting.core import EdgeKind
    >>> edge_words(EdgePrep(EdgeKind.BEVEL, EdgePlace.SEAM, 2, 37.5, 1.5875), inch=True)
    'single bevel 37.5 deg, land 1/16", both edges of the long seam'
    """
    angle = f" {prep.angle_deg:g} deg" if prep.angle_deg else ""
    land = f", land {format_length(prep.land_mm, inch=inch)}" if prep.land_mm else ""
    where = {
        EdgePlace.SEAM: "edges of the long seam",
        EdgePlace.ENDS: "edges at the shell's ends",
        EdgePlace.ALL: "all edges",
    }[prep.place]
    if prep.place is not EdgePlace.ALL:
        where = f"both {where}" if prep.edges == 2 else f"one of the two {where}"
    return f"{prep.kind.value}{angle}{land}, {where}"


def _pieces(route: Route) -> int:
    return sum(rolling.quantity for rolling in route.rollings)


def weld_words(line: OrderLine) -> str:
    """Return what we weld on a line, and how; empty for a line that is not welded by us."""
    if line.weld is None:
        return ""
    asked = (("long seam", line.weld.long_seam), ("girth seams", line.weld.girth_seams))
    gouge = ", back-gouged" if line.weld.back_gouge else ""
    return f"{' and '.join(name for name, wanted in asked if wanted)}, {line.weld.penetration.value}{gouge}"


def _run(metres: float, shop: Shop) -> str:
    """Return a run of edge or seam as the shop reads it."""
    return f"{metres / 0.3048:.1f} ft" if shop.inch else f"{metres:.2f} m"


def _own_plate(line: OrderLine, route: Route, shop: Shop) -> Iterator[WorkItem]:
    if line.free_issue:
        rules, pieces = shop.operations.handwork, _pieces(route)
        minutes = rules.own_plate_minutes + rules.own_plate_mark_minutes * pieces
        marked = f"{pieces} x {rules.own_plate_mark_minutes:g} min to mark"
        why = f"{rules.own_plate_minutes:g} min to take in and check, {marked}"
        yield WorkItem("your plate taken in and marked", why, bench_minutes=minutes)


def _edges(line: OrderLine, route: Route, shop: Shop) -> Iterator[WorkItem]:
    asked = line.edge_prep
    if asked is not None:
        yield _edge_item(asked, line, route, shop)
    if line.weld is None:
        return
    kind = own_prep_kind(line.thickness_mm, shop.operations.welding)
    if kind is None:
        return
    for place, wanted in ((EdgePlace.SEAM, line.weld.long_seam), (EdgePlace.ENDS, line.weld.girth_seams)):
        if wanted and not (asked and asked.place in (place, EdgePlace.ALL)):
            own = EdgePrep(kind, place, 2, shop.operations.welding.angle_deg, shop.operations.welding.face_mm)
            yield _edge_item(own, line, route, shop)


def _edge_item(prep: EdgePrep, line: OrderLine, route: Route, shop: Shop) -> WorkItem:
    rules = shop.operations.edges
    metres = sum(edge_metres(rolling.blank, prep) * rolling.quantity for rolling in route.rollings)
    words = edge_words(prep, inch=shop.inch)
    size = _run(metres, shop)
    if rules.bought:
        cuts = edge_cuts(prep.kind, rules)
        return WorkItem(
            "edges prepared",
            f"{words}: {size}, bought in",
            outside=_money(metres * cuts * float(rules.bought_per_m)),
        )
    minutes = edge_minutes(metres, prep.kind, line.thickness_mm, rules)
    return WorkItem(
        "edges prepared", f"{words}: {size}, {minutes:.0f} min", edge_m=metres, bench_minutes=minutes
    )


def _by_piece(line: OrderLine, route: Route, shop: Shop) -> Iterator[WorkItem]:
    rules, pieces = shop.operations.handwork, _pieces(route)
    if Extra.STRAIGHTEN in line.extras:
        yield _each("plate straightened before rolling", pieces, rules.straighten_minutes)
    if Extra.TEMPLATE in line.extras:
        yield WorkItem(
            "template made", f"once, {rules.template_minutes:g} min", bench_minutes=rules.template_minutes
        )
    hard = (line.yield_mpa or shop.material(line.material).yield_likely_mpa) >= rules.hard_edge_yield_mpa
    if hard or Extra.GRIND_EDGES in line.extras:
        metres = (
            sum(rolling.blank.outline.perimeter_mm * rolling.quantity for rolling in route.rollings) / 1000
        )
        why = "hard plate: heat-cut edges would crack as they bend" if hard else "as asked"
        yield WorkItem(
            "cut edges ground", f"{why}; {metres:.1f} m", bench_minutes=metres * rules.grind_minutes_per_m
        )
    floppy = sum(
        rolling.quantity
        for rolling in route.rollings
        if needs_support(line.thickness_mm, PieceSize.of(rolling.blank), shop.lifting)
    )
    if floppy:
        yield _each("hung up or braced, too thin to stand by itself", floppy, rules.support_minutes)
    if any(one.held is Held.FITTED for one in judge_tolerances(line, route, shop)):
        yield _each("fitted to a tight tolerance", pieces, rules.tight_fit_minutes)


def _each(name: str, pieces: int, minutes: float) -> WorkItem:
    return WorkItem(name, f"{pieces} x {minutes:g} min", bench_minutes=pieces * minutes)


def _trimming(line: OrderLine, route: Route, shop: Shop) -> Iterator[WorkItem]:
    if route.ends is not Ends.TRIM:
        return
    rules, cutting = shop.operations.handwork, shop.cutting
    cuts = 2 * _pieces(route)
    metres = sum(2 * rolling.blank.width_mm * rolling.quantity for rolling in route.rollings) / 1000
    burning = metres * shop.labour.cutting_minutes_per_m * rules.trim_cut_factor
    minutes = cuts * (rules.trim_mark_minutes + rules.trim_handling_minutes) + burning
    why = f"{cuts} cuts marked and turned to, {_run(metres, shop)} cut in place"
    gas = _money(metres * float(cutting.cost_per_m))
    yield WorkItem("flats cut off after rolling", why, bench_minutes=minutes, consumables=gas)


def _welds(line: OrderLine, route: Route, shop: Shop) -> Iterator[WorkItem]:
    if line.weld is None:
        return
    for name, place, metres in _seams(line, route):
        prep = line.edge_prep
        if prep is not None and prep.place not in (place, EdgePlace.ALL):
            prep = None
        if metres:
            yield _weld_item(name, metres, line, prep, route, shop)


def _seams(line: OrderLine, route: Route) -> Iterable[tuple[str, EdgePlace, float]]:
    """Return the seams that we weld, with their metres over the whole quantity."""
    assert line.weld is not None
    if line.weld.long_seam:
        across = sum(rolling.blank.width_mm * rolling.quantity for rolling in route.rollings) / 1000
        open_ = 1 if isinstance(line.shape, Arc) else 0  # an arc of two pieces has one seam, of one none
        yield "long seam welded", EdgePlace.SEAM, across * (1 - open_ / route.plan.seams)
    if line.weld.girth_seams and route.plan.courses > 1:
        widest = max(route.plan.blanks, key=lambda blank: blank.girth_mm)
        girth = widest.girth_mm * route.plan.seams / 1000
        yield "girth seams welded", EdgePlace.ENDS, girth * (route.plan.courses - 1) * line.quantity


def _weld_item(
    name: str, metres: float, line: OrderLine, prep: EdgePrep | None, route: Route, shop: Shop
) -> WorkItem:
    assert line.weld is not None
    rules = shop.operations.welding
    weld = seam_weld(
        line.weld,
        prep,
        line.thickness_mm,
        route.plan.weld_gap_mm,
        shop.material(line.material).density_kg_m3,
        rules,
    )
    minutes, kg = weld.minutes_per_m * metres, weld.kg_per_m * metres
    size = _run(metres, shop)
    why = f"{weld.words}: {size}, {format_weight(kg, inch=shop.inch)} of weld metal, {minutes:.0f} min"
    metal = _money(kg * float(rules.metal_cost_per_kg))
    if rules.in_house:
        return WorkItem(name, why, weld_minutes=minutes, consumables=metal)
    bought = max(rules.bought_least, _money(minutes / 60 * float(rules.bought_per_hour)) + metal)
    return WorkItem(name, f"{why}, bought in", outside=bought)


def _money(amount: float) -> Decimal:
    return Decimal(str(round(amount, 6))).quantize(CENT, ROUND_HALF_UP)


def as_made(line: OrderLine, shop: Shop) -> OrderLine:
    """Return the line with the re-rounding that follows our own weld of a closed shell's long seam."""
    welded = line.weld is not None and line.weld.long_seam and not isinstance(line.shape, Arc)
    return replace(line, re_round=True) if welded and shop.operations.welding.re_round_after else line
