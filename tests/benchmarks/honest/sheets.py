"""Invented weeks as a customer's order sheet and a stocked shop; the same seed gives the same week."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from pathlib import Path
from random import Random
from typing import TypeAlias

import xlsxwriter

from quoting.shop.grades import usual_grades
from quoting.shop.starter.rack_book import RackLine, write_rack

SAYS_SO = "BENCHMARK: invented customer, invented parts, invented stock"
TODAY = date(2026, 11, 30)

HEADINGS = (
    "Line", "Part no.", "Description", "Shape", "Qty", "Diameter (in)", "ID/OD", "Length (in)",
    "Large dia (in)", "Small dia (in)", "Height (in)", "Thickness (in)", "Material", "Ends", "Weld gap (in)",
    "Re-round", "Cert", "Need by", "Remarks",
)  # fmt: skip
PLATES: tuple[tuple[str, float, float, float, int], ...] = (
    ("A1011 CS", 0.1345, 60, 120, 3), ("A36", 0.1875, 72, 240, 4), ("A36", 0.25, 97, 240, 4),
    ("A36", 0.375, 97, 240, 4), ("A36", 0.5, 97, 240, 5), ("A36", 0.75, 97, 240, 6),
    ("A516-70", 0.375, 97, 240, 6), ("A516-70", 0.5, 97, 240, 6), ("A516-70", 0.75, 97, 240, 7),
    ("304/304L", 0.125, 60, 144, 4), ("304/304L", 0.1875, 72, 144, 4), ("304/304L", 0.25, 72, 144, 7),
)  # fmt: skip
"""Grade, thickness, width and length in inches, and the supplier's lead days: every one an example."""

Row: TypeAlias = tuple[object, ...]


def write_week(folder: Path, seed: int, shop: Path) -> tuple[Path, Path]:
    """Write an order sheet and a shop folder; return both. `shop` is the shop whose book is taken over.

    Weeks hold 30 to 120 lines. Some sizes stand in the rack in a few plates, all can be bought.
    """
    chance = Random(seed)
    folder.mkdir(parents=True, exist_ok=True)
    made = folder / "shop"
    made.mkdir(exist_ok=True)
    (made / "shop.toml").write_text((shop / "shop.toml").read_text("utf-8"), "utf-8")
    rack = [
        RackLine(
            f"P-{k}", grade, t, w, length, edge="mill", quantity=chance.choice((0, 2, 3, 5, 8)), heat="X1"
        )
        for k, (grade, t, w, length, _) in enumerate(PLATES, 1)
    ]
    buyable = [
        RackLine(f"B-{k}", grade, t, w, length, edge="mill", lead_days=days)
        for k, (grade, t, w, length, days) in enumerate(PLATES, 1)
    ]
    write_rack(made / "rack.xlsx", rack, buyable, materials=list(usual_grades()), note=SAYS_SO)
    sheet = folder / f"orders-week-{seed}.xlsx"
    lines = 30 + chance.randrange(91)
    latest = 8 + round(lines * chance.choice((0.25, 0.4, 0.6)))  # the last due day: tight, fair or easy
    _write_sheet(sheet, [_row(chance, number, latest) for number in range(1, lines + 1)])
    return sheet, made


def _row(chance: Random, number: int, latest: int) -> Row:
    grade, t, width, length, _ = chance.choice(PLATES)
    due = TODAY + timedelta(days=chance.randrange(4, latest))
    ends = chance.choice(("pre-bend", "pre-bend", "leave flat"))
    again = "yes" if grade == "A516-70" and chance.random() < 0.5 else "no"
    quantity = chance.choice((1, 1, 1, 2, 2, 3, 4, 6))
    remarks = (ends, 0.125, again, "no", datetime.combine(due, datetime.min.time()), None)
    least, most = max(20.0, 80 * t), 0.3 * length
    inside = round(chance.uniform(least, max(least + 1, most)))
    high = round(chance.uniform(10, min(0.9 * width, 60)))
    if t <= 0.5 and chance.random() < 0.1:
        large = round(min(inside, 44) + 6)
        sizes: Row = (None, None, None, large, round(0.6 * large), min(high, 24))
        return (number, f"W-{number}", "Hopper cone", "cone", quantity, *sizes, t, grade, *remarks)
    sizes = (inside, "ID", high, None, None, None)
    return (number, f"W-{number}", "Shell", "cylinder", quantity, *sizes, t, grade, *remarks)


def _write_sheet(path: Path, rows: list[Row]) -> None:
    with xlsxwriter.Workbook(path) as book:
        page = book.add_worksheet("RFQ")
        day = book.add_format({"num_format": "yyyy-mm-dd"})
        page.write_string(0, 0, "Customer: Example Week Works (invented)")
        page.write_string(1, 0, SAYS_SO)
        page.write_row(3, 0, HEADINGS)
        for at, row in enumerate(rows, 4):
            for column, value in enumerate(row):
                if isinstance(value, datetime):
                    page.write_datetime(at, column, value, day)
                elif value is not None:
                    page.write(at, column, value)
