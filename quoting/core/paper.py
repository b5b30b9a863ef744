"""The papers a shop may print on; another size is another line here and nothing else."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Paper(StrEnum):
    """A paper by the name that `shop.toml` calls it."""

    LETTER = "letter"
    A4 = "a4"


@dataclass(frozen=True, slots=True)
class PaperSize:
    """Sides in mm, upright, and the number that workbooks keep for it (ECMA-376 part 1, 18.3.1.63)."""

    width_mm: float
    height_mm: float
    workbook_code: int


PAPERS: dict[str, PaperSize] = {
    Paper.LETTER: PaperSize(215.9, 279.4, 1),
    Paper.A4: PaperSize(210.0, 297.0, 9),
}
