"""The sheet "How": for each blank, can the roll do it, how it is set, and what to mind."""

from __future__ import annotations

from quoting.blanks import in_one_system
from quoting.books.costing.costing_sheet import costing_sheet
from quoting.books.look import Book, BookColumn, BookSheet, outline_words
from quoting.core import Ends, State, format_length, format_stock, format_weight
from quoting.estimating import (
    Estimate,
    LineResult,
    Rolling,
    Route,
    expected_out_of_round,
    judge_tolerances,
)
from quoting.labour import CODES, FEED, Lift
from quoting.shop import Shop

COLUMNS = (
    BookColumn("Customer and line", 17),
    BookColumn("Blank (width across the roll x length)", 24),
    BookColumn("Can it, and what governs", 33),
    BookColumn("Gap, ends and flats", 27),
    BookColumn("Passes: radius under load, bending roll at first try, end that leads; work off the roll", 36),
    BookColumn("Lifting and cautions", 42),
)
_HEAD = 3
N_PER_LBF = 4.4482216152605
_ALWAYS = (FEED, CODES)


def how_sheet(book: Book, estimate: Estimate) -> None:
    """Write the sheet: priced lines and the nearest attempts at lines that cannot be done."""
    says = (
        "One row a blank. The share used is of the limit that governs; positions and flats are computed: "
        f"prove them on the first piece. On every job: {' '.join(_ALWAYS)}"
    )
    sheet = costing_sheet(book, estimate, "How", COLUMNS, says=says)
    sheet.heads(_HEAD, COLUMNS)
    sheet.raw.repeat_rows(_HEAD)
    sheet.raw.freeze_panes(_HEAD + 1, 1)
    row = _HEAD + 1
    for result in estimate.lines:
        route = result.route
        for rolling in route.rollings if route else ():
            assert route is not None
            _rolling(sheet, row, result, route, rolling, estimate.shop)
            row += 1


def _rolling(
    sheet: BookSheet, row: int, result: LineResult, route: Route, rolling: Rolling, shop: Shop
) -> None:
    line = result.line
    name = f"{line.customer}\nline {line.number}" + (f"\n{line.part_no}" if line.part_no else "")
    sheet.text(row, 0, name, "text rule")
    sheet.text(row, 1, _blank(result, route, rolling, shop), "text rule")
    sheet.text(row, 2, _verdict(result, route, rolling, shop), "text rule")
    can = rolling.verdict.ok
    sheet.text(row, 3, _ends(result, route, rolling, shop) if can else "", "text rule")
    sheet.text(row, 4, _passes(result, route, rolling, shop) if can else "", "text rule")
    sheet.text(row, 5, _lifting(result, rolling.lift) if can else "", "text rule")


def _size(shop: Shop, mm: float, places: int = 2) -> str:
    """Return a computed length: 3 decimals of an inch, or mm to a tenth."""
    if shop.inch:
        return f'{mm / 25.4:.3f}"'
    return f"{mm:.{places - 1}f} mm"


def _blank(result: LineResult, route: Route, rolling: Rolling, shop: Shop) -> str:
    blank = rolling.blank
    weight = format_weight(blank.weight_kg, inch=shop.inch)
    text = [
        outline_words(blank.outline, inch=shop.inch),
        f"{format_stock(blank.thickness_mm, inch=shop.inch)} {result.line.material}",
        f"{rolling.quantity} pieces, {weight} each" if rolling.quantity > 1 else f"1 piece, {weight}",
    ]
    if route.plan.courses > 1 or route.plan.seams > 1:
        text.append(f"{route.plan.courses} course(s), {route.plan.seams} seam(s) round")
    return "\n".join([*text, *(in_one_system(note, inch=shop.inch) for note in route.plan.notes)])


def _verdict(result: LineResult, route: Route, rolling: Rolling, shop: Shop) -> str:
    verdict = rolling.verdict
    head = "Yes" if verdict.ok else "NO"
    share = f"{verdict.used:.0%}" if verdict.used < 100 else "far over 100%"
    text = [f"{head} on {route.roll}: {verdict.limit} {share} used"]
    if verdict.ok and verdict.used_at_high > verdict.used:
        text.append(f"{verdict.used_at_high:.0%} with plate at the hard end of the grade")
    text += [f"Look: {flag}" for flag in (*verdict.flags, *route.flags)]
    text += [f"Tolerance: {one.words(inch=shop.inch)}" for one in judge_tolerances(result.line, route, shop)]
    if not verdict.ok:
        ways = verdict.ways_out_in(lambda mm: format_length(round(mm, 1), inch=shop.inch)) or result.nearest
        text += [f"Way out: {way}" for way in ways]
    others = [f"{other.roll} ({_more(other, route)})" for other in result.routes[1:] if other.ok]
    if others and result.state is State.PRICED:
        text.append(f"Also possible on {', '.join(others)}")
    if result.state is State.PRICED:
        text += [f"Instead: {offer}" for offer in result.offers]
    return "\n".join(text)


def _pinch(rolling: Rolling, shop: Shop) -> str:
    """Return the lightest pinch that still drives the plate; more only marks it."""
    force = rolling.verdict.pinch_n
    if force is None:
        return ""
    if force <= 0:
        return "; it drives without more pinch"
    said = f"{force / N_PER_LBF:,.0f} lbf" if shop.inch else f"{force / 1000:,.0f} kN"
    return f"; the lightest pinch that drives is about {said}"


def _more(other: Route, route: Route) -> str:
    """Return what another roll costs more, expected trouble included, and how likely it is too weak."""
    more = other.rough_cost + other.trouble_cost - route.rough_cost - route.trouble_cost
    weak = f", {other.trouble_chance:.0%} chance of being too weak" if other.trouble_chance > 0.01 else ""
    return f"{more:+,.0f} expected{weak}"


def _ends(result: LineResult, route: Route, rolling: Rolling, shop: Shop) -> str:
    plan = rolling.passes
    text = [f"Pinch gap {_size(shop, plan.pinch_gap_mm)}, by the plate as measured{_pinch(rolling, shop)}"]
    if rolling.blank.ends is Ends.PRE_BEND:
        text.append("Pre-bend both ends, turn between" + _display(shop, plan.pre_bend_readout_mm))
    elif rolling.blank.ends is Ends.TRIM:
        lead, tail = _size(shop, rolling.blank.trim_mm), _size(shop, rolling.blank.trim_tail_mm)
        text.append(f"After rolling trim {lead} off the leading end, {tail} off the trailing end")
    else:
        text.append("No pre-bend")
    lead = "by trial" if plan.flat_lead_mm is None else _size(shop, plan.flat_lead_mm)
    text.append(f"Flats left: {lead} leading, {_size(shop, plan.flat_tail_mm)} trailing")
    text.append(f"Stop {_size(shop, plan.stop_before_tail_mm)} before the tail")
    low, high = sorted(plan.inside_diameter_band_mm)
    text.append(f"Comes out {_size(shop, low)} to {_size(shop, high)} ID with soft to hard plate")
    if (round_ := _round_words(result, route, shop)) and rolling is route.rollings[0]:
        text.append(round_)
    if plan.cone and plan.cone.tilt_mm_per_m is not None:
        text.append(
            f"Tilt {plan.cone.tilt_mm_per_m:.1f} mm over a metre ({plan.cone.tilt_mm_per_m / 1000:.4f})"
        )
    return "\n".join(text)


def _round_words(result: LineResult, route: Route, shop: Shop) -> str:
    """Return how far out of round the welded shell is expected, before and after re-rounding."""
    plain, again = (
        expected_out_of_round(result.line, route, shop, re_rounded=re_rounded) for re_rounded in (False, True)
    )
    if plain is None or again is None:
        return ""
    return f"Out of round about {_size(shop, plain)} as welded, {_size(shop, again)} re-rounded"


def _display(shop: Shop, readout_mm: float | None) -> str:
    return "" if readout_mm is None else f", roll {_size(shop, readout_mm)}"


def _passes(result: LineResult, route: Route, rolling: Rolling, shop: Shop) -> str:
    text = []
    for step in rolling.passes.passes:
        what = "pre-bend" if step.pre_bend else "re-roll" if step.re_roll else ""
        name = f"{step.number}. {what} " if what else f"{step.number}. "
        where = _display(shop, step.readout_mm)
        text.append(f"{name}R {_size(shop, step.loaded_radius_mm)}{where}, {step.end_leading} leads")
    work = result.work if rolling is route.rollings[0] else ()
    off = [f"Off the roll: {item.name} ({item.why})" for item in work]
    return "\n".join([*text, *rolling.passes.notes, *off])


def _lifting(result: LineResult, lift: Lift) -> str:
    own = [caution for caution in result.cautions if caution not in _ALWAYS]
    people = "1 person" if lift.crew == 1 else f"{lift.crew} people"
    return "\n".join([f"{lift.method.value}, {people}: {lift.why}", *own])
