"""What learning from lot totals is worth, on seeded shops whose true minutes differ from the book by step.

Run as `python -m tests.benchmarks.learning --json [--shops 12] [--wild 0.0] [--drift 0.0]`. Each shop is off
the book by a share of its own for every setting, with something in common for all work of a kind. Jobs are
drawn at random; of each only the total of set-up and rolling is known, scattered by lot, by piece and by who
was at the roll.
After 20, 100 and 500 jobs the minutes of 150 jobs that nobody has seen are foretold and held against their
true mean: by the book as it is (never), by the book times what the last job was off by, times the plain
average of all jobs, times the average of jobs of that shape, and by the learnt book. `steps` is the same by
step: minutes of each step over those jobs, weighted by size; load and unload always come together, so they
count as one step. `margin` is by how many points the margin misses the one that was priced. With `--drift`
all work of a kind took other minutes until three fifths of the jobs were done (a new operator), three jobs a
day, and the learnt book stands there once for each half life of figures.
"""

from __future__ import annotations

import argparse
import json
import time
from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from pathlib import Path

import numpy as np

from quoting.blanks import HowCut, SplitLimits, develop, sensible_splits
from quoting.core import Arc, Basis, Cone, Cylinder, Ends, Shape
from quoting.hindsight import (
    BookPlace,
    LearnRules,
    Learnt,
    LotDone,
    learn,
    rolling_by_setting,
    setup_by_setting,
)
from quoting.labour import HandlingTask, PieceSize, choose_lift
from quoting.shop import Shop, load_shop

DEMO = Path(__file__).resolve().parents[2] / "demo_orders" / "shop"
AFTER = (20, 100, 500)
UNSEEN = 150
COMMON, COMMON_SD, OWN_SD, TIMED_SD = 0.08, 0.18, 0.28, 0.04
LOT_CV, PIECE_CV, CREW_SD = 0.12, 0.30, 0.06
MARGIN, MINUTE, KG = 0.30, 1.6, 1.5
HALF_LIVES = (45, 90, 180, 365)
NEAR = 5
_LAST = date(2026, 11, 30)
_ONE_STEP = {"load": "load and unload", "unload": "load and unload", "turn": "turn", "pre_bend": "turn"}


@dataclass(frozen=True, slots=True)
class DrawnJob:
    """One job: its minutes by setting as the book has them, pieces, shape, weight of all pieces, kg."""

    by_setting: Mapping[BookPlace, float]
    pieces: int
    shape: str
    kg: float


def drawn_job(rng: np.random.Generator, shop: Shop) -> DrawnJob:
    """Return a job at random: nine in ten cylinders and arcs, one in ten a cone."""
    thickness = float(rng.choice((3.0, 4.76, 6.35, 9.53, 12.7, 19.05)))
    diameter, length = float(rng.uniform(500, 2500)), float(rng.uniform(300, 2400))
    kind = rng.random()
    shape: Shape = Cylinder(diameter, Basis.INSIDE, length)
    if kind > 0.9:
        shape = Cone(diameter, diameter * float(rng.uniform(0.5, 0.8)), Basis.INSIDE, length / 2)
    elif kind > 0.7:
        shape = Arc(diameter / 2, Basis.INSIDE, float(rng.uniform(40, 180)), length)
    courses, seams = sensible_splits(shape, thickness, SplitLimits(widest_mm=2438.0, longest_mm=6096.0))[0]
    ends = Ends.PRE_BEND if rng.random() < 0.75 else Ends.LEAVE_FLAT
    plan = develop(
        shape, thickness, 7850.0, ends=ends, how=HowCut(courses=courses, seams=seams, weld_gap_mm=1.6)
    )
    quantity = int(rng.choice((1, 1, 2, 4, 10)))
    passes = int(rng.integers(1, 7))
    roll = shop.rolls[int(rng.integers(len(shop.rolls)))].name
    tasks = [
        HandlingTask(
            blank, quantity * blank.per_part, passes, ends is Ends.PRE_BEND,
            choose_lift(blank.weight_kg, thickness, PieceSize.of(blank), shop.lifting), 4500.0,
            passes_repeat=max(1, passes - 2), tack=bool(rng.random() < 0.3),
        )
        for blank in plan.blanks
    ]  # fmt: skip
    minutes = rolling_by_setting(tasks, roll, shop, re_round=False)
    minutes |= setup_by_setting(_setup(rng, thickness), shop.setups)
    pieces = sum(task.quantity for task in tasks)
    kg = sum(task.blank.weight_kg * task.quantity for task in tasks)
    return DrawnJob(minutes, pieces, type(shape).__name__, kg)


def _setup(rng: np.random.Generator, thickness: float) -> dict[str, float]:
    if rng.random() < 0.15:
        return {"same": 1.0}
    counts = {"first_off": 1.0}
    if rng.random() < 0.7:
        counts |= {"gap_fixed": 1.0, "gap_per_mm": float(rng.uniform(0.2, 1.0)) * thickness}
    for name, chance in (("bending_roll", 0.8), ("cone_tilt", 0.1), ("cleaning", 0.1), ("crane_rig", 0.25)):
        if rng.random() < chance:
            counts[name] = 1.0
    return counts


@dataclass(frozen=True, slots=True)
class TrueShop:
    """A shop as it really is: by what each setting's true minutes are off the book's."""

    off: Mapping[BookPlace, float]

    def minutes(self, job: DrawnJob) -> float:
        """Return the true mean of a job's minutes."""
        return sum(minutes * self.off[place] for place, minutes in job.by_setting.items())


def true_shop(rng: np.random.Generator, jobs: Sequence[DrawnJob]) -> TrueShop:
    """Return a shop that is off the book by setting, with something in common for all work of a kind."""
    places = sorted({place for job in jobs for place in job.by_setting})
    common = {group: rng.normal(COMMON, COMMON_SD) for group in ("set-up", "rolling", "cutting")}
    off = {}
    for place in places:
        timed = place.name == "surface_speed"  # measured with a chalk mark, so the book is near
        off[place] = float(
            np.exp(rng.normal(0, TIMED_SD) if timed else common[place.group] + rng.normal(0, OWN_SD))
        )
    return TrueShop(off)


def lots_of(
    rng: np.random.Generator, jobs: Sequence[DrawnJob], shop: TrueShop, wild: float, earlier: TrueShop
) -> list[LotDone]:
    """Return what was written down of each job: one total, scattered; a share `wild` of them ten times it.

    The first three fifths were done when the shop still was as `earlier`.
    """
    drawn = np.exp(rng.normal(0, CREW_SD, size=4))
    crews = dict(zip("abcd", drawn / drawn.mean(), strict=True))
    found = []
    for number, job in enumerate(jobs):
        crew = str(rng.choice(list(crews)))
        lot = rng.gamma(1 / LOT_CV**2, LOT_CV**2)
        cv = PIECE_CV / np.sqrt(job.pieces)
        then = earlier if number < 0.6 * len(jobs) else shop
        took = then.minutes(job) * crews[crew] * lot * rng.gamma(1 / cv**2, cv**2)
        if rng.random() < wild:
            took *= 10
        day = _LAST - timedelta(days=(len(jobs) - number) // 3)
        found.append(
            LotDone(f"A-{number}", "both", day, float(took), job.by_setting, "", crew=crew, shape=job.shape)
        )
    return found


Foretell = Callable[[DrawnJob], float]


def ways(lots: Sequence[LotDone], learnt: Learnt) -> dict[str, Foretell]:
    """Return how each way foretells a job's minutes from these lots."""
    by_shape: dict[str, list[float]] = defaultdict(list)
    for lot in lots:
        by_shape[lot.shape].append(lot.ratio)
    average = float(np.mean([lot.ratio for lot in lots]))
    shapes = {shape: float(np.mean(ratios)) for shape, ratios in by_shape.items()}

    def book(job: DrawnJob) -> float:
        return sum(job.by_setting.values())

    return {
        "never": book,
        "last job": lambda job: book(job) * lots[-1].ratio,
        "plain average": lambda job: book(job) * average,
        "average by shape": lambda job: book(job) * shapes.get(job.shape, average),
        "learnt": lambda job: sum(m * learnt.of(place) for place, m in job.by_setting.items()),
    }


def misses(jobs: Sequence[DrawnJob], shop: TrueShop, foretell: Foretell) -> tuple[float, float]:
    """Return the mean error of minutes, and the mean miss of the priced margin, both in per cent."""
    errors, points = [], []
    for job in jobs:
        true, told = shop.minutes(job), foretell(job)
        errors.append(abs(told / true - 1))
        price = (job.kg * KG + told * MINUTE) / (1 - MARGIN)
        points.append(abs((price - job.kg * KG - true * MINUTE) / price - MARGIN))
    return 100 * float(np.mean(errors)), 100 * float(np.mean(points))


def step_miss(jobs: Sequence[DrawnJob], shop: TrueShop, off: Callable[[BookPlace], float]) -> float:
    """Return the mean error of the minutes of steps over some jobs, weighted by their size, per cent."""
    true: dict[tuple[str, str], float] = defaultdict(float)
    told: dict[tuple[str, str], float] = defaultdict(float)
    for job in jobs:
        for place, minutes in job.by_setting.items():
            step = (place.table, _ONE_STEP.get(place.name, place.name))
            true[step] += minutes * shop.off[place]
            told[step] += minutes * off(place)
    return 100 * sum(abs(told[step] - true[step]) for step in true) / sum(true.values())


def one_shop(
    seed: int, book: Shop, wild: float, drift: float = 0.0
) -> dict[int, dict[str, dict[str, float]]]:
    """Return by number of jobs and way: error of minutes, of steps, and of the margin, per cent."""
    rng = np.random.default_rng(seed)
    jobs = [drawn_job(rng, book) for _ in range(max(AFTER) + UNSEEN)]
    seen, unseen = jobs[: max(AFTER)], jobs[max(AFTER) :]
    shop = true_shop(rng, jobs)
    earlier = shop
    if drift:
        groups = sorted({place.group for place in shop.off})
        changed = {group: float(np.exp(rng.normal(0, drift))) for group in groups}
        earlier = TrueShop({place: off * changed[place.group] for place, off in shop.off.items()})
    lots = lots_of(rng, seen, shop, wild, earlier)
    found: dict[int, dict[str, dict[str, float]]] = {}
    for after in AFTER:
        known = lots[:after]
        learnt = learn(known, LearnRules(known[-1].day, half_life_days=1e6))
        average = float(np.mean([lot.ratio for lot in known]))
        off: dict[str, Callable[[BookPlace], float]] = {
            "never": lambda _: 1.0,
            "last job": lambda _, last=known[-1].ratio: last,  # type: ignore[misc]
            "plain average": lambda _, average=average: average,  # type: ignore[misc]
            "learnt": learnt.of,
        }
        found[after] = {}
        for name, foretell in ways(known, learnt).items():
            minutes, margin = misses(unseen, shop, foretell)
            found[after][name] = {"minutes": minutes, "margin": margin}
            if name in off:
                found[after][name]["steps"] = step_miss(unseen, shop, off[name])
        for days in HALF_LIVES if drift else ():
            aged = ways(known, learn(known, LearnRules(known[-1].day, half_life_days=days)))["learnt"]
            minutes, margin = misses(unseen, shop, aged)
            found[after][f"learnt, half life {days} days"] = {"minutes": minutes, "margin": margin}
    return found


def main() -> None:
    """Print the medians over the shops, with the mean and the worst shop of each way."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--shops", type=int, default=12)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--wild", type=float, default=0.0, help="share of totals typed ten times too large")
    parser.add_argument("--drift", type=float, default=0.0, help="by what settings changed on the way, a log")
    parser.add_argument("--json", action="store_true")
    options = parser.parse_args()
    begin = time.perf_counter()
    book = replace(load_shop(DEMO), stock=())
    runs = [
        one_shop(options.seed * 1000 + number, book, options.wild, options.drift)
        for number in range(options.shops)
    ]
    result: dict[str, object] = {"shops": options.shops, "wild": options.wild, "drift": options.drift}
    for after in AFTER:
        table: dict[str, dict[str, float]] = {}
        for name in runs[0][after]:
            row = {
                what: round(float(np.median([run[after][name][what] for run in runs])), 2)
                for what in runs[0][after][name]
            }
            each = [run[after][name]["minutes"] for run in runs]
            row["mean of shops, minutes"] = round(float(np.mean(each)), 2)
            row["worst shop, minutes"] = round(max(each), 2)
            table[name] = row
        rivals = [name for name in table if not name.startswith("learnt")]
        wins = sum(
            all(run[after]["learnt"]["minutes"] < run[after][name]["minutes"] for name in rivals)
            for run in runs
        )
        near = sum(run[after]["learnt"]["minutes"] <= NEAR for run in runs)
        result[f"after {after} jobs"] = table | {
            "shops where learnt beats all": wins,
            f"shops where learnt is within {NEAR} %": near,
        }
    result["seconds"] = round(time.perf_counter() - begin, 1)
    print(json.dumps(result, indent=None if options.json else 1))


if __name__ == "__main__":
    main()
