"""Throws damaged workbooks at the whole `quote` command: no traceback, and all of the files or none.

Nests are left out (plate is priced by weight), so that thousands of runs end in minutes.
"""

from __future__ import annotations

import faulthandler
import json
import random
import shutil
import tempfile
import traceback
import zipfile
from functools import partial
from pathlib import Path
from unittest.mock import patch

from click.testing import CliRunner

from quoting.estimating import priced
from quoting.shop import load_shop
from scheduler.commands import main
from scheduler.commands.ending import OUR_FAULT
from tests.quoting.intake.fuzzing import LONGEST_SECONDS, mutated

SHOP = Path(__file__).resolve().parents[3] / "demo_orders" / "shop"


def fuzz_quotes(rng: random.Random, count: int, folder: Path) -> tuple[list[str], list[str], dict[int, int]]:
    """Return the tracebacks and half-written outputs of `count` runs, and how often each exit code came.

    `folder` holds the sheets that are damaged.
    """
    sources = sorted(file for file in folder.iterdir() if file.suffix != ".json")
    tracebacks: list[str] = []
    halves: list[str] = []
    codes: dict[int, int] = {}
    shop = load_shop(SHOP)
    quick = partial(priced, nested=False)
    with (
        tempfile.TemporaryDirectory() as temporary,
        patch("quoting.commands.quote_job.load_shop", lambda _: shop),
        patch("quoting.commands.quote_job.priced", quick),
    ):
        for number in range(count):
            source = rng.choice(sources)
            file = Path(temporary) / f"orders-{number}{source.suffix}"
            out = Path(temporary) / "out"
            file.write_bytes(mutated(rng, source))
            arguments = ["quote", file, "--shop", SHOP, "--out", out, "--today", "2026-03-02"]
            faulthandler.dump_traceback_later(LONGEST_SECONDS, exit=True)  # a reader that never ends
            result = CliRunner().invoke(main, [str(argument) for argument in arguments])
            codes[result.exit_code] = codes.get(result.exit_code, 0) + 1
            code: int | None = result.exit_code
            if result.exception is not None and not isinstance(result.exception, SystemExit):
                told = "".join(traceback.format_exception(result.exception)[-3:])
                tracebacks.append(f"{source.name} ({number}): {told}")
                code = None
            if code == OUR_FAULT:
                tracebacks.append(f"{source.name} ({number}): {result.output[-300:]}")
            halves += [f"{source.name} ({number}): {found}" for found in half_written(out, code)]
            shutil.rmtree(out, ignore_errors=True)
            file.unlink()
    faulthandler.cancel_dump_traceback_later()
    return tracebacks, halves, codes


def half_written(out: Path, exit_code: int | None) -> list[str]:
    """Return what is wrong with the files of a run: any after a failure, a part of them after a success."""
    names = sorted(path.name for path in out.iterdir()) if out.exists() else []
    if exit_code not in (0, 1):
        return [f"left after exit code {exit_code}: {', '.join(names)}"] if names else []
    wrong = [f"no {kind}" for kind in ("quote-", "costing-", "result.json") if not _any(names, kind)]
    wrong += [f"left behind: {name}" for name in names if name.startswith(".")]
    for path in out.glob("*.xlsx"):
        if not zipfile.is_zipfile(path) or zipfile.ZipFile(path).testzip() is not None:
            wrong.append(f"{path.name} is no whole workbook")
    if "result.json" in names:
        wrong += _lost_rows(out / "result.json")
    return wrong


def _any(names: list[str], start: str) -> bool:
    return any(name.startswith(start) for name in names)


def _lost_rows(path: Path) -> list[str]:
    """Return whether some row of a sheet is neither a line of the record nor among its ignored rows."""
    record = json.loads(path.read_text(encoding="utf-8"))
    rows = sum(sum(order["rows"].values()) for order in record["orders"])
    told = len(record["lines"]) + len(record["ignored"])
    return [] if rows == told else [f"{rows} rows, {told} accounted for"]
