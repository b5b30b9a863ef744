"""The work of a week as a foreman sees it, from the record alone: to cut, to roll, to re-round."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from math import ceil
from typing import Any

from tests.benchmarks.honest.book import DAY, ShopBook, State, four_places

STATIONS = {"shear": "Shear", "thermal": "Thermal cutting"}


@dataclass(frozen=True)
class Task:
    """One piece of work: minutes on each machine that can do it, the quoted one first, and what it needs.

    It starts no sooner than `ready` and not before each of `after` has ended and its lag has gone by.
    """

    id: str
    line: str
    minutes: Mapping[str, int]
    ready: int = 0
    crew: int = 1
    crane: bool = False
    after: tuple[tuple[str, int], ...] = ()
    state: State | None = None
    due: int | None = None
    thickness: float = 0.0
    first_come: int = 0
    dearer: Mapping[str, Decimal] = field(default_factory=dict)


def tasks_of(
    record: Mapping[str, Any],
    book: ShopBook,
    lots: Mapping[str, int] | None = None,
    *,
    calendar_days: bool = False,
) -> list[Task]:
    """Return all work of the priced lines; `lots` are the parts of the first of two lots, by line.

    `calendar_days` counts lead days from the plan's first day over weekends, as the tool once did.
    """
    lots = lots or {}
    lines = [line for line in record["lines"] if line["state"] == "priced"]
    plates = {plate["id"]: (group, plate) for group in record["nest"] for plate in group["plates"]}
    ordered = date.fromisoformat(record["made"]["today"])
    arrives = {
        name: plate["lead_days"] * DAY if calendar_days else book.arrival(ordered, plate["lead_days"])
        for name, (_, plate) in plates.items()
    }
    place = {line["id"]: number for number, line in enumerate(lines)}
    cuts = [
        _cut(group, plate, arrives[name], [line for line in lines if name in line["plates"]], book, place)
        for name, (group, plate) in plates.items()
        if any(name in line["plates"] for line in lines)
    ]
    rolled: list[Task] = []
    for line in lines:
        for name, share, held in _in_lots(line, lots.get(line["id"]), plates, arrives):
            rolled += _rolling(line, name, share, held, book, place[line["id"]])
    return cuts + rolled


def due_minute(line: Mapping[str, Any], book: ShopBook) -> int | None:
    """Return the end of the line's due day."""
    if not line["due"]:
        return None
    return ((date.fromisoformat(line["due"]) - book.start).days + 1) * DAY


def _cut(
    group: Mapping[str, Any],
    plate: Mapping[str, Any],
    arrives: int,
    lines: Sequence[Mapping[str, Any]],
    book: ShopBook,
    place: Mapping[str, int],
) -> Task:
    dues = [due for line in lines if (due := due_minute(line, book)) is not None]
    return Task(
        id=f"cut {plate['id']}",
        line="",
        minutes={STATIONS[group["method"]]: max(1, ceil(plate["cutting_minutes"]))},
        ready=arrives,
        due=min(dues, default=None),
        thickness=group["thickness_mm"],
        first_come=min(place[line["id"]] for line in lines),
    )


def _in_lots(
    line: Mapping[str, Any], first: int | None, plates: Mapping[str, Any], arrives: Mapping[str, int]
) -> list[tuple[str, float, tuple[str, ...]]]:
    """Return name, share of the parts and plates of each lot; one for a line that is rolled whole."""
    names = tuple(line["plates"])
    if first is None:
        return [(line["id"], 1.0, names)]
    whole = line["quantity"]
    held = {name: sum(piece["id"] == line["id"] for piece in plates[name][1]["pieces"]) for name in names}
    each = line["blank"].get("pieces", 1)
    own: tuple[list[str], list[str]] = ([], [])
    if sum(held.values()) != each * whole or not all(held.values()):
        own = (list(names), list(names))
    else:
        taken = 0
        for name in sorted(names, key=lambda one: (arrives[one], names.index(one))):
            if taken < first * each:
                own[0].append(name)
            taken += held[name]
            if taken > first * each:
                own[1].append(name)
    return [
        (f"{line['id']} lot 1", first / whole, tuple(own[0])),
        (f"{line['id']} lot 2", (whole - first) / whole, tuple(own[1])),
    ]


def _rolling(
    line: Mapping[str, Any], name: str, share: float, held: Sequence[str], book: ShopBook, place: int
) -> list[Task]:
    state = State(
        line["thickness_mm"],
        line["family"],
        line["inside_diameter_mm"],
        line["shape"]["kind"] == "cone",
        line["lift"]["crane"],
        f"{line['material']} {line['thickness_mm']:.2f} x {line['inside_diameter_mm']:.1f}"
        f" x {line['blank']['width_mm']:.1f}",
    )
    again = {one["roll"]: one["re_round_minutes"] * share for one in line["rolls"]}
    before = {one["roll"]: one["minutes"]["likely"] * share - again[one["roll"]] for one in line["rolls"]}
    shared: dict[str, Any] = {
        "line": line["id"],
        "crew": line["lift"]["crew"],
        "crane": line["lift"]["crane"],
        "state": state,
        "due": due_minute(line, book),
        "thickness": line["thickness_mm"],
        "first_come": place,
    }
    minutes = {roll: max(1, ceil(length - 1e-9)) for roll, length in before.items()}
    after = tuple((f"cut {plate}", 0) for plate in held)
    tasks = [Task(f"roll {name}", minutes=minutes, after=after, dearer=_dearer(minutes, book), **shared)]
    if line["re_round"]:
        minutes = {roll: max(1, ceil(length)) for roll, length in again.items()}
        after = ((f"roll {name}", book.weld_minutes),)
        tasks.append(
            Task(f"re-round {name}", minutes=minutes, after=after, dearer=_dearer(minutes, book), **shared)
        )
    return tasks


def _dearer(minutes: Mapping[str, int], book: ShopBook) -> dict[str, Decimal]:
    """Return what each roll costs more than the one with the cheapest hour."""
    rates = book.rates
    cheapest = min(rates[roll] for roll in minutes)
    return {roll: four_places((rates[roll] - cheapest) * length / 60) for roll, length in minutes.items()}
