"""Remarks about handling, and what only stands beside the part, are no doubt of it; others still are."""

from __future__ import annotations

import pytest

from quoting.core import Ends
from quoting.intake.texts.trade_words import ends_in
from quoting.intake.words import said_in_text


@pytest.mark.parametrize(
    "remark",
    [
        "do not store outdoors",
        "shell, to be wrapped for the sea",
        "stack on timber, please",
        "packed with cardboard between",
        "no substitutions please",
        "goes next to the elbow",
        "welds to our own flange",
        "top course of the tank",
        "split deliveries ok",
        "grain in any direction",
        "run straight through",
    ],
)
def test_handling_and_neighbours_are_not_asked_about(remark: str) -> None:
    assert not [one for one in said_in_text(remark)[0] if one.does in ("ask", "out", "free", "soft")]


@pytest.mark.parametrize(
    "remark",
    [
        "do not ship, on hold",
        "to be delivered in halves",
        "stack with 2 spares",
        "elbow",
        "part of the elbow",
        "flange for the tank",
        "top course thinner",
        "each course of two plates",
        "split",
        "must be rolled loose, not to be made yet",
        "between 1 and 2 in",
    ],
)
def test_what_changes_the_part_is_still_asked_about(remark: str) -> None:
    assert [one for one in said_in_text(remark)[0] if one.does in ("ask", "out", "free")]


def test_run_straight_through_leaves_the_ends_flat() -> None:
    assert ends_in("roll it straight thru") is Ends.LEAVE_FLAT
    assert ends_in("duct work, straight through") is Ends.LEAVE_FLAT
    assert ends_in("shell for a straight-through joint") is None
