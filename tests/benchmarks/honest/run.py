"""Invented weeks through the main job as a user starts it, and what the foreman's count says of each plan."""

from __future__ import annotations

import json
import subprocess
import sys
import time
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass
from datetime import date
from itertools import pairwise
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from typing import Any

from tests.benchmarks.honest.book import ShopBook
from tests.benchmarks.honest.foreman import RULES, Count, Done, dispatch
from tests.benchmarks.honest.sheets import TODAY, write_week
from tests.benchmarks.honest.work import tasks_of

DEMO_SHOP = Path(__file__).resolve().parents[3] / "demo_orders" / "shop"
WEEKS = 40
"""Weeks that the count reaches ahead: further than any plan here."""


@dataclass(frozen=True)
class Planned:
    """One plan: its money as the tool says and as counted here, rules found broken, seconds, bound."""

    money: float
    counted: float
    faults: tuple[str, ...]
    seconds: float
    bound: float
    left_out: int


@dataclass(frozen=True)
class HonestWeek:
    """One invented week: its dispatches, its plans by effort, and the quick plan pinned to itself."""

    week: int
    lines: int
    priced: int
    operations: int
    run_seconds: float
    dispatches: dict[str, float]
    plans: dict[str, Planned]
    pinned: Planned | None
    notes_with_pins: tuple[str, ...] = ()

    @property
    def best_dispatch(self) -> float:
        """Return the money of the best hand rule."""
        return min(self.dispatches.values())


def honest_weeks(
    seeds: Sequence[int], efforts: Sequence[str], keep: Path | None = None, *, pins: bool = True
) -> Iterator[HonestWeek]:
    """Yield each invented week, planned and counted. In `keep` the records stay, and are taken up again."""
    with TemporaryDirectory() as temporary:
        for seed in seeds:
            yield _week(seed, efforts, (keep or Path(temporary)) / f"week-{seed}", pins=pins)


def summary(weeks: Sequence[HonestWeek]) -> dict[str, Any]:
    """Return how many weeks keep what is asked of all."""
    efforts = list(weeks[0].plans)
    found: dict[str, Any] = {"weeks": len(weeks)}
    for effort in efforts:
        plans = [week.plans[effort] for week in weeks]
        found[effort] = {
            "at most the best dispatch": sum(
                week.plans[effort].money <= week.best_dispatch + 0.005 for week in weeks
            ),
            "over the best dispatch, median": round(
                median(week.plans[effort].money / max(week.best_dispatch, 1) for week in weeks), 4
            ),
            "counted the same, no rule broken": sum(
                not plan.faults and abs(plan.money - plan.counted) < 0.005 for plan in plans
            ),
            "money": round(sum(plan.money for plan in plans), 2),
            "bound": round(sum(plan.bound for plan in plans), 2),
            "seconds, median": round(median(plan.seconds for plan in plans), 1),
            "seconds, most": round(max(plan.seconds for plan in plans), 1),
            "left out": sum(plan.left_out for plan in plans),
        }
    for less, more in pairwise(efforts):
        ratios = [week.plans[less].money / max(week.plans[more].money, 1) for week in weeks]
        found[f"{less} over {more}"] = {
            "median": round(median(ratios), 4), "most": round(max(ratios), 4), "least": round(min(ratios), 4)
        }  # fmt: skip
    found["pins give the plan again"] = sum(_again(week) for week in weeks)
    return found


def _again(week: HonestWeek) -> bool:
    plan = next(iter(week.plans.values()))
    return (
        week.pinned is not None and not week.notes_with_pins and abs(week.pinned.money - plan.money) < 0.005
    )


def as_json(week: HonestWeek) -> str:
    """Return a week on one line."""
    return json.dumps({**asdict(week), "best_dispatch": week.best_dispatch})


def _week(seed: int, efforts: Sequence[str], folder: Path, *, pins: bool) -> HonestWeek:
    seconds = 0.0
    if not (folder / "run" / "result.json").exists():
        sheet, shop = write_week(folder, seed, DEMO_SHOP)
        options = ("--shop", shop, "--today", TODAY, "--effort", "quick")
        seconds = _rollwright("run", sheet, *options, "--out", folder / "run")
    record_path = folder / "run" / "result.json"
    record = json.loads(record_path.read_text("utf-8"))
    plans: dict[str, Planned] = {}
    schedules: list[dict[str, Any]] = []
    for effort in efforts:
        made, spent = _scheduled(record_path, folder, effort)
        schedules.append(made)
        plans[effort] = _planned(record, made, folder / "shop", spent)
    first = schedules[0]
    book = ShopBook.read(folder / "shop", date.fromisoformat(first["start"]), WEEKS)
    tasks = tasks_of(record, book)
    pinned: Planned | None = None
    notes: tuple[str, ...] = ()
    if pins:
        wishes = folder / "pins.toml"
        wishes.write_text(pins_of(first), "utf-8")
        made, spent = _scheduled(record_path, folder, efforts[0], wishes)
        pinned, notes = _planned(record, made, folder / "shop", spent), _given_up(made)
    return HonestWeek(
        week=seed,
        lines=len(record["lines"]),
        priced=sum(line["state"] == "priced" for line in record["lines"]),
        operations=len(tasks),
        run_seconds=round(seconds, 1),
        dispatches={
            name: round(float(Count(dispatch(tasks, book, rule), book).money().total), 4)
            for name, rule in RULES.items()
        },
        plans=plans,
        pinned=pinned,
        notes_with_pins=notes,
    )


def _given_up(schedule: Mapping[str, Any]) -> tuple[str, ...]:
    return tuple(note for note in schedule["notes"] if "given up" in note.casefold())


def _scheduled(
    record: Path, folder: Path, effort: str, wishes: Path | None = None
) -> tuple[dict[str, Any], float]:
    out = folder / f"{effort}{'-pinned' if wishes else ''}"
    more = ("--wishes", wishes) if wishes else ()
    spent = _rollwright(
        "schedule", record, "--shop", folder / "shop", "--effort", effort, "--force", *more, "--out", out
    )
    return json.loads((out / "result.json").read_text("utf-8"))["schedule"], spent


def _rollwright(*arguments: object) -> float:
    """Run a command as a user does; return its seconds."""
    began = time.monotonic()
    command = [sys.executable, "-m", "scheduler", *(str(argument) for argument in arguments)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    if done.returncode not in (0, 1):
        raise SystemExit(f"{' '.join(command)} failed: {done.stderr[-2000:]}")
    return time.monotonic() - began


def _planned(record: Mapping[str, Any], schedule: Mapping[str, Any], shop: Path, seconds: float) -> Planned:
    book = ShopBook.read(shop, date.fromisoformat(schedule["start"]), WEEKS)
    tasks = tasks_of(record, book, lots_of(schedule))
    by_id = {task.id: task for task in tasks}
    done = [
        Done(
            by_id[one["id"]],
            one["machine"],
            book.minute_of(one["setup_start"]),
            one["setup_minutes"],
            book.minute_of(one["start"]),
            book.minute_of(one["end"]),
        )
        for one in schedule["operations"]
    ]
    extra: dict[str, list[tuple[int, int]]] = {}
    for one in schedule["overtime"]:
        extra.setdefault(one["machine"], []).append(
            (book.minute_of(one["start"]), book.minute_of(one["end"]))
        )
    count = Count(done, book, extra)
    return Planned(
        money=float(schedule["objective"]["total"]),
        counted=float(count.money().total),
        faults=tuple(count.faults(tasks)[:5]),
        seconds=round(seconds, 1),
        bound=float(schedule["bound"]),
        left_out=len(schedule["unplanned"]),
    )


def lots_of(schedule: Mapping[str, Any]) -> dict[str, int]:
    """Return the parts of the first lot of each line that is rolled in two."""
    return {
        one["line"]: one["lot"]["parts"]
        for one in schedule["operations"]
        if one["lot"] and one["id"].endswith("lot 1")
    }


def pins_of(schedule: Mapping[str, Any]) -> str:
    """Return wishes that hold every line of a plan on its roll at its minute, lots as they are."""
    text = [f'[[split]]\nline = "{line}"\nfirst = {first}\n' for line, first in lots_of(schedule).items()]
    for one in schedule["operations"]:
        if one["kind"] == "roll":
            lot = f"lot = {one['id'][-1]}\n" if one["lot"] else ""
            start = one["start"].replace("T", " ")[:16]
            text.append(
                f'[[pin]]\nline = "{one["line"]}"\n{lot}roll = "{one["machine"]}"\nstart = "{start}"\n'
            )
    return "\n".join(text)
