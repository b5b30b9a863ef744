"""Learning curves: shape and limits (values against sources are in tests/published)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.core import RangeError
from quoting.labour.learning import (
    cumulative_average_total,
    learning_exponent,
    unit_factor,
    unit_total,
)

rates = st.floats(0.6, 1.0)


@given(st.integers(1, 300), rates, st.integers(1, 40))
def test_a_later_piece_never_takes_longer_and_the_floor_holds(piece: int, rate: float, floor: int) -> None:
    assert unit_factor(piece + 1, rate, floor) <= unit_factor(piece, rate, floor) <= 1
    assert unit_factor(piece, rate, floor) >= unit_factor(floor, rate)


@given(st.integers(1, 120), rates, st.integers(1, 40))
def test_total_is_the_sum_of_its_pieces(pieces: int, rate: float, floor: int) -> None:
    summed = sum(unit_factor(piece, rate, floor) for piece in range(1, pieces + 1))
    assert unit_total(pieces, rate, floor) == pytest.approx(summed)


@given(st.integers(2, 200), st.floats(0.6, 0.99))
def test_cumulative_average_form_is_the_more_optimistic(pieces: int, rate: float) -> None:
    assert cumulative_average_total(pieces, rate) < unit_total(pieces, rate)


@pytest.mark.parametrize("rate", [0.0, -0.5, 1.01])
def test_rates_outside_the_range_are_refused(rate: float) -> None:
    with pytest.raises(RangeError, match="learning rate"):
        learning_exponent(rate)


def test_pieces_count_from_one() -> None:
    with pytest.raises(RangeError, match="piece = 0 is out of range: 1 or more"):
        unit_factor(0, 0.9)
