from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quoting.blanks import ConeForm
from quoting.core import Ends
from quoting.forming import PassPlan, RollTask, plan_many
from quoting.forming.machine import couple_arm, nip_of, radius_for_lift, touch_lift
from quoting.forming.plate import loaded_curvature, plate_law
from quoting.shop import PassRules, Roll
from tests.quoting.forming.shop import INCH, RULES, assess, job, light_roll, plan_passes

ROLL = light_roll()


def plan(task: RollTask, roll: Roll = ROLL, rules: PassRules = RULES) -> PassPlan:
    return plan_passes(task, roll, rules, assess(task, roll, rules))


def test_a_pre_bent_shell_is_bent_at_both_ends_then_rolled_down_in_equal_steps_of_curvature() -> None:
    found = plan(job(3.0, 900, 400))
    assert [run.end_leading for run in found.passes if run.pre_bend] == ["A", "B"]
    rolling = [run for run in found.passes if not run.pre_bend]
    assert [run.number for run in found.passes] == list(range(1, len(found.passes) + 1))
    curvatures = [1 / run.final_radius_mm for run in rolling]
    assert curvatures == pytest.approx([curvatures[0] * n for n in range(1, len(rolling) + 1)])
    assert rolling[-1].final_radius_mm == pytest.approx(403 / 2)
    assert all(run.loaded_radius_mm < run.final_radius_mm for run in found.passes)


def test_start_bigger_work_smaller_means_the_bending_roll_only_rises() -> None:
    rolling = [run for run in plan(job(6.0, 900, 300)).passes if not run.pre_bend]
    lifts = [run.lift_mm for run in rolling if run.lift_mm is not None]
    assert len(lifts) == len(rolling) > 2
    assert lifts == sorted(lifts)


def test_a_first_piece_takes_smaller_steps_than_a_repeat() -> None:
    first, repeat = job(4.0, 900, 300), job(4.0, 900, 300, first_off=False)
    assert plan(first).rolling_passes > plan(repeat).rolling_passes


def test_passes_follow_the_strain_rule_the_least_and_the_most() -> None:
    task = job(4.0, 900, 300)  # 4 / 304 = 1.3 per cent: four steps of 0.4 per cent
    assert plan(task).rolling_passes == 4
    assert plan(task, rules=replace(RULES, least_passes=6)).rolling_passes == 6
    assert plan(task, rules=replace(RULES, most_passes=2)).rolling_passes == 2


def test_near_capacity_gets_extra_passes() -> None:
    task = job(0.24 * INCH, 60 * INCH, 24 * INCH)
    relaxed = replace(RULES, near_capacity=1.0)
    assert plan(task).rolling_passes == plan(task, rules=relaxed).rolling_passes + 2


def test_a_weak_drive_asks_for_more_passes() -> None:
    task = job(6.0, 1500, 400)
    weak = replace(ROLL, power_kw=0.05, rated=(replace(ROLL.rated[0], thickness_mm=2.0),))
    verdict = assess(task, weak, RULES)
    assert verdict.least_passes > 1
    assert plan(task, weak).rolling_passes >= verdict.least_passes


def test_positions_give_back_the_radius_of_every_pass() -> None:
    task = job(5.0, 1200, 500)
    nip = nip_of(ROLL)
    assert nip is not None
    law = plate_law(5.0, 1200, 200e3, 0.3, task.shape_yield_mpa)
    arm = couple_arm(law, loaded_curvature(law, 1 / task.bend_radius_mm), 10.0)
    for run in (run for run in plan(task).passes if not run.pre_bend):
        assert run.lift_mm is not None
        lift = run.lift_mm + float(touch_lift(nip, 5.0))
        assert float(radius_for_lift(nip, law, lift, couple_arm_mm=arm)) == pytest.approx(
            run.final_radius_mm, rel=1e-6
        )


def test_readout_counts_from_the_zero_of_the_display() -> None:
    shifted = replace(ROLL, readout_zero_mm=7.0)
    ours, theirs = plan(job(3.0, 900, 400)).passes[-1], plan(job(3.0, 900, 400), shifted).passes[-1]
    assert ours.readout_mm is not None
    assert theirs.readout_mm == pytest.approx(ours.readout_mm - 7.0)
    assert theirs.lift_mm == ours.lift_mm


def test_ductwork_runs_straight_through_and_states_its_flats() -> None:
    found = plan(job(1.2, 1200, 600, ends=Ends.LEAVE_FLAT))
    assert found.pre_bends == 0
    assert found.rolling_passes == 1
    assert found.pre_bend_readout_mm is None
    assert found.flat_lead_mm is not None
    assert found.flat_lead_mm > 50
    assert found.flat_tail_mm == pytest.approx(2.4)
    assert "run straight through, no pre-bend: both ends stay flat" in found.notes


def test_trimmed_ends_are_not_pre_bent() -> None:
    found = plan(job(3.0, 900, 400, ends=Ends.TRIM))
    assert found.pre_bends == 0
    assert "no pre-bend: the flat ends are cut off after rolling" in found.notes


def test_pre_bending_makes_the_leading_flat_as_short_as_the_trailing_one() -> None:
    found = plan(job(6.0, 900, 600))
    assert found.flat_lead_mm == found.flat_tail_mm == 12.0
    assert found.stop_before_tail_mm >= found.flat_tail_mm
    assert found.pre_bend_lift_mm is not None
    assert found.passes[-1].lift_mm is not None
    assert found.pre_bend_lift_mm < found.passes[-1].lift_mm


def test_re_rolls_swap_the_leading_end() -> None:
    found = plan(job(3.0, 900, 400, re_round=True), rules=replace(RULES, re_rolls_when_re_rounding=3))
    again = [run for run in found.passes if run.re_roll]
    assert [run.end_leading for run in again] == ["B", "A", "B"]
    assert found.re_rolls == 3
    assert all(run.final_radius_mm == pytest.approx(201.5) for run in again)


def test_weak_and_strong_plate_bracket_the_diameter() -> None:
    low, high = plan(job(3.0, 900, 400)).inside_diameter_band_mm
    assert low < 400 < high
    exact = plan(job(3.0, 900, 400, yield_mpa=310)).inside_diameter_band_mm
    assert exact == pytest.approx((400, 400))


def test_without_slide_geometry_the_plan_has_radii_but_no_positions() -> None:
    found = plan(job(3.0, 900, 400), light_roll(slide=None))
    assert found.flat_lead_mm == 6.0
    assert all(run.readout_mm is None and run.lift_mm is None for run in found.passes)
    assert any("find the positions by trial" in note for note in found.notes)
    assert plan(job(3.0, 900, 400, ends=Ends.LEAVE_FLAT), light_roll(slide=None)).flat_lead_mm is None


def test_lower_rolls_that_overlap_by_the_book_are_noted() -> None:
    assert ROLL.slide is not None
    cramped = replace(ROLL, slide=replace(ROLL.slide, offset_mm=120))
    assert any("run into each other" in note for note in plan(job(3.0, 900, 400), cramped).notes)
    assert not any("run into each other" in note for note in plan(job(3.0, 900, 400)).notes)


def test_a_slide_without_a_position_for_the_bend_leaves_the_reach_open() -> None:
    assert ROLL.slide is not None
    far = replace(ROLL, slide=replace(ROLL.slide, offset_mm=300, travel_mm=5000))
    assert plan(job(3.0, 900, 200), far).least_length_mm is None
    assert plan(job(3.0, 900, 260), far).least_length_mm is not None


def test_a_roll_without_slide_geometry_is_taken_to_reach_its_top_roll_diameter() -> None:
    found = plan(job(3.0, 900, 400), light_roll(slide=None))
    assert found.reach_mm == light_roll(slide=None).top_roll_mm


def test_a_cone_gets_its_tilt() -> None:
    cone = ConeForm(600, 404, 490, (490**2 + 98**2) ** 0.5)
    found = plan(replace(job(4.0, cone.slant_mm, 400), cone=cone))
    assert found.cone is not None
    assert found.cone.lift_small_mm is not None
    assert found.cone.lift_large_mm is not None
    assert found.cone.lift_small_mm > found.cone.lift_large_mm
    assert any("hold the small edge back" in note for note in found.notes)


@settings(deadline=None, max_examples=30)
@given(
    st.lists(st.tuples(st.floats(1.2, 8), st.floats(300, 1500), st.floats(220, 1500)), min_size=2, max_size=6)
)
def test_many_lines_get_the_plans_that_single_lines_get(sizes: list[tuple[float, float, float]]) -> None:
    tasks = [job(*size) for size in sizes]
    verdicts = [assess(task, ROLL, RULES) for task in tasks]
    for task, verdict, together in zip(tasks, verdicts, plan_many(tasks, ROLL, RULES, verdicts), strict=True):
        alone = plan_passes(task, ROLL, RULES, verdict)
        assert len(alone.passes) == len(together.passes)
        for one, other in zip(alone.passes, together.passes, strict=True):
            assert one.readout_mm == pytest.approx(other.readout_mm, abs=1e-6)
    assert plan_many([], ROLL, RULES, []) == ()
