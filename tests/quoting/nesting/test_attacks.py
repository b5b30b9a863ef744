"""Every field of a nest is made to say what is not so, and the checker says so: every time."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quoting.core import Rectangle, Sector
from quoting.nesting import CuttingRule, DropRule, NestPlate, NestProblem, Piece, Waiting, nest
from quoting.nesting.checker import check
from tests.quoting.nesting.attacks import ATTACKS, NOT_JUDGED, Case, all_fields, false_nests
from tests.quoting.nesting.shop import bare_problem, invented, plate

SOON, LATER = date(2026, 12, 4), date(2026, 12, 18)
FIELDS = sorted(ATTACKS)


def mill_plates() -> NestProblem:
    """Sheared plate with mill edges: one size within the blade, one to be cut across first, one of no use."""
    pieces = (
        Piece("a", Rectangle(1000, 2000), 5),
        Piece("b", Rectangle(300, 700), 6),
        Piece("c", Rectangle(90, 400)),
    )
    plates = (
        NestPlate("within", 1200, 3024, 2, Decimal(900), edge="mill"),
        NestPlate("long", 1200, 6000, None, Decimal(1900), edge="mill"),
        NestPlate("sliver", 20, 3000, 1, Decimal(5), edge="mill"),
        NestPlate("wide", 3200, 6000, None, Decimal(3900), edge="mill"),
    )
    cutting = CuttingRule(
        "shear", mill_trim_mm=12.0, longest_cut_mm=3000.0, cost_per_stroke=Decimal(2), cost_per_m=Decimal(3)
    )
    return NestProblem(pieces, plates, cutting, DropRule(300, 500))


def cones() -> NestProblem:
    return NestProblem(
        (Piece("cone", Sector(1400, 700, 70), 5), Piece("small", Rectangle(150, 300), 9)),
        (NestPlate("P", 2000, 6000, None, Decimal(2000)),),
        CuttingRule(cost_per_m=Decimal("1.5"), lead_in_mm=12.0, cost_per_pierce=Decimal("0.35")),
    )


def short_of_stock() -> NestProblem:
    """A rack that cannot serve all of it, for every reason but one a shear has."""
    pieces = (
        Piece("huge", Rectangle(3000, 9000), 2),
        Piece("grain", Rectangle(1800, 900), 2, turn=False),
        Piece("heat", Rectangle(1000, 1900), 2, needs_heat=True),
        Piece("fits", Rectangle(900, 1800), 5),
    )
    return bare_problem(
        pieces, plate(1000, 2000, count=2), replace(plate(950, 1900, id="Q", count=1), heat="")
    )


def sheared_reasons() -> NestProblem:
    pieces = (
        Piece("cone", Sector(500, 200, 60), 2),
        Piece("strip", Rectangle(20, 400), 3),
        Piece("stages", Rectangle(300, 500), 2),
        Piece("blade", Rectangle(1000, 3500), 2, turn=False),
        Piece("fits", Rectangle(1200, 800), 2),
    )
    cutting = CuttingRule("shear", mill_trim_mm=0, stages=1, least_strip_mm=50.0, longest_cut_mm=3000.0)
    return NestProblem(pieces, (plate(1200, 6000),), cutting, DropRule(value_share=Decimal(0)))


def waits(share: str) -> NestProblem:
    """Two plates of 100, or one of 195 for both: waiting costs 2.6 %."""
    pieces = (
        Piece("soon", Rectangle(1000, 1000), cut_by=SOON),
        Piece("later", Rectangle(1000, 1000), cut_by=LATER),
    )
    plates = (plate(1000, 1000), plate(1000, 2000, id="big", price="195"))
    return replace(bare_problem(pieces, *plates), waiting=Waiting(Decimal(share)))


def dated(problem: NestProblem) -> NestProblem:
    pieces = tuple(
        replace(piece, cut_by=SOON + timedelta(days=9 * k)) for k, piece in enumerate(problem.pieces)
    )
    return replace(problem, pieces=pieces, waiting=Waiting(Decimal("0.5")))


@cache
def cases() -> tuple[Case, ...]:
    problems = (
        invented(4, kinds=10),
        invented(4, kinds=10, method="shear"),
        invented(0, method="shear"),
        dated(invented(3, method="shear")),
        mill_plates(),
        cones(),
        short_of_stock(),
        sheared_reasons(),
        waits("0.02"),
        waits("0.10"),
    )
    return tuple(Case(problem, nest(problem)) for problem in problems)


def test_the_nests_that_are_attacked_pass_and_have_something_of_everything() -> None:
    assert all(check(case.problem, case.nest) == () for case in cases())
    reasons = {one.why for case in cases() for one in case.nest.unplaced}
    assert len(reasons) == 8, reasons
    assert {one.why.name for case in cases() for one in case.nest.remarks} == {
        "PLATE_TOO_SMALL",
        "BEYOND_BLADE",
    }
    assert {case.nest.waited.taken for case in cases() if case.nest.waited} == {True, False}
    assert {cut.stage for case in cases() for plate in case.nest.cut_plates for cut in plate.cuts} >= {
        0,
        1,
        2,
        3,
    }


def test_every_field_of_a_nest_has_its_attack() -> None:
    assert {*ATTACKS, *NOT_JUDGED} == set(all_fields())


@pytest.mark.parametrize(("name", "field"), FIELDS)
def test_a_field_that_says_what_is_not_so_is_caught(name: str, field: str) -> None:
    tried = 0
    for case in cases():
        for said, false in false_nests(case, name, field):
            assert check(case.problem, false), f"{name}.{field} = {said!r} passes"
            tried += 1
    assert tried >= 2


@pytest.mark.slow
@settings(max_examples=60, deadline=None)
@given(st.integers(0, 500), st.sampled_from(("thermal", "shear")), st.booleans(), st.sampled_from(FIELDS))
def test_a_field_of_any_nest_that_says_what_is_not_so_is_caught(
    seed: int, method: str, with_days: bool, attacked: tuple[str, str]
) -> None:
    problem = invented(seed, kinds=5, method=method)
    problem = dated(problem) if with_days else problem
    case = Case(problem, nest(problem))
    assert check(case.problem, case.nest) == ()
    for said, false in false_nests(case, *attacked, most=3):
        assert check(case.problem, false), f"{'.'.join(attacked)} = {said!r} passes"
