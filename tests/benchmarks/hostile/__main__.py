"""Mutated files through every reader, kills over existing results: figures as JSON.

python -m tests.benchmarks.hostile --json [--each 500] [--xlsx 20000] [--ledgers 20000] ...
    [--kills 40] [--seed 1] [--state FOLDER]

The kinds go round in turn, a hundred files at a time; stopped by Ctrl-C or `kill` it prints what was done by
then. With --state each kind's tally is kept in a folder after every hundred, and a later run goes on from
there; `programs` tells how many files each state of the program was given. `--each` is for every kind that
has no number of its own; 0 leaves it out. Order sheets go through the reader of orders and that of racks.
What is taken is used: a shop's book prices a line, a costing book a whole order, a ledger gives the floor. A
price beyond reason counts as a failure. Set HOSTILE_KEEP to a folder to keep the first file of every kind of
failure.
"""

from __future__ import annotations

import argparse
import hashlib
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
from tests.benchmarks.hostile.shop_run import ROOT, Made, made
from tests.benchmarks.hostile.tally import Tally

BATCH = 100
_OUR_TEMPORARY = ("rollwright", "hostile-reader")


class Mutants:
    """One kind's files, a batch at a time; batch 7 is the same whatever was run before it."""

    def __init__(self, kind: str, options: dict[str, Any], shop_run: Made, folder: Path) -> None:
        self.folder, self.kind, self.seed = folder, kind, options["seed"]
        folder.mkdir()
        self.ending, self.make, self.use = KINDS[kind](shop_run, folder)
        self.kept = {entry.name for entry in folder.iterdir()}
        self.file = Path(options["state"]) / f"{kind}.json" if options["state"] else None
        known = self.file is not None and self.file.exists()
        self.tally = Tally.known(self.file.read_text()) if self.file and known else Tally()
        self.asked = options["each"] if (own := options[kind.replace("-", "_")]) is None else own
        self.program = options["program"]

    def go_on(self) -> None:
        """Write and use one more batch, and keep the tally."""
        rng = random.Random(f"{self.kind} {self.seed} {self.tally.files}")
        path = self.folder / f"file{self.ending}"
        for _ in range(min(BATCH, self.asked - self.tally.files)):
            self.make(rng, path)
            self.tally.take(self.use, path, str(self.tally.files))
            self.tally.programs[self.program] = self.tally.programs.get(self.program, 0) + 1
            path.unlink(missing_ok=True)
        left = {entry.name for entry in self.folder.iterdir()} - self.kept
        self.tally.left_behind = sorted({*self.tally.left_behind, *left})
        if self.file is not None:
            beside = self.file.with_suffix(".part")
            beside.write_text(self.tally.kept())
            os.replace(beside, self.file)


def main() -> None:
    """Run all parts and print the figures."""
    options = _options()
    signal.signal(signal.SIGTERM, signal.default_int_handler)
    temporary = set(os.listdir(tempfile.gettempdir()))
    found: dict[str, Any] = {}
    with tempfile.TemporaryDirectory(prefix="hostile-") as outer:
        start, work = Path(outer) / "start", Path(outer) / "work"
        start.mkdir()
        work.mkdir()
        shop_run = made(start)
        wanted = [kind for kind in KINDS if _asked(options, kind)]
        every = {kind: Mutants(kind, options, shop_run, work / kind) for kind in wanted}
        try:
            while todo := [one for one in every.values() if one.tally.files < one.asked]:
                for mutants in todo:
                    mutants.go_on()
                told = {kind: (one.tally.files, dict(one.tally.failures)) for kind, one in every.items()}
                print(json.dumps(told), file=sys.stderr, flush=True)
        except KeyboardInterrupt:
            print("stopped; the counts are what was done", file=sys.stderr)
        found |= {kind: one.tally.figures() for kind, one in every.items()}
        found["family_peak_mib"] = max(
            (one.tally.own_peak_mib + one.tally.reader_peak_mib for one in every.values()), default=0
        )
        if options["kills"]:
            found["kills"] = kills(options["kills"], random.Random(options["seed"]), shop_run, work)
    ask._close_all()
    found["left_in_temp"] = sorted(
        name for name in set(os.listdir(tempfile.gettempdir())) - temporary if name.startswith(_OUR_TEMPORARY)
    )
    print(json.dumps(found, indent=1))


def _asked(options: dict[str, Any], kind: str) -> bool:
    own = options[kind.replace("-", "_")]
    return bool(options["each"] if own is None else own)


def _options() -> dict[str, Any]:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawTextHelpFormatter)
    parser.add_argument("--json", action="store_true", help="print JSON (it always does)")
    parser.add_argument("--each", type=int, default=500, help="files of each kind")
    for kind in KINDS:
        parser.add_argument(f"--{kind}", type=int, help=f"files of the kind {kind}")
    parser.add_argument("--kills", type=int, default=40)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--state", default="", help="a folder to keep the tallies in, and to go on from")
    options = vars(parser.parse_args())
    if options["state"]:
        Path(options["state"]).mkdir(parents=True, exist_ok=True)
    digest = hashlib.sha256()
    for path in sorted(path for room in ("quoting", "scheduler") for path in (ROOT / room).rglob("*.py")):
        digest.update(path.read_bytes())
    return options | {"program": digest.hexdigest()[:8]}


if __name__ == "__main__":
    main()
