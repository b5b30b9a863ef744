"""Caution lines: only those that apply, short enough for the card."""

from __future__ import annotations

import pytest

from quoting.blanks import Blank, HowCut, develop
from quoting.core import Arc, Basis, Cone, Cylinder, Ends, Shape
from quoting.labour import Lift, PieceSize, cautions, cautions_for, choose_lift
from tests.quoting.labour.shop_settings import LIFT_RULES


def job(shape: Shape, thickness: float, ends: Ends = Ends.PRE_BEND) -> tuple[Blank, Lift]:
    (blank,) = develop(shape, thickness, 7850, ends=ends, how=HowCut(trim_mm=50)).blanks
    return blank, choose_lift(blank.weight_kg, thickness, PieceSize.of(blank), LIFT_RULES)


SHEET = job(Cylinder(200, Basis.INSIDE, 300), 1.5, Ends.LEAVE_FLAT)
HEAVY = job(Cylinder(1500, Basis.INSIDE, 2000), 20)
ARC = job(Arc(2000, Basis.INSIDE, 40, 1500), 12)
CONE = job(Cone(1200, 600, Basis.INSIDE, 600), 8)


def test_a_small_sheet_gets_two_lines_and_no_more() -> None:
    assert cautions_for(*SHEET, pre_bend=False) == (cautions.FEED, cautions.EDGES)


def test_a_heavy_shell_names_its_weight_and_what_it_may_do() -> None:
    lines = cautions_for(*HEAVY, pre_bend=True)
    assert lines[0].startswith("Crane lift, 1,499 kg (3,306 lb)")
    assert {cautions.TURN, cautions.TAIL, cautions.RING, cautions.CODES} <= set(lines)
    assert not {cautions.EDGES, cautions.CLEAN, cautions.CONE, cautions.SPRING} & set(lines)


def test_a_light_duct_held_by_two_needs_no_chock() -> None:
    blank, lift = job(Cylinder(458, Basis.INSIDE, 600), 1.2, Ends.LEAVE_FLAT)
    lines = cautions_for(blank, lift, pre_bend=False)
    assert lines[0].startswith("Thin for its diameter")
    assert lines[1:] == (cautions.FEED, cautions.EDGES)


def test_an_arc_does_not_roll_away() -> None:
    assert cautions.RING not in cautions_for(*ARC, pre_bend=True)


def test_trimming_a_closed_shell_lets_it_spring_open() -> None:
    trimmed = job(Cylinder(1500, Basis.INSIDE, 2000), 20, Ends.TRIM)
    assert cautions.SPRING in cautions_for(*trimmed, pre_bend=False)
    assert cautions.TURN not in cautions_for(*trimmed, pre_bend=False)


def test_cone_and_cleaning_lines_come_only_when_asked_for() -> None:
    assert cautions.CONE in cautions_for(*CONE, pre_bend=True)
    assert cautions.CLEAN in cautions_for(*SHEET, pre_bend=False, clean_rolls=True)


def test_hard_plate_and_what_no_magnet_holds_are_told() -> None:
    lines = cautions_for(*HEAVY, pre_bend=True, magnetic=False, hard=True)
    assert {cautions.HARD, cautions.MAGNET} <= set(lines)
    assert not {cautions.HARD, cautions.MAGNET} & set(cautions_for(*HEAVY, pre_bend=True))
    assert cautions.MAGNET not in cautions_for(*SHEET, pre_bend=False, magnetic=False)  # lifted by hand


def test_a_narrow_ring_tips() -> None:
    ring = job(Cylinder(1500, Basis.INSIDE, 200), 20)
    assert cautions.TIPS in cautions_for(*ring, pre_bend=True)
    assert cautions.TIPS not in cautions_for(*HEAVY, pre_bend=True)


def test_no_line_picks_a_side_on_gloves() -> None:
    for line in cautions_for(*HEAVY, pre_bend=True, magnetic=False, hard=True):
        assert "glove" not in line.lower()


@pytest.mark.parametrize("case", [SHEET, HEAVY, ARC, CONE])
def test_every_line_is_one_short_sentence(case: tuple[Blank, Lift]) -> None:
    for line in cautions_for(*case, pre_bend=True, clean_rolls=True):
        assert len(line) <= 100
        assert line.endswith(".")
