"""F. P. Beer, E. R. Johnston, J. T. DeWolf, Mechanics of Materials, chapter 4, the two examples on a
rectangular elastoplastic beam (all values from memory): 50 x 120 mm, E = 200 GPa, yield 240 MPa, bent by M
= 36.8 kN m. First yield at 28.8 kN m, elastic core 80 mm thick, radius 33.3 m, and 225 m after the moment
is removed.
"""

from __future__ import annotations

import pytest
from scipy.optimize import brentq

from quoting.forming.plate import moment, plate_law
from quoting.forming.plate.bending import yield_curvature
from tests.published.forming_check import PublishedCheck
from tests.quoting.forming.radii import final_radius, plastic_moment

SOURCE = "Beer & Johnston, Mechanics of Materials, elastoplastic beam examples"
BEAM = plate_law(120.0, 50.0, 200e3, 0.3, 240.0)
WIDTH = 50.0


def loaded_radius_m() -> float:
    """Return the radius in m at which the section carries 36.8 kN m."""
    first = float(yield_curvature(BEAM))
    return 1e-3 / float(brentq(lambda k: WIDTH * float(moment(BEAM, k)) - 36.8e6, first, 20 * first))


CHECKS = (
    PublishedCheck(
        "moment at first yield",
        28.8,
        lambda: WIDTH * float(moment(BEAM, yield_curvature(BEAM))) / 1e6,
        5e-2,
        "kN m",
        from_memory=True,
    ),
    PublishedCheck(
        "fully plastic moment / first yield",
        1.5,
        lambda: float(plastic_moment(BEAM) / moment(BEAM, yield_curvature(BEAM))),
        1e-12,
    ),
    PublishedCheck("radius under load", 33.3, loaded_radius_m, 5e-2, "m", from_memory=True),
    PublishedCheck(
        "half of the elastic core",
        40.0,
        lambda: loaded_radius_m() * 1e3 * 240 / 200e3,
        5e-2,
        "mm",
        from_memory=True,
    ),
    PublishedCheck(
        "radius after unloading",
        225.0,
        lambda: float(final_radius(BEAM, loaded_radius_m() * 1e3)) / 1e3,
        0.5,
        "m",
        from_memory=True,
    ),
)


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.what)
def test_print(check: PublishedCheck) -> None:
    check.verify()
