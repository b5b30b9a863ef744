"""Blanks of cylinders, arcs and cones: what is cut, how many, and what it weighs."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.blanks import Blank, BlankPlan, HowCut, develop
from quoting.core import Arc, Basis, Cone, Cylinder, Ends, RangeError, Rectangle, Sector, mean_diameter

STEEL = 7850.0
INCH = 25.4

cylinders = st.builds(Cylinder, st.floats(400, 5000), st.sampled_from(Basis), st.floats(100, 6000))
thicknesses = st.floats(1, 25)
gaps = st.floats(0, 5)
splits = st.integers(1, 4)


def rectangle(blank: Blank) -> Rectangle:
    assert isinstance(blank.outline, Rectangle)
    return blank.outline


def sector(blank: Blank) -> Sector:
    assert isinstance(blank.outline, Sector)
    return blank.outline


@given(cylinders, thicknesses, splits, gaps)
def test_girths_and_gaps_close_on_the_mean_diameter(
    shape: Cylinder, thickness: float, seams: int, gap: float
) -> None:
    plan = develop(shape, thickness, STEEL, ends=Ends.PRE_BEND, how=HowCut(seams=seams, weld_gap_mm=gap))
    (blank,) = plan.blanks
    mean = mean_diameter(shape.diameter_mm, shape.basis, thickness)
    assert blank.per_part * (blank.girth_mm + gap) == pytest.approx(pi * mean)
    assert blank.arc_deg == pytest.approx(360 / seams)
    assert blank.closed == (seams == 1)


@given(cylinders, thicknesses, splits, splits, gaps)
def test_blank_weights_without_trim_add_up_to_the_part(
    shape: Cylinder, thickness: float, courses: int, seams: int, gap: float
) -> None:
    plan = develop(
        shape,
        thickness,
        STEEL,
        ends=Ends.LEAVE_FLAT,
        how=HowCut(courses=courses, seams=seams, weld_gap_mm=gap),
    )
    assert sum(blank.weight_kg * blank.per_part for blank in plan.blanks) == pytest.approx(
        plan.part_weight_kg
    )
    assert plan.pieces_per_part == courses * seams


@given(cylinders, thicknesses, st.floats(0.01, 100))
def test_a_larger_diameter_never_gives_a_shorter_blank(
    shape: Cylinder, thickness: float, more: float
) -> None:
    small = develop(shape, thickness, STEEL, ends=Ends.PRE_BEND).blanks[0]
    larger = replace(shape, diameter_mm=shape.diameter_mm + more)
    assert develop(larger, thickness, STEEL, ends=Ends.PRE_BEND).blanks[0].girth_mm > small.girth_mm


@given(st.floats(16, 120), st.floats(4, 120), st.floats(0.05, 1.0), st.sampled_from(Basis))
def test_inches_and_millimetres_give_the_same_blank(
    diameter: float, length: float, thickness: float, basis: Basis
) -> None:
    inch = develop(Cylinder(diameter, basis, length), thickness, STEEL, ends=Ends.PRE_BEND)
    metric = develop(
        Cylinder(diameter * INCH, basis, length * INCH), thickness * INCH, STEEL, ends=Ends.PRE_BEND
    )
    assert metric.blanks[0].girth_mm == pytest.approx(inch.blanks[0].girth_mm * INCH)
    assert metric.part_weight_kg == pytest.approx(inch.part_weight_kg * INCH**3)


@given(cylinders, thicknesses, st.floats(0, 150), splits)
def test_trim_lengthens_the_blank_and_not_the_part(
    shape: Cylinder, thickness: float, trim: float, seams: int
) -> None:
    plain = develop(shape, thickness, STEEL, ends=Ends.PRE_BEND, how=HowCut(seams=seams, trim_mm=trim))
    trimmed = develop(shape, thickness, STEEL, ends=Ends.TRIM, how=HowCut(seams=seams, trim_mm=trim))
    assert plain.blanks[0].trim_mm == 0.0
    assert trimmed.blanks[0].girth_mm == plain.blanks[0].girth_mm
    assert rectangle(trimmed.blanks[0]).length_mm == pytest.approx(
        rectangle(plain.blanks[0]).length_mm + 2 * trim
    )
    assert trimmed.part_weight_kg == plain.part_weight_kg


def test_two_courses_share_the_length_less_the_girth_gap() -> None:
    plan = develop(
        Cylinder(1500, Basis.INSIDE, 4000),
        12,
        STEEL,
        ends=Ends.PRE_BEND,
        id="7",
        how=HowCut(courses=2, weld_gap_mm=3),
    )
    (blank,) = plan.blanks
    assert (blank.id, blank.per_part, blank.width_mm) == ("7", 2, 1998.5)
    assert any("1 girth seam, girth-weld gap 3.0 mm" in note for note in plan.notes)


def test_whole_courses_and_a_remainder_are_two_different_blanks() -> None:
    plan = develop(
        Cylinder(1500, Basis.INSIDE, 5000),
        12,
        STEEL,
        ends=Ends.PRE_BEND,
        id="7",
        how=HowCut(courses=3, course_width_mm=2000),
    )
    assert [(b.id, b.per_part, b.width_mm) for b in plan.blanks] == [("7.1", 2, 2000), ("7.2", 1, 1000)]


def test_half_shells_are_half_the_girth_and_keep_their_free_edges() -> None:
    plan = develop(
        Arc(600, Basis.INSIDE, 180, 1000), 10, STEEL, ends=Ends.PRE_BEND, how=HowCut(weld_gap_mm=2)
    )
    assert plan.blanks[0].girth_mm == pytest.approx(pi * 605)
    assert plan.notes[-1] == "no weld gap taken off the free edges of the arc"


def test_an_arc_in_two_pieces_loses_one_gap() -> None:
    plan = develop(
        Arc(3000, Basis.MEAN, 120, 1000), 10, STEEL, ends=Ends.PRE_BEND, how=HowCut(seams=2, weld_gap_mm=2)
    )
    (blank,) = plan.blanks
    assert 2 * blank.girth_mm + 2 == pytest.approx(2 * pi * 3000 / 3)
    assert blank.arc_deg == 60


def test_weight_of_a_plate_in_pounds() -> None:
    # 48 x 96 in, 1/4 in steel: 327 lb at 0.2836 lb/in3 (density from memory)
    mean = 96 * INCH / pi
    plan = develop(Cylinder(mean, Basis.MEAN, 48 * INCH), 0.25 * INCH, STEEL, ends=Ends.PRE_BEND)
    assert plan.part_weight_kg / 0.45359237 == pytest.approx(327, abs=0.5)


def test_notes_say_the_mean_diameter_used() -> None:
    plan = develop(Cylinder(24 * INCH, Basis.OUTSIDE, 1000), 0.5 * INCH, STEEL, ends=Ends.PRE_BEND)
    assert plan.notes == ("mean diameter used: 596.9 mm (23.500 in)",)


def test_a_tight_bend_says_that_the_neutral_layer_moved() -> None:
    plan = develop(Cylinder(100, Basis.INSIDE, 300), 20, STEEL, ends=Ends.LEAVE_FLAT)
    assert "DIN 6935" in plan.notes[0]
    assert plan.blanks[0].girth_mm < pi * 120


def cone_plan(**changes: float) -> BlankPlan:
    options = {"courses": 1, "seams": 1, "weld_gap_mm": 0.0, "trim_mm": 0.0} | changes
    return develop(
        Cone(1500, 700, Basis.INSIDE, 900),
        12,
        STEEL,
        ends=Ends.TRIM if options["trim_mm"] else Ends.PRE_BEND,
        id="4",
        how=HowCut(
            courses=int(options["courses"]),
            seams=int(options["seams"]),
            weld_gap_mm=options["weld_gap_mm"],
            trim_mm=options["trim_mm"],
        ),
    )


def test_cone_blank_carries_its_rolled_form() -> None:
    (blank,) = cone_plan().blanks
    assert blank.cone is not None
    assert blank.mean_diameter_mm == blank.cone.small_mm
    assert blank.width_mm == pytest.approx(blank.cone.slant_mm)
    assert blank.girth_mm == pytest.approx(pi * blank.cone.large_mm)  # along the large edge
    flat = sector(blank)
    assert flat.inner_radius_mm * flat.angle_deg * pi / 180 == pytest.approx(pi * blank.cone.small_mm)


def test_cone_segments_share_the_angle() -> None:
    whole, segment = sector(cone_plan().blanks[0]), sector(cone_plan(seams=3).blanks[0])
    assert segment.angle_deg == pytest.approx(whole.angle_deg / 3)
    assert cone_plan(seams=3).blanks[0].per_part == 3


def test_cone_gap_takes_the_area_of_a_parallel_strip() -> None:
    closed, open_ = cone_plan(seams=2), cone_plan(seams=2, weld_gap_mm=3)
    slant = closed.blanks[0].width_mm
    assert closed.part_weight_kg - open_.part_weight_kg == pytest.approx(2 * 3 * slant * 12 * STEEL * 1e-9)


def test_cone_trim_is_never_less_than_asked_anywhere_along_the_edge() -> None:
    plain, trimmed = sector(cone_plan(seams=2).blanks[0]), sector(cone_plan(seams=2, trim_mm=40).blanks[0])
    extra = (trimmed.angle_deg - plain.angle_deg) * pi / 180
    assert extra * trimmed.inner_radius_mm == pytest.approx(80)
    assert cone_plan(seams=2, trim_mm=40).part_weight_kg == cone_plan(seams=2).part_weight_kg


def test_cone_courses_meet_at_one_diameter() -> None:
    lower, upper = cone_plan(courses=2).blanks
    assert lower.cone is not None
    assert upper.cone is not None
    assert lower.cone.large_mm == pytest.approx(upper.cone.small_mm)
    assert lower.cone.height_mm + upper.cone.height_mm == pytest.approx(900)
    assert (lower.id, upper.id) == ("4.1", "4.2")


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"courses": 0}, "courses = 0 is out of range: more than 0"),
        ({"weld_gap_mm": -1.0}, "weld gap = -1.0 is out of range: 0 or more"),
        ({"weld_gap_mm": 5000.0}, "must leave some plate in the girth"),
        ({"thickness_mm": 0.0}, "thickness = 0.0 is out of range: more than 0"),
        ({"thickness_mm": 700.0}, "more than the thickness"),
    ],
)
def test_impossible_blanks_name_the_value(changes: dict[str, float], message: str) -> None:
    options = {"thickness_mm": 10.0, "courses": 1, "weld_gap_mm": 0.0} | changes
    with pytest.raises(RangeError, match=message):
        develop(
            Cylinder(1000, Basis.OUTSIDE, 1000),
            options["thickness_mm"],
            STEEL,
            ends=Ends.PRE_BEND,
            how=HowCut(courses=int(options["courses"]), weld_gap_mm=options["weld_gap_mm"]),
        )


def test_cone_courses_cannot_be_given_a_width() -> None:
    with pytest.raises(RangeError, match="none for a cone: its courses are equal"):
        develop(
            Cone(900, 500, Basis.INSIDE, 800),
            5,
            STEEL,
            ends=Ends.PRE_BEND,
            how=HowCut(courses=2, course_width_mm=500),
        )


def test_flat_length_is_what_passes_the_rolls() -> None:
    shell = develop(Cylinder(900, Basis.MEAN, 800), 5, STEEL, ends=Ends.TRIM, how=HowCut(trim_mm=40)).blanks[
        0
    ]
    assert shell.flat_length_mm == pytest.approx(pi * 900 + 80)
    (plain,), (trimmed,) = cone_plan().blanks, cone_plan(trim_mm=40).blanks
    assert plain.flat_length_mm == pytest.approx(plain.girth_mm)
    assert trimmed.flat_length_mm > plain.girth_mm + 80  # the trim widens towards the large edge


def test_cone_trim_that_would_close_the_ring_asks_for_segments() -> None:
    with pytest.raises(RangeError, match="pre-bend or more segments"):
        cone_plan(trim_mm=2000)
