"""What a nest promises to the person at the cutting table."""

from __future__ import annotations

from decimal import Decimal

import pytest

from quoting.core import RangeError, Rectangle, Sector
from quoting.nesting import CuttingRule, DropRule, NestPlate, NestProblem, Piece, nest
from quoting.nesting.checker import check
from quoting.nesting.nest_problem import Notch
from quoting.nesting.nest_result import Why
from tests.quoting.nesting.shop import INCH, bare_problem, invented, plate


def blank(width_in: float, length_in: float, **more: object) -> Piece:
    return Piece("blank", Rectangle(width_in * INCH, length_in * INCH), **more)  # type: ignore[arg-type]


@pytest.mark.parametrize("method", ["thermal", "shear"])
@pytest.mark.parametrize(("plate_in", "fits"), [(96, False), (97, True)])
def test_a_96_in_blank_needs_a_97_in_plate_with_mill_edges(method: str, plate_in: int, fits: bool) -> None:
    rule = CuttingRule("shear" if method == "shear" else "thermal")
    mill = NestPlate("mill", plate_in * INCH, 240 * INCH, None, Decimal(100), edge="mill")
    found = nest(NestProblem((blank(96, 100, turn=False),), (mill,), rule))
    assert bool(found.cut_plates) is fits
    if not fits:
        assert found.unplaced[0].why is Why.TOO_LARGE
        assert "usable to 2413" in found.unplaced[0].text


def test_a_piece_larger_than_every_plate_says_so_and_the_others_still_nest() -> None:
    pieces = (Piece("huge", Rectangle(3000, 7000)), Piece("small", Rectangle(500, 500), 3))
    found = nest(bare_problem(pieces, plate(1500, 3000)))
    assert [(one.piece, one.quantity, one.why) for one in found.unplaced] == [("huge", 1, Why.TOO_LARGE)]
    assert sum(len(cut.placements) for cut in found.cut_plates) == 3


def test_grain_keeps_a_piece_from_the_only_way_it_would_fit() -> None:
    pieces = (Piece("long", Rectangle(400, 2000), turn=False),)
    found = nest(bare_problem(pieces, plate(2500, 1500)))
    assert found.unplaced[0].why is Why.GRAIN
    assert not nest(bare_problem((Piece("long", Rectangle(400, 2000)),), plate(2500, 1500))).unplaced


def test_a_certificate_needs_a_plate_with_a_heat_number() -> None:
    piece = Piece("vessel", Rectangle(500, 500), needs_heat=True)
    unknown = plate(1000, 1000, id="unknown")
    assert nest(bare_problem((piece,), unknown)).unplaced[0].why is Why.NO_HEAT
    known = NestPlate("known", 1000, 1000, 1, Decimal(900), heat="H123")
    assert nest(bare_problem((piece,), unknown, known)).used() == {"known": 1}


def test_no_stock_and_stock_used_up_are_told_apart() -> None:
    piece = Piece("a", Rectangle(900, 900), 3)
    assert nest(bare_problem((piece,))).unplaced[0].why is Why.NO_STOCK
    found = nest(bare_problem((piece,), plate(1000, 1000, count=2)))
    assert [(one.quantity, one.why) for one in found.unplaced] == [(1, Why.STOCK_USED_UP)]
    assert len(found.cut_plates) == 2


def test_a_remnant_that_is_all_margin_is_remarked_on_and_not_used() -> None:
    rule = CuttingRule("thermal", edge_margin_mm=20)
    plates = (NestPlate("sliver", 35, 2000, 1, Decimal(1), remnant=True), plate(1000, 1000))
    found = nest(NestProblem((Piece("a", Rectangle(100, 100)),), plates, rule))
    assert [(one.plate, one.why) for one in found.remarks] == [("sliver", Why.PLATE_TOO_SMALL)]
    assert found.used() == {"P": 1}


def test_shear_refuses_sectors_and_slivers_by_name() -> None:
    rule = CuttingRule("shear", least_strip_mm=50)
    pieces = (Piece("cone", Sector(800, 400, 90)), Piece("strip", Rectangle(40, 900)))
    found = nest(NestProblem(pieces, (plate(2000, 4000),), rule))
    assert {one.piece: one.why for one in found.unplaced} == {
        "cone": Why.NOT_SHEARABLE,
        "strip": Why.TOO_NARROW,
    }


@pytest.mark.parametrize(
    "bad",
    [
        lambda: plate(0, 100),
        lambda: plate(100, 100, price="-1"),
        lambda: plate(100, 100, count=-1),
        lambda: Piece("a", Rectangle(10, 10), 0),
        lambda: Sector(100, 100, 90),
        lambda: Sector(100, 50, 360),
        lambda: CuttingRule(stages=0),
        lambda: CuttingRule(kerf_mm=-1),
        lambda: DropRule(value_share=Decimal(2)),
        lambda: NestPlate("L", 1000, 1000, 1, Decimal(1), notch=Notch(1000, 10)),
        lambda: bare_problem((), plate(10, 10), plate(20, 20)),
        lambda: bare_problem((Piece("a", Rectangle(1, 1)), Piece("a", Rectangle(2, 2))), plate(10, 10)),
    ],
)
def test_nonsense_is_refused_with_a_range_error(bad: object) -> None:
    with pytest.raises(RangeError):
        bad()  # type: ignore[operator]


def test_a_plate_entered_twice_is_named() -> None:
    with pytest.raises(RangeError, match="plate id = P is out of range: used once"):
        bare_problem((), plate(10, 10), plate(20, 20))


def test_a_remnant_is_used_first_when_it_pays_and_left_when_it_does_not() -> None:
    piece = Piece("a", Rectangle(900, 900))
    new = plate(1000, 1000, id="new", price="100")
    cheap = NestPlate("rest", 950, 950, 1, Decimal(40), remnant=True)
    dear = NestPlate("rest", 950, 950, 1, Decimal(140), remnant=True)
    assert nest(bare_problem((piece,), new, cheap)).used() == {"rest": 1}
    assert nest(bare_problem((piece,), new, dear)).used() == {"new": 1}


def test_one_remnant_is_never_used_twice() -> None:
    rest = NestPlate("rest", 950, 950, 1, Decimal(1), remnant=True)
    found = nest(bare_problem((Piece("a", Rectangle(900, 900), 2),), plate(1000, 1000, id="new"), rest))
    assert found.used() == {"rest": 1, "new": 1}


def test_the_money_adds_up_to_the_cost() -> None:
    found = nest(invented(3))
    assert found.plate_cost == sum(cut.price for cut in found.cut_plates)
    assert found.drop_value == sum(drop.value for cut in found.cut_plates for drop in cut.drops)
    assert found.cost == found.plate_cost - found.drop_value + found.cutting_cost
    assert found.bound <= found.cost
    assert 0 <= found.gap < 1


def test_pieces_that_fill_plates_exactly_are_proven_best() -> None:
    found = nest(bare_problem((Piece("a", Rectangle(500, 500), 8),), plate(1000, 1000)))
    assert len(found.cut_plates) == 2
    assert found.proven
    assert found.gap == 0


def test_inch_sizes_that_add_up_to_the_plate_fit() -> None:
    piece = Piece("a", Rectangle(32.328125 * INCH, 96 * INCH), 3, turn=False)
    assert len(nest(bare_problem((piece,), plate(96.984375 * INCH, 96 * INCH))).cut_plates) == 1


@pytest.mark.parametrize("method", ["thermal", "shear"])
def test_same_problem_effort_and_seed_give_the_same_nest(method: str) -> None:
    problem = invented(5, method=method)
    assert nest(problem, seed=7) == nest(problem, seed=7)


def test_more_effort_is_never_dearer() -> None:
    problem = invented(11, kinds=12)
    assert nest(problem, effort="normal").cost <= nest(problem, effort="quick").cost


def test_an_interrupted_run_returns_a_checked_nest() -> None:
    problem = invented(2)
    asked = iter(range(1000))
    found = nest(problem, effort="thorough", stop=lambda: next(asked) >= 3)
    assert found.stopped
    assert not found.unplaced
    assert check(problem, found) == ()


def test_an_l_shaped_remnant_keeps_pieces_out_of_its_notch() -> None:
    rest = NestPlate("L", 1000, 2000, 1, Decimal(50), remnant=True, notch=Notch(600, 1200))
    pieces = (Piece("wide", Rectangle(900, 700)), Piece("low", Rectangle(300, 1100)))
    for method in ("thermal", "shear"):
        found = nest(bare_problem(pieces, rest, method=method))
        assert not found.unplaced
        assert len(found.cut_plates) == 1
    assert nest(bare_problem((Piece("big", Rectangle(900, 900)),), rest)).unplaced[0].why is Why.TOO_LARGE


def test_a_shear_that_is_too_short_needs_cross_cuts_first() -> None:
    rule = CuttingRule("shear", longest_cut_mm=3100)
    problem = NestProblem((Piece("a", Rectangle(1000, 2900), 4, turn=False),), (plate(2000, 6000),), rule)
    found = nest(problem)
    assert len(found.cut_plates) == 1
    assert all(cut.length_mm <= 3100 for cut in found.cut_plates[0].cuts)
    assert found.cut_plates[0].cuts[0].axis == "x"


def test_what_is_left_of_a_remnant_is_not_marked_down_again() -> None:
    """Metal in the rack counts the same whether it is a drop of new plate or the rest of a remnant."""
    rule = DropRule(value_share=Decimal("0.5"))
    new = NestPlate("N", 1000, 2000, 1, Decimal(100))
    kept = NestPlate("R", 1000, 2000, 1, Decimal(50), remnant=True)
    assert rule.share_of(new) * new.price == rule.share_of(kept) * kept.price


def test_a_first_idea_does_not_depend_on_how_often_a_stop_rule_is_asked() -> None:
    """Break prices rest on it: so many layouts, counted, and not so many questions to the caller."""
    asked = 0

    def never() -> bool:
        nonlocal asked
        asked += 1
        return False

    problem = bare_problem((Piece("a", Rectangle(400, 700), 9),), plate(1000, 1500))
    alone, watched = nest(problem, layouts=4), nest(problem, layouts=4, stop=never)
    assert asked
    assert (watched.plate_cost, watched.cut_plates) == (alone.plate_cost, alone.cut_plates)
