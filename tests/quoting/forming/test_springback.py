from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.core import RangeError
from quoting.forming.plate import PlateLaw, final_curvature, loaded_curvature, plate_law
from quoting.forming.plate.bending import yield_curvature
from tests.quoting.forming.radii import final_radius, loaded_radius
from tests.quoting.forming.references import fibre_history, fibre_springback

METALS = st.sampled_from([(200e3, 0.3, 0.0, 0.0), (193e3, 0.29, 1275.0, 0.45), (70e3, 0.33, 180.0, 0.2)])


@st.composite
def laws(draw: st.DrawFn) -> PlateLaw:
    elastic, poisson, strength, n = draw(METALS)
    return plate_law(
        draw(st.floats(1, 60)),
        draw(st.floats(10, 3000)),
        elastic,
        poisson,
        draw(st.floats(100, 700)),
        strength,
        n,
    )


@given(laws(), st.floats(5, 2000))
def test_springback_opens_and_never_closes(law: PlateLaw, radius_t: float) -> None:
    loaded = radius_t * float(law.thickness_mm)
    assert float(final_radius(law, loaded)) >= loaded


@given(laws(), st.floats(1, 1000))
def test_loaded_and_final_radius_invert_each_other(law: PlateLaw, radius_t: float) -> None:
    final = radius_t * float(law.thickness_mm)
    assert float(final_radius(law, loaded_radius(law, final))) == pytest.approx(final, rel=1e-9)


@given(laws(), st.floats(1.001, 200))
def test_final_and_loaded_curvature_invert_each_other(law: PlateLaw, multiple: float) -> None:
    loaded = multiple * float(yield_curvature(law))
    assert float(loaded_curvature(law, final_curvature(law, loaded))) == pytest.approx(loaded, rel=1e-9)


@given(laws(), st.floats(10, 500), st.floats(1.01, 2.0))
def test_stronger_plate_springs_back_further(law: PlateLaw, radius_t: float, stronger: float) -> None:
    other = PlateLaw(
        law.thickness_mm, law.elastic_mpa, law.yield_mpa * stronger, law.strength_mpa, law.hardening
    )
    loaded = radius_t * float(law.thickness_mm)
    assert (
        float(final_curvature(other, 1 / loaded))
        <= float(final_curvature(law, 1 / loaded)) * (1 + 1e-12) + 1e-15
    )


@pytest.mark.parametrize("multiple", [1.5, 4.0, 20.0])
def test_cut_fibres_spring_back_the_same(multiple: float) -> None:
    law = plate_law(6.35, 1000, 200e3, 0.3, 250)
    loaded = multiple * float(yield_curvature(law))
    cut = fibre_springback(loaded, 6.35, float(law.elastic_mpa), float(law.yield_mpa))
    assert float(final_curvature(law, loaded)) == pytest.approx(cut, rel=1e-5)


def test_an_elastic_bend_springs_back_flat() -> None:
    law = plate_law(6.35, 1000, 200e3, 0.3, 250)
    assert float(final_curvature(law, 0.99 * yield_curvature(law))) == pytest.approx(0, abs=1e-18)
    assert float(loaded_curvature(law, 0.0)) == pytest.approx(float(yield_curvature(law)), rel=1e-6)


def test_the_bigger_the_diameter_the_more_a_quarter_inch_plate_is_over_rolled() -> None:
    """Worked out from the cubic, 250 MPa, plane strain: 24 in needs 20.1 in, 48 in needs 34.8 in."""
    law = plate_law(6.35, 1524, 200e3, 0.3, 250)
    inside = np.array([24.0, 48.0]) * 25.4
    loaded = 2 * loaded_radius(law, (inside + 6.35) / 2) - 6.35
    assert loaded / 25.4 == pytest.approx([20.1, 34.8], abs=0.05)


def test_a_negative_curvature_is_refused() -> None:
    law = plate_law(6.0, 1000, 200e3, 0.3, 250)
    with pytest.raises(RangeError, match="final curvature = -1"):
        loaded_curvature(law, -1.0)


@pytest.mark.parametrize("steps", [[1.0], [0.4, 1.0], [0.3, 0.55, 0.8, 1.0]])
def test_passes_on_the_way_down_do_not_change_what_the_last_one_leaves(steps: list[float]) -> None:
    """Fibres that remember their plastic strain: the largest loaded curvature alone decides the final one."""
    law = plate_law(6.35, 1524, 200e3, 0.3, 250)
    last = 9 * float(yield_curvature(law))
    history = fibre_history(
        [last * step for step in steps], 6.35, float(law.elastic_mpa), float(law.yield_mpa)
    )
    assert float(final_curvature(law, last)) == pytest.approx(history, rel=1e-5)


def test_re_rolling_at_the_same_position_changes_nothing() -> None:
    law = plate_law(6.35, 1524, 200e3, 0.3, 250)
    last = 9 * float(yield_curvature(law))
    history = fibre_history([last, last, last], 6.35, float(law.elastic_mpa), float(law.yield_mpa))
    assert float(final_curvature(law, last)) == pytest.approx(history, rel=1e-5)
