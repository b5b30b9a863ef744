"""How far delivered plate may be from its nominal thickness by the standard that it is bought to."""

from __future__ import annotations

import re
import tomllib
from enum import StrEnum
from functools import cache
from importlib.resources import files
from typing import Any

MM_PER_INCH = 25.4
_EUROPEAN = re.compile(r"(S|P)\d{3}|1\.\d{4}")
_AMERICAN = re.compile(r"A\d{2,3}\b")
_SHEET_MM = 3.0


class PlateStandard(StrEnum):
    """The standards whose thickness tables are here."""

    A6 = "a6"
    EN_10029 = "en_10029"
    EN_10051 = "en_10051"


def plate_standard(grade: str, thickness_mm: float) -> PlateStandard | None:
    """Return the standard that plate of a grade is usually bought to; None where its table is not here.

    >>> plate_standard("A36", 6.35), plate_standard("S355J2", 12), plate_standard("304/304L", 6.35)
    (<PlateStandard.A6: 'a6'>, <PlateStandard.EN_10029: 'en_10029'>, None)
    """
    if _EUROPEAN.match(grade):
        return PlateStandard.EN_10029 if thickness_mm >= _SHEET_MM else PlateStandard.EN_10051
    return PlateStandard.A6 if _AMERICAN.match(grade) and thickness_mm >= _SHEET_MM else None


def thickness_tolerance(
    standard: PlateStandard, thickness_mm: float, width_mm: float
) -> tuple[float, float] | None:
    """Return how much under and over its nominal a plate may be, mm; None beyond the table's thickness.

    A thickness or width between two rows counts with the larger; a width beyond the table with its last.

    >>> [round(mm, 2) for mm in thickness_tolerance(PlateStandard.A6, 38.1, 2438)]
    [0.25, 1.52]
    """
    table = _tables()[standard.value]
    factor = MM_PER_INCH if table["unit"] == "in" else 1.0
    for row in table["rows"]:
        # A6 says "to under 1/4", so a plate of just that thickness is in the row after it.
        if thickness_mm < row[0] * factor - 1e-6 or (
            standard is PlateStandard.EN_10051 and thickness_mm <= row[0] + 1e-6
        ):
            return _of_row(row, table, width_mm, factor)
    return None


def _of_row(row: list[Any], table: dict[str, Any], width_mm: float, factor: float) -> tuple[float, float]:
    if len(row) == 3:
        return row[1], row[2]
    widths = table["widths"]
    column = next((k for k, width in enumerate(widths) if width_mm <= width * factor + 1e-6), len(widths) - 1)
    over = row[1][column] * factor
    return table.get("under", row[1][column]) * factor, over


@cache
def _tables() -> dict[str, Any]:
    return tomllib.loads(files(__package__).joinpath("plate_tolerances.toml").read_text("utf-8"))
