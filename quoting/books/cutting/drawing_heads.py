"""What stands over a plate's drawing for whoever cuts it: how it is cut, what it weighs, what to mind."""

from __future__ import annotations

from quoting.blanks import KG_PER_MM3
from quoting.books.cutting.cut_sheets import CutSheet
from quoting.core import format_length
from quoting.labour import two_person_limit, weight_words
from quoting.shop import Shop


def cutting_words(sheet: CutSheet, *, inch: bool) -> str:
    """Return what the layout allows for: kerf and distances, or the order of the strokes."""
    cuts, rule = sheet.cut.cuts, sheet.problem.cutting
    if rule.method == "shear":
        if not cuts:
            return "No stroke: the piece is the plate."
        trims = sum(stroke.stage == 0 for stroke in cuts)
        mill = f"; 1 to {trims} trim the mill edges" if trims else ""
        order = "One stroke" if len(cuts) == 1 else f"{len(cuts)} strokes in the order of their numbers"
        return f"{order}{mill}."

    def size(mm: float) -> str:
        return format_length(round(mm, 3), inch=inch)

    margin = rule.margin_mm(sheet.plate)
    edge = "of mill edge stays off (dashed)" if sheet.plate.edge == "mill" else "to the edge"
    lead = f", lead-in {size(rule.lead_in_mm)}" if rule.lead_in_mm else ""
    return (
        f"Finished sizes, the kerf of {size(rule.kerf_mm)} falls outside{lead}; "
        f"{size(rule.gap_mm)} between pieces, {size(margin)} {edge}."
    )


def handling_words(sheet: CutSheet, shop: Shop) -> str:
    """Return the weights of the plate and of its heaviest piece, how they are lifted, and what its edges are.

    The limits are those of the shop's lifting rules.
    """
    per_mm2 = sheet.group.thickness_mm * shop.material(sheet.group.material).density_kg_m3 * KG_PER_MM3
    outlines = [sheet.problem.piece(put.piece).outline for put in sheet.cut.placements]
    heaviest = max(outline.area_mm2 for outline in outlines) * per_mm2
    plate = _lifted(sheet.plate.area_mm2 * per_mm2, sheet.group.thickness_mm, shop)
    piece = _lifted(heaviest, sheet.group.thickness_mm, shop)
    edges = "sharp" if sheet.station == "shear" else "hot and sharp"
    return f"Plate {plate}; heaviest piece {piece}. Cut edges are {edges}: gloves."


def _lifted(kg: float, thickness_mm: float, shop: Shop) -> str:
    rules, weight = shop.lifting, weight_words(kg, shop.inch)
    thick = thickness_mm > rules.crane_over_thickness_mm and kg > rules.hand_limit_kg
    if thick or kg > two_person_limit(rules):
        return f"{weight}, crane"
    return f"{weight}, {'two people' if kg > rules.hand_limit_kg else 'by hand'}"
