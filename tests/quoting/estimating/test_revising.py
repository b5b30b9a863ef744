"""A later word on an estimate: what was decided is in the prices, and nothing else moves."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

from quoting.core import State
from quoting.estimating import Edits, Estimate, LineEdit, LineResult, revise
from quoting.pricing import price_line, settings_of, total_order, with_settings
from tests.quoting.books import factories

LATER = date(2026, 12, 2)


def _run() -> Estimate:
    """The tidy order alone, so that every id is one line's."""
    run = factories.run()
    return replace(run, orders=run.orders[:1])


def _edits(settings: dict[str, Decimal] | None = None, **lines: dict[str, Any]) -> Edits:
    run = _run()
    changed = {f"t-{number.removeprefix('line')}": values for number, values in lines.items()}
    edits = {
        result.line.id: replace(LineEdit(result.drivers), **changed.get(result.line.id, {}))
        for result in run.lines
        if result.drivers
    }
    return Edits(settings_of(run.shop) | (settings or {}), edits, by="J. Owner")


def _revised(edits: Edits) -> Estimate:
    return revise(_run(), edits, replaces="0123456789ab", today=LATER)


def _line(found: Estimate, id: str) -> LineResult:
    return next(line for line in found.lines if line.line.id == id)


def test_no_edit_changes_no_price_and_lists_no_change() -> None:
    after = _revised(_edits())
    assert after.revision is not None
    assert (after.revision.number, after.revision.changes) == (2, ())
    assert [line.price for line in after.lines] == [line.price for line in _run().lines]
    assert [line.breaks for line in after.lines] == [line.breaks for line in _run().lines]


def test_a_changed_setting_prices_as_the_changed_shop_does() -> None:
    after = _revised(_edits({"operator_hour": Decimal(60), "margin": Decimal("0.4")}))
    shop = with_settings(_run().shop, {"operator_hour": Decimal(60), "margin": Decimal("0.4")})
    for line in after.lines:
        if line.price:
            assert line.drivers is not None
            assert line.price == price_line(line.drivers, shop.rates, shop.pricing, shop.cutting)
    assert after.revision is not None
    assert [change.what for change in after.revision.changes][:2] == ["operator_hour", "margin"]


def test_a_price_by_hand_is_taken_as_it_is_and_offers_no_other_quantity() -> None:
    after = _revised(_edits(line10={"unit": Decimal(500), "reason": "old customer"}))
    line = _line(after, "t-10")
    assert line.price is not None
    assert (line.price.unit, line.price.extended) == (Decimal(500), Decimal(2000))
    assert line.breaks == ()
    assert line.override is not None
    assert (line.override.reason, line.override.by) == ("old customer", "J. Owner")


def test_an_own_margin_is_for_one_line_alone() -> None:
    before, after = _run(), _revised(_edits(line10={"margin": Decimal("0.5")}))
    for line in after.lines:
        old = _line(before, line.line.id)
        if line.line.id == "t-10":
            assert line.price is not None
            assert old.price is not None
            assert line.price.unit > old.price.unit
        else:
            assert line.price == old.price


def test_a_line_left_out_is_gone_from_lines_total_and_questions_but_not_from_the_rows() -> None:
    after = _revised(_edits(line20={"drop": True, "reason": "bought elsewhere"}))
    order = after.orders[0]
    assert all(line.line.id != "t-20" for line in order.lines)
    assert len(order.rows) == len(_run().orders[0].rows)
    row = next(row for row in order.rows if row.number == "20")
    assert (row.state, row.reason) == (State.IGNORED, "left out in revision 2")
    prices = [line.price for line in order.lines if line.price]
    assert order.total == total_order(prices, after.shop.pricing)
    assert after.revision is not None
    public = [change for change in after.revision.changes if change.public]
    assert [(change.number, change.after) for change in public] == [("20", "left out")]


def test_other_quantities_move_in_proportion_with_the_quoted_one() -> None:
    before = _line(_run(), "t-10")
    assert before.drivers is not None
    dearer = replace(before.drivers, plate_cost=before.drivers.plate_cost * 2, setup_minutes=60.0)
    after = _line(_revised(_edits(line10={"drivers": dearer})), "t-10")
    for old, new in zip(before.break_plans, after.break_plans, strict=True):
        assert new.drivers.plate_cost == old.drivers.plate_cost * 2
        assert new.drivers.setup_minutes == 60.0
        assert new.drivers.rolling_minutes == old.drivers.rolling_minutes


def test_a_revision_of_a_revision_counts_on_and_keeps_the_first_day() -> None:
    first = _revised(_edits(line10={"unit": Decimal(500), "reason": "x"}))
    second = revise(first, _edits(), replaces="ba9876543210", today=date(2026, 12, 9))
    assert second.revision is not None
    assert (second.revision.number, second.revision.first_day) == (3, factories.TODAY)
    assert second.lines[0].price == _run().lines[0].price


def test_settings_go_round() -> None:
    shop = factories.shop()
    assert with_settings(shop, settings_of(shop)) == shop
