"""I. Gavrilescu, D. Boazu, F. Stan, Estimating of bending force and curvature of the bending plate in a
three-roller bending system using finite element simulation and analytical modeling, Materials 2021, 14(5)
1204, doi 10.3390/ma14051204 (abstract read): "the cross section of the plate is practically a plastic hinge
in the tangent area of the upper roller". No measured table was in the part that could be read.
"""

from __future__ import annotations

import pytest

from quoting.forming.plate import loaded_curvature, moment, plate_law
from tests.published.forming_check import PublishedCheck
from tests.quoting.forming.radii import plastic_moment

SOURCE = "Gavrilescu, Boazu & Stan 2021 (abstract): plastic hinge at the top roll"
PLATE = plate_law(6.35, 1524.0, 200e3, 0.3, 250.0)


def hinge() -> float:
    """Return the share of the fully plastic moment at the nip, 1/4 in plate to 24 in inside diameter."""
    return float(moment(PLATE, loaded_curvature(PLATE, 2 / (609.6 + 6.35))) / plastic_moment(PLATE))


CHECKS = (PublishedCheck("moment at the nip / fully plastic moment, about 1", 1.0, hinge, 0.03),)


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.what)
def test_print(check: PublishedCheck) -> None:
    check.verify()
