"""The filters turn down sets that cannot fit, and never one that does."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.nesting.compiled.filters import PAIRS, Ints, filters

W, H = 300, 200


@st.composite
def laid_out(draw: st.DrawFn) -> tuple[Ints, Ints]:
    """Return pieces cut from a plate of W by H, some turned: extents, whether they may turn."""
    parts = [(W, H)]
    for _ in range(draw(st.integers(1, 9))):
        w, h = parts.pop(draw(st.integers(0, len(parts) - 1)))
        if draw(st.booleans()) and w > 1:
            at = draw(st.integers(1, w - 1))
            parts += [(at, h), (w - at, h)]
        elif h > 1:
            at = draw(st.integers(1, h - 1))
            parts += [(w, at), (w, h - at)]
        else:
            parts.append((w, h))
    turn = [draw(st.booleans()) for _ in parts]
    size = [(h, w) if t and draw(st.booleans()) else (w, h) for (w, h), t in zip(parts, turn, strict=True)]
    return np.array(size, np.int64), np.array(turn, np.int64)


@pytest.mark.slow
@given(laid_out(), st.lists(st.tuples(st.integers(1, 320), st.integers(1, 220)), max_size=12))
def test_what_fits_one_plate_is_never_refused(laid: tuple[Ints, Ints], others: list[tuple[int, int]]) -> None:
    size, turn = laid
    everything = np.concatenate([size, np.array(others, np.int64).reshape(-1, 2)])
    weights, limits = filters(everything, np.concatenate([turn, np.ones(len(others), np.int64)]), W, H)
    assert len(limits) <= PAIRS
    assert (weights[:, : len(size)].sum(axis=1) <= limits).all()


def test_two_pieces_too_wide_to_lie_abreast_and_too_high_together_are_refused() -> None:
    size = np.array([(160, 110)] * 2 + [(40, 30)] * 20, np.int64)
    weights, limits = filters(size, np.zeros(22, np.int64), W, H)
    assert W * H > 2 * 160 * 110 + 20 * 40 * 30  # the area alone says nothing
    assert (weights[:, :2].sum(axis=1) > limits).any()
    assert (weights[:, 2:8].sum(axis=1) <= limits).all()


def test_a_piece_that_may_be_turned_counts_the_lesser_way() -> None:
    size = np.array([(110, 160)] * 2 + [(40, 30)] * 20, np.int64)
    flat, _ = filters(size, np.zeros(22, np.int64), W, H)
    turning = np.ones(22, np.int64)
    both, limits = filters(size, turning, W, H)
    assert (both[:, :2].sum(axis=1) <= limits).all()
    assert len(flat) <= PAIRS


def test_a_plate_too_small_for_every_piece_has_no_filters() -> None:
    weights, limits = filters(np.array([(400, 50), (10, 250)], np.int64), np.zeros(2, np.int64), W, H)
    assert weights.shape == (0, 2)
    assert limits.shape == (0,)
