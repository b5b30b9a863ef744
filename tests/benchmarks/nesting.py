"""How good and how fast nesting is: `python -m tests.benchmarks.nesting --set classes|money|scale --json`.

classes: the 500 instances of Berkey & Wang 1987 and Martello & Vigo 1998, made again by their rules
(`tests.benchmarks.rectangle_classes`), plates of equal cost, no margins; best published totals of bins from
`tests/data/published/rectangles`. `--data`: another folder with instances.txt and best_known.csv; when these
are not there, the set is skipped with a line that says so. With `--rectpack` every instance is also given to
the library rectpack, setting after setting, for the processor time ours took (at least one setting). money:
invented groups of blanks, sizes to buy and remnants; beside them the cheapest single size, by us and by
rectpack (best of its settings, see `tests.benchmarks.rectpack_runs`). A group counts as proven when cost and
bound differ by no more than the cents that drop values are rounded by. scale: 2,000 invented blanks in one
group. Seconds are processor time of this process; `wall` is what the clock says.
"""

from __future__ import annotations

import argparse
import csv
import json
import resource
import time
from collections.abc import Iterator
from dataclasses import asdict, dataclass, replace
from decimal import Decimal
from pathlib import Path
from random import Random
from typing import Any

from quoting.core import Effort, Rectangle
from quoting.nesting import CuttingRule, DropRule, Nest, NestPlate, NestProblem, Piece, nest
from tests.benchmarks.rectangle_classes import Instance, rectangle_classes
from tests.benchmarks.rectpack_runs import MISSING, cheapest_cost, fewest_bins, library

DATA = Path(__file__).resolve().parents[1] / "data" / "published" / "rectangles"


@dataclass(frozen=True, slots=True)
class Run:
    """What came out for one instance."""

    name: str
    bins: int
    bound: int
    seconds: float
    wall: float
    rectpack: int | None = None


def read_classes(folder: Path) -> list[Instance]:
    """Return the class instances of a folder; for the kept data those made by the rules."""
    if folder == DATA:
        return rectangle_classes()
    found = []
    for line in (folder / "instances.txt").read_text().splitlines():
        name, _, width, height, *items = line.split(";")
        if not name.startswith("cl"):
            continue
        sizes = [tuple(int(v) for v in item.split(",")) for item in items]
        rows = tuple((s[0], s[1], s[2] if len(s) > 2 else 1) for s in sizes)
        found.append(Instance(name, (int(width), int(height)), rows))
    return found


def best_known(folder: Path, rotation: bool) -> dict[tuple[int, int], int]:
    """Return the best published total of bins of each class and number of items (ten instances)."""
    column = "best_total_bins_rotation" if rotation else "best_total_bins_no_rotation"
    with (folder / "best_known.csv").open() as file:
        return {(int(row["class"]), int(row["items"])): int(row[column]) for row in csv.DictReader(file)}


def class_problem(instance: Instance, rotation: bool, guillotine: bool) -> NestProblem:
    """Return the instance as plates of price 1 without margins; x is the instance's width."""
    pieces = tuple(
        Piece(f"i{k}", Rectangle(height, width), count, turn=rotation)
        for k, (width, height, count) in enumerate(instance.items)
    )
    plate = NestPlate("bin", instance.bin[1], instance.bin[0], None, Decimal(1))
    if guillotine:
        cutting = CuttingRule("shear", mill_trim_mm=0, stages=99)
    else:
        cutting = CuttingRule("thermal", kerf_mm=0, spacing_mm=0, edge_margin_mm=0, mill_trim_mm=0)
    return NestProblem(pieces, (plate,), cutting, DropRule(value_share=Decimal(0)))


def run_classes(args: argparse.Namespace) -> dict[str, Any]:
    """Nest the class instances and total the bins."""
    if args.data != DATA and not (args.data / "instances.txt").exists():
        return {"skipped": f"no instances in {args.data}; give their folder with --data"}
    instances = [one for one in read_classes(args.data) if not args.classes or one.cell[0] in args.classes]
    if args.names:
        wanted = set(args.names.read_text().split())
        instances = [one for one in instances if one.name in wanted]
    instances = instances[:: args.every][: args.limit or None]
    for instance in read_classes(args.data)[::125]:  # so that compiling is not counted
        nest(class_problem(instance, args.rotation, args.guillotine), effort="normal")
    runs = []
    for instance in instances:
        runs.append(_timed(instance, args))
        if args.verbose:
            print(json.dumps(asdict(runs[-1])), flush=True)
    complete = not args.limit and args.every == 1 and not args.names
    cells = {one.cell for one in instances}
    known = best_known(args.data, args.rotation)
    bins, bound = sum(run.bins for run in runs), sum(run.bound for run in runs)
    return {
        "set": "classes",
        "rotation": args.rotation,
        "guillotine": args.guillotine,
        "effort": args.effort,
        "instances": len(runs),
        "bins": bins,
        "best_known": sum(known[cell] for cell in cells) if complete else None,
        "bound": bound,
        "proven": sum(run.bins == run.bound for run in runs),
        "gap": sum((run.bins - run.bound) / run.bins for run in runs) / len(runs),
        "seconds": round(sum(run.seconds for run in runs), 1),
        "slowest": max(run.seconds for run in runs),
        "slowest_wall": max(run.wall for run in runs),
        **_against_rectpack(args, runs),
    }


def _against_rectpack(args: argparse.Namespace, runs: list[Run]) -> dict[str, Any]:
    if not args.rectpack:
        return {}
    if library() is None:
        return {"rectpack_bins": MISSING}
    theirs = [(run.bins, run.rectpack) for run in runs if run.rectpack is not None]
    return {
        "rectpack_bins": sum(other for _, other in theirs),
        "fewer_than_rectpack": sum(own < other for own, other in theirs),
        "more_than_rectpack": sum(own > other for own, other in theirs),
    }


def _timed(instance: Instance, args: argparse.Namespace) -> Run:
    problem = class_problem(instance, args.rotation, args.guillotine)
    wall, start = time.perf_counter(), time.process_time()
    found = nest(problem, effort=args.effort, seed=args.seed)
    seconds, wall = time.process_time() - start, time.perf_counter() - wall
    assert not found.unplaced
    lib = library() if args.rectpack else None
    theirs = None if lib is None else fewest_bins(lib, problem, seconds)
    return Run(
        instance.name, len(found.cut_plates), int(found.bound), round(seconds, 3), round(wall, 3), theirs
    )


SIZES_MM = (
    (1219, 2438),
    (1219, 3048),
    (1250, 2500),
    (1500, 3000),
    (1524, 3048),
    (1524, 6096),
    (1829, 3658),
    (2000, 4000),
    (2000, 6000),
    (2438, 6096),
    (2464, 6096),
    (2500, 12000),
)


def invented_shop(seed: int, blanks: int, groups: int = 8, remnants: int = 40) -> Iterator[NestProblem]:
    """Yield invented groups (materials and thicknesses): blanks, 12 sizes to buy and remnants shared out."""
    random = Random(seed)
    for group in range(groups):
        thickness = random.choice((5, 6, 8, 10, 12, 16, 20, 25))
        per_kg = Decimal(random.randint(100, 160)) / 100
        pieces = tuple(_blank(random, k) for k in range(max(blanks // groups // 2, 1)))
        plates = [
            NestPlate(
                f"buy {w} x {length}",
                w,
                length,
                None,
                _price(w, length, thickness, per_kg),
                edge="mill" if w in (1829, 2464) else "trimmed",
                certified=True,
            )
            for w, length in SIZES_MM
        ]
        for k in range(remnants // groups):
            w, length = random.randint(300, 1500), random.randint(600, 3000)
            price = _price(w, length, thickness, per_kg) / 2
            plates.append(NestPlate(f"remnant {k}", w, length, 1, price, remnant=True))
        cutting = CuttingRule("shear" if thickness <= 6 else "thermal", stages=4, cost_per_m=Decimal(1))
        yield NestProblem(pieces, tuple(plates), cutting, DropRule(), f"group {group}", thickness)


def _blank(random: Random, number: int) -> Piece:
    size = Rectangle(random.randint(200, 1800), random.randint(300, 4500))
    return Piece(f"B{number}", size, random.choice((1, 1, 2, 2, 4)), turn=random.random() < 0.8)


def _price(width: int, length: int, thickness: int, per_kg: Decimal) -> Decimal:
    """Return the price at 7,850 kg/m3, with smaller sheets a little dearer (invented)."""
    kg = Decimal(width * length * thickness) * Decimal("7.85e-6")
    return (kg * per_kg * (1 + Decimal(200_000) / (width * length))).quantize(Decimal("0.01"))


@dataclass(slots=True)
class Money:
    """Totals over the groups."""

    cost: Decimal = Decimal(0)
    bound: Decimal = Decimal(0)
    without_remnants: Decimal = Decimal(0)
    single_size: Decimal = Decimal(0)
    rectpack_single_size: Decimal = Decimal(0)


def run_money(args: argparse.Namespace) -> dict[str, Any]:
    """Nest invented shops with remnants, without them, and on the cheapest single size (rectpack too)."""
    sums, lib = Money(), library()
    start, wall = time.process_time(), time.perf_counter()
    seconds, gaps, proven = [], [], 0
    for seed, blanks in enumerate((30, 60, 120, 400)[: args.limit or None]):
        for problem in invented_shop(args.seed + seed, blanks):
            begun = time.process_time()
            found = nest(problem, effort=args.effort, seed=args.seed)
            seconds.append(time.process_time() - begun)
            assert not found.unplaced
            sums.cost += found.cost
            sums.bound += found.bound
            gaps.append(found.gap)
            cents = sum(len(cut.drops) for cut in found.cut_plates) + 1
            proven += found.cost - found.bound <= Decimal("0.01") * cents
            _add_others(args, problem, found, sums, lib)
    return {
        "set": "money",
        "effort": args.effort,
        "groups": len(seconds),
        **{name: str(value) for name, value in asdict(sums).items()},
        **({"rectpack_single_size": MISSING} if lib is None else {}),
        "gap": float((sums.cost - sums.bound) / sums.cost),
        "mean_gap": sum(gaps) / len(gaps),
        "proven": proven,
        "slowest_group": max(seconds),
        "seconds_nest": round(sum(seconds), 1),
        "seconds": round(time.process_time() - start, 1),
        "wall": round(time.perf_counter() - wall, 1),
    }


def _add_others(
    args: argparse.Namespace, problem: NestProblem, found: Nest, sums: Money, lib: Any | None
) -> None:
    bought = tuple(plate for plate in problem.plates if not plate.remnant)
    no_remnants = replace(problem, plates=bought)
    sums.without_remnants += nest(no_remnants, effort=args.effort, seed=args.seed).cost
    singles = [replace(problem, plates=(plate,)) for plate in bought]
    nests = (nest(single, effort="quick") for single in singles)
    sums.single_size += min(one.cost for one in nests if not one.unplaced)
    if lib is not None:
        costs = [cost for single in singles if (cost := cheapest_cost(lib, single)) is not None]
        fixed = found.cutting_cost if problem.cutting.method == "thermal" else Decimal(0)
        sums.rectpack_single_size += Decimal(min(costs)).quantize(Decimal("0.01")) + fixed


def run_scale(args: argparse.Namespace) -> dict[str, Any]:
    """Nest one group of 2,000 pieces."""
    problem = next(invented_shop(args.seed, 2 * 8 * 1100, remnants=80))
    pieces, count = [], 0
    for piece in problem.pieces:
        if count >= args.pieces:
            break
        pieces.append(replace(piece, quantity=min(piece.quantity, args.pieces - count)))
        count += pieces[-1].quantity
    problem = replace(problem, pieces=tuple(pieces))
    start, wall = time.process_time(), time.perf_counter()
    found = nest(problem, effort=args.effort, seed=args.seed)
    return {
        "set": "scale",
        "effort": args.effort,
        "pieces": sum(len(cut.placements) for cut in found.cut_plates),
        "plates": len(found.cut_plates),
        "cost": str(found.cost),
        "gap": found.gap,
        "seconds": round(time.process_time() - start, 1),
        "wall": round(time.perf_counter() - wall, 1),
        "peak_mb": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024,
    }


def main() -> None:
    """Read the options, run one set, print the figures."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawTextHelpFormatter)
    parser.add_argument("--set", choices=("classes", "money", "scale"), default="classes")
    parser.add_argument("--rotation", action="store_true")
    parser.add_argument("--guillotine", action="store_true")
    efforts: tuple[Effort, ...] = ("quick", "normal", "thorough")
    parser.add_argument("--effort", choices=efforts, default="normal")
    parser.add_argument("--limit", type=int, default=0, help="only so many instances (0: all)")
    parser.add_argument("--every", type=int, default=1, help="only every so-manieth instance")
    parser.add_argument("--names", type=Path, help="only the instances named in this text file")
    parser.add_argument("--classes", type=int, nargs="*", help="only these classes")
    parser.add_argument("--rectpack", action="store_true", help="the library rectpack on the classes too")
    parser.add_argument("--pieces", type=int, default=2000, help="for --set scale")
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--data", type=Path, default=DATA)
    parser.add_argument("--verbose", action="store_true", help="a line for each instance")
    parser.add_argument("--json", action="store_true")
    args = parser.parse_args()
    result = {"classes": run_classes, "money": run_money, "scale": run_scale}[args.set](args)
    if args.json:
        print(json.dumps(result, indent=1))
    else:
        print("\n".join(f"{name}: {value}" for name, value in result.items()))


if __name__ == "__main__":
    main()
