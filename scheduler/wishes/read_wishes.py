"""Reads the scheduler's wishes from a TOML file:

    [[pin]]
    line = "A-1"
    roll = "Heavy 10 ft"             # done there
    start = "2026-12-01 08:00"       # begins at exactly that minute
    not_before = "2026-12-01 08:00"  # begins no sooner
    before = "A-2"                   # has been rolled when that line begins
    running = true                   # is on its roll now: comes first there, without a set-up
    minutes_left = 45                # with running: what is still to be rolled, all of it when not given
    lot = 2                          # of a line that is split: which of its two lots

    [[must_ship]]
    line = "A-4"
    date = 2026-12-04                # done by the end of that day

    [[split]]
    line = "A-6"
    first = 3                        # rolled in two lots: 3 parts, and the others apart from them

    [[keep_whole]]
    line = "A-7"                     # never rolled in two lots

    [[cut]]
    plate = "P-104 #1"               # has been cut: its blanks are there

A pin needs its line and at least one of the others.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass
from datetime import date, datetime, time
from pathlib import Path
from typing import Any, TypeVar

from quoting.core import Place
from quoting.shop import Findings, did_you_mean
from quoting.tables import read_own_text, toml_data
from scheduler.wishes.wish_kinds import KeepWhole, LinePin, LineSplit, PlateCut, ShipDate, Wishes

_Wish = TypeVar("_Wish")

_KEYS: Mapping[str, tuple[str, ...]] = {
    "pin": ("line", "roll", "start", "not_before", "before", "running", "minutes_left", "lot"),
    "must_ship": ("line", "date"),
    "split": ("line", "first"),
    "keep_whole": ("line",),
    "cut": ("plate",),
}


def read_wishes(path: Path) -> Wishes:
    """Return the wishes of a file.

    Raises InputError when it cannot be read, and BookError naming every entry that makes no sense by itself.
    """
    data = toml_data(read_own_text(path, "the file of wishes"), Place(str(path)))
    found = Findings(path.name)
    for name in data:
        if name not in _KEYS:
            found.problem(f"[{name}]", "is unknown", would_do=_hint(name, _KEYS))
    pins = _read(data, "pin", _pin, found)
    ships = _read(data, "must_ship", _ship, found)
    splits = _read(data, "split", _split, found)
    whole = _read(data, "keep_whole", _keep, found)
    cuts = _read(data, "cut", _cut, found)
    found.raise_if_any()
    return Wishes(path.name, pins, ships, splits, whole, cuts)


@dataclass(frozen=True, slots=True)
class _Entry:
    """One entry of the file and where its problems go."""

    found: Findings
    kind: str
    number: int
    data: Mapping[str, Any]

    @property
    def where(self) -> str:
        line = self.data.get("line", self.data.get("plate"))
        return f"[[{self.kind}]] number {self.number}" + (f" ({line})" if isinstance(line, str) else "")

    def check_keys(self) -> None:
        for key in self.data:
            if key not in _KEYS[self.kind]:
                self.found.problem(self.where, f"{key} is unknown", would_do=_hint(key, _KEYS[self.kind]))

    def text(self, key: str) -> str | None:
        value = self.data.get(key)
        if value is None or (isinstance(value, str) and value):
            return value
        self.found.problem(self.where, f"{key} must be a name in quotes", read=value)
        return None

    def moment(self, key: str) -> datetime | None:
        value = self.data.get(key)
        if value is None:
            return None
        try:
            moment = value if isinstance(value, date) else datetime.fromisoformat(value)
        except (ValueError, TypeError):
            moment = None
        if isinstance(moment, date) and not isinstance(moment, datetime):
            moment = datetime.combine(moment, time())
        if moment is None or moment.tzinfo is not None or moment.second or moment.microsecond:
            would_do = 'write it as "2026-12-01 08:00", shop time'
            self.found.problem(self.where, f"{key} is no date and time", read=value, would_do=would_do)
            return None
        if not 2000 <= moment.year < 2100:
            self.found.problem(self.where, f"{key} must be a day from 2000 to 2099", read=value)
            return None
        return moment


def _hint(word: str, known: Collection[str]) -> str:
    return did_you_mean(word, known) or "known are: " + ", ".join(known)


def _entries(data: Mapping[str, Any], kind: str, found: Findings) -> list[Mapping[str, Any]]:
    entries = data.get(kind, [])
    if isinstance(entries, list) and all(isinstance(entry, dict) for entry in entries):
        return entries
    found.problem(kind, "must be a list of entries", would_do=f"write [[{kind}]] above each of them")
    return []


def _read(
    data: Mapping[str, Any], kind: str, make: Callable[[_Entry], _Wish], found: Findings
) -> tuple[_Wish, ...]:
    """Return all entries of a kind, each one's keys checked first."""
    entries = [_Entry(found, kind, k, entry) for k, entry in enumerate(_entries(data, kind, found), 1)]
    made: list[_Wish] = []
    for entry in entries:
        entry.check_keys()
        made.append(make(entry))
    return tuple(made)


def _pin(entry: _Entry) -> LinePin:
    running = entry.data.get("running", False)
    if not isinstance(running, bool):
        entry.found.problem(entry.where, "running must be true or false", read=running)
    pin = LinePin(
        _line(entry),
        entry.where,
        entry.text("roll"),
        entry.moment("start"),
        entry.moment("not_before"),
        entry.text("before"),
        running is True,
        _minutes_left(entry),
        _lot(entry),
    )
    if not set(entry.data) - {"line", "lot"}:
        entry.found.problem(
            entry.where, "wishes nothing", would_do="give one of: " + ", ".join(_KEYS["pin"][1:])
        )
    return pin


def _minutes_left(entry: _Entry) -> int | None:
    value = entry.data.get("minutes_left")
    if value is None:
        return None
    if isinstance(value, bool) or not isinstance(value, int) or value < 1:
        entry.found.problem(
            entry.where,
            "minutes_left must be a whole number of minutes, at least 1",
            read=value,
            would_do="a line that is done needs no pin: leave it out of the won lines",
        )
        return None
    if entry.data.get("running") is not True:
        entry.found.problem(
            entry.where, "minutes_left goes only with a line that runs now", would_do="write running = true"
        )
    return value


def _lot(entry: _Entry) -> int | None:
    value = entry.data.get("lot")
    if value is None or (value in (1, 2) and not isinstance(value, bool)):
        return value
    entry.found.problem(entry.where, "lot must be 1 or 2", read=value, would_do="write lot = 2")
    return None


def _ship(entry: _Entry) -> ShipDate:
    day = entry.moment("date")
    if "date" not in entry.data:
        entry.found.problem(entry.where, "has no date", would_do="write date = 2026-12-04")
    return ShipDate(_line(entry), entry.where, (day or datetime.min).date())


def _split(entry: _Entry) -> LineSplit:
    first = entry.data.get("first")
    if isinstance(first, bool) or not isinstance(first, int) or first < 1:
        words = "first must say how many parts the first lot has, at least 1"
        entry.found.problem(entry.where, words, read=first, would_do="write first = 2")
        first = 1
    return LineSplit(_line(entry), entry.where, first)


def _keep(entry: _Entry) -> KeepWhole:
    return KeepWhole(_line(entry), entry.where)


def _cut(entry: _Entry) -> PlateCut:
    if "plate" not in entry.data:
        entry.found.problem(entry.where, "names no plate", would_do='write plate = "P-104 #1"')
    return PlateCut(entry.text("plate") or "", entry.where)


def _line(entry: _Entry) -> str:
    if "line" not in entry.data:
        entry.found.problem(entry.where, "names no line", would_do='write line = "A-1"')
    return entry.text("line") or ""
