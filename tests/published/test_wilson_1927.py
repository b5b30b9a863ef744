"""Wilson's score interval against printed intervals.

Formula: E. B. Wilson, "Probable inference, the law of succession, and statistical inference", Journal of the
American Statistical Association 22 (1927) 209-212. Printed values at z = 1.96: the test cases of a public
programming contest that asks for this interval (code golf question 105389), as read for this check. The four
examples of Newcombe, Statistics in Medicine 17 (1998) 857-872: the counts are from memory, the intervals were
worked out by another library (statsmodels, proportion_confint, method wilson).
"""

from __future__ import annotations

import pytest

from quoting.hindsight.statistics.wilson import wilson

PRINTED = [
    (0, 1, 0.0, 0.7934567), (1, 2, 0.0945287, 0.9054713), (1, 11, 0.0162318, 0.3773646),
    (10, 100, 0.0552285, 0.1743673), (25, 100, 0.1754509, 0.3430465), (50, 100, 0.4038298, 0.5961702),
    (0, 100, 0.0, 0.0369948),
]  # fmt: skip
WORKED_OUT = [
    (81, 263, 0.2553, 0.3662),
    (15, 148, 0.0624, 0.1605),
    (0, 20, 0.0, 0.1611),
    (1, 29, 0.0061, 0.1718),
]


@pytest.mark.parametrize(("hits", "of", "low", "high"), PRINTED)
def test_the_interval_is_the_printed_one(hits: int, of: int, low: float, high: float) -> None:
    found = wilson(hits, of, z=1.96)
    assert (found.low, found.high) == pytest.approx((low, high), abs=6e-8)


@pytest.mark.parametrize(("hits", "of", "low", "high"), WORKED_OUT)
def test_the_interval_is_that_of_another_library(hits: int, of: int, low: float, high: float) -> None:
    found = wilson(hits, of)
    assert (found.low, found.high) == pytest.approx((low, high), abs=6e-5)
