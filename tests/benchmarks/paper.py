"""How fast the papers and the board are made, and how large: `python -m tests.benchmarks.paper --json`.

The jobs are invented from a seed on the starter shop's rolls: cylinders of many sizes, with passes worked out
by the forming room. Papers are written to a temporary folder; the board is opened in headless Chromium where
there is one, else its time is null.
"""

from __future__ import annotations

import argparse
import json
import random
import resource
import shutil
import tempfile
import time
from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta
from math import pi
from pathlib import Path
from typing import Any

from quoting.core import Ends
from quoting.drawings import code_sketch
from quoting.forming import RollTask, assess_many, plan_many
from quoting.record import BlankKindRecord, BlankRecord, PassesRecord, StepRecord
from quoting.shop import Roll, Shop, load_shop, write_starter
from scheduler.board import write_board
from scheduler.jobs import Setup, WonLine
from scheduler.jobs.won_lines import RollChoice
from scheduler.papers import paper_writers
from scheduler.week import PlannedOperation, WeekPlan
from tests.scheduler.books.sample import at, line, rolled, sample_week

SEED = 20_261
PAPER_JOBS, BOARD_JOBS, CODES = 100, 400, 200


def invented_week(shop: Shop, count: int) -> WeekPlan:
    """Return a week of that many jobs, one after the other on the shop's rolls."""
    rng = random.Random(SEED)
    slots: list[PlannedOperation] = []
    clock = {roll.name: at(0, "07:00") for roll in shop.rolls}
    for number in range(count):
        roll = shop.rolls[number % len(shop.rolls)]
        won = _job(rng, shop, roll, number)
        start = clock[roll.name] + timedelta(minutes=20)
        end = start + timedelta(minutes=rng.randint(15, 90))
        clock[roll.name] = end
        setup = Setup((('gap 3/8" -> 1/4", both ends', 12.0), ("first-off", 8.0)))
        slots.append(rolled(won, roll.name, setup, start, end))
    rolls = tuple(roll.name for roll in shop.rolls)
    return replace(
        sample_week(), rolls=rolls, stations=(), slots=tuple(slots), late=(), loads=(), open_times={}
    )


def _job(rng: random.Random, shop: Shop, roll: Roll, number: int) -> WonLine:
    thickness = rng.choice((3.2, 4.8, 6.35, 9.5))
    inside = max(rng.uniform(300, 1800), 1.2 * roll.least_inside_diameter_mm)
    width = rng.uniform(200, roll.working_length_mm)
    mean = inside + thickness
    task = RollTask(thickness, width, mean, pi * mean, 360.0, Ends.PRE_BEND, 200.0, shop.material("A36"))
    plan = plan_many((task,), roll, shop.passes, assess_many((task,), roll, shop.passes))[0]
    setting = PassesRecord(
        blank=f"J-{number}",
        quantity=2,
        pinch_gap_mm=plan.pinch_gap_mm,
        pre_bend_readout_mm=plan.pre_bend_readout_mm,
        flat_lead_mm=plan.flat_lead_mm,
        flat_tail_mm=plan.flat_tail_mm,
        stop_before_tail_mm=plan.stop_before_tail_mm,
        re_rolls=plan.re_rolls,
        tilt_mm_per_m=None,
        steps=tuple(
            StepRecord(
                step.number,
                step.final_radius_mm,
                step.loaded_radius_mm,
                step.readout_mm,
                step.lift_mm,
                step.end_leading,
                step.pre_bend,
                step.re_roll,
            )
            for step in plan.passes
        ),
        notes=tuple(plan.notes),
        kind=BlankKindRecord(pi * mean, width, None, pi * mean, 360.0, mean, None, 200.0),
        inside_diameter_band_mm=(inside * 0.95, inside * 1.1),
    )
    blank = BlankRecord(pi * mean, width, None, 200.0, 1, 1, 1, 200.0, ())
    return line(
        f"J-{number}",
        roll.name,
        thickness_mm=thickness,
        width_mm=width,
        diameter_mm=inside,
        blank=blank,
        choices=(RollChoice(roll.name, 60.0, 0.0, (setting,)),),
    )


def _timed(work: Callable[[], object]) -> float:
    begin = time.perf_counter()
    work()
    return round(time.perf_counter() - begin, 2)


def _opened(path: Path) -> float | None:
    """Return the seconds until the board is drawn in a browser that runs already."""
    chromium, driver = shutil.which("chromium"), shutil.which("chromedriver")
    if not (chromium and driver):
        return None
    from selenium import webdriver  # noqa: PLC0415
    from selenium.webdriver.chrome.service import Service  # noqa: PLC0415

    options = webdriver.ChromeOptions()
    for argument in ("--headless=new", "--no-sandbox", "--disable-gpu"):
        options.add_argument(argument)
    options.binary_location = chromium
    browser: Any = webdriver.Chrome(service=Service(driver), options=options)
    try:
        browser.set_window_size(1920, 1080)
        browser.get("about:blank")
        return _timed(lambda: (browser.get(f"{path.as_uri()}#now=2026-11-30T08:30"), browser.title))
    finally:
        browser.quit()


def measure(papers: int = PAPER_JOBS, board: int = BOARD_JOBS) -> dict[str, Any]:
    """Return seconds, sizes and memory."""
    found: dict[str, Any] = {"jobs_on_paper": papers, "jobs_on_board": board}
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder)
        write_starter(out / "shop")
        shop = load_shop(out / "shop")
        week = invented_week(shop, papers)
        for name, write in paper_writers(week, shop).items():
            kind = name.partition("-")[0]
            found[f"{kind}_seconds"] = _timed(lambda write=write, name=name: write(out / name))  # type: ignore[misc]
            found[f"{kind}_kb"] = round((out / name).stat().st_size / 1000)
        found["codes"] = CODES
        found["codes_seconds"] = _timed(lambda: [code_sketch(f"PIECE/J/{n}") for n in range(CODES)])
        found["paper_peak_mib"] = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
        large = invented_week(shop, board)
        found["board_seconds"] = _timed(lambda: write_board(large, shop, out / "board.html"))
        found["board_mb"] = round((out / "board.html").stat().st_size / 1e6, 2)
        found["board_open_seconds"] = _opened(out / "board.html")
    return found


def main() -> None:
    """Print what was measured."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--json", action="store_true", help="print as JSON")
    parser.add_argument("--jobs", type=int, default=PAPER_JOBS, help="jobs on paper")
    parser.add_argument("--board", type=int, default=BOARD_JOBS, help="jobs on the board")
    chosen = parser.parse_args()
    found = measure(chosen.jobs, chosen.board)
    if chosen.json:
        print(json.dumps(found, indent=1))
        return
    for name, value in found.items():
        print(f"{name:22} {value}")


if __name__ == "__main__":
    main()
