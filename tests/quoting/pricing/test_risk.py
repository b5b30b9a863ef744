"""The chance of losing money, against exact convolution on small cases."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from math import comb

import numpy as np
import pytest
from numpy.typing import NDArray

from quoting.core import RangeError
from quoting.pricing import Drawing, LineRisk, RiskInput, RiskReport, RiskRules, price_line, simulate
from quoting.pricing.spread import Spread
from quoting.shop import Band
from tests.quoting.pricing.samples import CUTTING, DRIVERS, RATES, RULES

LINE = RiskInput(
    line="A-1",
    drivers=DRIVERS,
    price=Decimal("1245.04"),
    setup=Band(30, 30, 30),
    rolling=Band(120, 120, 120),
    re_roll=Band(12, 12, 12),
    extra_pass_minutes=16.0,
    used=0.5,
    re_roll_chance=0.0,
    scrap_chance=0.0,
    lost_piece=Decimal(50),
    piece_kg=200,
    thickness_mm=10,
    width_mm=1200,
)
DRAWS = 40_000
# Five standard errors of a share at most: sqrt(0.25 / draws) = 0.0025 each.
SHARE_TOLERANCE = 0.0125


def run(
    *lines: RiskInput, seed: int = 7, draws: int = DRAWS, spread: Spread = Spread.TRIANGULAR
) -> RiskReport:
    return simulate(lines, RATES, RULES, CUTTING, RiskRules(), Drawing(seed, draws, spread))


def one(line: RiskInput, seed: int = 7) -> LineRisk:
    return run(line, seed=seed).lines[0]


def binomial(pieces: int, chance: float) -> NDArray[np.float64]:
    return np.array([comb(pieces, k) * chance**k * (1 - chance) ** (pieces - k) for k in range(pieces + 1)])


def test_a_line_with_nothing_to_go_wrong_costs_what_it_was_priced_on() -> None:
    cost = one(LINE).cost
    assert cost.p10 == cost.p50 == cost.p90 == cost.mean
    assert cost.mean == price_line(DRIVERS, RATES, RULES, CUTTING).parts.cost
    assert cost.loss_chance == 0


def test_scrap_and_re_rolls_match_the_convolution_of_two_binomials() -> None:
    line = replace(LINE, scrap_chance=0.08, re_roll_chance=0.25, price=Decimal(1150))
    # on paper: a lost piece takes an eighth of cutting 50, edge 40, rolling 320 and crane 6, with a quarter
    # of overhead, and 50 of plate: 115; a re-roll takes 12 min at 160 an hour and a quarter: 40
    costs = 1005 + 115 * np.arange(9)[:, None] + 40 * np.arange(9)[None, :]
    weights = binomial(8, 0.08)[:, None] * binomial(8, 0.25)[None, :]
    exact_loss = float(weights[costs > 1150].sum())
    exact_mean = float((weights * costs).sum())
    found = one(line).cost
    assert found.loss_chance == pytest.approx(exact_loss, abs=SHARE_TOLERANCE)
    assert float(found.mean) == pytest.approx(exact_mean, abs=2.5)  # standard error of the mean is 0.5
    order = np.argsort(costs, axis=None)
    reached = np.cumsum(weights.ravel()[order])
    for share, percentile in ((0.1, found.p10), (0.5, found.p50), (0.9, found.p90)):
        assert float(percentile) == costs.ravel()[order][np.searchsorted(reached, share)]


def triangular_masses(band: Band, step: float) -> NDArray[np.float64]:
    """Return the exact probability of each cell of a grid, from the distribution function."""
    edges = np.arange(band.low, band.high + step / 2, step)
    rising = (edges - band.low) ** 2 / ((band.high - band.low) * (band.likely - band.low))
    falling = 1 - (band.high - edges) ** 2 / ((band.high - band.low) * (band.high - band.likely))
    return np.diff(np.where(edges <= band.likely, rising, falling))


def test_set_up_and_rolling_minutes_match_the_convolution_of_two_triangles() -> None:
    setup, rolling = Band(20, 30, 60), Band(100, 120, 200)
    slow_crane = replace(DRIVERS, crane_minutes=0)
    line = replace(LINE, drivers=slow_crane, setup=setup, rolling=rolling, price=Decimal(1100))
    # money per minute with a quarter of overhead: set-up 80 / 60 x 1.25 = 5/3, rolling 160 / 60 x 1.25 = 10/3
    step = 0.05
    fixed = 360 + (50 + 40) * 1.25 + 60 + 15
    masses = np.convolve(
        triangular_masses(setup, 2 * step), triangular_masses(rolling, step)
    )  # both cells are 1/6 of a unit of money wide
    costs = fixed + 20 * 5 / 3 + 100 * 10 / 3 + step * 10 / 3 * (np.arange(masses.size) + 1)
    reached = np.cumsum(masses)
    assert reached[-1] == pytest.approx(1)
    found = one(line).cost
    assert found.loss_chance == pytest.approx(float(masses[costs > 1100].sum()), abs=SHARE_TOLERANCE)
    for share, percentile in ((0.1, found.p10), (0.5, found.p50), (0.9, found.p90)):
        exact = float(np.interp(share, reached, costs))
        slope = (
            float(np.interp(share + 0.01, reached, costs) - np.interp(share - 0.01, reached, costs)) / 0.02
        )
        assert float(percentile) == pytest.approx(exact, abs=SHARE_TOLERANCE * slope)


def test_hard_and_thick_plate_near_the_limit_takes_the_passes_nobody_planned() -> None:
    scatter = Band(0.9, 1.0, 1.2)
    line = replace(LINE, used=0.8, yield_ratio=scatter)
    # used x yield >= 0.85 for a yield ratio of 1.0625 up: (1.2 - 1.0625)^2 / (0.3 x 0.2) of the triangle
    share = (1.2 - 1.0625) ** 2 / (0.3 * 0.2)
    passes = 2 * 16 * 160 / 60 * 1.25
    assert float(one(line).cost.mean) == pytest.approx(1005 + share * passes, abs=1.5)
    assert one(replace(line, used=0.9)).cost.p50 == 1005  # planned as near capacity: the passes are in it


def test_plate_over_the_rating_has_every_piece_re_rolled() -> None:
    line = replace(LINE, used=0.95, thickness_ratio=Band(1.05, 1.05, 1.05))
    found = one(line)
    assert found.over_rating_chance == 1  # 0.95 x 1.05^2 = 1.047
    assert found.cost.mean == 1005 + 8 * 40
    assert "over its rating (100% chance)" in found.reasons[0] + found.reasons[1]


def test_free_issue_plate_lost_costs_the_shop_only_what_it_owes() -> None:
    own = replace(LINE, scrap_chance=1.0)
    free = replace(own, free_issue=True, lost_piece=Decimal(0))
    assert one(own).cost.mean - one(free).cost.mean == 8 * 50


def test_the_same_seed_gives_the_same_report_and_other_lines_do_not_move_it() -> None:
    line = replace(LINE, rolling=Band(100, 120, 200), re_roll_chance=0.1)
    other = replace(line, line="B-2")
    assert run(line, other) == run(line, other)
    assert run(other, line).lines[1] == run(line).lines[0]
    assert one(line, seed=8) != one(line)
    assert run(line, other).lines[0].cost != run(line, other).lines[1].cost


def test_the_order_sums_its_lines_draw_by_draw() -> None:
    line = replace(LINE, rolling=Band(100, 120, 200))
    report = run(line, replace(line, line="B-2"))
    both = report.lines[0].cost.mean + report.lines[1].cost.mean
    assert abs(report.order.mean - both) <= Decimal("0.02")
    # two independent lines spread less than one line twice over
    assert report.order.p90 < 2 * report.lines[0].cost.p90
    assert report.order.p10 > 2 * report.lines[0].cost.p10


def test_a_dearer_price_never_raises_the_chance_of_losing_money() -> None:
    line = replace(LINE, rolling=Band(100, 120, 300), scrap_chance=0.05)
    chances = [one(replace(line, price=Decimal(price))).cost.loss_chance for price in range(900, 2100, 100)]
    assert chances == sorted(chances, reverse=True)
    assert chances[0] == 1
    assert chances[-1] < 0.001  # only a run of lost pieces reaches it


def test_pert_leans_on_the_likely_value_more_than_the_triangle_does() -> None:
    line = replace(LINE, rolling=Band(100, 120, 300))
    assert (
        run(line, spread=Spread.PERT).lines[0].cost.p90
        < run(line, spread=Spread.TRIANGULAR).lines[0].cost.p90
    )


def test_what_cannot_be_drawn_is_refused() -> None:
    with pytest.raises(RangeError, match=r"scrap chance = 1\.5 is out of range: 0 to 1"):
        replace(LINE, scrap_chance=1.5)
    with pytest.raises(RangeError, match="used = -1 is out of range: 0 or more"):
        replace(LINE, used=-1)
    with pytest.raises(RangeError, match="draws = 10 is out of range: 100 or more"):
        run(LINE, draws=10)
    with pytest.raises(RangeError, match="lines to draw = 0"):
        run()


def test_an_easy_line_has_no_reason_to_worry() -> None:
    assert one(LINE).reasons == ()


def test_a_risky_line_says_why_in_words() -> None:
    line = replace(
        LINE,
        used=0.92,
        piece_kg=1800,
        thickness_mm=6,
        width_mm=2400,
        first_off=True,
        free_issue=True,
        lost_piece=Decimal(0),
        price=Decimal(1000),
    )
    text = "\n".join(one(line).reasons)
    assert "100% chance that it costs more than it is sold for" in text
    assert "near capacity: uses 92% of the roll's limit (near from 85%)" in text
    assert "first-off" in text
    assert "heavy: 1,800 kg a piece" in text
    assert "thin and wide: 2400 mm across at 6 mm, 400 to 1 (from 300 to 1)" in text
    assert "what is owed for it is not counted here" in text
    owed = one(replace(line, lost_piece=Decimal(75)))
    assert "is owed to the customer" in owed.reasons[-1]
