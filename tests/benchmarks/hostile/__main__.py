"""Mutated files through every reader, kills over existing results: figures as JSON.

python -m tests.benchmarks.hostile --json [--each 500] [--xlsx 20000] [--ledgers 20000] ...
    [--kills 40] [--seed 1]

The kinds go round in turn; stopped by Ctrl-C or `kill` it prints what was done by then. `--each` is for every
kind that has no number of its own; 0 leaves it out. Order sheets go through the reader of orders and that of
racks. What is taken is used: a shop's book prices a line, a costing book a whole order, a ledger gives the
floor. A price beyond reason counts as a failure. Set HOSTILE_KEEP to a folder to keep the first file of every
kind of failure.
"""

from __future__ import annotations

import argparse
import json
import os
import random
import signal
import sys
import tempfile
from pathlib import Path
from typing import Any

from quoting.tables.child import ask
from tests.benchmarks.hostile.kills import kills
from tests.benchmarks.hostile.kinds import KINDS
from tests.benchmarks.hostile.shop_run import Made, made
from tests.benchmarks.hostile.tally import Tally

ROUNDS = 400


class Mutants:
    """One kind's files, some at a time, so that a run that is stopped has met every kind."""

    def __init__(self, kind: str, seed: int, shop_run: Made, folder: Path) -> None:
        self.folder, self.tally, self.rng = folder, Tally(), random.Random(f"{kind} {seed}")
        folder.mkdir()
        self.ending, self.make, self.use = KINDS[kind](shop_run, folder)
        self.kept = {entry.name for entry in folder.iterdir()}

    def go_on(self, count: int) -> None:
        """Write and use so many more files."""
        path = self.folder / f"file{self.ending}"
        for _ in range(count):
            self.make(self.rng, path)
            self.tally.take(self.use, path, str(self.tally.files))
            path.unlink(missing_ok=True)
        self.tally.left_behind = sorted({entry.name for entry in self.folder.iterdir()} - self.kept)


def main() -> None:
    """Run all parts and print the figures."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawTextHelpFormatter)
    parser.add_argument("--json", action="store_true", help="print JSON (it always does)")
    parser.add_argument("--each", type=int, default=500, help="files of each kind")
    for kind in KINDS:
        parser.add_argument(f"--{kind}", type=int, help=f"files of the kind {kind}")
    parser.add_argument("--kills", type=int, default=40)
    parser.add_argument("--seed", type=int, default=1)
    options = vars(parser.parse_args())
    signal.signal(signal.SIGTERM, signal.default_int_handler)
    temporary = set(os.listdir(tempfile.gettempdir()))
    found: dict[str, Any] = {}
    with tempfile.TemporaryDirectory(prefix="hostile-") as outer:
        start, work = Path(outer) / "start", Path(outer) / "work"
        start.mkdir()
        work.mkdir()
        shop_run = made(start)
        counts = {
            kind: options["each"] if (asked := options[kind.replace("-", "_")]) is None else asked
            for kind in KINDS
        }
        all_mutants = {
            kind: Mutants(kind, options["seed"], shop_run, work / kind)
            for kind, count in counts.items()
            if count
        }
        try:
            for number in range(ROUNDS):
                for kind, mutants in all_mutants.items():
                    mutants.go_on(counts[kind] * (number + 1) // ROUNDS - counts[kind] * number // ROUNDS)
                told = {
                    kind: (one.tally.files, dict(one.tally.failures)) for kind, one in all_mutants.items()
                }
                print(json.dumps(told), file=sys.stderr, flush=True)
        except KeyboardInterrupt:
            print("stopped; the counts are what was done", file=sys.stderr)
        found |= {kind: one.tally.figures() for kind, one in all_mutants.items()}
        found["family_peak_mib"] = max(
            (one.tally.own_peak_mib + one.tally.reader_peak_mib for one in all_mutants.values()), default=0
        )
        if options["kills"]:
            found["kills"] = kills(options["kills"], random.Random(options["seed"]), shop_run, work)
    ask._close_all()
    found["left_in_temp"] = sorted(
        name for name in set(os.listdir(tempfile.gettempdir())) - temporary if "rollwright" in name
    )
    print(json.dumps(found, indent=1))


if __name__ == "__main__":
    main()
