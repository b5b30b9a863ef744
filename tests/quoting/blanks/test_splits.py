"""Courses and seams that fit the plates there are."""

from __future__ import annotations

from math import inf

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quoting.blanks import HowCut, SplitLimits, develop, sensible_splits
from quoting.blanks.sector_fits import sector_fits
from quoting.core import Arc, Basis, Cone, Cylinder, Ends, RangeError, Rectangle, Sector, Shape

STEEL = 7850.0

shapes = st.one_of(
    st.builds(Cylinder, st.floats(300, 4000), st.sampled_from(Basis), st.floats(100, 9000)),
    st.builds(Arc, st.floats(300, 6000), st.sampled_from(Basis), st.floats(5, 355), st.floats(100, 9000)),
    st.builds(
        lambda large, share, height: Cone(large, large * share, Basis.INSIDE, height),
        st.floats(300, 3000),
        st.floats(0.2, 0.95),
        st.floats(100, 3000),
    ),
)


@settings(max_examples=60, deadline=None)
@given(shapes, st.floats(1000, 3000), st.floats(3000, 12000), st.floats(0, 100))
def test_every_split_offered_fits_the_plate(shape: Shape, widest: float, longest: float, trim: float) -> None:
    splits = sensible_splits(shape, 10, SplitLimits(widest_mm=widest, longest_mm=longest, trim_mm=trim))
    assert [c * s for c, s in splits] == sorted(c * s for c, s in splits)
    for courses, seams in splits[:1]:
        plan = develop(
            shape, 10, STEEL, ends=Ends.TRIM, how=HowCut(courses=courses, seams=seams, trim_mm=trim)
        )
        for blank in plan.blanks:
            if isinstance(blank.outline, Rectangle):
                assert blank.outline.width_mm <= widest * (1 + 1e-8)
                assert blank.outline.length_mm <= longest * (1 + 1e-8)
            else:
                assert sector_fits(blank.outline, widest, longest)


@given(st.floats(300, 4000), st.floats(100, 9000), st.floats(1000, 3000), st.floats(3000, 12000))
def test_one_course_or_seam_fewer_would_not_fit(
    diameter: float, length: float, widest: float, longest: float
) -> None:
    courses, seams = sensible_splits(
        Cylinder(diameter, Basis.MEAN, length), 10, SplitLimits(widest_mm=widest, longest_mm=longest)
    )[0]
    girth = develop(Cylinder(diameter, Basis.MEAN, length), 10, STEEL, ends=Ends.PRE_BEND).blanks[0].girth_mm
    assert courses == 1 or length / (courses - 1) > widest
    assert seams == 1 or girth / (seams - 1) > longest


def test_what_fits_whole_is_offered_whole_first() -> None:
    splits = sensible_splits(
        Cylinder(1200, Basis.INSIDE, 2000), 10, SplitLimits(widest_mm=2400, longest_mm=6000)
    )
    assert splits == ((1, 1), (1, 2), (2, 1), (2, 2))


def test_the_roll_limits_the_course_and_not_the_girth() -> None:
    shell = Cylinder(1200, Basis.INSIDE, 2300)
    wide = sensible_splits(shell, 10, SplitLimits(widest_mm=2400, longest_mm=6000))
    narrow = sensible_splits(shell, 10, SplitLimits(widest_mm=2400, longest_mm=6000, roll_length_mm=1500))
    assert (wide[0], narrow[0]) == ((1, 1), (2, 1))


def test_without_grain_the_blank_may_lie_across_the_plate() -> None:
    shell = Cylinder(500, Basis.INSIDE, 2900)
    along = sensible_splits(shell, 10, SplitLimits(widest_mm=2400, longest_mm=6000, roll_length_mm=3000))
    across = sensible_splits(
        shell, 10, SplitLimits(widest_mm=2400, longest_mm=6000, roll_length_mm=3000), turn=True
    )
    assert (along[0], across[0]) == ((2, 1), (1, 1))


def test_a_large_cone_is_cut_in_segments() -> None:
    cone = Cone(3000, 1500, Basis.INSIDE, 1200)
    courses, seams = sensible_splits(cone, 10, SplitLimits(widest_mm=2400, longest_mm=6000))[0]
    assert courses * seams > 1
    flat = (
        develop(cone, 10, STEEL, ends=Ends.PRE_BEND, how=HowCut(courses=courses, seams=seams))
        .blanks[0]
        .outline
    )
    assert isinstance(flat, Sector)
    assert sector_fits(flat, 2400, 6000)


def test_segments_can_be_asked_for() -> None:
    cone = Cone(900, 300, Basis.INSIDE, 600)
    assert sensible_splits(cone, 10, SplitLimits(widest_mm=2400, longest_mm=6000))[0] == (1, 1)
    assert sensible_splits(cone, 10, SplitLimits(widest_mm=2400, longest_mm=6000, least_seams=2))[0] == (1, 2)
    shell = Cylinder(900, Basis.INSIDE, 600)
    assert sensible_splits(shell, 10, SplitLimits(widest_mm=2400, longest_mm=6000, least_seams=2))[0] == (
        1,
        2,
    )


def test_a_hopeless_cone_gets_no_split() -> None:
    assert (
        sensible_splits(Cone(30000, 200, Basis.INSIDE, 9000), 10, SplitLimits(widest_mm=300, longest_mm=300))
        == ()
    )


def test_a_plate_of_any_size_leaves_only_the_roll_to_ask_for_courses() -> None:
    for shape in (Cylinder(1200, Basis.INSIDE, 2300), Cone(3000, 1500, Basis.INSIDE, 2000)):
        splits = sensible_splits(
            shape, 10, SplitLimits(widest_mm=inf, longest_mm=inf, roll_length_mm=1500), turn=True
        )
        assert splits[0] == (2, 1)


def test_a_plate_shorter_than_both_trims_is_refused() -> None:
    with pytest.raises(RangeError, match="less than the plate"):
        sensible_splits(
            Cylinder(500, Basis.MEAN, 100), 10, SplitLimits(widest_mm=1000, longest_mm=2000, trim_mm=600)
        )
