"""The money of a record: prices with what they are built from, risk, what a person decided, revisions."""

from __future__ import annotations

from dataclasses import fields
from decimal import Decimal
from hashlib import sha256
from typing import Any

from quoting.estimating import Estimate, LineResult, WorkItem
from quoting.pricing import CostDrivers, CostSpread, LinePrice, LineRisk, settings_of
from quoting.record import (
    BreakRecord,
    ChangeRecord,
    DriversRecord,
    OverrideRecord,
    PartsRecord,
    PriceRecord,
    RevisionRecord,
    RiskRecord,
    SensitivityRecord,
    SpreadRecord,
    WorkRecord,
)


def result_id(estimate: Estimate) -> str:
    """Return a short text that two results share only when their lines, prices and settings are the same."""
    parts = [estimate.today.isoformat(), str(estimate.seed), estimate.shop.name]
    parts += [f"{name}={value.normalize()}" for name, value in settings_of(estimate.shop).items()]
    if estimate.revision:
        parts += [str(estimate.revision.number), estimate.revision.replaces]
    for result in estimate.lines:
        unit = str(result.price.unit) if result.price else ""
        drivers = _as_text(_drivers(result.drivers)) if result.drivers else {}
        parts += [result.line.id, str(result.line.quantity), unit, str(drivers)]
    return sha256("\n".join(parts).encode()).hexdigest()[:12]


def revision_record(estimate: Estimate) -> RevisionRecord:
    """Return which revision this is, of what, and what it changed."""
    found = estimate.revision
    if found is None:
        return RevisionRecord(number=1, replaces=None, changes=())
    return RevisionRecord(
        number=found.number,
        replaces=found.replaces,
        changes=tuple(
            ChangeRecord(change.line, change.what, change.before, change.after, change.reason)
            for change in found.changes
        ),
    )


def price_fields(result: LineResult) -> dict[str, Any]:
    """Return what a priced line has more than a routed one: price, parts, drivers, breaks, how sure it is."""
    assert result.price is not None
    assert result.drivers is not None
    found = result.override
    return {
        "price": _price(result.price),
        "drivers": _drivers(result.drivers),
        "work": tuple(WorkRecord(**_rounded(item)) for item in result.work),
        "breaks": tuple(
            BreakRecord(offer.quantity, offer.unit, offer.extended, offer.note) for offer in result.breaks
        ),
        "plates": result.plates,
        "override": OverrideRecord(found.unit, found.margin, found.reason, found.by) if found else None,
        "risk": _risk(result.risk) if result.risk else None,
        "sensitivities": tuple(
            SensitivityRecord(
                found.kind, found.change, found.unit, found.extended, found.difference, found.problem
            )
            for found in result.sensitivities
        ),
    }


def spread_record(spread: CostSpread) -> SpreadRecord:
    """Return the percentiles of a cost and the chance that it is more than the price."""
    return SpreadRecord(**_spread(spread))


def _price(price: LinePrice) -> PriceRecord:
    parts = price.parts
    return PriceRecord(
        unit=price.unit,
        extended=price.extended,
        cost=_exact(parts.cost),
        margin=_exact(price.margin),
        markup=_exact(price.markup),
        floor=_exact(price.floor),
        floor_unit=price.floor_unit,
        under_floor=price.under_floor,
        parts=PartsRecord(**{field.name: _exact(getattr(parts, field.name)) for field in fields(parts)}),
    )


def _drivers(drivers: CostDrivers) -> DriversRecord:
    return DriversRecord(**_rounded(drivers))


def _as_text(drivers: DriversRecord) -> dict[str, Any]:
    values = {field.name: getattr(drivers, field.name) for field in fields(drivers)}
    return {name: str(value) if isinstance(value, Decimal) else value for name, value in values.items()}


def _risk(risk: LineRisk) -> RiskRecord:
    return RiskRecord(
        **_spread(risk.cost),
        over_rating_chance=round(risk.over_rating_chance, 4),
        reasons=tuple(risk.reasons),
    )


def _spread(spread: CostSpread) -> dict[str, Any]:
    return {
        "p10": spread.p10,
        "p50": spread.p50,
        "p90": spread.p90,
        "mean": spread.mean,
        "loss_chance": round(spread.loss_chance, 4),
    }


def _rounded(item: CostDrivers | WorkItem) -> dict[str, Any]:
    """Return the fields of an item by name, numbers rounded; a number is never whole just because it is 0."""
    values = {field.name: (field.type, getattr(item, field.name)) for field in fields(item)}
    return {name: round(float(x), 4) if kind == "float" else x for name, (kind, x) in values.items()}


def _exact(amount: Decimal) -> Decimal:
    """Return money, or a share, to a hundredth of a cent."""
    return amount.quantize(Decimal("0.0001"))
