"""The scheduler's wishes, pins and hard dates, and how they are said with clock times."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime

from scheduler.calendar import MinuteAxis, day_short
from scheduler.jobs import ROLL
from scheduler.sequence import Conflict, MustShip, Pin, Wish


@dataclass(frozen=True, slots=True)
class LinePin:
    """A wish about the rolling of one line; `where` says which entry of the file it is.

    With `lot` it is about that lot of a line that is split.
    `minutes_left` of a line that is running are what is still to be rolled of it, None for all its minutes.
    """

    line: str
    where: str
    roll: str | None = None
    start: datetime | None = None
    not_before: datetime | None = None
    before: str | None = None
    running: bool = False
    minutes_left: int | None = None
    lot: int | None = None

    def pin(self, axis: MinuteAxis) -> Pin:
        """Return the wish as the sequencers take it."""
        start, soonest = (None if m is None else axis.minute(m) for m in (self.start, self.not_before))
        before = None if self.before is None else f"{ROLL} {self.before}"
        rolling = f"{ROLL} {self.line}" + (f" lot {self.lot}" if self.lot else "")
        return Pin(rolling, self.roll, start, soonest, before, self.running)


@dataclass(frozen=True, slots=True)
class ShipDate:
    """A line that must be done by the end of a day."""

    line: str
    where: str
    day: date


@dataclass(frozen=True, slots=True)
class LineSplit:
    """A line that is rolled in two lots, `first` parts in the first one."""

    line: str
    where: str
    first: int


@dataclass(frozen=True, slots=True)
class KeepWhole:
    """A line that is not to be rolled in two lots."""

    line: str
    where: str


@dataclass(frozen=True, slots=True)
class PlateCut:
    """A plate that has been cut already, so that its blanks are there."""

    plate: str
    where: str


@dataclass(frozen=True, slots=True)
class Wishes:
    """All wishes of one file."""

    file: str
    pins: tuple[LinePin, ...] = ()
    ships: tuple[ShipDate, ...] = ()
    splits: tuple[LineSplit, ...] = ()
    whole: tuple[KeepWhole, ...] = ()
    cuts: tuple[PlateCut, ...] = ()

    @property
    def kept_whole(self) -> frozenset[str]:
        """Return the lines that are not to be rolled in two lots."""
        return frozenset(keep.line for keep in self.whole)

    @property
    def cut(self) -> frozenset[str]:
        """Return the plates that have been cut."""
        return frozenset(entry.plate for entry in self.cuts)

    @property
    def running(self) -> frozenset[str]:
        """Return the lines that are being rolled now, so that their plates have been cut."""
        return frozenset(pin.line for pin in self.pins if pin.running)

    @property
    def minutes_left(self) -> Mapping[str, int]:
        """Return the minutes still to be rolled of the lines that run now and say so."""
        return {
            pin.line: pin.minutes_left for pin in self.pins if pin.running and pin.minutes_left is not None
        }


NO_WISHES = Wishes("")


def wish_words(wish: Wish, axis: MinuteAxis) -> str:
    """Return a wish with its date and time, as the scheduler would say it."""
    if isinstance(wish, MustShip):
        return f"{wish.job} must ship by {day_short(axis.moment(wish.minute - 1))}"
    parts = [
        f"on {wish.machine}" if wish.machine is not None else "",
        "is running now" if wish.running else "",
        f"starts {_clock(axis, wish.start)}" if wish.start is not None else "",
        f"not before {_clock(axis, wish.not_before)}" if wish.not_before is not None else "",
        f"before {_line_of(wish.before)}" if wish.before is not None else "",
    ]
    return f"{_line_of(wish.operation)} " + ", ".join(part for part in parts if part)


def conflict_words(conflict: Conflict, axis: MinuteAxis) -> str:
    """Return which wishes cannot be kept together and which was given up."""
    dropped = wish_words(conflict.dropped, axis)
    if len(conflict.wishes) == 1:
        return f"No plan can keep this wish, so it was given up: {dropped}."
    said = "; ".join(wish_words(wish, axis) for wish in conflict.wishes)
    return f"These {len(conflict.wishes)} wishes cannot all be kept: {said}. Given up: {dropped}."


def _clock(axis: MinuteAxis, minute: int) -> str:
    moment = axis.moment(minute)
    return f"{day_short(moment)} {moment:%H:%M}"


def _line_of(operation: str) -> str:
    return operation.removeprefix(f"{ROLL} ")
