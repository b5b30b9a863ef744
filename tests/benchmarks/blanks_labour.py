"""Seconds for many lines through development, lifting, minutes, cautions and set-up.

Run as `python -m tests.benchmarks.blanks_labour --json [--lines 5000]`. The lines are drawn at random from a
seed: nine in ten cylinders and arcs, one in ten a cone.
"""

from __future__ import annotations

import argparse
import json
import random
import time

from quoting.blanks import HowCut, SplitLimits, develop, sensible_splits
from quoting.core import Arc, Basis, Cone, Cylinder, Ends, Shape
from quoting.labour import HandlingTask, PieceSize, cautions_for, choose_lift, roll_minutes, typical_setup
from tests.quoting.labour.shop_settings import LABOUR, LIFT_RULES, SETUPS

STEEL_KG_M3 = 7850.0


def draw(rng: random.Random) -> tuple[Shape, float, int]:
    """Return one line: shape, thickness in mm and quantity."""
    thickness = rng.choice((3.0, 4.76, 6.35, 9.53, 12.7, 19.05, 25.4))
    diameter, length = rng.uniform(300, 3000), rng.uniform(200, 3000)
    quantity = rng.choice((1, 1, 2, 4, 10, 25))
    kind = rng.random()
    if kind < 0.7:
        return Cylinder(diameter, rng.choice(tuple(Basis)), length), thickness, quantity
    if kind < 0.9:
        return Arc(diameter / 2, Basis.INSIDE, rng.uniform(20, 180), length), thickness, quantity
    return Cone(diameter, diameter * rng.uniform(0.3, 0.8), Basis.INSIDE, length / 2), thickness, quantity


def cost_line(shape: Shape, thickness: float, quantity: int) -> float:
    """Return the likely roll minutes of one line, set-up included."""
    courses, seams = sensible_splits(shape, thickness, SplitLimits(widest_mm=2438.0, longest_mm=6096.0))[0]
    plan = develop(
        shape,
        thickness,
        STEEL_KG_M3,
        ends=Ends.PRE_BEND,
        how=HowCut(courses=courses, seams=seams, weld_gap_mm=1.6),
    )
    minutes = 0.0
    for blank in plan.blanks:
        lift = choose_lift(blank.weight_kg, thickness, PieceSize.of(blank), LIFT_RULES)
        task = HandlingTask(blank, quantity * blank.per_part, 4, True, lift, 4500.0)
        minutes += roll_minutes(task, LABOUR).total.likely
        minutes += typical_setup(SETUPS, thickness, cone=blank.cone is not None).minutes
        cautions_for(blank, lift, pre_bend=True)
    return minutes


def main() -> None:
    """Print the measured time, as a table row or as JSON."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--lines", type=int, default=5000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--json", action="store_true")
    options = parser.parse_args()
    rng = random.Random(options.seed)
    lines = [draw(rng) for _ in range(options.lines)]
    begin = time.perf_counter()
    minutes = sum(cost_line(*line) for line in lines)
    seconds = time.perf_counter() - begin
    result = {
        "lines": options.lines,
        "seconds": round(seconds, 3),
        "microseconds_per_line": round(seconds / options.lines * 1e6, 1),
        "likely_roll_minutes": round(minutes, 1),
    }
    print(json.dumps(result) if options.json else "  ".join(f"{k} {v}" for k, v in result.items()))


if __name__ == "__main__":
    main()
