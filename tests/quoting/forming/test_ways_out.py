from __future__ import annotations

from dataclasses import replace

import pytest

from quoting.core import Ends
from quoting.forming.verdict import WayOut
from tests.quoting.forming.shop import INCH, MILD, PLAIN, PRE_BEND, RULES, assess, job, light_roll

ROLL = light_roll()


def way(kind: str, ways: tuple[WayOut, ...]) -> WayOut:
    (found,) = [each for each in ways if each.kind == kind]
    return found


def test_taking_a_way_out_makes_it_a_yes_and_a_little_more_does_not() -> None:
    task = job(0.3 * INCH, 60 * INCH, 24 * INCH)
    verdict = assess(task, ROLL, RULES)
    assert not verdict.ok
    width = way("width", verdict.ways)
    assert width.size_mm is not None
    assert assess(job(0.3 * INCH, width.size_mm, 24 * INCH), ROLL, RULES).ok
    assert not assess(job(0.3 * INCH, width.size_mm * 1.03, 24 * INCH), ROLL, RULES).ok
    assert width.pieces == 3  # a narrower plate bends the roll more for the same force
    thickness = way("thickness", verdict.ways)
    assert thickness.size_mm is not None
    assert thickness.size_mm == pytest.approx(0.25 * INCH, rel=2e-3)
    assert assess(job(thickness.size_mm, 60 * INCH, 24 * INCH), ROLL, RULES).ok


def test_the_least_diameter_is_found_where_the_force_stops_a_tight_shell() -> None:
    task = job(0.25 * INCH, 60 * INCH, 14 * INCH)
    verdict = assess(task, ROLL, RULES)
    found = way("diameter", verdict.ways).size_mm
    assert found == pytest.approx(24 * INCH, rel=2e-3)


def test_the_yield_way_out_names_the_certificate_to_ask_for() -> None:
    verdict = assess(job(0.25 * INCH, 60 * INCH, 20 * INCH, yield_mpa=MILD.yield_low_mpa), ROLL, RULES)
    text = way("yield", verdict.ways).words()
    assert text.startswith("plate with a certified yield of 238 MPa (35 ksi)")
    judged_by_its_grade = assess(job(0.25 * INCH, 60 * INCH, 20 * INCH), ROLL, RULES)
    assert "yield" not in [each.kind for each in judged_by_its_grade.ways]


def test_half_shells_for_a_shell_too_small_to_come_off() -> None:
    verdict = assess(job(3.0, 900, 185), ROLL, RULES)
    assert way("segments", verdict.ways).pieces == 2


def test_a_too_wide_plate_comes_in_courses() -> None:
    verdict = assess(job(3.0, 3000, 800), ROLL, RULES)
    assert "up to 1600 mm wide in one piece: 2 courses" in verdict.ways_out


def test_sizes_are_written_the_way_the_shop_reads_them() -> None:
    verdict = assess(job(3.0, 3000, 800), ROLL, RULES)
    inches = verdict.ways_out_in(lambda mm: f"{mm / 25.4:.2f} in")
    assert "up to 62.99 in wide in one piece: 2 courses" in inches


def test_no_way_out_is_offered_that_is_no_way_out() -> None:
    task = job(0.3125 * INCH, 60 * INCH, 24 * INCH)
    kinds = {each.kind for each in assess(task, ROLL, RULES).ways}
    assert "no pre-bend" not in kinds
    both = light_roll(rated=(PRE_BEND, PLAIN))
    assert "no pre-bend" in {each.kind for each in assess(task, both, RULES).ways}
    plain = replace(task, ends=Ends.LEAVE_FLAT, thickness_mm=10.0)
    assert "no pre-bend" not in {each.kind for each in assess(plain, both, RULES).ways}


def test_a_yes_has_no_ways_out() -> None:
    assert assess(job(3.0, 900, 600), ROLL, RULES).ways == ()
