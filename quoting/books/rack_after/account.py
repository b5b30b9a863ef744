"""Where the metal goes: the rack before and what is bought, against blanks, scrap and the rack after."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from quoting.blanks import KG_PER_MM3
from quoting.books.cutting import CutSheet, Remnant
from quoting.estimating import Estimate


@dataclass(frozen=True, slots=True)
class Metal:
    """An amount of plate: its area in mm2 and its weight in kg."""

    area_mm2: float = 0.0
    kg: float = 0.0

    def __add__(self, other: Metal) -> Metal:
        return Metal(self.area_mm2 + other.area_mm2, self.kg + other.kg)

    def __sub__(self, other: Metal) -> Metal:
        return Metal(self.area_mm2 - other.area_mm2, self.kg - other.kg)


@dataclass(frozen=True, slots=True)
class Account:
    """The metal of a run: `before` + `bought` = `after` + `blanks` + `scrap`.

    `before` and `after` are the rack, of rows that can be read; `remnants` are part of `after`. Scrap is what
    is neither blank nor kept: kerf, edges, small drops and what sizes are rounded down by.
    """

    before: Metal
    bought: Metal
    blanks: Metal
    remnants: Metal
    scrap: Metal
    after: Metal


def account_of(estimate: Estimate, sheets: Sequence[CutSheet], kept: Sequence[Remnant]) -> Account:
    """Return the account of a run on the shop's rack."""
    shop = estimate.shop
    before = taken = bought = blanks = remnants = Metal()
    for plate in shop.stock:
        if not plate.buyable:
            area = plate.width_mm * plate.length_mm * (plate.count or 0)
            before += _metal(estimate, plate.material, plate.thickness_mm, area)
    for sheet in sheets:
        kind, thickness, plates = sheet.group.material, sheet.group.thickness_mm, len(sheet.cuts)
        whole = _metal(estimate, kind, thickness, sheet.plate.area_mm2 * plates)
        if sheet.plate.count is None:
            bought += whole
        else:
            taken += whole
        cut = sum(sheet.problem.piece(put.piece).outline.area_mm2 for put in sheet.cut.placements)
        blanks += _metal(estimate, kind, thickness, cut * plates)
    for remnant in kept:
        group = remnant.sheet.group
        area = remnant.across_mm * remnant.along_mm
        remnants += _metal(estimate, group.material, group.thickness_mm, area)
    scrap = taken + bought - blanks - remnants
    return Account(before, bought, blanks, remnants, scrap, before - taken + remnants)


def _metal(estimate: Estimate, material: str, thickness_mm: float, area_mm2: float) -> Metal:
    density = estimate.shop.material(material).density_kg_m3
    return Metal(area_mm2, area_mm2 * thickness_mm * density * KG_PER_MM3)
