"""Mill edges come off with strokes that the blade of the shear can do, or the plate is not used."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quoting.core import Rectangle
from quoting.nesting import CuttingRule, DropRule, NestPlate, NestProblem, Piece, nest
from quoting.nesting.checker import check
from quoting.nesting.nest_result import Why

NO_DROPS = DropRule(most_per_plate=0)


def mill(width_mm: float, length_mm: float, id: str = "P") -> NestPlate:
    return NestPlate(id, width_mm, length_mm, None, Decimal(100), edge="mill")


def sheared(
    pieces: tuple[Piece, ...], *plates: NestPlate, blade_mm: float, drops: DropRule = NO_DROPS
) -> NestProblem:
    return NestProblem(
        pieces, plates, CuttingRule("shear", mill_trim_mm=12.0, stages=3, longest_cut_mm=blade_mm), drops
    )


def test_a_plate_within_the_blade_is_trimmed_first() -> None:
    found = nest(sheared((Piece("a", Rectangle(1000, 1500), 2),), mill(1200, 3024), blade_mm=3000))
    (cut,) = found.cut_plates
    assert [stroke.stage for stroke in cut.cuts[:4]] == [0, 0, 0, 0]
    assert [stroke.length_mm for stroke in cut.cuts[:4]] == [1200, 1200, 3000, 3000]


def test_the_long_sides_come_off_first_where_the_blade_is_shorter_than_the_ends() -> None:
    found = nest(sheared((Piece("a", Rectangle(800, 900)),), mill(1210, 1195), blade_mm=1200))
    (cut,) = found.cut_plates
    assert [stroke.axis for stroke in cut.cuts[:4]] == ["y", "y", "x", "x"]
    assert max(stroke.length_mm for stroke in cut.cuts) <= 1200


def test_a_plate_longer_than_the_blade_is_cut_across_first_and_each_part_trimmed() -> None:
    problem = sheared((Piece("a", Rectangle(1000, 2000), 2),), mill(1200, 6000), blade_mm=3000)
    found = nest(problem)
    (cut,) = found.cut_plates
    assert check(problem, found) == ()
    assert max(stroke.length_mm for stroke in cut.cuts) <= 3000
    assert cut.cuts[0].axis == "x"
    along = [stroke for stroke in cut.cuts if stroke.axis == "y"]
    assert len(along) == 4  # both parts, both edges


def test_a_part_of_full_height_still_has_both_its_mill_edges_cut() -> None:
    problem = sheared((Piece("a", Rectangle(1176, 2000), turn=False),), mill(1200, 6000), blade_mm=3000)
    (cut,) = nest(problem).cut_plates
    assert [stroke.at_mm for stroke in cut.cuts if stroke.axis == "y"] == [12, 1188]


def test_a_drop_is_no_longer_than_the_blade_can_trim() -> None:
    problem = sheared(
        (Piece("a", Rectangle(1176, 2000), turn=False),), mill(1200, 6000), blade_mm=3000, drops=DropRule()
    )
    found = nest(problem)
    (cut,) = found.cut_plates
    assert check(problem, found) == ()
    (drop,) = cut.drops
    assert drop.dx_mm == 3000
    assert drop.dy_mm == pytest.approx(1176, abs=0.02)


def test_a_plate_beyond_the_blade_both_ways_is_not_used_and_that_is_said() -> None:
    problem = sheared(
        (Piece("a", Rectangle(1000, 2000)),), mill(3200, 6000), mill(1200, 2400, "Q"), blade_mm=3000
    )
    found = nest(problem)
    assert found.used() == {"Q": 1}
    (remark,) = found.remarks
    assert (remark.plate, remark.why) == ("P", Why.BEYOND_BLADE)
    assert remark.text == (
        "the mill edges of 3200 x 6000 mm cannot be trimmed: the shear's longest cut is 3000 mm"
    )


def test_a_side_longer_than_the_blade_cannot_be_cut_from_mill_plate() -> None:
    piece = Piece("a", Rectangle(1176, 3500), turn=False)
    (left,) = nest(sheared((piece,), mill(1200, 6000), blade_mm=3000)).unplaced
    assert (left.why, left.text) == (
        Why.BEYOND_BLADE,
        "3500 mm is longer than the shear's longest cut, 3000 mm, and the plates that hold it have mill "
        "edges to trim",
    )


def test_a_stroke_longer_than_the_blade_is_caught() -> None:
    problem = sheared((Piece("a", Rectangle(1000, 2000), 2),), mill(1200, 6000), blade_mm=6000)
    found = nest(problem)
    short = replace(problem, cutting=replace(problem.cutting, longest_cut_mm=3000))
    assert any("stroke 3 is 5976 mm long, the shear cuts 3000" in str(f) for f in check(short, found))


@settings(max_examples=60, deadline=None)
@given(
    st.lists(
        st.tuples(st.integers(100, 1400), st.integers(100, 3000), st.integers(1, 3)), min_size=1, max_size=4
    ),
    st.integers(1200, 2600),
    st.integers(1500, 6100),
    st.integers(1000, 6200),
    st.integers(2, 4),
    st.booleans(),
)
def test_every_sheared_nest_on_mill_plate_stays_within_the_blade(
    sizes: list[tuple[int, int, int]], width: int, length: int, blade: int, stages: int, drops: bool
) -> None:
    pieces = tuple(Piece(f"p{k}", Rectangle(a, b), n) for k, (a, b, n) in enumerate(sizes))
    problem = sheared(pieces, mill(width, length), blade_mm=blade, drops=DropRule() if drops else NO_DROPS)
    problem = replace(problem, cutting=replace(problem.cutting, stages=stages))
    found = nest(problem)
    assert check(problem, found) == ()
    assert all(stroke.length_mm <= blade + 0.05 for cut in found.cut_plates for stroke in cut.cuts)
    assert all(cut.cuts for cut in found.cut_plates)
