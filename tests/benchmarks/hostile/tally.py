"""What one kind of file did: refusals, tracebacks, time, memory, ends of the reader."""

from __future__ import annotations

import faulthandler
import json
import os
import random
import re
import time
import traceback
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field, fields
from pathlib import Path
from typing import Any

from quoting.core import RollwrightError
from quoting.tables.child import ask

LONGEST_SECONDS = 600
"""On the clock: so many files together that take longer end the program, with a trace of where it was."""
_TOGETHER = 50
_TICKS = os.sysconf("SC_CLK_TCK")
Use = Callable[[Path], object]
"""Uses a file; returns what is wrong with what came of it."""
Make = Callable[[random.Random, Path], None]
"""Writes a mutated file."""


@dataclass(slots=True)
class Tally:
    """What one kind of file did."""

    files: int = 0
    refused: int = 0
    readers_ended: int = 0
    failures: Counter[str] = field(default_factory=Counter)
    examples: dict[str, str] = field(default_factory=dict)
    slowest: float = 0.0
    reader_peak_mib: int = 0
    own_peak_mib: int = 0
    seconds: float = 0.0
    left_behind: list[str] = field(default_factory=list)
    programs: dict[str, int] = field(default_factory=dict)

    def take(self, use: Use, path: Path, note: str) -> None:
        """Use one file and note how it went."""
        if self.files % _TOGETHER == 0:
            faulthandler.dump_traceback_later(LONGEST_SECONDS, exit=True)
            self._look_at_memory()
        self.files += 1
        start, before = time.process_time(), _reader()
        try:
            if found := use(path):
                self._failed(f"nonsense: {str(found)[:40]}", f"{note}: {found}", path)
        except RollwrightError as error:
            self.refused += 1
            self.readers_ended += "reading it broke off" in str(error)
        except Exception as error:
            where = traceback.extract_tb(error.__traceback__)[-1]
            kind = f"{type(error).__name__} {where.filename.rpartition('/')[2]}:{where.lineno}"
            self._failed(kind, f"{note}: {traceback.format_exc(limit=-4)[-900:]}", path)
        after = _reader()
        reader = after[1] - before[1] if after[0] == before[0] else after[1]
        took = time.process_time() - start + reader
        self.seconds += took
        if after[0] != before[0] or took > self.slowest:
            self._look_at_memory()
        self.slowest = max(self.slowest, took)

    def _look_at_memory(self) -> None:
        """Note the highest memory of both processes so far: the system keeps it as long as they live."""
        self.reader_peak_mib = max(self.reader_peak_mib, _peak(_reader()[0]))
        self.own_peak_mib = max(self.own_peak_mib, _peak(os.getpid()))

    def kept(self) -> str:
        """Return the tally as JSON, to go on from later."""
        self._look_at_memory()
        return json.dumps({one.name: getattr(self, one.name) for one in fields(self)})

    @classmethod
    def known(cls, text: str) -> Tally:
        """Return the tally that `kept` wrote."""
        plain = json.loads(text)
        return cls(**plain | {"failures": Counter(plain["failures"])})

    def _failed(self, kind: str, example: str, path: Path) -> None:
        """Count a failure by where it was; the first file of each kind is kept for a look."""
        self.failures[kind] += 1
        if kind not in self.examples:
            self.examples[kind] = example
            if keep := os.environ.get("HOSTILE_KEEP"):
                name = re.sub(r"[^\w.]+", "-", kind)[:80] + path.suffix
                Path(keep, name).write_bytes(path.read_bytes())

    def figures(self) -> dict[str, Any]:
        """Return the tally for JSON."""
        return {
            "files": self.files,
            "refused": self.refused,
            "tracebacks_or_nonsense": sum(self.failures.values()),
            "by_place": dict(self.failures.most_common(12)),
            "examples": list(self.examples.values())[:6],
            "readers_ended": self.readers_ended,
            "slowest_cpu_seconds": round(self.slowest, 2),
            "cpu_seconds_in_all": round(self.seconds, 1),
            "reader_peak_mib": self.reader_peak_mib,
            "own_peak_mib": self.own_peak_mib,
            "left_behind": self.left_behind,
            "programs": self.programs,
        }


def _reader() -> tuple[int, float]:
    """Return process id and processor seconds of the reading process that is at work."""
    for reader in ask._readers:
        pid = reader._process.pid
        try:
            times = Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()
        except OSError:
            continue
        return pid, (int(times[11]) + int(times[12])) / _TICKS
    return 0, 0.0


def _peak(pid: int) -> int:
    try:
        found = re.search(r"VmHWM:\s*(\d+)", Path(f"/proc/{pid}/status").read_text())
    except OSError:
        return 0
    return int(found.group(1)) // 1024 if found else 0
