"""How much a file may ask of this machine."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Limits:
    """Ceilings on one file; all are settings, none is a property of the trade.

    `file_bytes` is the size on disk, `unpacked_bytes` and `pack_ratio` guard against zip bombs, `parts` is
    the number of files in the zip, `elements` that of XML tags or records, `cells` those of a sheet from its
    first to its last used row and column, `all_cells` those of all sheets, `text` the characters of all
    cells, of a mail with what is attached to it too. `seconds` of processor time and `memory_bytes` are the
    operating system's to keep: whatever the file does to the reader, they end it.

    The time grows with the file (`seconds_for`): 10,000 rows x 20 columns are 1.8 MB and took 0.9 s where
    this was measured, so a machine nine times slower still reads them; 40 pages of PDF (73 kB) took 2.6 s. A
    file of up to 300 kB never takes more than five seconds.
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
    text: int = 12_000_000
    seconds: int = 15
    least_seconds: int = 4
    seconds_per_mb: float = 3.0
    memory_bytes: int = 512 << 20

    def seconds_for(self, file_bytes: int) -> int:
        """Return the seconds of processor time that a file of this size may take.

        >>> [Limits().seconds_for(size) for size in (0, 300_000, 1_800_000, 30_000_000)]
        [4, 4, 9, 15]
        """
        return min(self.seconds, int(self.least_seconds + self.seconds_per_mb * file_bytes / 1e6))
