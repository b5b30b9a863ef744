from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from quoting.core import RangeError
from quoting.forming.plate import PlateLaw, bending_work, moment, plate_law
from quoting.forming.plate.bending import stiffness_at, yield_curvature
from tests.quoting.forming.radii import plastic_moment
from tests.quoting.forming.references import fibre_moment

MILD = plate_law(6.35, 1000, 200e3, 0.3, 250)
HARDENING = plate_law(6.35, 1000, 200e3, 0.3, 250, 530, 0.26)
STAINLESS = plate_law(6.0, 1000, 193e3, 0.29, 205, 1275, 0.45)
ALUMINIUM = plate_law(10.0, 1000, 70e3, 0.33, 30, 180, 0.2)


@pytest.mark.parametrize("law", [MILD, HARDENING, STAINLESS, ALUMINIUM])
@pytest.mark.parametrize("multiple", [0.5, 1.0, 1.7, 6.0, 40.0])
def test_closed_moment_meets_a_section_cut_into_fibres(law: PlateLaw, multiple: float) -> None:
    k = multiple * float(yield_curvature(law))
    cut = fibre_moment(
        k,
        float(law.thickness_mm),
        float(law.elastic_mpa),
        float(law.yield_mpa),
        float(law.strength_mpa),
        float(law.hardening),
    )
    assert float(moment(law, k)) == pytest.approx(cut, rel=1e-6)


@pytest.mark.parametrize("law", [MILD, HARDENING, STAINLESS])
@pytest.mark.parametrize("multiple", [0.5, 3.0, 40.0])
def test_closed_work_is_the_area_under_the_moment(law: PlateLaw, multiple: float) -> None:
    k = multiple * float(yield_curvature(law))
    area = quad(lambda x: float(moment(law, x)), 0, k, limit=200)[0]
    assert float(bending_work(law, k)) == pytest.approx(area, rel=1e-7)


@given(st.floats(1.1, 50), st.sampled_from([MILD, HARDENING, STAINLESS, ALUMINIUM]))
def test_stiffness_is_the_slope_of_the_moment(multiple: float, law: PlateLaw) -> None:
    k = multiple * float(yield_curvature(law))
    slope = float(moment(law, k * 1.00001) - moment(law, k * 0.99999)) / (2e-5 * k)
    assert float(stiffness_at(law, k)) == pytest.approx(slope, rel=1e-2, abs=1e-5 * float(law.stiffness))


def test_elastic_plate_is_a_beam_in_plane_strain() -> None:
    k = 0.9 * yield_curvature(MILD)
    assert float(moment(MILD, k)) == pytest.approx(200e3 / 0.91 * 6.35**3 / 12 * float(k))


def test_a_hard_bend_nears_the_fully_plastic_moment_from_below() -> None:
    shares = moment(MILD, np.array([5.0, 20.0, 100.0]) * yield_curvature(MILD)) / plastic_moment(MILD)
    assert np.all(np.diff(shares) > 0)
    assert shares[-1] == pytest.approx(1.0, abs=1e-4)
    assert shares[-1] < 1


def test_hardening_that_starts_late_changes_nothing_before_it_starts() -> None:
    k = np.linspace(0.1, 8.0, 9) * yield_curvature(MILD)
    assert moment(HARDENING, k) == pytest.approx(moment(MILD, k))


def test_no_hardening_exponent_and_k_at_yield_is_perfectly_plastic() -> None:
    flat = plate_law(6.35, 1000, 200e3, 0.3, 250, 250, 1e-12)
    k = np.linspace(0.1, 30.0, 9) * yield_curvature(MILD)
    assert moment(flat, k) == pytest.approx(moment(MILD, k), rel=1e-9)


def test_wide_plate_is_stiffer_and_stronger_than_a_square_bar() -> None:
    bar, plate = plate_law(10, 10, 200e3, 0.3, 250), plate_law(10, 80, 200e3, 0.3, 250)
    assert float(bar.yield_mpa) == 250
    assert float(plate.yield_mpa) == pytest.approx(2 * 250 / 3**0.5)
    assert float(plate.elastic_mpa) == pytest.approx(200e3 / 0.91)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"thickness_mm": 0.0}, "thickness_mm = 0 is out of range: more than 0"),
        ({"thickness_mm": float("nan")}, "thickness_mm = nan is out of range"),
        ({"width_mm": -1.0}, "width_mm = -1 is out of range"),
        ({"yield_mpa": -5.0}, "yield_mpa = -5 is out of range: 0 up to a tenth of the elastic modulus"),
        ({"yield_mpa": 30e3}, "yield_mpa = 30000 is out of range"),
        ({"yield_mpa": 0.0}, "yield_mpa = 0 is out of range: more than 0 unless the plate hardens"),
        ({"poisson": 0.5}, "poisson = 0.5 is out of range: 0 up to 0.5"),
        ({"hardening": 1.0}, "hardening = 1 is out of range: 0 up to 1"),
    ],
)
def test_impossible_values_are_named(change: dict[str, float], message: str) -> None:
    good = {"thickness_mm": 6.0, "width_mm": 1000.0, "elastic_mpa": 200e3, "poisson": 0.3, "yield_mpa": 250.0}
    with pytest.raises(RangeError) as caught:
        plate_law(**(good | change))
    assert message in str(caught.value)


def test_the_first_bad_line_of_many_is_named() -> None:
    with pytest.raises(RangeError, match="thickness_mm = -2 is out of range"):
        plate_law([6.0, -2.0, 0.0], 1000, 200e3, 0.3, 250)
