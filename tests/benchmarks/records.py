"""Spoilt records through every command that reads one: no traceback, one message, no nonsense.

`python -m tests.benchmarks.records --count 5000 --json`. Each record has one thing wrong. All are read; those
that are let by go through `why` and `owner`, and `--through` of them through `schedule` and `reprice`, which
write many books, all as a user runs them. A traceback, a message of several lines, and a NaN among what is
said count as failures, and are listed.
"""

from __future__ import annotations

import argparse
import json
import re
import tempfile
import time
from collections import Counter
from pathlib import Path

import openpyxl
from click.testing import CliRunner

from quoting.books.costing import FIRST_ROW, INDEX
from quoting.core import InputError
from quoting.record import read_record
from scheduler.commands import main
from tests.data.records.make import run_order
from tests.data.records.spoilt import spoilt_records

NONSENSE = re.compile(r"\b(nan|inf|infinity)\b", re.I)
MOST_LISTED = 20


class Trial:
    """A small run whose record is spoilt over and over."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.out = run_order(folder)
        self.text = (self.out / "result.json").read_text("utf-8")
        self.spoilt = folder / "spoilt" / "result.json"
        self.spoilt.parent.mkdir()
        self.costing = folder / "costing.xlsx"
        book = openpyxl.load_workbook(next(self.out.glob("costing-*.xlsx")))
        book["Lines"].cell(FIRST_ROW + 1, INDEX["by_hand"] + 1).value = 999
        book["Lines"].cell(FIRST_ROW + 1, INDEX["why_by_hand"] + 1).value = "agreed"
        book.save(self.costing)
        self.counts: Counter[str] = Counter()
        self.failures: list[str] = []
        self.slowest = 0.0
        self._texts = ""  # what the record says itself, such as a customer called "Infinity"

    def one(self, done: str, data: bytes, *, through: bool) -> None:
        """Put one record through the commands."""
        self.spoilt.write_bytes(data)
        self._texts = " ".join(re.findall(r'"([^"]{1,9})"', data.decode(errors="replace")))
        self.counts["records"] += 1
        started = time.process_time()
        try:
            record = read_record(self.spoilt)
        except InputError as error:
            self.counts["refused"] += 1
            self._message(done, "read", str(error))
            return
        except Exception as error:
            self.counts["tracebacks"] += 1
            self.failures.append(f"read, {done}: {type(error).__name__}: {error}"[:200])
            return
        finally:
            self.slowest = max(self.slowest, time.process_time() - started)
        self.counts["let by"] += 1
        for line in record.lines[:3]:
            self._command(done, "why", str(self.spoilt), line.id)
        into = str(self.folder / "into")
        self._command(done, "owner", str(self.spoilt.parent), "--out", into, "--force")
        if through:
            shop, how = str(self.folder / "shop"), ("--out", into, "--force")
            self._command(done, "schedule", str(self.spoilt), "--shop", shop, "--effort", "quick", *how)
            self._command(
                done,
                "reprice",
                str(self.costing),
                "--record",
                str(self.spoilt),
                "--today",
                "2026-12-02",
                *how,
            )

    def _command(self, done: str, *arguments: str) -> None:
        name = arguments[0]
        self.counts[name] += 1
        started = time.process_time()
        result = CliRunner().invoke(main, list(arguments))
        self.slowest = max(self.slowest, time.process_time() - started)
        if result.exception is not None and not isinstance(result.exception, SystemExit):
            self.counts["tracebacks"] += 1
            what = f"{type(result.exception).__name__}: {result.exception}"
            self.failures.append(f"{name}, {done}: {what}"[:200])
        elif result.exit_code not in {0, 1, 2}:  # 70 stands for a traceback that was caught
            self.counts["tracebacks"] += 1
            self.failures.append(f"{name}, {done}: exit code {result.exit_code}: {result.stderr}"[:300])
        elif result.exit_code == 2:
            self.counts[f"{name} refused"] += 1
            self._message(done, name, result.stderr.strip().splitlines()[-1])
        elif NONSENSE.search(result.stdout) and not NONSENSE.search(self._texts):
            self.counts["nonsense"] += 1
            self.failures.append(f"{name}, {done}: {result.stdout[:100]}"[:200])

    def _message(self, done: str, name: str, text: str) -> None:
        if "\n" in text or len(text) > 900:
            self.counts["messages of several lines"] += 1
            self.failures.append(f"{name}, {done}: {text}"[:200])


def measure(count: int, through: int, seed: int) -> dict[str, object]:
    """Return how many of `count` spoilt records were refused, let by, and failed."""
    with tempfile.TemporaryDirectory() as folder:
        trial = Trial(Path(folder))
        for done, data in spoilt_records(trial.text, count, seed):
            trial.one(done, data, through=trial.counts["schedule"] < through)
        counts = {"tracebacks": 0, "nonsense": 0, **trial.counts}
        slowest = round(trial.slowest, 2)
        return {"counts": counts, "slowest_seconds": slowest, "failures": trial.failures[:MOST_LISTED]}


if __name__ == "__main__":
    parser = argparse.ArgumentParser()
    parser.add_argument("--count", type=int, default=5000)
    parser.add_argument("--through", type=int, default=300)
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--json", action="store_true")
    asked = parser.parse_args()
    found = measure(asked.count, asked.through, asked.seed)
    print(json.dumps(found, indent=1) if asked.json else found)
