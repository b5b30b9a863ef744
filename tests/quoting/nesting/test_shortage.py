"""When stock runs short the pieces of least priority are the ones that come back, with a reason."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quoting.core import Rectangle, Sector
from quoting.nesting import CuttingRule, DropRule, Nest, NestPlate, NestProblem, Piece, nest
from quoting.nesting.checker import check
from quoting.nesting.nest_result import Why
from quoting.nesting.priorities import by_rank
from quoting.nesting.together import nest_together
from tests.quoting.nesting.shop import bare_problem, plate

side = st.integers(100, 1200)


def placed(found: Nest) -> Counter[str]:
    return Counter(put.piece for cut in found.cut_plates for put in cut.placements)


@pytest.mark.parametrize("method", ["thermal", "shear"])
def test_the_piece_of_higher_priority_gets_the_last_plate(method: str) -> None:
    pieces = (Piece("a", Rectangle(900, 900)), Piece("b", Rectangle(800, 800), priority=1))
    found = nest(bare_problem(pieces, plate(1000, 1000, count=1), method=method))
    assert placed(found) == {"b": 1}
    (left,) = found.unplaced
    assert (left.piece, left.why) == ("a", Why.STOCK_USED_UP)
    assert left.text == (
        "1 of 1 find no room: the plates that hold it (P) are used up, pieces of higher priority come first"
    )


def test_a_cone_that_the_shear_cannot_cut_takes_no_place_of_another_piece() -> None:
    pieces = (
        Piece("cone", Sector(425, 250, 90), priority=1),
        Piece("a", Rectangle(700, 900), 2, cut_by=date(2026, 12, 4)),
    )
    found = nest(bare_problem(pieces, plate(1000, 1000, count=1), method="shear"))
    assert placed(found) == {"a": 1}
    assert [(one.piece, one.why) for one in found.unplaced] == [
        ("cone", Why.NOT_SHEARABLE),
        ("a", Why.STOCK_USED_UP),
    ]


def test_of_equal_priority_the_one_to_be_cut_sooner_gets_it() -> None:
    pieces = (
        Piece("a", Rectangle(900, 900), cut_by=date(2026, 12, 18)),
        Piece("b", Rectangle(800, 800), cut_by=date(2026, 12, 4)),
        Piece("c", Rectangle(950, 950)),
    )
    found = nest(bare_problem(pieces, plate(1000, 1000, count=1)))
    assert placed(found) == {"b": 1}
    assert all("must be cut sooner come first" in one.text for one in found.unplaced)


def test_without_ranks_as_much_metal_as_possible_is_placed() -> None:
    pieces = (Piece("a", Rectangle(900, 900)), Piece("b", Rectangle(800, 800)))
    found = nest(bare_problem(pieces, plate(1000, 1000, count=1)))
    assert placed(found) == {"a": 1}
    assert found.unplaced[0].text.endswith("(P) are used up")


def test_lower_pieces_still_fill_what_the_higher_ones_leave() -> None:
    pieces = (
        Piece("first", Rectangle(600, 1000), priority=2),
        Piece("big", Rectangle(700, 1000), priority=1),
        Piece("small", Rectangle(400, 1000)),
    )
    found = nest(bare_problem(pieces, plate(1000, 1000, count=1)))
    assert placed(found) == {"first": 1, "small": 1}


def test_two_of_higher_priority_come_before_one_that_is_larger_than_both() -> None:
    pieces = (Piece("a", Rectangle(900, 1000)), Piece("b", Rectangle(600, 500), 2, priority=1))
    found = nest(bare_problem(pieces, plate(1000, 1000, count=1)))
    assert placed(found) == {"b": 2}


def test_a_poor_layout_still_gives_the_place_to_the_higher_one() -> None:
    low, high = Piece("a", Rectangle(900, 900)), Piece("b", Rectangle(800, 700), priority=1)
    problem = bare_problem((low, high), plate(1000, 1000, count=1))
    poor = nest_together(problem)
    assert placed(poor) == {"a": 1}
    nothing = replace(poor, cut_plates=())
    found = by_rank(problem, poor, lambda _: nothing)
    assert placed(found) == {"b": 1}
    assert check(problem, found) == ()


def test_a_size_that_can_be_bought_is_no_shortage() -> None:
    pieces = (Piece("a", Rectangle(900, 900)), Piece("b", Rectangle(800, 800), priority=1))
    assert not nest(bare_problem(pieces, plate(1000, 1000))).unplaced


@st.composite
def short_problems(draw: st.DrawFn) -> NestProblem:
    pieces = tuple(
        Piece(
            f"p{k}",
            Rectangle(draw(side), draw(side)),
            draw(st.integers(1, 3)),
            turn=draw(st.booleans()),
            needs_heat=draw(st.booleans()),
            priority=draw(st.integers(0, 2)),
        )
        for k in range(draw(st.integers(2, 5)))
    )
    plates = tuple(
        NestPlate(
            f"s{k}",
            draw(st.integers(500, 1500)),
            draw(st.integers(500, 1500)),
            1,
            Decimal(draw(st.integers(1, 500))),
            heat=draw(st.sampled_from(("H1", None))),
        )
        for k in range(draw(st.integers(1, 3)))
    )
    cutting = CuttingRule("shear" if draw(st.booleans()) else "thermal", stages=3)
    return NestProblem(pieces, plates, cutting, DropRule(value_share=Decimal(0)))


@settings(max_examples=50, deadline=None)
@given(short_problems())
def test_nothing_of_lower_priority_has_the_very_place_that_an_unplaced_piece_could_have(
    problem: NestProblem,
) -> None:
    """If copies of A find no stock, no placed copy of a B of lower priority can give its place to A.

    Shown for equal or larger B that may be turned no less than A, on a plate with the heat that A needs;
    on a shear only for equal sizes, since a smaller piece may need one stage more.
    """
    found = nest(problem)
    assert check(problem, found) == ()
    short = [problem.piece(one.piece) for one in found.unplaced if one.why is Why.STOCK_USED_UP]
    for a in short:
        for cut in found.cut_plates:
            if a.needs_heat and not problem.plate(cut.plate).has_heat:
                continue
            for put in cut.placements:
                b = problem.piece(put.piece)
                if b.priority < a.priority:
                    assert not holds(put.dx_mm, put.dy_mm, a, exact=problem.cutting.method == "shear")


def holds(dx: float, dy: float, piece: Piece, *, exact: bool) -> bool:
    along, across = piece.outline.box()
    ways = [(along, across), (across, along)] if piece.turn else [(along, across)]
    if exact:
        return (dx, dy) in ways
    return any(a <= dx and b <= dy for a, b in ways)


@settings(max_examples=25, deadline=None)
@given(short_problems())
def test_the_highest_priority_fares_as_well_as_if_it_were_alone(problem: NestProblem) -> None:
    top = max(piece.priority for piece in problem.pieces)
    own = tuple(piece for piece in problem.pieces if piece.priority == top)
    alone = placed(nest(replace(problem, pieces=own)))
    together = placed(nest(problem))
    metal = [
        round(sum(counts[piece.id] * piece.outline.area_mm2 for piece in own)) for counts in (alone, together)
    ]
    assert metal[1] >= metal[0]
