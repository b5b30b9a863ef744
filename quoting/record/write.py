"""The record of a run: everything the books show, as plain values for `result.json`.

Version 1. Lengths in mm, weights in kg, minutes, money as decimal text in the shop's currency, dates as
YYYY-MM-DD. Keys:

- `format`, `version`, `id` (of this result, the same for the same content), `made` (today, effort, seed,
  shop, currency, paper, warnings, rolls with their hours a week, settings that prices are built from by name)
- `revision`: number (1 for a first quote), replaces (the id of the result before, or null), changes[] (line,
  what, before, after, reason)
- `orders[]`: file, customer, reference, notes (of the sheet, and what of it was not read), rows (how many
  of each state), total (lines, top-up, tax, total), risk
- `lines[]`, one for every row that is or should be a line, in the customers' own order: id, number,
  customer, file, sheet, row, state (`priced`, `question`, `no-quote`), reason, nearest; for lines that
  were read also quantity, part, shape, material, family, thickness_mm, due, remarks, blank, verdict,
  rolls[] (every roll that can do it with its minutes and its passes[], one for each kind of blank; the
  quoted one first), lift, cautions, minutes, price, drivers (what the price is built from), breaks,
  plates, assumptions, override (null, or unit, margin, reason and by), risk (p10, p50, p90 and mean cost,
  loss_chance, over_rating_chance, reasons; null when it was not drawn), sensitivities[] (what plate,
  passes, basis, merging or quantity would change; empty unless asked for); `questions` holds the ids of
  its questions
- `ignored[]`: rows that are no lines, with the reason
- `questions[]`: id, customer, line, place, read, text, choices (each with what it would cost), assumed
- `answers[]`: what was answered: question (its id), customer, line, place, read, text, answer
- `nest[]`: one for each material and thickness: method, cost, bound, gap, waited (null, or whether later
  pieces wait for later plates, and the cost of all together and of the weeks apart), plates (pieces with
  positions, yield, drops, cutting minutes, lead days, the day to cut them by), what could not be placed
- `archive`: the estimate as `quoting.record.archive` packs it, for revisions; of no use to other programs
- `schedule`: null, or what `scheduler.week.record` adds to it
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from quoting.core import Arc, Cone, Cylinder, Place, Question, Rectangle, Shape, State, part_words
from quoting.estimating import (
    ChoiceWorth,
    Estimate,
    GroupNest,
    LineResult,
    OrderEstimate,
    Rolling,
    Route,
    cutting_minutes_of,
    lead_days_of,
    plate_name,
)
from quoting.nesting import CutPlate, NestProblem, Waited
from quoting.pricing import settings_of
from quoting.record.archive import pack
from quoting.record.money import price_record, result_id, revision_record, spread_record
from quoting.record.read import FORMAT, VERSION
from quoting.shop import Band, Shop, hours_a_week


def make_record(estimate: Estimate) -> dict[str, Any]:
    """Return the record of an estimate, without a schedule."""
    return describe(estimate) | {"archive": pack(estimate)}


def describe(estimate: Estimate) -> dict[str, Any]:
    """Return the record without the packed estimate: all that a page is printed from."""
    return {
        "format": FORMAT,
        "version": VERSION,
        "id": result_id(estimate),
        "made": {
            "today": estimate.today.isoformat(),
            "effort": estimate.effort,
            "seed": estimate.seed,
            "shop": estimate.shop.name,
            "currency": estimate.shop.rates.currency,
            "paper": estimate.shop.paper,
            "warnings": list(estimate.warnings),
            "rolls": [
                {"name": roll.name, "hours_a_week": round(hours_a_week(estimate.shop.working_time), 3)}
                for roll in estimate.shop.rolls
            ],
            "settings": {name: str(value) for name, value in settings_of(estimate.shop).items()},
        },
        "revision": revision_record(estimate),
        "orders": [_order(order) for order in estimate.orders],
        "lines": [line for order in estimate.orders for line in _lines(order, estimate.shop)],
        "ignored": [
            {"place": _place(row.place), "reason": row.reason, "text": row.text}
            for order in estimate.orders
            for row in order.rows
            if row.state is State.IGNORED
        ],
        "questions": [
            _question(order.order.customer, question, estimate.worth.get(question.id, ()))
            for order in estimate.orders
            for question in order.questions
        ],
        "answers": [
            {
                "question": given.question,
                "customer": order.order.customer,
                "line": given.line,
                "place": _place(given.place),
                "read": given.read,
                "text": given.text,
                "answer": given.answer,
            }
            for order in estimate.orders
            for given in order.order.answers
        ],
        "nest": [_group(group, estimate.shop) for group in estimate.nests],
        "schedule": None,
    }


def _order(order: OrderEstimate) -> dict[str, Any]:
    states = Counter(row.state.value for row in order.rows)
    return {
        "file": order.order.file,
        "customer": order.order.customer,
        "reference": order.order.reference,
        "notes": list(order.order.notes),
        "rows": {state.value: states.get(state.value, 0) for state in State},
        "total": {
            "lines": str(order.total.lines),
            "minimum_top_up": str(order.total.minimum_top_up),
            "tax": str(order.total.tax),
            "total": str(order.total.total),
        },
        "risk": spread_record(order.risk) if order.risk else None,
    }


def _lines(order: OrderEstimate, shop: Shop) -> Iterable[dict[str, Any]]:
    results = {result.line.place.cell: result for result in order.lines}
    drafts = {draft.place.cell: draft.id for draft in order.order.drafts}
    asked: dict[str, list[str]] = {}
    for question in order.questions:
        asked.setdefault(question.line, []).append(question.id)
    for row in order.rows:
        if row.state is State.IGNORED:
            continue
        entry: dict[str, Any] = {
            "id": drafts.get(row.place.cell, row.number),
            "number": row.number,
            "customer": order.order.customer,
            "place": _place(row.place),
            "state": row.state.value,
            "reason": row.reason,
        }
        result = results.get(row.place.cell)
        if result is not None:
            entry |= _line(result, shop)
        entry["questions"] = asked.get(entry["id"], [])
        yield entry


def _line(result: LineResult, shop: Shop) -> dict[str, Any]:
    line = result.line
    values: dict[str, Any] = {
        "id": line.id,
        "state": result.state.value,
        "reason": result.reason,
        "nearest": list(result.nearest),
        "quantity": line.quantity,
        "part": part_words(line, inch=shop.inch),
        "part_no": line.part_no,
        "shape": _shape(line.shape),
        "material": line.material,
        "family": shop.material(line.material).family.value,
        "thickness_mm": line.thickness_mm,
        "due": line.due.isoformat() if line.due else None,
        "re_round": line.re_round,
        "remarks": list(line.remarks),
        "assumptions": list(result.assumptions),
    }
    if result.route is not None:
        values |= _route(result.route, result)
    if result.price is not None:
        values |= price_record(result)
    return values


def _route(route: Route, result: LineResult) -> dict[str, Any]:
    heaviest = max(route.rollings, key=lambda rolling: rolling.blank.weight_kg)
    first = route.rollings[0]
    outline = first.blank.outline
    square = isinstance(outline, Rectangle)
    verdict = route.governing.verdict
    return {
        "inside_diameter_mm": first.blank.mean_diameter_mm - first.blank.thickness_mm,
        "blank": {
            "length_mm": outline.length_mm if isinstance(outline, Rectangle) else first.blank.girth_mm,
            "width_mm": first.blank.width_mm,
            "sector": None if square else _sector(first),
            "weight_kg": heaviest.blank.weight_kg,
            "pieces": route.plan.pieces_per_part,
            "courses": route.plan.courses,
            "seams": route.plan.seams,
            "part_weight_kg": route.plan.part_weight_kg,
            "notes": list(route.plan.notes),
        },
        "verdict": _verdict(route) | {"flags": list(verdict.flags), "notes": list(verdict.notes)},
        "rolls": [_choice(option) for option in result.routes if option.ok],
        "lift": {
            "method": heaviest.lift.method.value,
            "crew": route.crew,
            "crane": any(rolling.lift.method.crane for rolling in route.rollings),
            "why": heaviest.lift.why,
        },
        "cautions": list(result.cautions),
        "minutes": {"setup": result.setup_minutes, **_band(route.minutes)},
        "ends": route.ends.value,
    }


def _verdict(route: Route) -> dict[str, Any]:
    verdict = route.governing.verdict
    return {"roll": route.roll, "ok": route.ok, "limit": verdict.limit, "used": round(verdict.used, 4)}


def _choice(route: Route) -> dict[str, Any]:
    re_round = sum(rolling.minutes.re_round.likely * rolling.quantity for rolling in route.rollings)
    return _verdict(route) | {
        "minutes": _band(route.minutes),
        "re_round_minutes": round(re_round, 3),
        "passes": [_passes(rolling) for rolling in route.rollings],
    }


def _passes(rolling: Rolling) -> dict[str, Any]:
    plan = rolling.passes
    return {
        "blank": rolling.blank.id,
        "quantity": rolling.quantity,
        "pinch_gap_mm": plan.pinch_gap_mm,
        "pre_bend_readout_mm": plan.pre_bend_readout_mm,
        "flat_lead_mm": plan.flat_lead_mm,
        "flat_tail_mm": plan.flat_tail_mm,
        "stop_before_tail_mm": plan.stop_before_tail_mm,
        "re_rolls": plan.re_rolls,
        "tilt_mm_per_m": plan.cone.tilt_mm_per_m if plan.cone else None,
        "steps": [
            {
                "number": step.number,
                "final_radius_mm": step.final_radius_mm,
                "loaded_radius_mm": step.loaded_radius_mm,
                "readout_mm": step.readout_mm,
                "lift_mm": step.lift_mm,
                "end_leading": step.end_leading,
                "pre_bend": step.pre_bend,
                "re_roll": step.re_roll,
            }
            for step in plan.passes
        ],
        "notes": list(plan.notes),
    }


def _sector(rolling: Rolling) -> dict[str, float] | None:
    outline = rolling.blank.outline
    if isinstance(outline, Rectangle):
        return None
    return {
        "outer_radius_mm": outline.outer_radius_mm,
        "inner_radius_mm": outline.inner_radius_mm,
        "angle_deg": outline.angle_deg,
    }


def _group(group: GroupNest, shop: Shop) -> dict[str, Any]:
    nest = group.nest
    return {
        "material": group.material,
        "thickness_mm": group.thickness_mm,
        "method": group.problem.cutting.method,
        "lines": list(group.lines),
        "cost": str(nest.cost),
        "bound": str(nest.bound),
        "gap": round(nest.gap, 6),
        "waited": _waited(nest.waited),
        "plates": [_cut_plate(group.problem, cut, shop) for cut in nest.cut_plates],
        "unplaced": [
            {"piece": piece.piece, "quantity": piece.quantity, "why": piece.why.value, "text": piece.text}
            for piece in nest.unplaced
        ],
    }


def _waited(waited: Waited | None) -> dict[str, Any] | None:
    if waited is None:
        return None
    return {"taken": waited.taken, "together": str(waited.together), "apart": str(waited.apart)}


def _cut_plate(problem: NestProblem, cut: CutPlate, shop: Shop) -> dict[str, Any]:
    plate = problem.plate(cut.plate)
    return {
        "id": plate_name(cut),
        "plate": cut.plate,
        "width_mm": plate.width_mm,
        "length_mm": plate.length_mm,
        "bought": plate.count is None,
        "remnant": plate.remnant,
        "heat": plate.heat or "",
        "price": str(cut.price),
        "yield": round(cut.yield_share, 6),
        "lead_days": lead_days_of(shop, cut.plate),
        "cut_by": cut.cut_by.isoformat() if cut.cut_by else None,
        "cutting_minutes": round(cutting_minutes_of(problem.cutting, cut, shop), 3),
        "pieces": [
            {
                "id": placed.piece,
                "copy": placed.copy,
                "x_mm": placed.x_mm,
                "y_mm": placed.y_mm,
                "dx_mm": placed.dx_mm,
                "dy_mm": placed.dy_mm,
                "angle_deg": placed.angle_deg,
            }
            for placed in cut.placements
        ],
        "drops": [
            {
                "x_mm": drop.x_mm,
                "y_mm": drop.y_mm,
                "dx_mm": drop.dx_mm,
                "dy_mm": drop.dy_mm,
                "value": str(drop.value),
            }
            for drop in cut.drops
        ],
    }


def _question(customer: str, question: Question, worths: Sequence[ChoiceWorth]) -> dict[str, Any]:
    prices = {worth.label: worth for worth in worths}
    return {
        "id": question.id,
        "customer": customer,
        "line": question.line,
        "place": _place(question.place),
        "read": question.read,
        "text": question.text,
        "choices": [_choice_worth(choice.label, prices.get(choice.label)) for choice in question.choices],
        "blocking": question.blocking,
        "assumed": question.assumed,
    }


def _choice_worth(label: str, worth: ChoiceWorth | None) -> dict[str, Any]:
    if worth is None:
        return {"label": label}
    return {
        "label": label,
        "price": None if worth.price is None else str(worth.price),
        "blank_width_mm": worth.blank_width_mm,
        "blank_length_mm": worth.blank_length_mm,
        "problem": worth.problem,
    }


def _shape(shape: Shape) -> Mapping[str, Any]:
    match shape:
        case Cylinder():
            kind = "cylinder"
            sizes = {"diameter_mm": shape.diameter_mm, "length_mm": shape.length_mm}
        case Arc():
            kind = "arc"
            sizes = {
                "radius_mm": shape.radius_mm,
                "angle_deg": shape.angle_deg,
                "length_mm": shape.length_mm,
            }
        case Cone():
            kind = "cone"
            sizes = {
                "large_mm": shape.large_mm,
                "small_mm": shape.small_mm,
                "height_mm": shape.height_mm,
            }
    return {"kind": kind, "basis": shape.basis.value, **sizes}


def _place(place: Place) -> dict[str, Any]:
    return {"file": place.file, "sheet": place.sheet, "row": place.row, "column": place.column}


def _band(band: Band) -> dict[str, float]:
    return {"low": round(band.low, 3), "likely": round(band.likely, 3), "high": round(band.high, 3)}
