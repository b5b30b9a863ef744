"""Over a plate's drawing stands how it is cut, what it weighs and how it is lifted."""

from __future__ import annotations

from pathlib import Path

import pytest

from quoting.books.cutting import CutSheet, cut_sheets
from quoting.books.cutting.drawing_heads import cutting_words, handling_words
from quoting.estimating import Estimate, estimate
from quoting.labour import weight_words
from tests.quoting.books.test_waiting import TODAY
from tests.quoting.lines import order, shell
from tests.quoting.shop.shop_folder import shop_with

RACK = (
    "P-1,A36,0.25,60,120,mill,1,0.60,lb,H1,no\n"
    "P-2,A36,0.5,60,120,mill,1,0.60,lb,H2,no\n"
    "P-3,A36,0.0598,48,96,trimmed,1,0.60,lb,H3,no\n"
)


def sheet_of(folder: Path, thickness_mm: float) -> tuple[Estimate, CutSheet]:
    shop = shop_with(folder, rack=RACK)
    line = shell(quantity=1, thickness_mm=thickness_mm)
    found = estimate((order(line),), shop, today=TODAY, effort="quick")
    (sheet,) = cut_sheets(found)
    return found, sheet


def test_a_sheared_plate_counts_its_strokes_and_names_those_that_trim(tmp_path: Path) -> None:
    _, sheet = sheet_of(tmp_path, 6.35)
    count = len(sheet.cut.cuts)
    assert cutting_words(sheet, inch=True) == (
        f"{count} strokes in the order of their numbers; 1 to 4 trim the mill edges."
    )


def test_a_plate_cut_by_heat_says_what_is_allowed_for(tmp_path: Path) -> None:
    _, sheet = sheet_of(tmp_path, 12.7)
    assert cutting_words(sheet, inch=True) == (
        'Finished sizes, the kerf of 0.08" falls outside; 0.58" between pieces, '
        '1/2" of mill edge stays off (dashed).'
    )


@pytest.mark.parametrize(("thickness_mm", "edges"), [(6.35, "sharp"), (12.7, "hot and sharp")])
def test_the_weights_are_those_of_the_metal(tmp_path: Path, thickness_mm: float, edges: str) -> None:
    found, sheet = sheet_of(tmp_path, thickness_mm)
    density = found.shop.material("A36").density_kg_m3
    plate = 60 * 25.4 * 120 * 25.4 * thickness_mm * density / 1e9
    words = handling_words(sheet, found.shop)
    assert words.startswith(f"Plate {weight_words(plate, found.shop.inch)}, crane; heaviest piece ")
    assert words.endswith(f"Cut edges are {edges}: gloves.")
