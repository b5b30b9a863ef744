"""The batting averages of Efron and Morris, drawn to their mean by the factor of James and Stein.

B. Efron and C. Morris, "Data analysis using Stein's estimator and its generalizations", Journal of the
American Statistical Association 70 (1975) 311-319, and "Stein's paradox in statistics", Scientific American
236 (1977) 119-127: the first 45 times at bat of 18 players and their averages over the rest of the season.
Data, mean 0.265, factor 0.212 and the formula with (k - 3) as printed on a public question page about the
paper (Stats question 5727). The players are numbered, in its order.
"""

from __future__ import annotations

import pytest

from quoting.hindsight.statistics.shrinkage import Posterior, drawn_together, james_stein, normal_normal

FIRST_45 = (
    0.400, 0.378, 0.356, 0.333, 0.311, 0.311, 0.289, 0.267, 0.244, 0.244, 0.222, 0.222, 0.222, 0.222, 0.222,
    0.200, 0.178, 0.156,
)  # fmt: skip
SEASON = (
    0.346, 0.298, 0.276, 0.222, 0.273, 0.270, 0.263, 0.210, 0.269, 0.230, 0.264, 0.256, 0.303, 0.264, 0.226,
    0.285, 0.316, 0.200,
)  # fmt: skip
MEAN = sum(FIRST_45) / len(FIRST_45)
VARIANCE = MEAN * (1 - MEAN) / 45


def missed(told: tuple[float, ...]) -> float:
    return sum((one - season) ** 2 for one, season in zip(told, SEASON, strict=True))


def test_mean_and_factor_are_the_printed_ones() -> None:
    drawn = james_stein(FIRST_45, VARIANCE)
    factor = (drawn[0] - MEAN) / (FIRST_45[0] - MEAN)
    assert pytest.approx(0.265, abs=0.0005) == MEAN
    assert factor == pytest.approx(0.212, abs=0.0005)
    assert [round(drawn[0], 3), round(drawn[-1], 3)] == [0.294, 0.242]


def test_the_drawn_averages_foretell_the_season_better() -> None:
    assert missed(FIRST_45) / missed(james_stein(FIRST_45, VARIANCE)) == pytest.approx(3.5, abs=0.1)
    groups = drawn_together(FIRST_45, [VARIANCE**0.5] * len(FIRST_45))
    assert missed(tuple(one.mean for one in groups)) < 0.35 * missed(FIRST_45)


def test_schools_that_do_not_differ_are_pooled() -> None:
    """Eight schools of Gelman et al., Bayesian Data Analysis (data from memory); pooled mean worked out."""
    means, sds = (28, 8, -3, 7, -1, 1, 18, 12), (15, 10, 16, 11, 9, 11, 10, 18)
    pooled = drawn_together(means, sds)
    assert {round(one.mean, 3) for one in pooled} == {7.686}
    assert round(pooled[0].sd, 3) == 4.072


def test_one_group_against_a_prior() -> None:
    """Worked out by hand: the prior is worth (0.3 / 0.15)^2 = 4 figures, (4 x 1 + 6 x 1.2) / 10 = 1.12."""
    found = normal_normal(Posterior(1.0, 0.15), 1.2, 0.3, 6)
    assert (found.mean, found.sd) == pytest.approx((1.12, 0.094868), abs=1e-6)
