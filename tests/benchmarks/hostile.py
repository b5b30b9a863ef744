"""Mutated files through every reader: tracebacks, dead readers, time, memory, files left behind.

python -m tests.benchmarks.hostile --json [--xlsx 2000] [--ods 2000] [--xls 2000] [--records 2000]
    [--memories 2000] [--shops 2000] [--wishes 2000] [--costings 500] [--kills 40] [--seed 1]

Workbooks go through the reader of orders and that of racks. A shop's book that is taken prices one line, a
costing book that is taken prices a whole order again: a price beyond reason counts as a failure too. Kills
end a quote into a folder that holds an earlier one at a random moment; what the next command sees there must
be one of the two sets, whole.
"""

from __future__ import annotations

import argparse
import json
import os
import random
import re
import resource
import subprocess
import sys
import tempfile
import time
import traceback
import zipfile
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

from quoting.core import UNFINISHED, RollwrightError
from quoting.tables.child import ask
from tests.quoting.intake.fuzzing import mutated

ROOT = Path(__file__).resolve().parents[2]
ORDERS = ROOT / "tests" / "data" / "orders"
TODAY = date(2026, 11, 30)
EXTREMES = (
    "1e308", "-1e308", "1e12", "1000000", "1000000000000", "0", "-1", "nan", "inf", "9" * 400, "1e-300", '""',
    "true", "[]", "{}", "1e6", "1e4", "1e9", "50000", "9999-12-31",
    "0001-01-01", '"\\u0000"', "0.1", "1e999999",
    "99999999999999999999",
)  # fmt: skip
_TICKS = os.sysconf("SC_CLK_TCK")
Use = Callable[[Path], object]


@dataclass(slots=True)
class Tally:
    """What one kind of file did."""

    files: int = 0
    refused: int = 0
    readers_ended: int = 0
    failures: list[str] = field(default_factory=list)
    slowest: float = 0.0
    reader_peak_mib: int = 0

    def take(self, use: Use, path: Path, note: str) -> None:
        """Use one file and note how it went."""
        self.files += 1
        start, before = time.process_time(), _reader()
        try:
            if found := use(path):
                self.failures.append(f"{note}: {found}")
        except RollwrightError as error:
            self.refused += 1
            self.readers_ended += "reading it broke off" in str(error)
        except Exception:
            self.failures.append(f"{note}: {traceback.format_exc(limit=-3)[-600:]}")
        after = _reader()
        reader = after[1] - before[1] if after[0] == before[0] else after[1]
        self.slowest = max(self.slowest, time.process_time() - start + reader)
        self.reader_peak_mib = max(self.reader_peak_mib, after[2])

    def figures(self) -> dict[str, Any]:
        """Return the tally for JSON."""
        return {
            "files": self.files,
            "refused": self.refused,
            "tracebacks_or_nonsense": len(self.failures),
            "examples": self.failures[:4],
            "readers_ended": self.readers_ended,
            "slowest_cpu_seconds": round(self.slowest, 2),
            "reader_peak_mib": self.reader_peak_mib,
        }


def _reader() -> tuple[int, float, int]:
    """Return process id, processor seconds and peak MiB of the reading process that is at work."""
    for reader in ask._readers:
        pid = reader._process.pid
        try:
            times = Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()
            peak = re.search(r"VmHWM:\s*(\d+)", Path(f"/proc/{pid}/status").read_text())
        except OSError:
            continue
        return pid, (int(times[11]) + int(times[12])) / _TICKS, int(peak.group(1)) // 1024 if peak else 0
    return 0, 0.0, 0


def workbooks(kind: str, count: int, rng: random.Random, folder: Path) -> Tally:
    """Read mutated order sheets of one kind as an order and as a rack."""
    from quoting.intake.read_orders import read_orders  # noqa: PLC0415
    from quoting.shop.rack import read_rack  # noqa: PLC0415
    from tests.quoting.intake.small_shop import small_shop  # noqa: PLC0415

    shop, tally = small_shop(), Tally()
    sources = sorted(file for file in ORDERS.iterdir() if file.suffix == f".{kind}") or [_xls(folder)]
    uses: tuple[Use, ...] = (
        lambda path: read_orders(path, shop, today=TODAY) and None,
        lambda path: read_rack([path], shop.materials, inch=True) and None,
    )
    for number in range(count):
        source = rng.choice(sources)
        path = folder / f"order.{kind}"
        path.write_bytes(mutated(rng, source))
        tally.take(uses[number % 2], path, f"{source.name} ({number})")
        path.unlink()
    return tally


def _xls(folder: Path) -> Path:
    """Return an old workbook: written by a spreadsheet program where there is one, else a crafted one."""
    from tests.quoting.tables.hostile_others import xls_files  # noqa: PLC0415

    path = folder.parent / "source.xls"
    path.write_bytes(dict(xls_files())["many-in-one.xls"])
    return path


def mutated_text(rng: random.Random, text: str) -> str:
    """Return a text of settings or a record with some values, keys or lines changed."""
    for _ in range(rng.choice((1, 1, 2))):
        chance = rng.random()
        spots = [match.span() for match in re.finditer(r"(?<=[:=] )[^\n,{}\[\]]+|(?<==)[^\n,]+", text)]
        if chance < 0.85 and spots:
            start, end = rng.choice(spots)
            text = text[:start] + rng.choice(EXTREMES) + text[end:]
        elif chance < 0.93:
            lines = text.split("\n")
            at = rng.randrange(len(lines))
            lines[at : at + 1] = [lines[at]] * rng.choice((0, 0, 2))
            text = "\n".join(lines)
        else:
            at = rng.randrange(len(text))
            text = text[:at] + rng.choice(("[", "{", '"', "\n", "\0", "é", "[" * 5_000, "-")) + text[at + 1 :]
    return text


def texts(use: Use, source: str, suffix: str, count: int, rng: random.Random, folder: Path) -> Tally:
    """Use mutated copies of a text."""
    tally = Tally()
    for number in range(count):
        path = folder / f"file{suffix}"
        path.write_text(mutated_text(rng, source), encoding="utf-8")
        tally.take(use, path, str(number))
        path.unlink()
    return tally


def _use_record(path: Path) -> None:
    from quoting.record import figures_of, find_line, owners_figures, read_record, why_lines  # noqa: PLC0415, F401

    record = read_record(path)
    for line in record.lines[:5]:
        why_lines(record, find_line(record, line.id))
    owners_figures([record])


def _use_memory(path: Path) -> None:
    from quoting.intake.answers import memory_of  # noqa: PLC0415

    memory_of(path.read_text(encoding="utf-8"), path.name)[0].to_text()


def _use_wishes(path: Path) -> None:
    from scheduler.wishes import read_wishes  # noqa: PLC0415

    read_wishes(path)


def _use_shop(path: Path) -> str:
    """Price one plain line with a shop's book; return what is wrong with the price."""
    from quoting.estimating import estimate  # noqa: PLC0415
    from quoting.intake.read_orders import read_orders  # noqa: PLC0415
    from quoting.shop.book.read_book import read_book  # noqa: PLC0415

    shop = read_book(path.read_text(encoding="utf-8"), path.name)
    order = read_orders(path.with_name("orders.csv"), shop, today=TODAY, prefix="A-")
    found = estimate([order], shop, today=TODAY, effort="quick", nested=False)
    prices = [line.price.unit for line in found.lines if line.price]
    return "" if all(Decimal(0) <= price < 10**8 for price in prices) else f"price {prices}"


def costings(count: int, rng: random.Random, folder: Path) -> Tally:
    """Take mutated costing books back and price the order again."""
    from quoting.books import ReturnedCosting, write_costing  # noqa: PLC0415
    from quoting.estimating import revise  # noqa: PLC0415
    from quoting.recording import result_id  # noqa: PLC0415
    from tests.quoting.books.returned import run  # noqa: PLC0415

    before, tally = run(), Tally()
    source = folder.parent / "costing.xlsx"
    write_costing(before, source)

    def use(path: Path) -> str:
        returned = ReturnedCosting(path, before, result_id(before))
        after = revise(before, returned.edits(), replaces="x", today=TODAY)
        returned.check(after)
        prices = [line.price.unit for line in after.lines if line.price]
        return "" if all(abs(price) < 10**8 for price in prices) else f"price {prices}"

    for number in range(count):
        path = folder / "costing.xlsx"
        path.write_bytes(mutated(rng, source))
        tally.take(use, path, str(number))
        path.unlink()
    return tally


def kills(count: int, rng: random.Random, folder: Path) -> dict[str, Any]:
    """Kill runs over the results of an earlier one, and look whether one whole set is left."""
    sheet, out = folder / "orders.csv", folder.parent / "killed"
    command = [
        sys.executable,
        "-m",
        "scheduler",
        "quote",
        str(sheet),
        "--shop",
        str(ROOT / "demo_orders" / "shop"),
    ]
    command += ["--out", str(out), "--effort", "quick", "--no-ledger", "--force", "--today"]
    start = time.monotonic()
    subprocess.run([*command, "2026-11-30"], cwd=ROOT, capture_output=True, check=False)
    took, broken, met = time.monotonic() - start, [], 0
    days = ["2026-11-30", "2026-12-01"]
    for number in range(count):
        process = subprocess.Popen(
            [*command, days[(number + 1) % 2]], cwd=ROOT, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
        )
        # half of the kills come late, where files are put in place
        time.sleep(took * (rng.uniform(0, 1) if number % 2 else rng.uniform(0.85, 1.05)))
        met += process.poll() is None
        process.kill()
        process.wait()
        broken += [f"{number}: {found}" for found in _mixed(out)]
    return {"runs": count, "killed_at_work": met, "mixed_or_half": len(broken), "examples": broken[:4]}


def _mixed(out: Path) -> list[str]:
    """Return what is wrong in a folder once the next command has looked at it."""
    from quoting.books import settled  # noqa: PLC0415

    settled(out)
    made = json.loads((out / "result.json").read_text(encoding="utf-8"))["made"]["today"]
    wrong = [] if (out / f"costing-{made}.xlsx").is_file() else [f"no costing book of {made}"]
    for path in out.glob("*.xlsx"):
        if not zipfile.is_zipfile(path) or zipfile.ZipFile(path).testzip() is not None:
            wrong.append(f"{path.name} is no whole workbook")
    if (out / UNFINISHED).exists():
        wrong.append("still unfinished")
    return wrong


_WISHES = """
[[pin]]
line = "A-1"
roll = "Heavy 10 ft"
start = "2026-12-01 08:00"
not_before = "2026-12-01 08:00"
before = "A-2"
running = true
minutes_left = 45

[[must_ship]]
line = "A-4"
date = 2026-12-04

[[split]]
line = "A-6"
first = 3
"""
_ORDER = "Item,Qty,OD in,Thk in,Length in,Material,Ends\n1,2,30,0.25,48,A36,pre-bend\n"


def _record_text() -> str:
    from quoting.record import record_text  # noqa: PLC0415
    from quoting.recording import make_record  # noqa: PLC0415
    from tests.quoting.books.returned import run  # noqa: PLC0415

    return record_text(make_record(run())).decode()


def _memory_text(folder: Path) -> str:
    from quoting.intake.answers import Memory  # noqa: PLC0415
    from quoting.intake.read_orders import read_orders  # noqa: PLC0415
    from tests.quoting.intake.small_shop import small_shop  # noqa: PLC0415

    order = read_orders(folder / "orders.csv", small_shop(), today=TODAY)
    return Memory("Yard").with_order(order, "one", TODAY).to_text()


def main() -> None:
    """Run all parts and print the figures."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--json", action="store_true", help="print JSON")
    kinds = ("xlsx", "ods", "xls", "records", "memories", "shops", "wishes", "costings")
    for kind in kinds:
        parser.add_argument(f"--{kind}", type=int, default=500 if kind == "costings" else 2_000)
    parser.add_argument("--kills", type=int, default=40)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    rng = random.Random(options.seed)
    found: dict[str, Any] = {}
    temporary = set(os.listdir(tempfile.gettempdir()))
    with tempfile.TemporaryDirectory() as outer:
        folder = Path(outer) / "work"
        folder.mkdir()
        (folder / "orders.csv").write_text(_ORDER)
        parts: dict[str, Callable[[int], Tally]] = {
            **{
                kind: (lambda count, kind=kind: workbooks(kind, count, rng, folder))  # type: ignore[misc]
                for kind in ("xlsx", "ods", "xls")
            },
            "records": lambda count: texts(_use_record, _record_text(), ".json", count, rng, folder),
            "memories": lambda count: texts(_use_memory, _memory_text(folder), ".json", count, rng, folder),
            "shops": lambda count: texts(_use_shop, _shop_text(), ".toml", count, rng, folder),
            "wishes": lambda count: texts(_use_wishes, _WISHES, ".toml", count, rng, folder),
            "costings": lambda count: costings(count, rng, folder),
        }
        for kind, part in parts.items():
            if count := getattr(options, kind):
                found[kind] = part(count).figures()
        if options.kills:
            found["kills"] = kills(options.kills, rng, folder)
        found["left_behind"] = sorted(set(os.listdir(folder)) - {"orders.csv"})
    ask._close_all()
    own = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    children = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss
    found["family_peak_mib"] = (own + children) // 1024
    found["left_in_temp"] = sorted(
        name for name in set(os.listdir(tempfile.gettempdir())) - temporary if "rollwright" in name
    )
    print(json.dumps(found, indent=1))


def _shop_text() -> str:
    return (ROOT / "demo_orders" / "shop" / "shop.toml").read_text(encoding="utf-8")


if __name__ == "__main__":
    main()
