"""The typical set-up a job is costed with."""

from __future__ import annotations

import pytest

from quoting.core import RangeError
from quoting.labour import typical_setup
from quoting.shop import Family
from tests.quoting.labour.shop_settings import SETUPS


def test_a_plain_shell_pays_for_gap_bending_roll_and_first_off() -> None:
    setup = typical_setup(SETUPS, 12.0)
    assert setup.minutes == 6 + 0.5 * 6 + 4 + 5
    assert setup.why == "pinch gap, both ends, 6.0 mm 9.0 + bending roll 4.0 + first-off 5.0 min"


def test_cone_crane_and_stainless_each_add_their_own_part() -> None:
    plain = typical_setup(SETUPS, 12.0).minutes
    assert typical_setup(SETUPS, 12.0, cone=True).minutes == plain + 20
    assert typical_setup(SETUPS, 12.0, crane=True).minutes == plain + 10
    assert typical_setup(SETUPS, 12.0, family=Family.STAINLESS).minutes == plain + 25
    assert typical_setup(SETUPS, 12.0, family=Family.ALUMINIUM).minutes == plain + 25


def test_a_known_change_replaces_the_estimate() -> None:
    assert typical_setup(SETUPS, 12.0, thickness_change_mm=0).minutes == 6 + 4 + 5


def test_parts_add_up() -> None:
    setup = typical_setup(SETUPS, 9.5, cone=True, crane=True, family=Family.STAINLESS)
    assert setup.minutes == pytest.approx(sum(minutes for _, minutes in setup.parts))


def test_impossible_thickness_is_refused() -> None:
    with pytest.raises(RangeError, match="thickness = 0"):
        typical_setup(SETUPS, 0)
    with pytest.raises(RangeError, match="thickness change = -1"):
        typical_setup(SETUPS, 5, thickness_change_mm=-1)
