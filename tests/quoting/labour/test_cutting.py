"""Minutes at the cutting station."""

from __future__ import annotations

from dataclasses import replace

import pytest

from quoting.core import RangeError
from quoting.labour import CutWork, cutting_minutes
from tests.quoting.labour.shop_settings import LABOUR


def test_metres_and_plates_at_the_shop_minutes() -> None:
    assert cutting_minutes(CutWork(cut_m=12.0, plates=2), LABOUR) == 12 * 2 + 2 * 10


def test_pierces_and_strokes_count_when_the_shop_times_them() -> None:
    work = CutWork(cut_m=1.0, pierces=4, strokes=6)
    assert cutting_minutes(work, replace(LABOUR, shear_minutes_per_stroke=1.5)) == 2 + 9
    assert cutting_minutes(work, LABOUR, minutes_per_pierce=0.25, minutes_per_stroke=0.5) == 2 + 1 + 3


def test_a_line_can_carry_its_share_of_a_plate() -> None:
    whole = CutWork(cut_m=10, pierces=3, plates=1)
    shares = CutWork(cut_m=4, pierces=1, plates=0.4) + CutWork(cut_m=6, pierces=2, plates=0.6)
    assert cutting_minutes(shares, LABOUR) == pytest.approx(cutting_minutes(whole, LABOUR))


def test_negative_work_is_refused() -> None:
    with pytest.raises(RangeError, match="cut m = -1 is out of range: 0 or more"):
        CutWork(cut_m=-1)
