"""No price without its operation, no operation without its price."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from quoting.core import (
    Arc,
    Basis,
    Cone,
    Cylinder,
    EdgeKind,
    EdgePlace,
    EdgePrep,
    Ends,
    Extra,
    OrderLine,
    Penetration,
    Rectangle,
    WeldAsked,
)
from quoting.estimating import LineResult, estimate
from quoting.shop import Shop
from tests.quoting.lines import order, shell

FULL = WeldAsked(Penetration.FULL)


def price_one(shop: Shop, line: OrderLine) -> LineResult:
    (found,) = estimate([order(line)], shop, today=date(2026, 11, 30), effort="quick").lines
    return found


def unit(shop: Shop, **changes: Any) -> Decimal:
    found = price_one(shop, shell("A-1", **changes))
    assert found.price
    return found.price.unit


def bevel(place: EdgePlace = EdgePlace.SEAM, edges: int = 2, kind: EdgeKind = EdgeKind.BEVEL) -> EdgePrep:
    return EdgePrep(kind, place, edges, 37.5)


def test_a_bevel_on_both_seam_edges_costs_its_metres_and_minutes(shop: Shop) -> None:
    found = price_one(shop, shell("A-1", edge_prep=bevel()))
    assert found.drivers
    assert found.price
    # 2 shells, 2 edges of 48 in: 16 ft at 1.5 + 3.0 x 1/4 min a foot.
    assert found.drivers.edge_m == pytest.approx(16 * 0.3048)
    assert found.drivers.bench_minutes == pytest.approx(16 * (1.5 + 3.0 * 0.25), rel=1e-4)
    assert found.price.parts.edge == pytest.approx(Decimal("56.00"), abs=Decimal("0.01"))
    assert unit(shop, edge_prep=bevel()) > unit(shop) + 40


def test_more_edges_cost_more_and_thicker_plate_too(shop: Shop) -> None:
    plain = unit(shop)
    one, both, ends, every = (
        unit(shop, edge_prep=prep) - plain
        for prep in (
            bevel(edges=1),
            bevel(),
            bevel(EdgePlace.ENDS),
            bevel(EdgePlace.ALL, 4),
        )
    )
    assert both == pytest.approx(2 * one, rel=Decimal("0.01"))
    assert one < both < ends < every
    assert unit(shop, edge_prep=bevel(kind=EdgeKind.DOUBLE_BEVEL)) > plain + both
    assert unit(shop, edge_prep=bevel(kind=EdgeKind.J)) > unit(
        shop, edge_prep=bevel(kind=EdgeKind.DOUBLE_BEVEL)
    )
    thick = {"thickness_mm": 12.7}
    assert unit(shop, **thick, edge_prep=bevel()) - unit(shop, **thick) > both


def test_bought_edges_are_outside_work_and_no_minutes_of_ours(shop: Shop) -> None:
    edges = replace(shop.operations.edges, bought=True)
    buying = replace(shop, operations=replace(shop.operations, edges=edges))
    found = price_one(buying, shell("A-1", edge_prep=bevel()))
    assert found.drivers
    assert found.drivers.bench_minutes == found.drivers.edge_m == 0
    assert found.drivers.outside_cost == Decimal("96.00")  # 16 ft at 6.00


def test_a_welded_seam_is_priced_by_its_metal_and_the_shell_is_re_rounded(shop: Shop) -> None:
    found = price_one(shop, shell("A-1", weld=FULL))
    assert found.drivers
    assert found.drivers.weld_minutes > 8 * 2.0  # more than the fit-up of 8 ft
    assert found.drivers.consumables > 0
    assert found.line.re_round
    assert found.drivers.edge_m > 0, "a quarter-inch full weld needs its edges prepared"
    assert not any("not re-rounded" in said for said in found.assumptions)


def test_thicker_seams_take_more_than_their_thickness(shop: Shop) -> None:
    minutes = {}
    for thickness in (6.35, 12.7):
        found = price_one(shop, shell("A-1", thickness_mm=thickness, weld=FULL))
        assert found.drivers
        minutes[thickness] = found.drivers.weld_minutes
    assert minutes[12.7] > 1.5 * minutes[6.35]


def test_partial_and_seal_welds_take_less_and_a_back_gouge_more(shop: Shop) -> None:
    full, partial, seal, gouged = (
        unit(shop, thickness_mm=12.7, weld=weld)
        for weld in (
            FULL,
            WeldAsked(Penetration.PARTIAL),
            WeldAsked(Penetration.SEAL),
            WeldAsked(Penetration.FULL, back_gouge=True),
        )
    )
    assert seal < partial < full < gouged


def test_bought_in_welding_carries_the_outside_markup(shop: Shop) -> None:
    welding = replace(shop.operations.welding, in_house=False)
    buying = replace(shop, operations=replace(shop.operations, welding=welding))
    found = price_one(buying, shell("A-1", weld=FULL))
    assert found.price
    assert found.price.parts.welding == found.price.parts.filler == 0
    assert found.price.parts.outside >= shop.operations.welding.bought_least
    assert found.price.parts.outside_markup > 0


def test_an_arc_has_no_seam_to_weld(shop: Shop) -> None:
    arc = Arc(600.0, Basis.INSIDE, 90.0, 1200.0)
    found = price_one(shop, shell("A-1", shape=arc, weld=FULL))
    assert found.drivers
    assert found.drivers.weld_minutes == 0
    assert not found.line.re_round


def test_a_cones_ends_are_two_different_lengths(shop: Shop) -> None:
    cone = Cone(1524.0, 1016.0, Basis.MEAN, 900.0)
    found = price_one(
        shop, shell("A-1", quantity=1, shape=cone, thickness_mm=9.525, edge_prep=bevel(EdgePlace.ENDS))
    )
    assert found.drivers
    assert found.drivers.edge_m == pytest.approx(3.14159 * (1.524 + 1.016), rel=0.01)


def test_flats_cut_off_after_rolling_are_two_cuts_a_piece(shop: Shop) -> None:
    found = price_one(shop, shell("A-1", ends=Ends.TRIM))
    (trim,) = (item for item in found.work if item.name.startswith("flats cut off"))
    rules = shop.operations.handwork
    assert trim.bench_minutes > 4 * (rules.trim_mark_minutes + rules.trim_handling_minutes)
    assert trim.consumables > 0


@pytest.mark.parametrize("extra", Extra)
def test_handwork_that_is_asked_for_costs(shop: Shop, extra: Extra) -> None:
    assert unit(shop, extras=(extra,)) > unit(shop)


def test_a_template_is_made_once_for_the_line(shop: Shop) -> None:
    one, ten = (
        price_one(shop, shell("A-1", quantity=quantity, extras=(Extra.TEMPLATE,))) for quantity in (1, 10)
    )
    assert one.drivers
    assert ten.drivers
    assert one.drivers.bench_minutes == ten.drivers.bench_minutes == shop.operations.handwork.template_minutes


def test_a_shell_that_cannot_stand_is_hung_up_and_a_stiff_one_is_not(shop: Shop) -> None:
    def names(**changes: Any) -> list[str]:
        return [item.name for item in price_one(shop, shell("A-1", **changes)).work]

    thin = Cylinder(1524.0, Basis.OUTSIDE, 1219.2)
    assert any("hung up" in name for name in names(shape=thin))
    assert names() == []


def test_a_customers_plate_is_taken_in_and_every_blank_marked(shop: Shop) -> None:
    found = price_one(shop, shell("A-1", quantity=5, free_issue=True))
    assert found.drivers
    rules = shop.operations.handwork
    assert found.drivers.bench_minutes == rules.own_plate_minutes + 5 * rules.own_plate_mark_minutes


@pytest.mark.parametrize(
    ("kind", "place", "edges", "more_mm"),
    [
        (EdgeKind.J, EdgePlace.SEAM, 2, (0.0, 3.175)),
        (EdgeKind.J, EdgePlace.SEAM, 1, (0.0, 1.5875)),
        (EdgeKind.SQUARE, EdgePlace.ENDS, 2, (3.175, 0.0)),
        (EdgeKind.J, EdgePlace.ALL, 4, (3.175, 3.175)),
        (EdgeKind.BEVEL, EdgePlace.ALL, 4, (0.0, 0.0)),
    ],
)
def test_a_blank_is_cut_larger_for_edges_that_are_machined(
    shop: Shop, kind: EdgeKind, place: EdgePlace, edges: int, more_mm: tuple[float, float]
) -> None:
    plain, prepared = (
        price_one(shop, shell("A-1", edge_prep=prep)) for prep in (None, EdgePrep(kind, place, edges))
    )
    assert plain.route
    assert prepared.route
    (flat,), (larger,) = plain.route.plan.blanks, prepared.route.plan.blanks
    assert isinstance(flat.outline, Rectangle)
    assert isinstance(larger.outline, Rectangle)
    assert larger.outline.width_mm - flat.outline.width_mm == pytest.approx(more_mm[0])
    assert larger.outline.length_mm - flat.outline.length_mm == pytest.approx(more_mm[1])
    assert (larger.width_mm, larger.girth_mm) == (flat.width_mm, flat.girth_mm)
    assert prepared.route.plan.part_weight_kg == plain.route.plan.part_weight_kg
    noted = any("left on for machined edges" in note for note in prepared.route.plan.notes)
    assert noted == any(more_mm)
