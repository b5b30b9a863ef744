"""How good the sequencers are: published instances and an invented week.

python -m tests.benchmarks.sequence --set atsp|setups|week|jobshop [--limit N] [--seconds S] [--workers W]
[--json]
"""

from __future__ import annotations

import argparse
import json
import sys
import time
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import asdict, dataclass
from pathlib import Path

from scheduler.sequence import Stop
from scheduler.sequence.cpsat import improve
from scheduler.sequence.one_row import one_row_search
from scheduler.sequence.rules import apparent_tardiness_cost, date_order, in_order
from scheduler.sequence.tables import TICKS, Tables, tables
from scheduler.sequence.timing import Timed
from scheduler.sequence.tour import shortest_tour

from .instances import ATSP_OPTIMA, DEFAULT_DATA, read_atsp, read_reference, read_setups


@dataclass(frozen=True)
class Row:
    """One instance: what was reached, what is known, and other sequencers on it."""

    instance: str
    value: float
    reference: float | None
    bound: float
    proven: bool
    seconds: float
    others: dict[str, float]


def setups(data: Path, limit: int, seconds: float, workers: int, plain: float) -> Iterator[Row]:
    """One machine with weighted tardiness: the search, the hand rules, and for `plain` seconds the
    constraint model alone."""
    folder = data / "setups"
    reference = read_reference(folder)
    names = sorted(reference, key=lambda name: int(name.split("_")[2].split(".")[0]))
    with ProcessPoolExecutor(workers) as pool:
        for name in names[:: max(1, len(names) // limit)] if limit else names:
            t = tables(read_setups(folder / name))
            begin = time.monotonic()
            jobs = [pool.submit(_one_row, folder / name, seconds, seed) for seed in range(workers)]
            value = min(j.result() for j in jobs)
            spent = time.monotonic() - begin
            others = {
                "apparent tardiness cost": apparent_tardiness_cost(t).total / TICKS,
                "date order": in_order(t, date_order(t)).total / TICKS,
            }
            bound = 0
            if plain:
                answer = improve(t, None, Stop(work=1e9, seconds=plain, workers=1))
                others["constraint model"] = _total(answer.timed)
                bound = answer.bound // TICKS
            yield Row(name, value, reference[name], bound, value == bound, spent, others)


def atsp(data: Path, limit: int, seconds: float, workers: int) -> Iterator[Row]:
    """Set-ups alone, as a closed tour."""
    folder = data / "atsp"
    shortest_tour(read_atsp(folder / "br17.atsp"), Stop(work=1.0))  # compile outside the clock
    for name in list(ATSP_OPTIMA)[: limit or None]:
        cost = read_atsp(folder / f"{name}.atsp")
        begin = time.monotonic()
        tour = shortest_tour(cost, Stop(iterations=10**6, work=1e9, seconds=seconds, workers=workers))
        spent = time.monotonic() - begin
        yield Row(name, tour.length, ATSP_OPTIMA[name], tour.bound, tour.proven, spent, {})


def _total(timed: Timed | None) -> float:
    return float("inf") if timed is None else timed.total / TICKS


def _one_row(path: Path, seconds: float, seed: int) -> float:
    t: Tables = tables(read_setups(path))
    start = apparent_tardiness_cost(t)
    return one_row_search(t, start, Stop(iterations=10**9, seconds=seconds), seed).best.total / TICKS


def main() -> None:
    """Run one set and print a line for each instance and the sums."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--set", choices=("atsp", "setups"), required=True)
    parser.add_argument("--limit", type=int, default=0)
    parser.add_argument("--seconds", type=float, default=30.0)
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--plain", type=float, default=0.0, help="seconds for the plain constraint model")
    parser.add_argument("--data", type=Path, default=DEFAULT_DATA)
    parser.add_argument("--json", action="store_true")
    options = parser.parse_args()
    if not options.data.is_dir():
        print(f"skipped: no instances in {options.data}; pass --data", file=sys.stderr)
        return
    rows = []
    found = (
        atsp(options.data, options.limit, options.seconds, options.workers)
        if options.set == "atsp"
        else setups(options.data, options.limit, options.seconds, options.workers, options.plain)
    )
    for row in found:
        rows.append(row)
        print(json.dumps(asdict(row)) if options.json else row, flush=True)
    known = [r for r in rows if r.reference is not None]
    total = {
        "instances": len(rows),
        "value": sum(r.value for r in known),
        "reference": sum(r.reference or 0 for r in known),
        "proven": sum(r.proven for r in rows),
        "seconds": round(sum(r.seconds for r in rows), 1),
        "others": {k: sum(r.others.get(k, 0.0) for r in rows) for k in (rows[0].others if rows else {})},
    }
    print(json.dumps(total) if options.json else total)


if __name__ == "__main__":
    main()
