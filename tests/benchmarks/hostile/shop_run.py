"""A shop that has quoted, won and planned one small order: what its files are before anything is mutated."""

from __future__ import annotations

import shutil
from dataclasses import dataclass
from pathlib import Path

from click.testing import CliRunner

from quoting.shop import convert_book
from scheduler.commands import main

ROOT = Path(__file__).resolve().parents[3]
DEMO = ROOT / "demo_orders" / "shop"
ORDER = (
    "Item,Qty,OD in,Thk in,Length in,Material,Ends\n"
    "1,2,30,0.25,48,A36,pre-bend\n2,3,40,0.375,60,A36,pre-bend\n3,1,,0.25,60,A36,pre-bend\n"
)
MOMENT = "2026-12-01 06:00"


@dataclass(frozen=True, slots=True)
class Made:
    """Where the files of the shop and of its runs are."""

    shop: Path
    sheet: Path
    record: Path
    costing: Path
    questions: Path
    jobs: Path
    floor: Path
    ledger: Path
    book: Path


def command(*arguments: object) -> str:
    """Run a command in this process and return what it said; it must end with 0 or 1."""
    result = CliRunner().invoke(main, [str(one) for one in arguments], env={"ROLLWRIGHT_NO_LEDGER": ""})
    if result.exit_code not in (0, 1):
        raise RuntimeError(result.output)
    return result.output


def made(folder: Path) -> Made:
    """Quote, win and plan in an empty folder."""
    shop, sheet, form = folder / "shop", folder / "orders.csv", folder / "form"
    shutil.copytree(DEMO, shop, ignore=shutil.ignore_patterns("ledger*"))
    shutil.copytree(DEMO, form, ignore=shutil.ignore_patterns("ledger*"))
    sheet.write_text(ORDER, encoding="utf-8")
    common = ("--shop", shop, "--effort", "quick")
    day = ("--today", "2026-11-30")
    command("quote", sheet, "--out", folder / "out", "--customer", "Yard", *common, *day)
    command("won", "A-1", "A-2", "--out", folder / "won", *common, *day)
    command("plan", "--from", MOMENT, "--out", folder / "plan", *common)
    convert_book(form)
    (jobs,) = (folder / "plan").glob("jobs-*.xlsx")
    (floor,) = (folder / "plan").glob("floor-*.xlsx")
    out = folder / "out"
    return Made(
        shop,
        sheet,
        out / "result.json",
        out / "costing-2026-11-30.xlsx",
        out / "questions-2026-11-30.xlsx",
        jobs,
        floor,
        shop / "ledger.db",
        form / "shop.xlsx",
    )
