"""What the reader of a line needs of the shop, and how it asks."""

from __future__ import annotations

from dataclasses import dataclass

from quoting.core import Choice, RangeError, format_length, gauge_to_mm
from quoting.intake import shapes
from quoting.intake.row_record import Doubt, Record
from quoting.shop import Materials


@dataclass(frozen=True, slots=True)
class ShopView:
    """What the reader needs of the shop: its materials, and inches or millimetres to write in."""

    materials: Materials
    inch: bool

    def size(self, mm: float) -> str:
        """Return a length for a question's text."""
        return format_length(mm, inch=self.inch)


def thickness_of(values: dict[str, str], materials: Materials) -> float | None:
    """Return the thickness in mm; None while it, its unit or the metal of a gauge is not known."""
    gauge = values.get("gauge")
    if not gauge:
        return shapes.length(values, "thickness")
    table = values.get("gauge_metal") or (
        materials.gauge_table(values["material"]) if values.get("material") else ""
    )
    try:
        return gauge_to_mm(int(gauge), table) if table else None
    except RangeError:
        return None


def is_open(record: Record, name: str) -> bool:
    """Return whether a field is neither known nor asked about."""
    return not record.values.get(name) and name not in record.doubts


def ask(
    record: Record,
    name: str,
    text: str,
    *choices: Choice,
    near: tuple[str, ...] = (),
    for_shop: bool = False,
    for_many: str = "",
) -> None:
    """Ask about a field, at the cell of the first of `near` that was read."""
    place, read = record.where(*(near or (name,)))
    record.doubt(Doubt(name, place, read, text, choices, for_shop=for_shop, for_many=for_many))
