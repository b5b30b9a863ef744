"""Which way a line is made."""

from __future__ import annotations

from dataclasses import replace

from quoting.core import Basis, Cone, Cylinder, Ends
from quoting.estimating.routes import route_lines
from quoting.estimating.routes.attempts import usable_sizes
from quoting.shop import Shop
from tests.quoting.lines import shell


def test_a_plain_shell_is_made_in_one_piece_with_the_ends_asked_for(shop: Shop) -> None:
    (found,) = route_lines([shell()], shop)
    assert found.ok
    best = found.routes[0]
    assert (best.plan.courses, best.plan.seams, best.ends) == (1, 1, Ends.PRE_BEND)


def test_other_rolls_are_offered_only_with_the_same_blanks(shop: Shop) -> None:
    (found,) = route_lines([shell()], shop)
    assert len({route.roll for route in found.routes}) == len(found.routes)
    assert all(route.plan.blanks == found.routes[0].plan.blanks for route in found.routes)


def test_a_part_longer_than_every_roll_is_made_in_courses(shop: Shop) -> None:
    (found,) = route_lines([shell(shape=Cylinder(762.0, Basis.OUTSIDE, 4000.0))], shop)
    assert found.ok
    assert found.routes[0].plan.courses == 2


def test_a_part_too_heavy_in_one_piece_is_not_split_unasked_but_the_split_is_offered(shop: Shop) -> None:
    heavy = shell(shape=Cylinder(3048.0, Basis.OUTSIDE, 3048.0), thickness_mm=31.75, ends=Ends.LEAVE_FLAT)
    (found,) = route_lines([heavy], shop)
    assert not found.ok
    assert found.routes[0].governing.verdict.limit == "weight in the rolls"
    assert found.offers
    assert found.offers[0].ok
    assert found.offers[0].plan.pieces_per_part == 2


def test_no_plate_of_the_thickness_is_said(shop: Shop) -> None:
    (found,) = route_lines([shell(thickness_mm=5.1)], shop)
    assert not found.ok
    assert found.problem.startswith("this plate is not in our rack")


def test_plate_the_customer_supplies_needs_no_stock(shop: Shop) -> None:
    (found,) = route_lines([shell(thickness_mm=5.1, free_issue=True)], shop)
    assert found.ok


def test_silence_about_the_ends_takes_trimming_only_where_pre_bending_is_beyond_the_roll(shop: Shop) -> None:
    easy, hard = route_lines(
        [shell("A-1", ends=None), shell("A-2", ends=None, shape=Cylinder(1270.0, Basis.INSIDE, 2400.0))], shop
    )
    assert easy.routes[0].ends is Ends.PRE_BEND
    assert hard.routes[0].ends in (Ends.PRE_BEND, Ends.TRIM)


def test_a_mill_edge_plate_is_usable_only_inside_its_trim(shop: Shop) -> None:
    sizes = usable_sizes(shell(thickness_mm=31.75), shop)
    plate = next(plate for plate in shop.stock if plate.thickness_mm == 31.75)
    assert sizes == (
        (
            plate.width_mm - 2 * shop.cutting.mill_trim_mm,
            plate.length_mm - 2 * shop.cutting.mill_trim_mm,
        ),
    )


def test_a_cone_goes_only_to_rolls_that_do_cones(shop: Shop) -> None:
    cone = shell(shape=Cone(1219.2, 762.0, Basis.INSIDE, 600.0), ends=Ends.LEAVE_FLAT)
    (found,) = route_lines([cone], shop)
    able = {roll.name for roll in shop.rolls if roll.cones}
    assert found.ok
    assert {route.roll for route in found.routes} <= able


def test_a_certificate_of_stronger_plate_uses_more_of_the_roll(shop: Shop) -> None:
    plain, strong = route_lines([shell("A-1"), replace(shell("A-2"), yield_mpa=340.0)], shop)
    used = [found.routes[0].governing.verdict.strength_used for found in (plain, strong)]
    assert used[1] > used[0]


def test_routing_many_lines_together_gives_what_each_gives_alone(shop: Shop) -> None:
    lines = [shell(f"A-{n}", shape=Cylinder(500.0 + 60 * n, Basis.INSIDE, 800.0)) for n in range(1, 7)]
    together = route_lines(lines, shop)
    alone = [route_lines([line], shop)[0] for line in lines]
    for one, other in zip(together, alone, strict=True):
        assert [route.roll for route in one.routes] == [route.roll for route in other.routes]
        assert one.routes[0].minutes == other.routes[0].minutes
