"""Odd sizes walked from the order sheet to the plan: what is quoted can be told why, won and planned."""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from random import Random

import pytest
from click.testing import CliRunner, Result
from openpyxl import Workbook

from quoting.record import PricedLineRecord, read_record
from scheduler.commands import main

SHOP = Path(__file__).resolve().parents[3] / "demo_orders" / "shop"
HEADS = ("Item", "Description", "Qty", "ID mm", "Width mm", "Thk mm", "Grade")
GRADES = ("A36", "A36", "304", "galvanized", "5052-H32", "A516-70", "no grade of this world")
KINDS = (
    "Shell",
    "Half shell",
    "Quarter",
    "Segment 77 deg",
    "Duct, straight through",
    "Cone 300 to small end 120",
)


def odd_sheet(path: Path, random: Random, lines: int) -> None:
    """Write lines of any size at all, 3 mm to 16 m, half of them on plate of the shop."""
    book = Workbook(write_only=True)
    sheet = book.create_sheet("Lines")
    sheet.append(HEADS)
    for number in range(1, lines + 1):
        stocked = random.random() < 0.5
        thickness = (
            random.choice((3.175, 6.35, 9.525)) if stocked else round(10 ** random.uniform(-1, 2.3), 2)
        )
        inside = round(10 ** (random.uniform(2.3, 3.1) if stocked else random.uniform(0.5, 4.2)), 1)
        width = round(10 ** random.uniform(*((2.3, 3.0) if stocked else (0.5, 4.0))), 1)
        kind, grade = random.choice(KINDS), random.choice(GRADES)
        sheet.append((number, kind, random.choice((1, 1, 2, 7, 300)), inside, width, thickness, grade))
    book.save(path)


def no_number(constant: str) -> float:
    """JSON has no infinity: other readers of the record stop there."""
    raise AssertionError(constant)


def typed(*arguments: object) -> Result:
    """Type a command with the ledger on; a fault of the program is raised, not told."""
    done = CliRunner().invoke(main, [str(one) for one in arguments], env={"ROLLWRIGHT_NO_LEDGER": ""})
    assert done.exit_code in (0, 1), done.output
    return done


@pytest.mark.slow
@pytest.mark.parametrize("seed", [3, 4, 5])
def test_what_is_quoted_can_be_told_won_and_planned(tmp_path: Path, seed: int) -> None:
    shop = tmp_path / "shop"
    shutil.copytree(SHOP, shop, ignore=shutil.ignore_patterns("ledger*"))
    odd_sheet(tmp_path / "odd.xlsx", Random(seed), 14)
    usual = ("--shop", shop, "--today", "2026-11-30", "--effort", "quick")
    typed("quote", tmp_path / "odd.xlsx", "--out", tmp_path / "quote", *usual)
    path = tmp_path / "quote" / "result.json"
    record = read_record(path)
    assert len(record.lines) == 14
    for line in json.loads(path.read_text(encoding="utf-8"), parse_constant=no_number)["lines"]:
        assert typed("why", path, line["id"]).output.strip()
    assert any(isinstance(line, PricedLineRecord) for line in record.lines)
    won = typed("won", "20261130-01", "--out", tmp_path / "jobs", "--order", "PO 1", *usual)
    assert "promised" in won.output
    when = ("--from", "2026-12-01 06:00", "--shop", shop, "--effort", "quick")
    assert "planned" in typed("plan", "--out", tmp_path / "plan", *when).output.lower()


def test_parts_along_the_columns_are_each_a_line_of_record_quote_and_ledger(tmp_path: Path) -> None:
    shop = shutil.copytree(SHOP, tmp_path / "shop", ignore=shutil.ignore_patterns("ledger*"))
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    for row in (
        ["Mark", "P1", "P2", "P3", "P4"],
        ["Qty", 2, 1, 1, 3],
        ["ID (in)", 48, 36, 30, None],
        ["Thickness (in)", 0.25, 0.25, 0.375, 0.25],
        ["Length (in)", 60, 48, 36, 24],
        ["Material", "A36", "A36", "A36", "A36"],
    ):
        sheet.append(row)
    book.save(tmp_path / "along.xlsx")
    usual = ("--shop", shop, "--effort", "quick", "--today", "2026-11-30")
    typed("quote", tmp_path / "along.xlsx", "--out", tmp_path / "quote", *usual)
    record = read_record(tmp_path / "quote" / "result.json")
    assert [(line.id, line.number, line.state) for line in record.lines] == [
        ("A-P1", "P1", "priced"),
        ("A-P2", "P2", "priced"),
        ("A-P3", "P3", "priced"),
        ("A-P4", "P4", "question"),
    ]
    priced = [line for line in record.lines if isinstance(line, PricedLineRecord)]
    assert [line.quantity for line in priced] == [2, 1, 1]
    assert record.orders[0].rows.priced == 3
    won = typed("won", "20261130-01", "--out", tmp_path / "won", *usual).output
    assert "A-P1, A-P2, A-P3" in won
    total = sum(line.price.extended for line in priced)
    assert f"worth       {total:,.2f} USD" in won
