"""Writes a long invented order sheet for measuring speed."""

from __future__ import annotations

import random
from datetime import datetime
from pathlib import Path

HEAD = [
    "Item",
    "Part No",
    "Rev",
    "Description",
    "Qty",
    "Shape",
    "Dia",
    "ID/OD",
    "Thk",
    "Length",
    "Material",
    "Ends",
    "Seam",
    "Cert",
    "Need by",
    "Tolerance",
    "Finish",
    "Heat",
    "Ship to",
    "Remarks",
]


def write_long_sheet(file: Path, rows: int) -> None:
    """Write a workbook of 20 columns."""
    import xlsxwriter  # noqa: PLC0415

    rng = random.Random(1)
    book = xlsxwriter.Workbook(str(file))
    sheet = book.add_worksheet()
    day = book.add_format({"num_format": "yyyy-mm-dd"})
    sheet.write_row(0, 0, HEAD)
    for row in range(1, rows + 1):
        size = rng.choice([24, 36, "48 OD", "5'-6 1/2\"", 30 + row / 1000])
        thick = rng.choice(["1/4", '3/16"', 0.375, "10 ga"])
        long, grade = 20 + rng.randint(0, 700) / 10, rng.choice(["A36", "304L", "SA-516-70"])
        start = [
            row,
            f"P-{row}",
            "A",
            f"shell {row}",
            rng.randint(1, 20),
            "cylinder",
            size,
            "OD",
            thick,
            long,
            grade,
        ]
        sheet.write_row(row, 0, [*start, "pre-bend", "tacked", "yes"])
        sheet.write_datetime(row, 14, datetime(2026, 5, 1), day)
        sheet.write_row(row, 15, ["+/-1/8", "2B", "H1", "dock 4", f"note {row}"])
    book.close()
