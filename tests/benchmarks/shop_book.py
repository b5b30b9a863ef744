"""How long the shop's book takes: `python -m tests.benchmarks.shop_book --json`.

Measures a cold start (a new process that imports and loads the demo shop), a second load in the same process,
and a rack of 5,000 rows.
"""

from __future__ import annotations

import argparse
import json
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from statistics import median
from time import perf_counter

from quoting.shop import load_shop
from quoting.shop.grades import usual_grades
from quoting.shop.starter.rack_book import RackLine, write_rack
from tests.data.make_demo import HERE

REPEATS = 7
RACK_ROWS = 5000
LOAD = "import sys, pathlib, quoting.shop as shop; shop.load_shop(pathlib.Path(sys.argv[1]))"


def seconds_cold(folder: Path) -> float:
    """Return the median seconds of a whole process that loads the shop."""
    return _median(lambda: subprocess.run([sys.executable, "-c", LOAD, str(folder)], check=True))


def seconds_of_large_rack(folder: Path) -> float:
    """Return the median seconds to load the demo's book with a rack of many rows."""
    rows = [RackLine(f"P-{n}", "A36", 0.25, 60, 120 + n % 100, price=0.6, per="lb") for n in range(RACK_ROWS)]
    with tempfile.TemporaryDirectory() as name:
        target = Path(name)
        (target / "shop.toml").write_bytes((folder / "shop.toml").read_bytes())
        write_rack(target / "rack.xlsx", rows, (), materials=list(usual_grades()), note="benchmark")
        return _median(lambda: load_shop(target))


def _median(work: Callable[[], object]) -> float:
    times = []
    for _ in range(REPEATS):
        start = perf_counter()
        work()
        times.append(perf_counter() - start)
    return round(median(times), 4)


def main() -> None:
    """Print the measurements, as JSON when asked."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--json", action="store_true")
    parser.add_argument("--shop", type=Path, default=HERE / "shop")
    given = parser.parse_args()
    found = {
        "cold_process_seconds": seconds_cold(given.shop),
        "load_seconds": _median(lambda: load_shop(given.shop)),
        f"rack_of_{RACK_ROWS}_rows_seconds": seconds_of_large_rack(given.shop),
    }
    print(json.dumps(found, indent=2) if given.json else "\n".join(f"{k}: {v}" for k, v in found.items()))


if __name__ == "__main__":
    main()
