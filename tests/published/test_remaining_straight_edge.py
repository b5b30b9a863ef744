"""G. Yu, J. Zhao, C. Xu, Development of a symmetrical four-roller bending process, Int. J. Adv. Manuf.
Technol. 104 (2019) 4049-4061, doi 10.1007/s00170-019-04104-3 (abstract read): remaining straight edge in
simulation "only 1.5 times the thickness". Three-roll shops say 1.5 to 2 t after pre-bend: common practice,
no source.

The flat is a shop setting here, because it follows from how the plate stands in the pinch. What can be
checked is what it takes: an edge lies in the pinch over the couple arm e, and e fixes the gap that the
rolls must have over the thickness, e^2 / (2 (R_top + R_pinch + t)). A flat of 1.5 to 2 t must come out of a
gap that rolls have by their spring.
"""

from __future__ import annotations

from math import cos, radians

import pytest

from quoting.forming.machine import Nip, couple_arm
from quoting.forming.plate import loaded_curvature, plate_law

SOURCE = "Yu, Zhao & Xu 2019 (abstract): straight edge of 1.5 t"
NIP = Nip(76.2, 76.2, 69.85, 160.0, radians(30))
PLATE = plate_law(6.35, 1524.0, 200e3, 0.3, 250.0)


@pytest.mark.parametrize(("flat_t", "least", "most"), [(1.5, 0.02, 0.06), (2.0, 0.04, 0.10)])
def test_the_flat_needs_a_gap_of_a_few_per_cent_of_the_plate(
    flat_t: float, least: float, most: float
) -> None:
    loaded = loaded_curvature(PLATE, 2 / (609.6 + 6.35))
    arm = couple_arm(PLATE, loaded, flat_t * 6.35)
    centres = NIP.top_radius_mm + NIP.pinch_radius_mm + 6.35
    gap = centres * (1 / cos(float(arm) / centres) - 1)  # tilted by e / centres
    assert least < gap / 6.35 < most


def test_the_template_misses_a_little_less_than_the_couple_arm() -> None:
    loaded = loaded_curvature(PLATE, 2 / (609.6 + 6.35))
    assert 1.0 < float(couple_arm(PLATE, loaded, 12.7)) / 12.7 < 1.1
