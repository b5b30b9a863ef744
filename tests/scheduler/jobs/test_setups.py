"""Set-ups as a scheduler would check them by hand."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.shop import Family, SetupMinutes
from scheduler.jobs.setups import RollState, setup_between

MINUTES = SetupMinutes(
    same=3, gap_fixed=8, gap_per_mm=0.5, bending_roll=5, cone_tilt=25, cleaning=30, crane_rig=10, first_off=6
)
CARBON_6 = RollState(6.0, Family.CARBON, 600.0, part="a")
CARBON_10 = RollState(10.0, Family.CARBON, 600.0, part="b")
STAINLESS_6 = RollState(6.0, Family.STAINLESS, 600.0, part="c")


def test_the_same_part_again_takes_the_least_set_up() -> None:
    again = setup_between(CARBON_6, CARBON_6, MINUTES)
    assert again.minutes == 3
    assert again.why == "same part"


def test_gap_change_has_a_fixed_part_and_grows_with_the_change() -> None:
    changed = setup_between(CARBON_6, CARBON_10, MINUTES)
    assert changed.minutes == 8 + 0.5 * 4 + 6
    assert changed.why == "gap 6.0 -> 10.0 mm, both ends; first-off"


def test_stainless_after_carbon_is_cleaned_for_and_carbon_after_stainless_is_not() -> None:
    clean = setup_between(CARBON_6, STAINLESS_6, MINUTES)
    back = setup_between(STAINLESS_6, CARBON_6, MINUTES)
    assert clean.minutes - back.minutes == MINUTES.cleaning
    assert "clean rolls, stainless after carbon" in clean.why
    assert "clean" not in back.why


def test_stainless_on_rolls_of_unknown_history_is_cleaned_for() -> None:
    setup = setup_between(RollState(), STAINLESS_6, MINUTES)
    assert "clean rolls, stainless after unknown plate" in setup.why


@pytest.mark.parametrize(
    ("before", "after", "word"), [(False, True, "tilt and shoe"), (True, False, "back from cone")]
)
def test_cone_and_cylinder_after_each_other_need_the_tilt(before: bool, after: bool, word: str) -> None:
    setup = setup_between(RollState(6.0, cone=before), RollState(6.0, cone=after, part="x"), MINUTES)
    assert word in setup.why


def test_rigging_the_crane_costs_only_on_the_way_in() -> None:
    rigged = RollState(6.0, Family.CARBON, 600.0, crane=True, part="d")
    assert "rig crane" in setup_between(CARBON_6, rigged, MINUTES).why
    assert "crane" not in setup_between(rigged, CARBON_6, MINUTES).why


states = st.builds(
    RollState,
    thickness_mm=st.one_of(st.none(), st.floats(1, 50)),
    family=st.sampled_from([None, *Family]),
    diameter_mm=st.one_of(st.none(), st.floats(200, 3000)),
    cone=st.booleans(),
    crane=st.booleans(),
    part=st.sampled_from([None, "a", "b"]),
)


@given(states, states)
def test_minutes_are_the_reasons_added_up(before: RollState, after: RollState) -> None:
    setup = setup_between(before, after, MINUTES)
    assert setup.minutes == round(sum(minutes for _, minutes in setup.parts))
    assert setup.minutes >= 0
    assert all(reason for reason, _ in setup.parts)
