"""Pieces due later wait for a later plate when the shop says so, or fill what an early plate has left."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quoting.core import RangeError, Rectangle, Sector
from quoting.nesting import Nest, NestProblem, Piece, Waiting, nest, week_of
from quoting.nesting.checker import check
from tests.quoting.nesting.shop import bare_problem, invented, plate

SOON, LATER, LAST = date(2026, 12, 4), date(2026, 12, 18), date(2027, 1, 15)
DAYS = (SOON, LATER, LAST, None)


def waiting(problem: NestProblem, share: str = "0.02") -> NestProblem:
    return replace(problem, waiting=Waiting(Decimal(share)))


def dated(problem: NestProblem, days: tuple[date | None, ...] = DAYS) -> NestProblem:
    pieces = tuple(replace(p, cut_by=days[k % len(days)]) for k, p in enumerate(problem.pieces))
    return replace(problem, pieces=pieces)


def early(found: Nest, day: date = SOON) -> int:
    return sum(cut.cut_by is not None and cut.cut_by <= day for cut in found.cut_plates)


def mixed() -> NestProblem:
    """Four halves of a plate, two of them due later: together a soon and a later one may share each plate."""
    return bare_problem(
        (
            Piece("soon", Rectangle(1000, 500), 2, cut_by=SOON),
            Piece("later", Rectangle(1000, 500), 2, cut_by=LATER),
        ),
        plate(1000, 1000),
    )


@pytest.mark.parametrize("method", ["thermal", "shear"])
def test_no_plate_is_cut_early_for_a_later_piece_only(method: str) -> None:
    problem = waiting(dated(invented(3, method=method), (SOON, LATER)), "1")
    found = nest(problem)
    assert found.waited is not None
    assert not found.unplaced
    for cut in found.cut_plates:
        days = [problem.piece(put.piece).cut_by for put in cut.placements]
        assert cut.cut_by == min(day for day in days if day)


def test_the_later_plate_is_marked_with_its_day() -> None:
    found = nest(waiting(mixed(), "0"))
    assert sorted((cut.cut_by, len(cut.placements)) for cut in found.cut_plates) == [(SOON, 2), (LATER, 2)]


def test_later_pieces_fill_the_metal_that_an_early_plate_has_left() -> None:
    problem = bare_problem(
        (
            Piece("soon", Rectangle(1000, 600), cut_by=SOON),
            Piece("later", Rectangle(1000, 400), 2, cut_by=LATER),
            Piece("whenever", Rectangle(1000, 600), cut_by=None),
        ),
        plate(1000, 1000),
    )
    found = nest(waiting(problem, "0"))
    first, second = found.cut_plates
    assert (first.cut_by, second.cut_by) == (SOON, LATER)
    assert {put.piece for put in first.placements} == {"soon", "later"}
    assert {put.piece for put in second.placements} == {"later", "whenever"}


def dear_to_wait() -> NestProblem:
    """Together one big cheap plate holds all; apart it takes two small ones at 60 each."""
    return bare_problem(
        (
            Piece("soon", Rectangle(1000, 1000), cut_by=SOON),
            Piece("later", Rectangle(1000, 1000), cut_by=LATER),
        ),
        plate(1000, 1000, id="small", price="60"),
        plate(1000, 2000, id="big", price="100", count=1),
    )


def test_waiting_that_costs_more_than_the_shop_allows_is_not_done_and_says_so() -> None:
    found = nest(waiting(dear_to_wait(), "0.19"))
    assert found.used() == {"big": 1}
    assert found.waited is not None
    assert (found.waited.taken, found.waited.together, found.waited.apart) == (
        False,
        Decimal(100),
        Decimal(120),
    )


def test_waiting_that_the_shop_pays_for_is_done_and_says_what_it_costs() -> None:
    found = nest(waiting(dear_to_wait(), "0.20"))
    assert found.used() == {"small": 2}
    assert found.waited is not None
    assert (found.waited.taken, found.waited.together, found.waited.apart) == (
        True,
        Decimal(100),
        Decimal(120),
    )


def test_without_the_setting_days_change_nothing() -> None:
    plain = invented(5)
    found, same = nest(plain), nest(dated(plain))
    assert same.waited is None
    assert [cut.placements for cut in same.cut_plates] == [cut.placements for cut in found.cut_plates]


def test_pieces_of_one_week_are_nested_together() -> None:
    monday = week_of(SOON)
    found = nest(waiting(dated(invented(5), (monday, monday + timedelta(days=4)))))
    assert found.waited is None


def test_cones_wait_and_fill_too() -> None:
    pieces = (
        Piece("cone", Sector(1200, 700, 90), 2, cut_by=SOON),
        Piece("strip", Rectangle(200, 400), 6, cut_by=LATER),
    )
    problem = replace(bare_problem(pieces, plate(2000, 4000)), waiting=Waiting())
    found = nest(problem)
    assert check(problem, found) == ()
    assert len(found.cut_plates) == 1


def test_a_nest_that_says_a_plate_may_wait_when_it_may_not_is_caught() -> None:
    problem = waiting(mixed(), "0")
    found = nest(problem)
    late = tuple(replace(cut, cut_by=LATER) for cut in found.cut_plates)
    assert any(
        "a piece on it by 2026-12-04" in str(f) for f in check(problem, replace(found, cut_plates=late))
    )
    early_cuts = tuple(replace(cut, cut_by=SOON) for cut in found.cut_plates)
    faults = check(problem, replace(found, cut_plates=early_cuts))
    assert any("no piece on it asks for that" in str(fault) for fault in faults)


def test_waiting_dearer_than_allowed_or_not_allowed_at_all_is_caught() -> None:
    problem = waiting(dear_to_wait(), "0.20")
    found = nest(problem)
    tight = waiting(problem, "0.1")
    assert any("more than the shop allows" in str(fault) for fault in check(tight, found))
    assert any("does not say" in str(fault) for fault in check(replace(problem, waiting=None), found))


def test_the_share_for_waiting_is_a_share() -> None:
    with pytest.raises(RangeError, match="waiting most_extra_share"):
        Waiting(Decimal(2))


@pytest.mark.slow
@settings(max_examples=25, deadline=None)
@given(st.integers(0, 500), st.sampled_from(("thermal", "shear")), st.sampled_from(("0", "0.02", "0.5")))
def test_every_nest_with_waiting_is_checked_and_no_dearer_than_allowed(
    seed: int, method: str, share: str
) -> None:
    problem = waiting(dated(invented(seed, kinds=5, method=method)), share)
    together = nest(replace(problem, waiting=None))
    found = nest(problem)
    assert check(problem, found) == ()
    assert found.cost <= together.cost * (1 + Decimal(share))
    assert sum(one.quantity for one in found.unplaced) == sum(one.quantity for one in together.unplaced)
    first = [cut.price for cut in found.cut_plates if cut.cut_by == SOON]
    assert sum(first) <= sum(cut.price for cut in together.cut_plates if cut.cut_by == SOON)
