"""E. J. Hearn, Mechanics of Materials 2, chapter 3 "Strains beyond the elastic limit", as reprinted on
https://www.eurocode.us/structural-materials/info-mtf.html (read): a rolled joist gains 18 % by plastic
design "compared with the 50 % of the simple rectangular section".
"""

from __future__ import annotations

import pytest

from quoting.forming.plate import moment, plate_law
from quoting.forming.plate.bending import yield_curvature
from tests.published.forming_check import PublishedCheck
from tests.quoting.forming.radii import plastic_moment

SOURCE = "Hearn, Mechanics of Materials 2, ch. 3 (eurocode.us page)"
PLATE = plate_law(12.7, 2000.0, 200e3, 0.3, 250.0)

CHECKS = (
    PublishedCheck(
        "gain of a rectangle over first yield",
        50.0,
        lambda: 100 * float(plastic_moment(PLATE) / moment(PLATE, yield_curvature(PLATE)) - 1),
        1e-9,
        "%",
    ),
)


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.what)
def test_print(check: PublishedCheck) -> None:
    check.verify()
