"""Mean and spread of a low / likely / high band.

Sources:
[1] Goodpasture, Quantitative Methods in Project Management, table 2-5 "Statistics for Common Distributions"
    (read at gristprojectmanagement.us/statistics/threepoint-estimate-approximations.html): triangular mean
    (P + ML + O)/3, variance [(O - P)^2 + (ML - O)(ML - P)]/18; PERT mean (P + 4 ML + O)/6.
[2] "What is different between Triangular Distribution and Beta Distribution", discussion 63870 on
    projectmanagement.com: o = 3, m = 8, p = 17 hours; triangular 9.3, PERT 8.7.
[3] SciPy's `triang` and `beta` (scipy.stats), an independent implementation of both distributions.
"""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from quoting.pricing.spread import Spread, deviation, draw, mean
from quoting.shop import Band

bands = st.tuples(st.floats(0, 500), st.floats(0.1, 500), st.floats(0.1, 500)).map(
    lambda parts: Band(parts[0], parts[0] + parts[1], parts[0] + parts[1] + parts[2])
)


def test_the_printed_means_of_three_eight_seventeen() -> None:  # [2]
    assert round(mean(Band(3, 8, 17)), 1) == 9.3
    assert round(mean(Band(3, 8, 17), Spread.PERT), 1) == 8.7


@given(bands)
def test_the_printed_formulas(band: Band) -> None:  # [1]
    low, likely, high = band.low, band.likely, band.high
    assert mean(band) == pytest.approx((high + likely + low) / 3)
    assert mean(band, Spread.PERT) == pytest.approx((high + 4 * likely + low) / 6)
    assert deviation(band) ** 2 == pytest.approx(((low - high) ** 2 + (likely - low) * (likely - high)) / 18)


@given(bands)
def test_the_moments_of_an_independent_implementation(band: Band) -> None:  # [3]
    width = band.high - band.low
    mode = (band.likely - band.low) / width
    triangle = stats.triang(mode, loc=band.low, scale=width)
    assert mean(band) == pytest.approx(triangle.mean())
    assert deviation(band) == pytest.approx(triangle.std())
    pert = stats.beta(1 + 4 * mode, 5 - 4 * mode, loc=band.low, scale=width)
    assert mean(band, Spread.PERT) == pytest.approx(pert.mean())
    assert deviation(band, Spread.PERT) == pytest.approx(pert.std())


@pytest.mark.parametrize("spread", list(Spread))
def test_draws_have_the_moments_and_the_distribution_they_claim(spread: Spread) -> None:  # [3]
    band, count = Band(20, 30, 90), 40_000
    drawn = draw(band, spread, np.random.default_rng(11), count)
    assert drawn.mean() == pytest.approx(mean(band, spread), abs=5 * deviation(band, spread) / count**0.5)
    assert drawn.std() == pytest.approx(deviation(band, spread), rel=0.02)
    mode = 1 / 7
    exact = (
        stats.triang(mode, loc=20, scale=70)
        if spread is Spread.TRIANGULAR
        else stats.beta(1 + 4 * mode, 5 - 4 * mode, loc=20, scale=70)
    )
    assert stats.kstest(drawn, exact.cdf).pvalue > 0.001


def test_a_band_without_width_is_one_value() -> None:
    drawn = draw(Band(5, 5, 5), Spread.PERT, np.random.default_rng(0), 100)
    assert set(drawn) == {5.0}
    assert deviation(Band(5, 5, 5)) == deviation(Band(5, 5, 5), Spread.PERT) == 0
