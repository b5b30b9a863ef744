"""How much a customer's file may ask of this machine."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Limits:
    """Ceilings on an order file; all are settings, none is a property of the trade.

    `file_bytes` is the size on disk, `unpacked_bytes` and `pack_ratio` guard against zip bombs, `parts` is
    the number of files in the zip, `cells` those of a sheet from its first to its last used row and column.
    """

    file_bytes: int = 30_000_000
    unpacked_bytes: int = 200_000_000
    pack_ratio: int = 200
    parts: int = 2_000
    cells: int = 400_000
    rows: int = 20_000
    sheets: int = 100
