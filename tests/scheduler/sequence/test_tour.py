"""Fewest set-ups alone: an asymmetric travelling salesman problem."""

from __future__ import annotations

from itertools import pairwise, permutations

import numpy as np
import pytest

from scheduler.sequence.exact import fewest_setups
from scheduler.sequence.exact.tour import shortest_tour
from scheduler.sequence.stop import Stop

EFFORT = Stop(work=5.0)


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(8))
def test_the_tour_is_as_short_as_the_best_of_all_tours(seed: int) -> None:
    n = 7
    cost = np.random.default_rng(seed).integers(1, 40, (n, n))
    best = min(
        sum(int(cost[a, b]) for a, b in pairwise((0, *order, 0))) for order in permutations(range(1, n))
    )
    tour = shortest_tour(cost, EFFORT)
    assert (tour.length, tour.bound, tour.proven) == (best, best, True)
    assert sum(int(cost[a, b]) for a, b in pairwise((*tour.order, 0))) == best


@pytest.mark.parametrize("n", [0, 1, 2])
def test_tiny_tours(n: int) -> None:
    tour = shortest_tour(np.full((n, n), 5), EFFORT)
    assert tour.order == tuple(range(n))
    assert tour.length == (10 if n == 2 else 0)


def test_thirty_operations_in_random_positions_are_proven() -> None:
    chance = np.random.default_rng(1)
    setups = chance.integers(5, 60, (31, 30))
    tour = fewest_setups(setups, EFFORT)
    assert tour.proven
    minutes = [int(setups[a, b - 1]) for a, b in pairwise(tour.order)]
    assert sum(minutes) == tour.length
    assert sorted(tour.order) == list(range(31))


def test_carbon_to_stainless_is_cleaned_once() -> None:
    """Cleaning before stainless after carbon costs, the other way does not (a trap of the trade, common
    practice)."""
    stainless = [True, False, True, False, True]
    state = [False, *stainless]  # the machine has carbon steel dust on it now
    setups = np.array([[20 if b and not a else 0 for b in stainless] for a in state])
    tour = fewest_setups(setups, EFFORT)
    assert tour.length == 20
    assert [stainless[k - 1] for k in tour.order[1:]] == [True, True, True, False, False]
