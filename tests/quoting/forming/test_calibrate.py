from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from quoting.core import RangeError
from quoting.forming import RecordedRoll, calibrate
from quoting.forming.learning.calibrate import Fit
from quoting.forming.machine import couple_arm, nip_of, setting_for_loaded
from quoting.forming.plate import loaded_curvature, plate_law
from tests.quoting.forming.shop import MILD, light_roll

ROLL = light_roll()
TRUE_YIELD, TRUE_ZERO = 340.0, 4.0


def records(n: int, noise_mm: float = 0.0, seed: int = 3) -> list[RecordedRoll]:
    """Return invented records of a machine whose display reads 4 mm off and whose plate has 340 MPa."""
    rng = np.random.default_rng(seed)
    nip = nip_of(ROLL)
    assert nip is not None
    found = []
    for i in range(n):
        t = float(rng.choice([3.42, 4.76, 6.35]))
        radius = float(rng.uniform(150, 700))
        law = plate_law(t, 1200, 200e3, 0.3, TRUE_YIELD)
        loaded = loaded_curvature(law, 1 / radius)
        arm = couple_arm(law, loaded, 2 * t)
        lift = float(setting_for_loaded(nip, law, loaded, couple_arm_mm=arm).lift_mm)
        readout = lift - TRUE_ZERO + float(rng.normal(0, noise_mm)) if noise_mm else lift - TRUE_ZERO
        found.append(RecordedRoll(t, 1200, MILD, readout, radius, where=f"row {i + 2}"))
    return found


def test_clean_records_give_back_yield_and_offset() -> None:
    found = calibrate(records(8), ROLL, 2.0)
    assert found.fit is Fit.OFFSET_AND_YIELD
    assert found.readout_zero_mm.value == pytest.approx(TRUE_ZERO, abs=1e-3)
    assert found.yields_mpa["A36"].value == pytest.approx(TRUE_YIELD, abs=0.1)
    assert found.before_percent > 10
    assert found.after_percent < 0.01


def test_the_truth_lies_within_the_stated_uncertainty() -> None:
    hits = 0
    for seed in range(12):
        found = calibrate(records(14, 0.2, seed), ROLL, 2.0)
        error = found.yields_mpa["A36"].error
        hits += abs(found.yields_mpa["A36"].value - TRUE_YIELD) < 2.5 * error
        assert 2 < error < 40
    assert hits >= 10


def test_one_wrong_reading_is_set_aside() -> None:
    wrong = records(12, 0.1)
    wrong[5] = replace(wrong[5], readout_mm=wrong[5].readout_mm + 9)
    found = calibrate(wrong, ROLL, 2.0)
    assert found.readings[5].weight == 0
    assert "set aside: row 7 does not fit the others" in found.notes
    assert found.yields_mpa["A36"].value == pytest.approx(TRUE_YIELD, rel=0.08)
    assert found.readout_zero_mm.readings <= 11


def test_few_readings_only_move_the_offset() -> None:
    found = calibrate(records(2), ROLL, 2.0)
    assert found.fit is Fit.OFFSET
    assert found.yields_mpa == {}
    assert "A36: fewer than 3 readings, its likely yield was kept" in found.notes
    assert found.after_percent < found.before_percent


def test_a_certificate_leaves_only_the_offset_to_learn() -> None:
    certified = [replace(record, yield_mpa=TRUE_YIELD) for record in records(5)]
    found = calibrate(certified, ROLL, 2.0)
    assert found.fit is Fit.OFFSET
    assert found.readout_zero_mm.value == pytest.approx(TRUE_ZERO, abs=1e-6)


def test_records_of_one_size_cannot_tell_yield_from_offset_and_say_so() -> None:
    rng = np.random.default_rng(1)
    (one,) = records(1)
    same = [replace(one, readout_mm=one.readout_mm + float(rng.normal(0, 0.2))) for _ in range(6)]
    found = calibrate(same, ROLL, 2.0)
    assert any("cannot be told apart" in note for note in found.notes)


def test_what_cannot_be_learnt_from_is_refused() -> None:
    with pytest.raises(RangeError, match=r"recorded rolls = 0 .* at least one record"):
        calibrate([], ROLL, 2.0)
    with pytest.raises(RangeError, match="slide geometry = missing"):
        calibrate(records(3), light_roll(slide=None), 2.0)
    with pytest.raises(RangeError, match=r"row 9: mean_radius_mm = 2 .* more than half the thickness, 3 mm"):
        RecordedRoll(6.0, 900, MILD, 30.0, 2, where="row 9")
