"""The weld gap of a line: from its column, its remarks, or a note for all lines."""

from __future__ import annotations

import re
from collections.abc import Iterable

from quoting.core import Choice
from quoting.intake import shapes
from quoting.intake.cells import read_size
from quoting.intake.layout import TableContext
from quoting.intake.row_record import Record
from quoting.intake.shop_view import ShopView, ask
from quoting.intake.size_column import SizeColumn
from quoting.intake.texts import gaps_in
from quoting.shop import Materials

WIDEST_MM = 12.7
"""A root opening above this is asked about (usual ones are 1/16 to 1/8 in; from memory, no source)."""
LAPPED = re.compile(r"\b(lap\w*|grooved?|hem\w*|lock)\b", re.I)


def read_gaps(record: Record, frame: TableContext, texts: Iterable[str]) -> None:
    """Take the gap that the row's own texts ask for, else the one the sheet asks for all lines."""
    texts = list(texts)
    for text in texts:
        for said in gaps_in(text):
            _read(record, frame, said.text)
    gaps = frame.said.gaps
    if not gaps or "weld_gap" in record.values or "weld_gap" in record.doubts:
        return
    if shapes.kind_of(record.values) not in ("", "cylinder", "cone"):
        return
    if any(LAPPED.search(text) for text in (*texts, record.values.get("seam", ""))):
        return
    for family, text in gaps.items():
        if not family or _may_be(record, family, frame.materials):
            _read(record, frame, text)
            _say(record, frame, family, text)
            return


def _read(record: Record, frame: TableContext, text: str) -> None:
    slot = SizeColumn("weld_gap", "", None, frame.unit.unit, frame.style)
    read_size(record, slot, 0 if text == "0" else text, record.place, frame.desk)


def _say(record: Record, frame: TableContext, family: str, text: str) -> None:
    """Say on the line where its gap comes from, and for which metal it holds while that is not known."""
    gap = shapes.length(record.values, "weld_gap")
    shown = text if gap is None else frame.desk.size(gap)
    on = f" on {family}" if family else ""
    if family and not record.values.get("material"):
        record.values["weld_gap_on"] = family
    record.assumptions.append(f"weld gap {shown}{on}, as the sheet says for all lines")


def _may_be(record: Record, family: str, materials: Materials) -> bool:
    """Return whether the line is, or while its grade is not known may be, of a family of metals.

    Galvanized sheet is steel, but nobody who says carbon means it (common practice, no source).
    """
    if record.values.get("gauge_metal") == "galvanized":
        return False
    key = record.values.get("material")
    return not key or gap_holds(family, key, materials)


def gap_holds(family: str, key: str, materials: Materials) -> bool:
    """Return whether a gap that is for a family of metals only holds for a material of the shop."""
    return str(materials.family(key)) == family and materials.gauge_table(key) != "galvanized"


def check_gap(record: Record, desk: ShopView) -> None:
    """Ask about a gap that is wider than a root opening is."""
    gap = shapes.length(record.values, "weld_gap")
    if gap is None or gap <= WIDEST_MM or record.values.get("weld_gap_ok"):
        return
    size = desk.size(gap)
    choices = (
        Choice(f"yes, leave {size} open", (("weld_gap_ok", "yes"),)),
        Choice("no, close it", (("weld_gap", "0"), ("weld_gap_ok", "yes"))),
    )
    ask(record, "weld_gap", f"A weld gap of {size} is wide; is it meant?", *choices)
