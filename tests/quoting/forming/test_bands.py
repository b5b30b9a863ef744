from __future__ import annotations

import pytest

from quoting.core import RangeError
from quoting.forming.passing.bands import position_band_mm
from tests.quoting.forming.shop import RULES, job, light_roll

ROLL = light_roll()


def test_known_plate_at_its_own_position_gives_its_own_diameter() -> None:
    assert position_band_mm(job(5.0, 1200, 500, yield_mpa=310), ROLL, RULES) == pytest.approx(
        (500, 500), rel=1e-6
    )


def test_weak_plate_comes_out_tighter_and_strong_plate_wider() -> None:
    low, high = position_band_mm(job(5.0, 1200, 500), ROLL, RULES)
    assert low < 500 < high


def test_thicker_plate_at_the_same_position_comes_out_tighter() -> None:
    task = job(5.0, 1200, 500, yield_mpa=310)
    low, high = position_band_mm(task, ROLL, RULES, thicknesses_mm=(4.8, 5.4))
    assert low < 500 < high
    thick, _ = position_band_mm(task, ROLL, RULES, thicknesses_mm=(5.4, 5.4))
    assert thick == pytest.approx(low)


def test_a_certificate_narrows_the_band() -> None:
    wide = position_band_mm(job(5.0, 1200, 500), ROLL, RULES, thicknesses_mm=(4.8, 5.4))
    narrow = position_band_mm(job(5.0, 1200, 500, yield_mpa=310), ROLL, RULES, thicknesses_mm=(4.8, 5.4))
    assert wide[1] - wide[0] > narrow[1] - narrow[0]


def test_without_slide_there_is_no_position() -> None:
    with pytest.raises(RangeError, match="slide geometry = missing"):
        position_band_mm(job(5.0, 1200, 500), light_roll(slide=None), RULES)
    with pytest.raises(RangeError, match="thickness_mm = 0"):
        position_band_mm(job(5.0, 1200, 500), ROLL, RULES, thicknesses_mm=(0.0, 5.0))
