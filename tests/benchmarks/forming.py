"""How fast different parts get verdict and pass plan: `python -m tests.benchmarks.forming --json`.

Invented parts, all different, from a seed: each goes through springback, geometry in both directions, loads
at least and at most yield, the verdict with its ways out and the pass plan. One process, one thread.
"""

from __future__ import annotations

import argparse
import json
import time

import numpy as np

from quoting.core import Ends
from quoting.forming import RollTask, assess_many, plan_many
from tests.quoting.forming.shop import MILD, PLAIN, PRE_BEND, RULES, STAINLESS, job, light_roll

SEED = 20_240
ROLL = light_roll(rated=(PRE_BEND, PLAIN))


def invented_tasks(count: int) -> list[RollTask]:
    """Return that many different parts, most of which the roll can do."""
    rng = np.random.default_rng(SEED)
    ends = (Ends.PRE_BEND, Ends.PRE_BEND, Ends.LEAVE_FLAT, Ends.TRIM)
    return [
        job(
            float(rng.uniform(1.2, 6.5)),
            float(rng.uniform(300, 1550)),
            float(rng.uniform(220, 1500)),
            material=STAINLESS if rng.random() < 0.3 else MILD,
            ends=ends[int(rng.integers(len(ends)))],
            first_off=bool(rng.random() < 0.5),
        )
        for _ in range(count)
    ]


def single_seconds(tasks: list[RollTask]) -> float:
    """Return the seconds a single verdict takes, parts one after the other."""
    start = time.perf_counter()
    for task in tasks:
        assess_many((task,), ROLL, RULES)
    return (time.perf_counter() - start) / len(tasks)


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--json", action="store_true", help="print one JSON object")
    parser.add_argument("--parts", type=int, default=10_000)
    options = parser.parse_args()
    tasks = invented_tasks(options.parts)
    assess_many(tasks[:1], ROLL, RULES)
    wall, cpu = time.perf_counter(), time.process_time()
    verdicts = assess_many(tasks, ROLL, RULES)
    plans = plan_many(tasks, ROLL, RULES, verdicts)
    seconds, cpu_seconds = time.perf_counter() - wall, time.process_time() - cpu
    fitting = [task for task, verdict in zip(tasks, verdicts, strict=True) if verdict.ok][:50]
    failing = [task for task, verdict in zip(tasks, verdicts, strict=True) if not verdict.ok][:20]
    result = {
        "parts": len(tasks),
        "seconds": round(seconds, 3),
        "cpu_seconds": round(cpu_seconds, 3),
        "parts_per_second": round(len(tasks) / seconds),
        "can": sum(verdict.ok for verdict in verdicts),
        "passes": sum(len(plan.passes) for plan in plans),
        "single_verdict_ms": round(1000 * single_seconds(fitting), 2),
        "single_refusal_with_ways_out_ms": round(1000 * single_seconds(failing), 2) if failing else None,
    }
    if options.json:
        print(json.dumps(result))
    else:
        for name, value in result.items():
            print(f"{name}: {value}")


if __name__ == "__main__":
    main()
