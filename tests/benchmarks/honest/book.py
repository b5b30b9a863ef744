"""The shop's book as a foreman reads it: working minutes, people, prices and set-ups, straight from the file.

Own code from the file on: nothing of the scheduler is used here, so that a slip in it is not copied.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from functools import cached_property
from math import floor
from pathlib import Path
from typing import Any

DAY = 1440
WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
MM = 25.4


def four_places(money: Decimal) -> Decimal:
    """Return money rounded to the four decimals in which plans are counted."""
    return money.quantize(Decimal("0.0001"))


@dataclass(frozen=True)
class State:
    """How a roll stands: gap (mm), metal, diameter (mm), cone, crane rigged, and which part was rolled."""

    gap: float | None
    metal: str | None
    diameter: float | None = None
    cone: bool = False
    crane: bool = False
    part: str | None = None


@dataclass(frozen=True)
class ShopBook:
    """A shop's book over `weeks` weeks from the morning of `start`; minute 0 is midnight of that day."""

    data: dict[str, Any]
    start: date
    weeks: int

    @classmethod
    def read(cls, folder: Path, start: date, weeks: int = 0) -> ShopBook:
        """Read shop.toml of a folder; without `weeks` the book's own horizon holds."""
        data = tomllib.loads((folder / "shop.toml").read_text("utf-8"))
        return cls(data, start, weeks or data["working_time"]["horizon_weeks"])

    @property
    def minutes(self) -> int:
        """Length of the plan."""
        return self.weeks * 7 * DAY

    @property
    def rolls(self) -> list[str]:
        """Names of the rolls."""
        return [roll["name"] for roll in self.data["roll"]]

    @property
    def rates(self) -> dict[str, Decimal]:
        """What an hour of each roll costs."""
        return {roll["name"]: Decimal(str(roll["rate_per_hour"])) for roll in self.data["roll"]}

    @property
    def cranes(self) -> int:
        """How many cranes there are."""
        return int(self.data["working_time"]["cranes"])

    @property
    def weld_minutes(self) -> int:
        """Clock minutes a shell is away for welding."""
        return int(self.data["working_time"]["weld_days"]) * DAY

    @property
    def late_minute(self) -> Decimal:
        """What a minute late weighs."""
        return four_places(Decimal(str(self.data["working_time"]["late_cost_per_day"])) / DAY)

    @property
    def setup_minute(self) -> Decimal:
        """What a set-up minute costs."""
        return four_places(Decimal(str(self.data["rates"]["setup_per_hour"])) / 60)

    @property
    def overtime_minute(self) -> Decimal:
        """What a minute of overtime costs: the operator and one helper."""
        rates = self.data["rates"]
        hour = Decimal(str(rates["operator_per_hour"])) + Decimal(str(rates["helper_per_hour"]))
        return four_places(hour * Decimal(str(self.data["working_time"]["overtime_factor"])) / 60)

    def closed(self, day: date, machine: str = "") -> bool:
        """Return whether the shop, or this machine, stands on a day."""
        return any(
            entry["first"] <= day <= entry.get("last", entry["first"])
            and entry.get("machine", "") in ("", machine)
            for entry in self.data.get("closed", ())
        )

    def worked_day(self, day: date) -> bool:
        """Return whether the shop works on a day at all."""
        days = {name[:3].casefold() for shift in self.data["shift"] for name in shift["days"]}
        return WEEKDAYS[day.weekday()] in days and not self.closed(day)

    @cached_property
    def shifts(self) -> list[tuple[int, int, bool, int]]:
        """Every stretch of work: first minute, minute after the last, whether overtime, people."""
        found: list[tuple[int, int, bool, int]] = []
        more = round(self.data["working_time"]["overtime_per_day_hours"] * 60)
        for number in range(self.weeks * 7):
            name = WEEKDAYS[(self.start + timedelta(days=number)).weekday()]
            for shift in self.data["shift"]:
                if name not in {entry[:3].casefold() for entry in shift["days"]}:
                    continue
                at, end = (number * DAY + _minute(shift[key]) for key in ("start", "end"))
                for text in sorted(shift.get("breaks", ())):
                    pause, again = (number * DAY + _minute(part) for part in text.split("-"))
                    found.append((at, pause, False, shift["crew"]))
                    at = again
                found.append((at, end, False, shift["crew"]))
                last = min(end + more, (number + 1) * DAY - 1)
                if last > end:
                    found.append((end, last, True, shift["crew"]))
        return found

    def open_minutes(self, machine: str, *, overtime: bool) -> list[int]:
        """Return the minutes in which a machine may work, in regular time or in overtime."""
        return [
            minute
            for begin, end, extra, _ in self.shifts
            if extra == overtime and not self.closed(self.start + timedelta(days=begin // DAY), machine)
            for minute in range(begin, end)
        ]

    @cached_property
    def people(self) -> list[int]:
        """How many people are there in each minute."""
        there = [0] * self.minutes
        for begin, end, _, crew in self.shifts:
            for minute in range(begin, end):
                there[minute] += crew
        return there

    def first_state(self, roll: str) -> State:
        """Return how a roll stands at the start."""
        entry = next(one for one in self.data["roll"] if one["name"] == roll)
        gap = entry.get("set_thickness_in")
        mm = entry.get("set_thickness_mm") if gap is None else gap * MM
        return State(mm, entry.get("set_family") or None)

    def setup(self, before: State, after: State) -> int:
        """Return the set-up minutes from one state of a roll to the next."""
        book = self.data["setups"]
        if after.part is not None and after.part == before.part:
            return _nearest(book["same_min"])
        assert after.gap is not None
        total = 0.0
        step = after.gap if before.gap is None else abs(after.gap - before.gap)
        if before.gap is None or step > 0.05:
            total += book["gap_fixed_min"] + book["gap_min_per_in"] / MM * step
        assert after.diameter is not None
        if before.diameter is None or abs(after.diameter - before.diameter) > 0.5:
            total += book["bending_roll_min"]
        total += book["cone_tilt_min"] * (before.cone != after.cone)
        total += book["cleaning_min"] * (after.metal == "stainless" and before.metal != "stainless")
        total += book["crane_rig_min"] * (after.crane and not before.crane)
        return _nearest(total + book["first_off_min"])

    def arrival(self, ordered: date, lead_days: int) -> int:
        """Return the minute from which a plate ordered that day is there: lead days are working days."""
        day = ordered
        for _ in range(lead_days):
            day += timedelta(days=1)
            while not self.worked_day(day):
                day += timedelta(days=1)
        return max(0, (day - self.start).days * DAY) if lead_days else 0

    def minute_of(self, moment: str) -> int:
        """Return the minute of a clock time of the record."""
        begin = datetime.combine(self.start, time())
        return int((datetime.fromisoformat(moment) - begin) / timedelta(minutes=1))


def _nearest(minutes: float) -> int:
    """Return whole minutes, a half counted up; sums of decimals may be a hair off it."""
    return floor(minutes + 0.5 + 1e-6)


def _minute(clock: str) -> int:
    hours, minutes = clock.strip().split(":")
    return int(hours) * 60 + int(minutes)
