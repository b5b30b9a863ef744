"""The money in the record: prices with what they are built from, risk, what a person decided, revisions."""

from __future__ import annotations

from decimal import Decimal
from hashlib import sha256
from typing import Any

from quoting.estimating import Estimate, LineResult
from quoting.pricing import CostDrivers, CostSpread, LineRisk, settings_of


def result_id(estimate: Estimate) -> str:
    """Return a short text that two results share only when their lines, prices and settings are the same."""
    parts = [estimate.today.isoformat(), str(estimate.seed), estimate.shop.name]
    parts += [f"{name}={value.normalize()}" for name, value in settings_of(estimate.shop).items()]
    if estimate.revision:
        parts += [str(estimate.revision.number), estimate.revision.replaces]
    for result in estimate.lines:
        unit = str(result.price.unit) if result.price else ""
        drivers = _drivers(result.drivers) if result.drivers else {}
        parts += [result.line.id, str(result.line.quantity), unit, str(drivers)]
    return sha256("\n".join(parts).encode()).hexdigest()[:12]


def revision_record(estimate: Estimate) -> dict[str, Any]:
    """Return which revision this is, of what, and what it changed."""
    found = estimate.revision
    return {
        "number": found.number if found else 1,
        "replaces": found.replaces if found else None,
        "changes": [
            {
                "line": change.line,
                "what": change.what,
                "before": change.before,
                "after": change.after,
                "reason": change.reason,
            }
            for change in (found.changes if found else ())
        ],
    }


def price_record(result: LineResult) -> dict[str, Any]:
    """Return the price of a priced line, its parts and drivers, its breaks, and how sure it is."""
    price, drivers = result.price, result.drivers
    assert price is not None
    assert drivers is not None
    parts = price.parts
    return {
        "price": {
            "unit": str(price.unit),
            "extended": str(price.extended),
            "cost": _money(parts.cost),
            "margin": _share(price.margin),
            "markup": _share(price.markup),
            "floor": _money(price.floor),
            "floor_unit": str(price.floor_unit),
            "under_floor": price.under_floor,
            "parts": {name: _money(getattr(parts, name)) for name in parts.__dataclass_fields__},
        },
        "drivers": _drivers(drivers),
        "breaks": [
            {
                "quantity": offer.quantity,
                "unit": str(offer.unit),
                "extended": str(offer.extended),
                "note": offer.note,
            }
            for offer in result.breaks
        ],
        "plates": list(result.plates),
        "override": _override(result),
        "risk": _risk(result.risk) if result.risk else None,
        "sensitivities": [
            {name: _plain(getattr(found, name)) for name in found.__dataclass_fields__}
            for found in result.sensitivities
        ],
    }


def spread_record(spread: CostSpread) -> dict[str, Any]:
    """Return the percentiles of a cost and the chance that it is more than the price."""
    return {
        "p10": str(spread.p10),
        "p50": str(spread.p50),
        "p90": str(spread.p90),
        "mean": str(spread.mean),
        "loss_chance": round(spread.loss_chance, 4),
    }


def _drivers(drivers: CostDrivers) -> dict[str, Any]:
    return {name: _plain(getattr(drivers, name)) for name in drivers.__dataclass_fields__}


def _override(result: LineResult) -> dict[str, Any] | None:
    found = result.override
    if found is None:
        return None
    return {
        "unit": _plain(found.unit),
        "margin": _plain(found.margin),
        "reason": found.reason,
        "by": found.by,
    }


def _risk(risk: LineRisk) -> dict[str, Any]:
    return spread_record(risk.cost) | {
        "over_rating_chance": round(risk.over_rating_chance, 4),
        "reasons": list(risk.reasons),
    }


def _plain(value: Any) -> Any:
    if isinstance(value, Decimal):
        return str(value)
    return round(float(value), 4) if isinstance(value, float) else value


def _money(amount: Decimal) -> str:
    return str(amount.quantize(Decimal("0.0001")))


def _share(share: Decimal) -> str:
    return str(share.quantize(Decimal("0.0001")))
