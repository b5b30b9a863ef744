"""Commands ended by force at random moments over the results of an earlier run: one whole set must be left.

Every command is first run to its end, over the results of the other of two variants, and what then stands
in its folder is noted, each file by its content. After a kill the folder, once the next command has looked at
it, must hold one of the two, to the byte. Commands on the ledger are killed in a copy of the shop: the ledger
must have all of it or nothing, and the folder the papers that belong to it. A command runs in a fork of this
process, which has loaded all libraries, so that the moments fall into its work.
"""

from __future__ import annotations

import hashlib
import os
import random
import shutil
import signal
import sqlite3
import time
from collections.abc import Callable, Sequence
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import openpyxl

from quoting.books import settled
from quoting.books.costing import FIRST_ROW, INDEX, SHEET
from tests.benchmarks.hostile.shop_run import DEMO, MOMENT, Made, command

Arguments = Sequence[object]
State = dict[str, str]


@dataclass(slots=True)
class Killed:
    """One command's kills."""

    runs: int = 0
    met: int = 0
    broken: list[str] | None = None


def kills(count: int, rng: random.Random, made: Made, folder: Path) -> dict[str, Any]:
    """Kill `count` commands, shared out evenly, and return what was met and what was broken."""
    jobs = {
        "run": _variants(folder, "run", _run_variants(made)),
        "schedule": _variants(folder, "schedule", _schedule_variants(made)),
        "reprice": _variants(folder, "reprice", _reprice_variants(made, folder)),
        "won": _on_ledger(folder, made, "won", ("won", "A-1", "A-2", "--today", "2026-11-30"), "jobs"),
        "plan": _on_ledger(folder, made, "plan", ("plan", "--from", MOMENT), "plans"),
    }
    found: dict[str, Any] = {}
    for number, (name, kill_one) in enumerate(jobs.items()):
        tally = Killed(broken=[])
        assert tally.broken is not None
        for turn in range(count // len(jobs) + (number < count % len(jobs))):
            tally.runs += 1
            met, wrong = kill_one(rng, turn)
            tally.met += met
            if wrong:
                tally.broken.append(f"{turn}: {wrong}")
        found[name] = {"runs": tally.runs, "killed_at_work": tally.met, "broken": len(tally.broken)}
        if tally.broken:
            found[name]["examples"] = tally.broken[:4]
    found["runs"] = sum(one["runs"] for one in found.values())
    found["killed_at_work"] = sum(one["killed_at_work"] for one in found.values() if isinstance(one, dict))
    found["broken"] = sum(one["broken"] for one in found.values() if isinstance(one, dict))
    return found


def _run_variants(made: Made) -> list[list[object]]:
    common = ["run", made.sheet, "--shop", DEMO, "--effort", "quick", "--no-ledger", "--start", "2026-12-02"]
    return [[*common, "--today", day] for day in ("2026-11-30", "2026-12-01")]


def _schedule_variants(made: Made) -> list[list[object]]:
    common = ["schedule", made.record, "--shop", DEMO, "--effort", "quick", "--start"]
    return [[*common, day] for day in ("2026-12-01", "2026-12-02")]


def _reprice_variants(made: Made, folder: Path) -> list[list[object]]:
    books = []
    for number, minutes in enumerate((111, 222)):
        book = openpyxl.load_workbook(made.costing)
        sheet = book[SHEET]
        sheet.cell(FIRST_ROW + 1, INDEX["rolling_minutes"] + 1).value = minutes
        books.append(folder / f"changed-{number}.xlsx")
        book.save(books[-1])
    day = ("--today", "2026-11-30")
    return [["reprice", book, "--record", made.record, *day] for book in books]


def _variants(folder: Path, name: str, variants: list[list[object]]) -> Callable[..., tuple[bool, str]]:
    out = folder / f"killed-{name}"
    states: list[State] = []
    took = 0.0
    for variant in (variants[0], variants[1], variants[0]):
        start = time.monotonic()
        command(*variant, "--out", out, "--force")
        took = time.monotonic() - start
        states.append(_state(out))
    now, states = 0, [states[2], states[1]]
    if states[0] == states[1]:
        raise RuntimeError(f"{name}: both variants write the same")

    def kill_one(rng: random.Random, turn: int) -> tuple[bool, str]:
        nonlocal now
        met = _killed((*variants[1 - now], "--out", out, "--force"), _moment(rng, turn, took))
        settled(out)
        left = _state(out)
        if left not in states:
            wrong = _difference(left, states)
            command(*variants[now], "--out", out, "--force")
            return met, wrong
        now = states.index(left)
        return met, ""

    return kill_one


def _on_ledger(
    folder: Path, made: Made, name: str, arguments: Arguments, table: str
) -> Callable[..., tuple[bool, str]]:
    before = folder / f"before-{name}"
    shutil.copytree(made.shop, before)
    if name == "won":  # as it was before anything was won
        (before / "ledger.db").unlink()
        shutil.rmtree(before / "ledger-copies")
        quote = ("quote", made.sheet, "--shop", before, "--out", folder / "quoted", "--today", "2026-11-30")
        command(*quote, "--effort", "quick", "--customer", "Yard")
    work, out = folder / f"work-{name}", folder / f"killed-{name}"

    def whole(run: Callable[[Arguments], object]) -> tuple[int, State]:
        shutil.rmtree(work, ignore_errors=True)
        shutil.rmtree(out, ignore_errors=True)
        shutil.copytree(before, work)
        run((*arguments, "--shop", work, "--out", out, "--effort", "quick"))
        return _rows(work / "ledger.db", table), _state(out)

    start = time.monotonic()
    had = _rows(before / "ledger.db", table)
    after = whole(lambda asked: command(*asked))
    took = time.monotonic() - start

    def kill_one(rng: random.Random, turn: int) -> tuple[bool, str]:
        met = False

        def run(asked: Arguments) -> None:
            nonlocal met
            met = _killed(asked, _moment(rng, turn, took))
            if out.exists():
                settled(out)

        rows, left = whole(run)
        if (rows, left) == (had, {}) or (rows, left.keys()) == (after[0], after[1].keys()):
            return met, ""
        return met, f"{rows} rows of {table}, {had} before, {after[0]} after; {len(left)} files"

    return kill_one


def _rows(ledger: Path, table: str) -> int:
    with closing(sqlite3.connect(ledger)) as connection:
        (sound,) = connection.execute("PRAGMA integrity_check").fetchone()
        (count,) = connection.execute(f"SELECT count(*) FROM {table}").fetchone()
    return int(count) if sound == "ok" else -1


def _moment(rng: random.Random, turn: int, took: float) -> float:
    """Return after how many seconds a command is ended: half of them late, where files are put in place."""
    return took * (rng.uniform(0, 1) if turn % 2 else rng.uniform(0.8, 1.1))


def _killed(arguments: Arguments, after: float) -> bool:
    """Run a command in a fork, end it by force; return whether it was still at work."""
    child = os.fork()
    if child == 0:
        try:
            devnull = os.open(os.devnull, os.O_RDWR)
            for stream in (1, 2):
                os.dup2(devnull, stream)
            command(*arguments)
        finally:
            os._exit(0)
    time.sleep(after)
    ended, _ = os.waitpid(child, os.WNOHANG)
    if ended:
        return False
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return True


def _state(out: Path) -> State:
    """Return every file of a folder by its content; what a run leaves of itself must not be there."""
    files = {path.relative_to(out).as_posix(): path for path in sorted(out.rglob("*")) if path.is_file()}
    return {
        name: hashlib.sha256(path.read_bytes()).hexdigest()
        for name, path in files.items()
        if not name.startswith((".staging", ".rollwright.lock"))
    }


def _difference(left: State, states: list[State]) -> str:
    told = []
    for state in states:
        names = [name for name in left.keys() | state.keys() if left.get(name) != state.get(name)]
        told.append(f"{len(names)} of {len(state)} differ, {sorted(names)[:3]}")
    return "; ".join(told)
