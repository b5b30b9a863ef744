"""S. Kalpakjian, S. R. Schmid, Manufacturing Engineering and Technology, chapter on sheet-metal forming,
example on springback (all values from memory): 20-gauge steel, t = 0.0359 in, Ri = 0.5 in, Y = 40 000 psi,
E = 29e6 psi, gives Ri/Rf = 0.942 (0.944 with E = 30e6 psi) and Rf = 0.53 in.
"""

from __future__ import annotations

import pytest

from quoting.forming.plate import PlateLaw, plate_law
from tests.published.forming_check import PublishedCheck
from tests.quoting.forming.radii import final_radius

SOURCE = "Kalpakjian & Schmid, springback example"


def strip(elastic_psi: float) -> PlateLaw:
    """Return the strip of the example in inches and psi: the formulas do not care for the system."""
    return plate_law(0.0359, 0.0359, elastic_psi, 0.3, 40_000.0)


CHECKS = (
    PublishedCheck(
        "Ri/Rf, E = 30e6 psi",
        0.944,
        lambda: 0.5 / float(final_radius(strip(30e6), 0.5)),
        5e-4,
        from_memory=True,
    ),
    PublishedCheck(
        "Rf, E = 30e6 psi", 0.53, lambda: float(final_radius(strip(30e6), 0.5)), 5e-3, "in", from_memory=True
    ),
    PublishedCheck(
        "Ri/Rf, E = 29e6 psi",
        0.942,
        lambda: 0.5 / float(final_radius(strip(29e6), 0.5)),
        5e-4,
        from_memory=True,
    ),
)


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.what)
def test_print(check: PublishedCheck) -> None:
    check.verify()
