"""Seams of neighbour courses stand apart by five times the thicker plate.

API Std 650, 11th edition (2007), 5.1.5.2 b, for vertical joints of adjacent shell courses of tanks: "a
minimum distance of 5t"; read in a stored copy of its page, scribd.com/document/74638157. For vessels ASME
VIII-1 UW-9(d) says the same where the seams are not examined: from memory.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from scheduler.papers.pictures import seam_offset_mm
from tests.scheduler.books.sample import LIGHT, flat, line


@pytest.mark.parametrize(("thickness_mm", "apart_mm"), [(9.525, 47.625), (25.4, 127.0)])
def test_seams_of_two_courses_stand_five_plates_apart(thickness_mm: float, apart_mm: float) -> None:
    two = replace(flat(), courses=2)
    assert seam_offset_mm(line("L-1", LIGHT, thickness_mm=thickness_mm, blank=two)) == pytest.approx(apart_mm)


def test_one_course_has_no_neighbour() -> None:
    assert seam_offset_mm(line("L-1", LIGHT, thickness_mm=9.525, blank=flat())) == 0.0
