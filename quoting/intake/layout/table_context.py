"""What every row of one table is read with."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from quoting.core import Basis, NumberStyle
from quoting.intake.layout.find_tables import OrderTable
from quoting.intake.layout.sheet_rules import SheetRules, UnitFound
from quoting.intake.shop_view import ShopView
from quoting.intake.words import Translation
from quoting.shop import Materials
from quoting.tables import Sheet


@dataclass(frozen=True, slots=True)
class TableContext:
    """All that a row is read with: its table, the table's units and number style, the shop, the day.

    `foreign` tells that the sheet was read from another language, `both_ends` that rows with both ends of a
    cone stand in a table of diameters, `of_cones` that a title says its parts are cones and no column says
    what each is. `fields` are what its columns hold, `marks` the names of its parts that are a letter and a
    number.
    """

    sheet: Sheet
    table: OrderTable
    unit: UnitFound
    style: NumberStyle
    said: SheetRules
    desk: ShopView
    today: date
    basis: Basis | None

    has_angles: bool = False
    day_first: bool = False
    foreign: bool = False
    both_ends: bool = False
    of_cones: bool = False
    fields: frozenset[str] = frozenset()
    marks: frozenset[str] = frozenset()
    translation: Translation | None = None

    @property
    def materials(self) -> Materials:
        """Return the shop's materials."""
        return self.desk.materials
