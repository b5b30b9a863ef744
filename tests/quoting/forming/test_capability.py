from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quoting.core import Ends, RangeError
from quoting.forming import DemandRow, Verdict, assess_many
from quoting.forming.judging.demands import demands
from quoting.forming.task_arrays import lines_of
from quoting.shop import RatedPoint
from quoting.shop.model import SlideGeometry
from tests.quoting.forming.shop import (
    INCH,
    MILD,
    PLAIN,
    PRE_BEND,
    RULES,
    SLIDE,
    STAINLESS,
    assess,
    job,
    light_roll,
)

ROLL = light_roll()
LOADS = ("bending force", "pinch force", "top-roll bending", "bending-roll bending")


def shares(verdict: Verdict) -> dict[str, float]:
    return {limit.name: limit.used for limit in verdict.limits}


def test_the_rated_job_uses_every_load_limit_in_full() -> None:
    verdict = assess(job(0.25 * INCH, 60 * INCH, 24 * INCH), ROLL, RULES)
    assert verdict.ok
    assert [shares(verdict)[name] for name in LOADS] == pytest.approx([1.0] * 4)
    assert verdict.used == pytest.approx(1.0)
    assert any("near capacity (100%)" in flag for flag in verdict.flags)


@pytest.mark.parametrize(
    ("name", "thickness", "metal", "force"),
    [("3/16 in", 0.1875, "mild", 0.55), ("10 ga", 0.1345, "mild", 0.28), ("1/4 in 304", 0.25, "304", 0.82)],
)
def test_the_light_roll_elsewhere(name: str, thickness: float, metal: str, force: float) -> None:
    """Trade fact, common practice, no source: a 6 in x 5 ft roll pre-bends 1/4 in mild plate to 24 in.

    Force goes with yield x thickness squared over the arm: 3/16 in asks (3/16 / 1/4)^2 = 0.56 of it and 10 ga
    0.29, and a little less since thin plate lies flatter in the pinch and meets the bending roll further out.
    304 at its least yield, 205 MPa, asks 205/250 = 0.82; plate as it often comes (290 MPa and more) asks for
    more than the roll has, which the flag says.
    """
    material = MILD if metal == "mild" else STAINLESS
    verdict = assess(job(thickness * INCH, 60 * INCH, 24 * INCH, material=material), ROLL, RULES)
    assert verdict.ok, name
    assert shares(verdict)["bending force"] == pytest.approx(force, abs=0.01)


def test_stainless_as_it_comes_is_too_much_at_the_rated_size() -> None:
    task = job(0.25 * INCH, 60 * INCH, 24 * INCH, material=STAINLESS)
    assert any("top of its grade, 380 MPa (55 ksi)" in flag for flag in assess(task, ROLL, RULES).flags)
    certified = replace(task, yield_mpa=290.0)
    verdict = assess(certified, ROLL, RULES)
    assert not verdict.ok
    assert verdict.used == pytest.approx(1.16, abs=0.02)
    assert verdict.used_at_high == pytest.approx(verdict.used)
    assert "loads at the certificate's yield, 290 MPa (42 ksi)" in verdict.notes


def test_five_sixteenths_without_pre_bend_where_that_is_rated() -> None:
    task = job(0.3125 * INCH, 60 * INCH, 24 * INCH)
    assert not assess(task, ROLL, RULES).ok
    both = light_roll(rated=(PRE_BEND, PLAIN))
    refused = assess(task, both, RULES)
    assert "without pre-bend: ends left flat, or trimmed after rolling" in refused.ways_out
    assert assess(replace(task, ends=Ends.LEAVE_FLAT), both, RULES).ok
    assert assess(replace(task, ends=Ends.TRIM), both, RULES).ok


@settings(deadline=None, max_examples=60)
@given(
    st.floats(1.2, 8), st.floats(300, 1550), st.floats(250, 1500), st.floats(200, 450), st.floats(1.0, 1.5)
)
def test_thicker_wider_stronger_never_needs_less_force(
    t: float, width: float, inside: float, yield_: float, more: float
) -> None:
    base = job(t, width, inside, yield_mpa=yield_)
    grown = (
        job(t * more, width, inside, yield_mpa=yield_),
        job(t, width * more, inside, yield_mpa=yield_),
        job(t, width, inside, yield_mpa=yield_ * more),
    )
    tasks = (base, *grown)
    asked = demands(lines_of(tasks, [task.load_yield_mpa for task in tasks]), ROLL, RULES)
    for row in (DemandRow.BENDING_FORCE, DemandRow.PINCH_FORCE):
        assert np.all(asked[row, 1:] >= asked[row, 0] * (1 - 1e-9)), row.name


@settings(deadline=None, max_examples=40)
@given(st.floats(1.2, 8), st.floats(300, 1550), st.floats(250, 1500), st.sampled_from([25.4, 0.001, 3.7]))
def test_the_system_of_units_does_not_change_the_verdict(
    t: float, width: float, inside: float, unit: float
) -> None:
    """All lengths of roll, rated point and job in another unit: the used shares of all loads are the same."""
    scaled = light_roll(
        rated=(RatedPoint(True, 6.35 / unit, 1524 / unit, 609.6 / unit, 250),),
        slide=SlideGeometry(170 / unit, 30, 130 / unit),
        scale=1 / unit,
    )
    ours = shares(assess_many([job(t, width, inside)], ROLL, RULES, ways_out=False)[0])
    theirs = shares(
        assess_many([job(t / unit, width / unit, inside / unit)], scaled, RULES, ways_out=False)[0]
    )
    for name in (*LOADS, "plate width", "bending-roll travel", "drive torque", "least inside diameter"):
        assert theirs[name] == pytest.approx(ours[name], rel=1e-8), name


def test_many_lines_get_the_verdicts_that_single_lines_get() -> None:
    tasks = [job(t, 1200, d) for t in (2.0, 5.0, 8.0) for d in (220.0, 400.0, 900.0)]
    together = assess_many(tasks, ROLL, RULES)
    for task, verdict in zip(tasks, together, strict=True):
        alone = assess(task, ROLL, RULES)
        assert (alone.ok, alone.limit) == (verdict.ok, verdict.limit)
        assert alone.used == pytest.approx(verdict.used, rel=1e-9)
    assert assess_many([], ROLL, RULES) == ()


def test_without_slide_geometry_the_moment_decides_and_the_verdict_says_so() -> None:
    bare = light_roll(slide=None)
    verdict = assess(job(0.25 * INCH, 60 * INCH, 24 * INCH), bare, RULES)
    assert verdict.ok
    assert shares(verdict)["bending moment of the plate"] == pytest.approx(1.0)
    assert "bending force" not in shares(verdict)
    assert any("judged by the bending moment alone" in note for note in verdict.notes)
    assert not assess(job(0.3 * INCH, 60 * INCH, 24 * INCH), bare, RULES).ok


@pytest.mark.parametrize(
    ("task", "limit"),
    [
        (job(4.0, 1700, 600), "plate width"),
        (job(9.5, 200, 900), "largest thickness"),
        (job(0.8, 800, 600), "least thickness"),
        (job(3.0, 900, 190), "least inside diameter"),
        (job(6.0, 1500, 6000), "weight in the rolls"),
    ],
)
def test_the_limit_that_stops_a_job_is_named(task: object, limit: str) -> None:
    verdict = assess(task, ROLL, RULES)  # type: ignore[arg-type]
    assert not verdict.ok
    assert shares(verdict)[limit] > 1
    assert limit in {each.name for each in verdict.limits if each.used > 1}


def test_a_half_shell_may_be_tighter_than_a_closed_shell() -> None:
    assert not assess(job(3.0, 900, 190), ROLL, RULES).ok
    assert assess(job(3.0, 900, 190, arc_deg=180), ROLL, RULES).ok


def test_a_roll_without_pre_bend_rating_does_not_pre_bend() -> None:
    plain = light_roll(rated=(PLAIN,))
    verdict = assess(job(3.0, 900, 600), plain, RULES)
    assert not verdict.ok
    assert verdict.limit == "pre-bending"
    assert verdict.ways_out[0].startswith("without pre-bend")
    assert verdict.reason == "pre-bending: far more than 100% of what the roll is rated for"
    assert assess(job(3.0, 900, 600, ends=Ends.LEAVE_FLAT), plain, RULES).ok


def test_a_second_rated_point_can_only_widen_what_a_roll_does() -> None:
    small = RatedPoint(True, 0.1875 * INCH, 60 * INCH, 12 * INCH, 250)
    wider = light_roll(rated=(PRE_BEND, small))
    for task in (job(5.0, 1500, 320), job(6.0, 1400, 700), job(4.0, 1000, 250)):
        assert assess(task, wider, RULES).used <= assess(task, ROLL, RULES).used + 1e-12


def test_crown_takes_off_the_barrel() -> None:
    task = job(0.25 * INCH, 60 * INCH, 24 * INCH)
    flat = assess(task, ROLL, RULES).barrel_mm
    crowned = assess(task, light_roll(crown=1.0), RULES).barrel_mm
    assert flat is not None
    assert crowned is not None
    assert flat - crowned == pytest.approx(0.5 * (1524 / 1600) ** 2)
    assert flat > 0


@pytest.mark.parametrize(
    ("point", "message"),
    [
        (
            RatedPoint(True, 6.35, 1700, 609.6, 250),
            "rated point 1: width_mm = 1700 is out of range: up to the working length, 1600 mm",
        ),
        (
            RatedPoint(True, 20.0, 1500, 609.6, 250),
            "thickness_mm = 20.0 is out of range: 1 to 9 mm, the roll's own range",
        ),
        (
            RatedPoint(True, 6.35, 1524, 140.0, 250),
            "inside_diameter_mm = 140.0 is out of range: at least the top roll's diameter, 152.4 mm",
        ),
    ],
)
def test_a_rated_point_that_contradicts_the_roll_is_refused(point: RatedPoint, message: str) -> None:
    with pytest.raises(RangeError) as caught:
        assess(job(3.0, 900, 600), light_roll(rated=(point,)), RULES)
    assert message in str(caught.value)


def test_a_rated_point_out_of_reach_of_the_slide_is_refused() -> None:
    short = light_roll(slide=replace(SLIDE, travel_mm=5.0))
    with pytest.raises(
        RangeError, match="a diameter within the slide's travel, 5 mm; this one needs a lift of"
    ):
        assess(job(3.0, 900, 600), short, RULES)


def test_a_yield_over_the_tensile_strength_is_refused() -> None:
    odd = replace(MILD, yield_low_mpa=500.0, yield_high_mpa=600.0)
    with pytest.raises(
        RangeError, match=r"material A36: yield_low_mpa = 500.0 .* at most the tensile strength, 400"
    ):
        assess(job(3.0, 900, 600, material=odd), ROLL, RULES)


def test_impossible_tasks_are_refused_by_name() -> None:
    with pytest.raises(RangeError, match=r"mean_diameter_mm = 6.0 .* more than the thickness, 6.0 mm"):
        job(6.0, 900, 0.0)
    with pytest.raises(RangeError, match="thickness_mm = 0"):
        replace(job(6.0, 900, 600), thickness_mm=0)
    with pytest.raises(RangeError, match="yield_mpa = 0"):
        job(6.0, 900, 600, yield_mpa=0)
    with pytest.raises(RangeError, match="arc_deg = 400"):
        replace(job(6.0, 900, 600), arc_deg=400)


def test_thirty_six_ksi_is_the_250_mpa_of_the_books() -> None:
    rated = light_roll(rated=(replace(PRE_BEND, yield_mpa=36 * 6.894757),))
    verdict = assess(job(0.25 * INCH, 60 * INCH, 24 * INCH), rated, RULES)
    assert 1 < verdict.used < 1.01
    assert verdict.ok
    assert not assess(job(0.253 * INCH, 60 * INCH, 24 * INCH), rated, RULES).ok


def test_what_merely_fits_does_not_govern_a_yes() -> None:
    """Plate nearly as wide as the roll uses nothing up; its bending force does."""
    verdict = assess(job(0.125 * INCH, 0.995 * ROLL.working_length_mm, 24 * INCH), ROLL, RULES)
    assert verdict.ok
    assert verdict.limit in LOADS
    wide = assess(job(0.125 * INCH, 1.01 * ROLL.working_length_mm, 24 * INCH), ROLL, RULES)
    assert (wide.ok, wide.limit) == (False, "plate width")
