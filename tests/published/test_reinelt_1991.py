"""br17, an asymmetric travelling salesman problem of TSPLIB: shortest tour 39.

Reinelt, G. (1991), "TSPLIB - a traveling salesman problem library", ORSA Journal on Computing 3, pp.
376-384. The file is read
from the open benchmark data when it is there.
"""

from __future__ import annotations

import pytest

from scheduler.sequence.exact.tour import shortest_tour
from scheduler.sequence.stop import Stop
from tests.benchmarks.instances import ATSP_OPTIMA, DEFAULT_DATA, read_atsp


@pytest.mark.parametrize("name", ["br17", "ftv33", "ft53", "rbg443"])
def test_the_published_optimum_is_reached_and_proven(name: str) -> None:
    path = DEFAULT_DATA / "atsp" / f"{name}.atsp"
    if not path.is_file():
        pytest.skip("the open benchmark data is not here")
    tour = shortest_tour(read_atsp(path), Stop(work=30.0))
    assert (tour.length, tour.proven) == (ATSP_OPTIMA[name], True)
