"""Courses along the axis of a shell."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.blanks.courses import course_widths
from quoting.core import RangeError


@given(st.floats(100, 20000), st.integers(1, 9), st.floats(0, 6))
def test_widths_and_gaps_add_up_to_the_length(length: float, courses: int, gap: float) -> None:
    widths = course_widths(length, courses, gap)
    assert len(widths) == courses
    assert sum(widths) + (courses - 1) * gap == pytest.approx(length)


@given(st.floats(500, 3000), st.floats(0.01, 1), st.integers(1, 6), st.floats(0, 6))
def test_whole_courses_and_a_remainder_add_up_too(
    whole: float, share: float, courses: int, gap: float
) -> None:
    length = (courses - 1) * (whole + gap) + whole * share
    widths = course_widths(length, courses, gap, whole_mm=whole)
    assert widths[:-1] == (whole,) * (courses - 1)
    assert widths[-1] == pytest.approx(whole * share, rel=1e-6, abs=1e-6)


def test_a_remainder_wider_than_a_whole_course_is_refused() -> None:
    with pytest.raises(RangeError, match="2 courses in 4000 mm need a last course"):
        course_widths(4000, 2, whole_mm=1800)
    with pytest.raises(RangeError, match="not -600 mm"):
        course_widths(3000, 3, whole_mm=1800)


def test_gaps_may_not_eat_the_shell() -> None:
    with pytest.raises(RangeError, match="must leave some plate"):
        course_widths(10, 3, 6)
