"""How long the main job takes, and how much memory: `python -m tests.benchmarks.spine --json`.

The demo's main job as a user starts it, cold, at normal and at quick effort (with the sequence);
200 generated lines quoted with their nests; 5,000 generated lines priced without nest and sequence.
`--smoke` leaves out the normal effort and takes a tenth of the generated lines.
"""

from __future__ import annotations

import json
import resource
import subprocess
import sys
import tempfile
import time
from datetime import date
from pathlib import Path
from random import Random

import click

from quoting.core import Arc, Basis, Cylinder, Order, OrderLine, Place, Shape
from quoting.estimating import estimate
from quoting.shop import Shop, load_shop

ROOT = Path(__file__).resolve().parents[2]
DEMO = ROOT / "demo_orders"
TODAY = date(2026, 11, 30)


def made_up_lines(count: int, shop: Shop, seed: int = 7) -> tuple[OrderLine, ...]:
    """Return lines of believable sizes, on plate that the shop can buy; same seed, same lines."""
    random = Random(seed)
    plates = [plate for plate in shop.stock if plate.buyable and plate.thickness_mm <= 12.7]
    lines = []
    for number in range(1, count + 1):
        plate = random.choice(plates)
        t = plate.thickness_mm
        inside = round(random.uniform(80 * t**0.5 + 20 * t, min(0.28 * plate.length_mm, 150 * t)), 1)
        width = round(random.uniform(300, min(0.9 * plate.width_mm, 1400)), 1)
        shape: Shape = Cylinder(inside, Basis.INSIDE, width)
        if random.random() < 0.15:
            shape = Arc(inside / 2, Basis.INSIDE, random.choice((60.0, 90.0, 120.0, 180.0)), width)
        lines.append(
            OrderLine(
                id=f"G-{number}",
                number=str(number),
                customer="Generated (invented)",
                place=Place("generated.xlsx", "Lines", number),
                quantity=random.choice((1, 1, 1, 2, 2, 3, 4, 6)),
                shape=shape,
                thickness_mm=t,
                material=plate.material,
            )
        )
    return tuple(lines)


def demo_seconds(effort: str) -> dict[str, float]:
    """Return wall seconds and peak MiB of the demo's main job, started as a process of its own."""
    with tempfile.TemporaryDirectory() as out:
        orders = sorted(str(path) for path in DEMO.glob("orders-*.xlsx"))
        command = [sys.executable, "-m", "scheduler", "run", *orders]
        command += ["--shop", str(DEMO / "shop"), "--out", out, "--today", TODAY.isoformat()]
        started = time.perf_counter()
        done = subprocess.run([*command, "--effort", effort], capture_output=True, text=True, check=False)
        seconds = time.perf_counter() - started
        if done.returncode not in (0, 1):
            raise SystemExit(f"the main job failed: {done.stderr}")
    peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
    return {"seconds": round(seconds, 2), "peak_mib": round(peak)}


def quoted_seconds(count: int, shop: Shop, *, nested: bool) -> dict[str, float]:
    """Return the seconds that pricing `count` generated lines takes, and how many of them were priced."""
    order = Order("generated.xlsx", "Generated (invented)", lines=made_up_lines(count, shop))
    started = time.perf_counter()
    found = estimate([order], shop, today=TODAY, effort="quick", nested=nested)
    seconds = time.perf_counter() - started
    priced = sum(line.price is not None for line in found.lines)
    return {"lines": count, "priced": priced, "seconds": round(seconds, 2)}


@click.command()
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object.")
@click.option("--smoke", is_flag=True, help="A short run that only shows that everything works.")
def main(as_json: bool, smoke: bool) -> None:
    """Time the main job."""
    shop = load_shop(DEMO / "shop")
    share = 10 if smoke else 1
    figures: dict[str, object] = {"demo_quick": demo_seconds("quick")}
    if not smoke:
        figures["demo_normal"] = demo_seconds("normal")
    figures["quoted"] = quoted_seconds(200 // share, shop, nested=True)
    figures["priced_without_nest"] = quoted_seconds(5000 // share, shop, nested=False)
    figures["peak_mib_here"] = round(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)
    if as_json:
        click.echo(json.dumps(figures))
    else:
        for name, value in figures.items():
            click.echo(f"{name}: {value}")


if __name__ == "__main__":
    main()
