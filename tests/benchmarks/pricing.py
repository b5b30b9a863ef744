"""How fast lines are priced and their risk is drawn: `python -m tests.benchmarks.pricing --json`.

The lines are invented from a seed. Work is measured in one process, from frozen drivers to prices, and from
bands to percentiles; the import of numpy is shown on its own. Then an order of 300 generated lines goes the
whole way: estimate, risk, what-ifs, costing book, its changes read back, and its formulas worked out again by
headless LibreOffice, with the largest difference to the prices of the run (left out where there is none).
"""

from __future__ import annotations

import argparse
import json
import random
import time
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

from quoting.pricing import (
    CostDrivers,
    Drawing,
    RiskInput,
    RiskRules,
    allocate,
    break_prices,
    price_line,
    simulate,
)
from quoting.shop import Band
from tests.benchmarks import recalculation
from tests.quoting.pricing.samples import CUTTING, RATES, RULES

SEED = 20_240


def invented_drivers(count: int) -> list[CostDrivers]:
    """Return that many invented lines."""
    rng = random.Random(SEED)

    def money(most: float) -> Decimal:
        return Decimal(f"{rng.uniform(0, most):.2f}")

    return [
        CostDrivers(
            quantity=rng.choice((1, 1, 2, 3, 4, 6, 10, 25)),
            plate_cost=money(4000),
            drop_credit=money(200),
            cutting_cost=money(300),
            edge_m=rng.uniform(0, 40),
            setup_minutes=rng.uniform(2, 45),
            rolling_minutes=rng.uniform(15, 600),
            crew=rng.choice((1, 2, 2, 3)),
            crane_minutes=rng.uniform(0, 90),
            outside_cost=money(100),
            certificate=rng.random() < 0.2,
            roll_rate=Decimal(95),
        )
        for _ in range(count)
    ]


def invented_risk(index: int, drivers: CostDrivers) -> RiskInput:
    """Return a line with scatter in everything that can scatter."""
    likely = drivers.rolling_minutes
    return RiskInput(
        line=f"L{index}",
        drivers=drivers,
        price=price_line(drivers, RATES, RULES, CUTTING).extended,
        setup=Band(0.7, 1.0, 1.8).times(drivers.setup_minutes),
        rolling=Band(0.8, 1.0, 1.6).times(likely),
        re_roll=Band(0.1, 0.15, 0.3).times(likely / drivers.quantity),
        extra_pass_minutes=likely / 8,
        used=0.3 + 0.65 * (index % 20) / 20,
        re_roll_chance=0.1,
        scrap_chance=0.02,
        lost_piece=drivers.plate_cost / drivers.quantity,
        piece_kg=10.0 * (index % 300),
        thickness_mm=6 + index % 20,
        width_mm=2400,
        yield_ratio=Band(0.85, 1.0, 1.25),
        thickness_ratio=Band(0.99, 1.01, 1.06),
    )


def seconds(work: Callable[[], object]) -> float:
    """Return the wall seconds that the work takes, best of three."""
    best = float("inf")
    for _ in range(3):
        start = time.perf_counter()
        work()
        best = min(best, time.perf_counter() - start)
    return round(best, 4)


def measure(lines: int, risk_lines: int, draws: int) -> dict[str, object]:
    """Return counts and seconds of pricing, breaks, sharing out and risk."""
    drivers = invented_drivers(lines)
    started = time.perf_counter()
    import numpy  # noqa: F401, PLC0415 - its import is measured

    numpy_import = round(time.perf_counter() - started, 4)
    risks = [invented_risk(index, line) for index, line in enumerate(drivers[:risk_lines])]
    plate_shares = [line.rolling_minutes for line in drivers]
    return {
        "lines": lines,
        "price_seconds": seconds(lambda: [price_line(line, RATES, RULES, CUTTING) for line in drivers]),
        "break_lines": risk_lines,
        "break_quantities": len(RULES.break_quantities),
        "break_seconds": seconds(lambda: [_breaks(line) for line in drivers[:risk_lines]]),
        "allocate_seconds": seconds(lambda: allocate(Decimal("123456.78"), plate_shares)),
        "risk_lines": risk_lines,
        "draws": draws,
        "risk_seconds": seconds(
            lambda: simulate(risks, RATES, RULES, CUTTING, RiskRules(), Drawing(SEED, draws))
        ),
        "numpy_import_seconds": numpy_import,
    }


def _breaks(line: CostDrivers) -> object:
    return break_prices(
        lambda quantity: price_line(replace(line, quantity=quantity), RATES, RULES, CUTTING),
        RULES.break_quantities,
    )


def main() -> None:
    """Print the measurements, as a table or as JSON."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--json", action="store_true", help="print one JSON object")
    parser.add_argument("--smoke", action="store_true", help="a small run that only shows that it works")
    chosen = parser.parse_args()
    found = measure(100, 10, 1000) if chosen.smoke else measure(5000, 200, 10_000)
    found |= recalculation.measure(12 if chosen.smoke else 300)
    if chosen.json:
        print(json.dumps(found))
    else:
        for name, value in found.items():
            print(f"{name:24} {value}")


if __name__ == "__main__":
    main()
