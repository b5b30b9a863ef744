"""Whatever is asked for, the nest is checked, complete or explained, and not below its bound."""

from __future__ import annotations

from decimal import Decimal

from hypothesis import given, settings
from hypothesis import strategies as st

from quoting.core import Rectangle
from quoting.nesting import CuttingRule, DropRule, NestPlate, NestProblem, Piece, nest, nest_for_less
from quoting.nesting.bounds import bin_bound, reachable, sides
from quoting.nesting.checker import check
from quoting.nesting.nest_problem import Method
from quoting.nesting.plate import UNIT, MaxRects, prepare

side = st.integers(50, 1500)


@st.composite
def problems(draw: st.DrawFn) -> NestProblem:
    pieces = tuple(
        Piece(f"p{k}", Rectangle(draw(side), draw(side)), draw(st.integers(1, 4)), turn=draw(st.booleans()))
        for k in range(draw(st.integers(1, 5)))
    )
    plates = tuple(
        NestPlate(
            f"s{k}",
            draw(st.integers(300, 2000)),
            draw(st.integers(300, 3000)),
            draw(st.sampled_from((None, 1, 2))),
            Decimal(draw(st.integers(1, 500))),
            edge=draw(st.sampled_from(("mill", "trimmed"))),
        )
        for k in range(draw(st.integers(1, 3)))
    )
    method: Method = "shear" if draw(st.booleans()) else "thermal"
    cutting = CuttingRule(method, stages=draw(st.integers(2, 4)), cost_per_m=Decimal(1))
    return NestProblem(pieces, plates, cutting, DropRule(value_share=Decimal(draw(st.integers(0, 4))) / 4))


@settings(max_examples=60, deadline=None)
@given(problems())
def test_every_nest_passes_the_checker_and_accounts_for_every_piece(problem: NestProblem) -> None:
    found = nest(problem)
    assert check(problem, found) == ()
    placed = sum(len(cut.placements) for cut in found.cut_plates)
    waiting = sum(one.quantity for one in found.unplaced)
    assert placed + waiting == sum(piece.quantity for piece in problem.pieces)
    assert all(one.text for one in found.unplaced)


@given(st.integers(10, 200), st.lists(st.integers(1, 200), min_size=1, max_size=8))
def test_the_functions_of_the_bound_are_dual_feasible(length: int, sizes: list[int]) -> None:
    sizes = [size for size in sizes if size <= length]
    for one in sides(length, sizes):
        total, used = 0, 0
        for size in sorted(sizes):
            if total + size > length:
                break
            total, used = total + size, used + one.f(size)
        assert used <= one.whole


@given(st.integers(1, 300), st.lists(st.integers(1, 60), max_size=7))
def test_reachable_is_the_largest_sum_that_fits(length: int, sizes: list[int]) -> None:
    sums = {0}
    for size in sizes:
        sums |= {one + size for one in sums}
    found = reachable(length, [(size, 1) for size in sizes])
    assert found == max(one for one in sums if one <= length) or not sizes


def test_pieces_over_half_the_plate_need_a_plate_each() -> None:
    assert bin_bound([(6, 6, 5, False)], 10, 10) == 5
    assert bin_bound([(6, 6, 5, True)], 10, 10) == 5
    assert bin_bound([(5, 10, 4, False)], 10, 10) == 2


@settings(max_examples=60, deadline=None)
@given(problems(), st.integers(-2, 2))
def test_a_nest_is_for_less_when_its_plates_less_drops_cost_less(problem: NestProblem, cents: int) -> None:
    found = nest(problem, layouts=2)
    net = found.plate_cost - found.drop_value
    than = net + Decimal(cents) / 100
    less = nest_for_less(problem, than, layouts=2)
    assert less == (found if net < than and not found.unplaced else None)


@settings(max_examples=100, deadline=None)
@given(problems(), st.data())
def test_a_box_has_room_where_a_packer_finds_a_spot(problem: NestProblem, data: st.DataObject) -> None:
    work = prepare(problem)
    if not work.bins:
        return
    packer = MaxRects(work.bins[0].w, work.bins[0].h, None, 0)
    for _ in range(6):
        w, h = data.draw(side) * UNIT, data.draw(side) * UNIT
        spot = packer.spot(w, h)
        assert (spot is not None) == any(w <= wide and h <= high for wide, high in packer.rooms())
        if spot:
            packer.place(spot, w, h)
