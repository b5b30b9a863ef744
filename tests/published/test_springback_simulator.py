"""Springback simulator page, https://novasolver.jp/en/tools/spring-back.html (formula, default values and
caution read).

Ki = Ri/Rf = 4 x^3 - 3 x + 1 with x = Ri Y / (E t); defaults Y = 300 MPa, E = 210 GPa, Ri = 50 mm, t = 2 mm.
The page works with Y and E as they stand (no plane-strain factors), so a narrow strip is taken here.
"""

from __future__ import annotations

import pytest

from quoting.forming.plate import plate_law
from tests.published.forming_check import PublishedCheck
from tests.quoting.forming.radii import final_radius

SOURCE = "Springback simulator page (novasolver.jp), formula and defaults"
STRIP = plate_law(2.0, 2.0, 210e3, 0.3, 300.0)

CHECKS = (
    PublishedCheck("Ri/Rf of the defaults", 0.8930, lambda: 50 / float(final_radius(STRIP, 50.0)), 5e-5),
    PublishedCheck("Rf of the defaults", 55.99, lambda: float(final_radius(STRIP, 50.0)), 5e-3, "mm"),
)


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.what)
def test_print(check: PublishedCheck) -> None:
    check.verify()


@pytest.mark.parametrize("x", [0.01, 0.1, 0.25, 0.45])
def test_the_cubic_of_the_page(x: float) -> None:
    loaded = x * 210e3 * 2.0 / 300.0
    assert loaded / float(final_radius(STRIP, loaded)) == pytest.approx(4 * x**3 - 3 * x + 1, abs=1e-12)
