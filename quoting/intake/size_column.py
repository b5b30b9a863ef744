"""A size column as its cells are read: field, unit, side of the plate."""

from __future__ import annotations

from dataclasses import dataclass

from quoting.core import Basis, NumberStyle

MM = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, "ft": 304.8}
UNIT_NAMES = {"mm": "millimetres", "cm": "centimetres", "m": "metres", "in": "inches", "ft": "feet"}
NOTHING = frozenset(("-", "--", "---", "n/a", "na", "none", "nil", "/", ".", "n.a.", "—", "–"))
NAMES = {
    "large": "large-end diameter", "small": "small-end diameter", "top": "top diameter",
    "bottom": "bottom diameter", "arc_length": "arc length", "girth": "developed length",
    "weld_gap": "weld gap",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class SizeColumn:
    """A size column: its field, the unit its header names (or nothing), its basis, the table's bare unit.

    `general` tells that the basis is what a note says of all lines: a cell that says another one holds.
    `strict` tells that a cell that says another one is asked about: a note says the side of all lines and
    excepts none, or no other cell stands under the heading as it says. `feet` that 7-6 is seven feet six.
    """

    field: str
    header_unit: str
    basis: Basis | None
    bare_unit: str
    style: NumberStyle
    header: str = ""
    general: bool = False
    strict: bool = True
    feet: bool = False

    @property
    def name(self) -> str:
        """Return the field's name for texts."""
        return NAMES.get(self.field, self.field)
