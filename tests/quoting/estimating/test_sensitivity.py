"""What a change does to a price is what a run with the change gives."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

import pytest

from quoting.core import Basis, Cylinder, Order, OrderLine
from quoting.estimating import Estimate, LineResult, estimate, with_sensitivities
from quoting.estimating.result import Sensitivity
from quoting.estimating.what_if.changes import dearer_plate, other_basis
from tests.quoting.books import factories
from tests.quoting.books.factories import INCH

SHELL = "t-10"


def _orders(change: Callable[[OrderLine], OrderLine] = lambda line: line) -> tuple[Order, ...]:
    order = factories.tidy()
    return (replace(order, lines=tuple(change(line) for line in order.lines)),)


def _run(orders: tuple[Order, ...], rise: str = "0") -> Estimate:
    shop = dearer_plate(factories.shop(), Decimal(rise))
    return estimate(orders, shop, today=factories.TODAY, effort="quick")


@pytest.fixture(scope="module")
def run() -> Estimate:
    return with_sensitivities(_run(_orders()))


def _line(found: Estimate, id: str) -> LineResult:
    return next(line for line in found.lines if line.line.id == id)


def _change(found: Estimate, id: str, kind: str) -> Sensitivity:
    return next(change for change in _line(found, id).sensitivities if change.kind == kind)


def _moved(change: Callable[[OrderLine], OrderLine]) -> Callable[[OrderLine], OrderLine]:
    return lambda line: change(line) if line.id == SHELL else line


def test_dearer_plate_is_the_run_with_dearer_plate(run: Estimate) -> None:
    dearer = _run(_orders(), "0.08")
    for result in run.lines:
        again = _line(dearer, result.line.id)
        if result.price is None or again.price is None:
            continue
        change = _change(run, result.line.id, "plate")
        assert (change.unit, change.extended) == (again.price.unit, again.price.extended)
        assert change.difference == again.price.extended - result.price.extended
        assert change.difference > 0


def test_the_other_basis_is_the_run_with_the_other_basis(run: Estimate) -> None:
    inside = _run(_orders(_moved(lambda line: replace(line, shape=other_basis(line.shape) or line.shape))))
    price = _line(inside, SHELL).price
    change = _change(run, SHELL, "basis")
    assert price is not None
    assert change.change == "ID instead of OD"
    assert (change.unit, change.extended) == (price.unit, price.extended)


def test_twice_as_many_is_the_run_with_twice_as_many(run: Estimate) -> None:
    double = _run(_orders(_moved(lambda line: replace(line, quantity=2 * line.quantity))))
    price = _line(double, SHELL).price
    change = _change(run, SHELL, "quantity")
    assert price is not None
    assert change.change == "8 instead of 4"
    assert (change.unit, change.extended) == (price.unit, price.extended)


def test_one_more_pass_costs_every_line_something(run: Estimate) -> None:
    for result in run.lines:
        if result.price is not None:
            difference = _change(run, result.line.id, "pass").difference
            assert difference is not None
            assert difference > 0


def test_a_mean_diameter_has_no_other_basis(run: Estimate) -> None:
    assert other_basis(Cylinder(600, Basis.MEAN, 900)) is None
    assert all(change.kind != "basis" for change in _line(run, "t-30").sensitivities)


def test_a_line_that_is_not_priced_has_no_changes(run: Estimate) -> None:
    assert _line(run, "t-40").sensitivities == ()


def test_two_lines_of_the_same_part_merge_into_one_batch() -> None:
    shape = Cylinder(36 * INCH, Basis.OUTSIDE, 60 * INCH)
    order = factories.tidy()
    first = replace(order.lines[0], certificate=False, quantity=3)
    second = replace(first, id="t-11", number="11", place=order.lines[1].place, quantity=2)
    found = with_sensitivities(_run((replace(order, lines=(first, second)),)))
    five = _run((replace(order, lines=(replace(first, quantity=5),)),))
    change = _change(found, "t-10", "merge")
    one, two = (_line(found, id).price for id in ("t-10", "t-11"))
    merged = five.lines[0].price
    assert shape == first.shape
    assert one is not None
    assert two is not None
    assert merged is not None
    assert change.extended == merged.extended
    assert change.difference == merged.extended - one.extended - two.extended
    assert change.difference < 0


def test_lines_of_one_plate_run_after_each_other_save_a_set_up(run: Estimate) -> None:
    merges = [change for result in run.lines for change in result.sensitivities if change.kind == "merge"]
    assert merges
    assert all("one setting of the gap" in merge.change for merge in merges)
    assert all(merge.difference is not None and merge.difference <= 0 for merge in merges)
