"""Fewest equal plates, against published optimal or best known numbers of bins.

Sources: - Berkey, J. O. & Wang, P. Y. 1987, "Two-dimensional finite bin-packing algorithms", J. Oper. Res.
Soc. 38, 423-429: classes 1-6. - Martello, S. & Vigo, D. 1998, "Exact solution of the two-dimensional finite
bin packing problem", Management Science 44, 388-399: classes 7-10; the continuous bound is sum of areas over
the area of the bin, at least 1/4 of the optimum. All 500 instances are made again by the published rules, see
`tests.benchmarks.rectangle_classes`. - Goncalves, J. F. & Resende, M. G. C. 2013, "A biased random key
genetic algorithm for 2D and 3D bin packing problems", Int. J. Production Economics 145, 500-510: totals of
bins of each class and size. - Bengtsson, B. E. 1982, "Packing rectangular pieces - a heuristic approach",
Computer Journal 25, 353-357: beng01.
"""

from __future__ import annotations

from decimal import Decimal
from hashlib import sha256
from math import ceil

import pytest

from quoting.core import Rectangle
from quoting.nesting import CuttingRule, DropRule, NestPlate, NestProblem, Piece, nest
from quoting.nesting.bounds import bin_bound
from tests.benchmarks.nesting import DATA, best_known, class_problem
from tests.benchmarks.rectangle_classes import Instance, rectangle_classes, rectangle_instance

# beng01 (20 items, bin 25 x 10) as printed in the 2DPackLib file
BENG01 = "1,3;1,7;3,6;3,8;4,3;4,7;7,8;8,6;8,6;9,1;9,1;9,8;10,3;10,3;11,1;11,3;11,4;11,5;11,5;11,6;12,6;12,8"


def beng01() -> list[tuple[int, int]]:
    return [(int(w), int(h)) for w, h in (item.split(",") for item in BENG01.split(";"))]


def test_the_bound_is_at_least_the_continuous_bound() -> None:
    sizes = beng01()
    area = ceil(sum(w * h for w, h in sizes) / 250)
    assert bin_bound([(w, h, 1, False) for w, h in sizes], 25, 10) >= area


def test_the_layout_is_at_most_four_times_the_continuous_bound() -> None:
    sizes = beng01()
    pieces = tuple(Piece(f"i{k}", Rectangle(h, w), turn=False) for k, (w, h) in enumerate(sizes))
    rule = CuttingRule("thermal", kerf_mm=0, spacing_mm=0, edge_margin_mm=0, mill_trim_mm=0)
    plate = NestPlate("bin", 10, 25, None, Decimal(1))
    found = nest(NestProblem(pieces, (plate,), rule, DropRule(value_share=Decimal(0))))
    area = ceil(sum(w * h for w, h in sizes) / 250)
    assert found.bound <= len(found.cut_plates) <= 4 * area


def area_of(instance: Instance) -> int:
    return sum(width * height for width, height, _ in instance.items)


def on_shelves(instance: Instance) -> int:
    """Bins that a person needs who fills shelf after shelf, the highest items first, without turning."""
    side, _ = instance.bin
    bins, shelf_top, shelf_end, used = 1, 0, 0, 0
    for width, height, _ in sorted(instance.items, key=lambda item: -item[1]):
        if used + width > side:
            shelf_end, used = shelf_top, 0
        if used == 0:
            if shelf_end + height > side:
                bins, shelf_end = bins + 1, 0
            shelf_top = shelf_end + height
        used += width
    return bins


def test_the_rules_make_the_instances_that_totals_were_published_for() -> None:
    """The sum is that of the sets as the instance packages carry them, compared item by item once."""
    made = [(one.name, one.bin, one.items) for one in rectangle_classes()]
    assert len(made) == 500
    expected = "a0fb7ab1bab21fece4b415cf03e31662d80ecedbc9961a8927a71a0725b688a5"
    assert sha256(repr(made).encode()).hexdigest() == expected


@pytest.mark.parametrize(
    ("kind", "wide", "high", "large"), [(7, 7, 1, 1), (8, 1, 7, 1), (9, 1, 1, 7), (10, 1, 1, 1)]
)
def test_seven_items_in_ten_are_of_the_kind_a_class_stands_for(
    kind: int, wide: int, high: int, large: int
) -> None:
    items = [item for one in rectangle_classes() if one.cell[0] == kind for item in one.items]
    share = 10 / len(items)
    assert sum(w >= 66 and h <= 50 for w, h, _ in items) * share == pytest.approx(wide, abs=0.2)
    assert sum(w <= 50 and h >= 66 for w, h, _ in items) * share == pytest.approx(high, abs=0.2)
    assert sum(w >= 50 and h >= 50 for w, h, _ in items) * share == pytest.approx(large, abs=0.2)


@pytest.mark.parametrize("guillotine", [False, True])
@pytest.mark.parametrize("kind", range(1, 11))
def test_a_quick_nest_of_every_class_lies_between_what_must_hold(kind: int, guillotine: bool) -> None:
    instance = rectangle_instance(kind, 40, 3)
    found = nest(class_problem(instance, False, guillotine))
    area = ceil(area_of(instance) / (instance.bin[0] * instance.bin[1]))
    assert not found.unplaced
    assert area <= found.bound <= len(found.cut_plates) <= min(4 * area, on_shelves(instance))


@pytest.mark.parametrize("rotation", [False, True])
def test_twenty_items_of_class_1_need_as_few_bins_as_published(rotation: bool) -> None:
    first, *others = (
        class_problem(rectangle_instance(1, 20, k), rotation, guillotine=False) for k in range(1, 11)
    )
    found = [nest(first, effort="normal"), *(nest(other, effort="quick") for other in others)]
    bins = sum(len(one.cut_plates) for one in found)
    published = best_known(DATA, rotation)[1, 20]
    assert published <= bins <= 1.05 * published
    assert sum(int(one.bound) for one in found) <= published
