"""How long what a user does takes: `python -m tests.benchmarks.spine --json [--runs N] [--rows NAME ...]`.

Every row is a command as a user starts it, in a process of its own: least, median and most wall seconds of
the runs, median processor seconds of it and its workers, and the largest memory of one process. The rows of
made-up lines are order sheets that are written first. `--against COMMIT` runs the same rows in a checkout of
that commit too, each pair one after the other, so that a busy machine is busy for both. `--smoke` is a short
run that only shows that everything works.
"""

from __future__ import annotations

import argparse
import json
import os
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, nullcontext
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from random import Random
from statistics import median

from openpyxl import Workbook

from quoting.core import Arc, Basis, Cylinder, Order, OrderLine, Place, Shape
from quoting.estimating import estimate
from quoting.shop import Shop, load_shop

ROOT = Path(__file__).resolve().parents[2]
DEMO = ROOT / "demo_orders"
TODAY = date(2026, 11, 30)
NUMBER = f"{TODAY:%Y%m%d}-01"
QUICK = ("--effort", "quick")
HEADS = ("Item", "Description", "Qty", "ID mm", "Width mm", "Thk mm", "Grade")


def made_up_lines(count: int, shop: Shop, seed: int = 7) -> tuple[OrderLine, ...]:
    """Return lines of believable sizes, on plate that the shop can buy; same seed, same lines."""
    random = Random(seed)
    plates = [plate for plate in shop.stock if plate.buyable and plate.thickness_mm <= 12.7]
    lines = []
    for number in range(1, count + 1):
        plate = random.choice(plates)
        t = plate.thickness_mm
        inside = round(random.uniform(80 * t**0.5 + 20 * t, min(0.28 * plate.length_mm, 150 * t)), 1)
        width = round(random.uniform(300, min(0.9 * plate.width_mm, 1400)), 1)
        shape: Shape = Cylinder(inside, Basis.INSIDE, width)
        if random.random() < 0.15:
            shape = Arc(inside / 2, Basis.INSIDE, random.choice((60.0, 90.0, 120.0, 180.0)), width)
        lines.append(
            OrderLine(
                id=f"G-{number}",
                number=str(number),
                customer="Generated (invented)",
                place=Place("generated.xlsx", "Lines", number),
                quantity=random.choice((1, 1, 1, 2, 2, 3, 4, 6)),
                shape=shape,
                thickness_mm=t,
                material=plate.material,
            )
        )
    return tuple(lines)


def order_sheet(path: Path, lines: Sequence[tuple[object, ...]]) -> None:
    """Write lines under `HEADS` as a customer's sheet."""
    book = Workbook(write_only=True)
    sheet = book.create_sheet("Lines")
    for line in (HEADS, *lines):
        sheet.append(line)
    book.save(path)


def made_up_rows(count: int, shop: Shop) -> list[tuple[object, ...]]:
    """Return made-up cylinders as a customer writes them."""
    found: list[tuple[object, ...]] = []
    for line in made_up_lines(count, shop):
        shape = line.shape
        assert isinstance(shape, Cylinder | Arc)
        inside = shape.diameter_mm if isinstance(shape, Cylinder) else 2 * shape.radius_mm
        sizes = (inside, shape.length_mm, line.thickness_mm)
        found.append((line.number, "Shell", line.quantity, *sizes, line.material))
    return found


@dataclass(frozen=True, slots=True)
class Row:
    """A command of the table: its words after `python`, and whether machine code is made anew.

    `again`: the same was run before and its results are known; every other row works all of it out. `quoted`:
    a shop with the quote in its ledger, of which each run has a copy.
    """

    name: str
    words: tuple[str, ...]
    cold: bool = False
    again: bool = False
    runs: int | None = None
    quoted: Path | None = None


def rows(folder: Path, record: Path) -> list[Row]:
    """Return every row; `folder` holds the made-up sheets, `record` is a result of the demo."""
    demo = tuple(sorted(str(path) for path in DEMO.glob("orders-*.xlsx")))
    main = ("-m", "scheduler")
    job = (*main, "run", *demo)
    quote = (*main, "quote")

    def sheet(count: int, effort: str = "quick", *more: str) -> tuple[str, ...]:
        return (*quote, str(folder / f"{count}.xlsx"), "--effort", effort, *more)

    bench = ("-m", "tests.benchmarks.nesting", "--set", "scale", "--pieces", "2000", "--json")
    return [
        Row("help", (*main, "--help")),
        Row("why", (*main, "why", str(record), "A-1")),
        Row(
            "won, 10 lines", (*main, "won", NUMBER, "--effort", "quick"), again=True, quoted=folder / "quoted"
        ),
        Row("quote of 10 lines, quick", sheet(10)),
        Row("demo, quick", (*job, *QUICK)),
        Row("demo, normal", (*job, "--effort", "normal")),
        Row("demo, normal, the same again", (*job, "--effort", "normal"), again=True),
        Row("demo, quick, first run ever", (*job, *QUICK), cold=True),
        Row("demo, normal, first run ever", (*job, "--effort", "normal"), cold=True),
        Row("200 lines, quick", sheet(200)),
        Row("200 lines, normal", sheet(200, "normal"), runs=3),
        Row("300 lines with what-ifs, quick", sheet(300, "quick", "--sensitivities"), runs=1),
        Row("1,000 lines, quick", sheet(1000), runs=1),
        Row("5,000 lines, quick", sheet(5000), runs=1),
        Row("20,000 equal pieces, quick", (*quote, str(folder / "equal.xlsx"), *QUICK), runs=1),
        Row("2,000 different pieces, normal", bench, runs=1),
    ]


def write_sheets(folder: Path, shop: Shop, wanted: Sequence[str]) -> None:
    """Write the made-up sheets that the wanted rows read."""
    for count in (10, 200, 300, 1000, 5000):
        if any(f"{count:,} lines" in name for name in wanted):
            order_sheet(folder / f"{count}.xlsx", made_up_rows(count, shop))
    order_sheet(folder / "equal.xlsx", [(1, "Shell", 20_000, 400, 300, 6.35, "A36")])


def quote_on_ledger(folder: Path) -> None:
    """Write ten made-up lines, and quote them into the ledger of a shop of its own."""
    shop = shutil.copytree(DEMO / "shop", folder / "quoted", ignore=shutil.ignore_patterns("ledger.db*"))
    order_sheet(folder / "10.xlsx", made_up_rows(10, load_shop(shop)))
    words = ["-m", "scheduler", "quote", str(folder / "10.xlsx"), "--shop", str(shop), "--effort", "quick"]
    words += ["--out", str(folder / "on-ledger"), "--today", TODAY.isoformat()]
    env = {name: value for name, value in os.environ.items() if name != "ROLLWRIGHT_NO_LEDGER"}
    silent = subprocess.DEVNULL
    subprocess.run([sys.executable, *words], cwd=ROOT, env=env, check=False, stdout=silent, stderr=silent)


def timed(row: Row, root: Path, kept: Path | None = None, known: Path | None = None) -> dict[str, float]:
    """Run a row once in a checkout; return wall and processor seconds, and MiB of the largest process.

    With `kept` its files stay in that folder; `known` is where results of earlier runs are.
    """
    words = list(row.words)
    with tempfile.TemporaryDirectory() as out:
        if row.again and known is None:
            timed(row, root, known=Path(out, "known"))
            return timed(row, root, known=Path(out, "known"))
        shop = row.quoted or DEMO / "shop"
        if row.quoted:
            shop = shutil.copytree(row.quoted, Path(out, "shop"))
        if words[2:3] in (["run"], ["quote"], ["won"]):
            into = kept or Path(out, "out")
            words += ["--shop", str(shop), "--out", str(into), "--today", TODAY.isoformat()]
        env = {**os.environ, "ROLLWRIGHT_NO_LEDGER": "1", "PYTHONPATH": str(root)}
        env.pop("PYTHONDONTWRITEBYTECODE", None)  # what is installed has its byte code on disk
        if known:
            env["XDG_CACHE_HOME"] = str(known)
        else:
            env["ROLLWRIGHT_ANEW"] = "1"
        if row.cold:
            env["NUMBA_CACHE_DIR"] = f"{out}/cache"
        started = time.perf_counter()
        process = subprocess.Popen(
            [sys.executable, *words],
            cwd=root,
            env=env,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        _, status, used = os.wait4(process.pid, 0)
        seconds = time.perf_counter() - started
        code = os.waitstatus_to_exitcode(status)
    if code not in (0, 1):
        raise SystemExit(f"{row.name}: exit code {code}")
    return {"seconds": seconds, "processor": used.ru_utime + used.ru_stime, "mib": used.ru_maxrss / 1024}


def figures(found: Sequence[dict[str, float]]) -> dict[str, float]:
    """Return least, median and most of some runs."""
    seconds = [one["seconds"] for one in found]
    return {
        "runs": len(found),
        "least": round(min(seconds), 2),
        "median": round(median(seconds), 2),
        "most": round(max(seconds), 2),
        "processor": round(median(one["processor"] for one in found), 2),
        "mib": round(max(one["mib"] for one in found)),
    }


def table(
    wanted: Sequence[Row], roots: dict[str, Path], runs: int, tell: Callable[[str], None]
) -> dict[str, object]:
    """Return the figures of every row in every checkout, the checkouts taken in turns."""
    found: dict[str, object] = {}
    for row in wanted:
        got: dict[str, list[dict[str, float]]] = {name: [] for name in roots}
        for _ in range(min(runs, row.runs or runs)):
            for name, root in roots.items():
                got[name].append(timed(row, root))
        found[row.name] = {name: figures(one) for name, one in got.items()}
        tell(f"{row.name}: {found[row.name]}")
    return found


@contextmanager
def checkout(commit: str) -> Iterator[Path]:
    """Yield a folder with another commit of this project."""
    with tempfile.TemporaryDirectory() as folder:
        root = Path(folder) / "other"
        git = ["git", "-C", str(ROOT), "worktree"]
        subprocess.run([*git, "add", "--detach", str(root), commit], check=True, capture_output=True)
        try:
            yield root
        finally:
            subprocess.run([*git, "remove", "--force", str(root)], check=True, capture_output=True)


def smoke(shop: Shop) -> dict[str, object]:
    """Return a few figures of a short run."""
    found = estimate(
        [Order("a.xlsx", "Generated (invented)", lines=made_up_lines(20, shop))], shop, today=TODAY
    )
    demo = next(row for row in rows(Path(), Path()) if row.name == "demo, quick")
    return {
        "demo, quick": figures([timed(demo, ROOT)]),
        "priced of 20 made-up lines": sum(line.price is not None for line in found.lines),
    }


def main(words: Sequence[str] | None = None) -> None:
    """Time the rows asked for."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--json", action="store_true", help="print one JSON object, nothing on the way")
    parser.add_argument("--smoke", action="store_true")
    parser.add_argument("--runs", type=int, default=5)
    parser.add_argument("--rows", nargs="*", help="only rows whose name begins so")
    parser.add_argument("--against", metavar="COMMIT")
    asked = parser.parse_args(words)
    shop = load_shop(DEMO / "shop")
    if asked.smoke:
        print(json.dumps(smoke(shop)))
        return
    folder = Path(tempfile.mkdtemp())
    try:
        every = rows(folder, folder / "out" / "result.json")
        wanted = [row for row in every if not asked.rows or row.name.startswith(tuple(asked.rows))]
        write_sheets(folder, shop, [row.name for row in wanted])
        if any(row.name == "why" for row in wanted):
            demo = next(row for row in every if row.name == "demo, quick")
            timed(demo, ROOT, folder / "out")
        if any(row.quoted for row in wanted):
            quote_on_ledger(folder)
        tell = (lambda _: None) if asked.json else print
        with checkout(asked.against) if asked.against else nullcontext() as other:
            roots = {asked.against: other, "here": ROOT} if other else {"here": ROOT}
            for root in roots.values():  # a new checkout has no machine code yet
                timed(next(row for row in every if row.name == "demo, normal"), root)
            found = table(wanted, roots, asked.runs, tell)
        print(json.dumps({"cores": len(os.sched_getaffinity(0)), "load": os.getloadavg()[0], "rows": found}))
    finally:
        shutil.rmtree(folder)


if __name__ == "__main__":
    main()
