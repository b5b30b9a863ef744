"""What every row of one table is read with."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from quoting.intake.desk import Desk
from quoting.intake.frame import Said, UnitFound
from quoting.intake.material import Materials
from quoting.intake.sheet import Sheet
from quoting.intake.table import Table
from quoting.parts import Basis
from quoting.units import NumberStyle


@dataclass(frozen=True, slots=True)
class Frame:
    """All that a row is read with: its table, the table's units and number style, the shop, the day."""

    sheet: Sheet
    table: Table
    unit: UnitFound
    style: NumberStyle
    said: Said
    desk: Desk
    today: date
    basis: Basis | None

    has_angles: bool = False

    @property
    def materials(self) -> Materials:
        """Return the shop's materials."""
        return self.desk.materials
