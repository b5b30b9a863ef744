"""Drops are worth keeping only above what it costs to keep them, and only as many as the rack holds."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from quoting.core import Rectangle
from quoting.nesting import CuttingRule, DropRule, Nest, NestPlate, NestProblem, Piece, nest
from quoting.nesting.checker import check

RULE = DropRule(least_width_mm=200.0, least_length_mm=300.0, value_share=Decimal("0.5"))


def _problem(drops: DropRule = RULE, **changes: object) -> NestProblem:
    """Return six plates' worth of one odd size: each plate leaves a wide strip and a narrow one."""
    cutting = CuttingRule(kerf_mm=2.0, spacing_mm=8.0, edge_margin_mm=10.0)
    given = {
        "pieces": (Piece("A", Rectangle(900.0, 1400.0), 6, turn=False),),
        "plates": (NestPlate("P", 1219.0, 2438.0, None, Decimal(200)),),
        "cutting": cutting,
        "drops": drops,
    }
    return NestProblem(**{**given, **changes})  # type: ignore[arg-type]


def _drops(found: Nest) -> list[Decimal]:
    return sorted(drop.value for cut in found.cut_plates for drop in cut.drops)


@pytest.mark.parametrize("effort", ["quick", "normal"])
def test_a_drop_that_is_worth_less_than_keeping_it_is_scrap(effort: str) -> None:
    free = nest(_problem(), effort=effort)  # type: ignore[arg-type]
    cheap, dear = _drops(free)[0], _drops(free)[-1]
    cost = (cheap + dear) / 2
    kept = nest(_problem(replace(RULE, keep_cost=cost)), effort=effort)  # type: ignore[arg-type]
    assert cheap < cost < dear
    assert 0 < len(_drops(kept)) < len(_drops(free))
    assert _drops(kept)[0] > 0
    assert kept.bound <= kept.cost


def test_the_cost_of_keeping_is_taken_off_each_drop() -> None:
    cost = Decimal("7.00")
    free, kept = nest(_problem()), nest(_problem(replace(RULE, keep_cost=cost)))
    assert _drops(kept) == [value - cost for value in _drops(free)]
    assert kept.cost - free.cost == cost * len(_drops(kept))


def test_nothing_is_kept_where_no_drop_is_worth_it() -> None:
    found = nest(_problem(replace(RULE, keep_cost=Decimal(1000))), effort="normal")
    assert _drops(found) == []


def test_the_rack_takes_the_drops_worth_most() -> None:
    free, kept = nest(_problem()), nest(_problem(replace(RULE, most_in_rack=4)))
    assert _drops(kept) == _drops(free)[-4:]


def test_remnants_in_the_rack_take_room_and_give_it_when_they_are_cut() -> None:
    """Two remnants too small for the piece stay: of five places three are left for drops."""
    stays = NestPlate("R", 400.0, 800.0, 2, Decimal(5), remnant=True)
    taken = NestPlate("S", 930.0, 1430.0, 1, Decimal(1), remnant=True)
    plates = (*_problem().plates, stays, taken)
    found = nest(_problem(replace(RULE, most_in_rack=5), plates=plates))
    assert "S" in found.used()
    assert len(_drops(found)) == 3


def test_the_checker_counts_what_the_rack_holds_and_what_a_drop_is_worth() -> None:
    found = nest(_problem())
    full = [str(fault) for fault in check(_problem(replace(RULE, most_in_rack=1)), found)]
    assert any("the rack holds 1" in fault for fault in full)
    dear = [str(fault) for fault in check(_problem(replace(RULE, keep_cost=Decimal(1))), found)]
    assert any("a drop of" in fault and "counts for" in fault for fault in dear)
