"""The regression with a prior, and its robust weights, against figures printed or worked out elsewhere.

Stack loss (Brownlee 1965): coefficients of the biweight fit as the statsmodels library gives them (RLM,
TukeyBiweight): -42.2854, 0.9276, 0.6507, -0.1123, the 21st day next to no weight. The five lots are worked
out with numpy from the formula of Hoerl & Kennard (Technometrics 12, 1970) and Lindley & Smith (1972).
"""

from __future__ import annotations

import numpy as np
import pytest

from quoting.hindsight.statistics.robust_fit import LinearPrior, ridge, robust_ridge

AIR = [80, 80, 75, 62, 62, 62, 62, 62, 58, 58, 58, 58, 58, 58, 50, 50, 50, 50, 50, 56, 70]
WATER = [27, 27, 25, 24, 22, 23, 24, 24, 23, 18, 18, 17, 18, 19, 18, 18, 19, 19, 20, 20, 20]
ACID = [89, 88, 90, 87, 87, 87, 93, 93, 87, 80, 89, 88, 82, 93, 89, 86, 72, 79, 80, 82, 91]
LOSS = [42, 37, 37, 28, 18, 18, 19, 20, 15, 14, 14, 13, 11, 12, 8, 7, 8, 8, 9, 15, 15]


def test_the_wild_day_of_the_stack_has_no_say() -> None:
    x = np.array([[1.0] * 21, AIR, WATER, ACID]).T
    nothing_known = LinearPrior(np.zeros(4), 1e8 * np.eye(4), 3.0, 0)
    fit = robust_ridge(x, np.array(LOSS, dtype=float), np.ones(21), np.ones(21), nothing_known)
    assert fit.mean == pytest.approx([-42.2854, 0.9276, 0.6507, -0.1123], rel=0.01)
    assert fit.weights[20] < 0.005


def test_totals_of_five_lots_and_what_the_book_says() -> None:
    x = np.array([[1, 10, 2], [1, 20, 5], [1, 5, 1], [2, 40, 10], [1, 15, 3]], dtype=float)
    y = np.array([75, 118, 48, 235, 92], dtype=float)
    prior = LinearPrior(np.array([30.0, 3.0, 5.0]), np.diag([100.0, 1.0, 9.0]), 8.0, 0)
    mean, covariance = ridge(x, y, np.full(5, 64.0), prior)
    assert mean == pytest.approx([30.1227, 3.1087, 5.0905], abs=5e-5)
    assert np.sqrt(np.diag(covariance)) == pytest.approx([6.2639, 0.6521, 2.3627], abs=5e-5)
