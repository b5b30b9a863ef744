"""From which cold strain on the codes ask for heat treatment, against where the program asks to look.

A flag may come early, never late: it says "check the code", it decides nothing.

1. ASME VIII-1 UCS-79(d) as a fabricator's sheet prints it (https://www.scribd.com/document/163409310): over
   5 % with further conditions, over 40 % always, P-No. 1 steels; the sheet's worked head, t = 25.4 mm, Rf =
   488.7 mm from flat: 75 t/Rf = 3.898 %.
2. Table UHA-44 as an engineers' page quotes it (industrialmonitordirect.com): 304 and 316 types over 20 % at
   design temperatures of 580 to 675 C, over 10 % above, no limit below.
3. EN 13445-4 9.4, from memory: over 5 % for C and C-Mn steels, over 15 % for austenitic ones.
4. UNF-79 (nickel alloys): its table could not be read. From memory: over 20 % (N08810 and the like 15 %) in a
   middle range of design temperatures, over 10 % above it.
"""

from __future__ import annotations

from math import pi

import pytest

from quoting.core import Ends
from quoting.forming import RollTask
from quoting.forming.plate import cylinder_strain, strain_flags
from quoting.shop import Family
from quoting.shop.book import starter_text
from quoting.shop.book.read_book import read_book

SHOP = read_book(starter_text(), "shop.toml")
UCS_79, UHA_44_HOT, EN_AUSTENITIC = 5.0, 20.0, 15.0
UNF_79_HOT = 10.0
"""The least of its table, from memory."""


def task(key: str, thickness_mm: float, mean_radius_mm: float) -> RollTask:
    girth = 2 * pi * mean_radius_mm
    mean = 2 * mean_radius_mm
    return RollTask(thickness_mm, 500.0, mean, girth, 360.0, Ends.PRE_BEND, 50.0, SHOP.material(key))


def flagged(key: str, percent: float) -> bool:
    radius = 50 * 10.0 / percent
    strain = float(cylinder_strain(10.0, radius))
    assert strain == pytest.approx(percent)
    return any("heat treatment" in flag for flag in strain_flags(task(key, 10.0, radius), strain))


def test_the_printed_head_is_one_and_a_half_times_the_cylinder() -> None:
    assert 1.5 * float(cylinder_strain(25.4, 488.7)) == pytest.approx(3.898, abs=5e-4)


@pytest.mark.parametrize("key", ["A36", "A516-70", "S235JR", "S355J2", "P265GH"])
def test_carbon_steel_is_flagged_from_5_per_cent_on(key: str) -> None:
    assert not flagged(key, UCS_79 - 0.1)
    assert flagged(key, UCS_79 + 0.1)


@pytest.mark.parametrize("key", ["304/304L", "316/316L", "1.4301", "1.4404"])
def test_austenitic_steel_is_flagged_before_the_table_of_uha_44_for_hot_service(key: str) -> None:
    assert SHOP.material(key).family is Family.STAINLESS
    assert SHOP.material(key).strain_flag_percent <= min(UHA_44_HOT, EN_AUSTENITIC)
    assert flagged(key, UHA_44_HOT + 0.1)
    assert flagged(key, EN_AUSTENITIC + 0.1)


def test_over_40_per_cent_is_always_said() -> None:
    said = strain_flags(task("A36", 10.0, 12.0), float(cylinder_strain(10.0, 12.0)))
    assert any("over 40 %" in flag for flag in said)


@pytest.mark.parametrize("key", ["N06600", "N08800", "N04400", "N06625"])
def test_nickel_alloys_are_flagged_no_later_than_the_hottest_row_of_unf_79_as_remembered(key: str) -> None:
    assert SHOP.material(key).strain_flag_percent <= UNF_79_HOT
    assert not flagged(key, UNF_79_HOT - 0.1)
    assert flagged(key, UNF_79_HOT + 0.1)
