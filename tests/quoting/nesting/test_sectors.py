"""Cone blanks: nested as true shapes, and never nearer than the gap."""

from __future__ import annotations

from decimal import Decimal

import pytest

from quoting.core import Rectangle, Sector
from quoting.nesting import CuttingRule, DropRule, NestPlate, NestProblem, Piece, nest
from quoting.nesting.checker import check
from quoting.nesting.plate.sectors import sector_polygon

PLATE = NestPlate("P", 2438, 6096, None, Decimal(1000))


def cones(*pieces: Piece) -> NestProblem:
    return NestProblem(pieces, (PLATE,), CuttingRule("thermal"), DropRule())


@pytest.mark.parametrize("angle", [20, 70, 150, 200, 300])
def test_the_polygon_contains_the_sector_and_little_more(angle: float) -> None:
    sector = Sector(1000, 400, angle)
    assert sector.area_mm2 <= sector_polygon(sector).area <= sector.area_mm2 * 1.0005


def test_cones_nest_closer_than_their_bounding_boxes() -> None:
    sector = Sector(1500, 900, 70)
    dx, _ = sector.box()
    assert 8 * dx > PLATE.length_mm  # eight boxes in a row do not fit
    problem = cones(Piece("cone", sector, 8))
    found = nest(problem)
    assert len(found.cut_plates) == 1
    assert check(problem, found) == ()


def test_wedges_lie_head_to_tail() -> None:
    found = nest(cones(Piece("wedge", Sector(1200, 200, 50), 6)))
    assert {put.angle_deg % 180 for put in found.cut_plates[0].placements} <= {0, 90}
    assert len({put.angle_deg for put in found.cut_plates[0].placements}) > 1


def test_grain_allows_only_half_turns() -> None:
    found = nest(cones(Piece("cone", Sector(1200, 200, 50), 6, turn=False)))
    assert all(not put.turned for cut in found.cut_plates for put in cut.placements)


def test_small_rectangles_use_the_corners_beside_the_arcs() -> None:
    sector = Sector(1100, 500, 150)
    problem = cones(Piece("cone", sector, 2), Piece("bit", Rectangle(150, 250), 20))
    found = nest(problem)
    assert check(problem, found) == ()
    boxes = [put for put in found.cut_plates[0].placements if put.piece == "cone"]
    bits = [put for put in found.cut_plates[0].placements if put.piece == "bit"]
    inside = [
        bit
        for bit in bits
        for one in boxes
        if one.x_mm < bit.x_mm + bit.dx_mm / 2 < one.x_mm + one.dx_mm
        and one.y_mm < bit.y_mm + bit.dy_mm / 2 < one.y_mm + one.dy_mm
    ]
    assert inside


def test_a_cone_pushed_into_its_neighbour_is_caught() -> None:
    problem = cones(Piece("cone", Sector(1500, 900, 70), 4))
    found = nest(problem)
    cut = found.cut_plates[0]
    from dataclasses import replace  # noqa: PLC0415

    one = cut.placements[0]
    moved = replace(one, x_mm=one.x_mm + 5)
    mutated = replace(cut, placements=(moved, *cut.placements[1:]))
    assert any("too near" in str(fault) for fault in check(problem, replace(found, cut_plates=(mutated,))))
