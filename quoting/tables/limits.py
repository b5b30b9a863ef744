"""How much a file may ask of this machine."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Limits:
    """Ceilings on one file; all are settings, none is a property of the trade.

    `file_bytes` is the size on disk, `unpacked_bytes` and `pack_ratio` guard against zip bombs, `parts` is
    the number of files in the zip, `elements` that of XML tags or records, `cells` those of a sheet from its
    first to its last used row and column, `all_cells` those of all sheets, `text` the characters of all
    cells. `seconds` of processor time and `memory_bytes` are the operating system's to keep: whatever the
    file does to the reader, they end it.
    """

    file_bytes: int = 30_000_000
    unpacked_bytes: int = 120_000_000
    pack_ratio: int = 200
    parts: int = 2_000
    elements: int = 4_000_000
    cells: int = 400_000
    all_cells: int = 800_000
    rows: int = 20_000
    sheets: int = 100
    text: int = 30_000_000
    seconds: int = 15
    memory_bytes: int = 512 << 20
