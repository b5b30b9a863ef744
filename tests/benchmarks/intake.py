"""Reading order sheets: the corpus, fuzzing, hostile files and speed.

python -m tests.benchmarks.intake --json [--rows second seventh] [--workers 2] [--grammar 100000]
    [--workbooks 2000] [--quotes 2000]
"""

from __future__ import annotations

import argparse
import json
import random
import subprocess
import sys
import tempfile
import time
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path
from typing import Any

from tests.benchmarks.hostile_files import HOSTILE
from tests.benchmarks.intake_mutations import added
from tests.benchmarks.intake_mutations import figures as mutations
from tests.benchmarks.intake_reader import counts
from tests.data.sheet_writer import CORPORA
from tests.quoting.intake.fuzzing import fuzz_grammar, fuzz_workbooks
from tests.quoting.intake.reading_check import differences, read_case, silent_guesses
from tests.quoting.intake.rendering import rendered_sheets
from tests.scheduler.commands.fuzz_command import fuzz_quotes

SHARES = 4
ORDERS = Path(__file__).parents[1] / "data" / "orders"
_READ_ONE = """
import sys, time
from quoting.core.errors import InputError
from quoting.intake.read_orders import read_orders
from tests.quoting.intake.small_shop import TODAY, small_shop
try:
    order = read_orders(sys.argv[1], small_shop(), today=TODAY)
    print("read:", len(order.rows), "rows")
except InputError as error:
    print("refused:", error)
print(time.process_time())
with open("/proc/self/status") as status:
    print(next(line.split()[1] for line in status if line.startswith("VmHWM")))
"""


def corpus() -> dict[str, Any]:
    """Read every sheet of the corpus and compare it with its expected reading."""
    sheets = sorted(file for file in ORDERS.iterdir() if file.suffix != ".json")
    wrong = {file.name: found for file in sheets if (found := differences(file))}
    lines = sum(len(read_case(file).drafts) for file in sheets)
    guesses = {file.name: found for file in sheets if (found := silent_guesses(file))}
    return {
        "sheets": len(sheets),
        "lines": lines,
        "read_right": len(sheets) - len(wrong),
        "silent_guesses": sum(len(found) for found in guesses.values()),
        "wrong": wrong,
    }


def hostile() -> list[dict[str, Any]]:
    """Read each hostile file in a process of its own; return its answer, seconds and peak MiB."""
    results = []
    with tempfile.TemporaryDirectory() as folder:
        for name, make in HOSTILE.items():
            file = Path(folder) / name
            make(file)
            results.append({"file": name, **_measured(file)})
            file.unlink()
    return results


def _measured(file: Path) -> dict[str, Any]:
    start = time.perf_counter()
    command = [sys.executable, "-c", _READ_ONE, str(file)]
    done = subprocess.run(command, capture_output=True, text=True, timeout=60, check=False)
    seconds = time.perf_counter() - start
    *said, busy, peak = done.stdout.strip().splitlines() or ["", "0", "0"]
    message = " ".join(said) or done.stderr.strip().splitlines()[-1:]
    return {
        "says": str(message)[:160].replace(str(file.parent), ""),
        "seconds": round(seconds, 2),
        "cpu_seconds": round(float(busy), 2),
        "peak_mib": round(int(peak) / 1024),
        "traceback": done.returncode != 0,
    }


def speed() -> dict[str, float]:
    """Read 10,000 rows x 20 columns."""
    from quoting.intake.read_orders import read_orders  # noqa: PLC0415
    from tests.quoting.intake.long_sheet import write_long_sheet  # noqa: PLC0415
    from tests.quoting.intake.small_shop import TODAY, small_shop  # noqa: PLC0415

    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "long.xlsx"
        write_long_sheet(file, 10_000)
        start, busy = time.perf_counter(), time.process_time()
        order = read_orders(file, small_shop(), today=TODAY)
        return {
            "rows": len(order.rows) - 1,
            "wall_seconds": round(time.perf_counter() - start, 2),
            "cpu_seconds": round(time.process_time() - busy, 2),
        }


def _grammar(seed: str, count: int) -> list[str]:
    return fuzz_grammar(random.Random(seed), count)


def _workbooks(seed: str, count: int) -> list[str]:
    return fuzz_workbooks(random.Random(seed), count, ORDERS)


def _quotes(seed: str, count: int) -> tuple[list[str], list[str], dict[int, int]]:
    return fuzz_quotes(random.Random(seed), count, ORDERS)


def _rendered(seed: str, count: int) -> dict[str, Any]:
    with tempfile.TemporaryDirectory() as folder:
        return rendered_sheets(random.Random(seed), count, Path(folder))


def _shares(count: int) -> list[tuple[int, int]]:
    """Return a count cut into shares of nearly one size, each with its number."""
    return [(share, count // SHARES + (share < count % SHARES)) for share in range(SHARES)]


def measured(options: argparse.Namespace) -> dict[str, Any]:
    """Run all parts, the long ones in shares on so many processes, and return the figures."""
    seed, rows = options.seed, {f"{name}_corpus" for name in options.rows}
    with ProcessPoolExecutor(options.workers) as pool:
        quotes = [pool.submit(_quotes, f"{seed} q{n}", count) for n, count in _shares(options.quotes)]
        books = [pool.submit(_workbooks, f"{seed} w{n}", count) for n, count in _shares(options.workbooks)]
        changed = [pool.submit(mutations, share, SHARES) for share in range(SHARES)]
        drawn = [pool.submit(_rendered, f"{seed} r{n}", count) for n, count in _shares(options.rendered)]
        grammar = [pool.submit(_grammar, f"{seed} g{n}", count) for n, count in _shares(options.grammar)]
        attacked, own = pool.submit(hostile), pool.submit(corpus)
        sets = {name: pool.submit(counts, name, rows=name in rows) for name in CORPORA}
        found: dict[str, Any] = own.result()
        found |= {name: result.result() for name, result in sets.items()}
        found["mutations"] = added(one.result() for one in changed)
        found |= _drawn([one.result() for one in drawn], options.rendered)
        failures = [text for part in (*grammar, *books) for text in part.result()]
        found |= _thrown([one.result() for one in quotes], failures)
        found["hostile"] = attacked.result()
    found["fuzz_inputs"] = {
        "grammar": options.grammar,
        "workbooks": options.workbooks,
        "quotes": options.quotes,
    }
    for name, key in (
        ("seconds", "slowest_seconds"),
        ("cpu_seconds", "slowest_cpu_seconds"),
        ("peak_mib",) * 2,
    ):
        found[f"hostile_{key}"] = max(one[name] for one in found["hostile"])
    found["speed"] = speed()  # alone: the other processes are done
    return found


def _drawn(parts: list[dict[str, Any]], sheets: int) -> dict[str, Any]:
    guesses = [guess for part in parts for guess in part["silent_guesses"]]
    sums = {name: sum(part[name] for part in parts) for name in ("written", "read", "asked")}
    rendered = {**sums, "silent_guesses": len(guesses), "sheets": sheets}
    return {"rendered": rendered, "rendered_examples": guesses[:3]}


def _thrown(parts: list[tuple[list[str], list[str], dict[int, int]]], failures: list[str]) -> dict[str, Any]:
    failures = failures + [text for quotes, _, _ in parts for text in quotes]
    halves = [text for _, half, _ in parts for text in half]
    codes: Counter[int] = Counter()
    for _, _, told in parts:
        codes.update(told)
    return {
        "quote_exit_codes": {str(code): codes[code] for code in sorted(codes)},
        "half_written": len(halves),
        "half_written_examples": halves[:5],
        "tracebacks": len(failures),
        "traceback_examples": failures[:5],
    }


def main() -> None:
    """Run all parts and print the figures."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--json", action="store_true", help="print JSON")
    parser.add_argument("--grammar", type=int, default=100_000, help="texts for the size grammar")
    parser.add_argument("--workbooks", type=int, default=2_000, help="mutated workbooks")
    parser.add_argument("--quotes", type=int, default=2_000, help="mutated workbooks for the quote command")
    parser.add_argument("--rendered", type=int, default=1_000, help="random sheets of known parts")
    names = [name.removesuffix("_corpus") for name in CORPORA]
    parser.add_argument(
        "--rows", nargs="+", choices=names, default=[], help="corpora whose bad rows are listed"
    )
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--workers", type=int, default=2, help="processes that share the work")
    start = time.perf_counter()
    found = measured(parser.parse_args())
    found["seconds"] = round(time.perf_counter() - start, 1)
    print(json.dumps(found, indent=1, ensure_ascii=False))


if __name__ == "__main__":
    main()
