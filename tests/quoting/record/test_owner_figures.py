"""What many quotes earn: sums that agree with their lines, and nothing counted twice."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from quoting.estimating import Edits, Estimate, LineEdit, revise, with_risk, with_sensitivities
from quoting.pricing import settings_of
from quoting.record import OwnersFigures, PricedLineRecord, RunRecord, find_line, owners_figures
from quoting.record.owner_figures import MOST_WEEKS
from quoting.recording import describe
from tests.quoting.books import factories


def _run() -> Estimate:
    run = factories.run()
    return with_sensitivities(with_risk(replace(run, orders=run.orders[:1])))


def _cheaper(run: Estimate, unit: int) -> Estimate:
    edits = {line.line.id: LineEdit(line.drivers) for line in run.lines if line.drivers}
    edits["t-10"] = replace(edits["t-10"], unit=Decimal(unit), reason="fills the roll")
    return revise(
        run,
        Edits(settings_of(run.shop), edits, by="J. Owner"),
        replaces=describe(run).id,
        today=date(2026, 12, 2),
    )


@pytest.fixture(scope="module")
def record() -> RunRecord:
    return describe(_run())


@pytest.fixture(scope="module")
def found(record: RunRecord) -> OwnersFigures:
    return owners_figures([record])


def test_customers_and_rolls_add_up_to_all(found: OwnersFigures) -> None:
    run = _run()
    prices = [line.price for line in run.lines if line.price]
    assert found.total.sold == sum(price.extended for price in prices)
    assert abs(found.total.profit - sum(price.profit for price in prices)) < Decimal("0.01")
    for groups in (found.by(lambda line: line.customer), found.by(lambda line: line.roll)):
        assert sum(group.sold for group in groups) == found.total.sold
        assert sum(group.lines for group in groups) == found.total.lines
        assert sum(group.minutes for group in groups) == pytest.approx(found.total.minutes)


def test_a_record_that_is_replaced_and_a_second_copy_are_left_out(record: RunRecord) -> None:
    revised = describe(_cheaper(_run(), 640))
    found = owners_figures([record, revised, record])
    assert (found.results, found.left_out) == (1, 2)
    assert next(line for line in found.lines if line.id == "t-10").unit == Decimal(640)


def test_lines_under_the_floor_say_who_allowed_them_and_why() -> None:
    found = owners_figures([describe(_cheaper(_run(), 100))])
    line = found.decided[0]
    assert (line.under_floor, line.by, line.reason) == (True, "J. Owner", "fills the roll")
    assert line.loss_chance == 1


def test_hours_stand_in_the_week_asked_for(found: OwnersFigures) -> None:
    due = next(week for week in found.weeks if week.monday == date(2026, 12, 14))
    line = next(line for line in found.lines if line.id == "t-10")
    assert sum(due.hours.values()) == pytest.approx((line.setup_minutes + line.rolling_minutes) / 60)
    assert found.weeks[-1].monday is None
    whole = sum(sum(week.hours.values()) for week in found.weeks)
    assert whole == pytest.approx(found.total.minutes / 60)


def test_a_far_day_does_not_make_a_thousand_weeks(record: RunRecord) -> None:
    line = find_line(record, "t-20")
    assert isinstance(line, PricedLineRecord)
    lines = (*record.lines, replace(line, id="t-21", due=date(2099, 1, 5)))
    found = owners_figures([replace(record, lines=lines)])
    assert len(found.weeks) < MOST_WEEKS


def test_plates_and_their_drops_are_those_of_the_nests(found: OwnersFigures) -> None:
    nests = factories.run().nests
    assert sum(plate.cost for plate in found.plates) == sum(group.nest.plate_cost for group in nests)
    assert sum(plate.drop_value for plate in found.plates) == sum(group.nest.drop_value for group in nests)
    assert all(0 < plate.used <= 1 for plate in found.plates)


def test_what_dearer_plate_adds_is_kept(found: OwnersFigures) -> None:
    assert all(line.plate_rise is not None and line.plate_rise > 0 for line in found.lines)
