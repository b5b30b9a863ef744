"""The whole path from lines to prices."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from quoting.core import Basis, Cylinder, Order, SheetRow, State
from quoting.estimating import Estimate, estimate
from quoting.record import RowsRecord
from quoting.recording import make_record
from quoting.shop import Shop
from tests.quoting.lines import order, shell

TODAY = date(2026, 11, 30)


def run(shop: Shop, *lines: object, **options: object) -> Estimate:
    return estimate([order(*lines)], shop, today=TODAY, effort="quick", **options)  # type: ignore[arg-type]


def test_every_price_adds_up_and_plates_are_paid_for_once(shop: Shop) -> None:
    found = run(shop, shell("A-1"), shell("A-2", quantity=3), shell("A-3", thickness_mm=9.525))
    priced = [line for line in found.lines if line.price]
    assert len(priced) == 3
    for line in priced:
        assert line.price is not None
        assert line.price.extended == line.price.unit * line.line.quantity
    charged = sum(line.drivers.plate_cost for line in priced if line.drivers)
    assert charged == sum(group.nest.plate_cost for group in found.nests)
    assert found.orders[0].total.lines == sum(line.price.extended for line in priced if line.price)


def test_equal_blanks_cost_the_same_plate_each(shop: Shop) -> None:
    found = run(shop, *(shell(f"A-{n}", quantity=1) for n in range(1, 6)))
    costs = [line.drivers.plate_cost for line in found.lines if line.drivers]
    assert max(costs) - min(costs) <= Decimal("0.01")


def test_the_same_run_gives_the_same_record(shop: Shop) -> None:
    lines = (shell("A-1"), shell("A-2", shape=Cylinder(1000.0, Basis.INSIDE, 900.0)))
    assert make_record(run(shop, *lines)) == make_record(run(shop, *lines))


def test_a_remnant_is_given_to_one_line_only(shop: Shop) -> None:
    used = [
        cut.plate for group in run(shop, shell("A-1"), shell("A-2")).nests for cut in group.nest.cut_plates
    ]
    limited = {plate.id: plate.count for plate in shop.stock if plate.count is not None}
    assert all(used.count(plate) <= count for plate, count in limited.items())


def test_the_customers_own_plate_is_not_charged(shop: Shop) -> None:
    own, ours = run(shop, shell("A-1", free_issue=True), shell("A-2")).lines
    assert own.drivers is not None
    assert ours.drivers is not None
    assert own.drivers.plate_cost == 0
    assert own.drivers.cutting_cost > 0
    assert own.plates == ()


def test_an_impossible_line_does_not_stop_the_others(shop: Shop) -> None:
    good, bad = run(shop, shell("A-1"), shell("A-2", thickness_mm=5.1)).lines
    assert good.state is State.PRICED
    assert bad.state is State.QUESTION  # what its plate costs is to be asked for, nothing is refused
    assert bad.price is None
    assert "not in our rack" in bad.reason


def test_a_certified_line_is_not_cut_from_plate_without_heat_number(shop: Shop) -> None:
    no_heat = replace(shop, stock=tuple(replace(p, heat="") for p in shop.stock if not p.buyable))
    (line,) = run(no_heat, shell("A-1", certificate=True)).lines
    assert line.state is State.NO_QUOTE
    assert "heat number" in line.reason


def test_break_prices_hold_the_quoted_price_and_fall_with_quantity(shop: Shop) -> None:
    (line,) = run(shop, shell("A-1", quantity=4, breaks=(1, 4, 10))).lines
    assert line.price is not None
    units = {offer.quantity: offer.unit for offer in line.breaks}
    assert units[4] == line.price.unit
    assert units[1] >= units[4] >= units[10]


def test_without_a_nest_plate_is_priced_by_weight(shop: Shop) -> None:
    (line,) = run(shop, shell("A-1"), nested=False).lines
    assert line.drivers is not None
    kg = sum(rolling.blank.weight_kg * rolling.quantity for rolling in line.routes[0].rollings)
    assert line.drivers.plate_cost == pytest.approx(
        Decimal(str(kg)) * shop.material("A36").price_per_kg, abs=Decimal("0.01")
    )


def test_rows_are_accounted_for_with_what_became_of_them(shop: Shop) -> None:
    line, bad = shell("A-1"), shell("A-2", thickness_mm=5.1)
    rows = tuple(SheetRow(x.place, State.PRICED, x.number, "read") for x in (line, bad))
    found = estimate(
        [Order("orders.xlsx", "c", lines=(line, bad), rows=rows)], shop, today=TODAY, effort="quick"
    )
    assert [row.state for row in found.orders[0].rows] == [State.PRICED, State.QUESTION]
    record = make_record(found)
    assert record.orders[0].rows == RowsRecord(priced=1, question=1, no_quote=0, ignored=0)


@pytest.mark.parametrize("basis", [Basis.INSIDE, Basis.OUTSIDE])
def test_inside_for_outside_is_two_pi_t_of_blank(shop: Shop, basis: Basis) -> None:
    (line,) = run(shop, shell("A-1", shape=Cylinder(762.0, basis, 1219.2)), nested=False).lines
    girth = line.routes[0].plan.blanks[0].girth_mm
    mean = 762.0 + (6.35 if basis is Basis.INSIDE else -6.35)
    assert girth == pytest.approx(mean * 3.141592653589793)


def test_more_pieces_of_one_part_on_lines_of_their_own_are_never_dearer_each(shop: Shop) -> None:
    lines = [shell(f"A-{count}", quantity=count) for count in (1, 2, 5, 10, 25)]
    found = estimate([order(*lines)], shop, today=date(2026, 11, 30), effort="quick").lines
    units = [result.price.unit for result in found if result.price]
    assert len(units) == 5
    assert units == sorted(units, reverse=True)
