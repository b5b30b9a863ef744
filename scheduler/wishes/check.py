"""Whether the wishes make sense for these lines and this shop."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from datetime import date

from quoting.shop import Findings, did_you_mean
from scheduler.jobs import WonLine
from scheduler.wishes.wish_kinds import LinePin, LineSplit, Wishes


def check_wishes(
    wishes: Wishes, lines: Sequence[WonLine], rolls: Collection[str], plates: Collection[str], start: date
) -> None:
    """Raise BookError naming every wish about an unknown line, roll or plate or a time before the start."""
    found = Findings(wishes.file)
    known = {line.id: line for line in lines}
    running: dict[str, str] = {}
    for pin in wishes.pins:
        _pin(found, pin, known, wishes, start)
        if pin.line in known:
            _roll(found, pin, known[pin.line], rolls, running)
    for ship in wishes.ships:
        _known_line(found, ship.where, ship.line, known)
        if ship.day < start:
            _too_early(found, ship.where, f"{ship.day}", start)
    for split in wishes.splits:
        _known_line(found, split.where, split.line, known)
        if split.line in known:
            _split(found, split, known[split.line], wishes)
    for cut in wishes.cuts:
        if cut.plate not in plates:
            words = did_you_mean(cut.plate, plates) or "use an id of the cutting sheet"
            found.problem(cut.where, f"no plate to be cut is called {cut.plate}", would_do=words)
    for keep in wishes.whole:
        _known_line(found, keep.where, keep.line, known)
        if keep.line in {split.line for split in wishes.splits}:
            found.problem(keep.where, f"{keep.line} is split as well", would_do="leave out one of the two")
    found.raise_if_any()


def _pin(found: Findings, pin: LinePin, known: Collection[str], wishes: Wishes, start: date) -> None:
    _known_line(found, pin.where, pin.line, known)
    if pin.before is not None:
        _known_line(found, pin.where, pin.before, known)
        if pin.before == pin.line:
            found.problem(pin.where, f"{pin.line} cannot come before itself")
    if pin.lot and pin.line not in {split.line for split in wishes.splits}:
        found.problem(pin.where, f"{pin.line} is not split", would_do="write a [[split]] for it, or no lot")
    for moment in (pin.start, pin.not_before):
        if moment is not None and moment.date() < start:
            _too_early(found, pin.where, f"{moment:%Y-%m-%d %H:%M}", start)


def _split(found: Findings, split: LineSplit, line: WonLine, wishes: Wishes) -> None:
    if line.quantity < 2:
        found.problem(split.where, f"{line.id} is a single part", would_do="leave this split out")
    elif split.first >= line.quantity:
        words = f"write first = 1 to {line.quantity - 1}"
        found.problem(
            split.where, f"{line.id} has {line.quantity} parts", read=f"first = {split.first}", would_do=words
        )
    if any(other.line == line.id and other is not split for other in wishes.splits):
        found.problem(split.where, f"{line.id} is split twice", would_do="leave one of the splits out")
    pin = next(
        (pin for pin in wishes.pins if line.id == pin.before or (line.id == pin.line and not pin.lot)), None
    )
    if pin is not None:
        words = "say lot = 1 or lot = 2 in the pin" if pin.line == line.id else "leave out one of the two"
        found.problem(
            split.where, f"{line.id} is split, so {pin.where} cannot say where it goes", would_do=words
        )


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
        found.problem(
            pin.where,
            f"no roll is called {pin.roll}",
            would_do=did_you_mean(pin.roll, rolls) or "known are: " + ", ".join(rolls),
        )
    elif pin.roll is not None and pin.roll not in able:
        found.problem(pin.where, f"{pin.roll} cannot do {line.id}", would_do="able are: " + ", ".join(able))
    elif pin.running:
        roll = pin.roll or (able[0] if len(able) == 1 else "")
        if not roll:
            found.problem(pin.where, "is running: say on which roll", would_do="able are: " + ", ".join(able))
        elif roll in running:
            found.problem(pin.where, f"{running[roll]} is running on {roll} too")
        elif pin.minutes_left is not None:
            _minutes_left(found, pin, pin.minutes_left, line, roll)
        running[roll] = line.id


def _minutes_left(found: Findings, pin: LinePin, left: int, line: WonLine, roll: str) -> None:
    own = next(choice.rolling_minutes for choice in line.choices if choice.roll == roll)
    if left > own:
        found.problem(
            pin.where,
            f"{line.id} takes only {own} minutes on {roll}, so more cannot be left",
            read=f"minutes_left = {left}",
            would_do=f"write {own} or less, or leave minutes_left out for all of it",
        )
