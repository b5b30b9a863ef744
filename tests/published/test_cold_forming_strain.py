"""Cold-forming strain of cylinders and heads against printed values.

ASME VIII-1 Table UG-79-1, 50 t / Rf (1 - Rf / Ro) for cylinders and 75 t / Rf for heads, as open calculation
sheets print it; a fabricator's UCS-79 sheet (scribd 163409310) has t 25.4, Rf 488.7 mm from flat: 3.898 %.
The steps of a re-rolled shell count only the change. Inside radii in thicknesses: arithmetic of the same
formula, 100 / (2 n + 1).
"""

from __future__ import annotations

import pytest

from quoting.forming.plate import cylinder_strain


def test_the_head_of_the_fabricators_sheet_is_half_as_much_again_as_its_cylinder() -> None:
    assert 75 / 50 * float(cylinder_strain(25.4, 488.7)) == pytest.approx(3.898, abs=0.0005)


@pytest.mark.parametrize(("thickness", "mean_diameter"), [(0.25, 5), (0.5, 10), (1.0, 20), (2.0, 40)])
def test_five_per_cent_at_twenty_thicknesses(thickness: float, mean_diameter: float) -> None:
    assert float(cylinder_strain(thickness, mean_diameter / 2)) == pytest.approx(5.0)


@pytest.mark.parametrize(
    ("inside_radius_t", "percent"), [(1.5, 25.0), (2, 20.0), (3, 14.3), (4, 11.1), (5, 9.1), (10, 4.8)]
)
def test_inside_radius_in_thicknesses(inside_radius_t: float, percent: float) -> None:
    assert float(cylinder_strain(1.0, inside_radius_t + 0.5)) == pytest.approx(percent, abs=0.05)


def test_a_shell_rolled_again_counts_only_the_change() -> None:
    assert float(cylinder_strain(0.5, 10.0, 20.0)) == pytest.approx(1.25)
