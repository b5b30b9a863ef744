"""Plans that are searched for less long than a shop's: what a plan must keep shows all the same."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest

from scheduler.sequence.solve import BUDGETS

FULL = dict(BUDGETS)
LIGHT = 7.5
"""Times fewer orders are timed than for a shop."""


@pytest.fixture(autouse=True, scope="module")
def light_search() -> Iterator[None]:
    """Search two fifteenths of what a shop's plan is searched through.

    What a plan must keep it keeps from the first order on; how cheap it becomes is for tests that ask for
    `full_search`, and for the benchmarks.
    """
    with pytest.MonkeyPatch.context() as patch:
        for effort, full in FULL.items():
            orders, each, a_round = (int(n / LIGHT) for n in (full.timed, full.each, full.a_round))
            patch.setitem(BUDGETS, effort, replace(full, timed=orders, each=each, a_round=a_round))
        yield


@pytest.fixture
def full_search(monkeypatch: pytest.MonkeyPatch) -> None:
    """Search as for a shop: for tests of how good a plan is."""
    for effort, full in FULL.items():
        monkeypatch.setitem(BUDGETS, effort, full)
