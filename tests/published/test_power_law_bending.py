"""H. V. Gajjar, A. H. Gandhi, T. A. Jafri, H. K. Raval, Bendability analysis for bending of C-Mn steel
plates on heavy duty 3-roller bending machine, World Academy of Science, Engineering and Technology 1(8)
2007 (abstract and nomenclature read): K' = (2/sqrt 3)^(n+1) K in plane strain. The moment of a power-law
plate, M = 2 K'/(n+2) (t/2)^(n+2) k^n per unit width, is from memory.
"""

from __future__ import annotations

from math import sqrt

import pytest

from quoting.forming.plate import moment, plate_law
from tests.published.forming_check import PublishedCheck

SOURCE = "Gajjar, Gandhi, Jafri & Raval 2007, power-law plate"
K, N, T, CURVATURE = 530.0, 0.26, 12.7, 1 / 400
PLATE = plate_law(T, 2000.0, 1e9, 0.3, 0.0, K, N)
"""Stiff and without a yield point: the elastic core is too thin to count."""

CHECKS = (
    PublishedCheck(
        "K' / K, n = 0.26",
        (2 / sqrt(3)) ** 1.26,
        lambda: float(PLATE.strength_mpa) / K,
        1e-12,
        worked_out=True,
    ),
    PublishedCheck(
        "moment, K = 530 MPa, n = 0.26, t = 12.7 mm, R = 400 mm",
        2 * (2 / sqrt(3)) ** (N + 1) * K / (N + 2) * (T / 2) ** (N + 2) * CURVATURE**N,
        lambda: float(moment(PLATE, CURVATURE)),
        1e-3,
        "N",
        from_memory=True,
        worked_out=True,
    ),
)


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.what)
def test_print(check: PublishedCheck) -> None:
    check.verify()
