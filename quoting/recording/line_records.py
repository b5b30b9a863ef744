"""The lines of a record: each as far as it was read, routed and priced."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import asdict
from math import isinf
from typing import Any

from quoting.core import Arc, Cone, Cylinder, Outline, Place, Rectangle, Shape, SheetRow, State, part_words
from quoting.estimating import LineResult, OrderEstimate, Rolling, Route, edge_words, weld_words
from quoting.record import (
    ArcRecord,
    BandRecord,
    BlankKindRecord,
    BlankRecord,
    ConeRecord,
    CylinderRecord,
    EdgePrepRecord,
    LiftRecord,
    MinutesRecord,
    OptionRecord,
    PassesRecord,
    PlaceRecord,
    PricedLineRecord,
    ReadLineRecord,
    RoutedLineRecord,
    SectorRecord,
    ShapeRecord,
    StepRecord,
    ToleranceRecord,
    UnreadLineRecord,
    VerdictRecord,
)
from quoting.recording.price_records import price_fields
from quoting.shop import Band, Shop


def line_records(order: OrderEstimate, shop: Shop) -> Iterable[UnreadLineRecord]:
    """Yield the record of every row of an order that is or should be a line."""
    results = {result.line.place.cell: result for result in order.lines}
    drafts = {draft.place.cell: draft.id for draft in order.order.drafts}
    asked: dict[str, list[str]] = {}
    for question in order.questions:
        asked.setdefault(question.line, []).append(question.id)
    for row in order.rows:
        if row.state is State.IGNORED:
            continue
        result = results.get(row.place.cell)
        id = result.line.id if result else drafts.get(row.place.cell, row.number)
        yield _line(id, row, result, order.order.customer, tuple(asked.get(id, ())), shop)


def place_record(place: Place) -> PlaceRecord:
    """Return where a value was read."""
    return PlaceRecord(place.file, place.sheet, place.row, place.column)


def _line(
    id: str,
    row: SheetRow,
    result: LineResult | None,
    customer: str,
    questions: tuple[str, ...],
    shop: Shop,
) -> UnreadLineRecord:
    fields: dict[str, Any] = {
        "id": id,
        "number": row.number,
        "customer": customer,
        "place": place_record(row.place),
        "state": row.state.value,
        "reason": row.reason,
        "questions": questions,
    }
    if result is None:
        return UnreadLineRecord(**fields)
    fields |= {"state": result.state.value, "reason": result.reason, **_read(result, shop)}
    if result.route is None:
        return ReadLineRecord(**fields)
    fields |= _routed(result.route, result)
    if result.price is None:
        return RoutedLineRecord(**fields)
    return PricedLineRecord(**fields, **price_fields(result))


def _read(result: LineResult, shop: Shop) -> dict[str, Any]:
    line = result.line
    return {
        "nearest": result.nearest,
        "quantity": line.quantity,
        "part": part_words(line, inch=shop.inch),
        "part_no": line.part_no,
        "shape": _shape(line.shape),
        "material": line.material,
        "family": shop.material(line.material).family.value,
        "thickness_mm": line.thickness_mm,
        "due": line.due,
        "re_round": line.re_round,
        "remarks": line.remarks,
        "assumptions": result.assumptions,
        "description": line.description,
        "revision": line.drawn_revision,
        "tolerance": line.tolerance,
        "edges": edge_words(line.edge_prep, inch=shop.inch) if line.edge_prep else "",
        "weld": weld_words(line),
        "certificate": line.certificate,
        "free_issue": line.free_issue,
        "edge_prep": EdgePrepRecord(**asdict(line.edge_prep)) if line.edge_prep else None,
        "tolerances": tuple(ToleranceRecord(**asdict(one)) for one in line.tolerances),
    }


def _routed(route: Route, result: LineResult) -> dict[str, Any]:
    heaviest = max(route.rollings, key=lambda rolling: rolling.blank.weight_kg)
    first = route.rollings[0].blank
    verdict = route.governing.verdict
    return {
        "inside_diameter_mm": first.mean_diameter_mm - first.thickness_mm,
        "blank": _blank(route, heaviest.blank.weight_kg),
        "verdict": VerdictRecord(**_judged(route), flags=tuple(verdict.flags), notes=tuple(verdict.notes)),
        "rolls": tuple(_option(option) for option in result.routes if option.ok),
        "lift": LiftRecord(
            method=heaviest.lift.method.value,
            crew=route.crew,
            crane=any(rolling.lift.method.crane for rolling in route.rollings),
            why=heaviest.lift.why,
        ),
        "cautions": result.cautions,
        "minutes": MinutesRecord(**asdict(_band(route.minutes)), setup=result.setup_minutes),
        "ends": route.ends,
    }


def _blank(route: Route, heaviest_kg: float) -> BlankRecord:
    first = route.rollings[0].blank
    outline = first.outline
    return BlankRecord(
        length_mm=outline.length_mm if isinstance(outline, Rectangle) else first.girth_mm,
        width_mm=first.width_mm,
        sector=_sector(outline),
        weight_kg=heaviest_kg,
        pieces=route.plan.pieces_per_part,
        courses=route.plan.courses,
        seams=route.plan.seams,
        part_weight_kg=route.plan.part_weight_kg,
        notes=tuple(route.plan.notes),
    )


def _judged(route: Route) -> dict[str, Any]:
    verdict = route.governing.verdict
    return {"roll": route.roll, "ok": route.ok, "limit": verdict.limit, "used": round(verdict.used, 4)}


def _option(route: Route) -> OptionRecord:
    re_round = sum(rolling.minutes.re_round.likely * rolling.quantity for rolling in route.rollings)
    return OptionRecord(
        **_judged(route),
        minutes=_band(route.minutes),
        re_round_minutes=round(re_round, 3),
        passes=tuple(_passes(rolling) for rolling in route.rollings),
    )


def _passes(rolling: Rolling) -> PassesRecord:
    plan = rolling.passes
    low, high = sorted(plan.inside_diameter_band_mm)
    return PassesRecord(
        blank=rolling.blank.id,
        quantity=rolling.quantity,
        pinch_gap_mm=plan.pinch_gap_mm,
        pre_bend_readout_mm=plan.pre_bend_readout_mm,
        flat_lead_mm=plan.flat_lead_mm,
        flat_tail_mm=plan.flat_tail_mm,
        stop_before_tail_mm=plan.stop_before_tail_mm,
        re_rolls=plan.re_rolls,
        tilt_mm_per_m=plan.cone.tilt_mm_per_m if plan.cone else None,
        steps=tuple(
            StepRecord(
                number=step.number,
                final_radius_mm=step.final_radius_mm,
                loaded_radius_mm=step.loaded_radius_mm,
                readout_mm=step.readout_mm,
                lift_mm=step.lift_mm,
                end_leading=step.end_leading,
                pre_bend=step.pre_bend,
                re_roll=step.re_roll,
            )
            for step in plan.passes
        ),
        notes=tuple(plan.notes),
        kind=_kind(rolling),
        inside_diameter_band_mm=(low, None if isinf(high) else high),
        lightest_pinch_n=rolling.verdict.pinch_n,
    )


def _kind(rolling: Rolling) -> BlankKindRecord:
    blank, outline = rolling.blank, rolling.blank.outline
    return BlankKindRecord(
        length_mm=outline.length_mm if isinstance(outline, Rectangle) else blank.girth_mm,
        width_mm=outline.width_mm if isinstance(outline, Rectangle) else blank.width_mm,
        sector=_sector(outline),
        girth_mm=blank.girth_mm,
        arc_deg=blank.arc_deg,
        mean_diameter_mm=blank.mean_diameter_mm,
        large_mean_diameter_mm=blank.cone.large_mm if blank.cone else None,
        weight_kg=blank.weight_kg,
    )


def _sector(outline: Outline) -> SectorRecord | None:
    if isinstance(outline, Rectangle):
        return None
    return SectorRecord(outline.outer_radius_mm, outline.inner_radius_mm, outline.angle_deg)


def _shape(shape: Shape) -> ShapeRecord:
    match shape:
        case Cylinder():
            return CylinderRecord("cylinder", shape.basis, shape.diameter_mm, shape.length_mm)
        case Arc():
            return ArcRecord("arc", shape.basis, shape.radius_mm, shape.angle_deg, shape.length_mm)
        case Cone():
            return ConeRecord("cone", shape.basis, shape.large_mm, shape.small_mm, shape.height_mm)


def _band(band: Band) -> BandRecord:
    return BandRecord(low=round(band.low, 3), likely=round(band.likely, 3), high=round(band.high, 3))
