"""The scheduler's wishes: pins and hard dates read from a TOML file, and in words with clock times.

    [[pin]]
    line = "A-1"
    roll = "Heavy 10 ft"             # done there
    start = "2026-12-01 08:00"       # begins at exactly that minute
    not_before = "2026-12-01 08:00"  # begins no sooner
    before = "A-2"                   # has been rolled when that line begins
    running = true                   # is on its roll now: comes first there, without a set-up

    [[must_ship]]
    line = "A-4"
    date = 2026-12-04                # done by the end of that day

A pin needs its line and at least one of the others.
"""

from __future__ import annotations

import tomllib
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time
from pathlib import Path
from typing import Any

from quoting.errors import InputError, Place
from quoting.shop.findings import Findings, did_you_mean
from scheduler.operations import ROLL
from scheduler.sequence import Conflict, MustShip, Pin, Wish
from scheduler.shifts import Axis
from scheduler.won import WonLine

_KEYS: Mapping[str, tuple[str, ...]] = {
    "pin": ("line", "roll", "start", "not_before", "before", "running"),
    "must_ship": ("line", "date"),
}


@dataclass(frozen=True, slots=True)
class LinePin:
    """A wish about the rolling of one line; `where` says which entry of the file it is."""

    line: str
    where: str
    roll: str | None = None
    start: datetime | None = None
    not_before: datetime | None = None
    before: str | None = None
    running: bool = False

    def pin(self, axis: Axis) -> Pin:
        """Return the wish as the sequencers take it."""
        start, soonest = (None if m is None else axis.minute(m) for m in (self.start, self.not_before))
        before = None if self.before is None else f"{ROLL} {self.before}"
        return Pin(f"{ROLL} {self.line}", self.roll, start, soonest, before, self.running)


@dataclass(frozen=True, slots=True)
class ShipDate:
    """A line that must be done by the end of a day."""

    line: str
    where: str
    day: date


@dataclass(frozen=True, slots=True)
class Wishes:
    """All wishes of one file."""

    file: str
    pins: tuple[LinePin, ...] = ()
    ships: tuple[ShipDate, ...] = ()

    @property
    def running(self) -> frozenset[str]:
        """Return the lines that are being rolled now, so that their plates have been cut."""
        return frozenset(pin.line for pin in self.pins if pin.running)


NO_WISHES = Wishes("")


def read_wishes(path: Path) -> Wishes:
    """Return the wishes of a file.

    Raises InputError when it cannot be read, and BookError naming every entry that makes no sense by itself.
    """
    try:
        data = tomllib.loads(path.read_text("utf-8"))
    except (OSError, UnicodeDecodeError) as error:
        raise InputError("the wishes cannot be read", place=Place(str(path)), read=str(error)) from error
    except tomllib.TOMLDecodeError as error:
        raise InputError(f"this is no TOML: {error}", place=Place(str(path))) from error
    found = Findings(path.name)
    for name in data:
        if name not in _KEYS:
            found.problem(f"[{name}]", "is unknown", would_do=_hint(name, _KEYS))
    pins = tuple(_pin(_Entry(found, "pin", k, e)) for k, e in enumerate(_entries(data, "pin", found), 1))
    ships = tuple(
        _ship(_Entry(found, "must_ship", k, e)) for k, e in enumerate(_entries(data, "must_ship", found), 1)
    )
    found.raise_if_any()
    return Wishes(path.name, pins, ships)


def check_wishes(wishes: Wishes, lines: Sequence[WonLine], rolls: Collection[str], start: date) -> None:
    """Raise BookError naming every wish about an unknown line or roll or a time before the plan's start."""
    found = Findings(wishes.file)
    known = {line.id: line for line in lines}
    running: dict[str, str] = {}
    for pin in wishes.pins:
        _known_line(found, pin.where, pin.line, known)
        if pin.before is not None:
            _known_line(found, pin.where, pin.before, known)
            if pin.before == pin.line:
                found.problem(pin.where, f"{pin.line} cannot come before itself")
        for moment in (pin.start, pin.not_before):
            if moment is not None and moment.date() < start:
                _too_early(found, pin.where, f"{moment:%Y-%m-%d %H:%M}", start)
        if pin.line in known:
            _roll(found, pin, known[pin.line], rolls, running)
    for ship in wishes.ships:
        _known_line(found, ship.where, ship.line, known)
        if ship.day < start:
            _too_early(found, ship.where, f"{ship.day}", start)
    found.raise_if_any()


def wish_words(wish: Wish, axis: Axis) -> str:
    """Return a wish with its date and time, as the scheduler would say it."""
    if isinstance(wish, MustShip):
        return f"{wish.job} must ship by {axis.moment(wish.minute - 1):%a %d %b}"
    parts = [
        f"on {wish.machine}" if wish.machine is not None else "",
        "is running now" if wish.running else "",
        f"starts {axis.moment(wish.start):%a %d %b %H:%M}" if wish.start is not None else "",
        f"not before {axis.moment(wish.not_before):%a %d %b %H:%M}" if wish.not_before is not None else "",
        f"before {_line_of(wish.before)}" if wish.before is not None else "",
    ]
    return f"{_line_of(wish.operation)} " + ", ".join(part for part in parts if part)


def conflict_words(conflict: Conflict, axis: Axis) -> str:
    """Return which wishes cannot be kept together and which was given up."""
    dropped = wish_words(conflict.dropped, axis)
    if len(conflict.wishes) == 1:
        return f"No plan can keep this wish, so it was given up: {dropped}."
    said = "; ".join(wish_words(wish, axis) for wish in conflict.wishes)
    return f"These {len(conflict.wishes)} wishes cannot all be kept: {said}. Given up: {dropped}."


def _line_of(operation: str) -> str:
    return operation.removeprefix(f"{ROLL} ")


@dataclass(frozen=True, slots=True)
class _Entry:
    """One entry of the file and where its problems go."""

    found: Findings
    kind: str
    number: int
    data: Mapping[str, Any]

    @property
    def where(self) -> str:
        line = self.data.get("line")
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
        return moment


def _hint(word: str, known: Collection[str]) -> str:
    return did_you_mean(word, known) or "known are: " + ", ".join(known)


def _entries(data: Mapping[str, Any], kind: str, found: Findings) -> list[Mapping[str, Any]]:
    entries = data.get(kind, [])
    if isinstance(entries, list) and all(isinstance(entry, dict) for entry in entries):
        return entries
    found.problem(kind, "must be a list of entries", would_do=f"write [[{kind}]] above each of them")
    return []


def _pin(entry: _Entry) -> LinePin:
    entry.check_keys()
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
    )
    if not set(entry.data) - {"line"}:
        entry.found.problem(
            entry.where, "wishes nothing", would_do="give one of: " + ", ".join(_KEYS["pin"][1:])
        )
    return pin


def _ship(entry: _Entry) -> ShipDate:
    entry.check_keys()
    day = entry.moment("date")
    if "date" not in entry.data:
        entry.found.problem(entry.where, "has no date", would_do="write date = 2026-12-04")
    return ShipDate(_line(entry), entry.where, (day or datetime.min).date())


def _line(entry: _Entry) -> str:
    if "line" not in entry.data:
        entry.found.problem(entry.where, "names no line", would_do='write line = "A-1"')
    return entry.text("line") or ""


def _known_line(found: Findings, where: str, line: str, known: Collection[str]) -> None:
    if line not in known:
        few = "the lines are: " + ", ".join(list(known)[:5])
        found.problem(
            where, f"no line to be made is called {line}", would_do=did_you_mean(line, known) or few
        )


def _too_early(found: Findings, where: str, read: str, start: date) -> None:
    found.problem(where, f"is before the plan's first day, {start}", read=read)


def _roll(
    found: Findings, pin: LinePin, line: WonLine, rolls: Collection[str], running: dict[str, str]
) -> None:
    able = [choice.roll for choice in line.choices if choice.roll in rolls]
    if pin.roll is not None and pin.roll not in rolls:
        found.problem(pin.where, f"no roll is called {pin.roll}", would_do=_hint(pin.roll, rolls))
    elif pin.roll is not None and pin.roll not in able:
        found.problem(pin.where, f"{pin.roll} cannot do {line.id}", would_do="able are: " + ", ".join(able))
    elif pin.running:
        roll = pin.roll or (able[0] if len(able) == 1 else "")
        if not roll:
            found.problem(pin.where, "is running: say on which roll", would_do="able are: " + ", ".join(able))
        elif roll in running:
            found.problem(pin.where, f"{running[roll]} is running on {roll} too")
        running[roll] = line.id
