"""A later word on an estimate: prices again with other settings, amounts and decisions, and what changed.

Nothing is routed or nested again: the plates stay shared as they were, also when a line is left out. What a
line takes at its other quantities moves in proportion with what was changed at the quoted one.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from decimal import Decimal

from quoting.core import Order, State
from quoting.estimating.costing import line_breaks
from quoting.estimating.result import (
    BreakPlan,
    Change,
    Estimate,
    LineResult,
    OrderEstimate,
    Override,
    Revision,
)
from quoting.estimating.with_risk import with_risk
from quoting.pricing import (
    CostDrivers,
    LinePrice,
    price_line,
    priced_at,
    settings_of,
    total_order,
    with_settings,
)
from quoting.shop import PricingRules, Shop

_IN_PROPORTION = (
    "plate_cost",
    "drop_credit",
    "cutting_cost",
    "edge_m",
    "rolling_minutes",
    "crane_minutes",
    "bench_minutes",
    "weld_minutes",
    "consumables",
    "outside_cost",
)
_AS_IT_IS = ("setup_minutes", "crew", "certificate", "roll_rate")


@dataclass(frozen=True, slots=True)
class LineEdit:
    """What a person decided on one line: what it takes, margin, unit price and why; or to leave it out."""

    drivers: CostDrivers
    margin: Decimal | None = None
    unit: Decimal | None = None
    reason: str = ""
    drop: bool = False


@dataclass(frozen=True, slots=True)
class Edits:
    """All that a person decided: settings by name, every priced line by id, and who it was."""

    settings: Mapping[str, Decimal]
    lines: Mapping[str, LineEdit]
    by: str = ""
    notes: tuple[Change, ...] = field(default=())


def revise(estimate: Estimate, edits: Edits, *, replaces: str, today: date) -> Estimate:
    """Return the next revision of an estimate, priced anew with what was decided.

    `replaces` is the id of the record it is made from. `edits.lines` holds every priced line.
    """
    shop = with_settings(estimate.shop, edits.settings)
    number = (estimate.revision.number if estimate.revision else 1) + 1
    orders = tuple(_order(order, edits, shop, number) for order in estimate.orders)
    changes = (*_setting_changes(estimate.shop, shop), *edits.notes, *_line_changes(estimate, orders, edits))
    revised = replace(
        estimate,
        shop=shop,
        today=today,
        orders=orders,
        revision=Revision(number, replaces, changes, first_day(estimate)),
    )
    return with_risk(revised)


def first_day(estimate: Estimate) -> date:
    """Return the day of the first quote, which stays in the number of all its revisions."""
    return estimate.revision.first_day if estimate.revision else estimate.today


def line_rules(result: LineResult, shop: Shop) -> PricingRules:
    """Return the shop's rules with the margin that a person has set for this line, if any."""
    own = result.override.margin if result.override else None
    return shop.pricing if own is None else replace(shop.pricing, margin=own)


def _order(order: OrderEstimate, edits: Edits, shop: Shop, number: int) -> OrderEstimate:
    dropped = {line.line.id: line for line in order.lines if _is_dropped(line, edits)}
    lines = tuple(
        _line(line, edits.lines[line.line.id], edits.by, shop) if line.price else line
        for line in order.lines
        if line.line.id not in dropped
    )
    prices: list[LinePrice] = [line.price for line in lines if line.price is not None]
    return replace(
        order,
        order=_without(order, dropped, number),
        lines=lines,
        questions=tuple(question for question in order.questions if question.line not in dropped),
        total=total_order(prices, shop.pricing),
        risk=None,
    )


def _is_dropped(line: LineResult, edits: Edits) -> bool:
    edit = edits.lines.get(line.line.id)
    return edit is not None and edit.drop


def _without(order: OrderEstimate, dropped: Mapping[str, LineResult], number: int) -> Order:
    places = {line.line.place.cell for line in dropped.values()}
    reason = f"left out in revision {number}"
    return replace(
        order.order,
        lines=tuple(line for line in order.order.lines if line.id not in dropped),
        questions=tuple(question for question in order.order.questions if question.line not in dropped),
        drafts=tuple(draft for draft in order.order.drafts if draft.id not in dropped),
        rows=tuple(
            replace(row, state=State.IGNORED, reason=reason) if row.place.cell in places else row
            for row in order.order.rows
        ),
    )


def _line(result: LineResult, edit: LineEdit, by: str, shop: Shop) -> LineResult:
    assert result.drivers is not None
    decided = edit.unit is not None or edit.margin is not None or edit.reason
    override = Override(edit.reason, edit.unit, edit.margin, by) if decided else None
    changed = replace(result, drivers=edit.drivers, override=override, risk=None, sensitivities=(), breaks=())
    rules = line_rules(changed, shop)
    price = price_line(edit.drivers, shop.rates, rules, shop.cutting)
    plans = tuple(_moved(plan, result.drivers, edit.drivers) for plan in result.break_plans)
    if edit.unit is not None:
        # A price by hand says nothing about other quantities, so none are offered.
        return replace(changed, price=priced_at(price, edit.unit), break_plans=plans)
    breaks = line_breaks(price, plans, replace(shop, pricing=rules))
    return replace(changed, price=price, breaks=breaks, break_plans=plans)


def _moved(plan: BreakPlan, before: CostDrivers, after: CostDrivers) -> BreakPlan:
    """Return the plan of another quantity, moved as the quoted quantity was."""
    values = {name: getattr(after, name) for name in _AS_IT_IS}
    for name in _IN_PROPORTION:
        old, new, there = getattr(before, name), getattr(after, name), getattr(plan.drivers, name)
        if new == old:
            values[name] = there
        elif old:
            values[name] = there * new / old
        else:
            values[name] = new * plan.quantity / after.quantity
    return replace(plan, drivers=replace(plan.drivers, **values))


def _setting_changes(before: Shop, after: Shop) -> Iterable[Change]:
    old, new = settings_of(before), settings_of(after)
    for name in old:
        if new[name] != old[name]:
            yield Change(name, _plain(old[name]), _plain(new[name]))


def _line_changes(estimate: Estimate, orders: tuple[OrderEstimate, ...], edits: Edits) -> Iterable[Change]:
    after = {line.line.id: line for order in orders for line in order.lines}
    for order, revised in zip(estimate.orders, orders, strict=True):
        for line in order.lines:
            if line.price is None:
                continue
            edit = edits.lines[line.line.id]
            if edit.drop:
                before = f"{line.price.unit:,.2f} each"
                found = [Change("line", before, "left out", line.line.id, edit.reason, public=True)]
            else:
                found = list(_changes_of(line, after[line.line.id], edit))
            for change in found:
                yield replace(change, order=order.order.file, number=line.line.number)
        if revised.total.total != order.total.total:
            what = f"total of {order.order.customer}"
            yield Change(what, f"{order.total.total:,.2f}", f"{revised.total.total:,.2f}")


def _changes_of(before: LineResult, after: LineResult, edit: LineEdit) -> Iterable[Change]:
    assert before.drivers is not None
    assert before.price is not None
    assert after.price is not None
    id = before.line.id
    for name in (*_AS_IT_IS, *_IN_PROPORTION):
        old, new = getattr(before.drivers, name), getattr(edit.drivers, name)
        if old != new:
            yield Change(name.replace("_", " "), _plain(old), _plain(new), id)
    old_margin = before.override.margin if before.override else None
    if edit.margin != old_margin:
        yield Change("margin of the line", _margin(old_margin), _margin(edit.margin), id, edit.reason)
    old_unit = before.override.unit if before.override else None
    if edit.unit != old_unit:
        shown = "as computed" if edit.unit is None else f"{edit.unit:,.2f} by hand"
        yield Change("price decided", _unit(old_unit), shown, id, edit.reason)
    if after.price.unit != before.price.unit:
        units = (f"{before.price.unit:,.2f} each", f"{after.price.unit:,.2f} each")
        yield Change("unit price", *units, id, edit.reason, public=True)


def _margin(margin: Decimal | None) -> str:
    return "the shop's" if margin is None else f"{margin:.1%}"


def _unit(unit: Decimal | None) -> str:
    return "as computed" if unit is None else f"{unit:,.2f} by hand"


def _plain(value: object) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float | Decimal):
        text = f"{value:.4f}"
        return text.rstrip("0").rstrip(".")
    return str(value)
