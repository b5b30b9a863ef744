"""The compiled search: repeatable, checked, never worse than the quick one."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from quoting.core import Rectangle
from quoting.nesting import CuttingRule, DropRule, NestProblem, Piece, nest
from quoting.nesting.checker import check
from quoting.nesting.compiled.assignment import (
    PlateKind,
    Rect,
    Settings,
    fewest,
    first_fit,
    layout,
    packing,
    swept,
)
from quoting.nesting.nest_result import Why
from tests.quoting.nesting.shop import bare_problem, invented, plate

METRE = PlateKind(((0, 0, 1000, 1000, 0, 0),), 1_000_000)
"""A whole plate, a metre square."""


def perfect(pieces: int) -> list[Rect]:
    """Rectangles that tile plates of 1000 x 1000 exactly: strips of 250 cut at different places."""
    cuts = (100, 200, 300, 400, 250, 150)
    rects = []
    for k in range(pieces // 2):
        left = cuts[k % len(cuts)]
        rects += [Rect(left, 250, False, (0,)), Rect(1000 - left, 250, False, (0,))]
    return rects


@pytest.mark.slow
def test_strips_that_tile_two_plates_are_put_on_two() -> None:
    p = packing(perfect(16), [METRE], Settings())
    found = fewest(p, first_fit(p, 0), bound=2, budget=50_000_000)
    assert len(found) == 2
    for load in found:
        spots = layout(p, load)
        assert sorted(spot.piece for spot in spots) == sorted(load.members)


@pytest.mark.slow
def test_one_order_of_all_pieces_tiles_a_plate() -> None:
    p = packing(perfect(8), [METRE], Settings())
    found = swept(p, 0, 1, budget=50_000_000)
    assert found is not None
    assert len(found[0].spots) == 8


@pytest.mark.slow
@pytest.mark.parametrize("method", ["thermal", "shear"])
def test_a_normal_run_is_repeatable_and_not_dearer(method: str) -> None:
    problem = invented(21, kinds=4, method=method)
    one, two = nest(problem, effort="normal"), nest(problem, effort="normal")
    assert one == two
    assert check(problem, one) == ()
    assert one.cost <= nest(problem).cost


def test_more_than_sixty_pieces_go_through_the_compiled_search_even_when_quick() -> None:
    pieces = tuple(Piece(f"p{k}", Rectangle(200 + 7 * k, 150 + 11 * k), 5) for k in range(14))
    problem = bare_problem(pieces, plate(1000, 1200, price="1"))
    found = nest(problem)
    assert check(problem, found) == ()
    assert Decimal(len(found.cut_plates)) >= found.bound


@pytest.mark.slow
def test_a_homeless_piece_is_never_forced_onto_a_plate_that_cannot_hold_it() -> None:
    piece = Piece("p", Rectangle(50, 275), turn=False)
    trimmed = plate(300, 300, id="trimmed", price="2")
    mill = replace(trimmed, id="mill", edge="mill", price=Decimal(1))  # usable to 275 less two trims
    rule = CuttingRule("thermal", kerf_mm=2, spacing_mm=8, edge_margin_mm=10, mill_trim_mm=12.7)
    found = nest(
        NestProblem((piece,), (trimmed, mill), rule, DropRule(value_share=Decimal(0))), effort="normal"
    )
    assert [cut.plate for cut in found.cut_plates] == ["trimmed"]


@pytest.mark.parametrize("kinds", [1, 2])
def test_what_the_shear_cannot_free_is_left_out_and_the_rest_is_cut(kinds: int) -> None:
    pieces = (Piece("both sides", Rectangle(100, 100)), Piece("one side", Rectangle(300, 100), 2, turn=False))
    plates = [plate(300, 600, id=f"s{k}", price=str(k + 1)) for k in range(kinds)]
    one_stage = CuttingRule("shear", mill_trim_mm=0, stages=1)
    problem = NestProblem(pieces, tuple(plates), one_stage, DropRule(value_share=Decimal(0)))
    found = nest(problem, effort="normal")
    assert check(problem, found) == ()
    assert [(one.piece, one.why) for one in found.unplaced] == [("both sides", Why.STAGES)]
    assert sum(len(cut.placements) for cut in found.cut_plates) == 2
