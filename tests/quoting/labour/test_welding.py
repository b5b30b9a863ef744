"""Weld minutes: more metal, more minutes; the joint follows the edges."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.core import EdgeKind, EdgePlace, EdgePrep, Penetration, WeldAsked
from quoting.labour.weld_metal import Groove, GrooveKind
from quoting.labour.welding import gouge_mm2, joint_for, own_joint, seam_weld
from quoting.shop import WeldRules

RULES = WeldRules()
FULL = WeldAsked(Penetration.FULL)


def test_the_shops_own_joint_grows_with_the_plate() -> None:
    assert [own_joint(t, RULES) for t in (3, 10, 25)] == [
        GrooveKind.SQUARE,
        GrooveKind.SINGLE_V,
        GrooveKind.DOUBLE_V,
    ]


def test_minutes_are_metal_over_deposition_and_arc_time() -> None:
    """0.888 kg a metre (12 mm single V of 60 degrees) at 2.4 kg/h and 30 % arc time: 74 min a metre."""
    rules = replace(
        RULES, deposition_kg_hour=2.4, operating_factor=0.3, face_mm=2, cap_mm=2, fit_up_minutes_per_m=5
    )
    weld = seam_weld(FULL, None, 12, 3, 7850, rules)
    assert weld.kg_per_m == pytest.approx(0.888, abs=0.001)
    assert weld.minutes_per_m == pytest.approx(5 + 74, abs=0.1)


def test_a_gouge_is_filled_again_and_takes_its_minutes() -> None:
    plain = seam_weld(FULL, None, 12, 3, 7850, RULES)
    gouged = seam_weld(replace(FULL, back_gouge=True), None, 12, 3, 7850, RULES)
    assert gouged.kg_per_m - plain.kg_per_m == pytest.approx(gouge_mm2(RULES) * 7850e-6)
    assert gouged.minutes_per_m > plain.minutes_per_m + RULES.gouge_minutes_per_m


@given(
    st.sampled_from(EdgeKind),
    st.sampled_from([1, 2]),
    st.floats(0, 60),
    st.floats(0, 500),
    st.floats(1, 100),
    st.floats(0, 6),
    st.floats(0.1, 1),
)
def test_every_preparation_makes_a_groove_with_metal_in_it(
    kind: EdgeKind, edges: int, angle: float, land: float, thickness: float, gap: float, share: float
) -> None:
    prep = EdgePrep(kind, EdgePlace.SEAM, edges, angle, land)
    joint = joint_for(prep, thickness, gap, share, RULES)
    assert joint.area_mm2 >= gap * thickness * share
    assert joint.cap_width_mm >= gap


@given(st.floats(2, 60), st.floats(0, 45), st.floats(0, 5))
def test_a_double_v_needs_less_than_a_single_one(thickness: float, angle: float, gap: float) -> None:
    single = Groove(GrooveKind.SINGLE_V, thickness, gap, 0, angle)
    double = Groove(GrooveKind.DOUBLE_V, thickness, gap, 0, angle)
    assert double.area_mm2 <= single.area_mm2 + 1e-9
