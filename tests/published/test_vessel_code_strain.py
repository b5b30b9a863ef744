"""ASME BPVC VIII-1 UCS-79(d), formulas from memory; a thread on
https://www.eng-tips.com/viewthread.cfm?qid=295506 (read) says that flat plate has Ro infinite, so Rf/Ro =
0, and that Rf is on the mid-thickness: for a 60 in inside diameter head of 0.625 in plate Rf = 60 x 0.17 +
0.625/2 = 10.5125 in. EN 13445-4 has the same expression for cylinders (from memory).

5 % from flat plate is a mean diameter of 20 t: arithmetic from the formula.
UG-80: 1 % of the nominal diameter (quoted in public fabrication notes).
"""

from __future__ import annotations

import pytest

from quoting.forming.plate import cylinder_strain
from quoting.forming.plate.strain import out_of_roundness_mm
from tests.published.forming_check import PublishedCheck

SOURCE = "ASME VIII-1 UCS-79(d), UG-80"

CHECKS = (
    PublishedCheck(
        "cylinder, mean diameter 20 t",
        5.0,
        lambda: float(cylinder_strain(25.0, 250.0)),
        1e-12,
        "%",
        from_memory=True,
        worked_out=True,
    ),
    PublishedCheck(
        "cylinder as tight as that knuckle, 50 x 0.625 / 10.5125",
        50 * 0.625 / 10.5125,
        lambda: float(cylinder_strain(0.625, 60 * 0.17 + 0.625 / 2)),
        1e-12,
        "%",
        from_memory=True,
        worked_out=True,
    ),
    PublishedCheck(
        "Dmax - Dmin of a 60 in shell",
        0.6,
        lambda: out_of_roundness_mm(60.0, 0.5),
        1e-12,
        "in",
        worked_out=True,
    ),
)


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.what)
def test_print(check: PublishedCheck) -> None:
    check.verify()


def test_re_rolling_a_shell_strains_it_by_the_change_of_curvature_only() -> None:
    from_flat, tighter = float(cylinder_strain(10, 400)), float(cylinder_strain(10, 400, 500))
    assert tighter == pytest.approx(from_flat - float(cylinder_strain(10, 500)))
